//! The bed, the yarns, the row counter and the record, and which step does what.

use super::part::Part;
use super::yarn::Yarns;
use crate::error::Fault;
use crate::{Bed, Craft, Entry, Fabric, Knitted, Name, Needle, Piece, Side, Step};
use alloc::vec::Vec;
use loopwright_gauge::{Rows, Stitches, bounds};

pub(super) struct State {
    pub(super) craft: Craft,
    pub(super) carriage: Side,
    pub(super) yarns: Yarns,
    pub(super) part: Option<Part>,
    pub(super) aside: Vec<Part>,
    pub(super) begun: bool,
    pub(super) knitted: Knitted,
}

impl State {
    pub(super) fn new(piece: &Piece) -> Self {
        let none = Stitches::ZERO;
        let knitted = Knitted {
            name: piece.name().clone(),
            craft: piece.craft(),
            log: Vec::with_capacity(piece.steps().len()),
            edges: Vec::new(),
            loops: Vec::new(),
            cast_on: none,
            begun_live: none,
            picked_up: none,
            bound_off: none,
            live: none,
            waste: 0,
            ends: 0,
            widest: none,
            rows: Rows::ZERO,
        };
        Self {
            craft: piece.craft(),
            carriage: Side::Right,
            yarns: Yarns::new(),
            part: None,
            aside: Vec::new(),
            begun: false,
            knitted,
        }
    }

    pub(super) fn row(&self) -> Rows {
        self.part.as_ref().map_or(Rows::ZERO, |part| part.row)
    }

    /// Does one step and writes it in the log.
    pub(super) fn take(&mut self, step: &Step) -> Result<(), Fault> {
        let row_before = self.row();
        self.apply(step)?;
        self.measure()?;
        let part = self.part.as_ref();
        let held = |side| part.map_or(Stitches::ZERO, |part| stitches(part.held(side)));
        self.knitted.log.push(Entry {
            step: step.clone(),
            fabric: part.map_or(Fabric::Plain, |part| part.fabric),
            row_before,
            row: self.row(),
            carriage: self.carriage,
            yarn: self.yarns.hanging(),
            round: part.is_some_and(|part| part.round),
            stitches: part.map_or(Stitches::ZERO, |part| stitches(part.len())),
            held_left: held(Side::Left),
            held_right: held(Side::Right),
            needles: part
                .filter(|part| part.len() > 0)
                .map(|part| (Needle::at(part.first), Needle::at(part.last()))),
            edges: part.map(|part| (part.left_edge, part.right_edge)),
        });
        Ok(())
    }

    /// Nothing is left on the needles, and no yarn hangs.
    pub(super) fn finish(&mut self) -> Result<(), Fault> {
        if !self.begun {
            return Err(Fault::NothingOn);
        }
        let on = |part: &Part| u64::from(part.len());
        match self.part.iter().chain(&self.aside).map(on).sum() {
            0 => {}
            left => return Err(Fault::LeftOver { left }),
        }
        self.knitted.ends = self.yarns.ends()?;
        Ok(())
    }

    fn apply(&mut self, step: &Step) -> Result<(), Fault> {
        match step {
            Step::CastOn { stitches, how, fabric, carriage, edge, needle } => {
                let begin = super::begin::Begin {
                    stitches: *stitches,
                    how,
                    fabric: *fabric,
                    carriage: *carriage,
                    edge,
                    needle: *needle,
                };
                self.cast_on(&begin)
            }
            Step::Knit(rows) => self.knit(*rows),
            Step::ChangeFabric(fabric) => {
                self.working("a change of fabric")?.fabric = *fabric;
                Ok(())
            }
            Step::ResetCounter => {
                self.working("the row counter")?.row = Rows::ZERO;
                Ok(())
            }
            Step::Shape(shape) => self.shape(*shape),
            Step::ShapeRow(row) => self.shape_row(row),
            Step::BindOff { stitches, edge, .. } => self.bind_off(*stitches, edge.as_ref()),
            Step::BindOffAll { edge, .. } => self.bind_off_all(edge),
            Step::Extend(stitches) => self.extend(*stitches),
            Step::Hold { side, stitches } => self.hold(*side, *stitches),
            Step::Return => {
                self.working("a return")?.bring_all_back();
                Ok(())
            }
            Step::ReturnSome { side, stitches } => self.bring_back(*side, *stitches),
            Step::NameEdge { side, edge } => self.name_edge(*side, edge),
            Step::Mark { side, marker } => self.mark(*side, marker),
            Step::SetAside { side, stitches, part, its_edge, edge } => {
                self.set_aside(*side, *stitches, part, (its_edge, edge))
            }
            Step::Resume { part } => self.resume(part),
            Step::Rejoin { part, side } => self.rejoin(part, *side),
            Step::TakeOff { side, stitches, edge } => self.take_off(*side, *stitches, edge),
            Step::Hang(hang) => self.hang(hang),
            Step::Cut => self.yarns.cut(),
            Step::Join { side } => self.join(*side),
            Step::ChangeYarn(name) => self.change_yarn(name),
            Step::JoinRound => self.join_round(),
            Step::Divide { left, right } => self.divide(left, right),
            Step::Remark(text) => remark(text),
        }
    }

