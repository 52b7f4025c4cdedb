//! The shape of a group in JSON.

use loopwright::seams::PickUpGroup;
use serde_json::{Value, json};

/// `pick`, `miss` and `times`; and `extra` only where there is more than one stitch a row.
pub(super) fn group(group: &PickUpGroup) -> Value {
    if group.extra.is_zero() {
        return json!({ "pick": group.pick, "miss": group.miss, "times": group.times });
    }
    json!({
        "pick": group.pick,
        "miss": group.miss,
        "extra": group.extra,
        "times": group.times,
    })
}
