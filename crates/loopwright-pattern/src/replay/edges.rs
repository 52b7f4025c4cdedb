//! The record of edges.

use super::state::{State, sound};
use crate::edge::{EdgeKind, Heading, KnittedEdge, Leg};
use crate::error::Fault;
use crate::{Fabric, Name, Side};
use alloc::vec::Vec;
use loopwright_gauge::Stitches;

impl State {
    /// Moves the edge of the part being worked across by so many stitches.
    pub(super) fn step_edge(&mut self, side: Side, heading: Heading, count: u32) {
        let Some(part) = &self.part else { return };
        if let Some(edge) = self.knitted.edges.get_mut(part.edge(side)) {
            edge.step(part.fabric, heading, super::state::stitches(count));
        }
    }

    /// Adds bound-off stitches to the edge of that name. Rows knitted after them at the
    /// same side belong to it too, as those between the steps of a shoulder.
    pub(super) fn bind_onto(
        &mut self,
        name: &Name,
        fabric: Fabric,
        stitches: Stitches,
    ) -> Result<usize, Fault> {
        let at = match self.knitted.edges.iter().position(|edge| edge.name == *name) {
            None => self.new_edge(name, EdgeKind::BoundOff, Vec::new())?,
            Some(at) => at,
        };
        match self.knitted.edges.get_mut(at) {
            Some(edge) if edge.kind == EdgeKind::BoundOff => {
                edge.step(fabric, Heading::UpAndIn, stitches);
            }
            _ => return Err(Fault::EdgeName { name: name.clone() }),
        }
        Ok(at)
    }

    pub(super) fn name_edge(&mut self, side: Side, name: &Name) -> Result<(), Fault> {
        self.flat("an edge")?;
        let edge = self.new_edge(name, EdgeKind::Selvedge, Vec::new())?;
        self.working("an edge")?.set_edge(side, edge);
        Ok(())
    }

    pub(super) fn mark(&mut self, side: Side, marker: &Name) -> Result<(), Fault> {
        let at = self.flat("an edge")?.edge(side);
        sound(marker)?;
        let Some(edge) = self.knitted.edges.get_mut(at) else { return Ok(()) };
        if edge.markers.iter().any(|known| known.name == *marker) {
            return Err(Fault::MarkerName { name: marker.clone(), edge: edge.name.clone() });
        }
        edge.mark(marker.clone());
        Ok(())
    }

    pub(super) fn new_edge(
        &mut self,
        name: &Name,
        kind: EdgeKind,
        legs: Vec<Leg>,
    ) -> Result<usize, Fault> {
        sound(name)?;
        if self.knitted.edges.iter().any(|edge| edge.name == *name) {
            return Err(Fault::EdgeName { name: name.clone() });
        }
        self.knitted.edges.push(KnittedEdge::new(name.clone(), kind, legs));
        Ok(self.knitted.edges.len() - 1)
    }
}
