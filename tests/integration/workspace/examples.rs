//! Public types and functions are shown in use where they are documented.

use super::ROOMS;
use super::owed::Owed;
use super::public::{Kind, items};

#[test]
fn every_type_and_function_has_an_example() {
    let mut owed = Owed::new("examples");
    for item in ROOMS.into_iter().flat_map(items).filter(|item| item.kind != Kind::Constant) {
        owed.see(&item, item.docs.contains("# Examples") && item.docs.contains("```"));
    }
    owed.paid();
}
