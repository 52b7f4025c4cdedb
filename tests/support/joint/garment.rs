//! Sketches shaped like garments: a drop-shoulder pullover of 24 counts, cut short,
//! repeated as pieces of one garment, or graded over sizes.

use super::random::Random;
use super::sketch::{Count, Demand, Measure, PARTS, Sketch};

/// Counts of one pullover.
pub const PIECES: usize = 24;

// The counts, by their places in one pullover.
const BACK_HEM: usize = 0;
const BACK: usize = 1;
const BACK_SHOULDER: usize = 2;
const BACK_OTHER_SHOULDER: usize = 3;
const BACK_NECK: usize = 4;
const FRONT: usize = 5;
const BACK_ROWS: usize = 6;
const BACK_ARMHOLE: usize = 7;
const FRONT_HEM: usize = 8;
const FRONT_SHOULDER: usize = 9;
const FRONT_OTHER_SHOULDER: usize = 10;
const FRONT_NECK: usize = 11;
const FRONT_ROWS: usize = 12;
const FRONT_ARMHOLE: usize = 13;
const NECK_DEPTH: usize = 14;
const CUFF: usize = 15;
const SLEEVE_TOP: usize = 16;
const SLEEVE_ROWS: usize = 17;
const SLEEVE_INCREASES: usize = 18;
const NECKBAND: usize = 19;
const NECK_PICKED_UP: usize = 20;
const HEM_ROWS: usize = 21;
const CUFF_ROWS: usize = 22;
const UNDERARM: usize = 23;

/// Where each count comes from: millimetres, and whether it counts stitches.
const MEASURES: [(i64, bool); PIECES] = [
    (520, true),
    (520, true),
    (125, true),
    (125, true),
    (190, true),
    (525, true),
    (340, false),
    (220, false),
    (525, true),
    (125, true),
    (125, true),
    (195, true),
    (340, false),
    (220, false),
    (80, false),
    (220, true),
    (440, true),
    (430, false),
    (110, true),
    (560, true),
    (90, true),
    (60, false),
    (60, false),
    (40, true),
];

/// The first `count` counts of as many pullovers as that takes, knitted to one gauge
/// and tied to the first by their ribs, cuffs and back widths.
#[must_use]
pub fn garment(random: &mut Random, count: usize) -> Sketch {
    let mut sketch = Sketch::default();
    let gauge = Gauge::any(random);
    let mut wishes = Wishes::any(random);
    for block in 0..count.div_ceil(PIECES) {
        let larger = i64::try_from(block).unwrap() * 20;
        pullover(&mut sketch, &wishes, &gauge, larger, block * PIECES);
        wishes = Wishes::any(random);
        if block > 0 {
            tie(&mut sketch, block * PIECES);
        }
    }
    sketch.counts.truncate(count);
    sketch.demands.retain(|demand| demand.places().iter().all(|&place| place < count));
    sketch
}

/// The same with a gauge to every count, the ribs' their own, and ten measures to every
/// pullover.
#[must_use]
pub fn measured(random: &mut Random, count: usize) -> Sketch {
    let mut sketch = garment(random, count);
    measure(&mut sketch, random);
    sketch
}

/// Gives every count of pullovers a gauge, and the pullovers their measures.
pub fn measure(sketch: &mut Sketch, random: &mut Random) {
    let gauge = Gauge::any(random);
    let rib = Gauge { stitches: gauge.stitches * 9 / 8, rows: gauge.rows * 9 / 8 };
    for (place, count) in sketch.counts.iter_mut().enumerate() {
        let piece = place % PIECES;
        let gauge = if matches!(piece, HEM_ROWS | CUFF_ROWS | NECKBAND) { &rib } else { &gauge };
        let density = if MEASURES[piece].1 { gauge.stitches } else { gauge.rows };
        count.size = Some((1_000, density));
    }
    for first in (0..sketch.counts.len()).step_by(PIECES) {
        for (terms, weight) in taped() {
            let terms: Vec<(i64, usize)> =
                terms.iter().map(|&(times, place)| (times, place + first)).collect();
            if terms.iter().any(|term| term.1 >= sketch.counts.len()) {
                continue;
            }
            let wished = terms.iter().map(|&(times, place)| {
                let (numer, denom) = sketch.counts[place].size.unwrap();
                times * sketch.counts[place].ideal * numer / denom
            });
            let wanted = wished.sum::<i64>() + random.within(-300, 300);
            sketch.measures.push(Measure { terms, wanted, weight, tolerance: None });
        }
    }
}

