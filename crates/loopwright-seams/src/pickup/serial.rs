//! How bands, lines, placements and rates are written: serde through the same doors as
//! their constructors.

use crate::{
    Buttonholes, Edge, EdgeCount, Error, Holes, PickUpLine, PickUpSpacing, Placement, Rate,
};
use alloc::vec::Vec;
use loopwright_gauge::{Count, Gauge, Stitches};
use serde::{Deserialize, Serialize};

/// A rate as it is written.
#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub(super) struct RawRate {
    #[cfg_attr(feature = "schema", schemars(range(min = 1, max = 10_000)))]
    pick: u32,
    #[cfg_attr(feature = "schema", schemars(range(min = 1, max = 10_000)))]
    of: u32,
}

impl TryFrom<RawRate> for Rate {
    type Error = Error;

    fn try_from(raw: RawRate) -> Result<Self, Error> {
        Self::new(raw.pick, raw.of)
    }
}

impl From<Rate> for RawRate {
    fn from(rate: Rate) -> Self {
        Self { pick: rate.pick(), of: rate.of() }
    }
}

/// A placement as it is written.
#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub(super) struct RawPlacement {
    places: EdgeCount,
    stitches: Stitches,
    spacing: PickUpSpacing,
}

impl TryFrom<RawPlacement> for Placement {
    type Error = Error;

    fn try_from(raw: RawPlacement) -> Result<Self, Error> {
        Self::new(raw.places, raw.stitches, raw.spacing)
    }
}

impl From<Placement> for RawPlacement {
    fn from(it: Placement) -> Self {
        Self { places: it.places(), stitches: it.stitches(), spacing: it.spacing() }
    }
}

/// A band with its holes as it is written.
#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub(super) struct RawBand<C> {
    total: C,
    holes: u32,
    width: C,
}

impl<C: Count> TryFrom<RawBand<C>> for Buttonholes<C> {
    type Error = Error;

    fn try_from(raw: RawBand<C>) -> Result<Self, Error> {
        Self::new(raw.total, raw.holes, raw.width)
    }
}

impl<C: Count> From<Buttonholes<C>> for RawBand<C> {
    fn from(it: Buttonholes<C>) -> Self {
        Self { total: it.total(), holes: it.holes(), width: it.width() }
    }
}

/// Holes as they are written.
#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub(super) struct RawHoles<C> {
    gaps: Vec<C>,
    width: C,
}

impl<C: Count> TryFrom<RawHoles<C>> for Holes<C> {
    type Error = Error;

    fn try_from(raw: RawHoles<C>) -> Result<Self, Error> {
        Self::between(raw.gaps, raw.width)
    }
}

impl<C: Count> From<Holes<C>> for RawHoles<C> {
    fn from(holes: Holes<C>) -> Self {
        Self { gaps: holes.gaps().to_vec(), width: holes.width() }
    }
}

/// A line as it is written.
#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub(super) struct RawLine {
    band: Gauge,
    edges: Vec<RawRun>,
    #[serde(default)]
    mirrored: bool,
}

#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
struct RawRun {
    edge: Edge,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    rate: Option<Rate>,
    #[serde(default)]
    corner: bool,
}

impl From<RawLine> for PickUpLine {
    fn from(raw: RawLine) -> Self {
        let line = raw.edges.into_iter().fold(Self::new(raw.band), |line, run| {
            let line = line.next(run.edge, run.rate);
            if run.corner { line.corner() } else { line }
        });
        if raw.mirrored { line.mirrored() } else { line }
    }
}

impl From<PickUpLine> for RawLine {
    fn from(line: PickUpLine) -> Self {
        let edges = line.runs.iter().map(|run| RawRun {
            edge: Edge::of_part(&run.part),
            rate: run.rate,
            corner: run.corner,
        });
        Self { band: line.band, edges: edges.collect(), mirrored: line.mirrored }
    }
}
