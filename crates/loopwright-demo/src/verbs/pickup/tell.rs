//! The shape of a group in JSON.

use loopwright::seams::PickUpGroup;
use serde_json::{Value, json};

/// "1 stitch", "2 rows".
pub(super) fn numbered(count: u32, one: &str, many: &str) -> String {
    format!("{count} {}", if count == 1 { one } else { many })
}

/// `pick`, `miss` and `times`; and `extra` only where there is more than one stitch a row.
pub(super) fn group(group: &PickUpGroup) -> Value {
    if group.extra == 0 {
        return json!({ "pick": group.pick, "miss": group.miss, "times": group.times });
    }
    json!({
        "pick": group.pick,
        "miss": group.miss,
        "extra": group.extra,
        "times": group.times,
    })
}
