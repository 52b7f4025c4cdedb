use crate::{Error, Span, bounds};
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;
use core::fmt;
use loopwright_gauge::{Gauge, Length, Rows, Stitches};

/// What an edge is made of.
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum EdgeKind {
    /// Stitches of a closed cast-on.
    CastOn,
    /// Open stitches: on needles, on waste yarn, or of an open cast-on.
    Live,
    /// Stitches bound off.
    BoundOff,
    /// Row ends of a straight side.
    Selvedge,
    /// A slanted or curved side: a staircase of rows and stitches.
    Stepped,
    /// Edges of several kinds joined into one line.
    Mixed,
}

impl EdgeKind {
    /// Whether the edge is counted in stitches only.
    #[must_use]
    pub const fn is_stitches(self) -> bool {
        matches!(self, Self::CastOn | Self::Live | Self::BoundOff)
    }

    /// Whether the edge has row ends.
    #[must_use]
    pub const fn has_rows(self) -> bool {
        matches!(self, Self::Selvedge | Self::Stepped | Self::Mixed)
    }
}

impl fmt::Display for EdgeKind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::CastOn => "a cast-on edge",
            Self::Live => "live stitches",
            Self::BoundOff => "a bound-off edge",
            Self::Selvedge => "a selvedge",
            Self::Stepped => "a slanted or curved edge",
            Self::Mixed => "an edge of several kinds",
        })
    }
}

/// One step of a staircase: up `rows`, then `stitches` across.
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct Step {
    /// Rows knitted; none when stitches are bound off at once.
    pub rows: Rows,
    /// Stitches gained or lost at the end of those rows.
    pub stitches: Stitches,
}

impl Step {
    /// The places a stitch can be picked up in: its row ends, and its stitches where two
    /// or more are bound off or cast on; one stitch more or less is worked inside its row.
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::{Rows, Stitches};
    /// use loopwright_seams::Step;
    /// let step = |rows, stitches| {
    ///     Ok::<_, loopwright_gauge::Error>(Step {
    ///         rows: Rows::new(rows)?,
    ///         stitches: Stitches::new(stitches)?,
    ///     })
    /// };
    /// assert_eq!((step(4, 1)?.places(), step(4, 3)?.places()), (4, 7));
    /// # Ok::<(), loopwright_gauge::Error>(())
    /// ```
    #[must_use]
    pub const fn places(self) -> u32 {
        match (self.rows.get(), self.stitches.get()) {
            (0, stitches) => stitches,
            (rows, 0 | 1) => rows,
            (rows, stitches) => rows + stitches,
        }
    }
}

/// A corner of an outline, measured from any fixed point of the piece.
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct Point {
    /// How far along the rows.
    pub across: Length,
    /// How far along the wales.
    pub up: Length,
}

/// A stretch of an edge that is all of one kind and one gauge.
#[derive(Clone, Debug, Eq, PartialEq)]
pub(crate) struct Part {
    pub(crate) name: String,
    pub(crate) kind: EdgeKind,
    pub(crate) stitches: Stitches,
    pub(crate) rows: Rows,
    pub(crate) steps: Vec<Step>,
    pub(crate) gauge: Gauge,
    pub(crate) length: Span,
    pub(crate) outline: Vec<Point>,
}

impl Part {
    /// A stretch with its length, its counts still to be given.
    const fn bare(name: String, kind: EdgeKind, gauge: Gauge, length: Span) -> Self {
        let (stitches, rows) = (Stitches::ZERO, Rows::ZERO);
        Self { name, kind, stitches, rows, steps: Vec::new(), gauge, length, outline: Vec::new() }
    }
}

