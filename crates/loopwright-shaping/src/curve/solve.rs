//! The staircase nearest to an outline, by dynamic programming.
//!
//! A state is a step: its row, how much is done after it, and its pace, which is all
//! that decides what may follow. Two passes over the same states: the first finds
//! the smallest largest deviation, the second, among staircases that keep it, the
//! smallest sum of deviations. Only states whose deviation is within a band are
//! visited, and the band is widened until a staircase fits: one outside the band
//! would deviate more. The band starts at a lower bound, which most curves reach; for
//! them the first pass is not needed.

use super::rules::{Pace, Rules};
use super::sample::{Sample, Samples, Trend};
use crate::bounds::SUBSTITCH;
use alloc::vec;
use alloc::vec::Vec;
use core::cmp::Ordering;

const SCALE: i64 = SUBSTITCH as i64;

/// What is wanted of a staircase, besides its outline.
#[derive(Debug)]
pub(super) struct Problem<'a> {
    pub(super) samples: &'a Samples,
    pub(super) rules: Rules,
    /// Stitches in all.
    pub(super) total: u32,
    /// What may be done at once before the first row: from, to.
    pub(super) opening: (u32, u32),
    /// What may be left to be done at once after the last row: from, to.
    pub(super) closing: (u32, u32),
}

#[derive(Debug, Eq, PartialEq)]
pub(super) struct Solution {
    /// The largest deviation, in [`SUBSTITCH`]ths of a stitch.
    pub(super) deviation: i64,
    /// Row and stitches done after it, for every step; row 0 is the opening.
    pub(super) steps: Vec<(u32, u32)>,
}

/// A step, the best way to it, and what that way costs up to this row.
#[derive(Clone, Copy)]
struct State {
    done: u32,
    pace: Pace,
    cost: i64,
    /// Row and place of the state before.
    before: Option<(u32, usize)>,
}

/// How costs add up along a staircase.
#[derive(Clone, Copy, PartialEq)]
enum Measure {
    Largest,
    Sum,
}

impl Measure {
    fn add(self, cost: i64, deviation: i64) -> i64 {
        match self {
            Self::Largest => cost.max(deviation),
            Self::Sum => cost + deviation,
        }
    }
}

/// The optimum, or `None` when the rules allow no staircase at all.
pub(super) fn solve(problem: &Problem<'_>) -> Option<Solution> {
    // Where the paces allow what the rows alone allow, as they mostly do, one pass is
    // enough: nothing can deviate less.
    let least = least(problem);
    let first = Pass::run(problem, Measure::Sum, least);
    if let Some(best) = first {
        return Some(Solution { deviation: least, steps: best.trace() });
    }
    let deviation = largest(problem, least)?;
    let best = Pass::run(problem, Measure::Sum, deviation)?;
    Some(Solution { deviation, steps: best.trace() })
}

/// The smallest largest deviation, which is more than `least`.
fn largest(problem: &Problem<'_>, least: i64) -> Option<i64> {
    let widest = i64::from(problem.total.max(1)) * SCALE * 2;
    let mut band = least;
    while band <= widest {
        band += band / 8 + SCALE / 16;
        if let Some(pass) = Pass::run(problem, Measure::Largest, band) {
            return Some(pass.cost);
        }
    }
    None
}

