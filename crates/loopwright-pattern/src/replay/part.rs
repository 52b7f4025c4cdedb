//! A run of neighbouring stitches that is worked on its own.

use crate::edge::{Heading, Leg};
use crate::{Fabric, Name, Side};
use alloc::collections::VecDeque;
use alloc::vec::Vec;
use loopwright_gauge::{Rows, Stitches};

/// Neighbours that were knitted equally often.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub(super) struct Run {
    pub(super) count: u32,
    /// Rows knitted since the cast-on, in these wales.
    pub(super) height: i64,
}

/// A part: its stitches from left to right, where they sit, and which edges they have.
///
/// Held stitches lie outside the working ones. The height of working stitches is kept
/// less the rows of the part, so that a row costs the same however wide it is.
#[derive(Debug)]
pub(super) struct Part {
    pub(super) name: Name,
    /// The bed place of the leftmost stitch.
    pub(super) first: i64,
    /// On hold at the left, outermost first.
    left: Vec<Run>,
    working: VecDeque<Run>,
    /// On hold at the right, outermost first.
    right: Vec<Run>,
    held_left: u32,
    held_right: u32,
    count: u32,
    risen: i64,
    /// Indices into the record of edges.
    pub(super) left_edge: usize,
    pub(super) right_edge: usize,
    pub(super) fabric: Fabric,
    pub(super) row: Rows,
    pub(super) round: bool,
}

impl Part {
    pub(super) fn new(name: Name, first: i64, edges: (usize, usize), fabric: Fabric) -> Self {
        Self {
            name,
            first,
            left: Vec::new(),
            working: VecDeque::new(),
            right: Vec::new(),
            held_left: 0,
            held_right: 0,
            count: 0,
            risen: 0,
            left_edge: edges.0,
            right_edge: edges.1,
            fabric,
            row: Rows::ZERO,
            round: false,
        }
    }

    /// Stitches on hold and in work.
    pub(super) const fn len(&self) -> u32 {
        self.held_left + self.count + self.held_right
    }

    pub(super) fn last(&self) -> i64 {
        self.first + i64::from(self.len()) - 1
    }

    pub(super) const fn held(&self, side: Side) -> u32 {
        match side {
            Side::Left => self.held_left,
            Side::Right => self.held_right,
        }
    }

    pub(super) const fn is_held(&self) -> bool {
        self.held_left + self.held_right > 0
    }

    pub(super) const fn working(&self) -> u32 {
        self.count
    }

    /// The bed place of the outermost working stitch at a side.
    pub(super) fn end(&self, side: Side) -> i64 {
        match side {
            Side::Left => self.first + i64::from(self.held_left),
            Side::Right => self.last() - i64::from(self.held_right),
        }
    }

    /// The bed place of the outermost stitch at a side, held or not.
    pub(super) fn outermost(&self, side: Side) -> i64 {
        match side {
            Side::Left => self.first,
            Side::Right => self.last(),
        }
    }

    pub(super) const fn edge(&self, side: Side) -> usize {
        match side {
            Side::Left => self.left_edge,
            Side::Right => self.right_edge,
        }
    }

    pub(super) const fn set_edge(&mut self, side: Side, edge: usize) {
        match side {
            Side::Left => self.left_edge = edge,
            Side::Right => self.right_edge = edge,
        }
    }

    pub(super) fn knit(&mut self, rows: Rows) {
        self.risen += i64::from(rows.get());
    }

    /// How high the outermost working stitch of a side is.
    fn height(&self, side: Side) -> i64 {
        let run = match side {
            Side::Left => self.working.front(),
            Side::Right => self.working.back(),
        };
        run.map_or(0, |run| run.height + self.risen)
    }

    /// Adds working stitches outside the others, as high as the stitch they join. There
    /// are none on hold at that side.
    pub(super) fn add(&mut self, side: Side, count: u32) {
        let height = self.height(side);
        self.put(side, Run { count, height });
        if side == Side::Left {
            self.first -= i64::from(count);
        }
    }

    /// Puts a run at an end of the working stitches.
    pub(super) fn put(&mut self, side: Side, run: Run) {
        let run = Run { height: run.height - self.risen, ..run };
        self.count += run.count;
        let end = match side {
            Side::Left => self.working.front_mut(),
            Side::Right => self.working.back_mut(),
        };
        match end {
            Some(end) if end.height == run.height => end.count += run.count,
            _ if side == Side::Left => self.working.push_front(run),
            _ => self.working.push_back(run),
        }
    }

    /// Takes at most so many stitches from a run at an end of the working ones.
    fn pull(&mut self, side: Side, most: u32) -> Option<Run> {
        let end = match side {
            Side::Left => self.working.front_mut(),
            Side::Right => self.working.back_mut(),
        }?;
        let taken = Run { count: end.count.min(most), height: end.height + self.risen };
        end.count -= taken.count;
        self.count -= taken.count;
        if end.count == 0 {
            match side {
                Side::Left => self.working.pop_front(),
                Side::Right => self.working.pop_back(),
            };
        }
        Some(taken)
    }

