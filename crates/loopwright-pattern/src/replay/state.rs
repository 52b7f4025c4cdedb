//! The bed, the carriage, the row counter and the record, and which step does what.

use super::part::Part;
use crate::error::Fault;
use crate::{Bed, Craft, Entry, Fabric, Knitted, Needle, Side, Step};

pub(super) struct State {
    bed: Option<Bed>,
    pub(super) carriage: Side,
    pub(super) part: Option<Part>,
    pub(super) aside: Vec<Part>,
    pub(super) begun: bool,
    pub(super) knitted: Knitted,
}

impl State {
    pub(super) fn new(name: &str, craft: Craft) -> Self {
        let bed = match craft {
            Craft::Machine(bed) => Some(bed),
            Craft::Hand => None,
        };
        let knitted = Knitted {
            name: name.into(),
            craft,
            log: Vec::new(),
            edges: Vec::new(),
            loops: Vec::new(),
            cast_on: 0,
            bound_off: 0,
            live: 0,
            widest: 0,
            rows: 0,
        };
        Self { bed, carriage: Side::Right, part: None, aside: Vec::new(), begun: false, knitted }
    }

    pub(super) fn row(&self) -> u32 {
        self.part.as_ref().map_or(0, |part| part.row)
    }

    /// Does one step and writes it in the log.
    pub(super) fn take(&mut self, step: &Step) -> Result<(), Fault> {
        let row_before = self.row();
        self.apply(step)?;
        self.measure()?;
        let part = self.part.as_ref();
        self.knitted.log.push(Entry {
            step: step.clone(),
            fabric: part.map_or(Fabric::Plain, |part| part.fabric),
            row_before,
            row: part.map_or(0, |part| part.row),
            carriage: self.carriage,
            stitches: part.map_or(0, Part::len),
            held: part.map_or(0, Part::held),
            needles: part
                .filter(|part| part.len() > 0)
                .map(|part| (Needle::at(part.first), Needle::at(part.last()))),
            edges: part.map(|part| (part.left_edge, part.right_edge)),
        });
        Ok(())
    }

    pub(super) fn finish(&self) -> Result<(), Fault> {
        let on = |part: &Part| part.loops.len();
        let left = self.part.as_ref().map_or(0, on) + self.aside.iter().map(on).sum::<usize>();
        match (self.begun, left) {
            (false, _) => Err(Fault::NothingOn),
            (true, 0) => Ok(()),
            (true, left) => Err(Fault::LeftOver { left }),
        }
    }

    fn apply(&mut self, step: &Step) -> Result<(), Fault> {
        match step {
            Step::CastOn { stitches, how, fabric, carriage, edge } => {
                self.cast_on(*stitches, how, *fabric, *carriage, edge)
            }
            Step::Knit(rows) => self.knit(rows.get()),
            Step::ChangeFabric(fabric) => {
                self.working("a change of fabric")?.fabric = *fabric;
                Ok(())
            }
            Step::ResetCounter => {
                self.working("the row counter")?.row = 0;
                Ok(())
            }
            Step::Shape(shape) => self.shape(*shape),
            Step::BindOff { stitches, edge } => self.bind_off(stitches.get(), edge.as_deref()),
            Step::Extend(stitches) => self.extend(stitches.get()),
            Step::Hold { side, stitches } => self.hold(*side, stitches.get()),
            Step::Return => {
                let part = self.working("a return")?;
                part.loops.iter_mut().for_each(|on| on.held = false);
                Ok(())
            }
            Step::NameEdge { side, edge } => self.name_edge(*side, edge),
            Step::SetAside { side, stitches, part, its_edge, edge } => {
                self.set_aside(*side, stitches.get(), part, its_edge, edge)
            }
            Step::Resume { part, carriage } => self.resume(part, *carriage),
            Step::TakeOff { side, stitches, edge } => self.take_off(*side, stitches.get(), edge),
            Step::BindOffAll { edge } => self.bind_off_all(edge),
        }
    }

    pub(super) fn working(&mut self, what: &'static str) -> Result<&mut Part, Fault> {
        match &mut self.part {
            Some(part) if part.len() > 0 => Ok(part),
            _ => Err(Fault::NoStitches { what }),
        }
    }

    /// Notes the widest point and refuses needles off the bed.
    fn measure(&mut self) -> Result<(), Fault> {
        let parts = || self.aside.iter().chain(&self.part).filter(|part| part.len() > 0);
        let Some(first) = parts().map(|part| part.first).min() else { return Ok(()) };
        let last = parts().map(Part::last).max().unwrap_or(first);
        let stitches: u64 = parts().map(|part| u64::from(part.len())).sum();
        self.knitted.widest = self.knitted.widest.max(stitches);
        match self.bed {
            Some(bed) if !bed.holds(first, last) => Err(off_bed(bed, first, last)),
            _ => Ok(()),
        }
    }
}

fn off_bed(bed: Bed, first: i64, last: i64) -> Fault {
    let needles = i64::from(bed.needles());
    let stitches = last - first + 1;
    // A piece off the centre can leave the bed although it is narrow enough.
    let (left, right) = (needles - needles / 2, needles / 2);
    let over = (stitches - needles).max(-first - left).max(last + 1 - right);
    Fault::OffBed {
        first: Needle::at(first),
        last: Needle::at(last),
        stitches: stitches.unsigned_abs(),
        bed: bed.needles(),
        over,
    }
}
