//! The voice of hand knitting: right-side and wrong-side rows.

use super::acts::{Act, ActKind, Rhythm};
use super::dialect::Dialect;
use super::phrase::{
    bind_off, in_turn, mark_both, of, picked_up, row, sentence, sentences, shaping, when,
};
use super::rib::{rows as in_fabric, those};
use crate::{CastOn, Entry, Facing, Hang, Hanging, Knitted, Name, Side, Step};
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// Where a shaping at both sides is.
const BOTH: &str = "at each end";

pub(super) fn say(knitted: &Knitted, act: &Act<'_>, dialect: Dialect) -> String {
    match &act.kind {
        ActKind::Single => single(knitted, act.end, dialect),
        ActKind::Rhythms(rhythms) => shapings(knitted, act, rhythms),
        ActKind::BindOffs { stitches, rows, edges } => {
            bind_offs(knitted, act, (stitches, *rows), edges, dialect)
        }
        ActKind::ShortRows { back, stitches, rows, sides } => {
            short_rows(*back, stitches, *rows, sides)
        }
        ActKind::ReturnAndKnit { side, stitches, rows } => return_and_knit(*side, *stitches, *rows),
        ActKind::NewSection { fabric } => sentences(&[
            format!("change to work {}", of_fabric(act.end, *fabric, dialect)),
            COUNT_FROM_HERE.into(),
        ]),
        ActKind::MarkBoth => mark_both(knitted, act.end),
    }
}

const COUNT_FROM_HERE: &str = "count rows from here: the next row is row 1";

const fn facing(entry: &Entry) -> &'static str {
    match entry.facing() {
        Facing::RightSide => "right side",
        Facing::WrongSide => "wrong side",
    }
}

/// The row just finished, which side comes next, and the stitches.
pub(super) fn check(entry: &Entry) -> String {
    if entry.stitches.get() == 0 {
        return String::new();
    }
    let row = if entry.round { "round" } else { "row" };
    let next = facing(entry);
    let stitches = of(entry.stitches.get(), "stitch");
    format!("after {row} {}, {next} facing next, {stitches}", entry.row.get())
}

fn of_fabric(entry: &Entry, fabric: crate::Fabric, dialect: Dialect) -> String {
    in_fabric(fabric, entry.stitches.get(), entry.round, dialect)
}

fn single(knitted: &Knitted, end: &Entry, dialect: Dialect) -> String {
    let said = match &end.step {
        Step::CastOn { stitches, how, .. } => return cast_on(end, stitches.get(), how, dialect),
        Step::Knit(rows) => {
            format!("work {}", of(rows.get(), if end.round { "round" } else { "row" }))
        }
        Step::ChangeFabric(fabric) => {
            format!("change to work {}", of_fabric(end, *fabric, dialect))
        }
        Step::ResetCounter => COUNT_FROM_HERE.into(),
        Step::Shape(shape) => format!("{} in the row just worked", shaping(knitted, end, *shape, BOTH)),
        Step::ShapeRow(shape) => format!(
            "in the row just worked shape, counted from the {} of the right side: {}",
            shape.from,
            row(shape)
        ),
        Step::BindOff { stitches, how, edge } => {
            let place = edge.as_ref().map_or_else(String::new, |edge| format!(" ({edge})"));
            let (verb, manner) = bind_off(*how, dialect);
            let count = of(stitches.get(), "stitch");
            format!("{verb} {count} at the start of the next row{place}{manner}")
        }
        Step::Extend(stitches) => {
            format!("cast on {} at the start of the next row", of(stitches.get(), "stitch"))
        }
        Step::Hold { side, stitches } => format!(
            "leave the {} at the {side} of the right side unworked in the next row, wrap the next and turn",
            of(stitches.get(), "stitch")
        ),
        Step::Return => {
            "from the next row on work over all stitches again, the wraps together with their stitches".into()
        }
        Step::ReturnSome { side, stitches } => format!(
            "from the next row on work the next {} left at the {side} too, the wraps together with their stitches",
            of(stitches.get(), "stitch")
        ),
        Step::NameEdge { side, edge } => {
            format!("mark the {side} edge: from here it is the {edge}")
        }
        Step::Mark { side, marker } => format!("mark the {side} edge here: {marker}"),
        Step::SetAside { side, stitches, part, .. } => {
            format!("put {} on a holder: they wait as the {part}", those(stitches.get(), *side))
        }
        Step::Resume { part } => format!(
            "put the {} of the {part} back on the needle; the last row worked on them was row {}",
            of(end.stitches.get(), "stitch"),
            end.row.get()
        ),
        Step::Rejoin { part, side } => format!(
            "put the {part} back on the needle beside the others at the {side}: {} in all",
            of(end.stitches.get(), "stitch")
        ),
        Step::TakeOff { side, stitches, edge } => take_off(end, *side, stitches.get(), edge),
        Step::BindOffAll { how, edge } => {
            let (verb, manner) = bind_off(*how, dialect);
            return sentences(&[
                format!("{verb} all stitches{manner} ({edge})"),
                "cut the yarn and draw it through the last stitch".into(),
            ]);
        }
        Step::Hang(hang) => hung(end, hang),
        Step::Cut => "cut the yarn with a tail to darn in".into(),
        Step::Join { side } => {
            format!("join the yarn at the {side} edge, ready for a {} row", side_row(end))
        }
        Step::ChangeYarn(yarn) => change_yarn(end, yarn),
        Step::JoinRound => {
            "join to work in rounds, and mark where the round begins".into()
        }
        Step::Divide { .. } => "work back and forth in rows again from here".into(),
        Step::Remark(text) => return text.clone(),
    };
    sentence(&[said])
}

