mod allowed;
mod parity;
mod repeat;

pub use allowed::CountRange;
pub use parity::Parity;
pub use repeat::Repeat;

use self::allowed::Allowed;
use crate::error::Kind;
use crate::{Count, Error, Exact, Length, PerLength, Round, Spread, bounds};
use alloc::format;
use alloc::vec::Vec;
use core::fmt;

/// A chosen count, with what it was chosen from and what the choice cost.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Gauge, Length, Repeat, Round, Stitches};
/// let gauge: Gauge = "28x40/10cm".parse()?;
/// let fitted = gauge.fit::<Stitches>(Length::cm(52)?, Repeat::even(), Round::HalfUp)?;
/// assert_eq!(fitted.count, Stitches::new(146)?);
/// assert_eq!(fitted.ideal, "145.6".parse()?);
/// assert_eq!(fitted.residual, "10/7 mm".parse()?); // too wide
/// assert_eq!(fitted.to_string(), "146 stitches for 145.6");
/// # Ok::<(), loopwright_gauge::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(try_from = "Raw<C>", into = "Raw<C>"))]
#[cfg_attr(
    feature = "serde",
    serde(bound(
        serialize = "C: Count + serde::Serialize",
        deserialize = "C: Count + serde::Deserialize<'de>"
    ))
)]
#[non_exhaustive]
pub struct Fitted<C> {
    /// The count to knit.
    pub count: C,
    /// The exact, unrounded count that was asked for.
    pub ideal: Exact,
    /// The length the count really gives; its low and high are what the error of the
    /// gauge makes of it.
    pub length: Spread<Length>,
    /// The likely length less the length asked for: positive is too long.
    pub residual: Length,
}

impl<C: Count> Fitted<C> {
    /// The length that was asked for.
    ///
    /// # Errors
    /// When the length is out of bounds or cannot be held exactly.
    pub fn asked(self) -> Result<Length, Error> {
        self.length.likely().checked_sub(self.residual)
    }

    /// What `count` gives where `asked`, which is `ideal` of the count, was asked for.
    fn of(gauge: PerLength, asked: Length, ideal: Exact, count: C) -> Result<Self, Error> {
        let length = gauge.length_of(count.get().into())?;
        let residual = length.checked_sub(asked)?;
        Ok(Self { count, ideal, length: Spread::exactly(length), residual })
    }

    /// The same with the lengths that a gauge with its error may give.
    pub(crate) fn between(self, gauge: Spread<PerLength>) -> Result<Self, Error> {
        Ok(Self { length: gauge.length_of(self.count.into())?, ..self })
    }
}

impl<C: Count> fmt::Display for Fitted<C> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} for {}", self.count.counted(), self.ideal.decimal(2))
    }
}

pub(crate) fn fit<C: Count>(
    gauge: PerLength,
    asked: Length,
    repeat: Repeat,
    round: Round,
) -> Result<Fitted<C>, Error> {
    let ideal = ideal(gauge, asked)?;
    let count = Allowed::all(repeat).choose(ideal, round)?;
    Fitted::of(gauge, asked, ideal, count)
}

/// The count of `repeat` for the same ideal.
pub(crate) fn refit<C: Count>(
    fitted: &Fitted<C>,
    repeat: Repeat,
    round: Round,
) -> Result<C, Error> {
    Allowed::all(repeat).choose(fitted.ideal, round)
}

pub(crate) fn fit_within<C: Count>(
    gauge: PerLength,
    asked: Length,
    repeat: Repeat,
    range: CountRange<C>,
    round: Round,
) -> Result<Fitted<C>, Error> {
    let ideal = ideal(gauge, asked)?;
    let count = Allowed::within(repeat, range)?.choose(ideal, round)?;
    Fitted::of(gauge, asked, ideal, count)
}

pub(crate) fn nearest<C: Count>(
    gauge: PerLength,
    asked: Length,
    repeat: Repeat,
    range: Option<CountRange<C>>,
    each: u32,
) -> Result<Vec<Fitted<C>>, Error> {
    if each == 0 || each > bounds::CANDIDATES {
        let (what, given) = ("the number of candidates at each side", format!("{each}"));
        let allowed = format!("in 1..={}", bounds::CANDIDATES);
        return Err(Kind::Range { what, given, allowed }.into());
    }
    let ideal = ideal(gauge, asked)?;
    let allowed = match range {
        Some(range) => Allowed::within(repeat, range)?,
        None => Allowed::all(repeat),
    };
    let counts = allowed.nearest(ideal, each)?;
    counts.map(|count| Fitted::of(gauge, asked, ideal, count)).collect()
}

fn ideal(gauge: PerLength, asked: Length) -> Result<Exact, Error> {
    if asked < Length::ZERO {
        let (what, given) = ("the length to fit", format!("{asked}"));
        return Err(Kind::Range { what, given, allowed: "zero or more".into() }.into());
    }
    gauge.per(asked)
}

/// A fitted count as it is written.
#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
struct Raw<C> {
    count: C,
    ideal: Exact,
    length: Spread<Length>,
    residual: Length,
}

#[cfg(feature = "serde")]
impl<C: Count> TryFrom<Raw<C>> for Fitted<C> {
    type Error = Error;

    /// One gauge must explain both the ideal in the length asked for and the count in
    /// the length given.
    fn try_from(raw: Raw<C>) -> Result<Self, Error> {
        let Raw { count, ideal, length, residual } = raw;
        let fitted = Self { count, ideal, length, residual };
        let (asked, likely) = (fitted.asked()?, length.likely());
        let given = asked.millimetres().checked_mul(count.into())?;
        let whole = given == likely.millimetres().checked_mul(ideal)?;
        let signs = asked >= Length::ZERO && likely.is_positive() == (count.get() > 0);
        if whole && signs {
            return Ok(fitted);
        }
        let given = format!("{count} in {likely}, for {ideal} in {asked}");
        let (what, allowed) = ("the fitted count", "of one gauge".into());
        Err(Kind::Range { what, given, allowed }.into())
    }
}

#[cfg(feature = "serde")]
impl<C> From<Fitted<C>> for Raw<C> {
    fn from(fitted: Fitted<C>) -> Self {
        let Fitted { count, ideal, length, residual } = fitted;
        Self { count, ideal, length, residual }
    }
}
