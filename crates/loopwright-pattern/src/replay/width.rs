//! Increases and decreases.

use super::state::State;
use crate::edge::Heading;
use crate::error::Fault;
use crate::{Craft, Direction, Shape, ShapeRow, Side};
use alloc::vec::Vec;
use loopwright_gauge::{Stitches, bounds};
use loopwright_shaping::Technique;

impl State {
    pub(super) fn shape(&mut self, shape: Shape) -> Result<(), Fault> {
        if self.flat("a shaping at an edge")?.working() == 0 {
            return Err(Fault::NoStitches { what: "a shaping" });
        }
        if shape.stitches == Stitches::ZERO {
            return Err(Fault::Zero { what: "a shaping" });
        }
        if shape.method.change().is_some_and(|change| change != shape.change) {
            return Err(Fault::Method { method: shape.method.name() });
        }
        for &side in shape.sides.each() {
            match shape.change {
                Direction::Increase => self.widen(side, shape.stitches.get())?,
                Direction::Decrease => self.narrow(side, shape)?,
            }
        }
        Ok(())
    }

    fn widen(&mut self, side: Side, count: u32) -> Result<(), Fault> {
        self.refuse_held(side, "increased")?;
        let all = u64::from(self.working("a shaping")?.len()) + u64::from(count);
        if all > u64::from(bounds::COUNT) {
            return Err(Fault::TooWide { stitches: all, most: bounds::COUNT });
        }
        self.move_end(side, |part| part.add(side, count));
        self.step_edge(side, Heading::UpAndOut, count);
        Ok(())
    }

    fn narrow(&mut self, side: Side, shape: Shape) -> Result<(), Fault> {
        let (count, inset) = (shape.stitches.get(), shape.inset.get());
        let there = self.working("a shaping")?.working().saturating_sub(1);
        let wanted = u64::from(count) + u64::from(inset);
        if wanted > u64::from(there) {
            return Err(Fault::TooFew { what: "a decrease", wanted, there });
        }
        self.refuse_held(side, "decreased")?;
        self.move_end(side, |part| {
            part.take(side, count);
        });
        self.step_edge(side, Heading::UpAndIn, count);
        Ok(())
    }

    pub(super) fn shape_row(&mut self, row: &ShapeRow) -> Result<(), Fault> {
        let machine = matches!(self.craft, Craft::Machine(_));
        let part = self.working("a shaping")?;
        let width = part.working();
        if row.positions.is_empty() {
            return Err(Fault::Zero { what: "a shaping" });
        }
        if width != row.stitches.get() {
            return Err(Fault::OtherWidth { planned: row.stitches, there: width });
        }
        room(row, part.round)?;
        if machine && part.is_held() {
            // Stitches beside the working ones would have to be moved along the bed.
            self.refuse_held(Side::Left, "moved")?;
            self.refuse_held(Side::Right, "moved")?;
        }
        self.space(row)
    }

    fn space(&mut self, row: &ShapeRow) -> Result<(), Fault> {
        let part = self.working("a shaping")?;
        let moved = u64::from(row.each()) * row.positions.len() as u64;
        let sign = if row.change() == Direction::Increase { 1 } else { -1 };
        let all = u64::from(part.len()) + if sign > 0 { moved } else { 0 };
        if all > u64::from(bounds::COUNT) {
            return Err(Fault::TooWide { stitches: all, most: bounds::COUNT });
        }
        let places = places(row);
        let old = (part.end(Side::Left), part.end(Side::Right));
        part.space(places.iter().copied(), sign);
        // The stitches stay about the middle of where they were.
        part.first -= sign * i64::try_from(moved / 2).unwrap_or(0);
        let new = (part.end(Side::Left), part.end(Side::Right));
        let from = row.from;
        self.yarns.follow(|place| match place {
            _ if place < old.0 => place + new.0 - old.0,
            _ if place > old.1 => place + new.1 - old.1,
            _ => {
                let at = place - old.0;
                let passed = |&&other: &&u32| passes(i64::from(other), at, from, sign);
                let before = places.iter().filter(passed).count();
                new.0 + at + sign * i64::try_from(before).unwrap_or(0)
            }
        });
        Ok(())
    }
}

/// Whether a stitch made or lost at `other` moves the stitch at `at`: a lost one is drawn
/// into the stitch worked before it, a new one comes after the stitch it is made at.
const fn passes(other: i64, at: i64, from: Side, sign: i64) -> bool {
    match (from, sign > 0) {
        (Side::Left, true) | (Side::Right, false) => other < at,
        (Side::Left, false) | (Side::Right, true) => other <= at,
    }
}

/// Every event has the stitches it uses to itself.
fn room(row: &ShapeRow, round: bool) -> Result<(), Fault> {
    let uses = u64::from(row.technique.uses().get().max(1));
    let width = u64::from(row.stitches.get());
    // An increase between two stitches of a flat row has one on either side.
    let between = row.technique == Technique::IncreaseBetween && !round;
    let most = width.saturating_sub(u64::from(between));
    let mut least = uses;
    for &at in &row.positions {
        let place = u64::from(at.get());
        if place < least || place > most {
            return Err(Fault::NoRoom { at, least, most });
        }
        least = place + uses;
    }
    Ok(())
}

/// The stitches, counted from 0 at the left, at which one is made or that are lost.
fn places(row: &ShapeRow) -> Vec<u32> {
    let width = row.stitches.get();
    let mut places = Vec::with_capacity(row.positions.len());
    for at in &row.positions {
        for before in (1..=row.each()).rev() {
            let worked = at.get() - before.min(at.get());
            places.push(match row.from {
                Side::Left => worked,
                Side::Right => width - 1 - worked,
            });
        }
    }
    if row.from == Side::Right {
        places.reverse();
    }
    places
}
