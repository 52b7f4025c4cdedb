//! One name, one meaning, across all rooms.

use super::owed::Owed;
use super::public::{Item, items};
use super::{ROOMS, sources};
use std::collections::BTreeMap;

/// Every room has an error of its own; the facade's takes them all.
const IN_EVERY_ROOM: &str = "Error";

fn all() -> Vec<Item> {
    ROOMS.into_iter().flat_map(items).filter(|item| item.name != IN_EVERY_ROOM).collect()
}

/// How many rooms use each name.
fn rooms_of_names() -> BTreeMap<String, usize> {
    let mut rooms = BTreeMap::new();
    for item in all() {
        *rooms.entry(item.name).or_default() += 1;
    }
    rooms
}

#[test]
fn names_are_unique_across_the_rooms() {
    let rooms = rooms_of_names();
    assert!(rooms.len() > 150, "{} names", rooms.len());
    let mut owed = Owed::new("names");
    for item in all() {
        owed.see(&item, rooms[&item.name] == 1);
    }
    owed.paid();
}

/// The prelude holds every public type and trait whose name has one meaning.
#[test]
fn the_prelude_holds_every_type() {
    let prelude = sources::text("crates/loopwright/src/prelude.rs");
    let words: Vec<&str> = prelude.split(|letter: char| !letter.is_alphanumeric()).collect();
    let rooms = rooms_of_names();
    let missing: Vec<String> = all()
        .into_iter()
        .filter(|item| item.name.starts_with(char::is_uppercase))
        .filter(|item| item.name.chars().any(char::is_lowercase) && rooms[&item.name] == 1)
        .filter(|item| at_the_root(item) && !words.contains(&item.name.as_str()))
        .map(|item| format!("{}::{}", item.room, item.name))
        .collect();
    assert!(missing.is_empty(), "not in the prelude: {}", missing.join(", "));
}

/// Whether the room's root names it; what stands in a module of its own stays there.
fn at_the_root(item: &Item) -> bool {
    let root = sources::text(&format!("crates/loopwright-{}/src/lib.rs", item.room));
    let lists = root.split("pub use ").skip(1).filter_map(|list| list.split(';').next());
    lists
        .flat_map(|list| list.split(|letter: char| !letter.is_alphanumeric()))
        .any(|name| name == item.name)
}
