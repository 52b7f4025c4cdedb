//! The drop-shoulder pullover.

mod bodies;
mod by_hand;
mod golden;
mod laws;
mod misprints;
mod plans;
mod refusals;
mod sheet;

use loopwright::garment::{Body, DropShoulder, Fabrics, Measure};
use loopwright::pattern::{Bed, Craft};

/// A body by its measures in centimetres.
pub(super) fn body(measures: &[(Measure, &str)]) -> Body {
    measures.iter().fold(Body::new(), |body, (measure, length)| {
        body.with(*measure, length.parse().unwrap()).unwrap()
    })
}

pub(super) const EVERYDAY: [(Measure, &str); 6] = [
    (Measure::Chest, "82 cm"),
    (Measure::NeckToWrist, "73 cm"),
    (Measure::UpperArm, "30 cm"),
    (Measure::Wrist, "16 cm"),
    (Measure::BodyLength, "60 cm"),
    (Measure::Head, "54 cm"),
];

/// A pullover at 20 stitches and 30 rows to 10 cm.
pub(super) fn pullover(measures: &[(Measure, &str)], needles: u32) -> DropShoulder {
    let fabrics = Fabrics::plain("20 x 30 / 10 cm".parse().unwrap());
    DropShoulder::new(body(measures), fabrics, Craft::Machine(Bed::of_needles(needles).unwrap()))
}
