//! Every public value type is written and read by serde, unknown keys are refused, and its
//! room tries it. Read from the sources, so that a new type cannot be forgotten.

use super::owed::Owed;
use super::public::{Item, Kind, items};
use super::{ROOMS, sources};
use regex::Regex;
use std::collections::BTreeSet;

/// What is no value: it stands for work under way, or lends what another type holds.
const NO_VALUES: [&str; 5] = ["Error", "Builder", "Display", "Words", "Estimator"];

/// What a value lends: iterators, views, and keys that mean nothing without their problem.
const LENT: [&str; 8] =
    ["Events", "Segments", "SpacedGroups", "Positions", "Crossings", "EvenWalk", "TableRow", "Key"];

fn values(room: &'static str) -> impl Iterator<Item = Item> {
    items(room).into_iter().filter(|item| {
        item.kind == Kind::Type
            && !NO_VALUES.iter().any(|ending| item.name.ends_with(ending))
            && !LENT.contains(&item.name.as_str())
    })
}

/// The types of a room that serde is told of by hand or by a macro for several.
fn told(room: &str) -> BTreeSet<String> {
    let ways = [
        r"impl(?:<[^{>]*>)? (?:\w+::)?Deserialize<'de> for (\w+)",
        r"(?s)choices! \{.{0,2900}?pub enum (\w+):",
        r"(?s)\b\w+!\(\s*([A-Z]\w+(?:,\s*[A-Z]\w+)*)",
    ];
    let mut told = BTreeSet::new();
    for way in ways {
        for found in Regex::new(way).unwrap().captures_iter(room) {
            told.extend(found[1].split(',').map(|name| name.trim().to_owned()));
        }
    }
    told
}

#[test]
fn every_value_goes_through_serde() {
    let mut owed = Owed::new("serde");
    for room in ROOMS {
        let sources = sources::rust_below(&format!("crates/loopwright-{room}/src"));
        let told = told(&sources.into_iter().map(|(_, text)| text).collect::<String>());
        for item in values(room) {
            let derived = ["Serialize", "Deserialize"]
                .iter()
                .all(|name| item.attributes.contains(&format!("serde::{name}")));
            owed.see(&item, derived || told.contains(&item.name));
        }
    }
    owed.paid();
}

/// A struct that derives reading refuses keys that it does not know, unless it is read
/// through another type.
#[test]
fn unknown_keys_are_refused() {
    let derive = Regex::new(r"derive\([^)]*serde::Deserialize[^)]*\)").unwrap();
    let (mut seen, mut open) = (0, Vec::new());
    for room in ROOMS {
        for (path, text) in sources::rust_below(&format!("crates/loopwright-{room}/src")) {
            for found in derive.find_iter(&text) {
                let rest = &text[found.end()..];
                let Some(body) = rest.find([';', '{']).filter(|&at| rest[at..].starts_with('{'))
                else {
                    continue;
                };
                let head = &rest[..body];
                let elsewhere = ["try_from", "from =", "transparent", "untagged"];
                if !head.contains("struct ") || elsewhere.iter().any(|way| head.contains(way)) {
                    continue;
                }
                seen += 1;
                let name = head.split("struct ").nth(1).unwrap_or_default().trim();
                if !head.contains("deny_unknown_fields") {
                    open.push(format!("{name} in {}", path.display()));
                }
            }
        }
    }
    assert!(seen > 10, "{seen} structs");
    let owed: toml::Table = sources::text("tests/owed.toml").parse().unwrap();
    let most = owed["unknown_keys"].as_integer().unwrap();
    assert!(i64::try_from(open.len()).unwrap() <= most, "take unknown keys: {open:#?}");
}

/// The room's own tests write and read each type.
#[test]
fn every_value_is_tried_by_its_room() {
    let mut owed = Owed::new("tried");
    for room in ROOMS {
        let tests: String = sources::rust_below(&format!("tests/integration/{room}"))
            .into_iter()
            .filter(|(path, _)| {
                path.file_stem().is_some_and(|name| name == "serial" || name == "serde")
            })
            .map(|(_, text)| text)
            .collect();
        let words: BTreeSet<&str> = tests.split(|letter: char| !letter.is_alphanumeric()).collect();
        for item in values(room) {
            owed.see(&item, words.contains(item.name.as_str()));
        }
    }
    owed.paid();
}
