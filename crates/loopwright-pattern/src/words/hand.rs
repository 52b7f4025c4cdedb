//! The voice of hand knitting: right-side and wrong-side rows.

use super::acts::{Act, ActKind};
use super::phrase::{in_turn, mark_both, of, picked_up, rates, shaping, verb};
use crate::{CastOn, Entry, Fabric, Knitted, Shape, Side, Step};

/// Where a shaping at both sides is.
const BOTH: &str = "each end";

pub(super) fn say(knitted: &Knitted, act: &Act<'_>) -> String {
    match &act.kind {
        ActKind::Single => single(knitted, act.end),
        ActKind::Taper { shape, gaps } => taper(knitted, act, *shape, gaps),
        ActKind::BindOffs { stitches, rows, edge } => {
            bind_offs(knitted, act, stitches, *rows, edge.as_deref())
        }
        ActKind::Holds { stitches, rows, sides } => holds(stitches, *rows, sides),
        ActKind::ReturnAndKnit { rows } => return_and_knit(*rows),
        ActKind::NewSection { fabric } => new_section(*fabric, act.end),
        ActKind::MarkBoth => mark_both(knitted, act.end),
    }
}

/// The row just finished, which side comes next, and the stitches.
pub(super) fn check(entry: &Entry) -> String {
    if entry.stitches == 0 {
        return String::new();
    }
    let next = if entry.carriage == Side::Right { "right side" } else { "wrong side" };
    format!("after row {}, {next} facing next, {}", entry.row, of(entry.stitches, "stitch"))
}

fn single(knitted: &Knitted, end: &Entry) -> String {
    match &end.step {
        Step::CastOn { stitches, how, fabric, .. } => cast_on(stitches.get(), how, *fabric, end),
        Step::Knit(rows) => format!("Work {}.", of(rows.get(), "row")),
        Step::ChangeFabric(fabric) => format!("Change to {fabric}{}.", rows_of(*fabric, end)),
        Step::ResetCounter => "Count rows from here: the next row is row 1.".into(),
        Step::Shape(shape) => format!("{} in the row just worked.", shaping(knitted, end, *shape, BOTH).trim_end_matches(',')),
        Step::BindOff { stitches, edge } => {
            let edge = edge.as_deref().map_or_else(String::new, |edge| format!(" ({edge})"));
            format!("Bind off {} at the start of the next row{edge}.", of(stitches.get(), "stitch"))
        }
        Step::Extend(stitches) => format!("Cast on {} at the start of the next row.", of(stitches.get(), "stitch")),
        Step::Hold { stitches, .. } => {
            format!("Leave the last {} of the next row unworked, wrap the next and turn.", of(stitches.get(), "stitch"))
        }
        Step::Return => "From the next row on work over all stitches again, the wraps together with their stitches.".into(),
        Step::NameEdge { side, edge } => format!("Mark the {side} edge: from here it is the {edge}."),
        Step::SetAside { side, stitches, part, .. } => {
            format!("Put the {} at the {side} on a holder: they wait as the {part}.", of(stitches.get(), "stitch"))
        }
        Step::Resume { part, carriage } => format!(
            "Break the yarn. Put the {part} back on the needle and join the yarn at its {carriage} edge. The last row worked on it was row {}.",
            end.row
        ),
        Step::TakeOff { side, stitches, edge } => take_off(end, *side, stitches.get(), edge),
        Step::BindOffAll { edge } => format!("Bind off all stitches ({edge})."),
    }
}

fn cast_on(stitches: u32, how: &CastOn, fabric: Fabric, end: &Entry) -> String {
    let begin = match how {
        CastOn::Closed => format!("Cast on {}.", of(stitches, "stitch")),
        CastOn::WasteYarn => format!(
            "Cast on {} with waste yarn, so that the loops can be freed later.",
            of(stitches, "stitch")
        ),
        CastOn::PickedUp { from } => {
            format!("Pick up and knit {}: {}.", of(stitches, "stitch"), picked_up(from))
        }
    };
    format!("{begin} Work in {fabric}{}.", rows_of(fabric, end))
}

