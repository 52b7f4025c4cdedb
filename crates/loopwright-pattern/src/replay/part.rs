//! A run of neighbouring stitches that is worked on its own.

use crate::error::Fault;
use crate::{Fabric, Leg, Side};
use std::collections::VecDeque;

/// One loop on its needle.
#[derive(Clone, Copy, Debug)]
pub(super) struct Loop {
    pub(super) held: bool,
    /// Rows knitted since the cast-on, in this wale.
    pub(super) height: i64,
}

/// A part: its loops from left to right, where they sit, and which edges they have.
#[derive(Debug)]
pub(super) struct Part {
    pub(super) name: String,
    /// The bed place of the leftmost loop.
    pub(super) first: i64,
    pub(super) loops: VecDeque<Loop>,
    /// Indices into the record of edges.
    pub(super) left_edge: usize,
    pub(super) right_edge: usize,
    pub(super) fabric: Fabric,
    pub(super) row: u32,
}

impl Part {
    pub(super) fn len(&self) -> u32 {
        u32::try_from(self.loops.len()).unwrap_or(u32::MAX)
    }

    pub(super) fn last(&self) -> i64 {
        self.first + i64::from(self.len()) - 1
    }

    pub(super) fn held(&self) -> u32 {
        self.loops.iter().filter(|on| on.held).fold(0, |sum, _| sum + 1)
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

    /// The outermost loop of a side.
    pub(super) fn outermost(&self, side: Side) -> Option<&Loop> {
        match side {
            Side::Left => self.loops.front(),
            Side::Right => self.loops.back(),
        }
    }

    /// Takes the outermost loops away, for a bind-off, a take-off or a new part.
    pub(super) fn take(&mut self, side: Side, count: u32) -> VecDeque<Loop> {
        let count = count.min(self.len());
        let keep = self.loops.len() - count as usize;
        match side {
            Side::Left => {
                let rest = self.loops.split_off(count as usize);
                self.first += i64::from(count);
                std::mem::replace(&mut self.loops, rest)
            }
            Side::Right => self.loops.split_off(keep),
        }
    }

    /// Adds loops outside the edge, as high as the loop they join.
    pub(super) fn add(&mut self, side: Side, count: u32) {
        let height = self.outermost(side).map_or(0, |on| on.height);
        for _ in 0..count {
            let new = Loop { held: false, height };
            match side {
                Side::Left => self.loops.push_front(new),
                Side::Right => self.loops.push_back(new),
            }
        }
        if side == Side::Left {
            self.first -= i64::from(count);
        }
    }

    /// Puts the outermost loops that are not held yet on hold.
    pub(super) fn hold(&mut self, side: Side, count: u32) -> Result<(), Fault> {
        let free = self.len() - self.held();
        if count >= free {
            return Err(Fault::TooFew {
                what: "a hold",
                wanted: count,
                there: free.saturating_sub(1),
            });
        }
        let hold = |on: &mut Loop| on.held = true;
        let waiting = self.loops.iter_mut();
        match side {
            Side::Left => waiting.filter(|on| !on.held).take(count as usize).for_each(hold),
            Side::Right => waiting.rev().filter(|on| !on.held).take(count as usize).for_each(hold),
        }
        Ok(())
    }
}

/// The loops as an edge from left to right: a leg each time the height changes.
pub(super) fn legs(loops: &VecDeque<Loop>, fabric: Fabric) -> Vec<Leg> {
    let mut legs: Vec<Leg> = Vec::new();
    let mut height = loops.front().map_or(0, |on| on.height);
    for on in loops {
        match legs.last_mut() {
            Some(leg) if on.height == height => leg.stitches += 1,
            _ => legs.push(Leg { fabric, rows: on.height - height, stitches: 1 }),
        }
        height = on.height;
    }
    legs
}