    /// The part being worked, which has stitches, held or not.
    pub(super) fn working(&mut self, what: &'static str) -> Result<&mut Part, Fault> {
        match &mut self.part {
            Some(part) if part.len() > 0 => Ok(part),
            _ => Err(Fault::NoStitches { what }),
        }
    }

    /// The part being worked, which goes back and forth.
    pub(super) fn flat(&mut self, what: &'static str) -> Result<&mut Part, Fault> {
        match self.working(what)? {
            part if part.round => Err(Fault::Round { what }),
            part => Ok(part),
        }
    }

    /// Notes the widest point and refuses what is too wide, or off the bed.
    fn measure(&mut self) -> Result<(), Fault> {
        let (mut first, mut last, mut sum) = (i64::MAX, i64::MIN, 0_u64);
        for part in self.aside.iter().chain(&self.part).filter(|part| part.len() > 0) {
            (first, last) = (first.min(part.first), last.max(part.last()));
            sum += u64::from(part.len());
        }
        if sum == 0 {
            return Ok(());
        }
        let too_wide = Fault::TooWide { stitches: sum, most: bounds::COUNT };
        let sum =
            u32::try_from(sum).ok().and_then(|sum| Stitches::new(sum).ok()).ok_or(too_wide)?;
        self.knitted.widest = self.knitted.widest.max(sum);
        match self.craft {
            Craft::Machine(bed) if !bed.holds(first, last) => Err(off_bed(bed, first, last)),
            _ => Ok(()),
        }
    }
}

/// Parts are never wider than a count may be.
pub(super) fn stitches(count: u32) -> Stitches {
    Stitches::new(count).unwrap_or(Stitches::ZERO)
}

/// Adds to one of the record's counts.
pub(super) fn add(sum: &mut Stitches, count: u32) -> Result<(), Fault> {
    let all = u64::from(sum.get()) + u64::from(count);
    let too_many = Fault::TooManyStitches { count: all, most: bounds::COUNT };
    let all = u32::try_from(all).ok().and_then(|all| Stitches::new(all).ok());
    *sum = all.ok_or(too_many)?;
    Ok(())
}

pub(super) fn sound(name: &Name) -> Result<(), Fault> {
    if name.is_sound() {
        return Ok(());
    }
    Err(Fault::NoName { name: name.as_str().chars().take(20).collect() })
}

fn remark(text: &str) -> Result<(), Fault> {
    if text.trim().is_empty() || text.chars().any(char::is_control) {
        return Err(Fault::Remark);
    }
    Ok(())
}

fn off_bed(bed: Bed, first: i64, last: i64) -> Fault {
    let needles = i64::from(bed.needles());
    let stitches = last - first + 1;
    // A piece off the centre can leave the bed although it is narrow enough.
    let (left, right) = (i64::from(bed.left()), i64::from(bed.right()));
    let over = (stitches - needles).max(-first - left).max(last + 1 - right);
    Fault::OffBed {
        first: Needle::at(first),
        last: Needle::at(last),
        stitches: stitches.unsigned_abs(),
        bed: bed.needles(),
        over: over.unsigned_abs(),
    }
}