/// A deviation that no staircase stays below: the smallest largest one when steps are
/// bound to legal rows and sizes, but not to each other.
///
/// Looked for within `WINDOW` stitches of the outline; if nothing is found there,
/// that is the bound.
fn least(problem: &Problem<'_>) -> i64 {
    const WINDOW: i64 = 4;
    const WIDTH: usize = 9; // both sides of the outline, and itself
    let (total, most) = (i64::from(problem.total), i64::from(problem.rules.most));
    // best[i]: the bound for paths that are `from + i` stitches along.
    let mut from = i64::from(problem.opening.0);
    let mut best: Vec<i64> = vec![0; (problem.opening.1 - problem.opening.0) as usize + 1];
    for (row, sample) in (1..).zip(&problem.samples.rows) {
        let next_from = sample.at.div_euclid(SCALE) - WINDOW;
        let reached = |i: usize| {
            let done = next_from + i64::try_from(i).unwrap_or(0);
            let stay = usize::try_from(done - from).ok().and_then(|i| best.get(i)).copied();
            let size = if problem.rules.legal(row, 2) { most } else { 1 };
            let fewest = if problem.rules.legal(row, 1) { 1 } else { 2 };
            let steps = (fewest..=size).filter_map(|step| {
                usize::try_from(done - step - from).ok().and_then(|i| best.get(i)).copied()
            });
            let before = steps.chain(stay).min().filter(|_| (0..=total).contains(&done));
            before.map_or(i64::MAX, |before| before.max((done * SCALE - sample.at).abs()))
        };
        best = (0..WIDTH).map(reached).collect();
        from = next_from;
    }
    let ends = (from..).zip(&best).filter(|(done, _)| {
        let left = total - done;
        (problem.closing.0.into()..=problem.closing.1.into()).contains(&left)
    });
    ends.map(|(_, bound)| *bound).min().unwrap_or(i64::MAX).min(WINDOW * SCALE)
}

struct Pass<'a> {
    problem: &'a Problem<'a>,
    measure: Measure,
    band: i64,
    /// The states of every row, the opening at row 0.
    layers: Vec<Vec<State>>,
    cost: i64,
    end: Option<(u32, usize)>,
}

impl<'a> Pass<'a> {
    fn run(problem: &'a Problem<'a>, measure: Measure, band: i64) -> Option<Self> {
        let rows = problem.samples.rows.len();
        let layers = vec![Vec::new(); rows + 1];
        let mut pass = Self { problem, measure, band, layers, cost: i64::MAX, end: None };
        pass.open();
        for row in 0..=rows {
            for place in 0..pass.layers.get(row).map_or(0, Vec::len) {
                pass.extend(u32::try_from(row).ok()?, place);
            }
        }
        pass.end.map(|_| pass)
    }

    /// How far `done` is from the outline in `row`, if that is within the band.
    fn deviation(&self, row: u32, done: u32) -> Option<i64> {
        let sample = self.problem.samples.rows.get(row.checked_sub(1)? as usize)?;
        let deviation = (i64::from(done) * SCALE - sample.at).abs();
        (deviation <= self.band).then_some(deviation)
    }

    fn open(&mut self) {
        let (least, most) = self.problem.opening;
        let state = |done| State { done, pace: Pace::NONE, cost: 0, before: None };
        if let Some(first) = self.layers.first_mut() {
            first.extend((least..=most).rev().map(state));
        }
    }

    /// Every step that may follow a state, and the end if none need follow.
    fn extend(&mut self, row: u32, place: usize) {
        let Some(&from) = self.layers.get(row as usize).and_then(|layer| layer.get(place)) else {
            return;
        };
        let rows = u32::try_from(self.problem.samples.rows.len()).unwrap_or(u32::MAX);
        let mut cost = from.cost;
        for next in row + 1..=rows {
            self.steps_at((row, place), from, cost, next);
            match self.deviation(next, from.done) {
                Some(deviation) => cost = self.measure.add(cost, deviation),
                None => return,
            }
        }
        let left = self.problem.total.checked_sub(from.done);
        let (least, most) = self.problem.closing;
        if left.is_some_and(|left| (least..=most).contains(&left)) {
            self.finish((row, place), cost);
        }
    }

