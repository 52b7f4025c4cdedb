use crate::error::Kind;
use crate::quantity::count;
use crate::{Count, Error, Exact, Repeat, Round, bounds};
use alloc::format;
use alloc::string::ToString;

/// The counts from a least to a most, both included, that a fit must lie in.
///
/// # Examples
/// ```
/// use loopwright_gauge::{CountRange, Gauge, Length, Repeat, Round, Stitches};
/// let gauge: Gauge = "28x40/10cm".parse()?;
/// let bed = CountRange::new(Stitches::ZERO, Stitches::new(200)?)?;
/// let fitted =
///     gauge.fit_within(Length::cm(80)?, Repeat::multiple_of(6)?, bed, Round::HalfUp)?;
/// assert_eq!(fitted.count.get(), 198);
/// # Ok::<(), loopwright_gauge::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(try_from = "Ends<C>", into = "Ends<C>"))]
#[cfg_attr(
    feature = "serde",
    serde(bound(
        serialize = "C: Count + serde::Serialize",
        deserialize = "C: Count + serde::Deserialize<'de>"
    ))
)]
pub struct CountRange<C> {
    least: C,
    most: C,
}

impl<C: Count> CountRange<C> {
    /// From `least` to `most`.
    ///
    /// # Errors
    /// When `most` is below `least`.
    pub fn new(least: C, most: C) -> Result<Self, Error> {
        if least <= most {
            return Ok(Self { least, most });
        }
        let allowed = format!("the least, {least}, or more");
        let what = "the most of the range";
        Err(Kind::Range { what, given: most.to_string(), allowed }.into())
    }

    /// The least count allowed.
    #[must_use]
    pub fn least(self) -> C {
        self.least
    }

    /// The most allowed.
    #[must_use]
    pub fn most(self) -> C {
        self.most
    }
}

/// The only counts looked at: those of the repeat, from one to another.
#[derive(Clone, Copy)]
pub(crate) struct Allowed {
    repeat: Repeat,
    least: u32,
    most: Option<u32>,
}

impl Allowed {
    pub(crate) const fn all(repeat: Repeat) -> Self {
        Self { repeat, least: repeat.smallest(), most: None }
    }

    /// Both ends are moved inwards to a count of the repeat.
    pub(crate) fn within<C: Count>(repeat: Repeat, range: CountRange<C>) -> Result<Self, Error> {
        let (offset, multiple) = (repeat.offset(), repeat.multiple());
        let ends = range.most.get().checked_sub(offset).and_then(|most| {
            let least = range.least.get().max(repeat.smallest()) - offset;
            let (from, to) = (least.div_ceil(multiple), most / multiple);
            (from <= to).then_some((from * multiple + offset, to * multiple + offset))
        });
        let (least, most) = ends.ok_or_else(|| {
            let range = format!("{}..={}", range.least, range.most);
            Kind::NothingFits { name: C::NAME, repeat: repeat.to_string(), range }
        })?;
        Ok(Self { repeat, least, most: Some(most) })
    }

    /// The count that `round` chooses for `ideal`, brought between the ends.
    pub(crate) fn choose<C: Count>(self, ideal: Exact, round: Round) -> Result<C, Error> {
        let Some(repeats) = repeats(ideal, self.repeat, round)? else {
            return Err(not_whole::<C>(ideal, self.repeat));
        };
        let chosen = self.count_of(repeats);
        if round == Round::Floor && chosen < self.repeat.smallest().into() {
            return Err(nothing_below::<C>(ideal, self.repeat));
        }
        let inside = self.clamp(chosen);
        if inside != chosen && round == Round::Exact {
            return Err(self.outside::<C>(chosen));
        }
        count::check(C::OF, inside).and_then(C::new)
    }

