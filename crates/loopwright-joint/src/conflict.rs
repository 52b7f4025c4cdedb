//! The smallest set of demands that cannot all hold.
//!
//! Whatever cannot all hold has a member in common with every *correction*: a set of
//! demands whose going leaves the rest possible. So a smallest set that meets every
//! correction found so far is either in conflict, and then no smaller set can be; or
//! it is possible, is grown to as much as is possible together, and what is left out
//! is one more correction. (A. Ignatiev et al., "Smallest MUS extraction with minimal
//! hitting set dualization", CP 2015.)

use crate::demand::Link;
use crate::error::Error;
use crate::problem::Problem;
use crate::solution::{Conflict, Member, Relaxation};
use crate::solve::{self, Answer, Wanted};
use crate::step::{At, Step, Stop};
use alloc::vec;
use alloc::vec::Vec;

pub(crate) fn find(problem: &Problem) -> Result<Conflict, Error> {
    let oracle = Oracle { problem };
    let mut corrections: Vec<Vec<usize>> = Vec::new();
    loop {
        let core = hitting(&corrections, problem.links.len())?;
        match oracle.counts(&core)? {
            None => return oracle.conflict(&core),
            Some(counts) => corrections.push(oracle.correction(core, counts)?),
        }
    }
}

struct Oracle<'a> {
    problem: &'a Problem,
}

impl Oracle<'_> {
    /// Counts that hold all demands of `set`, if there are any.
    fn counts(&self, set: &[usize]) -> Result<Option<Vec<u32>>, Error> {
        let links: Vec<&Link> =
            set.iter().filter_map(|&demand| self.problem.links.get(demand)).flatten().collect();
        self.possible(&links)
    }

    fn possible(&self, links: &[&Link]) -> Result<Option<Vec<u32>>, Error> {
        match solve::solve(&self.problem.unknowns, links, Wanted::Any, self.problem.limit)? {
            Answer::Best { counts, .. } => Ok(Some(counts)),
            Answer::None => Ok(None),
        }
    }

    /// Grows `set`, which `counts` hold, until nothing can be added; what is left.
    fn correction(&self, mut set: Vec<usize>, mut counts: Vec<u32>) -> Result<Vec<usize>, Error> {
        let mut open: Vec<usize> = (0..self.problem.links.len()).collect();
        open.retain(|demand| !set.contains(demand));
        let mut left = Vec::new();
        loop {
            open.retain(|&demand| {
                let held = self.held(demand, &counts);
                if held {
                    set.push(demand);
                }
                !held
            });
            let Some(next) = open.pop() else { return Ok(left) };
            set.push(next);
            if let Some(grown) = self.counts(&set)? {
                counts = grown;
            } else {
                set.pop();
                left.push(next);
            }
        }
    }

    fn held(&self, demand: usize, counts: &[u32]) -> bool {
        let links = self.problem.links.get(demand);
        links.is_some_and(|links| links.iter().all(|link| link.holds(counts)))
    }

    fn conflict(&self, core: &[usize]) -> Result<Conflict, Error> {
        let mut members = Vec::with_capacity(core.len());
        for &demand in core {
            let name = self.problem.demand_names.get(demand).cloned().unwrap_or_default();
            members.push(Member { demand: name, relaxation: self.relaxation(core, demand)? });
        }
        Ok(Conflict { members })
    }

    /// How far `demand` must give way for the rest of `core` to hold: doubled until
    /// that is enough, then halved in on.
    fn relaxation(&self, core: &[usize], demand: usize) -> Result<Relaxation, Error> {
        let enough = |by: i64| self.relaxed(core, demand, by).map(|counts| counts.is_some());
        let links = self.problem.links.get(demand);
        if links.is_some_and(|links| links.iter().any(|link| link.relaxed(1).is_none())) {
            return Ok(Relaxation::Drop);
        }
        let (mut low, mut high) = (0, 1);
        while !enough(high)? {
            (low, high) = (high, high * 2);
        }
        while high - low > 1 {
            let middle = low + (high - low) / 2;
            if enough(middle)? { high = middle } else { low = middle }
        }
        Ok(Relaxation::By(high.unsigned_abs()))
    }

    fn relaxed(&self, core: &[usize], demand: usize, by: i64) -> Result<Option<Vec<u32>>, Error> {
        let links = |of: usize| self.problem.links.get(of).into_iter().flatten();
        let loose: Vec<Link> = links(demand).filter_map(|link| link.relaxed(by)).collect();
        let rest = core.iter().filter(|&&other| other != demand).flat_map(|&other| links(other));
        self.possible(&loose.iter().chain(rest).collect::<Vec<_>>())
    }
}

/// The smallest set that has a member in each of `corrections`, and of those the
/// first in the order of numbers.
fn hitting(corrections: &[Vec<usize>], demands: usize) -> Result<Vec<usize>, Error> {
    let search = Hitting::new(corrections, demands).map_err(|_: Stop| Error::overflow())?;
    let open: Vec<usize> = (0..corrections.len()).collect();
    for size in 0..=demands {
        let mut chosen = Vec::with_capacity(size);
        if search.extend(&mut chosen, 0, size, &open).map_err(|_| Error::overflow())? {
            return Ok(chosen);
        }
    }
    Err(Error::overflow())
}

struct Hitting {
    /// By demand: which corrections have it.
    meets: Vec<Vec<bool>>,
    /// By correction: its last demand.
    last: Vec<usize>,
    corrections: Vec<Vec<usize>>,
}

impl Hitting {
    fn new(corrections: &[Vec<usize>], demands: usize) -> Step<Self> {
        let mut meets = vec![vec![false; corrections.len()]; demands];
        for (place, correction) in corrections.iter().enumerate() {
            for &demand in correction {
                *meets.at_mut(demand)?.at_mut(place)? = true;
            }
        }
        let last = corrections.iter().map(|of| of.iter().copied().max().unwrap_or(0)).collect();
        Ok(Self { meets, last, corrections: corrections.to_vec() })
    }

    /// Adds up to `size` demands from `from` on, rising, so that every open
    /// correction is met.
    fn extend(
        &self,
        chosen: &mut Vec<usize>,
        from: usize,
        size: usize,
        open: &[usize],
    ) -> Step<bool> {
        if open.is_empty() {
            return Ok(true);
        }
        if self.apart(open)? > size {
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
