//! The edges of a piece: what they are made of, how long they are, and other counts.

mod change;
mod count;
mod kind;
mod part;
#[cfg(feature = "serde")]
mod serial;
mod span;
mod text;

pub(crate) use change::Room;
pub use count::EdgeCount;
pub(crate) use count::one;
pub use kind::{EdgeKind, EdgeStep, OutlinePoint};
pub(crate) use part::Part;
pub use span::Span;
pub(crate) use span::nanometres;
pub(crate) use text::{cut_short, write_both};

use crate::{Error, bounds};
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;
use loopwright_gauge::{Gauge, Rows, Stitches};
use part::{checked_name, checked_steps, polyline, stair_length};

/// One edge of a piece: its name, what it is made of, its counts and its length.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Gauge, Rows, Stitches};
/// use loopwright_seams::{Edge, EdgeStep};
/// let gauge: Gauge = "20 x 30 / 10 cm".parse()?;
/// let step = EdgeStep { rows: Rows::new(6)?, stitches: Stitches::new(3)? };
/// let slant = Edge::stepped("raglan", vec![step; 10], gauge)?;
/// assert_eq!((slant.rows().get(), slant.stitches().get()), (60, 30));
/// // Each step is 15 mm across and 20 mm up, so 25 mm along.
/// assert_eq!(slant.length().low().to_string(), "250 mm");
/// # Ok::<(), loopwright_seams::Error>(())
/// ```
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(try_from = "serial::RawEdge", into = "serial::RawEdge"))]
pub struct Edge {
    name: String,
    parts: Vec<Part>,
    stitches: Stitches,
    rows: Rows,
    length: Span,
}

impl Edge {
    /// A closed cast-on edge.
    ///
    /// # Errors
    /// When the name is empty or too long, or there are no stitches.
    pub fn cast_on(
        name: impl Into<String>,
        stitches: Stitches,
        gauge: Gauge,
    ) -> Result<Self, Error> {
        Self::of_stitches(name.into(), EdgeKind::CastOn, stitches, gauge)
    }

    /// An edge of open stitches.
    ///
    /// # Errors
    /// When the name is empty or too long, or there are no stitches.
    pub fn live(name: impl Into<String>, stitches: Stitches, gauge: Gauge) -> Result<Self, Error> {
        Self::of_stitches(name.into(), EdgeKind::Live, stitches, gauge)
    }

    /// A bound-off edge.
    ///
    /// # Errors
    /// When the name is empty or too long, or there are no stitches.
    pub fn bound_off(
        name: impl Into<String>,
        stitches: Stitches,
        gauge: Gauge,
    ) -> Result<Self, Error> {
        Self::of_stitches(name.into(), EdgeKind::BoundOff, stitches, gauge)
    }

    /// The row ends of a straight side.
    ///
    /// # Errors
    /// When the name is empty or too long, or there are no rows.
    pub fn selvedge(name: impl Into<String>, rows: Rows, gauge: Gauge) -> Result<Self, Error> {
        let name = checked_name(name.into())?;
        if rows == Rows::ZERO {
            return Err(Error::range(format!("the count of rows of the {name}"), 0, "at least 1"));
        }
        let length = Span::exact(gauge.length_of(rows)?);
        Ok(Self::from_part(Part { rows, ..Part::bare(name, EdgeKind::Selvedge, gauge, length) }))
    }

    /// A slanted or curved side, as its staircase from end to end.
    ///
    /// Its length is that of the polyline through the corners of the staircase. It takes
    /// rows and stitches both to slant: steps of rows alone make a straight selvedge, and
    /// steps of stitches alone one bound-off edge.
    ///
    /// # Errors
    /// When the name is empty or too long, or the steps are too many or go nowhere.
    pub fn stepped(
        name: impl Into<String>,
        steps: Vec<EdgeStep>,
        gauge: Gauge,
    ) -> Result<Self, Error> {
        let name = checked_name(name.into())?;
        checked_steps(&name, &steps)?;
        let (mut stitches, mut rows) = (Stitches::ZERO, Rows::ZERO);
        for step in &steps {
            stitches = stitches.checked_add(step.stitches)?;
            rows = rows.checked_add(step.rows)?;
        }
        if stitches == Stitches::ZERO {
            return Self::selvedge(name, rows, gauge);
        }
        if rows == Rows::ZERO {
            return Self::bound_off(name, stitches, gauge);
        }
        let length = stair_length(&steps, gauge)?;
        let bare = Part::bare(name, EdgeKind::Stepped, gauge, length);
        Ok(Self::from_part(Part { stitches, rows, steps, ..bare }))
    }