const fn side_row(entry: &Entry) -> &'static str {
    match entry.facing() {
        Facing::RightSide => "right-side",
        Facing::WrongSide => "wrong-side",
    }
}

fn cast_on(end: &Entry, stitches: u32, how: &CastOn, dialect: Dialect) -> String {
    let count = of(stitches, "stitch");
    let begin = match how {
        CastOn::Closed => format!("cast on {count}"),
        CastOn::WasteYarn => format!(
            "cast on {count} with waste yarn, so that the loops can be freed and joined later, and change to the main yarn"
        ),
        CastOn::PickedUp { from } => {
            // From right to left, with the right side facing.
            let from: Vec<_> = from.iter().rev().map(crate::PickUp::turned).collect();
            format!(
                "with the right side facing you pick up and knit {count}, from right to left: {}",
                picked_up(&from)
            )
        }
    };
    let fabric = of_fabric(end, end.fabric, dialect);
    let next = match end.yarn {
        Hanging::At { .. } => format!("row 1 is a {} row", side_row(end)),
        Hanging::Cut => String::new(),
    };
    sentences(&[begin, format!("work {fabric}"), next])
}

fn take_off(end: &Entry, side: Side, stitches: u32, edge: &Name) -> String {
    let count = of(stitches, "stitch");
    if end.stitches.get() == 0 {
        return format!("leave all {count} on a holder ({edge})");
    }
    format!("put {} on a holder ({edge})", those(stitches, side))
}

fn hung(end: &Entry, hang: &Hang) -> String {
    let total: u32 = hang.from.iter().map(|edge| edge.stitches.get()).sum();
    let overlap = hang.overlap.get();
    let along = picked_up(&hang.from);
    if overlap == total {
        return format!(
            "in the next row work each of {} together with a loop of the edge behind it: {along}",
            those(total, hang.side)
        );
    }
    let over = match overlap {
        0 => String::new(),
        overlap => format!(", the first {overlap} of them together with stitches on the needle"),
    };
    format!(
        "pick up and knit {} where the yarn is, at the {}{over}: {along}; {} in all",
        of(total, "stitch"),
        hang.side,
        of(end.stitches.get(), "stitch")
    )
}

fn change_yarn(end: &Entry, yarn: &Name) -> String {
    match end.yarn {
        Hanging::Cut => format!("change to the yarn {yarn}"),
        Hanging::At { side, .. } => {
            format!(
                "go on with the yarn {yarn}, which hangs at the {side}, with a {} row",
                side_row(end)
            )
        }
    }
}

fn shapings(knitted: &Knitted, act: &Act<'_>, rhythms: &[Rhythm]) -> String {
    if let [rhythm] = rhythms {
        let what = shaping(knitted, act.end, rhythm.shape, BOTH);
        return match (rhythm.rows.as_slice(), rhythm.gaps().as_slice()) {
            ([_], [0]) => sentence(&[format!("{what} in the row just worked")]),
            ([row], [gap]) => sentence(&[format!(
                "work {}; in the last of them, row {row}, {what}",
                of(*gap, "row")
            )]),
            _ => sentence(&[what, ": ".into(), timed(rhythm)]),
        };
    }
    let each: Vec<String> = rhythms
        .iter()
        .map(|rhythm| {
            format!("{} {}", shaping(knitted, act.end, rhythm.shape, BOTH), timed(rhythm))
        })
        .collect();
    let last = act.end.row.get();
    sentence(&[format!("to the end of row {last}, at the same time: {}", each.join("; and "))])
}

fn timed(rhythm: &Rhythm) -> String {
    when(rhythm, |row| format!("in row {row}"))
}

fn bind_offs(
    knitted: &Knitted,
    act: &Act<'_>,
    (stitches, rows): (&[u32], u32),
    edges: &[&Name],
    dialect: Dialect,
) -> String {
    let place = match edges {
        [] => format!("shape the {}", knitted.edge_name(act.begin, act.begin.carriage)),
        [edge] => format!("the {edge}"),
        [one, other, ..] => format!("the {one} and the {other} by turns"),
    };
    let bind = dialect.bind_off();
    let once = |size| {
        let off = format!("{bind} {} and work to the end", of(size, "stitch"));
        match rows {
            1 => off,
            rows => format!("{off}, work {}", of(rows.saturating_sub(1), "row")),
        }
    };
    sentence(&[format!("{place}, at the start of the row: {}", in_turn(stitches, once))])
}

fn short_rows(back: bool, stitches: &[u32], rows: u32, sides: &[Side]) -> String {
    let place = match sides {
        [side, rest @ ..] if rest.iter().all(|other| other == side) => {
            format!(" at the {side} edge")
        }
        _ => " at that end".to_owned(),
    };
    // With one row between turns each turn is at the end of the row just worked.
    let once = |size| {
        let turn = if back {
            format!(
                "work over {} more{place}, the wraps together with their stitches, wrap the next stitch and turn",
                of(size, "stitch")
            )
        } else {
            format!(
                "work until {} more than before are left unworked{place}, wrap the next stitch and turn",
                of(size, "stitch")
            )
        };
        match rows {
            1 => turn,
            rows => format!("{turn}, work {}", of(rows.saturating_sub(1), "row")),
        }
    };
    sentence(&[format!("short rows: {}", in_turn(stitches, once))])
}

fn return_and_knit(side: Option<Side>, stitches: u32, rows: u32) -> String {
    let wraps = "the wraps together with their stitches";
    let rows = of(rows, "row");
    sentence(&[match side {
        None => format!("work {rows} over all stitches again, {wraps}"),
        Some(side) => {
            let left = of(stitches, "stitch");
            format!("work {rows}, now over the {left} left unworked at the {side} too, {wraps}")
        }
    }])
}
