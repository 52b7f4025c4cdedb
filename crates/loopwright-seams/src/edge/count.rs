use crate::Error;
use core::fmt;
use loopwright_gauge::{Count, ReadingDirection, Rows, Stitches};

/// A count of the stitches or of the rows of an edge.
///
/// # Examples
/// ```
/// use loopwright_gauge::{ReadingDirection, Rows};
/// use loopwright_seams::EdgeCount;
/// let count: EdgeCount = Rows::new(149)?.into();
/// assert_eq!(count.direction(), ReadingDirection::Rows);
/// assert_eq!((count.get(), count.to_string().as_str()), (149, "149 rows"));
/// # Ok::<(), loopwright_seams::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub enum EdgeCount {
    /// Stitches.
    Stitches(Stitches),
    /// Rows.
    Rows(Rows),
}

impl EdgeCount {
    /// So many stitches, or rows.
    ///
    /// # Errors
    /// When the count is out of bounds.
    pub fn new(count: u32, direction: ReadingDirection) -> Result<Self, Error> {
        Ok(match direction {
            ReadingDirection::Stitches => Self::Stitches(Stitches::new(count)?),
            ReadingDirection::Rows => Self::Rows(Rows::new(count)?),
        })
    }

    /// What is counted.
    #[must_use]
    pub const fn direction(self) -> ReadingDirection {
        match self {
            Self::Stitches(_) => ReadingDirection::Stitches,
            Self::Rows(_) => ReadingDirection::Rows,
        }
    }

    /// The plain number.
    #[must_use]
    pub const fn get(self) -> u32 {
        match self {
            Self::Stitches(count) => count.get(),
            Self::Rows(count) => count.get(),
        }
    }
}

impl From<Stitches> for EdgeCount {
    fn from(count: Stitches) -> Self {
        Self::Stitches(count)
    }
}

impl From<Rows> for EdgeCount {
    fn from(count: Rows) -> Self {
        Self::Rows(count)
    }
}

impl fmt::Display for EdgeCount {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Stitches(count) => count.counted().fmt(f),
            Self::Rows(count) => count.counted().fmt(f),
        }
    }
}

/// `stitch` or `row`.
pub(crate) const fn one(direction: ReadingDirection) -> &'static str {
    match direction {
        ReadingDirection::Stitches => <Stitches as Count>::ONE,
        ReadingDirection::Rows => <Rows as Count>::ONE,
    }
}
