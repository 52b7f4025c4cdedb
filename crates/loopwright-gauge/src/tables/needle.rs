//! US needle numbers, as published.

use crate::{Exact, Length};

/// US numbers with their diameters in hundredths of a millimetre, rising. Three
/// numbers are made in two diameters, and the trade does not agree which is meant.
const US: [(&str, &[i64]); 22] = [
    ("000", &[150]),
    ("00", &[175]),
    ("0", &[200]),
    ("1", &[225, 250]),
    ("1.5", &[250]),
    ("2", &[275, 300]),
    ("3", &[325]),
    ("4", &[350]),
    ("5", &[375]),
    ("6", &[400]),
    ("7", &[450]),
    ("8", &[500]),
    ("9", &[550]),
    ("10", &[600]),
    ("10.5", &[650]),
    ("11", &[800]),
    ("13", &[900]),
    ("15", &[1000]),
    ("17", &[1200, 1275]),
    ("19", &[1500]),
    ("35", &[1900]),
    ("50", &[2500]),
];

fn diameter(hundredths: i64) -> Length {
    Length::literal(Exact::literal(hundredths, 100))
}

/// The diameters a US needle number is made in: more than one where the trade does not
/// agree, none when there is no such number.
///
/// # Examples
/// ```
/// use loopwright_gauge::us_needle_diameters;
/// let diameters: Vec<String> = us_needle_diameters("1").map(|d| d.to_string()).collect();
/// assert_eq!(diameters, ["9/4 mm", "5/2 mm"]);
/// ```
pub fn us_needle_diameters(number: &str) -> impl Iterator<Item = Length> {
    let found = US.iter().filter(move |&&(label, _)| label == number);
    found.flat_map(|(_, made)| made.iter().copied().map(diameter))
}

/// The US numbers a needle of this diameter may carry: none, one or two.
///
/// # Examples
/// ```
/// use loopwright_gauge::us_needle_numbers;
/// let numbers: Vec<&str> = us_needle_numbers("2.5 mm".parse()?).collect();
/// assert_eq!(numbers, ["1", "1.5"]);
/// # Ok::<(), loopwright_gauge::Error>(())
/// ```
pub fn us_needle_numbers(of: Length) -> impl Iterator<Item = &'static str> {
    let made_so = move |made: &[i64]| made.iter().any(|&hundredths| diameter(hundredths) == of);
    US.iter().filter(move |&&(_, made)| made_so(made)).map(|&(label, _)| label)
}
