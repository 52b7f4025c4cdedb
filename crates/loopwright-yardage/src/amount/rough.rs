use crate::{Amount, Error};
use loopwright_gauge::Exact;

/// A rule of thumb for a whole sweater before it is drafted: each published rule by name.
///
/// None of them knows the design; an estimate from counted stitches is always better.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
#[non_exhaustive]
pub enum Rough<'a> {
    /// About four times the back (diananatters.blogspot.com, 2010).
    FourBacks {
        /// The back.
        back: &'a Amount,
    },
    /// The back and one sleeve, twice (estherkateblog.wordpress.com, 2016).
    BackAndSleeveTwice {
        /// The back.
        back: &'a Amount,
        /// One sleeve.
        sleeve: &'a Amount,
    },
    /// The body, and a third of it for the sleeves (knitnmore.blogspot.com, 2009).
    BodyAndThird {
        /// Back and front together.
        body: &'a Amount,
    },
}

impl Rough<'_> {
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
    /// let whole = Rough::BodyAndThird { body: &body }.total()?;
    /// assert_eq!(whole.length.likely(), "746 2/3 yd".parse()?);
    /// # Ok::<(), loopwright_yardage::Error>(())
    /// ```
    pub fn total(self) -> Result<Amount, Error> {
        match self {
            Self::FourBacks { back } => back.scaled(Exact::whole(4)),
            Self::BackAndSleeveTwice { back, sleeve } => {
                back.checked_add(sleeve)?.scaled(Exact::whole(2))
            }
            Self::BodyAndThird { body } => body.scaled(Exact::new(4, 3)?),
        }
    }
}
