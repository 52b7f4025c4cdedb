//! The reader of the words must be able to fail: every number, side, needle and name of a
//! sheet misprinted, one at a time, is noticed.

use super::{EVERYDAY, body, pullover};
use loopwright::garment::{Draft, DropShoulder, DropShoulderChoices, Fabrics, Garment, Shoulders};
use loopwright::pattern::{Craft, Knitted};
use loopwright_tests::pattern::{Told, difference, read, told};
use std::panic::{AssertUnwindSafe, catch_unwind};

/// Whether a reader of these lines stops, or comes to something else than the replay.
fn noticed(lines: &[Told], knitted: &Knitted) -> bool {
    match catch_unwind(AssertUnwindSafe(|| read(lines))) {
        Ok(read) => difference(&read, knitted).is_some(),
        Err(_) => true,
    }
}

/// The lines, with each piece of one text at a time that `form` finds put through
/// `change`.
fn misprints(
    lines: &[Told],
    form: &str,
    change: impl Fn(&str) -> String,
) -> Vec<(String, Vec<Told>)> {
    let form = regex::Regex::new(form).unwrap();
    let mut all = Vec::new();
    for place in 0..lines.len() {
        for check in [false, true] {
            let text = if check { &lines[place].check } else { &lines[place].text };
            for found in form.find_iter(text) {
                let mut changed = text.clone();
                changed.replace_range(found.range(), &change(found.as_str()));
                let mut misprinted = lines.to_vec();
                let line = &mut misprinted[place];
                (if check { &mut line.check } else { &mut line.text }).clone_from(&changed);
                all.push((changed, misprinted));
            }
        }
    }
    all
}

fn one_more(number: &str) -> String {
    let width = number.len();
    format!("{:0width$}", number.parse::<u64>().unwrap() + 1)
}

fn other_side(side: &str) -> String {
    let pairs = [("left", "right"), ("COL", "COR"), ("L", "R"), ("wrong", "right")];
    let other = pairs
        .iter()
        .find_map(|&(one, two)| (side == one).then_some(two).or((side == two).then_some(one)));
    other.unwrap().to_owned()
}

fn by_hand() -> Garment {
    let mut choices = DropShoulderChoices::usual(Craft::Hand);
    choices.shoulder_drop = "3 cm".parse().unwrap();
    choices.shoulders = Shoulders::BindOff;
    let fabrics = Fabrics::plain("20 x 30 / 10 cm".parse().unwrap());
    let drafted = DropShoulder::new(body(&EVERYDAY), fabrics, Craft::Hand).choose(choices).draft();
    drafted.and_then(Draft::finish).unwrap()
}

fn at_the_machine() -> Garment {
    let mut choices = DropShoulderChoices::usual(Craft::Hand);
    choices.shoulder_drop = "3 cm".parse().unwrap();
    choices.shoulders = Shoulders::ShortRows;
    pullover(&EVERYDAY, 200).choose(choices).draft().and_then(Draft::finish).unwrap()
}

/// How many misprints there were, all of them noticed.
#[track_caller]
fn all_noticed(form: &str, change: impl Fn(&str) -> String) -> usize {
    let mut tried = 0;
    for garment in [by_hand(), at_the_machine()] {
        for piece in &garment.pieces {
            let lines = told(&piece.knitted);
            assert!(!noticed(&lines, &piece.knitted), "as printed it can be knitted");
            for (line, misprinted) in misprints(&lines, form, &change) {
                assert!(noticed(&misprinted, &piece.knitted), "{form} in {line:?}");
                tried += 1;
            }
        }
    }
    tried
}

#[test]
fn a_stitch_or_row_more() {
    let tried = all_noticed(r"\b\d+ (?:stitch(?:es)?|rows?|needles?|times)\b", |found| {
        let (number, word) = found.split_once(' ').unwrap();
        let word = match word {
            "stitch" => "stitches",
            "row" => "rows",
            "needle" => "needles",
            many => many,
        };
        format!("{} {word}", one_more(number))
    });
    assert!(tried > 100, "{tried}");
}

#[test]
fn a_counter_or_row_number_more() {
    let tried = all_noticed(r"\b(?:RC|row|row counter) \d+\b", |found| {
        let (what, number) = found.rsplit_once(' ').unwrap();
        format!("{what} {}", one_more(number))
    });
    assert!(tried > 60, "{tried}");
}

#[test]
fn a_needle_further_out() {
    let tried =
        all_noticed(r"\b[LR]\d+\b", |needle| format!("{}{}", &needle[..1], one_more(&needle[1..])));
    assert!(tried > 60, "{tried}");
}

#[test]
fn the_other_side() {
    let tried = all_noticed(r"\b(?:left|right|wrong|COL|COR)\b|\b[LR]\d+", |found| {
        let needle = found.as_bytes().last().is_some_and(u8::is_ascii_digit);
        if needle {
            format!("{}{}", other_side(&found[..1]), &found[1..])
        } else {
            other_side(found)
        }
    });
    assert!(tried > 60, "{tried}");
}

#[test]
fn an_increase_for_a_decrease() {
    let tried = all_noticed(r"\b(?:Increase|Decrease|increase|decrease)\b", |found| {
        let other = if found.eq_ignore_ascii_case("increase") { "ecrease" } else { "ncrease" };
        let first = match (found.as_bytes()[0], other) {
            (b'I', _) => 'D',
            (b'D', _) => 'I',
            (b'i', _) => 'd',
            _ => 'i',
        };
        format!("{first}{other}")
    });
    assert!(tried >= 2, "{tried}");
}

/// A rhythm told one row wider, or once more.
#[test]
fn another_rhythm() {
    let tried = all_noticed(r"every \d+(?:st|nd|rd|th) row|\d+ times", |found| {
        let number: String = found.chars().filter(char::is_ascii_digit).collect();
        found.replace(&number, &one_more(&number))
    });
    assert!(tried > 6, "{tried}");
}
