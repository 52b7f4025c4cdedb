//! The grammar of numbers: `12`, `-12.5`, `12,5`, `3/4`, `20 1/2`, `20½`.

use crate::Exact;
use alloc::borrow::Cow;
use alloc::string::String;

pub(crate) const FORMS: &str = "write a number such as 12, 12.5, 12,5, 3/4, 20 1/2 or 20½";
const THOUSANDS: &str =
    "a comma before three digits may mean thousands or a decimal; write 1250, or 1.25";

/// Why no number starts a text.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Fault(&'static str);

impl Fault {
    /// The reason to give where `forms` tells what can be written.
    pub(crate) fn or(self, forms: &'static str) -> &'static str {
        if self.0 == FORMS { forms } else { self.0 }
    }

    pub(crate) fn or_else(self, forms: impl FnOnce() -> String) -> Cow<'static, str> {
        if self.0 == FORMS { forms().into() } else { self.0.into() }
    }
}

/// Reads the number at the start of `text`, and gives back what follows it.
pub(crate) fn leading(text: &str) -> Result<(Exact, &str), Fault> {
    let (negative, body) = match text.strip_prefix('-') {
        Some(body) => (true, body),
        None => (false, text),
    };
    if is_thousands(body) {
        return Err(Fault(THOUSANDS));
    }
    let (value, rest) = unsigned(body).ok_or(Fault(FORMS))?;
    // "12.5.3", "1/2/3" and "12½½" must not be read as a number and some rubbish.
    if rest.starts_with(|c: char| c.is_ascii_digit() || ".,/".contains(c) || vulgar(c).is_some()) {
        return Err(Fault(FORMS));
    }
    Ok((if negative { value.negated() } else { value }, rest))
}

/// Whether a text starts as `1,250` does, which half of the world reads as 1250 and
/// the other half as 1.25; `0,125` and `1,25` leave no doubt.
fn is_thousands(text: &str) -> bool {
    let (whole, rest) = split_digits(text);
    let Some(after) = rest.strip_prefix(',') else { return false };
    let (group, _) = split_digits(after);
    group.len() == 3 && (1..=3).contains(&whole.len()) && !whole.starts_with('0')
}

fn unsigned(text: &str) -> Option<(Exact, &str)> {
    let (digits, rest) = split_digits(text);
    if digits.is_empty() {
        let (fraction, rest) = fraction_character(text)?;
        return Some((fraction, rest));
    }
    let whole: i64 = digits.parse().ok()?;
    if let Some(after) = rest.strip_prefix(['.', ',']) {
        return decimal(whole, after);
    }
    if let Some(after) = rest.strip_prefix('/') {
        return fraction(digits, after);
    }
    match mixed(whole, rest) {
        Some(mixed) => Some(mixed),
        None => Some((Exact::try_from(whole).ok()?, rest)),
    }
}

/// The part after the decimal mark: at least one digit.
fn decimal(whole: i64, text: &str) -> Option<(Exact, &str)> {
    let (digits, rest) = split_digits(text);
    let scale = 10_i64.checked_pow(u32::try_from(digits.len()).ok()?)?;
    let numer = whole.checked_mul(scale)?.checked_add(digits.parse().ok()?)?;
    Some((Exact::new(numer, scale).ok()?, rest))
}

fn fraction<'a>(numer: &str, text: &'a str) -> Option<(Exact, &'a str)> {
    let (denom, rest) = split_digits(text);
    let value = Exact::new(numer.parse().ok()?, denom.parse().ok()?).ok()?;
    Some((value, rest))
}

/// What follows the whole part of a mixed number: ` 1/2`, `½` or ` ½`.
fn mixed(whole: i64, text: &str) -> Option<(Exact, &str)> {
    let spaced = text.strip_prefix(' ');
    let part = spaced.unwrap_or(text);
    let (value, rest) = if let Some(found) = fraction_character(part) {
        found
    } else {
        let (digits, rest) = split_digits(spaced?);
        fraction(digits, rest.strip_prefix('/')?)?
    };
    let proper = value < Exact::ONE;
    proper
        .then_some((Exact::try_from(whole).and_then(|whole| whole.checked_add(value)).ok()?, rest))
}

fn fraction_character(text: &str) -> Option<(Exact, &str)> {
    let mut characters = text.chars();
    let (numer, denom) = vulgar(characters.next()?)?;
    Some((Exact::new(numer, denom).ok()?, characters.as_str()))
}

/// The fractions of the Unicode blocks "Latin-1 Supplement" and "Number Forms".
fn vulgar(character: char) -> Option<(i64, i64)> {
    Some(match character {
        '½' => (1, 2),
        '⅓' => (1, 3),
        '⅔' => (2, 3),
        '¼' => (1, 4),
        '¾' => (3, 4),
        '⅕' => (1, 5),
        '⅖' => (2, 5),
        '⅗' => (3, 5),
        '⅘' => (4, 5),
        '⅙' => (1, 6),
        '⅚' => (5, 6),
        '⅛' => (1, 8),
        '⅜' => (3, 8),
        '⅝' => (5, 8),
        '⅞' => (7, 8),
        _ => return None,
    })
}

fn split_digits(text: &str) -> (&str, &str) {
    let end = text.find(|c: char| !c.is_ascii_digit()).unwrap_or(text.len());
    text.split_at(end)
}
