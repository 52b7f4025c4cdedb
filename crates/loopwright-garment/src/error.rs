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
    #[error(transparent)]
    Pattern(#[from] loopwright_pattern::Error),
}

impl From<loopwright_gauge::Error> for Error {
    fn from(error: loopwright_gauge::Error) -> Self {
        Self(error.into())
    }
}

impl From<loopwright_pattern::Error> for Error {
    fn from(error: loopwright_pattern::Error) -> Self {
        Self(error.into())
    }
}

impl Error {
    /// Whether what was asked for is in order but cannot be knitted: the bed is too
    /// narrow, the head does not pass, the lengths leave no room.
    #[must_use]
    pub const fn is_impossible(&self) -> bool {
        matches!(self.0, Kind::CannotBe(_) | Kind::Pattern(_))
    }
}
