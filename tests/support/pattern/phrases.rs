//! Phrases that say how often, and how far apart.

use regex::{Captures, Regex};
use std::sync::LazyLock;

static BRACKET: LazyLock<Regex> =
    LazyLock::new(|| Regex::new(r"\(([^)]*)\)(?: (once|twice|\d+ times))?(?:, then )?").unwrap());
static OFTEN: LazyLock<Regex> = LazyLock::new(|| Regex::new(r"^ (once|twice|\d+ times)").unwrap());
static EVERY: LazyLock<Regex> = LazyLock::new(|| {
    Regex::new(r"^(?:(now)|every (?:(row)|(other) row|(\d+)(?:st|nd|rd|th) row))").unwrap()
});
static PICK: LazyLock<Regex> = LazyLock::new(|| {
    Regex::new(r"^(?:pick up (\d+) in (the same) place|pick up (\d+)|(\d+) more in the same place|miss (\d+))").unwrap()
});
static WRONG: LazyLock<Regex> = LazyLock::new(|| {
    Regex::new(concat!(
        r"\b1 (?:stitches|rows|needles|steps|times|packages|balls|turns|edges)\b",
        r"|\b(?:[02-9]|[1-9]\d+) (?:stitch|row|needle|step|package|time|ball)\b",
        r"|[,;:][.,;:]|\s[.,;:](?:\s|$)|[^.]\.\.(?:[^.]|$)",
    ))
    .unwrap()
});

/// A number in a sentence.
pub(super) fn n(captures: &Captures<'_>, group: usize) -> u64 {
    captures[group].parse().unwrap()
}

/// What reads wrong aloud in a text, if anything: "1 stitches", "2 row", "edge,.".
#[must_use]
pub fn stumble(text: &str) -> Option<&str> {
    WRONG.find(text).map(|found| found.as_str())
}

/// "(bind off 3 stitches, knit 2 rows) 4 times, then (...)": each bracket and how often.
pub(super) fn bracketed(text: &str) -> Vec<(String, u64)> {
    let found: Vec<(String, u64)> = BRACKET
        .captures_iter(text)
        .map(|c| (c[1].to_owned(), c.get(2).map_or(1, |t| times(t.as_str()))))
        .collect();
    let covered: usize = BRACKET.find_iter(text).map(|part| part.as_str().len()).sum();
    assert_eq!(covered, text.len(), "a knitter would stop and wonder: {text:?}");
    found
}

/// "every 4th row 34 times, then (every 5th row once, every 6th row once) 3 times": the
/// rows between shapings; "now" is a first one at once.
pub(super) fn gaps(text: &str) -> Vec<u64> {
    let (list, rest) = listed(text, &mut |text| {
        let found = EVERY.captures(text).unwrap_or_else(|| panic!("unclear: {text:?}"));
        let gap = match (found.get(1), found.get(2), found.get(3)) {
            (Some(_), ..) => return (vec![0], &text[found[0].len()..]),
            (_, Some(_), _) => 1,
            (.., Some(_)) => 2,
            _ => n(&found, 4),
        };
        let rest = &text[found[0].len()..];
        let often = OFTEN.captures(rest).unwrap_or_else(|| panic!("how often? {text:?}"));
        let many = usize::try_from(times(&often[1])).unwrap();
        (vec![gap; many], &rest[often[0].len()..])
    });
    assert_eq!(rest, "", "a knitter would stop and wonder: {text:?}");
    list
}

/// "pick up 1, miss 1, then (pick up 2, miss 1) 3 times": how many stitches are picked
/// up, and how many places of the edge they are spread over.
pub(super) fn picked_over(text: &str) -> (u64, u64) {
    let (list, rest) = listed(text, &mut |text| {
        let found = PICK.captures(text).unwrap_or_else(|| panic!("unclear: {text:?}"));
        let part = |group| found.get(group).map_or(0, |at| at.as_str().parse::<u64>().unwrap());
        let one_place = u64::from(found.get(2).is_some());
        let (together, pick, beside, miss) = (part(1), part(3), part(4), part(5));
        (vec![(together + pick + beside, one_place + pick + miss)], &text[found[0].len()..])
    });
    assert_eq!(rest, "", "a knitter would stop and wonder: {text:?}");
    list.iter().fold((0, 0), |(stitches, places), (more, over)| (stitches + more, places + over))
}

/// One phrase at the start of a text, and what follows it.
type One<'a, T> = dyn FnMut(&'a str) -> (Vec<T>, &'a str);

/// Phrases one after the other, brackets said so many times, and what follows the last.
fn listed<'a, T: Copy>(text: &'a str, one: &mut One<'a, T>) -> (Vec<T>, &'a str) {
    let (mut list, mut text) = (Vec::new(), text);
    loop {
        let rest = if let Some(inner) = text.strip_prefix(['(', '[']) {
            let close = if text.starts_with('(') { ')' } else { ']' };
            let (body, rest) = listed(inner, one);
            let rest = rest.strip_prefix(close);
            let rest = rest.unwrap_or_else(|| panic!("an open bracket: {text:?}"));
            let often = OFTEN.captures(rest).unwrap_or_else(|| panic!("how often? {text:?}"));
            list.extend(body.repeat(usize::try_from(times(&often[1])).unwrap()));
            &rest[often[0].len()..]
        } else {
            let (body, rest) = one(text);
            list.extend(body);
            rest
        };
        let next = rest.strip_prefix(", then ").or_else(|| rest.strip_prefix(", "));
        match next {
            Some(next) => text = next,
            None => return (list, rest),
        }
    }
}

fn times(text: &str) -> u64 {
    match text {
        "once" => 1,
        "twice" => 2,
        many => many.trim_end_matches(" times").parse().unwrap(),
    }
}
