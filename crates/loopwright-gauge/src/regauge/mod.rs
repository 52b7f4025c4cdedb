mod edge_stitches;
mod numbers;
mod warning;

pub use edge_stitches::EdgeStitches;
pub use numbers::{Number, Numbers, Sum};
pub use warning::Warning;

use crate::error::Kind;
use crate::fit::{self, Fitted};
use crate::{Count, Error, Gauge, Parity, Repeat, Round};
use alloc::format;
use alloc::vec::Vec;

/// From the gauge a pattern was published at to the gauge it will be knitted at.
///
/// Every count keeps its length as nearly as its repeat allows. The edge stitches of its
/// repeat are part of that length, or are kept as they are: see [`EdgeStitches`]. Rows
/// follow the row gauges measured, never the ratio of the stitch gauges.
///
/// # Examples
/// ```
/// use loopwright_gauge::{EdgeStitches, Regauge, Repeat, Round, Stitches};
/// let regauge = Regauge::new("5x7/1in".parse()?, "4x6/1in".parse()?);
/// let six = Repeat::multiple_of(6)?;
/// let fitted = regauge.fit(Stitches::new(96)?, six, Round::HalfUp)?;
/// assert_eq!(fitted.ideal, "76.8".parse()?);
/// assert_eq!(fitted.count.get(), 78);
/// // 96 stitches with a seam stitch at each side: only the 94 between them are scaled.
/// let seamed = Repeat::new(1, 0, 1)?;
/// let kept = regauge.edge_stitches(EdgeStitches::Kept);
/// assert_eq!(kept.fit(Stitches::new(96)?, seamed, Round::HalfUp)?.ideal, "77.2".parse()?);
/// # Ok::<(), loopwright_gauge::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
pub struct Regauge {
    from: Gauge,
    to: Gauge,
    #[cfg_attr(feature = "serde", serde(default))]
    edge_stitches: EdgeStitches,
}

/// The numbers of a small pattern at the new gauge, in the order they were given.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Numbers, Regauge, Repeat, Round, Rows};
/// let body = Numbers::new([("body".into(), (Rows::new(40)?, Repeat::even()))])?;
/// let regauge = Regauge::new("20x30/10cm".parse()?, "28x45/10cm".parse()?);
/// let regauged = regauge.fit_all(&body, Round::HalfUp)?;
/// assert_eq!(regauged.counts[0].count, Rows::new(60)?);
/// assert!(regauged.warnings.is_empty());
/// # Ok::<(), loopwright_gauge::Error>(())
/// ```
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(
    feature = "serde",
    serde(
        deny_unknown_fields,
        bound(
            serialize = "C: Count + serde::Serialize",
            deserialize = "C: Count + serde::Deserialize<'de>"
        )
    )
)]
#[non_exhaustive]
pub struct Regauged<C> {
    /// Each number fitted by itself.
    pub counts: Vec<Fitted<C>>,
    /// What would break: nothing is mended unasked.
    pub warnings: Vec<Warning<C>>,
}

impl Regauge {
    /// From one gauge to another, edge stitches scaled like the rest.
    #[must_use]
    pub const fn new(from: Gauge, to: Gauge) -> Self {
        Self { from, to, edge_stitches: EdgeStitches::Scaled }
    }

    /// The same with the edge stitches of every repeat scaled or kept.
    #[must_use]
    pub const fn edge_stitches(self, edge_stitches: EdgeStitches) -> Self {
        Self { edge_stitches, ..self }
    }

    /// A count at the new gauge; the length asked for is the published one.
    ///
    /// # Errors
    /// When either gauge does not know its rows and rows are asked for, the count has
    /// fewer stitches than its edges keep, nothing fits, or [`Round::Exact`] meets a
    /// remainder.
    pub fn fit<C: Count>(self, count: C, repeat: Repeat, round: Round) -> Result<Fitted<C>, Error> {
        let (from, to) = (self.from.of::<C>()?, self.to.of::<C>()?);
        let kept = C::new(self.edge_stitches.kept(repeat))?;
        let scaled = count.checked_sub(kept).map_err(|_| too_few(count, kept))?;
        let asked = from.length_of(scaled.into())?.checked_add(to.length_of(kept.into())?)?;
        fit::fit(to, asked, repeat, round)
    }

