use crate::bounds;
use crate::error::{Error, Kind, short};
use alloc::collections::BTreeSet;
use alloc::string::{String, ToString};
use alloc::vec::Vec;
use core::fmt;
use core::ops::RangeInclusive;
use loopwright_gauge::{Exact, Length, Precision, Rows, Stitches, Unit};
use num_integer::gcd;

/// Something that must hold between unknowns, which it speaks of by name or by
/// [`Key`](crate::Key).
///
/// # Examples
/// ```
/// use loopwright_gauge::{Exact, Length};
/// use loopwright_joint::Demand;
/// let graft = Demand::equal("front shoulder", "back shoulder");
/// let across = Demand::sum([(2, "back shoulder"), (1, "back neck"), (-1, "back")], 0);
/// let sleeve = Demand::ratio("sleeve top", "armhole", Exact::new(3, 4)?, Exact::new(1, 50)?);
/// let grading = Demand::ordered(["back 86", "back 92", "back 98"]);
/// let centred = Demand::same_parity(["cuff", "sleeve top"]);
/// let bed = Demand::at_most([(1, "back")], 200);
/// let head = Demand::at_least([(1, "neckband")], Length::cm(40)?);
/// # Ok::<(), loopwright_gauge::Error>(())
/// ```
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(
    feature = "serde",
    serde(try_from = "crate::form::DemandForm", into = "crate::form::DemandForm")
)]
#[must_use = "a demand is nothing until a problem has it"]
pub struct Demand(pub(crate) Form);

/// A total: of counts, or of the lengths they come to over their gauges.
///
/// # Examples
/// ```
/// use loopwright_gauge::Length;
/// use loopwright_joint::Limit;
/// assert_eq!(Limit::from(200).to_string(), "200");
/// assert_eq!(Limit::from(Length::cm(40)?).to_string(), "40 cm");
/// # Ok::<(), loopwright_gauge::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(
    feature = "serde",
    serde(untagged, expecting = "must be a whole number, or a length such as \"40 cm\"")
)]
pub enum Limit {
    /// Counts, each times its coefficient.
    Count(i64),
    /// Their lengths, without what seams hide.
    Length(Length),
}

impl From<i64> for Limit {
    fn from(total: i64) -> Self {
        Self::Count(total)
    }
}

impl From<Stitches> for Limit {
    fn from(count: Stitches) -> Self {
        Self::Count(count.get().into())
    }
}

impl From<Rows> for Limit {
    fn from(count: Rows) -> Self {
        Self::Count(count.get().into())
    }
}

impl From<Length> for Limit {
    fn from(length: Length) -> Self {
        Self::Length(length)
    }
}

impl fmt::Display for Limit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Count(total) => total.fmt(f),
            Self::Length(length) => length.display(Unit::Centimetre, Precision::Decimals(1)).fmt(f),
        }
    }
}

