use super::Question;
use crate::{Edge, Error, Join, Tolerance, Verdict};
use alloc::collections::BTreeMap;
use alloc::string::String;
use alloc::vec::Vec;
use loopwright_gauge::Stitches;

/// One join of a garment, to be checked.
///
/// # Examples
/// ```
/// use loopwright_gauge::Stitches;
/// use loopwright_seams::{Edge, Join, Seam, Tolerance};
/// let live = |name, count| Edge::live(name, Stitches::literal(count), "28x40/10cm".parse()?);
/// // Front and back lie over each other at the shoulder, on four needles.
/// let seam = Seam::new(Join::HangBack, live("armhole", 132)?, live("sleeve", 128)?)
///     .within(Tolerance::none())
///     .overlap(Stitches::literal(4));
/// assert!(seam.check()?.matches);
/// # Ok::<(), loopwright_seams::Error>(())
/// ```
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
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
    /// Needles that carry two stitches of the first edge, where it is hung back: where
    /// front and back overlap at a shoulder.
    #[cfg_attr(feature = "serde", serde(default))]
    pub overlap: Stitches,
}

impl Seam {
    /// A join of two edges, with the tolerance that is usual for it.
    #[must_use]
    pub const fn new(join: Join, a: Edge, b: Edge) -> Self {
        Self { join, a, b, tolerance: join.tolerance(), overlap: Stitches::ZERO }
    }

    /// The same join with another tolerance.
    #[must_use]
    pub fn within(self, tolerance: Tolerance) -> Self {
        Self { tolerance, ..self }
    }

    /// The same join with so many needles that carry two stitches of the first edge.
    #[must_use]
    pub fn overlap(self, overlap: Stitches) -> Self {
        Self { overlap, ..self }
    }

    /// Checks the join: counts, lengths, their differences, and what would mend it.
    ///
    /// # Errors
    /// As [`check`](crate::check()), and when there is an overlap where nothing is hung
    /// back.
    ///
    /// # Examples
    /// ```
    /// use loopwright_seams::{Edge, Join, Seam};
    /// let edge = |name, text| Edge::read(name, text, "28x40/10cm".parse()?);
    /// let seam = Seam::new(Join::RowSeam, edge("back", "150 rows")?, edge("front", "154 rows")?);
    /// assert!(!seam.check()?.matches);
    /// # Ok::<(), loopwright_seams::Error>(())
    /// ```
    pub fn check(&self) -> Result<Verdict, Error> {
        let Self { join, a, b, tolerance, overlap } = self;
        Question { join: *join, a, b, tolerance: *tolerance, overlap: *overlap }.answer()
    }
}

/// What the check of a whole garment found.
///
/// # Examples
/// ```
/// use loopwright_gauge::Stitches;
/// use loopwright_seams::{Edge, Join, Seam, check_all};
/// let live = |name, count| Edge::live(name, Stitches::literal(count), "28x40/10cm".parse()?);
/// let (front, back) = (live("front shoulder", 44)?, live("back shoulder", 43)?);
/// let edges = [front.clone(), back.clone()];
/// let report = check_all(&[Seam::new(Join::Graft, front, back)], &edges)?;
/// assert!(!report.holds() && report.loose.is_empty());
/// assert_eq!(report.failures().count(), 1);
/// # Ok::<(), loopwright_seams::Error>(())
/// ```
#[derive(Clone, Debug, Default, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct SeamReport {
    /// One verdict a join, in the order given.
    pub verdicts: Vec<Verdict>,
    /// Live edges that no join takes up: their stitches would run.
    pub loose: Vec<String>,
    /// Live edges that more than one join takes up.
    pub taken_twice: Vec<String>,
}

impl SeamReport {
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
/// As [`Seam::check`].
///
/// # Examples
/// ```
/// use loopwright_gauge::Stitches;
/// use loopwright_seams::{Edge, Join, Seam, check_all};
/// let live = |name| Edge::live(name, Stitches::literal(44), "28x40/10cm".parse()?);
/// let edges = [live("front shoulder")?, live("back shoulder")?, live("neck")?];
/// let [front, back, _] = edges.clone();
/// let report = check_all(&[Seam::new(Join::Graft, front, back)], &edges)?;
/// assert!(report.failures().next().is_none());
/// assert_eq!(report.loose, ["neck"]); // nothing takes up its stitches
/// # Ok::<(), loopwright_seams::Error>(())
/// ```
pub fn check_all(seams: &[Seam], edges: &[Edge]) -> Result<SeamReport, Error> {
    let verdicts = seams.iter().map(Seam::check).collect::<Result<_, _>>()?;
    let mut report = SeamReport { verdicts, ..SeamReport::default() };
    let mut taken: BTreeMap<&str, usize> = BTreeMap::new();
    for name in seams.iter().flat_map(|seam| seam.a.part_names().chain(seam.b.part_names())) {
        *taken.entry(name).or_default() += 1;
    }
    for edge in edges.iter().filter(|edge| edge.is_live()) {
        match taken.get(edge.name()) {
            None => report.loose.push(edge.name().into()),
            Some(1) => {}
            Some(_) => report.taken_twice.push(edge.name().into()),
        }
    }
    Ok(report)
}
