//! The one printer of decimals and of rounded fractions.

use alloc::string::{String, ToString};

/// `numer / denom` with `places` decimals, halfway away from zero; `denom` is above
/// zero and below 2^124.
///
/// Digit by digit, as a long division, so that no number of places is too many.
pub(crate) fn digits(numer: u128, denom: u128, places: usize) -> String {
    let (whole, mut rest) = (numer / denom, numer % denom);
    let mut digits = String::with_capacity(places);
    for _ in 0..places {
        let digit = u8::try_from(rest * 10 / denom).unwrap_or(0);
        rest = rest * 10 % denom;
        digits.push(char::from(b'0' + digit));
    }
    let up = rest >= denom - rest;
    match (up, raised(&digits)) {
        (false, _) => joined(whole, &digits),
        (true, Some(digits)) => joined(whole, &digits),
        (true, None) => joined(whole + 1, &"0".repeat(places)),
    }
}

/// One more in the last place; `None` when that carries into the whole part.
fn raised(digits: &str) -> Option<String> {
    let kept = digits.trim_end_matches('9');
    let last = kept.chars().next_back()?;
    let mut raised = String::from(kept.get(..kept.len() - 1)?);
    raised.push(char::from(u8::try_from(last).ok()? + 1));
    raised.extend(core::iter::repeat_n('0', digits.len() - kept.len()));
    Some(raised)
}

fn joined(whole: u128, digits: &str) -> String {
    let mut text = whole.to_string();
    if !digits.is_empty() {
        text.push('.');
        text.push_str(digits);
    }
    text
}

/// Without the zeros that close it.
pub(crate) fn trimmed(mut text: String) -> String {
    if text.contains('.') {
        text.truncate(text.trim_end_matches('0').trim_end_matches('.').len());
    }
    text
}

/// How many parts of `1 / parts` `numer / denom` is, halfway away from zero.
pub(crate) fn parts(numer: u128, denom: u128, parts: u32) -> u128 {
    let scaled = numer * u128::from(parts);
    let (whole, rest) = (scaled / denom, scaled % denom);
    if rest >= denom - rest { whole + 1 } else { whole }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn carries_reach_the_whole_part() {
        assert_eq!(digits(1_999, 1_000, 2), "2.00");
        assert_eq!(digits(1_095, 1_000, 2), "1.10");
        assert_eq!(digits(1, 2, 0), "1");
        assert_eq!(digits(1, 3, 5), "0.33333");
        assert_eq!(parts(1, 16, 8), 1);
    }
}
