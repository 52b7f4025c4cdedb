use alloc::string::String;

/// Why a joint rounding was refused: which name, which value, what was allowed.
///
/// # Examples
/// ```
/// use loopwright_gauge::Exact;
/// use loopwright_joint::{Problem, Unknown};
/// let mut problem = Problem::new();
/// problem.unknown("cuff", Unknown::near(Exact::whole(48)))?;
/// let twice = problem.unknown("cuff", Unknown::near(Exact::whole(50))).unwrap_err();
/// assert!(twice.is_name());
/// # Ok::<(), loopwright_joint::Error>(())
/// ```
#[derive(Clone, Debug, Eq, PartialEq, thiserror::Error)]
#[error(transparent)]
pub struct Error(#[from] Kind);

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
    #[error("demand {demand:?} names {given} unknowns, but needs at least {least}")]
    Few { demand: String, given: usize, least: usize },
    #[error("{what} of {name:?} is {given}, but must be {allowed}")]
    Range { what: &'static str, name: String, given: String, allowed: String },
    #[error("{name:?} has no count it may take: no {repeat} lies in {low}..={high}")]
    NoCount { name: String, repeat: String, low: u32, high: u32 },
    #[error("demand {demand:?} is too large to be held exactly: {what}")]
    Large { demand: String, what: &'static str },
    #[error("{what} are too large to be held exactly over one denominator")]
    Overflow { what: &'static str },
    #[error("a problem holds at most {most} {what}")]
    Many { what: &'static str, most: usize },
    #[error("no answer was found within {steps} steps, and none was proved impossible")]
    Unproved { steps: u64 },
}

impl Error {
    pub(crate) const fn overflow() -> Self {
        Self(Kind::Overflow { what: "the ideals and weights" })
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
        )
    }

    /// Whether a value lay outside its allowed range, or could not be held.
    #[must_use]
    pub const fn is_range(&self) -> bool {
        matches!(
            self.0,
            Kind::Range { .. }
                | Kind::NoCount { .. }
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
