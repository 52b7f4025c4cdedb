//! What is usually said about clothes for children.

use crate::Body;

/// The cautions for a wearer who is, or may be, a child; none for others.
///
/// Scope of the cords: EN 14682 (to the 14th birthday) and 16 CFR 1120 in the United
/// States; small parts: 16 CFR 1501; nightwear: 16 CFR 1615 and 1616. For the length of
/// floats no public figure was found. The texts are ours and no legal advice.
pub(crate) fn cautions(body: &Body) -> Vec<&'static str> {
    if !body.may_be_child() {
        return Vec::new();
    }
    vec![
        "Children's clothes: put no cords, ties or drawstrings at the neck or in a hood.",
        "Sew buttons and trimmings on so firmly that a child cannot pull them off and swallow them, or leave them out for the youngest.",
        "Keep floats on the inside short or catch them in: fingers and toes are caught in long strands.",
        "This is not nightwear: it has not been made or tested to resist flame. A child should not sleep in it, nor in a hat.",
        "Rules differ from country to country; the local rules, and the advice of those licensed to give it, come before this page.",
    ]
}
