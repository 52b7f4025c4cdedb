//! Picking up along a staircase: evenly by length, not by rows.

use crate::edge::{Part, nanometres as slant};
use crate::pickup::group::Grouping;
use crate::{EdgeStep, Error, PickUpGroup};
use alloc::format;
use alloc::vec::Vec;
use loopwright_gauge::Gauge;
use loopwright_shaping::even::EvenWalk;

/// Equal steps one after another.
struct Flight {
    /// Places of one step.
    places: u32,
    times: u32,
    /// Length of one step, in nanometres.
    length: u128,
}

/// After every place, the stitches picked up are the whole number nearest to their
/// share by length; halfway goes down. Nothing is nearer at any place.
pub(crate) fn along_stair(part: &Part, stitches: u32) -> Result<Vec<PickUpGroup>, Error> {
    let flights = flights(&part.steps, part.gauge)?;
    let total: u128 = flights.iter().map(|flight| flight.length * u128::from(flight.times)).sum();
    let mut grouping = Grouping::default();
    let (mut before, mut picked) = (0_u128, 0_u32);
    for flight in &flights {
        let mut due = Due::after(before, total, flight, stitches);
        for _ in 0..u64::from(flight.places) * u64::from(flight.times) {
            let now = due.next().min(stitches);
            if now - picked > 2 {
                return Err(too_many(&part.name, stitches));
            }
            grouping.place(now - picked);
            picked = now;
        }
        before += flight.length * u128::from(flight.times);
    }
    Ok(grouping.finish())
}

fn too_many(name: &str, stitches: u32) -> Error {
    let what = format!("the count of stitches to pick up along the {name}");
    Error::range(what, stitches, "at most two in each of its rows and bound-off stitches")
}

/// The stitches due after each place of a flight.
///
/// After `along` of `total` they are `along * stitches / total` to the nearest, which
/// is `(2 * along * stitches + total - 1) / (2 * total)` rounded down. Everything stays
/// below 2^127: lengths to 10^15 nm, 10^7 places and 10^7 stitches; most flights are
/// short enough for 64 bits, whose divisions are cheaper.
enum Due {
    Short(EvenWalk<u64>),
    Long(EvenWalk<u128>),
    Nothing,
}

impl Due {
    fn after(before: u128, total: u128, flight: &Flight, stitches: u32) -> Self {
        let (places, twice) = (u128::from(flight.places), 2 * u128::from(stitches));
        let over = 2 * total * places;
        let step = twice * flight.length;
        let start = twice * before * places + total * places - 1 + step;
        let short = || {
            let [start, step, over] = [start, step, over].map(|n| u64::try_from(n).ok());
            EvenWalk::new(start?, step?, over?)
        };
        let long = || EvenWalk::new(start, step, over).map(Self::Long);
        short().map(Self::Short).or_else(long).unwrap_or(Self::Nothing)
    }

    fn next(&mut self) -> u32 {
        let now = match self {
            Self::Short(walk) => walk.next(),
            Self::Long(walk) => walk.next(),
            Self::Nothing => None,
        };
        now.map_or(0, |now| u32::try_from(now).unwrap_or(u32::MAX))
    }
}

fn flights(steps: &[EdgeStep], gauge: Gauge) -> Result<Vec<Flight>, Error> {
    let mut flights = Vec::new();
    let mut known = Vec::new();
    for run in steps.chunk_by(|one, next| one == next) {
        if let (Some(&step), Ok(times)) = (run.first(), u32::try_from(run.len())) {
            let length = remembered(step, gauge, &mut known)?;
            flights.push(Flight { places: step.places(), times, length });
        }
    }
    Ok(flights)
}

/// How many kinds of steps are remembered: a staircase seldom has more.
const KINDS: usize = 8;

fn remembered(
    step: EdgeStep,
    gauge: Gauge,
    known: &mut Vec<(EdgeStep, u128)>,
) -> Result<u128, Error> {
    if let Some(&(_, length)) = known.iter().find(|(own, _)| *own == step) {
        return Ok(length);
    }
    let length = nanometres(step, gauge)?;
    if known.len() < KINDS {
        known.push((step, length));
    }
    Ok(length)
}

fn nanometres(step: EdgeStep, gauge: Gauge) -> Result<u128, Error> {
    let (across, up) = (gauge.length_of(step.stitches)?, gauge.length_of(step.rows)?);
    Ok(slant(across, up).into())
}
