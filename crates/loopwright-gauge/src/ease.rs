use crate::error::Kind;
use crate::{Error, Exact, Length, OpenRange, bounds, number};
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
        if percent >= Exact::whole(least) && percent <= Exact::whole(most) {
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

    fn from_str(text: &str) -> Result<Self, Error> {
        let refuse = |why| Error::parse(WHAT, text, why);
        let (amount, unit) = number::leading(text).map_err(|fault| refuse(fault.or(FORMS)))?;
        if unit.trim_start() == "%" {
            return Self::percent(amount);
        }
        match text.parse() {
            Ok(length) => Ok(Self::length(length)),
            Err(why) => Err(if Error::is_parse(&why) { refuse(FORMS) } else { why }),
        }
    }
}

/// Which version of the Craft Yarn Council's chart of fits is meant: "close" is 1 to
/// 2 in of ease in the older one, and none in the newer.
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum EaseChart {
    /// The older chart, in which "very close" is the body's measure or less.
    Older,
    /// The newer chart, in which "very close" is 2 to 4 in less and "close" none.
    Newer,
}

/// The trade's classes of fit at the chest.
#[derive(Clone, Copy, Debug, Eq, Hash, Ord, PartialEq, PartialOrd)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum EaseClass {
    /// Stretched over the body.
    VeryClose,
    /// Skimming the body.
    Close,
    /// Also called classic.
    Standard,
    /// Roomy.
    Loose,
    /// Roomier than loose.
    Oversized,
}

impl EaseClass {
    /// All classes, the closest first.
    pub const ALL: [Self; 5] =
        [Self::VeryClose, Self::Close, Self::Standard, Self::Loose, Self::Oversized];

    /// The name of the class.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::VeryClose => "very close",
            Self::Close => "close",
            Self::Standard => "standard",
            Self::Loose => "loose",
            Self::Oversized => "oversized",
        }
    }
}

impl fmt::Display for EaseClass {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

impl EaseChart {
    /// The ease of a class as the chart prints it in inches.
    #[must_use]
    pub fn inches(self, class: EaseClass) -> OpenRange<Length> {
        self.ends(class).map(|(inches, _)| Length::literal(Exact::literal(inches * 254, 10)))
    }

    /// The ease of a class as the chart prints it in centimetres, which are rounded.
    #[must_use]
    pub fn centimetres(self, class: EaseClass) -> OpenRange<Length> {
        self.ends(class).map(|(_, millimetres)| Length::literal(Exact::whole(millimetres)))
    }

    /// The classes that `ease` belongs to, in inches or in centimetres as printed: two
    /// where ranges meet, none in a gap between them.
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::{EaseChart, EaseClass, Length};
    /// let classes: Vec<EaseClass> = EaseChart::Older.classes(Length::inches(2)?).collect();
    /// assert_eq!(classes, [EaseClass::Close, EaseClass::Standard]);
    /// # Ok::<(), loopwright_gauge::Error>(())
    /// ```
    pub fn classes(self, ease: Length) -> impl Iterator<Item = EaseClass> {
        EaseClass::ALL.into_iter().filter(move |&class| {
            self.inches(class).contains(&ease) || self.centimetres(class).contains(&ease)
        })
    }

    /// Each end in inches, and in millimetres from the centimetres printed.
    const fn ends(self, class: EaseClass) -> OpenRange<(i64, i64)> {
        const fn range(low: Option<(i64, i64)>, high: Option<(i64, i64)>) -> OpenRange<(i64, i64)> {
            OpenRange { low, high }
        }
        match (self, class) {
            (Self::Older, EaseClass::VeryClose) => range(None, Some((0, 0))),
            (Self::Older, EaseClass::Close) => range(Some((1, 25)), Some((2, 50))),
            (Self::Newer, EaseClass::VeryClose) => range(Some((-4, -100)), Some((-2, -50))),
            (Self::Newer, EaseClass::Close) => range(Some((0, 0)), Some((0, 0))),
            (_, EaseClass::Standard) => range(Some((2, 50)), Some((4, 100))),
            (_, EaseClass::Loose) => range(Some((4, 100)), Some((6, 150))),
            (_, EaseClass::Oversized) => range(Some((6, 150)), None),
        }
    }
}
