use loopwright::gauge::{Exact, Repeat};
use loopwright::joint;

/// All ideals of a sketch are in this many parts, and so are its tolerances.
pub(super) const PARTS: i64 = 60;

/// One unknown, in plain numbers.
#[derive(Clone, Debug)]
pub struct Count {
    /// The ideal, in sixtieths.
    pub ideal: i64,
    /// What one of deviation costs.
    pub weight: i64,
    /// Whole repeats of the first, at least one, and the second once.
    pub repeat: Option<(u32, u32)>,
    /// The least count.
    pub low: u32,
    /// The greatest count.
    pub high: u32,
}

/// One demand, over places of unknowns.
#[derive(Clone, Debug)]
pub enum Demand {
    /// The sum lies between the two.
    Sum(Vec<(i64, usize)>, i64, i64),
    /// Above over below is the ratio, give or take so many sixtieths.
    Ratio(usize, usize, (i64, i64), i64),
    /// Each at least the one before.
    Ordered(Vec<usize>),
    /// All even or all odd.
    Parity(Vec<usize>),
}

/// A joint rounding in plain numbers.
#[derive(Clone, Debug, Default)]
pub struct Sketch {
    /// The unknowns.
    pub counts: Vec<Count>,
    /// The demands.
    pub demands: Vec<Demand>,
}

impl Count {
    /// A count near `ideal` sixtieths that weighs one.
    #[must_use]
    pub fn near(ideal: i64) -> Self {
        Self { ideal, weight: 1, repeat: None, low: 0, high: 100_000 }
    }

    /// The counts it may take: from the definition of a repeat.
    pub fn allowed(&self) -> impl Iterator<Item = u32> + '_ {
        (self.low..=self.high).filter(|&count| match self.repeat {
            None => true,
            Some((multiple, extra)) => (1..=count).any(|k| k * multiple + extra == count),
        })
    }
}

impl Demand {
    /// The places it speaks of.
    #[must_use]
    pub fn places(&self) -> Vec<usize> {
        match self {
            Self::Sum(terms, ..) => terms.iter().map(|term| term.1).collect(),
            Self::Ratio(above, below, ..) => vec![*above, *below],
            Self::Ordered(places) | Self::Parity(places) => places.clone(),
        }
    }

    /// The same demand of unknowns `by` places further on.
    #[must_use]
    pub fn moved(self, by: usize) -> Self {
        let all = |places: Vec<usize>| places.into_iter().map(|place| place + by).collect();
        match self {
            Self::Sum(terms, low, high) => {
                Self::Sum(terms.into_iter().map(|(n, place)| (n, place + by)).collect(), low, high)
            }
            Self::Ratio(above, below, ratio, tolerance) => {
                Self::Ratio(above + by, below + by, ratio, tolerance)
            }
            Self::Ordered(places) => Self::Ordered(all(places)),
            Self::Parity(places) => Self::Parity(all(places)),
        }
    }

    /// By how much `counts` miss it, in stitches or rows; parity is missed by one or
    /// not at all.
    #[must_use]
    pub fn missed(&self, counts: &[u32]) -> i64 {
        let at = |place: usize| i64::from(counts[place]);
        match self {
            Self::Sum(terms, low, high) => {
                let sum: i64 = terms.iter().map(|&(times, place)| times * at(place)).sum();
                (low - sum).max(sum - high).max(0)
            }
            // a/b in r-t..=r+t, so a misses (r-t)*b or (r+t)*b by whole stitches, up.
            Self::Ratio(above, below, (numer, denom), tolerance) => {
                let scale = denom * PARTS;
                let least = (numer * PARTS - tolerance * denom) * at(*below);
                let most = (numer * PARTS + tolerance * denom) * at(*below);
                let above = at(*above) * scale;
                let missed = (least - above).max(above - most).max(0);
                (missed + scale - 1) / scale
            }
            Self::Ordered(places) => {
                places.windows(2).map(|pair| at(pair[0]) - at(pair[1])).max().unwrap_or(0).max(0)
            }
            Self::Parity(places) => {
                i64::from(places.iter().any(|&place| (at(place) + at(places[0])) % 2 != 0))
            }
        }
    }
}

/// The name of the unknown at `place`.
#[must_use]
pub(super) fn name(place: usize) -> String {
    format!("count {place}")
}

impl Sketch {
    /// The same problem for the library; demands are called `demand 0` and so on.
    #[must_use]
    pub fn problem(&self) -> joint::Problem {
        let mut problem = joint::Problem::new();
        for (place, count) in self.counts.iter().enumerate() {
            problem.unknown(name(place), unknown(count)).unwrap();
        }
        for (place, demand) in self.demands.iter().enumerate() {
            problem.demand(format!("demand {place}"), built(demand)).unwrap();
        }
        problem
    }
}

fn unknown(count: &Count) -> joint::Unknown {
    let repeat = count.repeat.map_or(Repeat::any(), |(multiple, extra)| {
        Repeat::multiple_of(multiple).unwrap().plus(extra).unwrap()
    });
    joint::Unknown::near(Exact::new(count.ideal, PARTS).unwrap())
        .weight(count.weight.try_into().expect("a weight"))
        .repeat(repeat)
        .range(count.low..=count.high)
}

fn built(demand: &Demand) -> joint::Demand {
    let named = |places: &[usize]| places.iter().map(|&place| name(place)).collect::<Vec<_>>();
    match demand {
        Demand::Sum(terms, low, high) => {
            let terms = terms.iter().map(|&(times, place)| (times, name(place)));
            joint::Demand::sum_within(terms, *low..=*high)
        }
        Demand::Ratio(above, below, (numer, denom), tolerance) => joint::Demand::ratio(
            name(*above),
            name(*below),
            Exact::new(*numer, *denom).unwrap(),
            Exact::new(*tolerance, PARTS).unwrap(),
        ),
        Demand::Ordered(places) => joint::Demand::ordered(named(places)),
        Demand::Parity(places) => joint::Demand::same_parity(named(places)),
    }
}
