//! The staircase nearest to an outline, by dynamic programming.
//!
//! A state is a step: its row, how much is done after it, and its pace, which is all
//! that decides what may follow. Two passes over the same states: the first finds
//! the smallest largest deviation, the second, among staircases that keep it, the
//! smallest sum of deviations. Only states whose deviation is within a band are
//! visited, and the band is widened until a staircase fits: one outside the band
//! would deviate more. The band starts at a lower bound, which most curves reach; for
//! them the first pass is not needed.
//!
//! Bounds come from the same staircases with steps bound to legal rows and sizes, but
//! not to each other ([`Bound`]): what a state still costs at least, and whether it
//! comes to an end at all. A pass leaves out what would cost more than a limit with
//! that, and the limit is raised until a staircase keeps it; so a pass holds little
//! more than the staircases nearly as good as the best one.

use super::bound::{Bound, least};
use super::rules::{Pace, Rules};
use super::sample::{Sample, Samples, Trend};
use crate::bounds::{CURVE_STEPS, SUBSTITCH};
use alloc::vec;
use alloc::vec::Vec;
use core::cell::Cell;
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
    /// The place after that of an older state of the same row and stitches; 0 for none.
    older: usize,
}

/// The cost of a state that another has taken the place of.
const GONE: i64 = i64::MAX;

/// How costs add up along a staircase.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Measure {
    Largest,
    Sum,
}

impl Measure {
    pub(super) fn add(self, cost: i64, deviation: i64) -> i64 {
        match self {
            Self::Largest => cost.max(deviation),
            Self::Sum => cost + deviation,
        }
    }
}

/// Why there is no solution.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub(super) enum Unsolved {
    /// The rules allow no staircase at all.
    NoStaircase,
    /// The search would take more than [`CURVE_STEPS`].
    TooLong,
}

/// The optimum.
pub(super) fn solve(problem: &Problem<'_>) -> Result<Solution, Unsolved> {
    let work = Cell::new(CURVE_STEPS);
    let solution = search(problem, &work);
    solution.ok_or(if work.get() == 0 { Unsolved::TooLong } else { Unsolved::NoStaircase })
}

fn search(problem: &Problem<'_>, work: &Cell<u32>) -> Option<Solution> {
    // Where the paces allow what the rows alone allow, as they mostly do, one pass is
    // enough: nothing can deviate less.
    let least = least(problem)?;
    if let Some(best) = nearest(problem, least, work) {
        return Some(Solution { deviation: least, steps: best });
    }
    let deviation = largest(problem, least, work)?;
    let best = nearest(problem, deviation, work)?;
    Some(Solution { deviation, steps: best })
}

/// The smallest largest deviation, which is more than `least`.
fn largest(problem: &Problem<'_>, least: i64, work: &Cell<u32>) -> Option<i64> {
    let widest = problem.widest();
    let mut band = least;
    while band <= widest && work.get() > 0 {
        band += band / 8 + SCALE / 16;
        let bound = Bound::new(problem, band, Measure::Sum);
        if let Some(pass) = Pass::run(problem, Measure::Largest, &bound, band, work) {
            return Some(pass.cost);
        }
    }
    None
}

/// The staircase of the smallest sum of deviations, none of them above `band`.
fn nearest(problem: &Problem<'_>, band: i64, work: &Cell<u32>) -> Option<Vec<(u32, u32)>> {
    let bound = Bound::new(problem, band, Measure::Sum);
    let least = bound.least()?;
    let most = band.saturating_mul(i64::try_from(problem.samples.rows.len()).unwrap_or(i64::MAX));
    let mut room = least / 64 + SCALE;
    loop {
        let limit = least.saturating_add(room);
        if let Some(pass) = Pass::run(problem, Measure::Sum, &bound, limit, work) {
            return Some(pass.trace());
        }
        if limit >= most || work.get() == 0 {
            return None;
        }
        room = room.saturating_mul(4);
    }
}

impl Problem<'_> {
    /// A deviation that no staircase has.
    pub(super) fn widest(&self) -> i64 {
        i64::from(self.total.max(1)) * SCALE * 2
    }

    /// How many rows there are.
    pub(super) fn rows(&self) -> u32 {
        u32::try_from(self.samples.rows.len()).unwrap_or(u32::MAX)
    }
}

struct Pass<'a> {
    problem: &'a Problem<'a>,
    measure: Measure,
    bound: &'a Bound,
    /// What a staircase may cost at most.
    limit: i64,
    /// Steps that may still be tried.
    work: &'a Cell<u32>,
    /// The states of every row, the opening at row 0.
    layers: Vec<Vec<State>>,
    /// For every row and count in its band, the place after that of the newest state.
    newest: Vec<usize>,
    cost: i64,
    end: Option<(u32, usize)>,
}

impl<'a> Pass<'a> {
    fn run(
        problem: &'a Problem<'a>,
        measure: Measure,
        bound: &'a Bound,
        limit: i64,
        work: &'a Cell<u32>,
    ) -> Option<Self> {
        let rows = problem.samples.rows.len();
        let layers = vec![Vec::new(); rows + 1];
        let newest = vec![0; bound.cells()];
        let (cost, end) = (i64::MAX, None);
        let mut pass = Self { problem, measure, bound, limit, work, layers, newest, cost, end };
        pass.open();
        for row in 0..=rows {
            for place in 0..pass.layers.get(row).map_or(0, Vec::len) {
                pass.extend(u32::try_from(row).ok()?, place);
            }
        }
        // What is found when the work is at its end need not be the best.
        pass.end.filter(|_| work.get() > 0).map(|_| pass)
    }

