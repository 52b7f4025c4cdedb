use crate::BodyMeasure;
use loopwright_gauge::{Length, LengthDisplay, Precision, Unit};

/// Why a garment cannot be drafted: which quantity, which value, what was allowed.
///
/// # Examples
/// ```
/// use loopwright_garment::{Body, BodyMeasure};
/// let refused = Body::new().with(BodyMeasure::Chest, "9.4 m".parse()?).unwrap_err();
/// assert_eq!(refused.to_string(), "the chest is 940 cm, but must be in 20..=250 cm");
/// assert!(refused.is_range() && refused.measure() == Some(BodyMeasure::Chest));
/// # Ok::<(), loopwright_gauge::Error>(())
/// ```
#[derive(Clone, Debug, Eq, PartialEq, thiserror::Error)]
#[error(transparent)]
pub struct Error(pub(crate) Box<Kind>);

impl From<Kind> for Error {
    fn from(kind: Kind) -> Self {
        Self(Box::new(kind))
    }
}

#[derive(Clone, Debug, Eq, PartialEq, thiserror::Error)]
pub(crate) enum Kind {
    #[error("the {measure} is {}, but must be in {least}..={most} cm", cm(*given))]
    Measure { measure: BodyMeasure, given: Length, least: i64, most: i64 },
    #[error("the {measure} was not given, and this garment needs it")]
    NotMeasured { measure: BodyMeasure },
    #[error("{what} is {given}, but must be {allowed}")]
    Choice { key: &'static str, what: &'static str, given: String, allowed: String },
    #[error("{why}")]
    CannotBe { keys: &'static [&'static str], why: String },
    #[error(transparent)]
    Gauge(#[from] loopwright_gauge::Error),
    #[error("the {what} cannot be shaped: {why}; {advice}")]
    NoShape {
        what: &'static str,
        why: loopwright_shaping::Error,
        advice: &'static str,
        keys: &'static [&'static str],
    },
    #[error(
        "the neckband does not fit the neck: {band} at the rib's gauge are {long}, but the neck is {neck} and {waiting} of it wait and are taken one for one; {remedy}"
    )]
    BandMisfit { band: String, long: String, neck: String, waiting: String, remedy: String },
    #[error("the {what} is to be made {given} times, but must be made in 1..={most}")]
    Times { what: String, given: u32, most: u32 },
    #[error(transparent)]
    Pattern(#[from] loopwright_pattern::Error),
    #[error(transparent)]
    Shaping(#[from] loopwright_shaping::Error),
    #[error(transparent)]
    Seams(#[from] loopwright_seams::Error),
    #[error(transparent)]
    Yarn(#[from] loopwright_yardage::Error),
    #[error(transparent)]
    Joint(#[from] loopwright_joint::Error),
}

macro_rules! from_rooms {
    ($($error:ty),*) => {$(
        impl From<$error> for Error {
            fn from(error: $error) -> Self {
                Self(Box::new(error.into()))
            }
        }
    )*};
}

from_rooms!(
    loopwright_gauge::Error,
    loopwright_pattern::Error,
    loopwright_shaping::Error,
    loopwright_seams::Error,
    loopwright_yardage::Error,
    loopwright_joint::Error
);

/// A length to a hundredth of a centimetre.
fn cm(length: Length) -> LengthDisplay {
    length.display(Unit::Centimetre, Precision::Decimals(2))
}

impl Error {
    /// The measure that is missing or out of bounds.
    #[must_use]
    pub fn measure(&self) -> Option<BodyMeasure> {
        match *self.0 {
            Kind::Measure { measure, .. } | Kind::NotMeasured { measure } => Some(measure),
            _ => None,
        }
    }

    /// The measures and choices to look at, by the words a plan and JSON use for them,
    /// first the one most likely meant; none where no single word is at fault.
    #[must_use]
    pub fn keys(&self) -> &'static [&'static str] {
        match *self.0 {
            Kind::CannotBe { keys, .. } | Kind::NoShape { keys, .. } => keys,
            Kind::BandMisfit { .. } => &["rib"],
            _ => &[],
        }
    }

    /// The one choice that is out of range.
    #[must_use]
    pub fn choice(&self) -> Option<&'static str> {
        match *self.0 {
            Kind::Choice { key, .. } => Some(key),
            _ => None,
        }
    }

    /// Whether a measure that is needed was not given.
    #[must_use]
    pub const fn is_missing(&self) -> bool {
        matches!(*self.0, Kind::NotMeasured { .. })
    }

    /// Whether a measure, a choice or a number of copies lies outside its range.
    #[must_use]
    pub const fn is_range(&self) -> bool {
        matches!(*self.0, Kind::Measure { .. } | Kind::Choice { .. } | Kind::Times { .. })
    }

    /// Whether a piece needs more needles than the bed has.
    #[must_use]
    pub fn is_off_bed(&self) -> bool {
        match &*self.0 {
            Kind::Pattern(why) => why.is_off_bed(),
            _ => false,
        }
    }

    /// Whether what was asked for is in order but cannot be knitted: the bed is too
    /// narrow, the head does not pass, the lengths leave no room.
    #[must_use]
    pub const fn is_impossible(&self) -> bool {
        match &*self.0 {
            Kind::CannotBe { .. }
            | Kind::Pattern(_)
            | Kind::NoShape { .. }
            | Kind::BandMisfit { .. }
            | Kind::Shaping(_) => true,
            Kind::Gauge(error) => error.is_unmet(),
            Kind::Seams(error) => error.is_wrong_edge(),
            Kind::Yarn(error) => error.is_short(),
            Kind::Joint(error) => error.is_unproved(),
            _ => false,
        }
    }

    /// What the replay refused, where it did: which piece, step and row.
    #[must_use]
    pub const fn knitting(&self) -> Option<&loopwright_pattern::Error> {
        match &*self.0 {
            Kind::Pattern(error) => Some(error),
            _ => None,
        }
    }
}
