//! serde through the same doors as the constructors.

use super::Part;
use crate::{Edge, EdgeKind, EdgeStep, Error, OutlinePoint};
use alloc::string::String;
use alloc::vec::Vec;
use loopwright_gauge::{Gauge, Rows, Stitches};
use serde::{Deserialize, Serialize};

/// An edge as it is written.
#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub(super) struct RawEdge {
    name: String,
    parts: Vec<RawPart>,
}

#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
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

impl From<Edge> for RawEdge {
    fn from(edge: Edge) -> Self {
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

impl TryFrom<RawEdge> for Edge {
    type Error = Error;

    fn try_from(raw: RawEdge) -> Result<Self, Error> {
        let mut edges = raw.parts.into_iter().map(RawPart::check).collect::<Result<Vec<_>, _>>()?;
        match edges.pop() {
            Some(only) if edges.is_empty() && only.name() == raw.name => Ok(only),
            Some(last) => {
                edges.push(last);
                Self::joined(raw.name, edges)
            }
            None => Self::joined(raw.name, edges),
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
