use crate::error::Kind;
use crate::{Error, Exact, Gauge, Length, PerLength};
use alloc::format;

/// How much a fabric changed from one treatment to the next, in percent of what it
/// was: below zero it shrank (the sign of ISO 5077).
///
/// # Examples
/// ```
/// use loopwright_gauge::{DimensionalChange, Exact};
/// let washed = DimensionalChange::between("28x40/10cm".parse()?, "28x50/10cm".parse()?)?;
/// assert_eq!(washed.width_percent, Exact::ZERO);
/// assert_eq!(washed.length_percent, Exact::whole(-20)); // the same rows, shorter
/// # Ok::<(), loopwright_gauge::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
pub struct DimensionalChange {
    /// Across: `(after - before) / before` of a width, times 100.
    pub width_percent: Exact,
    /// Along: the same of a height.
    pub length_percent: Exact,
}

impl DimensionalChange {
    /// From the gauges of the same fabric before and after.
    ///
    /// # Errors
    /// When a row gauge is not known, or a percentage cannot be held exactly.
    pub fn between(before: Gauge, after: Gauge) -> Result<Self, Error> {
        Ok(Self {
            width_percent: of_gauge(before.stitches(), after.stitches())?,
            length_percent: of_gauge(before.rows()?, after.rows()?)?,
        })
    }

    /// From the measures of the same piece before and after: width, then height.
    ///
    /// # Errors
    /// When a measure is not above zero, or a percentage cannot be held exactly.
    pub fn measured(before: (Length, Length), after: (Length, Length)) -> Result<Self, Error> {
        Ok(Self {
            width_percent: of_length(before.0, after.0)?,
            length_percent: of_length(before.1, after.1)?,
        })
    }
}

/// The same count is `1 / gauge` long, so the gauges go the other way round.
fn of_gauge(before: PerLength, after: PerLength) -> Result<Exact, Error> {
    percent(before.per_mm().checked_div(after.per_mm())?)
}

fn of_length(before: Length, after: Length) -> Result<Exact, Error> {
    for length in [before, after] {
        if !length.is_positive() {
            let (what, given) = ("the measure of the fabric", format!("{length}"));
            return Err(Kind::Range { what, given, allowed: "above zero".into() }.into());
        }
    }
    percent(after.ratio(before)?)
}

fn percent(ratio: Exact) -> Result<Exact, Error> {
    ratio.checked_sub(Exact::ONE)?.checked_mul(Exact::whole(100))
}
