//! The check of one join, and of every join of a garment.

use crate::edge::Part;
use crate::join::Law;
use crate::verdict::{Side, within};
use crate::{Change, Counted, Edge, Error, Join, Mend, Span, Tolerance, Verdict};
use alloc::string::String;
use alloc::vec::Vec;
use core::cmp::Ordering;
use loopwright_gauge::{Exact, Length, Rows, Stitches};

/// Checks one join: counts, lengths, their differences, and what would mend it.
///
/// # Errors
/// When the join cannot be made of these edges at all (a graft of bound-off
/// stitches), or a length cannot be held exactly.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Gauge, Stitches};
/// use loopwright_seams::{Edge, Join, check};
/// let gauge: Gauge = "28 x 40 / 10 cm".parse()?;
/// let front = Edge::live("front shoulder", Stitches::new(44)?, gauge)?;
/// let back = Edge::live("back shoulder", Stitches::new(44)?, gauge)?;
/// assert!(check(Join::Graft, &front, &back, Join::Graft.tolerance())?.matches);
/// # Ok::<(), loopwright_seams::Error>(())
/// ```
pub fn check(join: Join, a: &Edge, b: &Edge, tolerance: Tolerance) -> Result<Verdict, Error> {
    join.suits(a, b)?;
    match join.law(a) {
        Law::Stitches { overlap } => {
            let counts = (a.stitches().get(), b.stitches().get());
            paired(join, a, b, Counted::Stitches, counts, overlap, tolerance)
        }
        Law::Rows => {
            let counts = (a.rows().get(), b.rows().get());
            paired(join, a, b, Counted::Rows, counts, Stitches::ZERO, tolerance)
        }
        Law::Length { overlap } => measured(join, a, b, overlap, tolerance),
    }
}

/// A join that pairs stitches with stitches, or rows with rows.
fn paired(
    join: Join,
    a: &Edge,
    b: &Edge,
    counted: Counted,
    (from_a, from_b): (u32, u32),
    overlap: Stitches,
    tolerance: Tolerance,
) -> Result<Verdict, Error> {
    let difference = i64::from(from_a) - i64::from(from_b) - i64::from(overlap.get());
    let most = i64::from(tolerance.most_counts());
    // How far beyond the tolerance, with its sign.
    let excess = difference - difference.clamp(-most, most);
    let change = |edge: &Edge, from: u32, by: i64| {
        let to = u32::try_from(i64::from(from) + by).ok().filter(|&to| to > 0)?;
        Some(Change { edge: edge.name().into(), counted, from, to })
    };
    let mend =
        (excess != 0).then(|| Mend { a: change(a, from_a, -excess), b: change(b, from_b, excess) });
    Ok(Verdict {
        join,
        a: Side::of(a)?,
        b: Side::of(b)?,
        by_length: false,
        counted,
        difference: difference.try_into()?,
        length_difference: apart(a, b, overlap)?,
        matches: excess == 0,
        mend,
    })
}

/// A join that compares lengths.
fn measured(
    join: Join,
    a: &Edge,
    b: &Edge,
    overlap: Stitches,
    tolerance: Tolerance,
) -> Result<Verdict, Error> {
    let (unit_a, unit_b) = (unit(a)?, unit(b)?);
    let difference = apart(a, b, overlap)?;
    let ease = tolerance.ease();
    // Where the join stands once either edge has so many stitches or rows more.
    let stand = |more_a: i64, more_b: i64| -> Result<Ordering, Error> {
        let grown = |unit: Length, more| unit.scaled(Exact::try_from(more)?).map(Span::exact);
        let (grown_a, grown_b) = (grown(unit_a.length, more_a)?, grown(unit_b.length, more_b)?);
        let now = difference.checked_add(grown_a)?.checked_sub(grown_b)?;
        let range = ease.range(b.length().checked_add(grown_b)?, unit_b.length)?;
        Ok(within(now, range))
    };
    let now = stand(0, 0)?;
    let mend = (now != Ordering::Equal).then(|| {
        let sign = if now == Ordering::Greater { -1 } else { 1 };
        Mend {
            a: smallest(&unit_a, sign, now, |more| stand(more, 0)).map(|to| unit_a.change(a, to)),
            b: smallest(&unit_b, -sign, now, |more| stand(0, more)).map(|to| unit_b.change(b, to)),
        }
    });
    Ok(Verdict {
        join,
        a: Side::of(a)?,
        b: Side::of(b)?,
        by_length: true,
        counted: unit_b.counted,
        difference: difference.middle()?.ratio(unit_b.length)?,
        length_difference: difference,
        matches: mend.is_none(),
        mend,
    })
}

/// The length of `a` less that of `b`, less the overlap at the gauge of `b`.
fn apart(a: &Edge, b: &Edge, overlap: Stitches) -> Result<Span, Error> {
    let difference = a.length().checked_sub(b.length())?;
    match b.parts().first() {
        Some(part) if overlap.get() > 0 => {
            difference.checked_sub(Span::exact(part.gauge.width_of(overlap)?))
        }
        _ => Ok(difference),
    }
}

