use crate::{Error, Join, Span};
use alloc::format;
use core::fmt::Display;
use loopwright_gauge::{Exact, Length};

/// No edge is longer than any other by more.
const ANY: Length = Length::literal_mm(loopwright_gauge::bounds::LENGTH_MM);

/// How much longer than the second edge the first may be.
///
/// # Examples
/// ```
/// use loopwright_gauge::Length;
/// use loopwright_seams::{Join, SeamEase, Tolerance};
/// assert_eq!(Join::Eased.tolerance().ease(), SeamEase::SetIn);
/// let ease = SeamEase::By { least: Length::ZERO, most: Length::literal_mm(15) };
/// assert_eq!(Tolerance::new(0, ease)?.ease(), ease);
/// # Ok::<(), loopwright_seams::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case", deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub enum SeamEase {
    /// By at least and at most these lengths; below zero is shorter.
    By {
        /// The least.
        least: Length,
        /// The most.
        most: Length,
    },
    /// At least and at most these many times as long.
    Times {
        /// The least.
        least: Exact,
        /// The most.
        most: Exact,
    },
    /// By zero to one inch: a sleeve cap in its armhole.
    SetIn,
    /// Longer or shorter by so many stitches (or rows) of the second edge, or by a
    /// share of its length, whichever is more.
    Near {
        /// Stitches of the second edge, or its rows where it has rows.
        counts: u32,
        /// A share of its length, in thousandths.
        per_mille: u32,
    },
}

/// How far two edges may differ and still be joined.
///
/// Joins that pair stitches or rows use the counts; joins by length use the ease.
///
/// # Examples
/// ```
/// use loopwright_gauge::Length;
/// use loopwright_seams::Tolerance;
/// let gathered = Tolerance::gathered("1.5".parse()?, "2".parse()?)?;
/// let set_in = Tolerance::eased(Length::ZERO, Length::inches(1)?)?;
/// assert_ne!(gathered, set_in);
/// # Ok::<(), loopwright_seams::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(try_from = "Raw", into = "Raw"))]
pub struct Tolerance {
    counts: u32,
    ease: SeamEase,
}

impl Tolerance {
    /// At most `counts` stitches or rows of difference in joins that pair them, and
    /// `ease` in joins by length.
    ///
    /// # Errors
    /// When the least ease is above the most, the least gathering is not above zero, or
    /// a share is above 1000 thousandths.
    pub fn new(counts: u32, ease: SeamEase) -> Result<Self, Error> {
        let ordered = |what, least: &dyn Display, most: &dyn Display, ok| {
            if ok { Ok(()) } else { Err(Error::range(what, least, format!("at most {most}"))) }
        };
        match ease {
            SeamEase::By { least, most } => {
                ordered("the least ease", &least, &most, least <= most)?;
            }
            SeamEase::Times { least, .. } if !least.is_positive() => {
                return Err(Error::range("the least gathering", least, "above zero"));
            }
            SeamEase::Times { least, most } => {
                ordered("the least gathering", &least, &most, least <= most)?;
            }
            SeamEase::Near { per_mille, .. } => {
                ordered(
                    "the share of ease, in thousandths,",
                    &per_mille,
                    &1_000,
                    per_mille <= 1_000,
                )?;
            }
            SeamEase::SetIn => {}
        }
        Ok(Self { counts, ease })
    }

    /// No difference at all, in count or in length.
    #[must_use]
    pub const fn none() -> Self {
        Self::counts(0)
    }

    /// At most `counts` stitches or rows more or fewer.
    #[must_use]
    pub const fn counts(counts: u32) -> Self {
        Self { counts, ease: SeamEase::Near { counts, per_mille: 0 } }
    }

    /// At most `counts` stitches or rows, or so many thousandths of the length
    /// (never more than all of it), whichever is more.
    #[must_use]
    pub const fn near(counts: u32, per_mille: u32) -> Self {
        let per_mille = if per_mille > 1_000 { 1_000 } else { per_mille };
        Self { counts, ease: SeamEase::Near { counts, per_mille } }
    }

    /// The first edge longer by `least` to `most`; below zero is shorter.
    ///
    /// # Errors
    /// When `least` is above `most`.
    pub fn eased(least: Length, most: Length) -> Result<Self, Error> {
        Self::new(0, SeamEase::By { least, most })
    }

    /// The first edge `least` to `most` times as long as the second: 3/2 to 2 for a
    /// gathered edge.
    ///
    /// # Errors
    /// When `least` is not above zero, or above `most`.
    pub fn gathered(least: Exact, most: Exact) -> Result<Self, Error> {
        Self::new(0, SeamEase::Times { least, most })
    }

    /// Edges of the same length sewn without ease, to within one stitch or row:
    /// the rival rule for a sleeve cap (jillwolcottknits.com).
    #[must_use]
    pub const fn plain() -> Self {
        Self::counts(1)
    }

    pub(crate) const fn usual(join: Join) -> Self {
        match join {
            Join::Graft | Join::BindOffTogether => Self::none(),
            Join::StitchSeam | Join::RowSeam => Self::counts(1),
            Join::HangBack => Self { counts: 0, ease: SeamEase::Near { counts: 1, per_mille: 20 } },
            Join::StitchToRowSeam | Join::PickUp => Self::near(1, 20),
            Join::Eased => Self { counts: 0, ease: SeamEase::SetIn },
        }
    }

    /// The most stitches or rows of difference in a join that pairs them.
    #[must_use]
    pub const fn most_counts(self) -> u32 {
        self.counts
    }

    /// The ease of a join by length.
    #[must_use]
    pub const fn ease(self) -> SeamEase {
        self.ease
    }
}

impl SeamEase {
    /// What `a - b` may be, for an edge as long as `b` whose counts are `unit` apart.
    pub(crate) fn range(self, b: Span, unit: Length) -> Result<(Length, Length), Error> {
        match self {
            Self::By { least, most } => Ok((least, most)),
            Self::SetIn => Ok((Length::ZERO, Length::inches(1)?)),
            Self::Times { least, most } => {
                let beyond = |times: Exact| -> Result<Length, Error> {
                    Ok(b.middle()?.scaled(times.checked_sub(Exact::ONE)?)?)
                };
                Ok((beyond(least)?, beyond(most)?))
            }
            Self::Near { counts, per_mille } => {
                let share = b.middle()?.scaled(Exact::new(per_mille.into(), 1_000)?)?;
                // So many that no length holds them are as good as any.
                let most = unit.scaled(counts.into()).unwrap_or(ANY).max(share);
                Ok((most.negated(), most))
            }
        }
    }
}

/// A tolerance as it is written.
#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
struct Raw {
    counts: u32,
    ease: SeamEase,
}

#[cfg(feature = "serde")]
impl TryFrom<Raw> for Tolerance {
    type Error = Error;

    fn try_from(raw: Raw) -> Result<Self, Error> {
        Self::new(raw.counts, raw.ease)
    }
}

#[cfg(feature = "serde")]
impl From<Tolerance> for Raw {
    fn from(Tolerance { counts, ease }: Tolerance) -> Self {
        Self { counts, ease }
    }
}