/// One edge of a piece: its name, what it is made of, its counts and its length.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Gauge, Rows, Stitches};
/// use loopwright_seams::{Edge, Step};
/// let gauge: Gauge = "20 x 30 / 10 cm".parse()?;
/// let step = Step { rows: Rows::new(6)?, stitches: Stitches::new(3)? };
/// let slant = Edge::stepped("raglan", vec![step; 10], gauge)?;
/// assert_eq!((slant.rows().get(), slant.stitches().get()), (60, 30));
/// // Each step is 15 mm across and 20 mm up, so 25 mm along.
/// assert_eq!(slant.length().low().to_string(), "250 mm");
/// # Ok::<(), loopwright_seams::Error>(())
/// ```
#[derive(Clone, Debug, Eq, PartialEq)]
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
        let length = Span::exact(gauge.height_of(rows)?);
        Ok(Self::from_part(Part { rows, ..Part::bare(name, EdgeKind::Selvedge, gauge, length) }))
    }

    /// A slanted or curved side, as its staircase from end to end.
    ///
    /// Its length is that of the polyline through the corners of the staircase.
    ///
    /// # Errors
    /// When the name is empty or too long, or the steps are too many or go nowhere.
    pub fn stepped(name: impl Into<String>, steps: Vec<Step>, gauge: Gauge) -> Result<Self, Error> {
        let name = checked_name(name.into())?;
        checked_steps(&name, &steps)?;
        let (mut stitches, mut rows) = (Stitches::ZERO, Rows::ZERO);
        for step in &steps {
            stitches = stitches.checked_add(step.stitches)?;
            rows = rows.checked_add(step.rows)?;
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
    pub fn with_outline(mut self, points: Vec<Point>) -> Result<Self, Error> {
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
        let length = Span::exact(gauge.width_of(stitches)?);
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

fn checked_name(name: String) -> Result<String, Error> {
    match name.chars().count() {
        1..=bounds::NAME if !name.trim().is_empty() => Ok(name),
        0..=bounds::NAME => Err(Error::range("the name of an edge", "empty", "a name")),
        count => {
            let given = format!("{count} characters long");
            Err(Error::range("the name of an edge", given, format!("at most {}", bounds::NAME)))
        }
    }
}

fn checked_steps(name: &str, steps: &[Step]) -> Result<(), Error> {
    if steps.is_empty() || steps.len() > bounds::STEPS {
        let what = format!("the count of steps of the {name}");
        return Err(Error::range(what, steps.len(), format!("in 1..={}", bounds::STEPS)));
    }
    let still = |step: &Step| step.rows == Rows::ZERO && step.stitches == Stitches::ZERO;
    match steps.iter().position(still) {
        Some(at) => {
            let what = format!("step {} of the {name}", at + 1);
            Err(Error::range(what, "0 rows and 0 stitches", "at least one row or stitch"))
        }
        None => Ok(()),
    }
}

fn polyline(points: &[Point]) -> Result<Span, Error> {
    let mut length = Span::ZERO;
    for (from, to) in points.iter().zip(points.iter().skip(1)) {
        let across = to.across.checked_sub(from.across)?;
        let up = to.up.checked_sub(from.up)?;
        length = length.checked_add(Span::hypotenuse(across, up)?)?;
    }
    Ok(length)
}

/// Straight steps are added up exactly, and only slanted ones as square roots,
/// one for each run of equal steps.
fn stair_length(steps: &[Step], gauge: Gauge) -> Result<Span, Error> {
    let (mut stitches, mut rows, mut slants) = (Stitches::ZERO, Rows::ZERO, Span::ZERO);
    for run in steps.chunk_by(|a, b| a == b) {
        let (Some(step), Ok(times)) = (run.first(), u32::try_from(run.len())) else { continue };
        if step.rows == Rows::ZERO {
            let run = Stitches::new(step.stitches.get().saturating_mul(times))?;
            stitches = stitches.checked_add(run)?;
        } else if step.stitches == Stitches::ZERO {
            rows = rows.checked_add(Rows::new(step.rows.get().saturating_mul(times))?)?;
        } else {
            let up = gauge.height_of(step.rows)?;
            let slant = Span::hypotenuse(gauge.width_of(step.stitches)?, up)?;
            slants = slants.checked_add(slant.times(times)?)?;
        }
    }
    let straight = gauge.width_of(stitches)?.checked_add(gauge.height_of(rows)?)?;
    Span::exact(straight).checked_add(slants)
}
