//! The drop-shoulder pullover.

mod bodies;
mod by_hand;
mod extremes;
mod golden;
mod laws;
mod misprints;
mod plans;
mod refusals;
mod serial;
mod sheet;

use loopwright::garment::{Body, BodyMeasure, DropShoulder, Fabrics};
use loopwright::pattern::{Bed, Craft};

/// A body by its measures in centimetres.
pub(super) fn body(measures: &[(BodyMeasure, &str)]) -> Body {
    measures.iter().fold(Body::new(), |body, (measure, length)| {
        body.with(*measure, length.parse().unwrap()).unwrap()
    })
}

pub(super) const EVERYDAY: [(BodyMeasure, &str); 6] = [
    (BodyMeasure::Chest, "82 cm"),
    (BodyMeasure::NeckToWrist, "73 cm"),
    (BodyMeasure::UpperArm, "30 cm"),
    (BodyMeasure::Wrist, "16 cm"),
    (BodyMeasure::BodyLength, "60 cm"),
    (BodyMeasure::Head, "54 cm"),
];

/// A pullover at 20 stitches and 30 rows to 10 cm.
pub(super) fn pullover(measures: &[(BodyMeasure, &str)], needles: u32) -> DropShoulder {
    let fabrics = Fabrics::plain("20 x 30 / 10 cm".parse().unwrap());
    DropShoulder::new(body(measures), fabrics, Craft::Machine(Bed::of_needles(needles).unwrap()))
}
