mod numbers;

pub use numbers::{Number, Numbers, Sum};

use crate::fit::{self, Fitted};
use crate::{Count, Error, Gauge, PerLength, Repeat, Round, Rows, Stitches};
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;
use core::fmt;

/// From the gauge a pattern was published at to the gauge it will be knitted at.
///
/// Every count keeps its length as nearly as its repeat allows; edge stitches are
/// part of that length. Rows follow the row gauges measured, never the ratio of the
/// stitch gauges.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Regauge, Repeat, Round, Stitches};
/// let regauge = Regauge::new("5x7/1in".parse()?, "4x6/1in".parse()?);
/// let six = Repeat::multiple_of(6)?;
/// let fitted = regauge.stitches(Stitches::new(96)?, six, Round::HalfUp)?;
/// assert_eq!(fitted.ideal, "76.8".parse()?);
/// assert_eq!(fitted.count.get(), 78);
/// # Ok::<(), loopwright_gauge::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
pub struct Regauge {
    from: Gauge,
    to: Gauge,
}

/// The numbers of a small pattern at the new gauge, in the order they were given.
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

/// Something that held among the published counts and no longer would.
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(
    feature = "serde",
    serde(
        rename_all = "snake_case",
        bound(
            serialize = "C: Count + serde::Serialize",
            deserialize = "C: Count + serde::Deserialize<'de>"
        )
    )
)]
#[non_exhaustive]
pub enum Warning<C> {
    /// The published count is no count of its own repeat.
    Repeat {
        /// The number's name.
        name: String,
        /// The published count.
        published: C,
        /// What it was said to be.
        repeat: Repeat,
    },
    /// An even count would become odd, or an odd one even.
    Parity {
        /// The number's name.
        name: String,
        /// The published count.
        published: C,
        /// The count it would become.
        count: C,
        /// The nearest count that keeps both parity and repeat, if there is one.
        keeps: Option<C>,
    },
    /// Counts that added up would not.
    Sum {
        /// The names of what is added up.
        parts: Vec<String>,
        /// The name of what it came to.
        whole: String,
        /// The whole less its parts at the new gauge: below zero the parts are too many.
        missing: i64,
    },
}

impl Regauge {
    /// From one gauge to another.
    #[must_use]
    pub const fn new(from: Gauge, to: Gauge) -> Self {
        Self { from, to }
    }

    /// A count of stitches at the new gauge; the length asked for is the published one.
    ///
    /// # Errors
    /// When nothing fits, or [`Round::Exact`] meets a remainder.
    pub fn stitches(
        self,
        count: Stitches,
        repeat: Repeat,
        round: Round,
    ) -> Result<Fitted<Stitches>, Error> {
        one((self.from.stitches(), self.to.stitches()), count, repeat, round)
    }

    /// A count of rows at the new gauge; the length asked for is the published one.
    ///
    /// # Errors
    /// When nothing fits, or [`Round::Exact`] meets a remainder.
    pub fn rows(self, count: Rows, repeat: Repeat, round: Round) -> Result<Fitted<Rows>, Error> {
        one((self.from.rows(), self.to.rows()), count, repeat, round)
    }

    /// The stitches of a small pattern at the new gauge, each fitted by itself, with a
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
    /// let regauged = regauge.all_stitches(&back, Round::HalfUp)?;
    /// let counts: Vec<u32> = regauged.counts.iter().map(|fitted| fitted.count.get()).collect();
    /// assert_eq!(counts, [29, 34, 93]);
    /// let warnings: Vec<String> = regauged.warnings.iter().map(ToString::to_string).collect();
    /// assert_eq!(warnings, [
    ///     "neck: 27 is odd, but 34 would be even; 35 keeps it odd",
    ///     "shoulder + neck + shoulder would be 1 short of back",
    /// ]);
    /// # Ok::<(), loopwright_gauge::Error>(())
    /// ```
    pub fn all_stitches(
        self,
        numbers: &Numbers<Stitches>,
        round: Round,
    ) -> Result<Regauged<Stitches>, Error> {
        all((self.from.stitches(), self.to.stitches()), numbers, round)
    }

    /// The rows of a small pattern at the new gauge, as [`Regauge::all_stitches`].
    ///
    /// # Errors
    /// When a count cannot be fitted.
    pub fn all_rows(self, numbers: &Numbers<Rows>, round: Round) -> Result<Regauged<Rows>, Error> {
        all((self.from.rows(), self.to.rows()), numbers, round)
    }
}

type FromTo = (PerLength, PerLength);

fn one<C: Count>(
    (from, to): FromTo,
    count: C,
    repeat: Repeat,
    round: Round,
) -> Result<Fitted<C>, Error> {
    fit::fit(to, from.length_of(count.get().into())?, repeat, round)
}

fn all<C: Count>(gauges: FromTo, numbers: &Numbers<C>, round: Round) -> Result<Regauged<C>, Error> {
    let fitted = |number: &Number<C>| one(gauges, number.count, number.repeat, round);
    let counts = numbers.numbers().iter().map(fitted).collect::<Result<Vec<_>, _>>()?;
    let mut warnings = Vec::new();
    for (number, fitted) in numbers.numbers().iter().zip(&counts) {
        warnings.extend(repeat_warning(number));
        warnings.extend(parity_warning(number, fitted)?);
    }
    for sum in numbers.sums() {
        warnings.extend(sum_warning(numbers, sum, &counts));
    }
    Ok(Regauged { counts, warnings })
}

fn repeat_warning<C: Count>(number: &Number<C>) -> Option<Warning<C>> {
    let (name, published, repeat) = (number.name.clone(), number.count, number.repeat);
    (!repeat.allows(published.get())).then_some(Warning::Repeat { name, published, repeat })
}

fn parity_warning<C: Count>(
    number: &Number<C>,
    fitted: &Fitted<C>,
) -> Result<Option<Warning<C>>, Error> {
    let odd = number.count.get() % 2;
    if fitted.count.get() % 2 == odd {
        return Ok(None);
    }
    let (name, published, count) = (number.name.clone(), number.count, fitted.count);
    let keeps = number.repeat.with_parity(odd == 1).map(|repeat| fit::refit(fitted, repeat));
    let keeps = keeps.transpose()?;
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

const fn parity(count: u32) -> &'static str {
    if count.is_multiple_of(2) { "even" } else { "odd" }
}

impl<C: Count> fmt::Display for Warning<C> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Repeat { name, published, repeat } => {
                write_name(f, name, *published)?;
                write!(f, "{published} is not a {repeat}")
            }
            Self::Parity { name, published, count, keeps } => {
                let (was, is) = (parity(published.get()), parity(count.get()));
                write_name(f, name, *published)?;
                write!(f, "{published} is {was}, but {count} would be {is}; ")?;
                match keeps {
                    Some(keeps) => write!(f, "{keeps} keeps it {was}"),
                    None => write!(f, "its repeat has no {was} count"),
                }
            }
            Self::Sum { parts, whole, missing } => {
                let (by, side) = (missing.abs(), if *missing > 0 { "short of" } else { "over" });
                write!(f, "{} would be {by} {side} {whole}", parts.join(" + "))
            }
        }
    }
}

/// A number that is called by its count needs no name.
fn write_name<C: Count>(f: &mut fmt::Formatter<'_>, name: &str, published: C) -> fmt::Result {
    if name == format!("{published}") { Ok(()) } else { write!(f, "{name}: ") }
}
