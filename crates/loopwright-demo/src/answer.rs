//! What a verb gives back, and the shapes that every verb's JSON shares.

use crate::Units;
use loopwright::gauge::{Exact, Length, Precision, Rows, Unit};
use serde_json::{Value, json};

/// An answer in both voices: text for people, one JSON object for programs.
#[derive(Debug)]
pub(crate) struct Answer {
    pub(crate) text: String,
    pub(crate) json: Value,
}

/// Why there is no answer; the text is one sentence.
#[derive(Debug)]
pub(crate) enum Failure {
    /// The input is wrong: exit code 2.
    Input(String),
    /// The input is right, but the work cannot be done: exit code 1.
    Work(String),
    /// The same, where the reason has a shape of its own: its JSON is printed too.
    Refused(Answer),
}

/// What any room refuses: work that cannot be done, or input that is wrong.
impl<E> From<E> for Failure
where
    loopwright::Error: From<E>,
{
    fn from(error: E) -> Self {
        let error = loopwright::Error::from(error);
        let told = error.to_string();
        if error.is_impossible() { Self::Work(told) } else { Self::Input(told) }
    }
}

/// A length as the contract shows it: a number to read, and the exact value.
pub(crate) fn length(length: Length) -> Value {
    let exact = length.millimetres();
    json!({ "mm": exact.to_f64_lossy(), "exact_mm": fraction(exact) })
}

/// An exact number as `n/d`, the denominator always shown.
pub(crate) fn fraction(exact: Exact) -> String {
    format!("{}/{}", exact.numer(), exact.denom())
}

/// A length in words, in the units asked for.
pub(crate) fn say(length: Length, units: Units) -> String {
    let cm = length.display(Unit::Centimetre, Precision::Decimals(1));
    let inches = length.display(Unit::Inch, Precision::Fraction(8));
    match units {
        Units::Cm => cm.to_string(),
        Units::In => inches.to_string(),
        Units::Both => format!("{cm} ({inches})"),
    }
}

/// "1 row", "2 rows".
pub(crate) fn say_rows(rows: Rows) -> String {
    format!("{rows} {}", if rows.get() == 1 { "row" } else { "rows" })
}
