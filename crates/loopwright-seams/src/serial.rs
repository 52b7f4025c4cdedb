//! serde through the same doors as the constructors.

use crate::edge::Part;
use crate::{
    Edge, EdgeKind, EdgeStep, Error, OutlinePoint, PickUpSpacing, Placement, Rate, SeamEase,
    Tolerance,
};
use alloc::string::String;
use alloc::vec::Vec;
use loopwright_gauge::{Gauge, Rows, Stitches};
use serde::{Deserialize, Deserializer, Serialize, Serializer, de::Error as _};

macro_rules! through {
    ($($name:ident as $raw:ident;)*) => {$(
        impl Serialize for $name {
            fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                $raw::from(self).serialize(serializer)
            }
        }

        impl<'de> Deserialize<'de> for $name {
            fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
                $raw::deserialize(deserializer)?.check().map_err(D::Error::custom)
            }
        }
    )*};
}

through! {
    Edge as RawEdge;
    Placement as RawPlacement;
    Rate as RawRate;
    Tolerance as RawTolerance;
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct RawEdge {
    name: String,
    parts: Vec<RawPart>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct RawPart {
    name: String,
    kind: EdgeKind,
    gauge: Gauge,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    stitches: Option<Stitches>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    rows: Option<Rows>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    steps: Vec<EdgeStep>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    outline: Vec<OutlinePoint>,
}

impl From<&Edge> for RawEdge {
    fn from(edge: &Edge) -> Self {
        Self { name: edge.name().into(), parts: edge.parts().iter().map(RawPart::from).collect() }
    }
}

impl From<&Part> for RawPart {
    fn from(part: &Part) -> Self {
        Self {
            name: part.name.clone(),
            kind: part.kind,
            gauge: part.gauge,
            stitches: part.kind.is_stitches().then_some(part.stitches),
            rows: (part.kind == EdgeKind::Selvedge).then_some(part.rows),
            steps: part.steps.clone(),
            outline: part.outline.clone(),
        }
    }
}

impl RawEdge {
    fn check(self) -> Result<Edge, Error> {
        let mut edges =
            self.parts.into_iter().map(RawPart::check).collect::<Result<Vec<_>, _>>()?;
        match edges.pop() {
            Some(only) if edges.is_empty() && only.name() == self.name => Ok(only),
            Some(last) => {
                edges.push(last);
                Edge::joined(self.name, edges)
            }
            None => Edge::joined(self.name, edges),
        }
    }
}

impl RawPart {
    fn check(self) -> Result<Edge, Error> {
        let stitches = self.stitches.unwrap_or_default();
        let edge = match self.kind {
            EdgeKind::CastOn => Edge::cast_on(self.name, stitches, self.gauge),
            EdgeKind::Live => Edge::live(self.name, stitches, self.gauge),
            EdgeKind::BoundOff => Edge::bound_off(self.name, stitches, self.gauge),
            EdgeKind::Selvedge => {
                Edge::selvedge(self.name, self.rows.unwrap_or_default(), self.gauge)
            }
            EdgeKind::Stepped => Edge::stepped(self.name, self.steps, self.gauge),
            EdgeKind::Mixed => {
                Err(Error::range("the kind of a part of an edge", "mixed", "of one kind"))
            }
        }?;
        if self.outline.is_empty() { Ok(edge) } else { edge.with_outline(self.outline) }
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct RawPlacement {
    places: u32,
    stitches: Stitches,
    spacing: PickUpSpacing,
}

impl From<&Placement> for RawPlacement {
    fn from(placement: &Placement) -> Self {
        Self {
            places: placement.places(),
            stitches: Stitches::new(placement.stitches()).unwrap_or_default(),
            spacing: placement.spacing(),
        }
    }
}

impl RawPlacement {
    fn check(self) -> Result<Placement, Error> {
        Placement::new(self.places, self.stitches, self.spacing)
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct RawRate {
    pick: u32,
    of: u32,
}

impl From<&Rate> for RawRate {
    fn from(rate: &Rate) -> Self {
        Self { pick: rate.pick(), of: rate.of() }
    }
}

impl RawRate {
    fn check(self) -> Result<Rate, Error> {
        Rate::new(self.pick, self.of)
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct RawTolerance {
    counts: u32,
    ease: SeamEase,
}

impl From<&Tolerance> for RawTolerance {
    fn from(tolerance: &Tolerance) -> Self {
        Self { counts: tolerance.most_counts(), ease: tolerance.ease() }
    }
}

impl RawTolerance {
    fn check(self) -> Result<Tolerance, Error> {
        Tolerance::new(self.counts, self.ease)
    }
}
