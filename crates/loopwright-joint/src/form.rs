//! Problems as they are written: tables of counts, measures and demands, read through
//! the same doors as `new`.

use crate::bounds;
use crate::demand::{Demand, Form, Limit};
use crate::error::{Error, Kind, short};
use crate::measure::TapeMeasure;
use crate::problem::{Problem, Said};
use crate::unknown::{Ideal, Unknown, What};
use alloc::collections::BTreeMap;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;
use loopwright_gauge::{Exact, Gauge, Length, Repeat, Rows, Stitches};
use serde::{Deserialize, Serialize};

/// A problem as it is written in a file: `count`, `measure` and `demand`, a list of
/// tables each, and `steps`.
///
/// # Examples
/// ```
/// use loopwright_joint::{Problem, ProblemForm};
/// let form: ProblemForm = serde_json::from_str(r#"{
///     "count": [
///         { "name": "hem", "rows": true, "length": "6 cm", "gauge": "24x36/10cm" },
///         { "name": "side", "rows": true, "length": "56 cm", "gauge": "12x15/10cm" }
///     ],
///     "measure": [{ "name": "length", "sum": { "hem": 1, "side": 1 }, "length": "62 cm" }],
///     "demand": [{ "name": "even hem", "same_parity": ["hem", "side"] }]
/// }"#)?;
/// let solution = Problem::try_from(form)?.solve()?.into_result()?;
/// assert_eq!(solution.count("hem").map(|count| count.get()), Some(22));
/// assert_eq!(solution.count("side").map(|count| count.get()), Some(84));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct ProblemForm {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    steps: Option<u64>,
    #[serde(default)]
    count: Vec<CountForm>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    measure: Vec<MeasureForm>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    demand: Vec<DemandForm>,
}

/// An unknown as it is written, under its name if it is one of a problem.
#[derive(Clone, Debug, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub(crate) struct CountForm {
    #[serde(default, skip_serializing_if = "String::is_empty")]
    name: String,
    /// Whether it counts rows; stitches otherwise.
    #[serde(default, skip_serializing_if = "is_false")]
    rows: bool,
    /// The exact count wanted.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    ideal: Option<Exact>,
    /// Or the length wanted, over the gauge.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    length: Option<Length>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    gauge: Option<Gauge>,
    /// How many of it add no length.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    hidden: Option<u32>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    weight: Option<Exact>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    multiple: Option<u32>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    extra: Option<u32>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    edge: Option<u32>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    least_repeats: Option<u32>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    least: Option<u32>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    most: Option<u32>,
}

/// A measure as it is written.
#[derive(Clone, Debug, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub(crate) struct MeasureForm {
    #[serde(default, skip_serializing_if = "String::is_empty")]
    name: String,
    /// How often the length of each count is in it.
    sum: BTreeMap<String, i64>,
    length: Length,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    weight: Option<Exact>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    tolerance: Option<Length>,
}

/// A demand as it is written: one of its kinds, with what belongs to that kind.
#[derive(Clone, Debug, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub(crate) struct DemandForm {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    name: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    sum: Option<BTreeMap<String, i64>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    total: Option<Total>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    at_least: Option<Limit>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    at_most: Option<Limit>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    equal: Option<[String; 2]>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    offset: Option<i64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    ratio: Option<[String; 2]>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    is: Option<Exact>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    tolerance: Option<Exact>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    ordered: Option<Vec<String>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    same_parity: Option<Vec<String>>,
}

#[derive(Clone, Copy, Debug, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(untagged, expecting = "must be a whole number, or two such as [0, 3]")]
enum Total {
    One(i64),
    Within([i64; 2]),
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "what serde calls it with")]
const fn is_false(rows: &bool) -> bool {
    !*rows
}

fn incomplete(what: &'static str, name: &str, why: &'static str) -> Error {
    Kind::Incomplete { what, name: short(name), why }.into()
}

impl ProblemForm {
    /// Whether there is no count in it.
    #[must_use]
    pub const fn is_empty(&self) -> bool {
        self.count.is_empty()
    }
}

