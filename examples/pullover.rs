//! One pullover on two beds: the body fits the wider one, and the narrower says why not.

use loopwright::garment::{Body, BodyMeasure, Draft, DropShoulder, Error, Fabrics};
use loopwright::pattern::{Bed, Craft, words};
use std::io::Write as _;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let mut out = std::io::stdout().lock();
    let body = [
        (BodyMeasure::Chest, "108 cm"),
        (BodyMeasure::NeckToWrist, "84 cm"),
        (BodyMeasure::UpperArm, "34 cm"),
        (BodyMeasure::Wrist, "18 cm"),
        (BodyMeasure::BodyLength, "68 cm"),
        (BodyMeasure::Head, "58 cm"),
    ];
    let mut wearer = Body::new();
    for (measure, length) in body {
        wearer = wearer.with(measure, length.parse()?)?;
    }
    let fabrics = Fabrics::plain("24 x 34 / 10 cm".parse()?);
    for needles in [180, 100] {
        let craft = Craft::Machine(Bed::of_needles(needles)?);
        let garment =
            DropShoulder::new(wearer.clone(), fabrics, craft).draft().and_then(Draft::finish);
        match garment {
            Ok(garment) => {
                writeln!(out, "On {needles} needles:\n")?;
                for piece in &garment.pieces {
                    writeln!(out, "{}", words::instructions(&piece.knitted))?;
                }
            }
            Err(error) => report(&mut out, needles, &error)?,
        }
    }
    Ok(())
}

fn report(out: &mut impl std::io::Write, needles: u32, error: &Error) -> std::io::Result<()> {
    writeln!(out, "Not on {needles} needles: {error}")
}
