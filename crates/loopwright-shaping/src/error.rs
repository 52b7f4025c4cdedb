use crate::words::rows;
use alloc::string::{String, ToString};
use core::fmt;
use loopwright_gauge::{Count as _, Rows, Stitches};

/// Why a shaping was refused: which quantity, which value, and what was allowed;
/// or why it cannot be done, and what would make it possible.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Rows, Stitches};
/// use loopwright_shaping::{Edges, Taper};
/// let refused = Taper::builder(Stitches::new(40)?, Stitches::new(80)?, Rows::new(10)?)
///     .edges(Edges::Both)
///     .build()
///     .unwrap_err();
/// assert!(refused.is_impossible());
/// let remedy = refused.remedy().unwrap();
/// assert_eq!(remedy.more_rows, Some(Rows::new(10)?));
/// assert_eq!(remedy.fewer_stitches, Some(Stitches::new(20)?));
/// # Ok::<(), loopwright_gauge::Error>(())
/// ```
#[derive(Clone, Debug, Eq, PartialEq, thiserror::Error)]
#[error(transparent)]
pub struct Error(#[from] pub(crate) Kind);

#[derive(Clone, Debug, Eq, PartialEq, thiserror::Error)]
pub(crate) enum Kind {
    #[error("{what} is {given}, but must be {allowed}")]
    Range { what: &'static str, given: String, allowed: String },
    #[error("{why}")]
    Impossible { why: String, remedy: Remedy },
    #[error(transparent)]
    Gauge(#[from] loopwright_gauge::Error),
}

/// The smallest change that would make an impossible shaping possible.
#[derive(Clone, Copy, Debug, Default, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct Remedy {
    /// So many more rows would do, everything else left as it is.
    pub more_rows: Option<Rows>,
    /// A change smaller by so many stitches would do, over the whole width.
    pub fewer_stitches: Option<Stitches>,
}

impl Remedy {
    pub(crate) const NONE: Self = Self { more_rows: None, fewer_stitches: None };
}

impl fmt::Display for Remedy {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match (self.more_rows, self.fewer_stitches) {
            (Some(n), Some(m)) => write!(
                f,
                ": {n} more {} would do, or a change smaller by {}",
                rows(n.get()),
                m.counted()
            ),
            (Some(n), None) => write!(f, ": {n} more {} would do", rows(n.get())),
            (None, Some(n)) => write!(f, ": a change smaller by {} would do", n.counted()),
            (None, None) => Ok(()),
        }
    }
}

impl Error {
    pub(crate) fn range(
        what: &'static str,
        given: &impl ToString,
        allowed: impl Into<String>,
    ) -> Self {
        Self(Kind::Range { what, given: given.to_string(), allowed: allowed.into() })
    }

    pub(crate) fn impossible(why: impl Into<String>, remedy: Remedy) -> Self {
        let why: String = why.into();
        Self::told(why + &remedy.to_string(), remedy)
    }

    /// As [`impossible`](Self::impossible), where the reason tells the remedy itself.
    pub(crate) const fn told(why: String, remedy: Remedy) -> Self {
        Self(Kind::Impossible { why, remedy })
    }

    /// Whether a value lay outside its allowed range, or could not be held.
    #[must_use]
    pub const fn is_range(&self) -> bool {
        match &self.0 {
            Kind::Range { .. } => true,
            Kind::Impossible { .. } => false,
            Kind::Gauge(error) => error.is_range(),
        }
    }

    /// Whether every value was allowed, but no such shaping or count exists.
    #[must_use]
    pub const fn is_impossible(&self) -> bool {
        match &self.0 {
            Kind::Range { .. } => false,
            Kind::Impossible { .. } => true,
            Kind::Gauge(error) => error.is_unmet(),
        }
    }

    /// What would make an impossible shaping possible, where that is known.
    #[must_use]
    pub fn remedy(&self) -> Option<Remedy> {
        match &self.0 {
            Kind::Impossible { remedy, .. } if *remedy != Remedy::NONE => Some(*remedy),
            _ => None,
        }
    }
}

impl From<loopwright_gauge::Error> for Error {
    fn from(error: loopwright_gauge::Error) -> Self {
        Self(Kind::Gauge(error))
    }
}
