//! 63 g are left of a cone: how many rows of a scarf do they still give, if 8 g are kept
//! for the edging?

use loopwright::gauge::{Exact, Gauge, Round};
use loopwright::yardage::{
    RelaxationState, RelaxedFabric, Remainder, Structure, Yarn, loop_from_gauge,
};
use std::io::Write as _;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let mut out = std::io::stdout().lock();
    let yarn: Yarn = "2/17 Nm".parse()?;
    let yarn = yarn.held(2)?.resultant()?;
    let plain = RelaxedFabric::new(Structure::Plain, RelaxationState::Wet);
    let gauge: Gauge = "30 x 42 / 10 cm".parse()?;
    let loops = loop_from_gauge(gauge, plain, Some(yarn))?;
    let left = Remainder::new("63 g".parse()?).reserve("8 g".parse()?);
    let stitches = left.stitches(&loops, yarn)?;
    let rows = |stitches: Exact| stitches.checked_div(Exact::whole(72))?.to_whole(Round::Floor);
    writeln!(
        out,
        "72 stitches wide: {} rows are sure, {} are likely, more than {} cannot be.",
        rows(stitches.low())?,
        rows(stitches.likely())?,
        rows(stitches.high())?
    )?;
    Ok(())
}
