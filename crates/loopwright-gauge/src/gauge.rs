use crate::error::Kind;
use crate::fit::{self, Fitted};
use crate::{Error, Exact, Length, Repeat, Round, Rows, Stitches, Unit, bounds, number};
use alloc::format;
use core::fmt;
use core::str::FromStr;

/// How many stitches and rows one fabric has in a length, exactly.
///
/// Two gauges are equal when they say the same, whatever length they were
/// measured over. It reads `28 x 40 / 10 cm`, `28x40/10cm` and `5.5x8/1in`, and
/// prints per 10 cm.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Gauge, Length};
/// let gauge: Gauge = "28x40/10cm".parse()?;
/// assert_eq!(gauge, "112 x 160 / 40 cm".parse()?);
/// assert_eq!(gauge.stitches_in(Length::cm(50)?)?.to_string(), "140");
/// # Ok::<(), loopwright_gauge::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
pub struct Gauge {
    stitches_per_mm: Exact,
    rows_per_mm: Exact,
}

const FORMS: &str = "write stitches x rows / length, such as 28 x 40 / 10 cm or 5.5x8/1in";

impl Gauge {
    /// `stitches` and `rows` over `span`.
    ///
    /// # Errors
    /// When `span` is not above zero, or either gauge is outside the bounds in
    /// [`bounds`].
    pub fn new(stitches: Exact, rows: Exact, span: Length) -> Result<Self, Error> {
        Ok(Self {
            stitches_per_mm: density("the stitch gauge", stitches, span)?,
            rows_per_mm: density("the row gauge", rows, span)?,
        })
    }

    /// Stitches in one millimetre.
    #[must_use]
    pub const fn stitches_per_mm(self) -> Exact {
        self.stitches_per_mm
    }

    /// Rows in one millimetre.
    #[must_use]
    pub const fn rows_per_mm(self) -> Exact {
        self.rows_per_mm
    }

    /// The exact, unrounded number of stitches in `length`.
    ///
    /// # Errors
    /// When the number cannot be held exactly.
    pub fn stitches_in(self, length: Length) -> Result<Exact, Error> {
        length.millimetres().checked_mul(self.stitches_per_mm)
    }

    /// The exact, unrounded number of rows in `length`.
    ///
    /// # Errors
    /// When the number cannot be held exactly.
    pub fn rows_in(self, length: Length) -> Result<Exact, Error> {
        length.millimetres().checked_mul(self.rows_per_mm)
    }

    /// How wide `stitches` are.
    ///
    /// # Errors
    /// When the width is out of bounds or cannot be held exactly.
    pub fn width_of(self, stitches: Stitches) -> Result<Length, Error> {
        Exact::from(stitches.get())
            .checked_div(self.stitches_per_mm)
            .and_then(Length::from_millimetres)
    }

    /// How tall `rows` are.
    ///
    /// # Errors
    /// When the height is out of bounds or cannot be held exactly.
    pub fn height_of(self, rows: Rows) -> Result<Length, Error> {
        Exact::from(rows.get()).checked_div(self.rows_per_mm).and_then(Length::from_millimetres)
    }

    /// The count of stitches that `repeat` allows and `round` chooses for `width`.
    ///
    /// # Errors
    /// When `width` is negative, nothing fits, or [`Round::Exact`] meets a remainder.
    pub fn fit_stitches(
        self,
        width: Length,
        repeat: Repeat,
        round: Round,
    ) -> Result<Fitted<Stitches>, Error> {
        fit::fit(self.stitches_per_mm, width, repeat, round)
    }

    /// The count of rows that `repeat` allows and `round` chooses for `height`.
    ///
    /// # Errors
    /// When `height` is negative, nothing fits, or [`Round::Exact`] meets a remainder.
    pub fn fit_rows(
        self,
        height: Length,
        repeat: Repeat,
        round: Round,
    ) -> Result<Fitted<Rows>, Error> {
        fit::fit(self.rows_per_mm, height, repeat, round)
    }
}

fn density(what: &'static str, count: Exact, span: Length) -> Result<Exact, Error> {
    let refuse = |given| {
        let (most, fewest) = (bounds::GAUGE_PER_10CM, bounds::GAUGE_DECIMETRES_PER_COUNT);
        let allowed = format!("in 1/{fewest}..={most} per 10 cm");
        Error::from(Kind::Range { what, given, allowed })
    };
    if !span.is_positive() {
        let allowed = "above zero".into();
        return Err(Kind::Range {
            what: "the length of the gauge",
            given: format!("{span}"),
            allowed,
        }
        .into());
    }
    let per_mm = count.checked_div(span.millimetres())?;
    let per_10cm = per_mm.checked_mul(Exact::whole(100))?;
    let fewest = Exact::new(1, bounds::GAUGE_DECIMETRES_PER_COUNT)?;
    if per_10cm < fewest || per_10cm > Exact::whole(bounds::GAUGE_PER_10CM) {
        return Err(refuse(format!("{per_10cm} per 10 cm")));
    }
    Ok(per_mm)
}

impl fmt::Display for Gauge {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let per_10cm =
            |density: Exact| density.checked_mul(Exact::whole(100)).map_err(|_| fmt::Error);
        write!(f, "{} x {} / 10 cm", per_10cm(self.stitches_per_mm)?, per_10cm(self.rows_per_mm)?)
    }
}

impl FromStr for Gauge {
    type Err = Error;

    fn from_str(text: &str) -> Result<Self, Error> {
        let refuse = || Error::parse("the gauge", text, FORMS);
        let (stitches, rest) = number::leading(text).map_err(|_| refuse())?;
        let rest = rest.trim_start().strip_prefix(['x', 'X', '×']).ok_or_else(refuse)?;
        let (rows, rest) = rows_and_span(rest.trim_start()).ok_or_else(refuse)?;
        let span: Length = match rest.trim() {
            unit if Unit::from_symbol(unit).is_some() => format!("1 {unit}").parse()?,
            span => span.parse()?,
        };
        Self::new(stitches, rows, span)
    }
}

/// The rows and the text of the span, at the last slash: `40/10cm` is forty rows,
/// not a fraction.
fn rows_and_span(text: &str) -> Option<(Exact, &str)> {
    let (rows, span) = text.rsplit_once('/')?;
    Some((rows.trim_end().parse().ok()?, span))
}
