//! What a staircase costs at least, with steps bound to legal rows and sizes but not
//! to each other: a table filled from the last row back, in time and memory that grow
//! with rows times the width of the band.

use super::solve::{Measure, Problem};
use crate::bounds::SUBSTITCH;
use alloc::vec;
use alloc::vec::Vec;

const SCALE: i64 = SUBSTITCH as i64;

/// No staircase goes on from here.
const NEVER: i64 = i64::MAX;

/// The least that is still ahead of every row and count within a band around the
/// outline.
#[derive(Debug)]
pub(super) struct Bound {
    band: i64,
    /// The first count of every row's cells, from row 1 on.
    lowest: Vec<i64>,
    /// How many cells every row has.
    width: usize,
    /// The deviations ahead of every cell, its own row left out.
    ahead: Vec<i64>,
    /// The same of every opening, from the smallest on.
    openings: Vec<i64>,
    first_opening: i64,
}

/// The smallest largest deviation of a staircase whose steps are not bound to each
/// other; `None`, if there is none.
pub(super) fn least(problem: &Problem<'_>) -> Option<i64> {
    let mut band = 4 * SCALE;
    loop {
        if let Some(least) = Bound::new(problem, band, Measure::Largest).least() {
            return Some(least);
        }
        if band > problem.widest() {
            return None;
        }
        band *= 2;
    }
}

impl Bound {
    pub(super) fn new(problem: &Problem<'_>, band: i64, measure: Measure) -> Self {
        let total = i64::from(problem.total);
        let width = (2 * band / SCALE + 2).min(total + 1);
        let highest = total + 1 - width;
        let lowest = |at: i64| (at - band).div_euclid(SCALE).clamp(0, highest);
        let rows = &problem.samples.rows;
        let width = usize::try_from(width).unwrap_or(0);
        let mut bound = Self {
            band,
            lowest: rows.iter().map(|sample| lowest(sample.at)).collect(),
            width,
            ahead: vec![NEVER; rows.len() * width],
            openings: Vec::new(),
            first_opening: problem.opening.0.into(),
        };
        bound.fill(problem, measure);
        bound
    }

    fn fill(&mut self, problem: &Problem<'_>, measure: Measure) {
        let closing = i64::from(problem.closing.0)..=i64::from(problem.closing.1);
        let total = i64::from(problem.total);
        let ends = |done: i64| if closing.contains(&(total - done)) { 0 } else { NEVER };
        let mut later: Option<(i64, Vec<i64>)> = None;
        for (above, sample) in problem.samples.rows.iter().enumerate().rev() {
            let next = u32::try_from(above).unwrap_or(u32::MAX).saturating_add(2);
            let lowest = self.lowest.get(above).copied().unwrap_or(0);
            let counts = lowest..lowest + i64::try_from(self.width).unwrap_or(0);
            let ahead: Vec<i64> = match &later {
                None => counts.clone().map(ends).collect(),
                Some((from, costs)) => before(problem, next, counts.clone(), *from, costs),
            };
            let cost = |(done, ahead): (i64, &i64)| {
                let off = (done * SCALE - sample.at).abs();
                if off > self.band || *ahead == NEVER { NEVER } else { measure.add(*ahead, off) }
            };
            let costs = counts.zip(&ahead).map(cost).collect();
            let start = above * self.width;
            if let Some(cells) = self.ahead.get_mut(start..start + self.width) {
                cells.copy_from_slice(&ahead);
            }
            later = Some((lowest, costs));
        }
        let openings = i64::from(problem.opening.0)..i64::from(problem.opening.1) + 1;
        if let Some((from, costs)) = &later {
            self.openings = before(problem, 1, openings, *from, costs);
        }
    }

    /// The least of all staircases.
    pub(super) fn least(&self) -> Option<i64> {
        self.openings.iter().copied().min().filter(|least| *least < NEVER)
    }

