//! A friend's mittens, written for a thicker yarn, at the gauge of the yarn at hand.

use loopwright::gauge::{Regauge, Repeat, Round, Rows, Stitches};
use std::io::Write as _;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let mut out = std::io::stdout().lock();
    let regauge = Regauge::new("5 x 7 / 1 in".parse()?, "6.5 x 9 / 1 in".parse()?);
    // The cuff is in 2x2 rib in the round, the hand is divided evenly, the thumb is not.
    let numbers = [
        ("cuff", 40, Repeat::multiple_of(4)?),
        ("hand", 44, Repeat::even()),
        ("thumb", 15, Repeat::any()),
    ];
    for (name, published, repeat) in numbers {
        let fitted = regauge.fit(Stitches::new(published)?, repeat, Round::HalfUp)?;
        writeln!(
            out,
            "{name}: {published} stitches become {}, {} exactly",
            fitted.count, fitted.ideal
        )?;
    }
    let fitted = regauge.fit(Rows::new(56)?, Repeat::any(), Round::HalfUp)?;
    writeln!(out, "hand: 56 rounds become {}", fitted.count)?;
    Ok(())
}
