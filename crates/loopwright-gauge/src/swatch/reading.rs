use crate::error::Kind;
use crate::number::text;
use crate::{Choice as _, Error, Exact, Length, PerLength, bounds, choices};
use alloc::format;
use core::fmt;
use core::str::FromStr;

choices! {
    /// Which way of the fabric is counted.
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::ReadingDirection;
    /// assert_eq!("wales".parse(), Ok(ReadingDirection::Stitches));
    /// ```
    pub enum ReadingDirection: "what is counted" {
        /// Across: stitches (wales), which make the width.
        Stitches = "stitches" | "st" | "sts" | "stitch" | "wales",
        /// Along: rows (courses), which make the height.
        Rows = "rows" | "row" | "courses",
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
/// use loopwright_gauge::{ReadingDirection, Reading};
/// let reading: Reading = "60 rows = 15.4 cm".parse()?;
/// assert_eq!(reading.direction(), ReadingDirection::Rows);
/// assert_eq!(reading.to_string(), "60 rows = 154 mm");
/// # Ok::<(), loopwright_gauge::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
pub struct Reading {
    count: Exact,
    direction: ReadingDirection,
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
    pub fn new(count: Exact, direction: ReadingDirection, span: Length) -> Result<Self, Error> {
        if !count.is_positive() || count > bounds::COUNT.into() {
            let what = match direction {
                ReadingDirection::Stitches => "the count of stitches read",
                ReadingDirection::Rows => "the count of rows read",
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
    pub const fn direction(self) -> ReadingDirection {
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
            ReadingDirection::Stitches => "st",
            ReadingDirection::Rows => "rows",
        };
        write!(f, "{} {word} = {}", self.count, self.span)
    }
}

impl FromStr for Reading {
    type Err = Error;

    fn from_str(given: &str) -> Result<Self, Error> {
        let refuse = |why| Error::parse(WHAT, given, why);
        let (counted, span) = given.split_once('=').ok_or_else(|| refuse(FORMS))?;
        let (count, word) =
            text::leading(counted.trim()).map_err(|fault| refuse(fault.or(FORMS)))?;
        let direction = ReadingDirection::read(word.trim_start()).map_err(|_| refuse(FORMS))?;
        Self::new(count, direction, span.trim().parse()?)
    }
}
