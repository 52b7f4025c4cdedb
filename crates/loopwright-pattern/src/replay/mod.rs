//! Knits a piece step by step on a modelled bed; shares no arithmetic with drafting.

mod part;
mod state;
mod work;

use crate::error::Kind;
use crate::{Error, Knitted, Piece};
use state::State;

pub(crate) fn replay(piece: &Piece) -> Result<Knitted, Error> {
    let mut state = State::new(piece.name(), piece.craft());
    for (index, step) in piece.steps().iter().enumerate() {
        state.take(step).map_err(|fault| refused(piece, index + 1, &state, fault))?;
    }
    state.finish().map_err(|fault| refused(piece, piece.steps().len(), &state, fault))?;
    Ok(state.knitted)
}

fn refused(piece: &Piece, step: usize, state: &State, fault: crate::error::Fault) -> Error {
    Kind::Refused { piece: piece.name().into(), step, row: state.row(), fault }.into()
}
