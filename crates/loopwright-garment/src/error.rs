use crate::Measure;

/// Why a garment cannot be drafted: which quantity, which value, what was allowed.
#[derive(Clone, Debug, Eq, PartialEq, thiserror::Error)]
#[error(transparent)]
pub struct Error(#[from] pub(crate) Kind);

#[derive(Clone, Debug, Eq, PartialEq, thiserror::Error)]
pub(crate) enum Kind {
    #[error("the {measure} is {given}, but must be in {least}..={most} cm")]
    Measure { measure: Measure, given: String, least: i64, most: i64 },
    #[error("the {measure} was not given, and this garment needs it")]
    NotMeasured { measure: Measure },
    #[error("{what} is {given}, but must be {allowed}")]
    Choice { what: &'static str, given: String, allowed: String },
    #[error("{0}")]
    CannotBe(String),
    #[error(transparent)]
    Gauge(#[from] loopwright_gauge::Error),
    #[error("the {what} cannot be shaped: {why}; {advice}")]
    NoShape { what: &'static str, why: loopwright_shaping::Error, advice: &'static str },
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
                Self(error.into())
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

impl Error {
    /// Whether what was asked for is in order but cannot be knitted: the bed is too
    /// narrow, the head does not pass, the lengths leave no room.
    #[must_use]
    pub const fn is_impossible(&self) -> bool {
        match &self.0 {
            Kind::CannotBe(_)
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
        match &self.0 {
            Kind::Pattern(error) => Some(error),
            _ => None,
        }
    }
}
