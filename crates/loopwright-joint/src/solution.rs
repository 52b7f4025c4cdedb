use crate::error::Error;
use crate::key::{AnyCount, Key};
use alloc::string::String;
use alloc::vec::Vec;
use core::ops::Index;
use loopwright_gauge::{Count, Exact, Length, Rows, Stitches};

/// One count chosen, and what the choice cost.
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct RoundedCount {
    /// The unknown.
    pub name: String,
    /// The count to knit.
    pub count: AnyCount,
    /// The exact, unrounded count that was asked for.
    pub ideal: Exact,
    /// The count less the ideal.
    pub deviation: Exact,
}

/// One measure, as it came out.
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct RoundedMeasure {
    /// The measure.
    pub name: String,
    /// The length that was asked for.
    pub wanted: Length,
    /// The length that the counts come to.
    pub given: Length,
    /// By how much the two differ, above zero.
    pub missed: Length,
}

/// Counts rounded together, in the order the unknowns were given.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Exact, Stitches};
/// use loopwright_joint::{Demand, Problem, Unknown};
/// let mut problem = Problem::new();
/// let left = problem.stitches("left", Unknown::near(Exact::new(41, 2)?))?;
/// let right = problem.stitches("right", Unknown::near(Exact::new(41, 2)?))?;
/// problem.demand("whole", Demand::sum([(1, &left), (1, &right)], 41))?;
/// let solution = problem.solve()?.into_result()?;
/// assert_eq!((solution[&left], solution[&right]), (Stitches::new(21)?, Stitches::new(20)?));
/// assert_eq!(solution.total_miss(), Exact::ONE);
/// assert!(solution.is_proved());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
pub struct Solution {
    pub(crate) counts: Vec<RoundedCount>,
    pub(crate) measures: Vec<RoundedMeasure>,
    pub(crate) total: Exact,
    pub(crate) largest: Exact,
    pub(crate) least_total: Exact,
    pub(crate) proved: bool,
    pub(crate) measured: bool,
}

impl Solution {
    /// Adds one miss to the account.
    pub(crate) fn miss(&mut self, weight: Exact, miss: Exact) -> Result<(), Error> {
        let weighted = miss.checked_mul(weight).and_then(|miss| self.total.checked_add(miss));
        self.total = weighted.map_err(|_| Error::overflow())?;
        self.largest = self.largest.max(miss);
        Ok(())
    }

    /// The count of the unknown of this name or key.
    #[must_use]
    pub fn count(&self, name: impl AsRef<str>) -> Option<AnyCount> {
        let mut counts = self.counts.iter();
        counts.find(|rounded| rounded.name == name.as_ref()).map(|rounded| rounded.count)
    }

    /// The count of a key, if it is one of this problem.
    #[must_use]
    pub fn get<C: Count>(&self, key: &Key<C>) -> Option<C> {
        self.count(key).and_then(|count| C::new(count.get()).ok())
    }

    /// Every count, in the order the unknowns were given.
    #[must_use]
    pub fn counts(&self) -> &[RoundedCount] {
        &self.counts
    }

    /// Whether any count has a gauge, so that misses are lengths.
    #[must_use]
    pub const fn is_measured(&self) -> bool {
        self.measured
    }

    /// Every measure, in the order they were given.
    #[must_use]
    pub fn measures(&self) -> &[RoundedMeasure] {
        &self.measures
    }

    /// The sum of weight times miss, in millimetres, or in counts where an unknown has
    /// no gauge: the least possible.
    #[must_use]
    pub const fn total_miss(&self) -> Exact {
        self.total
    }

    /// The largest miss of any wish or measure, the least possible at that sum.
    #[must_use]
    pub const fn largest_miss(&self) -> Exact {
        self.largest
    }

    /// No counts have a smaller total than this. It is the total itself if that is
    /// proved least; else the total is above the least one by the difference at most.
    #[must_use]
    pub const fn least_total(&self) -> Exact {
        self.least_total
    }

    /// Whether the counts are proved to be the one best answer; if not, the search met
    /// its limit, and they are the best that it found.
    #[must_use]
    pub const fn is_proved(&self) -> bool {
        self.proved
    }
}

macro_rules! by_key {
    ($($count:ident),*) => {$(
        impl Index<&Key<$count>> for Solution {
            type Output = $count;

            /// The count of a key.
            ///
            /// # Panics
            /// When the key is of another problem; [`Solution::get`] says so instead.
            fn index(&self, key: &Key<$count>) -> &$count {
                let mut counts = self.counts.iter();
                match counts.find(|rounded| rounded.name == key.name()).map(|of| &of.count) {
                    Some(AnyCount::$count(count)) => count,
                    _ => panic!("{:?} is no key of this problem", key.name()),
                }
            }
        }
    )*};
}

by_key!(Stitches, Rows);
