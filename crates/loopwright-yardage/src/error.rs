use alloc::string::{String, ToString};

/// Why a value was refused: which quantity, which value, and what was allowed.
///
/// Read the text with `to_string`; ask what sort of refusal it was with the
/// predicates.
///
/// # Examples
/// ```
/// use loopwright_yardage::Yarn;
/// let refused = "2/28".parse::<Yarn>().unwrap_err();
/// assert!(refused.is_parse());
/// ```
#[derive(Clone, Debug, Eq, PartialEq, thiserror::Error)]
#[error(transparent)]
pub struct Error(#[from] pub(crate) Kind);

#[derive(Clone, Debug, Eq, PartialEq, thiserror::Error)]
pub(crate) enum Kind {
    #[error("{what} is {given}, but must be {allowed}")]
    Range { what: &'static str, given: String, allowed: String },
    #[error("{what} {given:?} cannot be read: {why}")]
    Parse { what: &'static str, given: String, why: &'static str },
    #[error("{what} is too large to be reckoned")]
    Overflow { what: &'static str },
    #[error("{what} comes out above {most}, the most that can be reckoned")]
    Large { what: &'static str, most: String },
    #[error("{what} needs {needs}, but none was given")]
    Missing { what: String, needs: String },
    #[error("the yarn left is {have}, but {reserve} of it is reserved")]
    Reserved { have: String, reserve: String },
    #[error("the yarn is enough for {have} stitches, but {what} takes {need}")]
    Short { what: &'static str, have: String, need: String },
    #[error(transparent)]
    Core(loopwright_gauge::Error),
}

impl Error {
    #[expect(clippy::needless_pass_by_value, reason = "callers then pass numbers as they are")]
    pub(crate) fn range(
        what: &'static str,
        given: impl ToString,
        allowed: impl Into<String>,
    ) -> Self {
        Self(Kind::Range { what, given: given.to_string(), allowed: allowed.into() })
    }

    pub(crate) fn parse(what: &'static str, given: &str, why: &'static str) -> Self {
        Self(Kind::Parse { what, given: given.chars().take(60).collect(), why })
    }

    pub(crate) const fn overflow(what: &'static str) -> Self {
        Self(Kind::Overflow { what })
    }

    pub(crate) fn missing(what: impl Into<String>, needs: impl Into<String>) -> Self {
        Self(Kind::Missing { what: what.into(), needs: needs.into() })
    }

    /// Whether a value lay outside its allowed range, or could not be held.
    #[must_use]
    pub const fn is_range(&self) -> bool {
        match &self.0 {
            Kind::Range { .. } | Kind::Overflow { .. } | Kind::Large { .. } => true,
            Kind::Core(core) => core.is_range(),
            _ => false,
        }
    }

    /// Whether a text could not be read.
    #[must_use]
    pub const fn is_parse(&self) -> bool {
        match &self.0 {
            Kind::Parse { .. } => true,
            Kind::Core(core) => core.is_parse(),
            _ => false,
        }
    }

    /// Whether something an answer needs was not given: a loop length, a yarn, a
    /// width.
    #[must_use]
    pub const fn is_missing(&self) -> bool {
        matches!(self.0, Kind::Missing { .. })
    }

    /// Whether there is less yarn than even the least of the work takes.
    #[must_use]
    pub const fn is_short(&self) -> bool {
        matches!(self.0, Kind::Reserved { .. } | Kind::Short { .. })
    }
}

impl From<loopwright_gauge::Error> for Error {
    fn from(core: loopwright_gauge::Error) -> Self {
        Self(Kind::Core(core))
    }
}
