use crate::{Error, Fabric, Name};
use alloc::string::String;
use alloc::vec::Vec;
use loopwright_gauge::{Gauge, Rows, Stitches, choices};
pub use loopwright_seams::EdgeKind;
use loopwright_seams::{Edge, EdgeStep};

choices! {
    /// Which way an edge goes.
    pub enum Heading: "the way an edge goes" {
        /// Rows go up; the stitches after them go inwards, or to the right along an edge of
        /// stitches.
        UpAndIn = "up and in",
        /// Rows go up, and the stitches after them outwards.
        UpAndOut = "up and out",
        /// Rows go down, along stitches that were left lower than those before.
        Down = "down",
    }
}

/// A stretch of an edge: so many rows along it, then so many stitches across.
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(deny_unknown_fields)
)]
pub struct Leg {
    /// The fabric of the rows and stitches.
    pub fabric: Fabric,
    /// Which way it goes.
    pub heading: Heading,
    /// Rows along the edge.
    pub rows: Rows,
    /// Stitches across.
    pub stitches: Stitches,
}

impl Leg {
    const fn step(&self) -> EdgeStep {
        EdgeStep { rows: self.rows, stitches: self.stitches }
    }
}

/// A place along an edge that was marked.
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(deny_unknown_fields)
)]
pub struct Marker {
    /// What it is called.
    pub name: Name,
    /// Places of the edge before it: row ends and stitches.
    pub places: u32,
}

/// An edge as the replay left it.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Rows, Stitches};
/// use loopwright_pattern::{Craft, Fabric, Piece, Side, Step};
/// let mut piece = Piece::new("swatch", Craft::Hand)?;
/// piece.extend([
///     Step::cast_on(Stitches::new(30)?, Fabric::Plain, Side::Right),
///     Step::Knit(Rows::new(40)?),
///     Step::bind_off_all("top"),
/// ]);
/// let knitted = piece.replay()?;
/// let top = knitted.edge("top").ok_or("no top")?;
/// assert_eq!((top.rows(), top.stitches()), (0, 30));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(deny_unknown_fields)
)]
pub struct KnittedEdge {
    /// Its name, unique in the piece.
    pub name: Name,
    /// What it is made of; a side is a selvedge, whether straight or not.
    pub kind: EdgeKind,
    /// Its stretches: of live and cast-on stitches from left to right, of others in the
    /// order they were knitted.
    pub legs: Vec<Leg>,
    /// Places marked along it.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Vec::is_empty"))]
    pub markers: Vec<Marker>,
}

impl KnittedEdge {
    pub(crate) const fn new(name: Name, kind: EdgeKind, legs: Vec<Leg>) -> Self {
        Self { name, kind, legs, markers: Vec::new() }
    }

    /// Rows along the whole edge.
    #[must_use]
    pub fn rows(&self) -> u64 {
        self.legs.iter().map(|leg| u64::from(leg.rows.get())).sum()
    }

    /// Stitches across the whole edge.
    #[must_use]
    pub fn stitches(&self) -> u64 {
        self.legs.iter().map(|leg| u64::from(leg.stitches.get())).sum()
    }

    /// Places a stitch can be picked up in: stitches, and the row ends of a side.
    #[must_use]
    pub fn places(&self) -> u64 {
        if self.kind.is_stitches() {
            return self.stitches();
        }
        self.legs.iter().map(|leg| u64::from(leg.step().places())).sum()
    }

