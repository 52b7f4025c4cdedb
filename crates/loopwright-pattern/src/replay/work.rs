//! What each step does to the loops, the edges and the counts.

use super::part::{Loop, Part, legs};
use super::state::State;
use crate::edge::{EdgeKind, KnittedEdge, Leg};
use crate::error::Fault;
use crate::{CastOn, Change, Fabric, Shape, Side};
use loopwright_gauge::Stitches;
use std::collections::VecDeque;

impl State {
    pub(super) fn cast_on(
        &mut self,
        stitches: Stitches,
        how: &CastOn,
        fabric: Fabric,
        carriage: Side,
        edge: &str,
    ) -> Result<(), Fault> {
        let count = stitches.get();
        if self.begun {
            return Err(Fault::AlreadyOn);
        }
        if count == 0 {
            return Err(Fault::Zero { what: "a cast-on" });
        }
        if let CastOn::PickedUp { from } = how {
            let picked = from.iter().fold(0_u32, |sum, edge| sum.saturating_add(edge.stitches));
            if picked != count {
                return Err(Fault::PickUp { wanted: count, picked });
            }
        }
        let leg = Leg { fabric, rows: 0, stitches: i64::from(count) };
        self.new_edge(edge, EdgeKind::CastOn, vec![leg])?;
        let left_edge = self.new_edge("left edge", EdgeKind::Selvedge, Vec::new())?;
        let right_edge = self.new_edge("right edge", EdgeKind::Selvedge, Vec::new())?;
        let loops = VecDeque::from(vec![Loop { held: false, height: 0 }; count as usize]);
        let first = -i64::from(count - count / 2); // the odd one out is at the left
        let name = String::new();
        self.part = Some(Part { name, first, loops, left_edge, right_edge, fabric, row: 0 });
        self.carriage = carriage;
        self.begun = true;
        self.knitted.cast_on += u64::from(count);
        Ok(())
    }

    pub(super) fn knit(&mut self, rows: u32) -> Result<(), Fault> {
        let part = self.working("a row")?;
        part.row = part.row.checked_add(rows).ok_or(Fault::TooManyRows)?;
        let mut working = 0_u64;
        for on in part.loops.iter_mut().filter(|on| !on.held) {
            on.height += i64::from(rows);
            working += 1;
        }
        let fabric = part.fabric;
        let free = [Side::Left, Side::Right]
            .map(|side| (part.edge(side), part.outermost(side).is_some_and(|on| !on.held)));
        for (edge, free) in free {
            if let (true, Some(edge)) = (free && rows > 0, self.knitted.edges.get_mut(edge)) {
                edge.knit(fabric, i64::from(rows));
            }
        }
        self.count_loops(fabric, working * u64::from(rows));
        self.knitted.rows = self.knitted.rows.saturating_add(rows.into());
        if rows % 2 == 1 {
            self.carriage = self.carriage.other();
        }
        Ok(())
    }

    fn count_loops(&mut self, fabric: Fabric, loops: u64) {
        match self.knitted.loops.iter_mut().find(|(of, _)| *of == fabric) {
            Some((_, sum)) => *sum = sum.saturating_add(loops),
            None => self.knitted.loops.push((fabric, loops)),
        }
    }

    pub(super) fn shape(&mut self, shape: Shape) -> Result<(), Fault> {
        if shape.stitches == 0 {
            return Err(Fault::Zero { what: "a shaping" });
        }
        for &side in shape.sides.each() {
            let part = self.working("a shaping")?;
            let inward = match shape.change {
                Change::Increase => {
                    refuse_held(part, side, "increased")?;
                    part.add(side, shape.stitches);
                    -i64::from(shape.stitches)
                }
                Change::Decrease => {
                    let wanted = shape.stitches;
                    enough(part, "a decrease", wanted.saturating_add(shape.inset))?;
                    refuse_held(part, side, "decreased")?;
                    part.take(side, wanted);
                    i64::from(wanted)
                }
            };
            self.step_edge(side, inward)?;
        }
        Ok(())
    }

    /// Moves the edge of the part being worked across by so many stitches.
    fn step_edge(&mut self, side: Side, inward: i64) -> Result<(), Fault> {
        let part = self.working("an edge")?;
        let (edge, fabric) = (part.edge(side), part.fabric);
        if let Some(edge) = self.knitted.edges.get_mut(edge) {
            edge.step(fabric, inward);
        }
        Ok(())
    }

    pub(super) fn bind_off(&mut self, count: u32, edge: Option<&str>) -> Result<(), Fault> {
        let side = self.carriage;
        let part = self.working("a bind-off")?;
        if count == 0 {
            return Err(Fault::Zero { what: "a bind-off" });
        }
        if edge.is_none() {
            enough(part, "a bind-off", count)?;
        } else if count > part.len() {
            return Err(Fault::TooFew { what: "a bind-off", wanted: count, there: part.len() });
        }
        refuse_held(part, side, "bound off")?;
        let fabric = part.fabric;
        part.take(side, count);
        self.knitted.bound_off += u64::from(count);
        let Some(name) = edge else { return self.step_edge(side, i64::from(count)) };
        let edge = self.bind_onto(name, count, fabric)?;
        if let Some(part) = &mut self.part {
            part.set_edge(side, edge);
        }
        Ok(())
    }

