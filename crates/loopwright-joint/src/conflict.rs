//! A smallest set of demands that cannot all hold, and what would free each.
//!
//! From the front on, the shortest run of demands that clashes with those already held
//! guilty ends with one more guilty one (halving finds it); what is found so is in
//! conflict, and nothing in it can be spared. If the whole problem can be solved without
//! any one of them, every conflict has them all, and there is no smaller one. Else:
//! whatever cannot all hold has a member in common with every *correction*, a set of
//! demands whose going leaves the rest possible; so a smallest set that meets every
//! correction found so far is either in conflict, and then no smaller set can be, or
//! gives one more correction. (A. Ignatiev et al., "Smallest MUS extraction with minimal
//! hitting set dualization", CP 2015.) Work is counted; where it ends, the set found
//! first stands, and is not called smallest.

use crate::budget::Budget;
use crate::demand::Link;
use crate::hitting;
use crate::objective::Term;
use crate::search::Wanted;
use crate::solve::{self, Answer, Model};
use crate::step::{At, Step};
use crate::unknown::Steps;
use alloc::collections::BTreeMap;
use alloc::vec;
use alloc::vec::Vec;

/// The demands in conflict, and what would free each.
#[derive(Clone, Debug)]
pub(crate) struct Clash {
    pub(crate) members: Vec<(usize, Freed)>,
    /// Whether it is proved that no smaller set, nor an earlier one as small, clashes.
    pub(crate) smallest: bool,
}

/// The least change to one demand with which all can be solved.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub(crate) enum Freed {
    /// Missed by so many units; what its sum then comes to.
    By {
        units: i64,
        total: Option<i64>,
    },
    Drop,
    NotAlone,
}

/// Finds the conflict of demands that are proved not to hold all together.
pub(crate) fn find(
    unknowns: &[Steps],
    wishes: &[Term],
    demands: &[Vec<Link>],
    budget: &mut Budget,
) -> Step<Clash> {
    let mut judge = Judge { unknowns, wishes, demands, budget, sure: true };
    let mut core = judge.core()?;
    let mut smallest = core.len() <= 1 && judge.sure;
    let mut needed = Vec::with_capacity(core.len());
    for &demand in &core {
        needed.push(judge.spared(demand)?);
    }
    if judge.sure && needed.iter().all(|&needed| needed == Some(true)) {
        smallest = true;
    } else if !smallest {
        let alone = core.iter().zip(&needed).filter(|(_, needed)| **needed == Some(true));
        let corrections = alone.map(|(&demand, _)| vec![demand]).collect();
        if let Some(set) = judge.smallest(core.len(), corrections)? {
            smallest = true;
            if set != core {
                core = set;
                needed.clear();
                for &demand in &core {
                    needed.push(judge.spared(demand)?);
                }
            }
        }
    }
    let mut members = Vec::with_capacity(core.len());
    for (&demand, needed) in core.iter().zip(needed) {
        let freed =
            if needed == Some(true) { judge.freed(&core, demand)? } else { Freed::NotAlone };
        members.push((demand, freed));
    }
    Ok(Clash { members, smallest })
}

struct Judge<'a> {
    unknowns: &'a [Steps],
    wishes: &'a [Term],
    demands: &'a [Vec<Link>],
    budget: &'a mut Budget,
    /// Whether every question so far was answered.
    sure: bool,
}

/// Whether demands can hold together.
enum Possible {
    /// These counts hold them.
    Yes(Vec<u32>),
    No,
    /// The work ran out.
    Unknown,
}