    /// Whether a staircase that has cost so much after `row` may still keep the limit.
    fn hopeful(&self, row: u32, done: u32, cost: i64) -> bool {
        let ahead = self.bound.ahead(row, done);
        match self.measure {
            Measure::Largest => ahead < i64::MAX && cost <= self.limit,
            Measure::Sum => cost.saturating_add(ahead) <= self.limit,
        }
    }

    /// How far `done` is from the outline in `row`, if that is within the band.
    fn deviation(&self, row: u32, done: u32) -> Option<i64> {
        let sample = self.problem.samples.rows.get(row.checked_sub(1)? as usize)?;
        let deviation = (i64::from(done) * SCALE - sample.at).abs();
        (deviation <= self.bound.band()).then_some(deviation)
    }

    fn open(&mut self) {
        let (least, most) = self.problem.opening;
        let state = |done| State { done, pace: Pace::NONE, cost: 0, before: None, older: 0 };
        let hopeful = (least..=most).rev().filter(|done| self.hopeful(0, *done, 0));
        let opened: Vec<State> = hopeful.map(state).collect();
        if let Some(first) = self.layers.first_mut() {
            *first = opened;
        }
    }

    /// Every step that may follow a state, and the end if none need follow.
    fn extend(&mut self, row: u32, place: usize) {
        let Some(&from) = self.layers.get(row as usize).and_then(|layer| layer.get(place)) else {
            return;
        };
        if from.cost == GONE {
            return;
        }
        let mut cost = from.cost;
        for next in row + 1..=self.problem.rows() {
            if !self.may_go_on() {
                return;
            }
            self.steps_at((row, place), from, cost, next);
            match self.deviation(next, from.done) {
                Some(deviation) => cost = self.measure.add(cost, deviation),
                None => return,
            }
            if !self.hopeful(next, from.done, cost) {
                return;
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
        let below =
            (sample.at - self.bound.band() - 1).div_euclid(SCALE) + 1 - i64::from(from.done);
        let least = u32::try_from(below.max(1)).unwrap_or(u32::MAX);
        let same_stretch = self.same_stretch(at.0, sample);
        let (few, many) =
            if same_stretch { rules.sizes(trend, from.pace, next - at.0) } else { (1, u32::MAX) };
        for stitches in least.max(few)..=rules.most.min(room).min(many) {
            let done = from.done + stitches;
            let Some(deviation) = self.deviation(next, done) else { return };
            if !self.may_go_on() {
                return;
            }
            let cost = self.measure.add(cost, deviation);
            if self.hopeful(next, done, cost)
                && rules.legal(next, stitches)
                && if same_stretch {
                    rules.follows(trend, from.pace, stitches, next - at.0)
                } else {
                    rules.opens(trend, at.0 == 0, next, stitches)
                }
            {
                let pace = Pace::of(stitches, next - at.0);
                self.reach(next, trend, State { done, pace, cost, before: Some(at), older: 0 });
            }
        }
    }

    /// Counts a step tried; false when there have been too many.
    fn may_go_on(&self) -> bool {
        let left = self.work.get().saturating_sub(1);
        self.work.set(left);
        left > 0
    }

    /// Whether a step on `row` and one at a sample are in the same stretch.
    fn same_stretch(&self, row: u32, sample: Sample) -> bool {
        let above = row.checked_sub(1).map(|above| above as usize);
        let earlier = above.and_then(|above| self.problem.samples.rows.get(above));
        earlier.is_some_and(|earlier| earlier.stretch == sample.stretch)
    }

    /// Keeps a state, unless another of its row and count leaves as much open for less;
    /// and drops those of which the same is true beside it.
    fn reach(&mut self, row: u32, trend: Trend, mut state: State) {
        let Some(cell) = self.bound.cell(row, state.done) else { return };
        let head = self.newest.get(cell).copied().unwrap_or(0);
        state.older = head;
        let (mut link, mut kept) = (head, None);
        while let Some((_, old)) = link.checked_sub(1).and_then(|at| self.step(Some((row, at)))) {
            if self.beats(trend, &old, &state) {
                return;
            }
            if self.beats(trend, &state, &old) {
                self.unlink(row, link - 1, kept, &mut state);
            } else {
                kept = Some(link - 1);
            }
            link = old.older;
        }
        let Some(layer) = self.layers.get_mut(row as usize) else { return };
        layer.push(state);
        if let Some(newest) = self.newest.get_mut(cell) {
            *newest = layer.len();
        }
    }

    /// Takes a state out of its chain: `newer` is the one that leads to it, or the new
    /// state is.
    fn unlink(&mut self, row: u32, place: usize, newer: Option<usize>, state: &mut State) {
        let Some(layer) = self.layers.get_mut(row as usize) else { return };
        let Some(gone) = layer.get_mut(place) else { return };
        gone.cost = GONE;
        let older = gone.older;
        match newer.and_then(|newer| layer.get_mut(newer)) {
            Some(newer) => newer.older = older,
            None => state.older = older,
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
