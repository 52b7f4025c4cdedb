//! Edges as the replay left them, turned into edges that seams can check.

use crate::{Error, Fabrics};
use loopwright_gauge::{Rows, Stitches};
use loopwright_pattern::{EdgeKind, KnittedEdge, Leg};
use loopwright_seams::{Edge, EdgeStep};

/// The edge under the name `name`, each stretch at the gauge of its fabric, less the
/// stitches of a stitch edge that another seam hides.
pub(crate) fn edge(
    name: &str,
    knitted: &KnittedEdge,
    hidden: u32,
    fabrics: &Fabrics,
) -> Result<Edge, Error> {
    let mut parts = Vec::new();
    for run in knitted.legs.chunk_by(|one, next| one.fabric == next.fabric) {
        parts.push(stretch(name, knitted.kind, run, hidden, fabrics)?);
    }
    match <[Edge; 1]>::try_from(parts) {
        Ok([only]) => Ok(only),
        Err(parts) => Ok(Edge::joined(name, parts)?),
    }
}

fn stretch(
    name: &str,
    kind: EdgeKind,
    legs: &[Leg],
    hidden: u32,
    fabrics: &Fabrics,
) -> Result<Edge, Error> {
    let gauge = legs.first().map_or(fabrics.plain, |leg| fabrics.of(leg.fabric));
    let stitches = stitches(legs.iter().map(|leg| leg.stitches))?;
    let seen = || stitches.checked_sub(Stitches::new(hidden)?);
    Ok(match kind {
        EdgeKind::CastOn => Edge::cast_on(name, seen()?, gauge)?,
        EdgeKind::Live => Edge::live(name, seen()?, gauge)?,
        EdgeKind::BoundOff => Edge::bound_off(name, seen()?, gauge)?,
        EdgeKind::Selvedge if stitches == Stitches::ZERO => {
            Edge::selvedge(name, rows(legs.iter().map(|leg| leg.rows))?, gauge)?
        }
        EdgeKind::Selvedge => Edge::stepped(name, steps(legs)?, gauge)?,
    })
}

fn steps(legs: &[Leg]) -> Result<Vec<EdgeStep>, Error> {
    legs.iter()
        .map(|leg| Ok(EdgeStep { rows: rows([leg.rows])?, stitches: stitches([leg.stitches])? }))
        .collect()
}

fn stitches(counts: impl IntoIterator<Item = i64>) -> Result<Stitches, Error> {
    Ok(Stitches::new(total(counts))?)
}

fn rows(counts: impl IntoIterator<Item = i64>) -> Result<Rows, Error> {
    Ok(Rows::new(total(counts))?)
}

/// Counts along an edge, whichever way it goes; too many end as too many.
fn total(counts: impl IntoIterator<Item = i64>) -> u32 {
    let sum = counts.into_iter().fold(0_u64, |sum, count| sum.saturating_add(count.unsigned_abs()));
    u32::try_from(sum).unwrap_or(u32::MAX)
}