impl Judge<'_> {
    /// Demands that cannot all hold, of which none can be spared.
    fn core(&mut self) -> Step<Vec<usize>> {
        let mut core: Vec<usize> = Vec::new();
        let mut open: Vec<usize> = (0..self.demands.len()).collect();
        loop {
            if matches!(self.possible(&core)?, Possible::No) {
                core.sort_unstable();
                return Ok(core);
            }
            // With the first `low` it can be, or may be; with the first `high` it cannot.
            let (mut low, mut high) = (0, open.len());
            while high - low > 1 {
                let middle = low + (high - low) / 2;
                let tried = [&*core, open.get(..middle).unwrap_or_default()].concat();
                if matches!(self.possible(&tried)?, Possible::No) {
                    high = middle;
                } else {
                    low = middle;
                }
            }
            let Some(&guilty) = open.get(high.wrapping_sub(1)) else {
                // Only where the work ran out: all that was left clashes.
                core.sort_unstable();
                return Ok(core);
            };
            open.truncate(high - 1);
            core.push(guilty);
        }
    }

    /// Whether all other demands can hold.
    fn spared(&mut self, demand: usize) -> Step<Option<bool>> {
        let others: Vec<usize> = (0..self.demands.len()).filter(|&other| other != demand).collect();
        Ok(match self.possible(&others)? {
            Possible::Yes(_) => Some(true),
            Possible::No => Some(false),
            Possible::Unknown => None,
        })
    }

    /// The smallest set in conflict, of `most` demands at most; `None` when the work
    /// runs out first.
    fn smallest(
        &mut self,
        most: usize,
        mut corrections: Vec<Vec<usize>>,
    ) -> Step<Option<Vec<usize>>> {
        if !self.sure {
            return Ok(None);
        }
        loop {
            let hit = hitting::smallest(&corrections, self.demands.len(), most, self.budget)?;
            let Some(set) = hit else { return Ok(None) };
            match self.possible(&set)? {
                Possible::No => return Ok(Some(set)),
                Possible::Yes(counts) => match self.correction(set, counts)? {
                    Some(correction) => corrections.push(correction),
                    None => return Ok(None),
                },
                Possible::Unknown => return Ok(None),
            }
        }
    }

    /// Grows `set`, which `counts` hold, until nothing can be added; what is left.
    fn correction(
        &mut self,
        mut set: Vec<usize>,
        mut counts: Vec<u32>,
    ) -> Step<Option<Vec<usize>>> {
        let mut open: Vec<usize> = (0..self.demands.len()).collect();
        open.retain(|demand| !set.contains(demand));
        let mut left = Vec::new();
        loop {
            open.retain(|&demand| {
                let links = self.demands.get(demand).into_iter().flatten();
                let held = links.into_iter().all(|link| link.holds(&counts));
                if held {
                    set.push(demand);
                }
                !held
            });
            let Some(next) = open.pop() else { return Ok(Some(left)) };
            set.push(next);
            match self.possible(&set)? {
                Possible::Yes(grown) => counts = grown,
                Possible::No => {
                    set.pop();
                    left.push(next);
                }
                Possible::Unknown => return Ok(None),
            }
        }
    }

    /// The least by which `demand` must be missed for all others to hold: first sought
    /// among the other guilty ones alone, then tried on the whole.
    fn freed(&mut self, core: &[usize], demand: usize) -> Step<Freed> {
        if !self.links(demand).iter().all(|link| link.relaxed(1).is_some()) {
            return Ok(Freed::Drop);
        }
        let guilty: Vec<usize> = core.iter().copied().filter(|&other| other != demand).collect();
        let all: Vec<usize> = (0..self.demands.len()).filter(|&other| other != demand).collect();
        let Some(alone) = self.least(&guilty, demand, 0)? else { return Ok(Freed::NotAlone) };
        // Less than that cannot be enough, for the guilty ones alone already need it.
        match self.least(&all, demand, alone.0 - 1)? {
            Some((units, counts)) => {
                let total = match self.links(demand) {
                    [link] => link.total(&counts),
                    _ => None,
                };
                Ok(Freed::By { units, total })
            }
            None => Ok(Freed::NotAlone),
        }
    }

    /// The least miss of `demand` above `low` with which the `others` hold, and counts
    /// that do; `None` when the work runs out.
    fn least(
        &mut self,
        others: &[usize],
        demand: usize,
        low: i64,
    ) -> Step<Option<(i64, Vec<u32>)>> {
        let (mut low, mut stride) = (low, 1_i64);
        let (mut high, mut known) = loop {
            let by = low.saturating_add(stride);
            match self.relaxed(others, demand, by)? {
                Possible::Yes(counts) => break (self.missed(demand, &counts), counts),
                Possible::No => (low, stride) = (by, stride.saturating_mul(8)),
                Possible::Unknown => return Ok(None),
            }
            if stride > 1 << 60 {
                return Ok(None);
            }
        };
        let mut next = true;
        while high - low > 1 {
            // One less is often too little already.
            let by = if next { high - 1 } else { low + (high - low) / 2 };
            match self.relaxed(others, demand, by)? {
                Possible::Yes(counts) => {
                    (high, known) = (self.missed(demand, &counts), counts);
                    next = !next;
                }
                Possible::No => (low, next) = (by, !next),
                Possible::Unknown => return Ok(None),
            }
        }
        Ok(Some((high, known)))
    }

    fn links(&self, demand: usize) -> &[Link] {
        self.demands.get(demand).map_or(&[], Vec::as_slice)
    }

    fn missed(&self, demand: usize, counts: &[u32]) -> i64 {
        self.links(demand).iter().map(|link| link.missed(counts)).max().unwrap_or(0)
    }

    fn relaxed(&mut self, others: &[usize], demand: usize, by: i64) -> Step<Possible> {
        let loose: Vec<Link> =
            self.links(demand).iter().filter_map(|link| link.relaxed(by)).collect();
        let demands = self.demands;
        let rest = others.iter().filter_map(|&other| demands.get(other)).flatten();
        self.judge(&loose.iter().chain(rest).collect::<Vec<_>>())
    }

    fn possible(&mut self, set: &[usize]) -> Step<Possible> {
        let demands = self.demands;
        let links: Vec<&Link> =
            set.iter().filter_map(|&demand| demands.get(demand)).flatten().collect();
        self.judge(&links)
    }

    /// Judges the unknowns that `links` speak of; the others keep to their wishes.
    fn judge(&mut self, links: &[&Link]) -> Step<Possible> {
        let mut places: BTreeMap<usize, usize> = BTreeMap::new();
        for place in links.iter().flat_map(|link| link.places()) {
            places.insert(place, 0);
        }
        let (mut unknowns, mut terms) = (Vec::new(), Vec::new());
        for (number, (&place, to)) in places.iter_mut().enumerate() {
            *to = number;
            unknowns.push(*self.unknowns.at(place)?);
            let mut wish = self.wishes.at(place)?.clone();
            wish.counts.iter_mut().for_each(|count| count.0 = number);
            terms.push(wish);
        }
        let to = |place: usize| places.get(&place).copied().unwrap_or(usize::MAX);
        let moved: Vec<Link> = links.iter().map(|link| link.moved(to)).collect();
        let model = Model { unknowns: &unknowns, terms: &terms, links: moved.iter().collect() };
        // No one question may take all the work.
        let mut share = self.budget.take(self.budget.left() / 4);
        let answer = solve::solve(&model, Wanted::Any, &mut share);
        self.budget.give_back(share);
        Ok(match answer? {
            Answer::None => Possible::No,
            Answer::Unknown => {
                self.sure = false;
                Possible::Unknown
            }
            Answer::Best(best) => {
                let mut counts = self.nearest();
                for (&place, &count) in places.keys().zip(&best.counts) {
                    *counts.at_mut(place)? = count;
                }
                Possible::Yes(counts)
            }
        })
    }

    /// The allowed count nearest to each wish.
    fn nearest(&self) -> Vec<u32> {
        let nearest = |(steps, wish): (&Steps, &Term)| {
            let times = wish.counts.first().map_or(1, |count| count.1).max(1);
            let over = -wish.base - i128::from(steps.first) * times;
            let each = i128::from(steps.each) * times;
            let near = ((2 * over + each) / (2 * each)).clamp(0, steps.more.into());
            steps.first + steps.each * u32::try_from(near).unwrap_or(0)
        };
        self.unknowns.iter().zip(self.wishes).map(nearest).collect()
    }
}
