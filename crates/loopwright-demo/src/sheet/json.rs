//! The sheet as one JSON object.

use crate::answer::length;
use crate::plan::Plan;
use loopwright::garment::{FinishedPiece, Garment};
use loopwright::pattern::words;
use serde_json::{Value, json};

pub(crate) fn json(plan: &Plan, garment: &Garment) -> Value {
    let pieces: Vec<Value> = garment.pieces.iter().map(piece).collect();
    let joins: Vec<Value> = garment
        .plans
        .iter()
        .zip(&garment.seams.verdicts)
        .map(|(plan, verdict)| json!({ "name": plan.name, "words": plan.words, "check": verdict }))
        .collect();
    let checks: Vec<Value> = garment
        .outcomes
        .iter()
        .map(|outcome| json!({ "what": outcome.what, "wanted": length(outcome.wanted), "given": length(outcome.given) }))
        .collect();
    json!({
        "title": plan.title,
        "pieces": pieces,
        "joins": joins,
        "checks": checks,
        "cautions": garment.cautions,
    })
}

fn piece(piece: &FinishedPiece) -> Value {
    let knitted = &piece.knitted;
    let loops: Vec<Value> = knitted
        .loops
        .iter()
        .map(|(fabric, loops)| json!({ "fabric": fabric.to_string(), "stitches": loops }))
        .collect();
    json!({
        "name": knitted.name,
        "copies": piece.copies,
        "cast_on": knitted.cast_on,
        "bound_off": knitted.bound_off,
        "live": knitted.live,
        "rows": knitted.rows,
        "widest": knitted.widest,
        "loops": loops,
        "edges": knitted.edges,
        "instructions": words::instructions(knitted).lines,
    })
}
