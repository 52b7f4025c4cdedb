use crate::error::Error;
use crate::problem::Problem;
use alloc::string::String;
use alloc::vec::Vec;
use core::fmt;
use loopwright_gauge::Exact;

/// What came of a joint rounding.
#[derive(Clone, Debug, Eq, PartialEq)]
#[non_exhaustive]
pub enum Outcome {
    /// The best counts.
    Solved(Solution),
    /// No counts: these demands cannot all hold.
    Conflict(Conflict),
}

impl Outcome {
    /// The solution, or the conflict as an error.
    ///
    /// # Errors
    /// The conflict, when there is no solution.
    pub fn into_result(self) -> Result<Solution, Conflict> {
        match self {
            Self::Solved(solution) => Ok(solution),
            Self::Conflict(conflict) => Err(conflict),
        }
    }
}

/// One count chosen, and what the choice cost.
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
#[non_exhaustive]
pub struct Rounded {
    /// The unknown.
    pub name: String,
    /// The count to knit.
    pub count: u32,
    /// The exact, unrounded count that was asked for.
    pub ideal: Exact,
    /// The count less the ideal.
    pub deviation: Exact,
}

/// Counts rounded together, in the order the unknowns were given.
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Solution {
    counts: Vec<Rounded>,
    total: Exact,
    largest: Exact,
    proved: bool,
}

impl Solution {
    pub(crate) fn new(problem: &Problem, counts: &[u32], proved: bool) -> Result<Self, Error> {
        let (mut total, mut largest) = (Exact::ZERO, Exact::ZERO);
        let mut rounded = Vec::with_capacity(counts.len());
        for ((name, unknown), &count) in problem.names.iter().zip(&problem.unknowns).zip(counts) {
            let deviation = Exact::from(count).checked_sub(unknown.ideal);
            let deviation = deviation.map_err(|_| Error::overflow())?;
            let weighted = deviation.abs().checked_mul(unknown.weight);
            total = weighted
                .and_then(|weighted| total.checked_add(weighted))
                .map_err(|_| Error::overflow())?;
            largest = largest.max(deviation.abs());
            let (name, ideal) = (name.clone(), unknown.ideal);
            rounded.push(Rounded { name, count, ideal, deviation });
        }
        Ok(Self { counts: rounded, total, largest, proved })
    }

    /// The count of the unknown called `name`.
    #[must_use]
    pub fn count(&self, name: &str) -> Option<u32> {
        self.counts.iter().find(|rounded| rounded.name == name).map(|rounded| rounded.count)
    }

    /// Every count, in the order the unknowns were given.
    #[must_use]
    pub fn counts(&self) -> &[Rounded] {
        &self.counts
    }

    /// The sum of weight times |count - ideal|, which is the least possible.
    #[must_use]
    pub const fn total_deviation(&self) -> Exact {
        self.total
    }

    /// The largest |count - ideal|, the least possible at that sum.
    #[must_use]
    pub const fn largest_deviation(&self) -> Exact {
        self.largest
    }

    /// Whether the counts are proved best; if not, the search met its limit, and
    /// they are only the best that it found.
    #[must_use]
    pub const fn is_proved(&self) -> bool {
        self.proved
    }
}

/// The smallest set of demands that cannot all hold, whatever becomes of the rest.
///
/// Smallest means: the fewest demands, and of sets of as many the first in the order
/// the demands were given. Ranges and repeats of the unknowns are held throughout.
/// Without any one of its members the others can hold.
///
/// # Examples
/// ```
/// use loopwright_gauge::Exact;
/// use loopwright_joint::{Demand, Outcome, Problem, Relaxation, Unknown};
///
/// let mut problem = Problem::new();
/// for name in ["back", "shoulder", "neck"] {
///     problem.unknown(name, Unknown::near(Exact::whole(48)))?;
/// }
/// problem.demand("across", Demand::sum([(2, "shoulder"), (1, "neck"), (-1, "back")], 0))?;
/// problem.demand("back", Demand::sum([(1, "back")], 140))?;
/// problem.demand("neck", Demand::sum([(1, "neck")], 45))?;
/// problem.demand("graded", Demand::ordered(["neck", "shoulder"]))?;
///
/// // 95 stitches are left for two equal shoulders.
/// let Outcome::Conflict(conflict) = problem.solve()? else { unreachable!() };
/// assert!(conflict.demands().eq(["across", "back", "neck"]));
/// assert_eq!(conflict.members()[0].relaxation, Relaxation::By(1));
/// # Ok::<(), loopwright_joint::Error>(())
/// ```
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Conflict {
    pub(crate) members: Vec<Member>,
}

/// One demand of a conflict.
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
#[non_exhaustive]
pub struct Member {
    /// The demand.
    pub demand: String,
    /// What would let the others hold.
    pub relaxation: Relaxation,
}

/// The least that must be given up of one demand so that the others can hold.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum Relaxation {
    /// It may be missed by this many stitches or rows, of the first unknown it
    /// names (a sum by this much in its total).
    By(u64),
    /// It must be let go altogether.
    Drop,
}

impl Conflict {
    /// The demands in conflict, in the order they were given.
    #[must_use]
    pub fn members(&self) -> &[Member] {
        &self.members
    }

    /// Their names.
    pub fn demands(&self) -> impl Iterator<Item = &str> {
        self.members.iter().map(|member| member.demand.as_str())
    }
}

impl fmt::Display for Conflict {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let many = self.members.len() > 1;
        f.write_str(if many { "these demands cannot all hold: " } else { "this cannot hold: " })?;
        for (place, member) in self.members.iter().enumerate() {
            f.write_str(if place == 0 { "" } else { "; " })?;
            match member.relaxation {
                Relaxation::By(by) => write!(f, "{:?} (unless missed by {by})", member.demand)?,
                Relaxation::Drop => write!(f, "{:?} (unless let go)", member.demand)?,
            }
        }
        Ok(())
    }
}

impl core::error::Error for Conflict {}