    /// Puts the outermost working stitches on hold.
    pub(super) fn hold(&mut self, side: Side, count: u32) {
        let mut wanted = count;
        while let Some(run) = Some(wanted).filter(|&n| n > 0).and_then(|n| self.pull(side, n)) {
            wanted -= run.count;
            match side {
                Side::Left => (self.held_left += run.count, push(&mut self.left, run)),
                Side::Right => (self.held_right += run.count, push(&mut self.right, run)),
            };
        }
    }

    /// Brings held stitches back, those next to the working ones first.
    pub(super) fn bring_back(&mut self, side: Side, count: u32) {
        let mut wanted = count;
        while let Some(run) = Some(wanted).filter(|&n| n > 0).and_then(|n| self.unhold(side, n)) {
            wanted -= run.count;
            self.put(side, run);
        }
    }

    fn unhold(&mut self, side: Side, most: u32) -> Option<Run> {
        let (held, sum) = match side {
            Side::Left => (&mut self.left, &mut self.held_left),
            Side::Right => (&mut self.right, &mut self.held_right),
        };
        let taken = shorten(held, most)?;
        *sum -= taken.count;
        Some(taken)
    }

    pub(super) fn bring_all_back(&mut self) {
        self.bring_back(Side::Left, self.held_left);
        self.bring_back(Side::Right, self.held_right);
    }

    /// Takes the outermost stitches away, held or not, and gives them from left to right.
    pub(super) fn take(&mut self, side: Side, count: u32) -> Vec<Run> {
        let held = self.held(side).min(count);
        let beyond = self.held(side) - held;
        let mut taken = Vec::new();
        // Of the held ones the outermost go; those next to the working ones stay.
        let outer = match side {
            Side::Left => (&mut self.left, &mut self.held_left),
            Side::Right => (&mut self.right, &mut self.held_right),
        };
        *outer.1 = beyond;
        taken.extend(split(outer.0, held));
        let mut wanted = count - held;
        while let Some(run) = Some(wanted).filter(|&n| n > 0).and_then(|n| self.pull(side, n)) {
            wanted -= run.count;
            push(&mut taken, run);
        }
        while let Some(run) =
            Some(wanted).filter(|&n| n > 0).and_then(|n| self.unhold(side.other(), n))
        {
            wanted -= run.count;
            push(&mut taken, run);
        }
        if side == Side::Left {
            self.first += i64::from(count - wanted);
        } else {
            taken.reverse();
        }
        taken
    }

    /// Changes the count of working stitches along the row: at each place, an index from
    /// the left, so many more or fewer.
    pub(super) fn space(&mut self, places: impl Iterator<Item = u32>, change: i64) {
        let (mut runs, mut begin, mut sum) = (VecDeque::new(), 0, 0_u32);
        let mut places = places.peekable();
        for run in core::mem::take(&mut self.working) {
            let end = begin + run.count;
            let mut count = i64::from(run.count);
            while places.next_if(|&place| place < end).is_some() {
                count += change;
            }
            begin = end;
            let count = u32::try_from(count).unwrap_or(0);
            sum += count;
            if count > 0 {
                runs.push_back(Run { count, ..run });
            }
        }
        self.working = runs;
        self.count = sum;
    }
}

/// Adds a run at the inner end of held ones.
fn push(runs: &mut Vec<Run>, run: Run) {
    match runs.last_mut() {
        Some(last) if last.height == run.height => last.count += run.count,
        _ => runs.push(run),
    }
}

/// Takes at most so many stitches from the last run.
fn shorten(runs: &mut Vec<Run>, most: u32) -> Option<Run> {
    let last = runs.last_mut()?;
    let taken = Run { count: last.count.min(most), ..*last };
    last.count -= taken.count;
    if last.count == 0 {
        runs.pop();
    }
    Some(taken)
}

/// Takes so many stitches from the front.
fn split(runs: &mut Vec<Run>, count: u32) -> Vec<Run> {
    let mut taken = Vec::new();
    let mut left = count;
    let mut rest = Vec::new();
    for run in runs.drain(..) {
        let part = run.count.min(left);
        left -= part;
        if part > 0 {
            taken.push(Run { count: part, ..run });
        }
        if run.count > part {
            rest.push(Run { count: run.count - part, ..run });
        }
    }
    *runs = rest;
    taken
}

/// The stitches as an edge from left to right: a leg each time the height changes.
pub(super) fn legs(runs: &[Run], fabric: Fabric) -> Vec<Leg> {
    let mut height = runs.first().map_or(0, |run| run.height);
    let mut legs: Vec<Leg> = Vec::new();
    for run in runs {
        let heading = if run.height < height { Heading::Down } else { Heading::UpAndIn };
        let apart = u32::try_from(run.height.abs_diff(height)).unwrap_or(u32::MAX);
        let rows = Rows::new(apart).unwrap_or(Rows::ZERO);
        let stitches = Stitches::new(run.count).unwrap_or(Stitches::ZERO);
        legs.push(Leg { fabric, heading, rows, stitches });
        height = run.height;
    }
    legs
}
