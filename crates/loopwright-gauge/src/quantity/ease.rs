use crate::error::Kind;
use crate::number::text;
use crate::{Error, Exact, Length, bounds};
use alloc::format;
use core::fmt;
use core::str::FromStr;

/// How much larger a garment is than the body: as a length, or in percent of the body.
/// Below zero the garment stretches.
///
/// It reads and prints `5 cm`, `-2 in` and `-10 %`.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Ease, Length};
/// let sock: Ease = "-10 %".parse()?;
/// assert_eq!(sock.apply("8 in".parse()?)?, "7.2 in".parse()?);
/// # Ok::<(), loopwright_gauge::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
pub struct Ease(Amount);

#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
enum Amount {
    Length(Length),
    Percent(Exact),
}

const WHAT: &str = "the ease";
const FORMS: &str = "write a length or a percentage, such as 5 cm, -2 in or -10 %";

impl Ease {
    /// No ease: the garment is as large as the body.
    pub const NONE: Self = Self(Amount::Length(Length::ZERO));

    /// Ease as a length.
    #[must_use]
    pub const fn length(length: Length) -> Self {
        Self(Amount::Length(length))
    }

    /// Ease in percent of the body's measure.
    ///
    /// # Errors
    /// When `percent` is outside [`bounds::EASE_PERCENT`].
    pub fn percent(percent: Exact) -> Result<Self, Error> {
        let (least, most) = (*bounds::EASE_PERCENT.start(), *bounds::EASE_PERCENT.end());
        if (least.into()..=most.into()).contains(&percent) {
            return Ok(Self(Amount::Percent(percent)));
        }
        let (given, allowed) = (format!("{percent} %"), format!("in {least}..={most} %"));
        Err(Kind::Range { what: WHAT, given, allowed }.into())
    }

    /// The ease that makes a body's measure into a garment's.
    ///
    /// # Errors
    /// When the difference is out of bounds or cannot be held exactly.
    pub fn between(body: Length, garment: Length) -> Result<Self, Error> {
        garment.checked_sub(body).map(Self::length)
    }

    /// The length added to `body`.
    ///
    /// # Errors
    /// When the length is out of bounds or cannot be held exactly.
    pub fn on(self, body: Length) -> Result<Length, Error> {
        match self.0 {
            Amount::Length(length) => Ok(length),
            Amount::Percent(percent) => body.scaled(percent.checked_div(Exact::whole(100))?),
        }
    }

    /// The garment's measure for `body`.
    ///
    /// # Errors
    /// When `body` or what is left of it is not above zero, or the length is out of
    /// bounds.
    pub fn apply(self, body: Length) -> Result<Length, Error> {
        let garment = body.checked_add(self.on(body)?)?;
        for (what, length) in [("the body's measure", body), ("the garment's measure", garment)] {
            if !length.is_positive() {
                let given = format!("{length}");
                return Err(Kind::Range { what, given, allowed: "above zero".into() }.into());
            }
        }
        Ok(garment)
    }
}

impl fmt::Display for Ease {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.0 {
            Amount::Length(length) => length.fmt(f),
            Amount::Percent(percent) => write!(f, "{percent} %"),
        }
    }
}

impl FromStr for Ease {
    type Err = Error;

    fn from_str(given: &str) -> Result<Self, Error> {
        let refuse = |why| Error::parse(WHAT, given, why);
        let (amount, unit) = text::leading(given).map_err(|fault| refuse(fault.or(FORMS)))?;
        if unit.trim_start() == "%" {
            return Self::percent(amount);
        }
        match given.parse() {
            Ok(length) => Ok(Self::length(length)),
            Err(why) => Err(if Error::is_parse(&why) { refuse(FORMS) } else { why }),
        }
    }
}
