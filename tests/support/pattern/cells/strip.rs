//! Stitches side by side, a cell each.

use loopwright::pattern::Side;
use std::collections::BTreeMap;

/// One stitch on its needle.
#[derive(Clone, Copy, Debug, Default, Eq, PartialEq)]
pub struct Cell {
    /// Rows knitted in this wale since the cast-on.
    pub height: i64,
    /// The side it was put on hold at, if it is on hold.
    pub held: Option<Side>,
}

/// Neighbouring stitches.
#[derive(Clone, Debug, Default)]
pub struct Strip {
    /// The cells by their needles: -1 is L1, 0 is R1.
    pub cells: BTreeMap<i64, Cell>,
    pub(super) name: String,
    /// The names of its edges, left and right.
    pub(super) edges: [String; 2],
    /// What its row counter shows.
    pub row: u64,
    pub(super) round: bool,
}

pub(super) const fn index(side: Side) -> usize {
    match side {
        Side::Left => 0,
        Side::Right => 1,
    }
}

pub(super) const fn inward(side: Side) -> i64 {
    match side {
        Side::Left => 1,
        Side::Right => -1,
    }
}

impl Strip {
    /// Needles from a side inwards.
    pub(super) fn from(&self, side: Side) -> Vec<i64> {
        let mut places: Vec<i64> = self.cells.keys().copied().collect();
        if side == Side::Right {
            places.reverse();
        }
        places
    }

    /// Needles in work, from a side inwards.
    pub(super) fn in_work(&self, side: Side) -> Vec<i64> {
        self.from(side).into_iter().filter(|place| self.cells[place].held.is_none()).collect()
    }

    pub(super) fn first_in_work(&self, side: Side) -> Option<i64> {
        self.in_work(side).first().copied()
    }

    pub(super) fn outermost(&self, side: Side) -> Option<i64> {
        self.from(side).first().copied()
    }

    /// Stitches on hold at a side.
    #[must_use]
    pub fn held(&self, side: Side) -> usize {
        self.cells.values().filter(|cell| cell.held == Some(side)).count()
    }

    pub(super) fn remove(&mut self, place: i64) -> Cell {
        self.cells.remove(&place).expect("a cell to take")
    }

    /// Moves every cell by so many needles.
    pub(super) fn moved(&mut self, by: i64) {
        self.cells = std::mem::take(&mut self.cells)
            .into_iter()
            .map(|(place, cell)| (place + by, cell))
            .collect();
    }
}
