use crate::bounds;
use crate::error::{Error, Kind};
use alloc::borrow::ToOwned;
use alloc::string::{String, ToString};
use alloc::vec::Vec;
use core::ops::RangeInclusive;
use loopwright_gauge::Exact;

/// Something that must hold between unknowns, which it speaks of by name.
///
/// # Examples
/// ```
/// use loopwright_gauge::Exact;
/// use loopwright_joint::Demand;
/// let graft = Demand::equal("front shoulder", "back shoulder");
/// let across = Demand::sum([(2, "back shoulder"), (1, "back neck"), (-1, "back")], 0);
/// let sleeve = Demand::ratio("sleeve top", "armhole", Exact::new(3, 4)?, Exact::new(1, 50)?);
/// let grading = Demand::ordered(["back 86", "back 92", "back 98"]);
/// let centred = Demand::same_parity(["cuff", "sleeve top"]);
/// # Ok::<(), loopwright_gauge::Error>(())
/// ```
#[derive(Clone, Debug, Eq, PartialEq)]
#[must_use = "a demand is nothing until a problem has it"]
pub struct Demand(Form);

#[derive(Clone, Debug, Eq, PartialEq)]
enum Form {
    Sum { terms: Vec<(i64, String)>, low: i64, high: i64 },
    Ratio { above: String, below: String, ratio: Exact, tolerance: Exact },
    Ordered(Vec<String>),
    Parity(Vec<String>),
}

impl Demand {
    /// Both counts are the same: a graft, or two pieces that are one width.
    pub fn equal(one: impl Into<String>, other: impl Into<String>) -> Self {
        Self::equal_with_offset(one, other, 0)
    }

    /// `one` is `other` and `offset` more.
    pub fn equal_with_offset(
        one: impl Into<String>,
        other: impl Into<String>,
        offset: i64,
    ) -> Self {
        Self(Form::Sum {
            terms: [(1, one.into()), (-1, other.into())].into(),
            low: offset,
            high: offset,
        })
    }

    /// The counts, each times its whole coefficient, come to `total`.
    pub fn sum<N: Into<String>>(terms: impl IntoIterator<Item = (i64, N)>, total: i64) -> Self {
        Self::sum_within(terms, total..=total)
    }

    /// The counts, each times its whole coefficient, come to a total in `range`:
    /// room to ease in.
    pub fn sum_within<N: Into<String>>(
        terms: impl IntoIterator<Item = (i64, N)>,
        range: RangeInclusive<i64>,
    ) -> Self {
        let terms = terms.into_iter().map(|(times, name)| (times, name.into())).collect();
        Self(Form::Sum { terms, low: *range.start(), high: *range.end() })
    }

    /// `above` over `below` is `ratio`, give or take `tolerance`; of no count,
    /// none.
    pub fn ratio(
        above: impl Into<String>,
        below: impl Into<String>,
        ratio: Exact,
        tolerance: Exact,
    ) -> Self {
        Self(Form::Ratio { above: above.into(), below: below.into(), ratio, tolerance })
    }

    /// Each count is at least the one before it: sizes that must not shrink.
    pub fn ordered<N: Into<String>>(names: impl IntoIterator<Item = N>) -> Self {
        Self(Form::Ordered(names.into_iter().map(Into::into).collect()))
    }

    /// All of the counts are even, or all are odd.
    pub fn same_parity<N: Into<String>>(names: impl IntoIterator<Item = N>) -> Self {
        Self(Form::Parity(names.into_iter().map(Into::into).collect()))
    }

    /// What the demand asks, over the places `find` gives to names.
    pub(crate) fn links(
        self,
        demand: &str,
        find: impl Fn(&str) -> Option<usize>,
    ) -> Result<Vec<Link>, Error> {
        let places = self.places(demand, find)?;
        match self.0 {
            Form::Sum { terms, low, high } => {
                let terms = terms.iter().zip(&places).map(|(term, &place)| (place, term.0));
                sum(demand, terms.collect(), low, high).map(|row| [Link::Row(row)].into())
            }
            Form::Ratio { ratio, tolerance, .. } => {
                between(demand, &places, ratio, tolerance).map(Vec::from)
            }
            Form::Ordered(_) => Ok(pairs(&places).map(|(a, b)| Link::Row(at_most(a, b))).collect()),
            Form::Parity(_) => Ok(pairs(&places).map(|(a, b)| Link::Parity(a, b)).collect()),
        }
    }

    fn places(
        &self,
        demand: &str,
        find: impl Fn(&str) -> Option<usize>,
    ) -> Result<Vec<usize>, Error> {
        let (names, least): (Vec<&String>, usize) = match &self.0 {
            Form::Sum { terms, .. } => (terms.iter().map(|term| &term.1).collect(), 1),
            Form::Ratio { above, below, .. } => ([above, below].into(), 2),
            Form::Ordered(names) | Form::Parity(names) => (names.iter().collect(), 2),
        };
        if names.len() < least {
            let given = names.len();
            return Err(Kind::Few { demand: demand.to_owned(), given, least }.into());
        }
        let mut places = Vec::with_capacity(names.len());
        for name in names {
            let (demand, name) = (demand.to_owned(), name.clone());
            match find(&name) {
                None => return Err(Kind::Unknown { demand, name }.into()),
                Some(place) if places.contains(&place) => {
                    return Err(Kind::Repeated { demand, name }.into());
                }
                Some(place) => places.push(place),
            }
        }
        Ok(places)
    }
}

