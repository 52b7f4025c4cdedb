use crate::error::Kind;
use crate::fit::{self, Fitted};
use crate::number::text;
use crate::{Count, CountRange, Error, Exact, Length, Repeat, Round, Unit, bounds};
use alloc::format;
use alloc::string::{String, ToString as _};
use alloc::vec::Vec;
use core::fmt;
use core::str::FromStr;

/// A gauge in one direction: how many stitches, or rows, a length has, exactly.
///
/// Two are equal when they say the same, whatever length they were measured over.
/// It reads `28 / 10 cm`, `28/10cm` and `5.5/in`, and prints per 10 cm.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Exact, Length, PerLength};
/// let forty_in_133_mm = PerLength::new(Exact::whole(40), "13.3 cm".parse()?)?;
/// assert_eq!(forty_in_133_mm.per(Length::cm(10)?)?, "4000/133".parse()?);
/// assert_eq!(forty_in_133_mm.length_of(Exact::whole(80))?, "26.6 cm".parse()?);
/// # Ok::<(), loopwright_gauge::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, Ord, PartialEq, PartialOrd)]
pub struct PerLength(Exact);

const WHAT: &str = "the gauge";
const FORMS: &str = "write a count / length, such as 28 / 10 cm or 5.5/1in";

impl PerLength {
    const FEWEST: Exact = Exact::literal(1, bounds::GAUGE_DECIMETRES_PER_COUNT);
    const MOST: Exact = Exact::literal(bounds::GAUGE_PER_10CM, 1);

    /// `count` over `span`.
    ///
    /// # Errors
    /// When `span` is not above zero, or the gauge is outside the bounds in
    /// [`bounds`].
    pub fn new(count: Exact, span: Length) -> Result<Self, Error> {
        Self::named(WHAT, count, span)
    }

    pub(crate) fn named(what: &'static str, count: Exact, span: Length) -> Result<Self, Error> {
        if !span.is_positive() {
            let (what, given) = ("the length of the gauge", format!("{span}"));
            return Err(Kind::Range { what, given, allowed: "above zero".into() }.into());
        }
        Self::bounded(what, count.checked_div(span.millimetres())?)
    }

    /// The only check of a gauge's size.
    fn bounded(what: &'static str, per_mm: Exact) -> Result<Self, Error> {
        let per_10cm = per_mm.checked_mul(Exact::whole(100))?;
        let (most, fewest) = (bounds::GAUGE_PER_10CM, bounds::GAUGE_DECIMETRES_PER_COUNT);
        if per_10cm >= Self::FEWEST && per_10cm <= Self::MOST {
            return Ok(Self(per_mm));
        }
        let given = format!("{per_10cm} per 10 cm");
        let allowed = format!("in 1/{fewest}..={most} per 10 cm");
        Err(Kind::Range { what, given, allowed }.into())
    }

    /// The count in one millimetre.
    #[must_use]
    pub const fn per_mm(self) -> Exact {
        self.0
    }

    /// The exact, unrounded count in `span`.
    ///
    /// # Errors
    /// When the number cannot be held exactly.
    pub fn per(self, span: Length) -> Result<Exact, Error> {
        span.millimetres().checked_mul(self.0)
    }

    /// The length that `count` stitches or rows have.
    ///
    /// # Errors
    /// When the length is out of bounds or cannot be held exactly.
    pub fn length_of(self, count: Exact) -> Result<Length, Error> {
        count.checked_div(self.0).and_then(Length::from_millimetres)
    }

    /// The count that `repeat` allows and `round` chooses for `length`.
    ///
    /// # Errors
    /// When `length` is negative, nothing fits, or [`Round::Exact`] meets a remainder.
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::{Length, PerLength, Repeat, Round, Rows};
    /// let rows: PerLength = "40/10cm".parse()?;
    /// let fitted = rows.fit::<Rows>(Length::cm(13)?, Repeat::even(), Round::HalfUp)?;
    /// assert_eq!(fitted.count, Rows::new(52)?);
    /// # Ok::<(), loopwright_gauge::Error>(())
    /// ```
    pub fn fit<C: Count>(
        self,
        length: Length,
        repeat: Repeat,
        round: Round,
    ) -> Result<Fitted<C>, Error> {
        fit::fit(self, length, repeat, round)
    }

    /// As [`PerLength::fit`], but the count must lie in `range`: one that would fall
    /// outside is brought to the nearest allowed count inside.
    ///
    /// # Errors
    /// As there, and when the repeat has no count in `range`.
    pub fn fit_within<C: Count>(
        self,
        length: Length,
        repeat: Repeat,
        range: CountRange<C>,
        round: Round,
    ) -> Result<Fitted<C>, Error> {
        fit::fit_within(self, length, repeat, range, round)
    }

    /// The counts nearest to `length` that `repeat` allows: `each` at or below the
    /// ideal and `each` above it, fewer where there are no more, in rising order.
    ///
    /// # Errors
    /// When `length` is negative or `each` is outside 1..=[`bounds::CANDIDATES`].
    pub fn nearest<C: Count>(
        self,
        length: Length,
        repeat: Repeat,
        each: u32,
    ) -> Result<Vec<Fitted<C>>, Error> {
        fit::nearest(self, length, repeat, None, each)
    }

    /// As [`PerLength::nearest`], but only counts in `range`.
    ///
    /// # Errors
    /// As there, and when the repeat has no count in `range`.
    pub fn nearest_within<C: Count>(
        self,
        length: Length,
        repeat: Repeat,
        range: CountRange<C>,
        each: u32,
    ) -> Result<Vec<Fitted<C>>, Error> {
        fit::nearest(self, length, repeat, Some(range), each)
    }
}

impl fmt::Display for PerLength {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        // Bounded per 10 cm when it was made, so the product is held.
        let per_10cm = self.0.checked_mul(Exact::whole(100)).map_err(|_| fmt::Error)?;
        write!(f, "{} / 10 cm", per_10cm.plain())
    }
}

impl FromStr for PerLength {
    type Err = Error;

    fn from_str(given: &str) -> Result<Self, Error> {
        let refuse = || Error::parse(WHAT, given, FORMS);
        let (count, span) = count_and_span(given).ok_or_else(refuse)?;
        Self::new(count, span_of_one(span.trim())?.0)
    }
}

/// The span of a gauge, a length or a bare unit for one of it, with the unit it is
/// written in.
pub(crate) fn span_of_one(given: &str) -> Result<(Length, Unit), Error> {
    if let Some(unit) = Unit::from_symbol(given) {
        return Ok((Length::new(Exact::ONE, unit)?, unit));
    }
    let length = given.parse()?;
    let symbol = given.trim_start_matches(|c: char| !c.is_alphabetic() && !"\"'″′".contains(c));
    Ok((length, Unit::from_symbol(symbol).unwrap_or(Unit::Inch)))
}

/// A span that a gauge can be read from again, after its slash: no fraction.
pub(crate) fn span_text(span: Length, unit: Unit) -> Option<String> {
    let text = span.in_unit(unit).ok()?.plain().to_string();
    (!text.contains('/')).then(|| format!("{text} {unit}"))
}

/// The count and the text of the span, at the last slash: `40/10cm` is forty rows,
/// not a fraction.
pub(crate) fn count_and_span(given: &str) -> Option<(Exact, &str)> {
    let (count, span) = given.rsplit_once('/')?;
    match text::leading(count.trim_end()) {
        Ok((count, "")) => Some((count, span)),
        _ => None,
    }
}
