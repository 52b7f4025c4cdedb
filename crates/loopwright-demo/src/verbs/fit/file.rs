//! The file of counts and demands.

use crate::answer::Failure;
use loopwright::gauge::{Exact, Gauge, Length, Repeat, Round, Rows, Stitches};
use loopwright::joint::{Demand, Problem, Unknown, bounds};
use serde::Deserialize;
use std::collections::BTreeMap;

/// What a file looks like, for the help text.
pub(super) const SHAPE: &str = r#"The file of counts and demands, in TOML or JSON; "-" reads standard input.

  [[count]]                     # once for each count
  name = "back"
  ideal = "145.6"               # or: length = "52 cm", gauge = "28x40/10cm", and for rows: rows = true
  weight = 2                    # what one stitch or row of deviation costs; 1 if left out
  multiple = 4                  # with extra and edge, the repeat of the stitch pattern
  extra = 2
  least = 120                   # with most, the range allowed
  most = 180

  [[demand]]                    # once for each demand, with one of these
  name = "across the back"      # what a conflict calls it
  sum = { shoulder = 2, neck = 1, back = -1 }
  total = 0                     # or [0, 3]
  # equal = ["front shoulder", "back shoulder"]   and offset = 2: the first has 2 more
  # ratio = ["sleeve top", "armhole"]   and is = "3/4", tolerance = "1/50"
  # ordered = ["small", "medium", "large"]
  # same_parity = ["cuff", "sleeve top"]"#;

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct File {
    #[serde(default)]
    count: Vec<CountTable>,
    #[serde(default)]
    demand: Vec<DemandTable>,
}

/// A number as people write it; the file hands decimals over as the text they were.
#[derive(Clone, Copy, Debug, Deserialize)]
#[serde(try_from = "Written")]
struct Number(Exact);

#[derive(Debug, Deserialize)]
#[serde(untagged, expecting = "must be a number, such as 145.6 or \"443/10\"")]
enum Written {
    Whole(i64),
    Text(String),
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct CountTable {
    name: String,
    ideal: Option<Number>,
    length: Option<Length>,
    gauge: Option<Gauge>,
    #[serde(default)]
    rows: bool,
    weight: Option<Number>,
    multiple: Option<u32>,
    extra: Option<u32>,
    edge: Option<u32>,
    least: Option<u32>,
    most: Option<u32>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct DemandTable {
    name: Option<String>,
    sum: Option<BTreeMap<String, i64>>,
    total: Option<Total>,
    equal: Option<[String; 2]>,
    offset: Option<i64>,
    ratio: Option<[String; 2]>,
    is: Option<Number>,
    tolerance: Option<Number>,
    ordered: Option<Vec<String>>,
    same_parity: Option<Vec<String>>,
}

#[derive(Debug, Deserialize)]
#[serde(untagged, expecting = "must be a whole number, or two such as [0, 3]")]
enum Total {
    One(i64),
    Within([i64; 2]),
}

impl File {
    pub(super) fn problem(&self) -> Result<Problem, Failure> {
        if self.count.is_empty() {
            return Err(Failure::Input("there is no [[count]] in the file".into()));
        }
        let mut problem = Problem::new();
        for count in &self.count {
            problem.unknown(&count.name, count.unknown()?)?;
        }
        for (place, demand) in self.demand.iter().enumerate() {
            let name = demand.name.clone().unwrap_or_else(|| format!("demand {}", place + 1));
            problem.demand(&name, demand.demand(&name)?)?;
        }
        Ok(problem)
    }
}

impl TryFrom<Written> for Number {
    type Error = loopwright::gauge::Error;

    fn try_from(written: Written) -> Result<Self, Self::Error> {
        Ok(Self(match written {
            Written::Whole(whole) => whole.try_into()?,
            Written::Text(text) => text.parse()?,
        }))
    }
}

impl CountTable {
    fn unknown(&self) -> Result<Unknown, Failure> {
        let mut unknown = Unknown::near(self.ideal()?)
            .repeat(self.repeat()?)
            .range(self.least.unwrap_or(0)..=self.most.unwrap_or(bounds::COUNT));
        if let Some(Number(weight)) = self.weight {
            unknown = unknown.weight(weight);
        }
        Ok(unknown)
    }

    fn ideal(&self) -> Result<Exact, Failure> {
        match (self.ideal, self.length, self.gauge) {
            (Some(Number(ideal)), None, None) => Ok(ideal),
            (None, Some(length), Some(gauge)) if self.rows => {
                Ok(gauge.fit::<Rows>(length, Repeat::any(), Round::HalfUp)?.ideal)
            }
            (None, Some(length), Some(gauge)) => {
                Ok(gauge.fit::<Stitches>(length, Repeat::any(), Round::HalfUp)?.ideal)
            }
            _ => {
                let name = &self.name;
                let why = format!("count {name:?} needs an ideal, or a length and a gauge");
                Err(Failure::Input(why))
            }
        }
    }

    fn repeat(&self) -> Result<Repeat, Failure> {
        if self.multiple.is_none() && self.extra.is_none() && self.edge.is_none() {
            return Ok(Repeat::any());
        }
        let (extra, edge) = (self.extra.unwrap_or(0), self.edge.unwrap_or(0));
        Ok(Repeat::new(self.multiple.unwrap_or(1), extra, edge)?)
    }
}

impl DemandTable {
    /// The one demand of the table; what belongs to another kind is refused.
    fn demand(&self, name: &str) -> Result<Demand, Failure> {
        let wrong = |why: &str| Err(Failure::Input(format!("demand {name:?} {why}")));
        let kinds = [
            self.sum.is_some(),
            self.equal.is_some(),
            self.ratio.is_some(),
            self.ordered.is_some(),
            self.same_parity.is_some(),
        ];
        if kinds.iter().filter(|given| **given).count() != 1 {
            return wrong("needs one of sum, equal, ratio, ordered, same_parity");
        }
        let strays = (self.total.is_some() && self.sum.is_none())
            || (self.offset.is_some() && self.equal.is_none())
            || ((self.is.is_some() || self.tolerance.is_some()) && self.ratio.is_none());
        if strays {
            return wrong(
                "mixes kinds: total goes with sum, offset with equal, is and tolerance with ratio",
            );
        }
        if let Some([one, other]) = &self.equal {
            return Ok(Demand::equal_with_offset(one, other, self.offset.unwrap_or(0)));
        }
        if let Some(names) = &self.ordered {
            return Ok(Demand::ordered(names));
        }
        if let Some(names) = &self.same_parity {
            return Ok(Demand::same_parity(names));
        }
        match (&self.sum, &self.ratio, self.is) {
            (Some(sum), ..) => Ok(self.sum(sum)),
            (_, Some([above, below]), Some(is)) => {
                let tolerance = self.tolerance.map_or(Exact::ZERO, |Number(tolerance)| tolerance);
                Ok(Demand::ratio(above, below, is.0, tolerance))
            }
            _ => wrong("needs \"is\", the ratio wanted, such as \"3/4\""),
        }
    }

    fn sum(&self, sum: &BTreeMap<String, i64>) -> Demand {
        let terms = sum.iter().map(|(name, &times)| (times, name));
        match self.total {
            Some(Total::Within([low, high])) => Demand::sum_within(terms, low..=high),
            Some(Total::One(total)) => Demand::sum(terms, total),
            None => Demand::sum(terms, 0),
        }
    }
}