    /// Several edges in one line, end to end: both armholes for one sleeve, or a
    /// whole neck.
    ///
    /// # Errors
    /// When the name is empty or too long, or there are no edges or too many.
    pub fn joined(name: impl Into<String>, edges: Vec<Self>) -> Result<Self, Error> {
        let name = checked_name(name.into())?;
        let parts: Vec<Part> = edges.into_iter().flat_map(|edge| edge.parts).collect();
        if parts.is_empty() || parts.len() > bounds::PARTS {
            let what = format!("the count of edges joined into the {name}");
            return Err(Error::range(what, parts.len(), format!("in 1..={}", bounds::PARTS)));
        }
        let (mut stitches, mut rows, mut length) = (Stitches::ZERO, Rows::ZERO, Span::ZERO);
        for part in &parts {
            stitches = stitches.checked_add(part.stitches)?;
            rows = rows.checked_add(part.rows)?;
            length = length.checked_add(part.length)?;
        }
        Ok(Self { name, parts, stitches, rows, length })
    }

    /// The same edge, with the ideal outline its staircase was made from.
    ///
    /// # Errors
    /// When the outline has fewer than two points or too many, or is out of bounds.
    pub fn with_outline(mut self, points: Vec<OutlinePoint>) -> Result<Self, Error> {
        if !(2..=bounds::STEPS).contains(&points.len()) {
            let what = format!("the count of outline points of the {}", self.name);
            return Err(Error::range(what, points.len(), format!("in 2..={}", bounds::STEPS)));
        }
        polyline(&points)?;
        if let [part] = self.parts.as_mut_slice() {
            part.outline = points;
            return Ok(self);
        }
        Err(Error::range(
            format!("the count of parts of the {}", self.name),
            self.parts.len(),
            "1 to be given an outline",
        ))
    }

    fn of_stitches(
        name: String,
        kind: EdgeKind,
        stitches: Stitches,
        gauge: Gauge,
    ) -> Result<Self, Error> {
        let name = checked_name(name)?;
        if stitches == Stitches::ZERO {
            return Err(Error::range(
                format!("the count of stitches of the {name}"),
                0,
                "at least 1",
            ));
        }
        let length = Span::exact(gauge.length_of(stitches)?);
        Ok(Self::from_part(Part { stitches, ..Part::bare(name, kind, gauge, length) }))
    }

    fn from_part(part: Part) -> Self {
        Self {
            name: part.name.clone(),
            stitches: part.stitches,
            rows: part.rows,
            length: part.length,
            parts: Vec::from([part]),
        }
    }

    /// The name, as sentences put "the" before it: "left side of the back".
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }

    /// What the edge is made of.
    #[must_use]
    pub fn kind(&self) -> EdgeKind {
        let mut kinds = self.parts.iter().map(|part| part.kind);
        let first = kinds.next().unwrap_or(EdgeKind::Mixed);
        if kinds.all(|kind| kind == first) { first } else { EdgeKind::Mixed }
    }

    /// The stitches: all of a stitch edge, and those gained or lost along a slant.
    #[must_use]
    pub const fn stitches(&self) -> Stitches {
        self.stitches
    }

    /// The rows: none for a stitch edge.
    #[must_use]
    pub const fn rows(&self) -> Rows {
        self.rows
    }

    /// The length along the edge; for a staircase, through its corners.
    #[must_use]
    pub const fn length(&self) -> Span {
        self.length
    }

    /// The length of the ideal outline, where every part that is stepped has one and at
    /// least one part does; straight parts are their own outline.
    ///
    /// # Errors
    /// When the length is out of bounds or cannot be held exactly.
    pub fn outline_length(&self) -> Result<Option<Span>, Error> {
        if self.parts.iter().all(|part| part.outline.is_empty()) {
            return Ok(None);
        }
        let mut length = Span::ZERO;
        for part in &self.parts {
            let own = match (part.outline.is_empty(), part.kind) {
                (true, EdgeKind::Stepped) => return Ok(None),
                (true, _) => part.length,
                (false, _) => polyline(&part.outline)?,
            };
            length = length.checked_add(own)?;
        }
        Ok(Some(length))
    }

    /// The names of the edges this one was joined from, or its own.
    pub fn part_names(&self) -> impl Iterator<Item = &str> {
        self.parts.iter().map(|part| part.name.as_str())
    }

    /// A part alone, as an edge of its own.
    pub(crate) fn of_part(part: &Part) -> Self {
        Self::from_part(part.clone())
    }

    pub(crate) fn into_parts(self) -> Vec<Part> {
        self.parts
    }

    pub(crate) fn parts(&self) -> &[Part] {
        &self.parts
    }

    /// Whether every part is live stitches.
    pub(crate) fn is_live(&self) -> bool {
        self.parts.iter().all(|part| part.kind == EdgeKind::Live)
    }

    /// Whether every part is counted in stitches only.
    pub(crate) fn is_stitches(&self) -> bool {
        self.parts.iter().all(|part| part.kind.is_stitches())
    }
}
