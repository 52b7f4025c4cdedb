//! Picking up along several edges in one line: a neck, an armhole, a front band.

use crate::edge::Part;
use crate::pickup::apportion::{MEASURE, common, give_last, largest_remainders};
#[cfg(feature = "serde")]
use crate::pickup::serial::RawLine;
use crate::pickup::stair::along_stair;
use crate::{Edge, EdgeKind, Error, PickUpGroup, PickUpSpacing, Placement, Rate, Span, say};
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;
use core::fmt;
use loopwright_gauge::{Count as _, Exact, Fitted, Gauge, Length, Repeat, Round, Stitches};
use num_integer::gcd;

/// Edges in the order they are picked up, and the gauge of what is picked up.
///
/// A corner is one stitch picked up where two edges meet: it belongs to both, half
/// its width to each, and is counted once.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Gauge, Repeat, Round, Rows, Stitches};
/// use loopwright_seams::{Edge, PickUpLine, PickUpSpacing};
/// let plain: Gauge = "20 x 28 / 10 cm".parse()?;
/// let side = |name| Edge::selvedge(name, Rows::new(56)?, plain);
/// let neck = PickUpLine::new(plain)
///     .along(side("left front neck")?)
///     .corner()
///     .along(side("right front neck")?)
///     .along(Edge::bound_off("back neck", Stitches::new(30)?, plain)?);
/// let count = neck.fit(Repeat::multiple_of(4)?, Round::HalfUp)?.count;
/// assert_eq!(count.get(), 112);
/// let picked = neck.place(count, PickUpSpacing::Full)?;
/// let counts: Vec<u32> = picked.iter().map(|run| run.stitches.get()).collect();
/// assert_eq!(counts, [40, 40, 31]);
/// # Ok::<(), loopwright_seams::Error>(())
/// ```
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(from = "RawLine", into = "RawLine"))]
pub struct PickUpLine {
    pub(super) band: Gauge,
    pub(super) runs: Vec<Run>,
    pub(super) mirrored: bool,
}

#[derive(Clone, Debug, Eq, PartialEq)]
pub(super) struct Run {
    pub(super) part: Part,
    pub(super) rate: Option<Rate>,
    pub(super) corner: bool,
}

/// What is picked up along one edge of a [`PickUpLine`].
///
/// # Examples
/// ```
/// use loopwright_gauge::Stitches;
/// use loopwright_seams::{Edge, PickUpLine, PickUpSpacing};
/// let plain = "21 x 28 / 10 cm".parse()?;
/// let line = PickUpLine::new(plain).along(Edge::read("right front", "112 rows", plain)?);
/// let picked = line.place(Stitches::new(84)?, PickUpSpacing::Blocks)?;
/// assert_eq!(picked[0].to_string(), "right front, 84 stitches: (pick up 3, miss 1) 28 times");
/// # Ok::<(), loopwright_seams::Error>(())
/// ```
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct Picked {
    /// The name of the edge.
    pub edge: String,
    /// The stitches picked up along it, corners not counted.
    pub stitches: Stitches,
    /// The exact share of the whole count that is due to it.
    pub ideal: Exact,
    /// Where: places are rows of a selvedge and stitches of a stitch edge; along a
    /// staircase every row end, and every stitch of a step of two or more.
    pub groups: Vec<PickUpGroup>,
    /// Whether a corner stitch is picked up after it.
    pub corner: bool,
}

impl PickUpLine {
    /// An empty line, to be picked up at the gauge of `band`.
    #[must_use]
    pub const fn new(band: Gauge) -> Self {
        Self { band, runs: Vec::new(), mirrored: false }
    }

    /// The line, with `edge` next, picked up by its length.
    #[must_use]
    pub fn along(self, edge: Edge) -> Self {
        self.next(edge, None)
    }

    /// The line, with `edge` next, picked up at a rate of the caller's whatever its
    /// length: 1 of every 1 along a bound-off edge, or 4 of every 5 along a slant.
    #[must_use]
    pub fn along_at(self, edge: Edge, rate: Rate) -> Self {
        self.next(edge, Some(rate))
    }

    pub(super) fn next(mut self, edge: Edge, rate: Option<Rate>) -> Self {
        let runs = edge.into_parts().into_iter().map(|part| Run { part, rate, corner: false });
        self.runs.extend(runs);
        self
    }

    /// The line, with one stitch at the corner after the last edge so far; after the
    /// last edge of all it is shared with the first, where the line meets itself.
    #[must_use]
    pub fn corner(mut self) -> Self {
        if let Some(last) = self.runs.last_mut() {
            last.corner = true;
        }
        self
    }

    /// The line, with both halves picked up alike: the first edge as many as the last,
    /// and so on inwards.
    #[must_use]
    pub const fn mirrored(mut self) -> Self {
        self.mirrored = true;
        self
    }