#[derive(Clone, Debug, Eq, PartialEq)]
pub(crate) enum Form {
    Sum { terms: Vec<(i64, String)>, low: Option<Limit>, high: Option<Limit> },
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
            low: Some(Limit::Count(offset)),
            high: Some(Limit::Count(offset)),
        })
    }

    /// The counts, each times its whole coefficient, come to `total`.
    pub fn sum<N: Into<String>>(terms: impl IntoIterator<Item = (i64, N)>, total: i64) -> Self {
        Self::sum_within(terms, total..=total)
    }

    /// The counts, each times its whole coefficient, come to a total in `range`, of
    /// counts or of lengths: room to ease in.
    pub fn sum_within<N: Into<String>, L: Copy + Into<Limit>>(
        terms: impl IntoIterator<Item = (i64, N)>,
        range: RangeInclusive<L>,
    ) -> Self {
        let (low, high) = ((*range.start()).into(), (*range.end()).into());
        Self::between(terms, Some(low), Some(high))
    }

    /// The counts, each times its whole coefficient, come to a total of at least
    /// `least`: a count, or a length over their gauges (a band that passes the head).
    pub fn at_least<N: Into<String>>(
        terms: impl IntoIterator<Item = (i64, N)>,
        least: impl Into<Limit>,
    ) -> Self {
        Self::between(terms, Some(least.into()), None)
    }

    /// The counts, each times its whole coefficient, come to a total of at most
    /// `most`: a count (the needles of the bed), or a length over their gauges.
    pub fn at_most<N: Into<String>>(
        terms: impl IntoIterator<Item = (i64, N)>,
        most: impl Into<Limit>,
    ) -> Self {
        Self::between(terms, None, Some(most.into()))
    }

    pub(crate) fn between<N: Into<String>>(
        terms: impl IntoIterator<Item = (i64, N)>,
        low: Option<Limit>,
        high: Option<Limit>,
    ) -> Self {
        let terms = terms.into_iter().map(|(times, name)| (times, name.into())).collect();
        Self(Form::Sum { terms, low, high })
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

    pub(crate) const fn is_sum(&self) -> bool {
        matches!(self.0, Form::Sum { .. })
    }

    /// What the demand asks, over the places `find` gives to names.
    pub(crate) fn links(
        &self,
        demand: &str,
        find: impl Fn(&str) -> Option<Spot>,
    ) -> Result<Vec<Link>, Error> {
        let (names, least): (Vec<&String>, usize) = match &self.0 {
            Form::Sum { terms, .. } => (terms.iter().map(|term| &term.1).collect(), 1),
            Form::Ratio { above, below, .. } => ([above, below].into(), 2),
            Form::Ordered(names) | Form::Parity(names) => (names.iter().collect(), 2),
        };
        let spots = spots(demand, names.into_iter(), least, find)?;
        let places: Vec<usize> = spots.iter().map(|spot| spot.place).collect();
        match &self.0 {
            Form::Sum { terms, low, high } => {
                sum(demand, terms, &spots, *low, *high).map(|row| [Link::Row(row)].into())
            }
            Form::Ratio { ratio, tolerance, .. } => between(demand, &places, *ratio, *tolerance),
            Form::Ordered(_) => Ok(pairs(&places).map(|(a, b)| Link::Row(at_most(a, b))).collect()),
            Form::Parity(_) => Ok(pairs(&places).map(|(a, b)| Link::Parity(a, b)).collect()),
        }
    }
}

/// What a name stands for: which unknown, how long one of it is, and how many of it
/// add no length.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Spot {
    pub(crate) place: usize,
    pub(crate) size: Option<Exact>,
    pub(crate) hidden: u32,
}

/// What the names stand for, each once and at least so many.
pub(crate) fn spots<'n>(
    demand: &str,
    names: impl Iterator<Item = &'n String>,
    least: usize,
    find: impl Fn(&str) -> Option<Spot>,
) -> Result<Vec<Spot>, Error> {
    let mut spots: Vec<Spot> = Vec::new();
    let mut seen = BTreeSet::new();
    for name in names {
        let of = || (short(demand), short(name));
        let Some(spot) = find(name) else {
            let (demand, name) = of();
            return Err(Kind::Unknown { demand, name }.into());
        };
        if !seen.insert(spot.place) {
            let (demand, name) = of();
            return Err(Kind::Repeated { demand, name }.into());
        }
        spots.push(spot);
    }
    if spots.len() < least {
        let given = spots.len();
        return Err(Kind::Few { demand: short(demand), given, least }.into());
    }
    Ok(spots)
}

fn pairs(places: &[usize]) -> impl Iterator<Item = (usize, usize)> {
    places.iter().copied().zip(places.iter().copied().skip(1))
}

/// A coefficient that is neither nothing nor too large.
pub(crate) fn check_times(demand: &str, times: i64) -> Result<(), Error> {
    if times != 0 && times.unsigned_abs() <= bounds::COEFFICIENT.unsigned_abs() {
        return Ok(());
    }
    let allowed = alloc::format!("in 1..={}, either sign", bounds::COEFFICIENT);
    let (what, given) = ("a coefficient", times.to_string());
    Err(Kind::Range { what, name: short(demand), given, allowed }.into())
}

