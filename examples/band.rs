//! The front band of a waistcoat: stitches picked up along 118 rows, and six buttonholes.

use loopwright::gauge::{Gauge, Repeat, Round, Rows};
use loopwright::seams::{Buttonholes, Edge, Gaps, Leftover, PickUpLine, PickUpSpacing, say};
use std::io::Write as _;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let mut out = std::io::stdout().lock();
    let (fabric, rib): (Gauge, Gauge) = ("22 x 30 / 10 cm".parse()?, "24 x 32 / 10 cm".parse()?);
    let front = Edge::selvedge("front edge", Rows::new(118)?, fabric)?;
    let line = PickUpLine::new(rib).along(front);
    let band = line.fit(Repeat::multiple_of(4)?.plus(2)?, Round::HalfUp)?;
    for picked in line.place(band.count, PickUpSpacing::Half)? {
        writeln!(out, "{}: {} stitches, {}.", picked.edge, picked.stitches, say(&picked.groups))?;
    }
    let holes = Buttonholes::new(band.count.get(), 6, 2)?;
    let holes = holes.place(Gaps::Margins { first: 3, last: 3 }, Leftover::Spread)?;
    let starts: Vec<String> = holes.starts().map(|start| start.to_string()).collect();
    writeln!(out, "Buttonholes of 2 stitches start at stitches {}.", starts.join(", "))?;
    Ok(())
}