    /// The edge as seams are checked with it, called `name`: each stretch at the gauge of
    /// its fabric, less the stitches of a stitch edge that another seam hides.
    ///
    /// # Errors
    /// When a count or a length is out of range.
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::{Gauge, Rows, Stitches};
    /// use loopwright_pattern::{Craft, Fabric, LEFT_EDGE, Piece, Side, Step};
    /// let mut piece = Piece::new("swatch", Craft::Hand)?;
    /// piece.extend([
    ///     Step::cast_on(Stitches::new(30)?, Fabric::Plain, Side::Right),
    ///     Step::Knit(Rows::new(60)?),
    ///     Step::bind_off_all("top"),
    /// ]);
    /// let gauge: Gauge = "20 x 30 / 10 cm".parse()?;
    /// let knitted = piece.replay()?;
    /// let left = knitted.edge(LEFT_EDGE.as_str()).ok_or("no side")?;
    /// let edge = left.to_edge("side", Stitches::ZERO, |_| gauge)?;
    /// assert_eq!(edge.length().low().to_string(), "200 mm");
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn to_edge(
        &self,
        name: &str,
        hidden: Stitches,
        gauge: impl Fn(Fabric) -> Gauge,
    ) -> Result<Edge, Error> {
        let mut parts = Vec::new();
        for run in self.legs.chunk_by(|one, next| one.fabric == next.fabric) {
            let fabric = run.first().map_or(Fabric::Plain, |leg| leg.fabric);
            parts.push(self.stretch(name, run, hidden, gauge(fabric))?);
        }
        match <[Edge; 1]>::try_from(parts) {
            Ok([only]) => Ok(only),
            Err(parts) => Ok(Edge::joined(name, parts)?),
        }
    }

    fn stretch(
        &self,
        name: &str,
        legs: &[Leg],
        hidden: Stitches,
        gauge: Gauge,
    ) -> Result<Edge, Error> {
        let stitches = Stitches::new(total(legs, |leg| leg.stitches.get()))?;
        let seen = || stitches.checked_sub(hidden);
        Ok(match self.kind {
            EdgeKind::CastOn => Edge::cast_on(name, seen()?, gauge)?,
            EdgeKind::Live => Edge::live(name, seen()?, gauge)?,
            EdgeKind::BoundOff => Edge::bound_off(name, seen()?, gauge)?,
            _ if stitches == Stitches::ZERO => {
                let rows = total(legs, |leg| leg.rows.get());
                Edge::selvedge(name, Rows::new(rows)?, gauge)?
            }
            _ => Edge::stepped(name, legs.iter().map(Leg::step).collect(), gauge)?,
        })
    }

    /// Adds rows to the stretch being knitted.
    pub(crate) fn knit(&mut self, fabric: Fabric, rows: Rows) {
        match self.legs.last_mut() {
            Some(leg) if leg.fabric == fabric && leg.stitches == Stitches::ZERO => {
                leg.rows = more(leg.rows, rows);
            }
            _ => {
                let (heading, stitches) = (Heading::UpAndIn, Stitches::ZERO);
                self.legs.push(Leg { fabric, heading, rows, stitches });
            }
        }
    }

    /// Moves the edge across, ending the stretch.
    pub(crate) fn step(&mut self, fabric: Fabric, heading: Heading, stitches: Stitches) {
        match self.legs.last_mut() {
            Some(leg) if leg.fabric == fabric && joins(leg, heading) => {
                leg.heading = heading;
                leg.stitches = leg.stitches.checked_add(stitches).unwrap_or(leg.stitches);
            }
            _ => self.legs.push(Leg { fabric, heading, rows: Rows::ZERO, stitches }),
        }
    }

    /// Notes a marker where the edge has come to.
    pub(crate) fn mark(&mut self, name: Name) {
        let places = u32::try_from(self.places()).unwrap_or(u32::MAX);
        self.markers.push(Marker { name, places });
    }
}

fn joins(leg: &Leg, heading: Heading) -> bool {
    leg.stitches == Stitches::ZERO || leg.heading == heading
}

/// The replay bounds all rows of a piece together, so the sum is in range.
fn more(rows: Rows, and: Rows) -> Rows {
    rows.checked_add(and).unwrap_or(rows)
}

/// A sum along an edge; too many end as too many.
fn total(legs: &[Leg], count: impl Fn(&Leg) -> u32) -> u32 {
    legs.iter().map(count).fold(0, u32::saturating_add)
}

/// The names of edges, as a list to choose from.
pub(crate) fn names(edges: &[KnittedEdge]) -> String {
    let names: Vec<&str> = edges.iter().map(|edge| edge.name.as_str()).collect();
    names.join(", ")
}