fn sum(
    demand: &str,
    terms: &[(i64, String)],
    spots: &[Spot],
    low: Option<Limit>,
    high: Option<Limit>,
) -> Result<Row, Error> {
    let refuse = |what, given: String, allowed: String| {
        Err(Error::from(Kind::Range { what, name: short(demand), given, allowed }))
    };
    for &(times, _) in terms {
        check_times(demand, times)?;
    }
    if [low, high].iter().flatten().any(|limit| matches!(limit, Limit::Length(_))) {
        return length_row(demand, terms, spots, low, high);
    }
    let total = |limit: Option<Limit>| match limit {
        Some(Limit::Count(total)) => Some(total),
        _ => None,
    };
    let (low, high) = (total(low), total(high));
    for total in [low, high].into_iter().flatten() {
        if !(-bounds::TOTAL..=bounds::TOTAL).contains(&total) {
            let allowed = alloc::format!("in -{0}..={0}", bounds::TOTAL);
            return refuse("the total", total.to_string(), allowed);
        }
    }
    if let (Some(low), Some(high)) = (low, high)
        && low > high
    {
        let given = alloc::format!("{low}..={high}");
        return refuse("the range of totals", given, "a rising range".into());
    }
    let terms = terms.iter().zip(spots).map(|(term, spot)| (spot.place, term.0));
    Row { terms: terms.collect(), low, high, unit: 1, per_mm: None }.checked(demand)
}

/// A sum of lengths, over one denominator.
pub(crate) fn length_row(
    demand: &str,
    terms: &[(i64, String)],
    spots: &[Spot],
    low: Option<Limit>,
    high: Option<Limit>,
) -> Result<Row, Error> {
    let large = || large(demand, "its lengths need too long a fraction");
    let limit = |limit: Option<Limit>| match limit {
        None => Ok(None),
        Some(Limit::Length(length)) => Ok(Some(length.millimetres())),
        Some(Limit::Count(_)) => Err(Error::from(Kind::Mixed { demand: short(demand) })),
    };
    let (low, high) = (limit(low)?, limit(high)?);
    let (mut sizes, mut hidden) = (Vec::with_capacity(terms.len()), Exact::ZERO);
    for (&(times, ref name), spot) in terms.iter().zip(spots) {
        let size = spot.size.ok_or_else(|| Kind::Gaugeless { name: short(name) })?;
        let size = Exact::try_from(times)
            .and_then(|times| size.checked_mul(times))
            .map_err(|_| large())?;
        let of = size.checked_mul(spot.hidden.into()).and_then(|of| hidden.checked_add(of));
        hidden = of.map_err(|_| large())?;
        sizes.push((spot.place, size));
    }
    let with = |limit: Option<Exact>| {
        limit.map(|limit| limit.checked_add(hidden)).transpose().map_err(|_| large())
    };
    let (low, high) = (with(low)?, with(high)?);
    if let (Some(low), Some(high)) = (low, high)
        && low > high
    {
        let (what, name) = ("the range of lengths", short(demand));
        let (given, allowed) = (alloc::format!("{low} to {high} mm"), "a rising range".into());
        return Err(Kind::Range { what, name, given, allowed }.into());
    }
    let all = sizes.iter().map(|size| size.1).chain(low).chain(high);
    let mut per_mm = 1_i64;
    for number in all {
        let factor = number.denom() / gcd(per_mm, number.denom());
        per_mm = per_mm.checked_mul(factor).filter(|&n| n <= bounds::TOTAL).ok_or_else(large)?;
    }
    let whole = |number: Exact| {
        let times = per_mm / number.denom();
        number.numer().checked_mul(times).ok_or_else(large)
    };
    let mut terms = Vec::with_capacity(sizes.len());
    for (place, size) in sizes {
        terms.push((place, whole(size)?));
    }
    let (low, high) = (low.map(whole).transpose()?, high.map(whole).transpose()?);
    Row { terms, low, high, unit: 1, per_mm: Some(per_mm) }.checked(demand)
}

fn large(demand: &str, what: &'static str) -> Error {
    Kind::Large { demand: short(demand), what }.into()
}

fn at_most(one: usize, other: usize) -> Row {
    Row { terms: [(one, -1), (other, 1)].into(), low: Some(0), high: None, unit: 1, per_mm: None }
}