    /// The allowed counts nearest `ideal`: up to `each` at or below it and up to
    /// `each` above it, in rising order.
    pub(crate) fn nearest<C: Count>(
        self,
        ideal: Exact,
        each: u32,
    ) -> Result<impl Iterator<Item = C>, Error> {
        let (repeat, each) = (self.repeat, i64::from(each));
        // Rounding down always gives a whole number. What lies outside the ends is brought
        // to the nearer one, so that the counts nearest to it are those next to that end.
        let middle = repeats(ideal, repeat, Round::Floor)?.unwrap_or(0);
        let (first, last) = self.ends();
        let middle = middle.clamp(first - 1, last.max(first - 1));
        let counts = (middle - each + 1..=middle + each).map(move |repeats| self.count_of(repeats));
        let inside = counts.filter(move |&count| self.clamp(count) == count);
        Ok(inside.filter_map(|count| u32::try_from(count).ok().and_then(|n| C::new(n).ok())))
    }

    /// How many repeats the least and the most allowed counts have.
    fn ends(self) -> (i64, i64) {
        let repeats = |count: u32| {
            i64::from(count.saturating_sub(self.repeat.offset()) / self.repeat.multiple())
        };
        (repeats(self.least), self.most.map_or(i64::MAX - i64::from(bounds::CANDIDATES), repeats))
    }

    fn count_of(self, repeats: i64) -> i128 {
        i128::from(repeats) * i128::from(self.repeat.multiple()) + i128::from(self.repeat.offset())
    }

    fn clamp(self, count: i128) -> i128 {
        let raised = count.max(self.least.into());
        self.most.map_or(raised, |most| raised.min(most.into()))
    }

    #[cold]
    fn outside<C: Count>(self, chosen: i128) -> Error {
        let allowed = match self.most {
            Some(most) => format!("in {}..={most}", self.least),
            None => format!("at least {}", self.least),
        };
        Kind::Outside { what: C::OF, given: chosen.to_string(), allowed }.into()
    }
}

/// Rounding down must not give more than was asked for.
#[cold]
fn nothing_below<C: Count>(ideal: Exact, repeat: Repeat) -> Error {
    let (repeat, least) = (repeat.to_string(), repeat.smallest());
    let ideal = ideal.decimal(2).to_string();
    Kind::NothingBelow { name: C::NAME, repeat, ideal, least }.into()
}

/// How many repeats `ideal` is, rounded; `None` when [`Round::Exact`] meets a
/// remainder.
fn repeats(ideal: Exact, repeat: Repeat, round: Round) -> Result<Option<i64>, Error> {
    if let Some((numer, denom)) = repeats_narrow(ideal, repeat) {
        return Ok(round.divide(numer, denom));
    }
    let exact = repeats_exact(ideal, repeat)?;
    Ok(round.divide(exact.numer(), exact.denom()))
}

/// Not in lowest terms, which rounding does not need.
fn repeats_narrow(ideal: Exact, repeat: Repeat) -> Option<(i64, i64)> {
    let offset = i64::from(repeat.offset()).checked_mul(ideal.denom())?;
    let numer = ideal.numer().checked_sub(offset)?;
    Some((numer, ideal.denom().checked_mul(repeat.multiple().into())?))
}

fn repeats_exact(ideal: Exact, repeat: Repeat) -> Result<Exact, Error> {
    ideal.checked_sub(repeat.offset().into())?.checked_div(repeat.multiple().into())
}

#[cold]
fn not_whole<C: Count>(ideal: Exact, repeat: Repeat) -> Error {
    if repeat.multiple() == 1 {
        return Kind::NotWhole { what: C::OF, given: ideal.to_string() }.into();
    }
    repeats_exact(ideal, repeat).map_or_else(
        |error| error,
        |given| Kind::NotWhole { what: "the number of repeats", given: given.to_string() }.into(),
    )
}

#[cfg(feature = "serde")]
impl<C: Count> TryFrom<Ends<C>> for CountRange<C> {
    type Error = Error;

    fn try_from(ends: Ends<C>) -> Result<Self, Error> {
        Self::new(ends.least, ends.most)
    }
}

#[cfg(feature = "serde")]
impl<C> From<CountRange<C>> for Ends<C> {
    fn from(range: CountRange<C>) -> Self {
        Self { least: range.least, most: range.most }
    }
}

/// The two ends as they are written.
#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
struct Ends<C> {
    least: C,
    most: C,
}