    /// The count for the whole line that `repeat` allows and `round` chooses.
    ///
    /// # Errors
    /// When the line is empty, or no count can be held.
    pub fn fit(&self, repeat: Repeat, round: Round) -> Result<Fitted<Stitches>, Error> {
        Ok(self.band.fit::<Stitches>(self.length()?.middle()?, repeat, round)?)
    }

    /// The gauge of what is picked up.
    #[must_use]
    pub const fn band(&self) -> Gauge {
        self.band
    }

    /// The length of the whole line; edges picked up at a rate count for as much as
    /// the stitches of that rate are wide.
    ///
    /// # Errors
    /// When the line is empty, or the length cannot be held.
    pub fn length(&self) -> Result<Span, Error> {
        let mut length = Span::ZERO;
        for run in &self.runs {
            length = length.checked_add(self.length_of(run)?)?;
        }
        if self.runs.is_empty() { Err(empty()) } else { Ok(length) }
    }

    /// Where `stitches` are picked up.
    ///
    /// Each edge gets its share of the stitches by its length, to the whole stitch
    /// below or above; those with the largest remainders get the one above, and of
    /// equal ones the earlier. No other shares are nearer, added up or singly (method
    /// of largest remainders).
    ///
    /// # Errors
    /// When the line is empty, an edge is too short for its corners or gets more than
    /// two stitches a place, or a mirrored line cannot be shared alike.
    pub fn place(&self, stitches: Stitches, spacing: PickUpSpacing) -> Result<Vec<Picked>, Error> {
        let corners = self.runs.iter().filter(|run| run.corner).count();
        let shared = u32::try_from(corners).ok().and_then(|n| stitches.get().checked_sub(n));
        let Some(shared @ 1..) = shared else {
            let allowed = format!("at least {}: one, and one for each corner", corners + 1);
            return Err(Error::range("the count of stitches to pick up", stitches, allowed));
        };
        // One edge alone takes them all, and nothing has to be shared out.
        if let ([run], 0) = (self.runs.as_slice(), corners) {
            return Ok(Vec::from([picked(run, shared, shared.into(), spacing)?]));
        }
        let weights = self.weights()?;
        let counts = self.share(&weights, shared)?;
        let all = weights.iter().sum();
        self.runs
            .iter()
            .zip(weights.iter().zip(counts))
            .map(|(run, (&weight, count))| picked(run, count, ideal(weight, all, shared)?, spacing))
            .collect()
    }

    /// The length a run is picked up for, at the gauge of the band.
    fn length_of(&self, run: &Run) -> Result<Span, Error> {
        match run.rate {
            None => Ok(run.part.length),
            Some(rate) => {
                let stitches = rate.exact()?.checked_mul(places(&run.part).into())?;
                let mm = stitches.checked_div(self.band.per_mm::<Stitches>()?)?;
                Ok(Span::exact(Length::from_millimetres(mm)?))
            }
        }
    }

    /// The lengths, less half a stitch at each corner, over a common denominator.
    fn weights(&self) -> Result<Vec<i128>, Error> {
        if self.runs.is_empty() {
            return Err(empty());
        }
        let half = Exact::new(1, 2)?.checked_div(self.band.per_mm::<Stitches>()?)?;
        let mut measures = Vec::from([half]);
        for run in &self.runs {
            measures.push(self.length_of(run)?.middle()?.millimetres());
        }
        let measures = common(&measures)?;
        let half = measures.first().copied().unwrap_or_default();
        let before = self.runs.last().into_iter().chain(&self.runs);
        let lengths = measures.iter().skip(1);
        self.runs
            .iter()
            .zip(before)
            .zip(lengths)
            .map(|((run, before), length)| {
                let corners = i128::from(run.corner) + i128::from(before.corner);
                let left = length - corners * half;
                if left > 0 { Ok(left) } else { Err(too_short(run)) }
            })
            .collect()
    }

    fn share(&self, weights: &[i128], shared: u32) -> Result<Vec<u32>, Error> {
        let all: i128 = weights.iter().sum();
        let targets: Option<Vec<i128>> =
            weights.iter().map(|weight| weight.checked_mul(shared.into())).collect();
        let targets = targets.ok_or_else(too_fine)?;
        if self.mirrored {
            return self.share_alike(weights, &targets, all, shared);
        }
        Ok(largest_remainders(&targets, all, shared))
    }

