//! Rows are knitted, and stitches bound off.

use super::state::{State, add};
use crate::Side;
use crate::edge::Heading;
use crate::error::Fault;
use crate::{Fabric, Loops, Name};
use loopwright_gauge::{Rows, Stitches, bounds};

impl State {
    pub(super) fn knit(&mut self, rows: Rows) -> Result<(), Fault> {
        self.working("a row")?;
        if rows == Rows::ZERO {
            return Err(Fault::NoRows);
        }
        let begins = self.begin_at_yarn("the row")?;
        let too_many = Fault::TooManyRows { most: bounds::COUNT };
        let part = self.working("a row")?;
        part.row = part.row.checked_add(rows).map_err(|_| too_many.clone())?;
        part.knit(rows);
        let loops = u64::from(part.working()) * u64::from(rows.get());
        let (fabric, round) = (part.fabric, part.round);
        let turned = rows.get() % 2 == 1 && !round;
        let ends = if turned { begins.other() } else { begins };
        let place = part.end(ends);
        self.knitted.rows = self.knitted.rows.checked_add(rows).map_err(|_| too_many)?;
        self.count_loops(fabric, loops);
        self.knit_edges(rows);
        self.yarns.put(place, ends);
        self.carriage = ends;
        Ok(())
    }

    /// Both sides grow, but for those on hold.
    fn knit_edges(&mut self, rows: Rows) {
        let Some(part) = self.part.as_ref().filter(|part| !part.round) else { return };
        for side in [Side::Left, Side::Right] {
            let edge = self.knitted.edges.get_mut(part.edge(side));
            if let Some(edge) = edge.filter(|_| part.held(side) == 0) {
                edge.knit(part.fabric, rows);
            }
        }
    }

    fn count_loops(&mut self, fabric: Fabric, loops: u64) {
        let yarn = self.yarns.name();
        let of = |known: &&mut Loops| known.fabric == fabric && known.yarn == *yarn;
        match self.knitted.loops.iter_mut().find(of) {
            Some(known) => known.loops = known.loops.saturating_add(loops),
            None => self.knitted.loops.push(Loops { fabric, yarn: yarn.clone(), loops }),
        }
    }

    pub(super) fn bind_off(
        &mut self,
        stitches: Stitches,
        edge: Option<&Name>,
    ) -> Result<(), Fault> {
        let part = self.flat("a bind-off")?;
        let (len, working) = (part.len(), part.working());
        let count = stitches.get();
        if count == 0 {
            return Err(Fault::Zero { what: "a bind-off" });
        }
        let side = self.begin_at_yarn("the bind-off")?;
        // Without an edge of their own at least one stitch stays, to carry the edge on.
        let there = if edge.is_some() { working } else { working.min(len - 1) };
        if count > there {
            return Err(Fault::TooFew { what: "a bind-off", wanted: count.into(), there });
        }
        self.refuse_held(side, "bound off")?;
        add(&mut self.knitted.bound_off, count)?;
        let Some(name) = edge else {
            self.take_bound_off(side, count);
            self.step_edge(side, Heading::UpAndIn, count);
            return Ok(());
        };
        let fabric = self.working("a bind-off")?.fabric;
        let edge = self.bind_onto(name, fabric, stitches)?;
        self.take_bound_off(side, count);
        if let Some(part) = &mut self.part {
            part.set_edge(side, edge);
        }
        Ok(())
    }

    /// The yarn comes to the next stitch, or through the last.
    fn take_bound_off(&mut self, side: Side, count: u32) {
        let Some(part) = &mut self.part else { return };
        part.take(side, count);
        if part.len() == 0 {
            self.yarns.fasten_off();
        } else {
            self.yarns.put(part.outermost(side), side);
        }
    }

    pub(super) fn bind_off_all(&mut self, edge: &Name) -> Result<(), Fault> {
        let part = self.working("a bind-off")?;
        let (fabric, count) = (part.fabric, part.len());
        let side = self.begin_at_yarn("the bind-off")?;
        self.refuse_held(side, "bound off")?;
        self.refuse_held(side.other(), "bound off")?;
        add(&mut self.knitted.bound_off, count)?;
        self.bind_onto(edge, fabric, super::state::stitches(count))?;
        if let Some(part) = &mut self.part {
            part.take(side, count);
        }
        self.yarns.fasten_off();
        Ok(())
    }
}
