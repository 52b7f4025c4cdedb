//! Where each yarn's end hangs.

use super::part::Part;
use super::state::{State, sound};
use crate::error::Fault;
use crate::{Hanging, MAIN_YARN, Name, Needle, Side};
use alloc::vec::Vec;

pub(super) struct Yarn {
    name: Name,
    /// The place of the stitch it hangs at, and the side of it.
    hangs: Option<(i64, Side)>,
}

/// Every yarn met so far; one of them is being knitted.
pub(super) struct Yarns {
    all: Vec<Yarn>,
    now: usize,
    ends: u32,
}

/// What to do where the row would begin beyond the yarn, and where it would begin inside.
const RETURN: &str =
    "return first the side that the carriage travels to, or cut the yarn and join it there";
const NEAR_SIDE: &str =
    "work first the side where the yarn hangs, or cut the yarn and join it there";

impl Yarns {
    pub(super) fn new() -> Self {
        Self { all: [Yarn { name: MAIN_YARN, hangs: None }].into(), now: 0, ends: 0 }
    }

    pub(super) fn name(&self) -> &Name {
        self.all.get(self.now).map_or(&MAIN, |yarn| &yarn.name)
    }

    fn hangs(&self) -> Option<(i64, Side)> {
        self.all.get(self.now).and_then(|yarn| yarn.hangs)
    }

    pub(super) fn hanging(&self) -> Hanging {
        self.hangs()
            .map_or(Hanging::Cut, |(place, side)| Hanging::At { needle: Needle::at(place), side })
    }

    /// The yarn hangs at this place from now on.
    pub(super) fn put(&mut self, place: i64, side: Side) {
        if let Some(yarn) = self.all.get_mut(self.now) {
            yarn.hangs = Some((place, side));
        }
    }

    /// A new end hangs at this place.
    pub(super) fn begin(&mut self, place: i64, side: Side) {
        self.ends = self.ends.saturating_add(1);
        self.put(place, side);
    }

    pub(super) fn cut(&mut self) -> Result<(), Fault> {
        if self.hangs().is_none() {
            return Err(Fault::CutAlready { yarn: self.name().clone() });
        }
        self.fasten_off();
        Ok(())
    }

    /// The yarn is cut, and drawn through the last stitch.
    pub(super) fn fasten_off(&mut self) {
        self.ends = self.ends.saturating_add(1);
        if let Some(yarn) = self.all.get_mut(self.now) {
            yarn.hangs = None;
        }
    }

    /// Every yarn goes where `place` takes it, as stitches move along the needles.
    pub(super) fn follow(&mut self, place: impl Fn(i64) -> i64) {
        for yarn in &mut self.all {
            if let Some((at, _)) = &mut yarn.hangs {
                *at = place(*at);
            }
        }
    }

    /// The ends of the work meet: what hangs at either hangs at the right from now on.
    pub(super) fn close(&mut self, left: i64, right: i64) {
        for yarn in &mut self.all {
            if let Some(hangs) = yarn.hangs.as_mut().filter(|(at, _)| *at == left || *at == right) {
                *hangs = (right, Side::Right);
            }
        }
    }

    /// The ends of a finished piece, whose yarns are all cut.
    pub(super) fn ends(&self) -> Result<u32, Fault> {
        let left = self.all.iter().find_map(|yarn| Some((yarn, yarn.hangs?)));
        match left {
            None => Ok(self.ends),
            Some((yarn, (at, _))) => {
                Err(Fault::YarnLeft { yarn: yarn.name.clone(), at: Needle::at(at) })
            }
        }
    }
}

static MAIN: Name = MAIN_YARN;

impl State {
    /// The side where the yarn hangs, which is where `what` begins: at the stitch it
    /// hangs at or the next.
    pub(super) fn begin_at_yarn(&self, what: &'static str) -> Result<Side, Fault> {
        let Some((from, side)) = self.yarns.hangs() else {
            return Err(Fault::NoYarn { yarn: self.yarns.name().clone(), what });
        };
        let part = self.part.as_ref().filter(|part| part.working() > 0);
        let to = part.ok_or(Fault::NoStitches { what })?.end(side);
        let float = to.abs_diff(from);
        if float <= 1 {
            return Ok(side);
        }
        let outwards = (to > from) == (side == Side::Right);
        let remedy = if outwards { RETURN } else { NEAR_SIDE };
        let (from, to) = (Needle::at(from), Needle::at(to));
        Err(Fault::Float { from, to, float, what, remedy })
    }

    /// The side where the yarn hangs, if it is not cut.
    pub(super) fn yarn_side(&self) -> Option<Side> {
        self.yarns.hangs().map(|(_, side)| side)
    }

    pub(super) fn join(&mut self, side: Side) -> Result<(), Fault> {
        let part = self.part.as_ref().filter(|part| part.working() > 0);
        let place = part.ok_or(Fault::NoStitches { what: "a yarn" })?.end(side);
        if let Some((at, _)) = self.yarns.hangs() {
            return Err(Fault::NotCut { yarn: self.yarns.name().clone(), at: Needle::at(at) });
        }
        self.yarns.begin(place, side);
        self.carriage = side;
        Ok(())
    }

    pub(super) fn change_yarn(&mut self, name: &Name) -> Result<(), Fault> {
        sound(name)?;
        if self.yarns.name() == name {
            return Err(Fault::SameYarn { yarn: name.clone() });
        }
        let known = self.yarns.all.iter().position(|yarn| yarn.name == *name);
        self.yarns.now = known.unwrap_or_else(|| {
            self.yarns.all.push(Yarn { name: name.clone(), hangs: None });
            self.yarns.all.len() - 1
        });
        self.carriage = self.yarn_side().unwrap_or(self.carriage);
        Ok(())
    }

    /// Moves the working stitches' end at a side, and every yarn that hangs there, or at a
    /// stitch that is lost.
    pub(super) fn move_end(&mut self, side: Side, change: impl FnOnce(&mut Part)) {
        let Some(part) = &mut self.part else { return };
        let before = part.end(side);
        change(part);
        let after = part.end(side);
        self.yarns.follow(|place| {
            let lost = match side {
                Side::Left => before <= place && place < after,
                Side::Right => after < place && place <= before,
            };
            if lost || place == before { after } else { place }
        });
    }
}