/// What an edge can be lengthened by: a stitch, or a row where it has rows.
struct UnitOf {
    counted: Counted,
    count: u32,
    length: Length,
}

impl UnitOf {
    fn change(&self, edge: &Edge, to: u32) -> Change {
        Change { edge: edge.name().into(), counted: self.counted, from: self.count, to }
    }
}

fn unit(edge: &Edge) -> Result<UnitOf, Error> {
    let has_rows = |part: &&Part| part.rows > Rows::ZERO;
    if let Some(part) = edge.parts().iter().find(has_rows) {
        let length = part.gauge.height_of(Rows::new(1)?)?;
        return Ok(UnitOf { counted: Counted::Rows, count: edge.rows().get(), length });
    }
    let length = match edge.parts().first() {
        Some(part) => part.gauge.width_of(Stitches::new(1)?)?,
        None => Length::ZERO, // an edge always has a part
    };
    Ok(UnitOf { counted: Counted::Stitches, count: edge.stitches().get(), length })
}

/// The count nearest to the one an edge has, `sign`-wards, at which the join holds.
///
/// Lengthening only ever moves the join one way, so the smallest change after which
/// it is no longer on its first side is found by halving; `None` when that change
/// throws it over to the other side, or no edge can be so long or so short.
fn smallest(
    unit: &UnitOf,
    sign: i64,
    first: Ordering,
    stand: impl Fn(i64) -> Result<Ordering, Error>,
) -> Option<u32> {
    let left = |change: i64| stand(sign * change).map(|now| now != first);
    let mut far = 1_i64;
    while !left(far).ok()? {
        far = far.checked_mul(2)?;
    }
    let mut near = far / 2;
    while far - near > 1 {
        let middle = near + (far - near) / 2;
        if left(middle).ok()? { far = middle } else { near = middle }
    }
    let holds = stand(sign * far).ok()? == Ordering::Equal;
    let to = u32::try_from(i64::from(unit.count) + sign * far).ok().filter(|&to| to > 0)?;
    holds.then_some(to)
}

/// One join of a garment, to be checked.
#[derive(Clone, Debug, Eq, PartialEq)]
#[non_exhaustive]
pub struct Seam {
    /// The join.
    pub join: Join,
    /// The first edge.
    pub a: Edge,
    /// The second edge.
    pub b: Edge,
    /// How far they may differ.
    pub tolerance: Tolerance,
}

impl Seam {
    /// A join of two edges, with the tolerance that is usual for it.
    #[must_use]
    pub const fn new(join: Join, a: Edge, b: Edge) -> Self {
        Self { join, a, b, tolerance: join.tolerance() }
    }

    /// The same join with another tolerance.
    #[must_use]
    pub fn within(self, tolerance: Tolerance) -> Self {
        Self { tolerance, ..self }
    }
}

/// What the check of a whole garment found.
#[derive(Clone, Debug, Default, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
#[non_exhaustive]
pub struct Report {
    /// One verdict a join, in the order given.
    pub verdicts: Vec<Verdict>,
    /// Live edges that no join takes up: their stitches would run.
    pub loose: Vec<String>,
    /// Live edges that more than one join takes up.
    pub taken_twice: Vec<String>,
}

impl Report {
    /// Whether every join holds and every live stitch is taken up once.
    #[must_use]
    pub fn holds(&self) -> bool {
        self.failures().next().is_none() && self.loose.is_empty() && self.taken_twice.is_empty()
    }

    /// The joins that do not hold.
    pub fn failures(&self) -> impl Iterator<Item = &Verdict> {
        self.verdicts.iter().filter(|verdict| !verdict.matches)
    }
}

/// Checks every join of a garment, and that every live edge among `edges` is taken
/// up by exactly one of them.
///
/// Edges are told apart by name; an edge joined from several counts as each of them.
///
/// # Errors
/// As [`check`].
pub fn check_all(seams: &[Seam], edges: &[Edge]) -> Result<Report, Error> {
    let verdicts = seams
        .iter()
        .map(|seam| check(seam.join, &seam.a, &seam.b, seam.tolerance))
        .collect::<Result<_, _>>()?;
    let mut report = Report { verdicts, ..Report::default() };
    for edge in edges.iter().filter(|edge| edge.is_live()) {
        match seams.iter().map(|seam| times_taken(seam, edge)).sum::<usize>() {
            0 => report.loose.push(edge.name().into()),
            1 => {}
            _ => report.taken_twice.push(edge.name().into()),
        }
    }
    Ok(report)
}

fn times_taken(seam: &Seam, edge: &Edge) -> usize {
    let taken = |side: &Edge| side.part_names().filter(|&name| name == edge.name()).count();
    taken(&seam.a) + taken(&seam.b)
}
