//! A total split into parts that differ by at most one, in a chosen order.
//!
//! Everything evenly spaced in this crate is such a split. The sum of the first
//! `j` parts is a closed form, and so is its inverse: nothing is ever stored.

use loopwright_gauge::choices;

choices! {
    /// In which order the wide and the narrow gaps of an even shaping come.
    ///
    /// A *slow* rate has the wider gaps (or the fewer stitches at a time), a *quick*
    /// rate the narrower ones. The totals are the same in every order.
    ///
    /// # Examples
    /// ```
    /// use loopwright_shaping::Order;
    /// assert_eq!("slow-first".parse::<Order>()?, Order::SlowFirst);
    /// # Ok::<(), loopwright_shaping::Error>(())
    /// ```
    #[non_exhaustive]
    pub enum Order: "the order of the rates" {
        /// Mixed as evenly as can be.
        Spread = "spread",
        /// All of the slow rate, then all of the quick rate.
        SlowFirst = "slow first",
        /// All of the quick rate, then all of the slow rate.
        QuickFirst = "quick first",
        /// Quick and slow by turns, until one is used up; then the rest.
        Alternating = "alternating",
        /// What there is more of either rate first, then quick and slow by turns: a wide gap
        /// once or twice, and from there on narrow and wide alternately.
        AlternatingLast = "alternating last",
    }
}

#[expect(clippy::derivable_impls, reason = "a choice's variants are declared by name")]
impl Default for Order {
    fn default() -> Self {
        Self::Spread
    }
}

#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
pub(crate) enum Mix {
    /// `floor((2 * total * j + phase) / (2 * parts))`: a straight line, rounded.
    Line {
        phase: u64,
    },
    LargeFirst,
    SmallFirst,
    /// Both sizes by turns, and what there is more of one either before or after.
    Alternate {
        rest: Rest,
        large_first: bool,
    },
}

#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
pub(crate) enum Rest {
    First,
    Last,
}

/// `total` in `parts` parts, `parts > 0` and `total >= parts`, both within
/// [`COUNT`](crate::bounds::COUNT): every product below fits `u64`.
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
pub(crate) struct Split {
    pub(crate) total: u64,
    pub(crate) parts: u64,
    pub(crate) mix: Mix,
}

impl Split {
    /// Gaps between events: the slow rate has the large parts.
    pub(crate) fn gaps(total: u64, parts: u64, order: Order) -> Self {
        let mix = match order {
            Order::Spread => Mix::Line { phase: parts },
            Order::SlowFirst => Mix::LargeFirst,
            Order::QuickFirst => Mix::SmallFirst,
            Order::Alternating => Mix::Alternate { rest: Rest::Last, large_first: false },
            Order::AlternatingLast => Mix::Alternate { rest: Rest::First, large_first: false },
        };
        Self { total, parts, mix }
    }

    /// Stitches at a time: the slow rate has the small parts.
    pub(crate) fn sizes(total: u64, parts: u64, order: Order) -> Self {
        let order = match order {
            Order::SlowFirst => Order::QuickFirst,
            Order::QuickFirst => Order::SlowFirst,
            other => other,
        };
        Self::gaps(total, parts, order)
    }

    /// The same parts in the opposite order.
    pub(crate) const fn mirrored(self) -> Self {
        let period = 2 * self.parts;
        let mix = match self.mix {
            Mix::Line { phase } => Mix::Line { phase: period - 1 - phase % period },
            Mix::LargeFirst => Mix::SmallFirst,
            Mix::SmallFirst => Mix::LargeFirst,
            Mix::Alternate { rest, large_first } => {
                let rest = match rest {
                    Rest::First => Rest::Last,
                    Rest::Last => Rest::First,
                };
                Mix::Alternate { rest, large_first: !large_first }
            }
        };
        Self { mix, ..self }
    }

    /// How many parts come by turns, how many do not, and the size of those.
    pub(crate) const fn turns(self) -> (u64, u64, u64) {
        let (small, larger) = self.division();
        let smaller = self.parts - larger;
        let (pairs, size) = if larger > smaller { (smaller, small + 1) } else { (larger, small) };
        (2 * pairs, self.parts - 2 * pairs, size)
    }

