use alloc::borrow::Cow;
use alloc::string::String;

/// Why a value was refused: which quantity, which value, and what was allowed.
///
/// Read the text with `to_string`; ask what sort of refusal it was with the
/// predicates.
///
/// # Examples
/// ```
/// use loopwright_gauge::Length;
/// let refused = "12..5 cm".parse::<Length>().unwrap_err();
/// assert!(refused.is_parse());
/// ```
#[derive(Clone, Debug, Eq, PartialEq, thiserror::Error)]
#[error(transparent)]
pub struct Error(#[from] pub(crate) Kind);

#[derive(Clone, Debug, Eq, PartialEq, thiserror::Error)]
pub(crate) enum Kind {
    #[error("{what} is {given}, but must be {allowed}")]
    Range { what: &'static str, given: String, allowed: String },
    #[error("{what} is {given}, but must be {allowed}")]
    Outside { what: &'static str, given: String, allowed: String },
    #[error("{what} {given:?} cannot be read: {why}")]
    Parse { what: &'static str, given: String, why: Cow<'static, str> },
    #[error("{what} is {given}, which is not a whole number, and exact rounding was asked for")]
    NotWhole { what: &'static str, given: String },
    #[error("no count of {name} in {range} fits the repeat ({repeat})")]
    NothingFits { name: &'static str, repeat: String, range: String },
    #[error(
        "no count of {name} that fits the repeat ({repeat}) is {ideal} or fewer: its least is {least}"
    )]
    NothingBelow { name: &'static str, repeat: String, ideal: String, least: u32 },
    #[error("the sum {text}, but must be {allowed}")]
    Sum { text: String, allowed: String },
    #[error("{what} is too large to be held exactly")]
    Overflow { what: &'static str },
    #[error("{what} cannot be divided by zero")]
    DivideByZero { what: &'static str },
    #[error("{what} is missing: {form}")]
    Missing { what: &'static str, form: &'static str },
}

impl Error {
    pub(crate) fn parse(
        what: &'static str,
        given: &str,
        why: impl Into<Cow<'static, str>>,
    ) -> Self {
        let given = given.chars().take(60).collect();
        Self(Kind::Parse { what, given, why: why.into() })
    }

    pub(crate) const fn overflow(what: &'static str) -> Self {
        Self(Kind::Overflow { what })
    }

    /// Whether a value lay outside its allowed range, could not be held, or did not
    /// add up.
    #[must_use]
    pub const fn is_range(&self) -> bool {
        matches!(self.0, Kind::Range { .. } | Kind::Overflow { .. } | Kind::Sum { .. })
    }

    /// Whether what was asked for is well said but cannot be met: no count lies in the
    /// range, none is as small as rounding down needs, or
    /// [`Round::Exact`](crate::Round::Exact) met a value that is not whole or not allowed.
    #[must_use]
    pub const fn is_unmet(&self) -> bool {
        matches!(
            self.0,
            Kind::Outside { .. }
                | Kind::NothingFits { .. }
                | Kind::NothingBelow { .. }
                | Kind::NotWhole { .. }
        )
    }

    /// Whether a text could not be read.
    #[must_use]
    pub const fn is_parse(&self) -> bool {
        matches!(self.0, Kind::Parse { .. })
    }

    /// Whether something that is needed was not given.
    #[must_use]
    pub const fn is_missing(&self) -> bool {
        matches!(self.0, Kind::Missing { .. })
    }

    /// Whether [`Round::Exact`](crate::Round::Exact) met a value that is not whole.
    #[must_use]
    pub const fn is_not_whole(&self) -> bool {
        matches!(self.0, Kind::NotWhole { .. })
    }
}
