//! What the workspace still owes itself, counted by room in `tests/owed.toml`: a number
//! there may fall, never rise.

use super::public::Item;
use super::{ROOMS, sources};
use std::collections::BTreeMap;

/// One kind of debt, as it is found.
pub(super) struct Owed {
    kind: &'static str,
    seen: usize,
    missing: BTreeMap<&'static str, Vec<String>>,
}

impl Owed {
    pub(super) fn new(kind: &'static str) -> Self {
        Self { kind, seen: 0, missing: BTreeMap::new() }
    }

    /// Counts an item, which is owed unless it is `paid`.
    pub(super) fn see(&mut self, item: &Item, paid: bool) {
        self.seen += 1;
        if !paid {
            self.missing.entry(item.room).or_default().push(item.name.clone());
        }
    }

    /// No room owes more than the file says.
    #[track_caller]
    pub(super) fn paid(self) {
        let file: toml::Table = sources::text("tests/owed.toml").parse().unwrap();
        let file = file[self.kind].as_table().unwrap();
        assert!(self.seen > 50, "{}: {} items", self.kind, self.seen);
        for room in ROOMS {
            let missing = self.missing.get(room).map_or(&[][..], Vec::as_slice);
            let most = file.get(room).and_then(toml::Value::as_integer).unwrap_or(0);
            let (kind, now) = (self.kind, missing.len());
            println!("{kind}: {room} owes {now} of at most {most}");
            assert!(
                i64::try_from(now).unwrap() <= most,
                "{kind}: {room} owes {now}, at most {most}: {}",
                missing.join(", ")
            );
        }
    }
}
