//! Stitches come on the needles.

use super::WASTE_ROWS;
use super::part::{Part, Run};
use super::state::{State, add};
use crate::edge::{EdgeKind, Heading, Leg};
use crate::error::Fault;
use crate::{CastOn, Craft, Fabric, Hang, LEFT_EDGE, Name, Needle, PickUp, RIGHT_EDGE, Side};
use alloc::vec;
use alloc::vec::Vec;
use loopwright_gauge::{Rows, Stitches, bounds};

/// A cast-on, as its step has it.
pub(super) struct Begin<'a> {
    pub(super) stitches: Stitches,
    pub(super) how: &'a CastOn,
    pub(super) fabric: Fabric,
    pub(super) carriage: Side,
    pub(super) edge: &'a Name,
    pub(super) needle: Option<Needle>,
}

impl State {
    pub(super) fn cast_on(&mut self, begin: &Begin<'_>) -> Result<(), Fault> {
        let count = begin.stitches.get();
        if self.begun {
            return Err(Fault::AlreadyOn);
        }
        if count == 0 {
            return Err(Fault::Zero { what: "a cast-on" });
        }
        self.picked_up(begin)?;
        let (fabric, stitches) = (begin.fabric, begin.stitches);
        let leg = Leg { fabric, heading: Heading::UpAndIn, rows: Rows::ZERO, stitches };
        let kind = match begin.how {
            CastOn::WasteYarn => EdgeKind::Live,
            _ => EdgeKind::CastOn,
        };
        self.new_edge(begin.edge, kind, vec![leg])?;
        let left = self.new_edge(&LEFT_EDGE, EdgeKind::Selvedge, Vec::new())?;
        let right = self.new_edge(&RIGHT_EDGE, EdgeKind::Selvedge, Vec::new())?;
        // The odd one out is at the left.
        let first = begin.needle.map_or(-i64::from(count - count / 2), Needle::place);
        if first.unsigned_abs() > u64::from(bounds::COUNT) {
            return Err(Fault::TooWide { stitches: first.unsigned_abs(), most: bounds::COUNT });
        }
        let mut part = Part::new(Name::fixed(""), first, (left, right), fabric);
        part.put(Side::Right, Run { count, height: 0 });
        self.yarns.begin(part.end(begin.carriage), begin.carriage);
        self.part = Some(part);
        self.carriage = begin.carriage;
        self.begun = true;
        self.count_on(begin.how, count)
    }

    fn picked_up(&self, begin: &Begin<'_>) -> Result<(), Fault> {
        let CastOn::PickedUp { from } = begin.how else { return Ok(()) };
        let picked = total(from);
        if picked != u64::from(begin.stitches.get()) {
            return Err(Fault::PickUp { wanted: begin.stitches, picked });
        }
        match (self.craft, begin.carriage) {
            (Craft::Hand, Side::Right) => Err(Fault::PickedUpAtRight),
            _ => Ok(()),
        }
    }

    fn count_on(&mut self, how: &CastOn, count: u32) -> Result<(), Fault> {
        let knitted = &mut self.knitted;
        match how {
            CastOn::Closed => add(&mut knitted.cast_on, count),
            CastOn::PickedUp { .. } => add(&mut knitted.picked_up, count),
            CastOn::WasteYarn => {
                // By hand one row of loops, at the machine the usual stretch.
                let rows = if self.craft.is_machine() { WASTE_ROWS } else { 1 };
                knitted.waste += u64::from(count) * u64::from(rows);
                add(&mut knitted.begun_live, count)
            }
        }
    }

    /// Cast on where the yarn hangs.
    pub(super) fn extend(&mut self, stitches: Stitches) -> Result<(), Fault> {
        self.flat("a cast-on")?;
        if stitches == Stitches::ZERO {
            return Err(Fault::Zero { what: "a cast-on" });
        }
        let side = self.begin_at_yarn("the cast-on")?;
        self.refuse_held(side, "cast on to")?;
        add(&mut self.knitted.cast_on, stitches.get())?;
        self.put_on(side, stitches.get())?;
        self.yarn_to_end(side);
        Ok(())
    }

    /// New stitches beside the others, outside the edge.
    fn put_on(&mut self, side: Side, count: u32) -> Result<(), Fault> {
        let part = self.flat("a cast-on")?;
        let all = u64::from(part.len()) + u64::from(count);
        if all > u64::from(bounds::COUNT) {
            return Err(Fault::TooWide { stitches: all, most: bounds::COUNT });
        }
        part.add(side, count);
        self.step_edge(side, Heading::UpAndOut, count);
        Ok(())
    }

    fn yarn_to_end(&mut self, side: Side) {
        if let Some(part) = &self.part {
            self.yarns.put(part.end(side), side);
        }
    }

    pub(super) fn hang(&mut self, hang: &Hang) -> Result<(), Fault> {
        let part = self.flat("a hanging")?;
        let (working, total) = (part.working(), total(&hang.from));
        let (overlap, side) = (u64::from(hang.overlap.get()), hang.side);
        if working == 0 {
            return Err(Fault::NoStitches { what: "a hanging" });
        }
        if total == 0 {
            return Err(Fault::Zero { what: "a hanging" });
        }
        if overlap > total {
            return Err(Fault::Overlap { overlap: hang.overlap.get(), hung: total });
        }
        if overlap > u64::from(working) {
            return Err(Fault::TooFew { what: "an overlap", wanted: overlap, there: working });
        }
        self.refuse_held(side, "hung on")?;
        hang.from.iter().try_for_each(|picked| self.own_edge(picked))?;
        let new = u32::try_from(total - overlap)
            .map_err(|_| Fault::TooWide { stitches: total, most: bounds::COUNT })?;
        if new == 0 {
            return Ok(());
        }
        self.yarn_beside(side)?;
        add(&mut self.knitted.picked_up, new)?;
        self.put_on(side, new)?;
        if !self.craft.is_machine() {
            self.yarn_to_end(side);
        }
        Ok(())
    }

    /// By hand stitches are picked up with the working yarn.
    fn yarn_beside(&self, side: Side) -> Result<(), Fault> {
        if self.craft.is_machine() {
            return Ok(());
        }
        match self.begin_at_yarn("the pick-up")? {
            yarn if yarn != side => Err(Fault::PickedUpAway { yarn, side }),
            _ => Ok(()),
        }
    }

    /// An edge of this piece that is picked up along is there.
    fn own_edge(&self, picked: &PickUp) -> Result<(), Fault> {
        let known = |edge: &Name| self.knitted.edges.iter().any(|made| made.name == *edge);
        if picked.piece != self.knitted.name || known(&picked.edge) {
            return Ok(());
        }
        let there = crate::edge::names(&self.knitted.edges);
        Err(Fault::NoEdge { edge: picked.edge.clone(), there })
    }
}

fn total(from: &[PickUp]) -> u64 {
    from.iter().map(|edge| u64::from(edge.stitches.get())).sum()
}