    /// The smaller of the two sizes, and how many parts have the larger.
    const fn division(self) -> (u64, u64) {
        (self.total / self.parts, self.total % self.parts)
    }

    /// The sum of the first `j` parts, `j <= parts`.
    pub(crate) fn at(self, j: u64) -> u64 {
        let (small, larger) = self.division();
        match self.mix {
            Mix::Line { phase } => (2 * self.total * j + phase) / (2 * self.parts),
            Mix::LargeFirst => j * small + j.min(larger),
            Mix::SmallFirst => j * small + j.saturating_sub(self.parts - larger),
            Mix::Alternate { rest, large_first } => {
                let (turns, others, size) = self.turns();
                let by_turns = |n: u64| n * small + u64::midpoint(n, large_first.into());
                match rest {
                    Rest::Last => by_turns(j.min(turns)) + j.saturating_sub(turns) * size,
                    Rest::First => j.min(others) * size + by_turns(j.saturating_sub(others)),
                }
            }
        }
    }

    /// The largest `j <= parts` with `at(j) <= sum`, if there is one.
    pub(crate) fn find(self, sum: u64) -> Option<u64> {
        let (small, larger) = self.division();
        let two_rates = |first: u64, times: u64, second: u64| {
            if sum < first * times { sum / first } else { times + (sum - first * times) / second }
        };
        let found = match self.mix {
            Mix::Line { phase } => {
                (2 * self.parts * (sum + 1) - 1).checked_sub(phase)? / (2 * self.total)
            }
            Mix::LargeFirst => two_rates(small + 1, larger, small),
            Mix::SmallFirst => two_rates(small, self.parts - larger, small + 1),
            Mix::Alternate { rest, large_first } => self.find_alternate(sum, rest, large_first),
        };
        Some(found.min(self.parts))
    }

    fn find_alternate(self, sum: u64, rest: Rest, large_first: bool) -> u64 {
        let (small, _) = self.division();
        let (turns, others, size) = self.turns();
        let pair = 2 * small + 1;
        let first = small + u64::from(large_first);
        let by_turns = |sum: u64| 2 * (sum / pair) + u64::from(sum % pair >= first);
        let (all_turns, all_others) = (turns / 2 * pair, others * size);
        match rest {
            Rest::Last if sum < all_turns => by_turns(sum),
            Rest::Last => turns + (sum - all_turns) / size,
            Rest::First if sum < all_others => sum / size,
            Rest::First => others + by_turns(sum - all_others),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::vec::Vec;

    fn mixes(total: u64, parts: u64) -> Vec<Mix> {
        let half = Mix::Line { phase: total + 2 * parts - 1 };
        let mut mixes =
            std::vec![Mix::Line { phase: parts }, half, Mix::LargeFirst, Mix::SmallFirst];
        for rest in [Rest::First, Rest::Last] {
            mixes.extend([true, false].map(|large_first| Mix::Alternate { rest, large_first }));
        }
        mixes
    }

    fn sizes(split: Split) -> Vec<u64> {
        (0..split.parts).map(|j| split.at(j + 1) - split.at(j)).collect()
    }

    #[test]
    fn mirrored_is_the_opposite_order() {
        for total in 1..40_u64 {
            for parts in 1..=total {
                for mix in mixes(total, parts) {
                    let split = Split { total, parts, mix };
                    let mirrored = split.mirrored();
                    assert!(sizes(split).iter().rev().eq(&sizes(mirrored)), "{split:?}");
                    assert_eq!(mirrored.at(0), 0);
                }
            }
        }
    }

    #[test]
    fn the_inverse_is_the_inverse() {
        for total in 1..40_u64 {
            for parts in 1..=total {
                for mix in mixes(total, parts) {
                    let split = Split { total, parts, mix };
                    let sums: Vec<u64> = (0..=parts).map(|j| split.at(j)).collect();
                    for sum in 0..=total + 1 {
                        let slow = (0_u64..).zip(&sums).filter(|(_, at)| **at <= sum).last();
                        assert_eq!(split.find(sum), slow.map(|(j, _)| j), "{split:?} {sum}");
                    }
                }
            }
        }
    }
}
