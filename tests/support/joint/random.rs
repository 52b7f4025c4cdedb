//! Small random sketches, about half of them impossible, and garment-like ones.

use super::sketch::{Count, Demand, Measure, PARTS, Sketch, length};

/// Numbers that look random and are the same in every run (`SplitMix64`).
#[derive(Clone, Debug)]
pub struct Random(pub u64);

impl Random {
    /// The next 64 bits.
    pub fn draw(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// A number in `low..=high`.
    pub fn within(&mut self, low: i64, high: i64) -> i64 {
        let span = u64::try_from(high - low + 1).unwrap();
        low + i64::try_from(self.draw() % span).unwrap()
    }

    fn place(&mut self, count: usize) -> usize {
        usize::try_from(self.within(0, i64::try_from(count).unwrap() - 1)).unwrap()
    }

    fn small(&mut self, low: i64, high: i64) -> u32 {
        u32::try_from(self.within(low, high)).unwrap()
    }

    /// `wanted` different places below `count`, or all.
    fn places(&mut self, count: usize, wanted: usize) -> Vec<usize> {
        let mut places: Vec<usize> = (0..count).collect();
        for place in 0..count {
            let other = place + self.place(count - place);
            places.swap(place, other);
        }
        places.truncate(wanted);
        places
    }
}

/// A sketch small enough for brute force: one of two is made round hidden counts and
/// so is possible, the other need not be.
#[must_use]
pub fn small(random: &mut Random) -> Sketch {
    let count = random.place(4) + 1;
    let mut counts: Vec<Count> = (0..count).map(|_| small_count(random)).collect();
    let measured = random.place(2) == 0;
    if measured {
        for count in &mut counts {
            count.size = Some((random.within(3, 9), [1, 2, 3][random.place(3)]));
            count.hidden = random.small(0, 2);
        }
    }
    let hidden: Vec<u32> = counts.iter().map(|count| one_of(random, count)).collect();
    let possible = random.place(2) == 0;
    let mut demands = Vec::new();
    for _ in 0..random.place(7) {
        let mut demand = small_demand(random, count);
        if let (true, Demand::Sum(terms, low, high)) = (possible, &mut demand) {
            let sum: i64 = terms.iter().map(|&(times, at)| times * i64::from(hidden[at])).sum();
            (*low, *high) = (sum, sum + *high - *low);
        }
        if !possible || demand.missed(&counts, &hidden) == 0 {
            demands.push(demand);
        }
    }
    let mut measures = Vec::new();
    if measured {
        for _ in 0..random.place(4) {
            let measure = small_measure(random, &counts, &hidden);
            if random.place(4) == 0 {
                demands.push(limited(random, measure, possible));
            } else {
                measures.push(measure);
            }
        }
    }
    Sketch { counts, demands, measures }
}

/// A measure that the hidden counts come near to.
fn small_measure(random: &mut Random, counts: &[Count], hidden: &[u32]) -> Measure {
    let wanted = random.place(3) + 1;
    let terms: Vec<(i64, usize)> = random
        .places(counts.len(), wanted)
        .into_iter()
        .map(|place| ([1, 1, 1, 2, -1][random.place(5)], place))
        .collect();
    let off = random.within(-300, 300) * random.within(0, 1);
    let wanted = length(counts, &terms, hidden) + off;
    // Room enough for the hidden counts, or perhaps not.
    let room = [off.abs(), 120][random.place(2)];
    let tolerance = (random.place(4) == 0).then_some(room);
    Measure { terms, wanted, weight: random.within(1, 4), tolerance }
}

/// A measure as a limit, which its own counts hold if it is to be possible.
fn limited(random: &mut Random, measure: Measure, possible: bool) -> Demand {
    let slack = if possible { 300 } else { 0 };
    if random.place(2) == 0 {
        Demand::Lengths(measure.terms, Some(measure.wanted - slack), None)
    } else {
        Demand::Lengths(measure.terms, None, Some(measure.wanted + slack))
    }
}

fn one_of(random: &mut Random, count: &Count) -> u32 {
    let allowed: Vec<u32> = count.allowed().collect();
    allowed[random.place(allowed.len())]
}

fn small_count(random: &mut Random) -> Count {
    loop {
        let low = random.small(0, 12);
        // Halves and thirds make ties; the ideal may lie outside the range.
        let ideal = random.within(0, 20) * PARTS + [0, 0, 30, 20, 40, 7][random.place(6)];
        let repeat = (random.place(3) == 0).then(|| (random.small(1, 4), random.small(0, 3)));
        let weight = random.within(1, 3);
        let high = low + random.small(0, 7);
        let count = Count { weight, repeat, low, high, ..Count::near(ideal) };
        if count.allowed().next().is_some() {
            return count;
        }
    }
}

fn small_demand(random: &mut Random, count: usize) -> Demand {
    let kind = if count == 1 { 0 } else { random.place(8) };
    match kind {
        0 | 1 => {
            let wanted = random.place(4) + 1;
            let places = random.places(count, wanted);
            let terms = places.into_iter().map(|place| (times(random), place)).collect();
            let low = random.within(-20, 40);
            let room = random.within(0, 3) * random.within(0, 1);
            Demand::Sum(terms, low, low + room)
        }
        2 | 3 => {
            let places = random.places(count, 2);
            let offset = random.within(-3, 3);
            Demand::Sum(vec![(1, places[0]), (-1, places[1])], offset, offset)
        }
        4 => {
            let places = random.places(count, 2);
            let ratio = (random.within(1, 4), random.within(1, 4));
            Demand::Ratio(places[0], places[1], ratio, random.within(0, 20))
        }
        5 => {
            let wanted = random.place(3) + 2;
            Demand::Ordered(random.places(count, wanted))
        }
        6 => {
            let wanted = random.place(3) + 2;
            Demand::Parity(random.places(count, wanted))
        }
        _ => {
            // A whole and its parts.
            let places = random.places(count, 3);
            let parts = places.iter().enumerate();
            let terms = parts.map(|(at, &place)| (if at == 0 { -1 } else { 1 }, place)).collect();
            Demand::Sum(terms, 0, 0)
        }
    }
}

fn times(random: &mut Random) -> i64 {
    [1, 1, 1, -1, -1, 2, -2, 3, -4][random.place(9)]
}

/// Counts all tied to one another by sums with odd coefficients: nothing like a
/// garment, and hard for tables.
#[must_use]
pub fn dense(random: &mut Random, count: usize, sums: usize) -> Sketch {
    let counts: Vec<Count> = (0..count)
        .map(|_| {
            let mut near = Count::near(random.within(20, 60) * PARTS + random.within(0, 59));
            near.weight = random.within(1, 3);
            near
        })
        .collect();
    let hidden: Vec<i64> =
        counts.iter().map(|count| count.ideal / PARTS + random.within(-2, 2)).collect();
    let mut demands = Vec::new();
    for _ in 0..sums {
        let places = random.places(count, 6);
        let terms: Vec<(i64, usize)> =
            places.into_iter().map(|place| (random.within(1, 5), place)).collect();
        let total = terms.iter().map(|&(times, place)| times * hidden[place]).sum();
        demands.push(Demand::Sum(terms, total, total));
    }
    Sketch { counts, demands, measures: Vec::new() }
}