impl TryFrom<ProblemForm> for Problem {
    type Error = Error;

    fn try_from(form: ProblemForm) -> Result<Self, Error> {
        let mut problem = Self::new();
        if let Some(steps) = form.steps {
            problem = problem.steps(steps);
        }
        for count in form.count {
            let (name, rows) = (count.name.clone(), count.rows);
            let unknown = count.unknown()?;
            if rows {
                problem.unknown::<Rows>(name, unknown)?;
            } else {
                problem.unknown::<Stitches>(name, unknown)?;
            }
        }
        for measure in form.measure {
            let name = measure.name.clone();
            problem.measure(name, measure.into())?;
        }
        for (place, mut demand) in form.demand.into_iter().enumerate() {
            let name = demand.name.take().unwrap_or_else(|| format!("demand {}", place + 1));
            let demand = demand.demand(&name)?;
            problem.demand(name, demand)?;
        }
        Ok(problem)
    }
}

impl From<Problem> for ProblemForm {
    fn from(problem: Problem) -> Self {
        let steps = (problem.steps != bounds::STEPS).then_some(problem.steps);
        let mut form = Self { steps, ..Self::default() };
        for (name, entry) in problem.names.into_iter().zip(problem.entries) {
            let rows = entry.what == What::Rows;
            form.count.push(CountForm { name, rows, ..entry.said.into() });
        }
        for (name, said) in problem.said {
            match said {
                Said::Demand(demand) => {
                    form.demand.push(DemandForm { name: Some(name), ..demand.into() });
                }
                Said::Measure(measure) => {
                    form.measure.push(MeasureForm { name, ..measure.into() });
                }
            }
        }
        form
    }
}

impl CountForm {
    fn unknown(self) -> Result<Unknown, Error> {
        let mut unknown = match (self.ideal, self.length, self.gauge) {
            (Some(ideal), None, None) => Unknown::near(ideal),
            (Some(ideal), None, Some(gauge)) => Unknown::near(ideal).gauge(gauge),
            (None, Some(length), Some(gauge)) => Unknown::near_length(length, gauge),
            _ => {
                let why = "needs an ideal, or a length and a gauge";
                return Err(incomplete("count", &self.name, why));
            }
        };
        if let Some(weight) = self.weight {
            unknown = unknown.weight(weight);
        }
        let said = [self.multiple, self.extra, self.edge, self.least_repeats];
        if said.iter().any(Option::is_some) {
            let (extra, edge) = (self.extra.unwrap_or(0), self.edge.unwrap_or(0));
            let repeat = Repeat::new(self.multiple.unwrap_or(1), extra, edge)?;
            unknown = unknown.repeat(match self.least_repeats {
                Some(least) => repeat.at_least(least)?,
                None => repeat,
            });
        }
        let range = self.least.unwrap_or(0)..=self.most.unwrap_or(bounds::COUNT);
        Ok(unknown.hidden(self.hidden.unwrap_or(0)).range(range))
    }
}

impl TryFrom<CountForm> for Unknown {
    type Error = Error;

    fn try_from(form: CountForm) -> Result<Self, Error> {
        form.unknown()
    }
}

impl From<Unknown> for CountForm {
    fn from(unknown: Unknown) -> Self {
        let (ideal, length) = match unknown.ideal {
            Ideal::Count(ideal) => (Some(ideal), None),
            Ideal::Length(length) => (None, Some(length)),
        };
        let repeat = unknown.repeat;
        let any = repeat == Repeat::any();
        let said = |n: u32| (!any).then_some(n);
        Self {
            name: String::new(),
            rows: false,
            ideal,
            length,
            gauge: unknown.gauge,
            hidden: (unknown.hidden != 0).then_some(unknown.hidden),
            weight: (unknown.weight != Exact::ONE).then_some(unknown.weight),
            multiple: said(repeat.multiple()),
            extra: said(repeat.extra()),
            edge: said(repeat.edge()),
            least_repeats: said(repeat.least()),
            least: (unknown.least != 0).then_some(unknown.least),
            most: (unknown.most != bounds::COUNT).then_some(unknown.most),
        }
    }
}

