use crate::{Counted, Error};
use core::fmt;
use loopwright_gauge::{Rows, Stitches};

/// A count of the stitches or of the rows of an edge.
///
/// # Examples
/// ```
/// use loopwright_gauge::Rows;
/// use loopwright_seams::EdgeCount;
/// let count: EdgeCount = Rows::new(149)?.into();
/// assert_eq!(count.to_string(), "149 rows");
/// # Ok::<(), loopwright_seams::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
pub enum EdgeCount {
    /// Stitches.
    Stitches(Stitches),
    /// Rows.
    Rows(Rows),
}

impl EdgeCount {
    /// What is counted.
    #[must_use]
    pub const fn counted(self) -> Counted {
        match self {
            Self::Stitches(_) => Counted::Stitches,
            Self::Rows(_) => Counted::Rows,
        }
    }

    /// The bare number.
    #[must_use]
    pub const fn get(self) -> u32 {
        match self {
            Self::Stitches(count) => count.get(),
            Self::Rows(count) => count.get(),
        }
    }
}

impl Counted {
    /// So many of what is counted.
    pub(crate) fn count(self, count: u32) -> Result<EdgeCount, Error> {
        Ok(match self {
            Self::Stitches => EdgeCount::Stitches(Stitches::new(count)?),
            Self::Rows => EdgeCount::Rows(Rows::new(count)?),
        })
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
        f.write_str(&crate::words::numbered(self.get(), self.counted()))
    }
}