fn pairs(places: &[usize]) -> impl Iterator<Item = (usize, usize)> {
    places.iter().copied().zip(places.iter().copied().skip(1))
}

fn sum(demand: &str, terms: Vec<(usize, i64)>, low: i64, high: i64) -> Result<Row, Error> {
    let refuse = |what, given: String, allowed: String| {
        Err(Error::from(Kind::Range { what, name: demand.to_owned(), given, allowed }))
    };
    let within = |n: i64, most: i64| (-most..=most).contains(&n);
    for &(_, times) in &terms {
        if times == 0 || !within(times, bounds::COEFFICIENT) {
            let allowed = alloc::format!("in 1..={}, either sign", bounds::COEFFICIENT);
            return refuse("a coefficient", times.to_string(), allowed);
        }
    }
    for total in [low, high] {
        if !within(total, bounds::TOTAL) {
            let allowed = alloc::format!("in -{0}..={0}", bounds::TOTAL);
            return refuse("the total", total.to_string(), allowed);
        }
    }
    if low > high {
        let given = alloc::format!("{low}..={high}");
        return refuse("the range of totals", given, "a rising range".into());
    }
    let reach: i128 =
        terms.iter().map(|term| i128::from(term.1).abs() * i128::from(bounds::COUNT)).sum();
    if reach > bounds::FORM {
        let what = "its coefficients times the largest counts overflow";
        return Err(Kind::Large { demand: demand.to_owned(), what }.into());
    }
    Ok(Row { terms, low: Some(low), high: Some(high), unit: 1 })
}

fn at_most(one: usize, other: usize) -> Row {
    Row { terms: [(one, -1), (other, 1)].into(), low: Some(0), high: None, unit: 1 }
}

/// `above / below` in `ratio - tolerance ..= ratio + tolerance`, without dividing.
fn between(
    demand: &str,
    places: &[usize],
    ratio: Exact,
    tolerance: Exact,
) -> Result<[Link; 2], Error> {
    let refuse = |what, given: Exact, allowed: &str| {
        let (name, given) = (demand.to_owned(), given.to_string());
        Err(Error::from(Kind::Range { what, name, given, allowed: allowed.to_owned() }))
    };
    if !ratio.is_positive() {
        return refuse("the ratio", ratio, "above 0");
    }
    if tolerance < Exact::ZERO {
        return refuse("the tolerance", tolerance, "0 or more");
    }
    let large = || {
        let what = "the ratio with its tolerance needs too long a fraction";
        Error::from(Kind::Large { demand: demand.to_owned(), what })
    };
    let edge = |edge: Result<Exact, loopwright_gauge::Error>| {
        let edge = edge.map_err(|_| large())?;
        let fits = |n: i64| n.abs() <= bounds::COEFFICIENT;
        if !fits(edge.numer()) || !fits(edge.denom()) {
            return Err(large());
        }
        Ok(edge)
    };
    let row = |edge: Exact, low, high| {
        let terms = places.iter().copied().zip([edge.denom(), -edge.numer()]);
        let terms = terms.filter(|term| term.1 != 0).collect();
        Link::Row(Row { terms, low, high, unit: edge.denom() })
    };
    let (least, most) = (edge(ratio.checked_sub(tolerance))?, edge(ratio.checked_add(tolerance))?);
    Ok([row(least, Some(0), None), row(most, None, Some(0))])
}

/// One condition over unknowns, by place.
#[derive(Clone, Debug, Eq, PartialEq)]
pub(crate) enum Link {
    Row(Row),
    /// Both even or both odd.
    Parity(usize, usize),
}

/// `low <= sum of times * count <= high`; at least one of the two is given.
#[derive(Clone, Debug, Eq, PartialEq)]
pub(crate) struct Row {
    pub(crate) terms: Vec<(usize, i64)>,
    pub(crate) low: Option<i64>,
    pub(crate) high: Option<i64>,
    /// How far the sum moves for one stitch or row of the first unknown.
    pub(crate) unit: i64,
}

impl Link {
    /// Whether `counts` hold it: from the definition, for checking any answer.
    pub(crate) fn holds(&self, counts: &[u32]) -> bool {
        let count = |place: usize| counts.get(place).copied().map_or(0, i128::from);
        match self {
            Self::Parity(one, other) => (count(*one) - count(*other)) % 2 == 0,
            Self::Row(row) => {
                let sum: i128 =
                    row.terms.iter().map(|&(place, times)| i128::from(times) * count(place)).sum();
                row.low.is_none_or(|low| i128::from(low) <= sum)
                    && row.high.is_none_or(|high| sum <= i128::from(high))
            }
        }
    }

    /// The same condition, missed by up to `by` stitches or rows; parity, given any
    /// room, is let go (`None`).
    pub(crate) fn relaxed(&self, by: i64) -> Option<Self> {
        match self {
            Self::Row(row) => Some(Self::Row(Row {
                terms: row.terms.clone(),
                low: row.low.map(|low| low.saturating_sub(by.saturating_mul(row.unit))),
                high: row.high.map(|high| high.saturating_add(by.saturating_mul(row.unit))),
                unit: row.unit,
            })),
            Self::Parity(..) if by == 0 => Some(self.clone()),
            Self::Parity(..) => None,
        }
    }
}