    /// All steps at row `next` from a state.
    fn steps_at(&mut self, at: (u32, usize), from: State, cost: i64, next: u32) {
        let (samples, rules) = (self.problem.samples, self.problem.rules);
        let Some(sample) = samples.rows.get(next as usize - 1).copied() else { return };
        let Some(&trend) = samples.trends.get(sample.stretch) else { return };
        if !rules.legal(next, 1) && !rules.legal(next, 2) {
            return;
        }
        let room = self.problem.total.saturating_sub(from.done);
        // Nothing below the band need be tried: its first count is a division away.
        let below = (sample.at - self.band - 1).div_euclid(SCALE) + 1 - i64::from(from.done);
        let least = u32::try_from(below.max(1)).unwrap_or(u32::MAX);
        for stitches in least..=rules.most.min(room) {
            let done = from.done + stitches;
            let Some(deviation) = self.deviation(next, done) else { return };
            if self.allows((at.0, from.pace), next, stitches, sample, trend) {
                let pace = Pace::of(stitches, next - at.0);
                let cost = self.measure.add(cost, deviation);
                self.reach(next, trend, State { done, pace, cost, before: Some(at) });
            }
        }
    }

    fn allows(
        &self,
        at: (u32, Pace),
        next: u32,
        stitches: u32,
        sample: Sample,
        trend: Trend,
    ) -> bool {
        let (samples, rules) = (self.problem.samples, self.problem.rules);
        let (row, before) = at;
        if !rules.legal(next, stitches) {
            return false;
        }
        let same_stretch = row
            .checked_sub(1)
            .and_then(|row| samples.rows.get(row as usize))
            .is_some_and(|earlier| earlier.stretch == sample.stretch);
        if same_stretch {
            rules.follows(trend, before, stitches, next - row)
        } else {
            rules.opens(trend, row == 0, next, stitches)
        }
    }

    /// Keeps a state, unless another of its row leaves as much open for less; and drops
    /// those of which the same is true beside it.
    fn reach(&mut self, row: u32, trend: Trend, state: State) {
        let mut place = 0;
        while let Some((_, old)) = self.step(Some((row, place))) {
            let rival = old.done == state.done;
            if rival && self.beats(trend, &old, &state) {
                return;
            }
            if rival && self.beats(trend, &state, &old) {
                self.layers.get_mut(row as usize).map(|layer| layer.swap_remove(place));
            } else {
                place += 1;
            }
        }
        if let Some(layer) = self.layers.get_mut(row as usize) {
            layer.push(state);
        }
    }

    /// Whether every staircase that goes on from `b` could go on from `a`, and would be
    /// the better for it.
    fn beats(&self, trend: Trend, a: &State, b: &State) -> bool {
        let open = a.pace == b.pace || a.pace.leaves_open(trend, b.pace);
        open && match a.cost.cmp(&b.cost) {
            Ordering::Less => true,
            Ordering::Equal => self.measure == Measure::Largest || self.earlier(a.before, b.before),
            Ordering::Greater => false,
        }
    }

    fn finish(&mut self, at: (u32, usize), cost: i64) {
        let better = match cost.cmp(&self.cost) {
            Ordering::Less => true,
            Ordering::Equal => self.earlier(Some(at), self.end),
            Ordering::Greater => false,
        };
        if better {
            (self.cost, self.end) = (cost, Some(at));
        }
    }

    fn step(&self, at: Option<(u32, usize)>) -> Option<(u32, State)> {
        let (row, place) = at?;
        Some((row, *self.layers.get(row as usize)?.get(place)?))
    }

    /// The tie-break, from the last step back: the earlier row, then more done.
    fn earlier(&self, a: Option<(u32, usize)>, b: Option<(u32, usize)>) -> bool {
        let (mut a, mut b) = (a, b);
        while a != b {
            let (Some((row_a, step_a)), Some((row_b, step_b))) = (self.step(a), self.step(b))
            else {
                return a.is_none();
            };
            match row_a.cmp(&row_b).then(step_b.done.cmp(&step_a.done)) {
                Ordering::Equal => (a, b) = (step_a.before, step_b.before),
                order => return order == Ordering::Less,
            }
        }
        false
    }

    fn trace(&self) -> Vec<(u32, u32)> {
        let mut steps = Vec::new();
        let mut at = self.end;
        while let Some((row, state)) = self.step(at) {
            steps.push((row, state.done));
            at = state.before;
        }
        steps.reverse();
        steps
    }
}
