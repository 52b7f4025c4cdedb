//! What would mend a join, tried before it is offered.

mod find;

use crate::edge::one;
use crate::{Edge, EdgeCount, Error};
use alloc::string::String;
use core::fmt;
use loopwright_gauge::choices;
use loopwright_gauge::english::counted;

/// The smallest change of either edge, alone, that makes a join hold.
///
/// Each change was made and the join checked with it before it is offered. It prints as
/// what to do.
///
/// # Examples
/// ```
/// use loopwright_seams::{Edge, Join, check};
/// let gauge = "28 x 40 / 10 cm".parse()?;
/// let armhole = Edge::read("armhole", "2 rows 3 st x4, 40 rows", gauge)?;
/// let other = Edge::read("other armhole", "40 rows", gauge)?;
/// let mend = check(Join::RowSeam, &armhole, &other, Join::RowSeam.tolerance())?.mend.unwrap();
/// assert_eq!(
///     mend.to_string(),
///     "knit 41 rows instead of 48 for the armhole (7 rows fewer where it runs straight), \
///      or 47 rows instead of 40 for the other armhole",
/// );
/// let mended = mend.a.unwrap().apply(&armhole)?;
/// assert!(check(Join::RowSeam, &mended, &other, Join::RowSeam.tolerance())?.matches);
/// # Ok::<(), loopwright_seams::Error>(())
/// ```
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct Mend {
    /// What to change of the first edge; `None` where no whole count would do.
    pub a: Option<EdgeChange>,
    /// What to change of the second edge; `None` where no whole count would do.
    pub b: Option<EdgeChange>,
}

/// Another count for one edge.
///
/// # Examples
/// ```
/// use loopwright_gauge::Stitches;
/// use loopwright_seams::{Edge, Join, check};
/// let live = |name, count| Edge::live(name, Stitches::literal(count), "28x40/10cm".parse()?);
/// let (front, back) = (live("front", 44)?, live("back", 43)?);
/// let mend = check(Join::Graft, &front, &back, Join::Graft.tolerance())?.mend.unwrap();
/// let change = mend.a.unwrap();
/// assert_eq!((change.from, change.to), (front.stitches().into(), back.stitches().into()));
/// assert_eq!(change.to_string(), "43 stitches instead of 44 for the front");
/// # Ok::<(), loopwright_seams::Error>(())
/// ```
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct EdgeChange {
    /// The name of the edge.
    pub edge: String,
    /// The count it has.
    pub from: EdgeCount,
    /// The count it would need.
    pub to: EdgeCount,
    /// Where the difference goes or comes from.
    pub at: ChangedAt,
}

choices! {
    /// Where along an edge its count changes.
    ///
    /// # Examples
    /// ```
    /// use loopwright_seams::{ChangedAt, Edge, Join, check};
    /// let edge = |name, text| Edge::read(name, text, "28x40/10cm".parse()?);
    /// let (slant, side) = (edge("slant", "2 rows 1 st x9, 20 rows")?, edge("side", "30 rows")?);
    /// let mend = check(Join::RowSeam, &slant, &side, Join::RowSeam.tolerance())?.mend.unwrap();
    /// assert_eq!(mend.a.unwrap().at, ChangedAt::Straight);
    /// assert_eq!(mend.b.unwrap().at, ChangedAt::Anywhere);
    /// # Ok::<(), loopwright_seams::Error>(())
    /// ```
    #[non_exhaustive]
    pub enum ChangedAt: "where an edge changes" {
        /// Anywhere: the edge is alike from end to end.
        Anywhere = "anywhere",
        /// Where the edge runs straight, its shaping left as it is.
        Straight = "straight",
    }
}

impl EdgeChange {
    /// The edge with its new count, as [`Edge::recounted`] makes it.
    ///
    /// # Errors
    /// When `edge` cannot be changed so.
    pub fn apply(&self, edge: &Edge) -> Result<Edge, Error> {
        edge.recounted(self.to)
    }
}

impl fmt::Display for EdgeChange {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (from, to) = (self.from.get(), self.to.get());
        write!(f, "{} instead of {from} for the {}", self.to, self.edge)?;
        if self.at == ChangedAt::Straight {
            let by = counted(from.abs_diff(to), one(self.to.direction()));
            let way = if to > from { "more" } else { "fewer" };
            write!(f, " ({by} {way} where it runs straight)")?;
        }
        Ok(())
    }
}

impl fmt::Display for Mend {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match (&self.a, &self.b) {
            (Some(a), Some(b)) => write!(f, "knit {a}, or {b}"),
            (Some(one), None) | (None, Some(one)) => write!(f, "knit {one}"),
            (None, None) => f.write_str("change both edges: no change of one alone will do"),
        }
    }
}