    /// The least that is ahead when so much is done after `row`; `i64::MAX`, where no
    /// staircase goes on.
    pub(super) fn ahead(&self, row: u32, done: u32) -> i64 {
        if row == 0 {
            let place = usize::try_from(i64::from(done) - self.first_opening).ok();
            return place.and_then(|place| self.openings.get(place)).copied().unwrap_or(NEVER);
        }
        self.cell(row, done).and_then(|cell| self.ahead.get(cell)).copied().unwrap_or(NEVER)
    }

    /// How many cells there are in all.
    pub(super) fn cells(&self) -> usize {
        self.ahead.len()
    }

    /// The cell of a row and count.
    pub(super) fn cell(&self, row: u32, done: u32) -> Option<usize> {
        let above = row.checked_sub(1)? as usize;
        let place = usize::try_from(i64::from(done) - self.lowest.get(above)?).ok()?;
        (place < self.width).then_some(above * self.width + place)
    }

    pub(super) const fn band(&self) -> i64 {
        self.band
    }
}

/// The least ahead of `counts`, when row `next` follows, where counts from `from` on
/// cost `costs`: no step, or one that is legal in the row.
fn before(
    problem: &Problem<'_>,
    next: u32,
    counts: core::ops::Range<i64>,
    from: i64,
    costs: &[i64],
) -> Vec<i64> {
    let rules = problem.rules;
    let (single, several) = (rules.legal(next, 1), rules.legal(next, 2));
    // Steps of 2 up to the most are a window of this length.
    let long = if several { i64::from(rules.most) - 1 } else { 0 };
    let reach = usize::try_from(long).unwrap_or(0).min(costs.len());
    let windows = least_ahead(costs, reach);
    let first = least_until(costs);
    let at = |list: &[i64], place: i64| {
        usize::try_from(place).ok().and_then(|place| list.get(place)).copied().unwrap_or(NEVER)
    };
    let all = i64::try_from(costs.len()).unwrap_or(0);
    let window = |place: i64| match place + long {
        _ if reach == 0 => NEVER,
        // Begun below the cells, it holds the first of them.
        end if place <= 0 => at(&first, end.min(all) - 1),
        _ => at(&windows, place),
    };
    counts
        .map(|done| {
            let place = done - from;
            let one = if single { at(costs, place + 1) } else { NEVER };
            at(costs, place).min(one).min(window(place + 2))
        })
        .collect()
}

/// For every place the least of the next `reach` numbers from it on.
fn least_ahead(list: &[i64], reach: usize) -> Vec<i64> {
    if reach == 0 {
        return Vec::new();
    }
    // Blocks as long as the window: any window is the end of one and the beginning of
    // the next.
    let mut from = list.to_vec();
    for block in from.chunks_mut(reach) {
        let mut least = NEVER;
        for slot in block.iter_mut().rev() {
            least = least.min(*slot);
            *slot = least;
        }
    }
    let until: Vec<i64> = list.chunks(reach).flat_map(least_until).collect();
    let last_block = list.len().saturating_sub(1) / reach * reach;
    let end = |i: usize| {
        let place = (i + reach - 1).min(list.len() - 1);
        until.get(place).copied().filter(|_| i <= last_block).unwrap_or(NEVER)
    };
    from.iter().enumerate().map(|(i, from)| (*from).min(end(i))).collect()
}

/// For every place the least number up to it.
fn least_until(list: &[i64]) -> Vec<i64> {
    let mut least = NEVER;
    let lower = |slot: &i64| {
        least = least.min(*slot);
        least
    };
    list.iter().map(lower).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_least_ahead_is_the_least_ahead() {
        let list: Vec<i64> = (0..40).map(|i| (i * 7919) % 31).collect();
        for reach in 1..=list.len() {
            let slow = (0..list.len())
                .map(|i| list[i..].iter().take(reach).copied().min().unwrap_or(NEVER));
            assert!(slow.eq(least_ahead(&list, reach)), "{reach}");
        }
    }
}