    /// Adds bound-off stitches to the edge of that name. Rows knitted after them at the
    /// same side belong to it too, as those between the steps of a shoulder.
    fn bind_onto(&mut self, name: &str, stitches: u32, fabric: Fabric) -> Result<usize, Fault> {
        let at = match self.knitted.edges.iter().position(|edge| edge.name == name) {
            None => self.new_edge(name, EdgeKind::BoundOff, Vec::new())?,
            Some(at) => at,
        };
        match self.knitted.edges.get_mut(at) {
            Some(edge) if edge.kind == EdgeKind::BoundOff => edge.step(fabric, stitches.into()),
            _ => return Err(Fault::EdgeName { name: name.into() }),
        }
        Ok(at)
    }

    pub(super) fn bind_off_all(&mut self, edge: &str) -> Result<(), Fault> {
        let part = self.working("a bind-off")?;
        if part.held() > 0 {
            return Err(Fault::Held { side: Side::Left, what: "bound off" });
        }
        let (fabric, count) = (part.fabric, part.len());
        part.take(Side::Left, count);
        self.knitted.bound_off += u64::from(count);
        self.bind_onto(edge, count, fabric).map(drop)
    }

    pub(super) fn extend(&mut self, count: u32) -> Result<(), Fault> {
        let side = self.carriage;
        let part = self.working("a cast-on")?;
        if count == 0 {
            return Err(Fault::Zero { what: "a cast-on" });
        }
        refuse_held(part, side, "cast on to")?;
        part.add(side, count);
        self.knitted.cast_on += u64::from(count);
        self.step_edge(side, -i64::from(count))
    }

    pub(super) fn hold(&mut self, side: Side, count: u32) -> Result<(), Fault> {
        let carriage = self.carriage;
        let part = self.working("a hold")?;
        match count {
            0 => Err(Fault::Zero { what: "a hold" }),
            2.. if side == carriage => Err(Fault::HoldAtCarriage { carriage, side }),
            _ => part.hold(side, count),
        }
    }

    pub(super) fn name_edge(&mut self, side: Side, name: &str) -> Result<(), Fault> {
        self.working("an edge")?;
        let edge = self.new_edge(name, EdgeKind::Selvedge, Vec::new())?;
        self.working("an edge")?.set_edge(side, edge);
        Ok(())
    }

    pub(super) fn set_aside(
        &mut self,
        side: Side,
        count: u32,
        name: &str,
        its_edge: &str,
        edge: &str,
    ) -> Result<(), Fault> {
        enough(self.working("a part")?, "a part", count)?;
        let its_edge = self.new_edge(its_edge, EdgeKind::Selvedge, Vec::new())?;
        let edge = self.new_edge(edge, EdgeKind::Selvedge, Vec::new())?;
        let part = self.working("a part")?;
        let outer = part.edge(side);
        let (fabric, row, first) = (part.fabric, part.row, part.first);
        let loops = part.take(side, count);
        part.set_edge(side, edge);
        let (first, left_edge, right_edge) = match side {
            Side::Left => (first, outer, its_edge),
            Side::Right => (part.last() + 1, its_edge, outer),
        };
        self.aside.push(Part {
            name: name.into(),
            first,
            loops,
            left_edge,
            right_edge,
            fabric,
            row,
        });
        Ok(())
    }

    pub(super) fn resume(&mut self, name: &str, carriage: Side) -> Result<(), Fault> {
        if let Some(left) = self.part.as_ref().map(|part| part.loops.len()).filter(|&left| left > 0)
        {
            return Err(Fault::LeftOver { left });
        }
        let at = self.aside.iter().position(|part| part.name == name);
        let at = at.ok_or_else(|| Fault::NoPart { name: name.into() })?;
        self.part = Some(self.aside.remove(at));
        self.carriage = carriage;
        Ok(())
    }

    pub(super) fn take_off(&mut self, side: Side, count: u32, edge: &str) -> Result<(), Fault> {
        let part = self.working("a take-off")?;
        if count == 0 {
            return Err(Fault::Zero { what: "a take-off" });
        }
        if count > part.len() {
            return Err(Fault::TooFew { what: "a take-off", wanted: count, there: part.len() });
        }
        let fabric = part.fabric;
        let loops = part.take(side, count);
        self.knitted.live += u64::from(count);
        self.new_edge(edge, EdgeKind::Live, legs(&loops, fabric)).map(drop)
    }

    fn new_edge(&mut self, name: &str, kind: EdgeKind, legs: Vec<Leg>) -> Result<usize, Fault> {
        if self.knitted.edges.iter().any(|edge| edge.name == name) {
            return Err(Fault::EdgeName { name: name.into() });
        }
        self.knitted.edges.push(KnittedEdge { name: name.into(), kind, legs });
        Ok(self.knitted.edges.len() - 1)
    }
}

/// At least one stitch must stay beside those that go.
fn enough(part: &Part, what: &'static str, wanted: u32) -> Result<(), Fault> {
    if wanted < part.len() {
        return Ok(());
    }
    Err(Fault::TooFew { what, wanted, there: part.len().saturating_sub(1) })
}

fn refuse_held(part: &Part, side: Side, what: &'static str) -> Result<(), Fault> {
    match part.outermost(side) {
        Some(on) if on.held => Err(Fault::Held { side, what }),
        _ => Ok(()),
    }
}
