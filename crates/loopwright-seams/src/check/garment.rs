use crate::{Edge, Error, Join, Tolerance, Verdict, check};
use alloc::collections::BTreeMap;
use alloc::string::String;
use alloc::vec::Vec;

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
/// As [`check`].
pub fn check_all(seams: &[Seam], edges: &[Edge]) -> Result<SeamReport, Error> {
    let verdicts = seams
        .iter()
        .map(|seam| check(seam.join, &seam.a, &seam.b, seam.tolerance))
        .collect::<Result<_, _>>()?;
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