    /// Pairs of edges get the same count, so only one of each pair is shared out; an
    /// edge in the middle is shared out in twos, above the odd stitch if there is one.
    fn share_alike(
        &self,
        weights: &[i128],
        targets: &[i128],
        all: i128,
        shared: u32,
    ) -> Result<Vec<u32>, Error> {
        let (count, odd) = (weights.len(), shared % 2);
        let refuse =
            |why: &str| Error::range("the line to be mirrored", why, "alike on both sides");
        let mut ends = weights.iter().zip(weights.iter().rev());
        if !ends.all(|(one, other)| one == other) || !self.corners_mirror() {
            return Err(refuse("not the same from both ends"));
        }
        if count.is_multiple_of(2) && odd == 1 {
            return Err(refuse("an odd count without an edge in the middle"));
        }
        // In halves: twice a side's target, and the middle's less its odd stitch.
        let mut halves: Vec<i128> =
            targets.iter().take(count / 2).map(|target| 2 * target).collect();
        if let (false, Some(middle)) = (count.is_multiple_of(2), targets.get(count / 2)) {
            halves.push(middle - i128::from(odd) * all);
        }
        if halves.iter().any(|&half| half < 0) {
            return Err(refuse("too short in the middle for an odd stitch"));
        }
        let shares_of_half = largest_remainders(&halves, 2 * all, shared / 2);
        let mirror = |halves: &[u32]| -> Vec<u32> {
            let side = halves.iter().take(count / 2);
            let middle = halves.get(count / 2).map(|half| 2 * half + odd);
            side.clone().copied().chain(middle).chain(side.rev().copied()).collect()
        };
        let alike = mirror(&shares_of_half);
        // A remainder of the middle weighs double in the largest deviation, so where it
        // is as large as that of a pair, the stitches may be better there.
        let other = give_last(&shares_of_half, &halves, 2 * all).map(|halves| mirror(&halves));
        let largest = |shares: &[u32]| {
            let apart = shares.iter().zip(targets);
            apart.map(|(&share, target)| (i128::from(share) * all - target).abs()).max()
        };
        Ok(other.filter(|other| largest(other) < largest(&alike)).unwrap_or(alike))
    }

    /// Corners fall between edges, so the one after the last edge mirrors itself.
    fn corners_mirror(&self) -> bool {
        let inner = || self.runs.iter().take(self.runs.len() - 1).map(|run| run.corner);
        inner().eq(inner().rev())
    }
}

fn empty() -> Error {
    Error::range("the count of edges to pick up along", 0, "at least 1")
}

fn too_fine() -> Error {
    Error::range(MEASURE, "too fine to be held", "a fraction of fewer digits")
}

fn too_short(run: &Run) -> Error {
    let what = format!("the length of the {}", run.part.name);
    Error::range(what, run.part.length.low(), "more than its corners take")
}

/// `shared * weight / all`, as exactly as 63 bits can tell it. The shares themselves
/// never lose a digit.
fn ideal(weight: i128, all: i128, shared: u32) -> Result<Exact, Error> {
    let numer = weight.checked_mul(shared.into()).ok_or_else(too_fine)?;
    let divisor = gcd(numer, all).max(1);
    let (mut numer, mut denom) = (numer / divisor, all / divisor);
    loop {
        if let (Ok(numer), Ok(denom @ 1..)) = (i64::try_from(numer), i64::try_from(denom)) {
            return Ok(Exact::new(numer, denom)?);
        }
        (numer, denom) = (numer / 2, (denom / 2).max(1));
    }
}

fn places(part: &Part) -> u32 {
    match part.kind {
        EdgeKind::Selvedge => part.rows.get(),
        EdgeKind::Stepped => part.steps.iter().copied().map(crate::EdgeStep::places).sum(),
        _ => part.stitches.get(),
    }
}

fn groups_along(
    part: &Part,
    stitches: u32,
    spacing: PickUpSpacing,
) -> Result<Vec<PickUpGroup>, Error> {
    if stitches == 0 {
        return Ok(Vec::from([PickUpGroup::of(0, places(part), 0)]));
    }
    if part.kind == EdgeKind::Stepped {
        return along_stair(part, stitches);
    }
    let stitches = Stitches::new(stitches)?;
    Ok(match part.kind {
        EdgeKind::Selvedge => Placement::new(part.rows, stitches, spacing),
        _ => Placement::new(part.stitches, stitches, spacing),
    }?
    .groups())
}

fn picked(run: &Run, stitches: u32, ideal: Exact, spacing: PickUpSpacing) -> Result<Picked, Error> {
    let groups = groups_along(&run.part, stitches, spacing)?;
    let stitches = Stitches::new(stitches)?;
    Ok(Picked { edge: run.part.name.clone(), stitches, ideal, groups, corner: run.corner })
}

/// "right front, 84 stitches: (pick up 3, miss 1) 28 times".
impl fmt::Display for Picked {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}, {}: {}", self.edge, self.stitches.counted(), say(&self.groups))?;
        if self.corner { f.write_str("; then 1 at the corner") } else { Ok(()) }
    }
}
