use crate::{Error, Spread};
use loopwright_gauge::{Exact, choices};

/// How much yarn a stitch of one fabric takes for one of another.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Exact, Spread};
/// use loopwright_yardage::{Factor, StitchKind};
/// let cable = Factor::tabled(StitchKind::Cable)?;
/// assert_eq!(cable.spread().likely(), Exact::new(105, 100)?);
/// let weighed = Factor::measured(Spread::exactly(Exact::new(6, 5)?))?;
/// assert!(weighed.spread().is_exact());
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(try_from = "Raw", into = "Raw"))]
pub struct Factor {
    spread: Spread<Exact>,
    pub(crate) measured: bool,
}

impl Factor {
    /// A factor measured by weighing or unravelling both fabrics in the same yarn.
    ///
    /// # Errors
    /// When it is not above zero, or above ten.
    pub fn measured(spread: Spread<Exact>) -> Result<Self, Error> {
        let ten = Exact::whole(10);
        match spread.parts().into_iter().find(|&f| !f.is_positive() || f > ten) {
            None => Ok(Self { spread, measured: true }),
            Some(given) => Err(Error::range("the factor", given, "above zero and at most 10")),
        }
    }

    /// The working figure for a kind of stitch against plain, at the same stitch
    /// size; no published table was found, so the spread is wide and a measured
    /// factor is always better.
    ///
    /// # Errors
    /// Never for the stitches there are; the signature leaves room for more.
    pub fn tabled(stitch: StitchKind) -> Result<Self, Error> {
        let [low, likely, high] = match stitch {
            StitchKind::Rib => [90, 100, 110],
            StitchKind::Garter => [95, 100, 110],
            StitchKind::Tuck => [80, 95, 105],
            StitchKind::Cable => [100, 105, 115],
        };
        let part = |n| Exact::new(n, 100);
        let spread = Spread::new(part(low)?, part(likely)?, part(high)?)?;
        Ok(Self { spread, measured: false })
    }

    /// The factor itself.
    #[must_use]
    pub const fn spread(&self) -> Spread<Exact> {
        self.spread
    }
}

choices! {
    /// A kind of stitch with a working factor against plain; see [`Factor::tabled`].
    ///
    /// # Examples
    /// ```
    /// use loopwright_yardage::{Factor, StitchKind};
    /// for kind in StitchKind::ALL {
    ///     assert!(Factor::tabled(kind)?.spread().likely().is_positive());
    /// }
    /// # Ok::<(), loopwright_yardage::Error>(())
    /// ```
    #[non_exhaustive]
    pub enum StitchKind: "the kind of stitch" {
        /// A stitch of a rib, at the stitch size of the plain: 0.90, 1.00, 1.10.
        Rib = "rib",
        /// A garter stitch: 0.95, 1.00, 1.10.
        Garter = "garter",
        /// A stitch of a tuck pattern, its tucked loops counted: 0.80, 0.95, 1.05.
        Tuck = "tuck",
        /// A stitch of a cable, its crossings counted: 1.00, 1.05, 1.15.
        Cable = "cable",
    }
}

/// A factor as it is written.
#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
struct Raw {
    spread: Spread<Exact>,
    measured: bool,
}

#[cfg(feature = "serde")]
impl TryFrom<Raw> for Factor {
    type Error = Error;

    fn try_from(raw: Raw) -> Result<Self, Error> {
        Ok(Self { measured: raw.measured, ..Self::measured(raw.spread)? })
    }
}

#[cfg(feature = "serde")]
impl From<Factor> for Raw {
    fn from(factor: Factor) -> Self {
        Self { spread: factor.spread, measured: factor.measured }
    }
}
