use crate::error::Kind;
use crate::number::text;
use crate::{Error, Exact, Length, Unit, bounds};
use alloc::format;
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
}

impl fmt::Display for PerLength {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let per_10cm = self.0.checked_mul(Exact::whole(100)).map_err(|_| fmt::Error)?;
        write!(f, "{per_10cm} / 10 cm")
    }
}

impl FromStr for PerLength {
    type Err = Error;

    fn from_str(text: &str) -> Result<Self, Error> {
        let refuse = || Error::parse(WHAT, text, FORMS);
        let (count, span) = count_and_span(text).ok_or_else(refuse)?;
        Self::new(count, span_of_one(span.trim())?)
    }
}

/// The span of a gauge: a length, or a bare unit for one of it.
pub(crate) fn span_of_one(given: &str) -> Result<Length, Error> {
    match Unit::from_symbol(given) {
        Some(unit) => Length::new(Exact::ONE, unit),
        None => given.parse(),
    }
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
