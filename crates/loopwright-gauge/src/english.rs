//! The small words that every crate's sentences are made of.

use alloc::string::{String, ToString as _};
use core::fmt;

/// A count with its noun: `1 row`, `2 rows`, `0 stitches`.
///
/// # Examples
/// ```
/// use loopwright_gauge::english::counted;
/// assert_eq!(counted(1, "stitch").to_string(), "1 stitch");
/// assert_eq!(counted(12, "stitch").to_string(), "12 stitches");
/// assert_eq!(counted(0, "buttonhole").to_string(), "0 buttonholes");
/// ```
pub fn counted(count: impl Into<i128>, one: &str) -> impl fmt::Display {
    let count = count.into();
    fmt::from_fn(move |f| {
        if count == 1 { write!(f, "1 {one}") } else { write!(f, "{count} {}", plural(one)) }
    })
}

/// The noun for more than one: `rows`, `stitches`, `eighths`, `inches`, `bodies`.
///
/// # Examples
/// ```
/// use loopwright_gauge::english::plural;
/// assert_eq!(plural("row").to_string(), "rows");
/// assert_eq!(plural("stitch").to_string(), "stitches");
/// assert_eq!(plural("body").to_string(), "bodies");
/// ```
#[must_use]
pub fn plural(one: &str) -> impl fmt::Display {
    fmt::from_fn(move |f| match one.strip_suffix('y') {
        Some(stem) if !stem.ends_with(['a', 'e', 'o', 'u']) => write!(f, "{stem}ies"),
        _ if ["s", "x", "ch", "sh"].iter().any(|end| one.ends_with(end)) => write!(f, "{one}es"),
        _ => write!(f, "{one}s"),
    })
}

/// The noun or the verb that fits a count: `agreeing(n, "is", "are")`.
///
/// # Examples
/// ```
/// use loopwright_gauge::english::agreeing;
/// assert_eq!(agreeing(1, "becomes", "become"), "becomes");
/// assert_eq!(agreeing(2, "becomes", "become"), "become");
/// ```
pub fn agreeing<'a>(count: impl Into<i128>, one: &'a str, many: &'a str) -> &'a str {
    if count.into() == 1 { one } else { many }
}

/// A place in a row: `1st`, `2nd`, `3rd`, `4th`, `11th`, `22nd`.
///
/// # Examples
/// ```
/// use loopwright_gauge::english::ordinal;
/// let told: Vec<String> = [1, 2, 3, 4, 11, 12, 13, 21, 112].map(|n| ordinal(n).to_string()).into();
/// assert_eq!(told, ["1st", "2nd", "3rd", "4th", "11th", "12th", "13th", "21st", "112th"]);
/// ```
#[must_use]
pub fn ordinal(n: u32) -> impl fmt::Display {
    let ending = match (n % 10, n % 100) {
        (_, 11..=13) => "th",
        (1, _) => "st",
        (2, _) => "nd",
        (3, _) => "rd",
        _ => "th",
    };
    fmt::from_fn(move |f| write!(f, "{n}{ending}"))
}

/// How often something comes round: `every row`, `every other row`, `every 4th row`.
///
/// # Examples
/// ```
/// use loopwright_gauge::english::every;
/// assert_eq!(every(1, "row").to_string(), "every row");
/// assert_eq!(every(2, "row").to_string(), "every other row");
/// assert_eq!(every(4, "row").to_string(), "every 4th row");
/// ```
#[must_use]
pub fn every(n: u32, what: &str) -> impl fmt::Display {
    fmt::from_fn(move |f| match n {
        1 => write!(f, "every {what}"),
        2 => write!(f, "every other {what}"),
        n => write!(f, "every {} {what}", ordinal(n)),
    })
}

/// How often something is done: `once`, `twice`, `3 times`.
///
/// # Examples
/// ```
/// use loopwright_gauge::english::times;
/// let told = [0, 1, 2, 3].map(|n| times(n).to_string());
/// assert_eq!(told, ["never", "once", "twice", "3 times"]);
/// ```
#[must_use]
pub fn times(n: u32) -> impl fmt::Display {
    fmt::from_fn(move |f| match n {
        0 => f.write_str("never"),
        1 => f.write_str("once"),
        2 => f.write_str("twice"),
        n => write!(f, "{n} times"),
    })
}

/// A list in a sentence, with `last` before its last item: `a, b and c`.
///
/// # Examples
/// ```
/// use loopwright_gauge::english::list;
/// assert_eq!(list(["front", "back", "sleeves"], "and"), "front, back and sleeves");
/// assert_eq!(list([2, 4], "or"), "2 or 4");
/// assert_eq!(list(["front"], "and"), "front");
/// ```
pub fn list<T: fmt::Display>(items: impl IntoIterator<Item = T>, last: &str) -> String {
    let mut text = String::new();
    let mut items = items.into_iter().peekable();
    while let Some(item) = items.next() {
        if !text.is_empty() {
            text.push_str(if items.peek().is_some() { ", " } else { " " });
            if items.peek().is_none() {
                text.push_str(last);
                text.push(' ');
            }
        }
        text.push_str(&item.to_string());
    }
    text
}

/// A sentence's first letter made large.
///
/// # Examples
/// ```
/// use loopwright_gauge::english::capital;
/// assert_eq!(capital("knit 2 rows"), "Knit 2 rows");
/// ```
#[must_use]
pub fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
