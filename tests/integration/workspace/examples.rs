//! Every public type and function is shown in use where it is documented.

use super::ROOMS;
use super::public::{Kind, items};

#[test]
fn every_type_and_function_has_an_example() {
    let mut shown = 0;
    let mut missing = Vec::new();
    for item in ROOMS.into_iter().flat_map(items) {
        match item.kind {
            Kind::Constant => {}
            _ if item.docs.contains("# Examples") && item.docs.contains("```") => shown += 1,
            _ => missing.push(format!("{}::{}", item.room, item.name)),
        }
    }
    println!("{shown} public types and functions have an example");
    assert!(missing.is_empty(), "{} without an example: {}", missing.len(), missing.join(", "));
}