    /// The counts of a small pattern at the new gauge, each fitted by itself, with a
    /// warning wherever a repeat, a parity or a sum would break.
    ///
    /// The nearest set that keeps every sum is a question for joint rounding, which is
    /// not this crate's.
    ///
    /// # Errors
    /// When a count cannot be fitted.
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::{Numbers, Regauge, Repeat, Round, Stitches};
    /// let number = |n| Stitches::new(n).map(|count| (count, Repeat::any()));
    /// let back = Numbers::new([
    ///     ("shoulder".into(), number(23)?),
    ///     ("neck".into(), number(27)?),
    ///     ("back".into(), number(73)?),
    /// ])?
    /// .sum(&["shoulder", "neck", "shoulder"], "back")?;
    /// let regauge = Regauge::new("22x30/10cm".parse()?, "28x40/10cm".parse()?);
    /// let regauged = regauge.fit_all(&back, Round::HalfUp)?;
    /// let counts: Vec<u32> = regauged.counts.iter().map(|fitted| fitted.count.get()).collect();
    /// assert_eq!(counts, [29, 34, 93]);
    /// let warnings: Vec<String> = regauged.warnings.iter().map(ToString::to_string).collect();
    /// assert_eq!(warnings, [
    ///     "neck: 27 is odd, but 34 would be even; 35 keeps it odd",
    ///     "shoulder + neck + shoulder would be 1 short of back",
    /// ]);
    /// # Ok::<(), loopwright_gauge::Error>(())
    /// ```
    pub fn fit_all<C: Count>(
        self,
        numbers: &Numbers<C>,
        round: Round,
    ) -> Result<Regauged<C>, Error> {
        let fitted = |number: &Number<C>| self.fit(number.count, number.repeat, round);
        let counts = numbers.numbers().iter().map(fitted).collect::<Result<Vec<_>, _>>()?;
        let mut warnings = Vec::new();
        for (number, fitted) in numbers.numbers().iter().zip(&counts) {
            warnings.extend(repeat_warning(number));
            warnings.extend(parity_warning(number, fitted, round)?);
        }
        for sum in numbers.sums() {
            warnings.extend(sum_warning(numbers, sum, &counts));
        }
        Ok(Regauged { counts, warnings })
    }
}

#[cold]
fn too_few<C: Count>(count: C, kept: C) -> Error {
    let (what, given) = (C::OF, format!("{count}"));
    Kind::Range { what, given, allowed: format!("at least the {kept} of its edges") }.into()
}

fn repeat_warning<C: Count>(number: &Number<C>) -> Option<Warning<C>> {
    let (name, published, repeat) = (number.name.clone(), number.count, number.repeat);
    (!repeat.allows(published.get())).then_some(Warning::Repeat { name, published, repeat })
}

fn parity_warning<C: Count>(
    number: &Number<C>,
    fitted: &Fitted<C>,
    round: Round,
) -> Result<Option<Warning<C>>, Error> {
    let parity = Parity::of(number.count);
    if Parity::of(fitted.count) == parity {
        return Ok(None);
    }
    let (name, published, count) = (number.name.clone(), number.count, fitted.count);
    let keeps = number.repeat.with_parity(parity).map(|repeat| fit::refit(fitted, repeat, round));
    let keeps = match keeps {
        // Rounded as asked, no count of that parity may be left.
        Some(Err(why)) if why.is_unmet() => None,
        keeps => keeps.transpose()?,
    };
    Ok(Some(Warning::Parity { name, published, count, keeps }))
}

fn sum_warning<C: Count>(
    numbers: &Numbers<C>,
    sum: &Sum,
    counts: &[Fitted<C>],
) -> Option<Warning<C>> {
    let missing = numbers.missing(sum, |at| counts.get(at).map(|fitted| fitted.count))?;
    let Sum { parts, whole } = sum.clone();
    (missing != 0).then_some(Warning::Sum { parts, whole, missing })
}