/// What a tape measures on one pullover, and how much it matters.
fn taped() -> Vec<(Vec<(i64, usize)>, i64)> {
    vec![
        (vec![(1, BACK), (1, FRONT)], 8),
        (vec![(1, BACK_HEM), (1, FRONT_HEM)], 4),
        (vec![(1, HEM_ROWS), (1, BACK_ROWS), (1, BACK_ARMHOLE)], 6),
        (vec![(1, HEM_ROWS), (1, FRONT_ROWS), (1, FRONT_ARMHOLE)], 6),
        (vec![(1, CUFF_ROWS), (1, SLEEVE_ROWS)], 6),
        (vec![(1, NECKBAND)], 4),
        (vec![(1, BACK_SHOULDER), (1, BACK_OTHER_SHOULDER), (1, BACK_NECK)], 4),
        (vec![(1, SLEEVE_TOP), (-2, BACK_ARMHOLE)], 5),
        (vec![(1, FRONT_NECK), (2, NECK_DEPTH)], 4),
        (vec![(1, CUFF)], 4),
    ]
}

/// One pullover in `sizes` sizes: no count shrinks from one size to the next, and the
/// ribs are the same in all.
#[must_use]
pub fn graded(random: &mut Random, sizes: usize) -> Sketch {
    let mut sketch = Sketch::default();
    let gauge = Gauge::any(random);
    let (step, wishes) = (random.within(20, 40), Wishes::any(random));
    for size in 0..sizes {
        let larger = i64::try_from(size).unwrap() * step;
        pullover(&mut sketch, &wishes, &gauge, larger, size * PIECES);
        if size > 0 {
            sketch.demands.push(equal(size * PIECES + HEM_ROWS, HEM_ROWS));
        }
    }
    for piece in 0..PIECES {
        let chain = (0..sizes).map(|size| size * PIECES + piece).collect();
        sketch.demands.push(Demand::Ordered(chain));
    }
    sketch
}

/// Stitches and rows in a decimetre, in tenths.
struct Gauge {
    stitches: i64,
    rows: i64,
}

impl Gauge {
    fn any(random: &mut Random) -> Self {
        let stitches = random.within(180, 340);
        Self { stitches, rows: stitches * random.within(125, 150) / 100 }
    }

    /// The ideal count of a length, in sixtieths.
    fn count(&self, millimetres: i64, across: bool) -> i64 {
        let density = if across { self.stitches } else { self.rows };
        millimetres * density * PARTS / 1_000
    }
}

/// The same with every size measured apart, so that many a count would shrink from one
/// size to the next and the sizes hang together.
#[must_use]
pub fn uneven(random: &mut Random, sizes: usize) -> Sketch {
    let mut sketch = graded(random, sizes);
    for count in &mut sketch.counts {
        count.ideal = (count.ideal + random.within(-90, 90)).max(0);
    }
    sketch
}

/// What one designer wants: how far each measure is from the usual, what each count
/// weighs, and how the sleeve and the neck are picked up.
struct Wishes {
    counts: Vec<(i64, i64)>,
    pick_up: i64,
}

impl Wishes {
    fn any(random: &mut Random) -> Self {
        let counts = (0..PIECES).map(|_| (random.within(-4, 4), random.within(1, 3))).collect();
        Self { counts, pick_up: random.within(0, 6) }
    }
}

/// A pullover whose measures, larger in proportion by so many millimetres in half a
/// metre, are in whole millimetres, as a table of sizes has them.
fn pullover(sketch: &mut Sketch, wishes: &Wishes, gauge: &Gauge, larger: i64, first: usize) {
    for (place, (&(measure, across), &(more, weight))) in
        MEASURES.iter().zip(&wishes.counts).enumerate()
    {
        let grown = measure + larger * measure / 500 + more;
        let mut count = Count::near(gauge.count(grown, across));
        count.weight = weight;
        count.repeat = match place {
            NECKBAND => Some((4, 0)),
            CUFF | HEM_ROWS | CUFF_ROWS => Some((2, 0)),
            BACK_HEM | FRONT_HEM => Some((4, 2)),
            _ => None,
        };
        let ideal = u32::try_from(count.ideal / PARTS).unwrap();
        count.low = ideal / 2;
        count.high = ideal * 2 + 10;
        sketch.counts.push(count);
    }
    let demands = demands(wishes.pick_up).into_iter().map(|demand| demand.moved(first));
    sketch.demands.extend(demands);
}

