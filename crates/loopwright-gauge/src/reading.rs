use crate::error::Kind;
use crate::{Error, Exact, Length, PerLength, bounds, number};
use alloc::format;
use core::fmt;
use core::str::FromStr;

/// Which way of the fabric is counted.
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
pub enum Direction {
    /// Across: stitches (wales), which make the width.
    Stitches,
    /// Along: rows (courses), which make the height.
    Rows,
}

impl Direction {
    /// What is counted, in the plural.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Stitches => "stitches",
            Self::Rows => "rows",
        }
    }
}

impl fmt::Display for Direction {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

/// One reading of a swatch: so many stitches, or rows, over a length.
///
/// Both habits are the same reading: the stitches in a fixed length (`28.5 st =
/// 10 cm`) and the width of a fixed count, as machine knitters measure it (`40 st =
/// 13.3 cm`, `60 rows = 15.4 cm`).
///
/// # Examples
/// ```
/// use loopwright_gauge::{Direction, Reading};
/// let reading: Reading = "60 rows = 15.4 cm".parse()?;
/// assert_eq!(reading.direction(), Direction::Rows);
/// assert_eq!(reading.to_string(), "60 rows = 154 mm");
/// # Ok::<(), loopwright_gauge::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
pub struct Reading {
    count: Exact,
    direction: Direction,
    span: Length,
    gauge: PerLength,
}

const WHAT: &str = "the reading";
const FORMS: &str = "write a count = a length, such as 40 st = 13.3 cm or 60 rows = 15.4 cm";

impl Reading {
    /// `count` stitches or rows, fractions allowed, over `span`.
    ///
    /// # Errors
    /// When `count` is not above zero or above [`bounds::COUNT`], `span` is not above
    /// zero, or the gauge they give is outside the bounds in [`bounds`].
    pub fn new(count: Exact, direction: Direction, span: Length) -> Result<Self, Error> {
        if !count.is_positive() || count > bounds::COUNT.into() {
            let what = match direction {
                Direction::Stitches => "the count of stitches read",
                Direction::Rows => "the count of rows read",
            };
            let allowed = format!("above 0 and at most {}", bounds::COUNT);
            return Err(Kind::Range { what, given: format!("{count}"), allowed }.into());
        }
        if !span.is_positive() {
            let (what, given) = ("the length of the reading", format!("{span}"));
            return Err(Kind::Range { what, given, allowed: "above zero".into() }.into());
        }
        let gauge = PerLength::named("the gauge of the reading", count, span)?;
        Ok(Self { count, direction, span, gauge })
    }

    /// How many were counted.
    #[must_use]
    pub const fn count(self) -> Exact {
        self.count
    }

    /// What was counted.
    #[must_use]
    pub const fn direction(self) -> Direction {
        self.direction
    }

    /// The length they were counted over.
    #[must_use]
    pub const fn span(self) -> Length {
        self.span
    }

    /// The gauge this reading alone gives.
    #[must_use]
    pub const fn gauge(self) -> PerLength {
        self.gauge
    }
}

impl fmt::Display for Reading {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let word = match self.direction {
            Direction::Stitches => "st",
            Direction::Rows => "rows",
        };
        write!(f, "{} {word} = {}", self.count, self.span)
    }
}

impl FromStr for Reading {
    type Err = Error;

    fn from_str(text: &str) -> Result<Self, Error> {
        let refuse = |why| Error::parse(WHAT, text, why);
        let (counted, span) = text.split_once('=').ok_or_else(|| refuse(FORMS))?;
        let (count, word) =
            number::leading(counted.trim()).map_err(|fault| refuse(fault.or(FORMS)))?;
        let direction = match word.trim_start() {
            "st" | "sts" | "stitch" | "stitches" | "wales" => Direction::Stitches,
            "row" | "rows" | "courses" => Direction::Rows,
            _ => return Err(refuse(FORMS)),
        };
        Self::new(count, direction, span.trim().parse()?)
    }
}