impl From<MeasureForm> for TapeMeasure {
    fn from(form: MeasureForm) -> Self {
        let terms = form.sum.into_iter().map(|(name, times)| (times, name));
        let mut measure = Self::sum(terms, form.length);
        measure.weight = form.weight.unwrap_or(Exact::ONE);
        measure.tolerance = form.tolerance;
        measure
    }
}

impl From<TapeMeasure> for MeasureForm {
    fn from(measure: TapeMeasure) -> Self {
        Self {
            name: String::new(),
            sum: measure.terms.into_iter().map(|(times, name)| (name, times)).collect(),
            length: measure.length,
            weight: (measure.weight != Exact::ONE).then_some(measure.weight),
            tolerance: measure.tolerance,
        }
    }
}

impl DemandForm {
    /// The one demand of the table; what belongs to another kind is refused.
    fn demand(self, name: &str) -> Result<Demand, Error> {
        let wrong = |why| Err(incomplete("demand", name, why));
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
        let limits = self.at_least.is_some() || self.at_most.is_some();
        let strays = ((self.total.is_some() || limits) && self.sum.is_none())
            || (self.offset.is_some() && self.equal.is_none())
            || ((self.is.is_some() || self.tolerance.is_some()) && self.ratio.is_none());
        if strays {
            return wrong(
                "mixes kinds: total, at_least and at_most go with sum, offset with equal, is and tolerance with ratio",
            );
        }
        if let Some([one, other]) = self.equal {
            return Ok(Demand::equal_with_offset(one, other, self.offset.unwrap_or(0)));
        }
        if let Some(names) = self.ordered {
            return Ok(Demand::ordered(names));
        }
        if let Some(names) = self.same_parity {
            return Ok(Demand::same_parity(names));
        }
        if let Some(sum) = self.sum {
            let terms = sum.into_iter().map(|(name, times)| (times, name));
            return Ok(match (self.total, limits) {
                (Some(_), true) => {
                    return wrong("has a total, so at_least and at_most have no place");
                }
                (Some(Total::Within([low, high])), false) => Demand::sum_within(terms, low..=high),
                (Some(Total::One(total)), false) => Demand::sum(terms, total),
                (None, true) => Demand::between(terms, self.at_least, self.at_most),
                (None, false) => Demand::sum(terms, 0),
            });
        }
        match (self.ratio, self.is) {
            (Some([above, below]), Some(is)) => {
                Ok(Demand::ratio(above, below, is, self.tolerance.unwrap_or(Exact::ZERO)))
            }
            _ => wrong("needs \"is\", the ratio wanted, such as \"3/4\""),
        }
    }
}

impl TryFrom<DemandForm> for Demand {
    type Error = Error;

    fn try_from(form: DemandForm) -> Result<Self, Error> {
        form.demand("")
    }
}

impl From<Demand> for DemandForm {
    fn from(demand: Demand) -> Self {
        let form = Self::default();
        match demand.0 {
            Form::Sum { terms, low, high } => {
                let sum = Some(terms.into_iter().map(|(times, name)| (name, times)).collect());
                match (low, high) {
                    (Some(Limit::Count(low)), Some(Limit::Count(high))) => {
                        let total =
                            if low == high { Total::One(low) } else { Total::Within([low, high]) };
                        Self { sum, total: Some(total), ..form }
                    }
                    (at_least, at_most) => Self { sum, at_least, at_most, ..form },
                }
            }
            Form::Ratio { above, below, ratio, tolerance } => Self {
                ratio: Some([above, below]),
                is: Some(ratio),
                tolerance: (!tolerance.is_zero()).then_some(tolerance),
                ..form
            },
            Form::Ordered(names) => Self { ordered: Some(names), ..form },
            Form::Parity(names) => Self { same_parity: Some(names), ..form },
        }
    }
}
