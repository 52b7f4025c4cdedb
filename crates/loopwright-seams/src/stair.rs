//! Picking up along a staircase: evenly by length, not by rows.

use crate::group::Grouping;
use crate::{Error, Group, Span, Step};
use alloc::vec::Vec;
use loopwright_gauge::{Exact, Gauge, Round};

/// The places of one step: its row ends, and its stitches where two or more are bound
/// off or cast on; one stitch more or less is worked inside its row.
pub(crate) fn places(step: Step) -> u32 {
    match (step.rows.get(), step.stitches.get()) {
        (0, stitches) => stitches,
        (rows, 0 | 1) => rows,
        (rows, stitches) => rows + stitches,
    }
}

/// After every place, the stitches picked up are the whole number nearest to their
/// share by length; halfway goes down. Nothing is nearer at any place.
pub(crate) fn along_stair(
    steps: &[Step],
    gauge: Gauge,
    stitches: u32,
) -> Result<Vec<Group>, Error> {
    let lengths =
        steps.iter().map(|&step| nanometres(step, gauge)).collect::<Result<Vec<_>, _>>()?;
    let total: u128 = lengths.iter().sum();
    let mut grouping = Grouping::default();
    let (mut before, mut picked) = (0_u128, 0_u32);
    for (step, length) in steps.iter().zip(lengths) {
        let count = places(*step);
        for nth in 1..=count {
            // Below 2^127: lengths to 10^15 nm, 10^7 places and 10^7 stitches.
            let along = before * u128::from(count) + length * u128::from(nth);
            let whole = total * u128::from(count);
            let now = (2 * along * u128::from(stitches) + whole - 1) / (2 * whole);
            let now = u32::try_from(now).unwrap_or(stitches);
            grouping.place(now - picked);
            picked = now;
        }
        before += length;
    }
    Ok(grouping.finish())
}

fn nanometres(step: Step, gauge: Gauge) -> Result<u128, Error> {
    let slant = Span::hypotenuse(gauge.width_of(step.stitches)?, gauge.height_of(step.rows)?)?;
    let nanometres = slant.middle()?.millimetres().checked_mul(Exact::whole(1_000_000))?;
    Ok(nanometres.to_whole(Round::HalfDown)?.unsigned_abs().into())
}
