//! One name, one meaning, across all rooms.

use super::public::{Item, items};
use super::{ROOMS, sources};
use std::collections::BTreeMap;

/// Every room has an error of its own; the facade's takes them all.
const IN_EVERY_ROOM: &str = "Error";

fn all() -> Vec<Item> {
    ROOMS.into_iter().flat_map(items).filter(|item| item.name != IN_EVERY_ROOM).collect()
}

#[test]
fn names_are_unique_across_the_rooms() {
    let mut rooms: BTreeMap<String, Vec<&str>> = BTreeMap::new();
    for item in all() {
        rooms.entry(item.name).or_default().push(item.room);
    }
    assert!(rooms.len() > 150, "{} names", rooms.len());
    rooms.retain(|_, rooms| rooms.len() > 1);
    assert!(rooms.is_empty(), "names with more than one meaning: {rooms:#?}");
}

/// The prelude holds every public type and trait, and no type is forgotten there.
#[test]
fn the_prelude_holds_every_type() {
    let prelude = sources::text("crates/loopwright/src/prelude.rs");
    let words: Vec<&str> = prelude.split(|letter: char| !letter.is_alphanumeric()).collect();
    let missing: Vec<String> = all()
        .into_iter()
        .filter(|item| item.name.starts_with(char::is_uppercase))
        .filter(|item| item.name.chars().any(char::is_lowercase))
        .filter(|item| !words.contains(&item.name.as_str()))
        .map(|item| format!("{}::{}", item.room, item.name))
        .collect();
    assert!(missing.is_empty(), "not in the prelude: {}", missing.join(", "));
}
