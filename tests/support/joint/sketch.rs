use loopwright::gauge::{Exact, Gauge, Length, PerLength, Repeat};
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
    /// Millimetres to one, above and below the line; without, its miss is a count.
    pub size: Option<(i64, i64)>,
    /// How many of it add no length.
    pub hidden: u32,
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
    /// The sum of lengths lies between the two, in sixtieths of a millimetre.
    Lengths(Vec<(i64, usize)>, Option<i64>, Option<i64>),
}

/// One measure, over places of counts that have a size.
#[derive(Clone, Debug)]
pub struct Measure {
    /// How often each count's length is in it.
    pub terms: Vec<(i64, usize)>,
    /// The length wanted, in sixtieths of a millimetre.
    pub wanted: i64,
    /// What one of miss costs.
    pub weight: i64,
    /// How far it may miss, in sixtieths of a millimetre.
    pub tolerance: Option<i64>,
}

/// A joint rounding in plain numbers.
#[derive(Clone, Debug, Default)]
pub struct Sketch {
    /// The unknowns.
    pub counts: Vec<Count>,
    /// The demands.
    pub demands: Vec<Demand>,
    /// The measures.
    pub measures: Vec<Measure>,
}

impl Count {
    /// A count near `ideal` sixtieths that weighs one.
    #[must_use]
    pub fn near(ideal: i64) -> Self {
        Self { ideal, weight: 1, repeat: None, low: 0, high: 100_000, size: None, hidden: 0 }
    }

    /// Sixtieths of a millimetre to one; a count without a size counts as a millimetre.
    #[must_use]
    pub fn sixtieths(&self) -> i64 {
        let (numer, denom) = self.size.unwrap_or((1, 1));
        assert_eq!(numer * PARTS % denom, 0, "a size in sixtieths");
        numer * PARTS / denom
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
            Self::Sum(terms, ..) | Self::Lengths(terms, ..) => {
                terms.iter().map(|term| term.1).collect()
            }
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
            Self::Lengths(terms, low, high) => {
                Self::Lengths(terms.into_iter().map(|(n, at)| (n, at + by)).collect(), low, high)
            }
            Self::Ratio(above, below, ratio, tolerance) => {
                Self::Ratio(above + by, below + by, ratio, tolerance)
            }
            Self::Ordered(places) => Self::Ordered(all(places)),
            Self::Parity(places) => Self::Parity(all(places)),
        }
    }

    /// By how much the counts `chosen` miss it, in stitches or rows, or in sixtieths of
    /// a millimetre; parity is missed by one or not at all.
    #[must_use]
    pub fn missed(&self, counts: &[Count], chosen: &[u32]) -> i64 {
        let at = |place: usize| i64::from(chosen[place]);
        match self {
            Self::Sum(terms, low, high) => {
                let sum: i64 = terms.iter().map(|&(times, place)| times * at(place)).sum();
                (low - sum).max(sum - high).max(0)
            }
            Self::Lengths(terms, low, high) => {
                let sum = length(counts, terms, chosen);
                let short = low.map_or(0, |low| low - sum);
                short.max(high.map_or(0, |high| sum - high)).max(0)
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

/// The sum of lengths of the counts `chosen`, in sixtieths of a millimetre, which all
/// sizes must be whole numbers of.
#[must_use]
pub(super) fn length(counts: &[Count], terms: &[(i64, usize)], chosen: &[u32]) -> i64 {
    let each = |&(times, place): &(i64, usize)| {
        let count: &Count = &counts[place];
        times * count.sixtieths() * (i64::from(chosen[place]) - i64::from(count.hidden))
    };
    terms.iter().map(each).sum()
}

/// The name of the unknown at `place`.
#[must_use]
pub(super) fn name(place: usize) -> String {
    format!("count {place}")
}

impl Sketch {
    /// The same problem for the library; demands are called `demand 0` and so on, and
    /// measures go on where they end.
    #[must_use]
    pub fn problem(&self) -> joint::Problem {
        let mut problem = joint::Problem::new();
        for (place, count) in self.counts.iter().enumerate() {
            problem.stitches(name(place), unknown(count)).unwrap();
        }
        for (place, demand) in self.demands.iter().enumerate() {
            problem.demand(format!("demand {place}"), built(demand)).unwrap();
        }
        for (place, measure) in (self.demands.len()..).zip(&self.measures) {
            problem.measure(format!("demand {place}"), taped(measure)).unwrap();
        }
        problem
    }

    /// All that must hold: the demands, and the measures that have a tolerance.
    #[must_use]
    pub fn held(&self) -> Vec<(usize, Demand)> {
        let demands = self.demands.iter().cloned().enumerate();
        let measures = (self.demands.len()..).zip(&self.measures);
        let measures = measures.filter_map(|(place, measure)| {
            let (terms, wanted) = (measure.terms.clone(), measure.wanted);
            let (low, high) = (wanted - measure.tolerance?, wanted + measure.tolerance?);
            Some((place, Demand::Lengths(terms, Some(low), Some(high))))
        });
        demands.chain(measures).collect()
    }
}

/// So many sixtieths of a millimetre.
pub(super) fn sixtieths(n: i64) -> Length {
    Length::from_millimetres(Exact::new(n, PARTS).unwrap()).unwrap()
}

fn unknown(count: &Count) -> joint::Unknown {
    let repeat = count.repeat.map_or(Repeat::any(), |(multiple, extra)| {
        Repeat::multiple_of(multiple).unwrap().plus(extra).unwrap()
    });
    let unknown = joint::Unknown::near(Exact::new(count.ideal, PARTS).unwrap())
        .weight(count.weight.try_into().expect("a weight"))
        .repeat(repeat)
        .hidden(count.hidden)
        .range(count.low..=count.high);
    let Some((numer, denom)) = count.size else { return unknown };
    let each = PerLength::new(Exact::literal(denom, 1), Length::mm(numer).unwrap()).unwrap();
    unknown.gauge(Gauge::from_parts(each, each))
}

fn taped(measure: &Measure) -> joint::TapeMeasure {
    let terms = measure.terms.iter().map(|&(times, place)| (times, name(place)));
    let taped = joint::TapeMeasure::sum(terms, sixtieths(measure.wanted))
        .weight(Exact::literal(measure.weight, 1));
    match measure.tolerance {
        Some(tolerance) => taped.tolerance(sixtieths(tolerance)),
        None => taped,
    }
}

fn built(demand: &Demand) -> joint::Demand {
    let named = |places: &[usize]| places.iter().map(|&place| name(place)).collect::<Vec<_>>();
    match demand {
        Demand::Sum(terms, low, high) => {
            let terms = terms.iter().map(|&(times, place)| (times, name(place)));
            joint::Demand::sum_within(terms, *low..=*high)
        }
        Demand::Lengths(terms, low, high) => {
            let terms = terms.iter().map(|&(times, place)| (times, name(place)));
            match (low, high) {
                (Some(low), Some(high)) => {
                    joint::Demand::sum_within(terms, sixtieths(*low)..=sixtieths(*high))
                }
                (Some(low), None) => joint::Demand::at_least(terms, sixtieths(*low)),
                (None, high) => joint::Demand::at_most(terms, sixtieths(high.unwrap())),
            }
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
