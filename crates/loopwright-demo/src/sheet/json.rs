//! The sheet as one JSON object.

use crate::answer::{fraction, length};
use crate::plan::Plan;
use loopwright::garment::{FinishedPiece, Garment, YarnReport};
use loopwright::gauge::{Exact, Length, Unit};
use loopwright::pattern::words;
use loopwright::yardage::{Amount, Mass};
use serde_json::{Value, json};

pub(crate) fn json(plan: &Plan, garment: &Garment, yarn: Option<&YarnReport>) -> Value {
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
        .map(|outcome| {
            json!({
                "what": outcome.what,
                "wanted": length(outcome.wanted),
                "given": length(outcome.given.likely()),
                "low": length(outcome.given.low()),
                "high": length(outcome.given.high()),
            })
        })
        .collect();
    let counts: Vec<Value> = garment
        .counts
        .iter()
        .map(|count| {
            json!({
                "name": count.name,
                "count": count.count.get(),
                "ideal": fraction(count.ideal),
                "deviation": fraction(count.deviation),
            })
        })
        .collect();
    let curves: Vec<Value> = garment
        .curves
        .iter()
        .map(|curve| json!({ "what": curve.what, "most": length(curve.most) }))
        .collect();
    json!({
        "title": plan.title,
        "pieces": pieces,
        "joins": joins,
        "checks": checks,
        "counts": counts,
        "proved": garment.proved,
        "curves": curves,
        "yarn": yarn.map(yarn_needed),
        "cautions": garment.cautions,
    })
}

fn piece(piece: &FinishedPiece) -> Value {
    let knitted = &piece.knitted;
    let loops: Vec<Value> = knitted
        .loops
        .iter()
        .map(|of| json!({ "fabric": of.fabric.to_string(), "yarn": of.yarn, "stitches": of.loops }))
        .collect();
    json!({
        "name": knitted.name,
        "copies": piece.copies,
        "cast_on": knitted.cast_on,
        "picked_up": knitted.picked_up,
        "bound_off": knitted.bound_off,
        "live": knitted.live,
        "rows": knitted.rows,
        "widest": knitted.widest,
        "loops": loops,
        "edges": knitted.edges,
        "instructions": words::instructions(knitted).lines,
    })
}

fn yarn_needed(report: &YarnReport) -> Value {
    let pieces: Vec<Value> = report
        .estimate
        .pieces
        .iter()
        .map(|piece| json!({ "name": piece.piece, "amount": amount(&piece.amount) }))
        .collect();
    json!({
        "pieces": pieces,
        "total": amount(&report.total()),
        "waste": amount(&report.estimate.waste),
        "source": report.plain.source().to_string(),
        "packages": report.purchase.as_ref().map(|purchase| {
            let packages = &purchase.packages;
            json!({ "low": packages.low(), "likely": packages.likely(), "high": packages.high() })
        }),
    })
}

fn amount(amount: &Amount) -> Value {
    let part = |length: Length, mass: Mass| {
        let metres = length.in_unit(Unit::Metre).map_or(0.0, Exact::to_f64_lossy);
        json!({ "metres": metres, "grams": mass.grams().to_f64_lossy() })
    };
    let (length, mass) = (&amount.length, &amount.mass);
    json!({
        "low": part(length.low(), mass.low()),
        "likely": part(length.likely(), mass.likely()),
        "high": part(length.high(), mass.high()),
    })
}