fn demands(pick_up: i64) -> Vec<Demand> {
    let across = |whole, parts: [usize; 3]| {
        let parts = parts.into_iter().map(|part| (1, part));
        let terms = parts.chain([(2, UNDERARM), (-1, whole)]).collect();
        Demand::Sum(terms, 0, 0)
    };
    vec![
        equal(BACK_HEM, BACK),
        Demand::Sum(vec![(1, FRONT), (-1, FRONT_HEM)], 0, 2),
        across(BACK, [BACK_SHOULDER, BACK_OTHER_SHOULDER, BACK_NECK]),
        across(FRONT, [FRONT_SHOULDER, FRONT_OTHER_SHOULDER, FRONT_NECK]),
        equal(BACK_SHOULDER, BACK_OTHER_SHOULDER),
        equal(FRONT_SHOULDER, FRONT_OTHER_SHOULDER),
        equal(BACK_SHOULDER, FRONT_OTHER_SHOULDER),
        equal(BACK_ROWS, FRONT_ROWS),
        equal(BACK_ARMHOLE, FRONT_ARMHOLE),
        Demand::Sum(vec![(1, SLEEVE_TOP), (-1, CUFF), (-2, SLEEVE_INCREASES)], 0, 0),
        Demand::Ratio(SLEEVE_TOP, BACK_ARMHOLE, (3, 2), 3 + pick_up),
        Demand::Ratio(NECK_PICKED_UP, NECK_DEPTH, (3, 4), 4 + pick_up),
        Demand::Sum(
            vec![(1, NECKBAND), (-1, BACK_NECK), (-1, FRONT_NECK), (-2, NECK_PICKED_UP)],
            0,
            0,
        ),
        Demand::Parity(vec![CUFF, SLEEVE_TOP]),
        Demand::Parity(vec![BACK_NECK, FRONT_NECK]),
        equal(HEM_ROWS, CUFF_ROWS),
        Demand::Ordered(vec![BACK, FRONT]),
        Demand::Ordered(vec![BACK_NECK, FRONT_NECK]),
        Demand::Ordered(vec![CUFF_ROWS, NECK_DEPTH, BACK_ARMHOLE, BACK_ROWS]),
        Demand::Ordered(vec![CUFF, SLEEVE_ROWS]),
    ]
}

/// The pullover from `first` on, and the first of all.
fn tie(sketch: &mut Sketch, first: usize) {
    sketch.demands.push(equal(first + HEM_ROWS, HEM_ROWS));
    sketch.demands.push(Demand::Ordered(vec![CUFF, first + CUFF]));
    sketch.demands.push(Demand::Ordered(vec![BACK, first + BACK]));
    sketch.demands.push(Demand::Parity(vec![BACK_NECK, first + BACK_NECK]));
}

fn equal(one: usize, other: usize) -> Demand {
    Demand::Sum(vec![(1, one), (-1, other)], 0, 0)
}

/// A garment that cannot be: its front, made of its parts, is to be three stitches
/// more than those parts.
#[must_use]
pub fn impossible(random: &mut Random, count: usize) -> Sketch {
    let mut sketch = garment(random, count);
    let terms = vec![(1, FRONT), (-1, FRONT_NECK), (-2, FRONT_SHOULDER), (-2, UNDERARM)];
    sketch.demands.push(Demand::Sum(terms, 3, 3));
    sketch
}

/// Leaves one count in four little room round a place of its own, which may be too
/// little for the demands.
pub fn tighten(sketch: &mut Sketch, random: &mut Random) {
    for count in &mut sketch.counts {
        if random.within(0, 3) == 0 {
            let middle = count.ideal / PARTS + random.within(-4, 4);
            count.low = u32::try_from((middle - 2).max(0)).unwrap();
            count.high = u32::try_from(middle + 2).unwrap();
        }
    }
}
