use crate::demand::Limit;
use crate::solution::Solution;
use alloc::string::String;
use alloc::vec::Vec;
use core::fmt;
use loopwright_gauge::{Length, Precision, Unit};

/// What came of a joint rounding.
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum Answer {
    /// The best counts.
    Solved(Solution),
    /// No counts: these demands cannot all hold.
    Conflict(Conflict),
}

impl Answer {
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

/// The smallest set of demands that cannot all hold, whatever becomes of the rest.
///
/// Smallest means: the fewest demands, and of sets of as many the first in the order
/// the demands were given, measures with a tolerance among them. Ranges and repeats of
/// the unknowns are held throughout. Without any one of its members the others can hold.
///
/// # Examples
/// ```
/// use loopwright_gauge::Exact;
/// use loopwright_joint::{Answer, Demand, Problem, Release, Unknown};
///
/// let mut problem = Problem::new();
/// for name in ["back", "shoulder", "neck"] {
///     problem.stitches(name, Unknown::near(Exact::whole(48)))?;
/// }
/// problem.demand("across", Demand::sum([(2, "shoulder"), (1, "neck"), (-1, "back")], 0))?;
/// problem.demand("back", Demand::sum([(1, "back")], 140))?;
/// problem.demand("neck", Demand::sum([(1, "neck")], 45))?;
/// problem.demand("graded", Demand::ordered(["neck", "shoulder"]))?;
///
/// // 95 stitches are left for two equal shoulders.
/// let Answer::Conflict(conflict) = problem.solve()? else { unreachable!() };
/// assert!(conflict.demands().eq(["across", "back", "neck"]));
/// assert_eq!(conflict.members()[0].release, Release::By(1));
/// assert!(conflict.is_smallest());
/// # Ok::<(), loopwright_joint::Error>(())
/// ```
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
pub struct Conflict {
    pub(crate) members: Vec<ConflictMember>,
    pub(crate) smallest: bool,
}

/// One demand of a conflict.
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct ConflictMember {
    /// The demand.
    pub demand: String,
    /// The least change to it alone that lets the whole problem be solved.
    pub release: Release,
    /// The total it would then come to, where it is one of a sum.
    pub would_be: Option<Limit>,
}

/// The least change to one demand of a conflict after which the whole problem, all
/// other demands included, can be solved: it was solved so before it is offered.
///
/// # Examples
/// ```
/// use loopwright_joint::Release;
/// assert_eq!(Release::By(2).to_string(), "missed by 2");
/// assert_eq!(Release::Drop.to_string(), "let go");
/// ```
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum Release {
    /// It may be missed by this many stitches or rows, of the first unknown it
    /// names (a sum by this much in its total).
    By(u64),
    /// It may be missed by this length.
    ByLength(Length),
    /// It must be let go altogether.
    Drop,
    /// No change to this demand alone is known to be enough: others clash too.
    NotAlone,
}

impl fmt::Display for Release {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::By(by) => write!(f, "missed by {by}"),
            Self::ByLength(by) => {
                write!(f, "missed by {}", by.display(Unit::Millimetre, Precision::Decimals(1)))
            }
            Self::Drop => f.write_str("let go"),
            Self::NotAlone => f.write_str("changed together with others"),
        }
    }
}

impl Conflict {
    /// The demands in conflict, in the order they were given.
    #[must_use]
    pub fn members(&self) -> &[ConflictMember] {
        &self.members
    }

    /// Their names.
    pub fn demands(&self) -> impl Iterator<Item = &str> {
        self.members.iter().map(|member| member.demand.as_str())
    }

    /// Whether no smaller set is in conflict, nor an earlier one of the same size. If
    /// that is not proved, the set is still one that cannot all hold.
    #[must_use]
    pub const fn is_smallest(&self) -> bool {
        self.smallest
    }
}

impl fmt::Display for Conflict {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let many = self.members.len() > 1;
        f.write_str(if many { "these demands cannot all hold: " } else { "this cannot hold: " })?;
        for (place, member) in self.members.iter().enumerate() {
            f.write_str(if place == 0 { "" } else { "; " })?;
            write!(f, "{:?}", member.demand)?;
            if member.release != Release::NotAlone {
                write!(f, " (unless {})", member.release)?;
            }
        }
        Ok(())
    }
}

impl core::error::Error for Conflict {}
