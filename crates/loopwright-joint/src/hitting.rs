//! The smallest set that has a member in each of given sets.

use crate::budget::Budget;
use crate::step::{At, Step};
use alloc::vec;
use alloc::vec::Vec;

/// The smallest set of at most `most` demands that has a member in each of
/// `corrections`, and of those the first in the order of numbers; `None` when there is
/// none, or the work ran out.
pub(crate) fn smallest(
    corrections: &[Vec<usize>],
    demands: usize,
    most: usize,
    budget: &mut Budget,
) -> Step<Option<Vec<usize>>> {
    let mut search = Hitting::new(corrections, demands, budget)?;
    let open: Vec<usize> = (0..corrections.len()).collect();
    for size in 0..=most {
        let mut chosen = Vec::with_capacity(size);
        if search.extend(&mut chosen, 0, size, &open)? {
            return Ok(Some(chosen));
        }
        if search.budget.is_spent() {
            return Ok(None);
        }
    }
    Ok(None)
}

struct Hitting<'a> {
    /// By demand: which corrections have it.
    meets: Vec<Vec<bool>>,
    /// By correction: its last demand.
    last: Vec<usize>,
    corrections: &'a [Vec<usize>],
    budget: &'a mut Budget,
}

impl<'a> Hitting<'a> {
    fn new(corrections: &'a [Vec<usize>], demands: usize, budget: &'a mut Budget) -> Step<Self> {
        let mut meets = vec![vec![false; corrections.len()]; demands];
        for (place, correction) in corrections.iter().enumerate() {
            for &demand in correction {
                *meets.at_mut(demand)?.at_mut(place)? = true;
            }
        }
        let last = corrections.iter().map(|of| of.iter().copied().max().unwrap_or(0)).collect();
        Ok(Self { meets, last, corrections, budget })
    }

    /// Adds up to `size` demands from `from` on, rising, so that every open correction
    /// is met. It calls itself `size` deep, which is no deeper than the conflict is large.
    fn extend(
        &mut self,
        chosen: &mut Vec<usize>,
        from: usize,
        size: usize,
        open: &[usize],
    ) -> Step<bool> {
        if open.is_empty() {
            return Ok(true);
        }
        let work = u64::try_from(self.meets.len() + open.len()).unwrap_or(u64::MAX);
        if self.apart(open)? > size || !self.budget.spend(work) {
            return Ok(false);
        }
        // Whatever is added must not pass the last chance of any open correction.
        let mut end = self.meets.len();
        for &place in open {
            end = end.min(self.last.at(place)? + 1);
        }
        for demand in from..end {
            let meets = self.meets.at(demand)?;
            let rest: Vec<usize> =
                open.iter().copied().filter(|&place| meets.get(place) == Some(&false)).collect();
            if rest.len() == open.len() {
                continue;
            }
            chosen.push(demand);
            if self.extend(chosen, demand + 1, size - 1, &rest)? {
                return Ok(true);
            }
            chosen.pop();
        }
        Ok(false)
    }

    /// How many of the open corrections, taken as they come, share no demand: each
    /// needs one of its own.
    fn apart(&self, open: &[usize]) -> Step<usize> {
        let mut taken = vec![false; self.meets.len()];
        let mut count = 0;
        for &place in open {
            let correction = self.corrections.at(place)?;
            if correction.iter().all(|&demand| taken.get(demand) == Some(&false)) {
                count += 1;
                for &demand in correction {
                    *taken.at_mut(demand)? = true;
                }
            }
        }
        Ok(count)
    }
}
