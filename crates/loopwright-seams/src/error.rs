use alloc::string::{String, ToString};
use core::fmt::Display;

/// Why edges, a join or a pick-up were refused: which, and what was allowed.
///
/// Read the text with `to_string`; ask what sort of refusal it was with the
/// predicates.
///
/// # Examples
/// ```
/// use loopwright_gauge::Rows;
/// use loopwright_seams::Edge;
/// let refused = Edge::selvedge("hem", Rows::ZERO, "20x26/10cm".parse()?).unwrap_err();
/// assert!(refused.is_range());
/// # Ok::<(), loopwright_seams::Error>(())
/// ```
#[derive(Clone, Debug, Eq, PartialEq, thiserror::Error)]
#[error(transparent)]
pub struct Error(#[from] pub(crate) Kind);

#[derive(Clone, Debug, Eq, PartialEq, thiserror::Error)]
pub(crate) enum Kind {
    #[error(transparent)]
    Gauge(#[from] loopwright_gauge::Error),
    #[error("{what} is {given}, but must be {allowed}")]
    Range { what: String, given: String, allowed: String },
    #[error(
        "the {edge} {text:?} cannot be read: write rows and stitches, such as \"152 rows\", \
         \"44 stitches\" or \"6 st, 2 rows 3 st x4, 40 rows\""
    )]
    Unreadable { edge: String, text: String },
    #[error(
        "the step {text:?} cannot be read: write rows, stitches or both, such as \"2 rows 3 st\""
    )]
    UnreadableStep { text: String },
    #[error("the rate {text:?} cannot be read: write it as 3 of every 4, 3/4 or 2 of each")]
    UnreadableRate { text: String },
    #[error("{join} needs {needs}, but the {edge} is {kind}")]
    WrongEdge { join: String, needs: &'static str, edge: String, kind: &'static str },
}

impl From<loopwright_gauge::Error> for Error {
    fn from(error: loopwright_gauge::Error) -> Self {
        Self(Kind::Gauge(error))
    }
}

impl Error {
    pub(crate) fn range(
        what: impl Into<String>,
        given: impl Display,
        allowed: impl Into<String>,
    ) -> Self {
        Self(Kind::Range { what: what.into(), given: given.to_string(), allowed: allowed.into() })
    }

    /// Whether a value lay outside its allowed range, or could not be held.
    #[must_use]
    pub const fn is_range(&self) -> bool {
        match &self.0 {
            Kind::Gauge(error) => error.is_range(),
            Kind::Range { .. } => true,
            _ => false,
        }
    }

    /// Whether a text could not be read.
    #[must_use]
    pub const fn is_parse(&self) -> bool {
        match &self.0 {
            Kind::Gauge(error) => error.is_parse(),
            Kind::Unreadable { .. } | Kind::UnreadableStep { .. } | Kind::UnreadableRate { .. } => {
                true
            }
            _ => false,
        }
    }

    /// Whether a join was asked for that these edges cannot make.
    #[must_use]
    pub const fn is_wrong_edge(&self) -> bool {
        matches!(self.0, Kind::WrongEdge { .. })
    }
}
