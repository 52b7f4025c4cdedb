//! Knits a piece step by step on a modelled bed; shares no arithmetic with drafting.

mod begin;
mod edges;
mod knit;
mod part;
mod parting;
mod short;
mod state;
mod width;
mod yarn;

use crate::error::{Fault, Kind};
use crate::{Error, Knitted, Piece};
use state::State;

/// Rows of waste yarn that begin or carry live stitches at the machine
/// (clearwaterknits.com: 7 or 8).
pub(crate) const WASTE_ROWS: u32 = 8;

pub(crate) fn replay(piece: &Piece) -> Result<Knitted, Error> {
    let mut state = State::new(piece);
    for (index, step) in piece.steps().iter().enumerate() {
        state.take(step).map_err(|fault| refused(piece, index + 1, &state, fault))?;
    }
    state.finish().map_err(|fault| refused(piece, piece.steps().len(), &state, fault))?;
    Ok(state.knitted)
}

fn refused(piece: &Piece, step: usize, state: &State, fault: Fault) -> Error {
    Kind::Refused { piece: piece.name().clone(), step, row: state.row(), fault }.into()
}