/// How the rows of a fabric go over the stitches there are.
fn rows_of(fabric: Fabric, entry: &Entry) -> String {
    match fabric {
        Fabric::Plain => ": knit the right-side rows, purl the wrong-side rows".into(),
        Fabric::Garter => ": knit every row".into(),
        Fabric::Rib { knit, purl } => rib(u32::from(knit), u32::from(purl), entry.stitches),
    }
}

/// A rib that fills whole repeats and half a repeat more shows knit at both edges.
fn rib(knit: u32, purl: u32, stitches: u32) -> String {
    let repeat = knit + purl;
    if repeat > 0 && stitches % repeat == knit % repeat {
        return format!(
            ": right-side rows k{knit}, (p{purl}, k{knit}) to the end; wrong-side rows p{knit}, (k{purl}, p{knit}) to the end"
        );
    }
    format!(
        ": right-side rows (k{knit}, p{purl}) to the end; wrong-side rows knit the knit and purl the purl stitches as they face you"
    )
}

fn take_off(end: &Entry, side: Side, stitches: u32, edge: &str) -> String {
    if end.stitches == 0 {
        return format!(
            "Break the yarn and leave all {} on a holder ({edge}).",
            of(stitches, "stitch")
        );
    }
    format!("Put the {} at the {side} on a holder ({edge}).", of(stitches, "stitch"))
}

fn taper(knitted: &Knitted, act: &Act<'_>, shape: Shape, gaps: &[u32]) -> String {
    let what = shaping(knitted, act.end, shape, BOTH);
    let first = act.begin.row_before + gaps.first().copied().unwrap_or(0);
    let total: u32 = gaps.iter().sum();
    match gaps {
        [0] => format!("{} in the row just worked.", what.trim_end_matches(',')),
        [_] => {
            let what =
                what.trim_end_matches(',').replacen(verb(shape), &verb(shape).to_lowercase(), 1);
            format!("Work {}; in the last of them, row {first}, {what}.", of(total, "row"))
        }
        _ => format!(
            "{what} {}: first in row {first}, last in row {}.",
            rates(gaps),
            act.begin.row_before + total
        ),
    }
}

fn bind_offs(
    knitted: &Knitted,
    act: &Act<'_>,
    stitches: &[u32],
    rows: u32,
    edge: Option<&str>,
) -> String {
    let place = match edge {
        Some(_) if rows == 1 => "Shoulders".to_owned(),
        Some(edge) => format!("The {edge}"),
        None => format!("Shape the {}", knitted.edge_name(act.begin, act.begin.carriage)),
    };
    let once = |size| {
        let off = format!("bind off {} and work to the end", of(size, "stitch"));
        match rows {
            1 => off,
            rows => format!("{off}, work {}", of(rows.saturating_sub(1), "row")),
        }
    };
    format!("{place}: {}.", in_turn(stitches, once))
}

fn holds(stitches: &[u32], rows: u32, sides: &[Side]) -> String {
    let place = match sides {
        [side, rest @ ..] if rest.iter().all(|other| other == side) => {
            format!(" at the {side} edge")
        }
        _ => " at that end".to_owned(),
    };
    // With one row between turns each turn is at the end of the row just worked.
    let once = |size| {
        let turn = format!(
            "work until {} more than before are left unworked{place}, wrap the next stitch and turn",
            of(size, "stitch")
        );
        match rows {
            1 => turn,
            rows => format!("{turn}, work {}", of(rows.saturating_sub(1), "row")),
        }
    };
    format!("Short rows: {}.", in_turn(stitches, once))
}

fn return_and_knit(rows: u32) -> String {
    format!(
        "Work {} over all stitches again, the wraps together with their stitches.",
        of(rows, "row")
    )
}

fn new_section(fabric: Fabric, end: &Entry) -> String {
    format!(
        "Change to {fabric}{}. Count rows from here: the next row is row 1.",
        rows_of(fabric, end)
    )
}
