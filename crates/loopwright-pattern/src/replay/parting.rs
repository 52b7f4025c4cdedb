//! Stitches leave the part being worked, or come back to it; rounds.

use super::WASTE_ROWS;
use super::part::{Part, legs};
use super::state::{State, add, sound};
use crate::edge::EdgeKind;
use crate::error::Fault;
use crate::{Name, Needle, Side};
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;
use loopwright_gauge::Stitches;

impl State {
    pub(super) fn set_aside(
        &mut self,
        side: Side,
        stitches: Stitches,
        name: &Name,
        (its_edge, edge): (&Name, &Name),
    ) -> Result<(), Fault> {
        let len = self.flat("a part")?.len();
        let count = stitches.get();
        if count == 0 {
            return Err(Fault::Zero { what: "a part" });
        }
        if count >= len {
            let there = len.saturating_sub(1);
            return Err(Fault::TooFew { what: "a part", wanted: count.into(), there });
        }
        sound(name)?;
        if self.aside.iter().any(|part| part.name == *name) {
            return Err(Fault::PartName { name: name.clone() });
        }
        let its_edge = self.new_edge(its_edge, EdgeKind::Selvedge, Vec::new())?;
        let edge = self.new_edge(edge, EdgeKind::Selvedge, Vec::new())?;
        let part = self.working("a part")?;
        let outer = part.edge(side);
        let (fabric, row, mut first) = (part.fabric, part.row, part.first);
        let runs = part.take(side, count);
        part.set_edge(side, edge);
        let edges = if side == Side::Left { (outer, its_edge) } else { (its_edge, outer) };
        if side == Side::Right {
            first = part.last() + 1;
        }
        let mut aside = Part::new(name.clone(), first, edges, fabric);
        for run in runs {
            aside.put(Side::Right, run);
        }
        aside.row = row;
        self.aside.push(aside);
        Ok(())
    }

    /// Takes a waiting part by its name.
    fn waiting(&mut self, name: &Name) -> Result<Part, Fault> {
        let at = self.aside.iter().position(|part| part.name == *name);
        let others = || {
            let names: Vec<&str> = self.aside.iter().map(|part| part.name.as_str()).collect();
            if names.is_empty() {
                String::new()
            } else {
                format!("; there is {}", names.join(", "))
            }
        };
        let at = at.ok_or_else(|| Fault::NoPart { name: name.clone(), others: others() })?;
        Ok(self.aside.remove(at))
    }

    pub(super) fn resume(&mut self, name: &Name) -> Result<(), Fault> {
        match self.part.as_ref().map_or(0, Part::len) {
            0 => {}
            left => return Err(Fault::LeftOver { left: left.into() }),
        }
        self.part = Some(self.waiting(name)?);
        Ok(())
    }

    pub(super) fn rejoin(&mut self, name: &Name, side: Side) -> Result<(), Fault> {
        self.flat("a part")?;
        self.refuse_held(side, "joined to")?;
        let mut back = self.waiting(name)?;
        let machine = self.craft.is_machine();
        let part = self.working("a part")?;
        let beside = match side {
            Side::Left => back.last() + 1 == part.first,
            Side::Right => part.last() + 1 == back.first,
        };
        if machine && !beside {
            let (first, last) = (Needle::at(back.first), Needle::at(back.last()));
            return Err(Fault::NotBeside { name: name.clone(), first, last, side });
        }
        part.set_edge(side, back.edge(side));
        let count = back.len();
        let mut runs = back.take(Side::Left, count);
        if side == Side::Left {
            part.first -= i64::from(count);
            runs.reverse();
        }
        for run in runs {
            part.put(side, run);
        }
        Ok(())
    }

    pub(super) fn take_off(
        &mut self,
        side: Side,
        stitches: Stitches,
        edge: &Name,
    ) -> Result<(), Fault> {
        let part = self.working("a take-off")?;
        let (count, len, fabric) = (stitches.get(), part.len(), part.fabric);
        if count == 0 {
            return Err(Fault::Zero { what: "a take-off" });
        }
        if count > len {
            return Err(Fault::TooFew { what: "a take-off", wanted: count.into(), there: len });
        }
        if part.round && count < len {
            return Err(Fault::Round { what: "a take-off of some stitches" });
        }
        let runs = part.take(side, count);
        add(&mut self.knitted.live, count)?;
        if self.craft.is_machine() {
            self.knitted.waste += u64::from(count) * u64::from(WASTE_ROWS);
        }
        self.new_edge(edge, EdgeKind::Live, legs(&runs, fabric)).map(drop)
    }

    /// The ends meet. A yarn at the left end is beside the right end then, where the
    /// round begins.
    pub(super) fn join_round(&mut self) -> Result<(), Fault> {
        self.flat("a round")?;
        self.refuse_held(Side::Left, "joined")?;
        self.refuse_held(Side::Right, "joined")?;
        let part = self.working("a round")?;
        part.round = true;
        let (left, right) = (part.end(Side::Left), part.end(Side::Right));
        self.yarns.close(left, right);
        self.carriage = self.yarn_side().unwrap_or(self.carriage);
        Ok(())
    }

    pub(super) fn divide(&mut self, left: &Name, right: &Name) -> Result<(), Fault> {
        if !self.working("a division")?.round {
            return Err(Fault::NotRound);
        }
        let left = self.new_edge(left, EdgeKind::Selvedge, Vec::new())?;
        let right = self.new_edge(right, EdgeKind::Selvedge, Vec::new())?;
        let part = self.working("a division")?;
        part.round = false;
        part.set_edge(Side::Left, left);
        part.set_edge(Side::Right, right);
        Ok(())
    }
}
