use crate::edge::{one, write_both};
use crate::{Edge, Error, Join, Mend, Span};
use alloc::format;
use alloc::string::{String, ToString};
use core::cmp::Ordering;
use core::fmt;
use loopwright_gauge::english::{counted, plural};
use loopwright_gauge::{
    Exact, Length, Precision, ReadingDirection, Round, Rows, Stitches, Unit, choices,
};

choices! {
    /// What a join compares.
    ///
    /// # Examples
    /// ```
    /// use loopwright_seams::{Compared, Edge, Join, check};
    /// let edge = |name, text| Edge::read(name, text, "28x40/10cm".parse()?);
    /// let (cap, armhole) = (edge("cap", "80 rows")?, edge("armhole", "76 rows")?);
    /// let compares = |join: Join| check(join, &cap, &armhole, join.tolerance()).map(|it| it.compares);
    /// assert_eq!(compares(Join::RowSeam)?, Compared::Counts);
    /// assert_eq!(compares(Join::Eased)?, Compared::Lengths);
    /// # Ok::<(), loopwright_seams::Error>(())
    /// ```
    pub enum Compared: "what a join compares" {
        /// Stitches with stitches, or rows with rows.
        Counts = "counts",
        /// Lengths.
        Lengths = "lengths",
    }
}

/// One side of a join, as it was checked. It prints as its counts.
///
/// # Examples
/// ```
/// use loopwright_seams::{Edge, Join, check};
/// let edge = |name, text| Edge::read(name, text, "28x40/10cm".parse()?);
/// let (cap, armhole) = (edge("cap", "2 rows 1 st x30, 6 st")?, edge("armhole", "70 rows")?);
/// let verdict = check(Join::Eased, &cap, &armhole, Join::Eased.tolerance())?;
/// assert_eq!(verdict.a.to_string(), "60 rows and 36 stitches");
/// assert_eq!(verdict.b.name, "armhole");
/// # Ok::<(), loopwright_seams::Error>(())
/// ```
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct SeamSide {
    /// The name of the edge.
    pub name: String,
    /// Its stitches.
    pub stitches: Stitches,
    /// Its rows.
    pub rows: Rows,
    /// Its length at its own gauge; of a staircase, through its corners.
    pub length: Span,
    /// The length of the ideal outline of its staircases, where it is known.
    pub outline: Option<Span>,
}

/// What the check of one join found. It prints as a sentence, with lengths in
/// centimetres.
///
/// # Examples
/// ```
/// use loopwright_seams::{Edge, Join, check};
/// let edge = |name, text| Edge::read(name, text, "28x40/10cm".parse()?);
/// let (back, front) = (edge("back", "150 rows")?, edge("front", "151 rows")?);
/// let verdict = check(Join::RowSeam, &back, &front, Join::RowSeam.tolerance())?;
/// assert_eq!(
///     verdict.to_string(),
///     "the back and the front meet in a row-to-row seam: 150 rows (37.5 cm) against \
///      151 rows (37.8 cm); the first has 1 row fewer (0.3 cm), within the tolerance",
/// );
/// # Ok::<(), loopwright_seams::Error>(())
/// ```
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct Verdict {
    /// The join.
    pub join: Join,
    /// Needles that carry two stitches of the first edge.
    #[cfg_attr(feature = "serde", serde(default))]
    pub overlap: Stitches,
    /// The first edge.
    pub a: SeamSide,
    /// The second edge.
    pub b: SeamSide,
    /// Whether the join compares lengths, or pairs stitches or rows.
    pub compares: Compared,
    /// What the difference is counted in.
    pub counted: ReadingDirection,
    /// The first edge less the second (and less the overlap), in stitches or rows: a
    /// whole number where the join pairs them; in joins by length the difference in
    /// length as stitches or rows of the second edge.
    pub difference: Exact,
    /// The length of the first edge less that of the second (and less the overlap).
    pub length_difference: Span,
    /// Whether the difference is within the tolerance.
    pub matches: bool,
    /// The smallest change that would bring it within; `None` when it matches.
    pub mend: Option<Mend>,
}

impl SeamSide {
    pub(crate) fn of(edge: &Edge) -> Result<Self, Error> {
        Ok(Self {
            name: edge.name().into(),
            stitches: edge.stitches(),
            rows: edge.rows(),
            length: edge.length(),
            outline: edge.outline_length()?,
        })
    }
}

impl Verdict {
    /// How the edges meet, in words: "a row-to-row seam".
    #[must_use]
    pub fn join_in_words(&self) -> String {
        self.join.in_words(self.overlap)
    }

    /// The difference in words, to one decimal place and without its sign: `3 rows`,
    /// `1.5 stitches`.
    #[must_use]
    pub fn difference_in_words(&self) -> String {
        counts(self.difference.abs(), self.counted)
    }
}

impl fmt::Display for SeamSide {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write_both(f, self.rows, self.stitches, " and ")
    }
}

impl fmt::Display for Verdict {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { a, b, .. } = self;
        let join = self.join_in_words();
        write!(f, "the {} and the {} meet in {join}: ", a.name, b.name)?;
        let (la, lb) = (length(a.length), length(b.length));
        write!(f, "{a} ({la}) against {b} ({lb})")?;
        if self.difference.is_zero() && self.matches {
            return f.write_str("; they agree");
        }
        let counts = self.difference_in_words();
        let by = length(self.length_difference);
        let by = by.trim_start_matches('-');
        match (self.compares, self.difference.is_positive()) {
            (Compared::Counts, true) => write!(f, "; the first has {counts} more ({by})")?,
            (Compared::Counts, false) => write!(f, "; the first has {counts} fewer ({by})")?,
            (Compared::Lengths, true) => write!(f, "; the first is {by} longer ({counts})")?,
            (Compared::Lengths, false) => write!(f, "; the first is {by} shorter ({counts})")?,
        }
        match &self.mend {
            None => f.write_str(", within the tolerance"),
            Some(mend) => write!(f, ", too far apart: {mend}"),
        }
    }
}

fn length(span: Span) -> String {
    let middle = span.middle().unwrap_or_else(|_| span.low());
    middle.display(Unit::Centimetre, Precision::Decimals(1)).to_string()
}

/// A count to one decimal place: `1 stitch`, `2.5 rows`.
fn counts(count: Exact, direction: ReadingDirection) -> String {
    let tenths = count.snapped(Exact::literal(1, 10), Round::HalfUp).unwrap_or(count);
    if tenths.is_whole() {
        return counted(tenths.numer(), one(direction)).to_string();
    }
    format!("{tenths:.1} {}", plural(one(direction)))
}

/// Where a difference lies: below the range, in it, or above it. A difference is
/// outside only when it is certainly outside.
pub(crate) fn within(difference: Span, (least, most): (Length, Length)) -> Ordering {
    if difference.low() > most {
        Ordering::Greater
    } else if difference.high() < least {
        Ordering::Less
    } else {
        Ordering::Equal
    }
}