/// `above / below` in `ratio - tolerance ..= ratio + tolerance`, without dividing.
fn between(
    demand: &str,
    places: &[usize],
    ratio: Exact,
    tolerance: Exact,
) -> Result<Vec<Link>, Error> {
    let refuse = |what, given: Exact, allowed: &str| {
        let (name, given) = (short(demand), given.to_string());
        Err(Error::from(Kind::Range { what, name, given, allowed: allowed.into() }))
    };
    if !ratio.is_positive() {
        return refuse("the ratio", ratio, "above 0");
    }
    if tolerance < Exact::ZERO {
        return refuse("the tolerance", tolerance, "0 or more");
    }
    let large = || large(demand, "the ratio with its tolerance needs too long a fraction");
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
        Link::Row(Row { terms, low, high, unit: edge.denom(), per_mm: None })
    };
    if tolerance.is_zero() {
        return Ok([row(edge(Ok(ratio))?, Some(0), Some(0))].into());
    }
    let (least, most) = (edge(ratio.checked_sub(tolerance))?, edge(ratio.checked_add(tolerance))?);
    Ok([row(least, Some(0), None), row(most, None, Some(0))].into())
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
    /// How far the sum moves for one stitch or row of the first unknown, or for the
    /// least length that is told apart.
    pub(crate) unit: i64,
    /// What one millimetre is in the sum, where it is one of lengths.
    pub(crate) per_mm: Option<i64>,
}

impl Row {
    fn checked(self, demand: &str) -> Result<Self, Error> {
        let reach = |times: i64| i128::from(times).abs() * i128::from(bounds::COUNT);
        let whole: i128 = self.terms.iter().map(|term| reach(term.1)).sum();
        let limits = [self.low, self.high].into_iter().flatten();
        let most = limits.map(|limit| i128::from(limit).abs()).fold(whole, i128::max);
        if most > bounds::FORM {
            return Err(large(demand, "its coefficients times the largest counts overflow"));
        }
        Ok(self)
    }

    fn sum(&self, counts: &[u32]) -> i128 {
        let count = |place: usize| counts.get(place).copied().map_or(0, i128::from);
        self.terms.iter().map(|&(place, times)| i128::from(times) * count(place)).sum()
    }

    /// How far `counts` miss it.
    fn missed(&self, counts: &[u32]) -> i128 {
        let sum = self.sum(counts);
        let short = self.low.map_or(0, |low| i128::from(low) - sum);
        let over = self.high.map_or(0, |high| sum - i128::from(high));
        short.max(over).max(0)
    }
}

impl Link {
    /// Whether `counts` hold it: from the definition, for checking any answer.
    pub(crate) fn holds(&self, counts: &[u32]) -> bool {
        let count = |place: usize| counts.get(place).copied().map_or(0, i128::from);
        match self {
            Self::Parity(one, other) => (count(*one) - count(*other)) % 2 == 0,
            Self::Row(row) => row.missed(counts) == 0,
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
                ..*row
            })),
            Self::Parity(..) if by == 0 => Some(self.clone()),
            Self::Parity(..) => None,
        }
    }

    /// How many units `counts` miss it by, parity by one.
    pub(crate) fn missed(&self, counts: &[u32]) -> i64 {
        match self {
            Self::Parity(..) => i64::from(!self.holds(counts)),
            Self::Row(row) => {
                let unit = i128::from(row.unit).max(1);
                i64::try_from((row.missed(counts) + unit - 1) / unit).unwrap_or(i64::MAX)
            }
        }
    }

    /// What the sum comes to.
    pub(crate) fn total(&self, counts: &[u32]) -> Option<i64> {
        match self {
            Self::Row(row) => i64::try_from(row.sum(counts)).ok(),
            Self::Parity(..) => None,
        }
    }

    /// The unknowns it speaks of.
    pub(crate) fn places(&self) -> impl Iterator<Item = usize> {
        let (row, pair) = match self {
            Self::Row(row) => (Some(row), None),
            Self::Parity(one, other) => (None, Some([*one, *other])),
        };
        let row = row.into_iter().flat_map(|row| row.terms.iter().map(|term| term.0));
        row.chain(pair.into_iter().flatten())
    }

    /// The same of other places.
    pub(crate) fn moved(&self, place: impl Fn(usize) -> usize) -> Self {
        match self {
            Self::Parity(one, other) => Self::Parity(place(*one), place(*other)),
            Self::Row(row) => {
                let terms = row.terms.iter().map(|&(of, times)| (place(of), times)).collect();
                Self::Row(Row { terms, ..*row })
            }
        }
    }
}
