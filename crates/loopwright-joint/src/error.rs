use crate::bounds;
use alloc::format;
use alloc::string::String;

/// Why a joint rounding was refused: which name, which value, what was allowed.
///
/// # Examples
/// ```
/// use loopwright_gauge::Exact;
/// use loopwright_joint::{Problem, Unknown};
/// let mut problem = Problem::new();
/// problem.stitches("cuff", Unknown::near(Exact::whole(48)))?;
/// let twice = problem.stitches("cuff", Unknown::near(Exact::whole(50))).unwrap_err();
/// assert!(twice.is_name());
/// # Ok::<(), loopwright_joint::Error>(())
/// ```
#[derive(Clone, Debug, Eq, PartialEq, thiserror::Error)]
#[error(transparent)]
pub struct Error(Kind);

impl From<Kind> for Error {
    fn from(kind: Kind) -> Self {
        Self(kind)
    }
}

impl From<loopwright_gauge::Error> for Error {
    fn from(error: loopwright_gauge::Error) -> Self {
        Self(Kind::Gauge(error))
    }
}

#[derive(Clone, Debug, Eq, PartialEq, thiserror::Error)]
pub(crate) enum Kind {
    #[error("{what} has no name")]
    Nameless { what: &'static str },
    #[error("{what} {name:?} is given twice, but each name may stand once")]
    Twice { what: &'static str, name: String },
    #[error("demand {demand:?} speaks of {name:?}, which is no unknown of this problem")]
    Unknown { demand: String, name: String },
    #[error("demand {demand:?} names {name:?} twice")]
    Repeated { demand: String, name: String },
    #[error("demand {demand:?} names too few counts: {given}, but at least {least} are needed")]
    Few { demand: String, given: usize, least: usize },
    #[error("{what} of {name:?} is {given}, but must be {allowed}")]
    Range { what: &'static str, name: String, given: String, allowed: String },
    #[error("{name:?} has no count it may take: no {repeat} lies in {low}..={high}")]
    NoCount { name: String, repeat: String, low: u32, high: u32 },
    #[error("demand {demand:?} is too large to be held exactly: {what}")]
    Large { demand: String, what: &'static str },
    #[error("{name:?} is measured as a length, but has no gauge")]
    Gaugeless { name: String },
    #[error("demand {demand:?} has one limit of counts and one of lengths, but both must be alike")]
    Mixed { demand: String },
    #[cfg(feature = "serde")]
    #[error("{what} {name:?} {why}")]
    Incomplete { what: &'static str, name: String, why: &'static str },
    #[error("the name {name:?} has {given} characters, but at most {most} are allowed")]
    LongName { name: String, given: usize, most: usize },
    #[error(transparent)]
    Gauge(loopwright_gauge::Error),
    #[error("{what} are too large to be held exactly over one denominator")]
    Overflow { what: &'static str },
    #[error("a problem holds at most {most} {what}")]
    Many { what: &'static str, most: usize },
    #[error(
        "within {steps} steps of work no counts were found that hold every demand, nor was it proved that there are none; narrower ranges, fewer demands or more steps may help"
    )]
    Unproved { steps: u64 },
}

impl Error {
    pub(crate) const fn overflow() -> Self {
        Self(Kind::Overflow { what: "the ideals, lengths and weights" })
    }

    /// Whether a name is missing, unknown, or given twice.
    #[must_use]
    pub const fn is_name(&self) -> bool {
        matches!(
            self.0,
            Kind::Nameless { .. }
                | Kind::Twice { .. }
                | Kind::Unknown { .. }
                | Kind::Repeated { .. }
                | Kind::Few { .. }
                | Kind::LongName { .. }
        )
    }

    /// Whether a value lay outside its allowed range, or could not be held.
    #[must_use]
    pub const fn is_range(&self) -> bool {
        matches!(
            self.0,
            Kind::Range { .. }
                | Kind::NoCount { .. }
                | Kind::Gaugeless { .. }
                | Kind::Mixed { .. }
                | Kind::Gauge(_)
                | Kind::Large { .. }
                | Kind::Overflow { .. }
                | Kind::Many { .. }
        )
    }

    /// Whether the search stopped at its limit with neither an answer nor a proof
    /// that there is none.
    #[must_use]
    pub const fn is_unproved(&self) -> bool {
        matches!(self.0, Kind::Unproved { .. })
    }
}

/// A name as a text tells it: all of it, or its beginning.
pub(crate) fn short(name: &str) -> String {
    match name.char_indices().nth(bounds::NAME) {
        Some((end, _)) => format!("{}...", name.get(..end).unwrap_or_default()),
        None => name.into(),
    }
}
