//! The front band of a waistcoat: stitches picked up along 118 rows, and six buttonholes.

use loopwright::gauge::english::capital;
use loopwright::gauge::{Gauge, Repeat, Round, Rows, Stitches};
use loopwright::seams::{Buttonholes, Edge, Gaps, Leftover, PickUpLine, PickUpSpacing};
use std::io::Write as _;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let mut out = std::io::stdout().lock();
    let (fabric, rib): (Gauge, Gauge) = ("22 x 30 / 10 cm".parse()?, "24 x 32 / 10 cm".parse()?);
    let front = Edge::selvedge("front edge", Rows::new(118)?, fabric)?;
    let line = PickUpLine::new(rib).along(front);
    let band = line.fit(Repeat::multiple_of(4)?.plus(2)?, Round::HalfUp)?;
    for picked in line.place(band.count, PickUpSpacing::Half)? {
        writeln!(out, "{picked}.")?;
    }
    let stitches = Stitches::literal;
    let margins = Gaps::Margins { first: stitches(3), last: stitches(3) };
    let holes = Buttonholes::new(band.count, 6, stitches(2))?.place(margins, Leftover::Spread)?;
    writeln!(out, "{}.", capital(&holes.to_string()))?;
    Ok(())
}
