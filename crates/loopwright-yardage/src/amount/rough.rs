use crate::{Amount, Error};
use loopwright_gauge::Exact;

/// A rule of thumb for a whole sweater before it is drafted: each published rule by name.
///
/// None of them knows the design; an estimate from counted stitches is always better.
///
/// # Examples
/// ```
/// use loopwright_gauge::Spread;
/// use loopwright_yardage::{Amount, LinearDensity, Mass, Rough};
/// let yarn: LinearDensity = "100 tex".parse()?;
/// let length = Spread::exactly("900 m".parse()?);
/// let back = Amount::new(length, yarn.masses_of(length)?);
/// assert_eq!(Rough::FourBacks { back }.total()?.mass.likely(), Mass::g(360)?);
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case", deny_unknown_fields))]
#[non_exhaustive]
pub enum Rough {
    /// About four times the back (diananatters.blogspot.com, 2010).
    FourBacks {
        /// The back.
        back: Amount,
    },
    /// The back and one sleeve, twice (estherkateblog.wordpress.com, 2016).
    BackAndSleeveTwice {
        /// The back.
        back: Amount,
        /// One sleeve.
        sleeve: Amount,
    },
    /// The body, and a third of it for the sleeves (knitnmore.blogspot.com, 2009).
    BodyAndThird {
        /// Back and front together.
        body: Amount,
    },
}

impl Rough {
    /// The yarn of the whole sweater by this rule.
    ///
    /// # Errors
    /// When the amount is out of bounds or cannot be held exactly.
    ///
    /// # Examples
    /// ```
    /// use loopwright_yardage::{Amount, LinearDensity, Rough, Spread};
    /// let yarn: LinearDensity = "500 yd/lb".parse()?;
    /// let length = Spread::exactly("560 yd".parse()?);
    /// let body = Amount::new(length, length.map(|length| yarn.mass_of(length))?);
    /// let whole = Rough::BodyAndThird { body }.total()?;
    /// assert_eq!(whole.length.likely(), "746 2/3 yd".parse()?);
    /// # Ok::<(), loopwright_yardage::Error>(())
    /// ```
    pub fn total(self) -> Result<Amount, Error> {
        match self {
            Self::FourBacks { back } => back.scaled(Exact::whole(4)),
            Self::BackAndSleeveTwice { back, sleeve } => {
                back.checked_add(&sleeve)?.scaled(Exact::whole(2))
            }
            Self::BodyAndThird { body } => body.scaled(Exact::new(4, 3)?),
        }
    }
}
