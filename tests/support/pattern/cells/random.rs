//! Pieces at random, as a careless knitter would write them down.

use super::Bench;
use loopwright::gauge::{Rows, Stitches};
use loopwright::pattern::{
    Along, Bed, BindOff, CastOn, Craft, Direction, Fabric, Hang, Name, Needle, PickUp, Piece,
    Shape, ShapeRow, Side, Sides, Step, Technique,
};

/// Numbers that are always the same for one seed.
#[derive(Debug)]
pub struct Dice(u64);

impl Dice {
    /// Dice that begin with a seed.
    #[must_use]
    pub const fn new(seed: u64) -> Self {
        Self(seed)
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// A number below `below`.
    pub fn roll(&mut self, below: u32) -> u32 {
        u32::try_from(self.next() % u64::from(below.max(1))).unwrap()
    }

    fn side(&mut self) -> Side {
        if self.roll(2) == 0 { Side::Left } else { Side::Right }
    }

    fn stitches(&mut self, below: u32) -> Stitches {
        Stitches::new(self.roll(below)).unwrap()
    }

    fn name(&mut self, what: &str) -> Name {
        Name::from(format!("{what} {}", self.roll(12)))
    }
}

/// A piece of at most so many steps. What stands in the way of a step is left out most of
/// the time, so that pieces grow; the others end there.
pub fn piece(dice: &mut Dice, most: usize) -> Piece {
    let craft = match dice.roll(2) {
        0 => Craft::Hand,
        _ => Craft::Machine(Bed::of_needles(20 + dice.roll(30)).unwrap()),
    };
    let mut piece = Piece::new("piece", craft).unwrap();
    let mut bench = Bench::new(craft);
    let careless = dice.roll(3) == 0;
    for at in 0..most {
        let step = if at == 0 && dice.roll(50) > 0 { cast_on(dice) } else { step(dice, &bench) };
        let mut tried = bench.clone();
        let done = tried.step(&step);
        if done.is_err() && !(careless && dice.roll(6) == 0) {
            continue;
        }
        piece.push(step);
        if done.is_err() {
            return piece;
        }
        bench = tried;
    }
    if !careless || dice.roll(2) == 0 {
        finish(&mut piece, &mut bench);
    }
    piece
}

/// What it takes to be done.
fn finish(piece: &mut Piece, bench: &mut Bench) {
    let mut push = |bench: &mut Bench, step: Step| {
        let done = bench.step(&step);
        if done.is_ok() {
            piece.push(step);
        }
        done
    };
    let parts: Vec<String> = bench.aside.iter().map(|strip| strip.name.clone()).collect();
    let parts = [None].into_iter().chain(parts.into_iter().map(Some));
    for (number, part) in parts.enumerate() {
        if let Some(part) = part {
            let _ = push(bench, Step::Resume { part: part.into() });
        }
        let left = bench.strip().map_or(0, |strip| strip.cells.len());
        let (side, edge) = (Side::Left, Name::from(format!("end {number}")));
        if left > 0 {
            let stitches = Stitches::new(u32::try_from(left).unwrap()).unwrap();
            let _ = push(bench, Step::TakeOff { side, stitches, edge });
        }
    }
    let yarns: Vec<String> = bench.yarns.keys().cloned().collect();
    for yarn in yarns {
        if yarn != bench.yarn && bench.yarns[&yarn].at.is_some() {
            let _ = push(bench, Step::ChangeYarn(yarn.into()));
        }
        if bench.hangs().is_some() {
            let _ = push(bench, Step::Cut);
        }
    }
}

fn cast_on(dice: &mut Dice) -> Step {
    let count = dice.roll(24);
    let stitches = Stitches::new(count).unwrap();
    let needle = (dice.roll(4) == 0).then(|| Needle::at(i64::from(dice.roll(30)) - 20));
    let how = match dice.roll(6) {
        0 => CastOn::WasteYarn,
        1 => CastOn::PickedUp { from: vec![PickUp::one_for_one("other", "edge", stitches)] },
        _ => CastOn::Closed,
    };
    let (fabric, carriage, edge) = (Fabric::Plain, dice.side(), "begin".into());
    Step::CastOn { stitches, how, fabric, carriage, edge, needle }
}

fn step(dice: &mut Dice, bench: &Bench) -> Step {
    match dice.roll(40) {
        0..10 => Step::Knit(Rows::new(dice.roll(5)).unwrap()),
        10..14 => shape(dice),
        14..17 => shape_row(dice, bench),
        17..20 => Step::Hold { side: dice.side(), stitches: dice.stitches(5) },
        20 => Step::Return,
        21..24 => Step::ReturnSome { side: dice.side(), stitches: dice.stitches(4) },
        24..26 => {
            let edge = (dice.roll(2) == 0).then(|| dice.name("shoulder"));
            Step::BindOff { stitches: dice.stitches(6), how: BindOff::Plain, edge }
        }
        26 => Step::Extend(dice.stitches(5)),
        27 => Step::NameEdge { side: dice.side(), edge: dice.name("edge") },
        28 => Step::SetAside {
            side: dice.side(),
            stitches: dice.stitches(12),
            part: dice.name("part"),
            its_edge: dice.name("inner"),
            edge: dice.name("outer"),
        },
        29 => Step::TakeOff {
            side: dice.side(),
            stitches: dice.stitches(12),
            edge: dice.name("live"),
        },
        30 => Step::Resume { part: part(dice, bench) },
        31 => Step::Rejoin { part: part(dice, bench), side: dice.side() },
        32 => Step::Cut,
        33 | 34 => Step::Join { side: dice.side() },
        35 => Step::ChangeYarn(dice.name("yarn")),
        36 => hang(dice),
        37 => Step::JoinRound,
        38 => Step::Divide { left: dice.name("left"), right: dice.name("right") },
        _ => match dice.roll(4) {
            0 => Step::BindOffAll { how: BindOff::Plain, edge: dice.name("top") },
            1 => Step::ChangeFabric(Fabric::Garter),
            2 => Step::ResetCounter,
            _ => cast_on(dice),
        },
    }
}

/// A part that waits, or one that does not.
fn part(dice: &mut Dice, bench: &Bench) -> Name {
    let strip = bench.aside.first().filter(|_| dice.roll(4) > 0);
    strip.map_or_else(|| dice.name("part"), |strip| strip.name.clone().into())
}

fn shape(dice: &mut Dice) -> Step {
    let sides = match dice.roll(3) {
        0 => Sides::Both,
        _ => Sides::One(dice.side()),
    };
    let change = if dice.roll(2) == 0 { Direction::Increase } else { Direction::Decrease };
    let inset = dice.stitches(3);
    Step::Shape(Shape::new(change, sides, dice.stitches(4)).inset(inset))
}

fn shape_row(dice: &mut Dice, bench: &Bench) -> Step {
    let width = bench.strip().map_or(0, |strip| strip.in_work(Side::Left).len());
    let width = if dice.roll(8) == 0 { 5 } else { u32::try_from(width).unwrap() };
    let techniques = [
        Technique::IncreaseBetween,
        Technique::IncreaseIn,
        Technique::TwoTogether,
        Technique::ThreeTogether,
    ];
    let technique = techniques[dice.roll(4) as usize];
    let (mut positions, mut at) = (Vec::new(), 0);
    for _ in 0..dice.roll(4) {
        at += 1 + dice.roll(6);
        positions.push(Stitches::new(at).unwrap());
    }
    let stitches = Stitches::new(width).unwrap();
    Step::ShapeRow(ShapeRow { technique, stitches, positions, from: dice.side() })
}

fn hang(dice: &mut Dice) -> Step {
    let mut edge = PickUp::one_for_one("other", "edge", dice.stitches(5));
    edge.along = Along::Backward;
    Step::Hang(Hang { from: vec![edge], side: dice.side(), overlap: dice.stitches(5) })
}
