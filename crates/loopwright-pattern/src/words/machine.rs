//! The voice at the machine: needles, carriage side, row counter.

use super::acts::{Act, ActKind, Rhythm};
use super::dialect::Dialect;
use super::phrase::{
    bind_off, fabric as fabric_name, in_turn, mark_both, of, picked_up, row, sentence, sentences,
    shaping, when,
};
use super::rib::{FIRST_ROWS, beds, those};
use crate::replay::WASTE_ROWS;
use crate::{CastOn, Entry, Fabric, Hang, Hanging, Knitted, Name, Needle, Side, Step};
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// Where a shaping at both sides is.
const BOTH: &str = "at both edges";

pub(super) fn say(knitted: &Knitted, act: &Act<'_>, dialect: Dialect) -> String {
    match &act.kind {
        ActKind::Single => single(knitted, act, dialect),
        ActKind::Rhythms(rhythms) => shapings(knitted, act, rhythms),
        ActKind::BindOffs { stitches, rows, edges } => {
            bind_offs(knitted, act, (stitches, *rows), edges, dialect)
        }
        ActKind::ShortRows { back, stitches, rows, sides } => {
            short_rows(*back, stitches, *rows, sides)
        }
        ActKind::ReturnAndKnit { side, stitches, rows } => {
            let which = side.map_or_else(
                || "all held needles".to_string(),
                |side| format!("the {} held at the {side}", of(*stitches, "needle")),
            );
            sentence(&[format!("put {which} back to work and knit {}", of(*rows, "row"))])
        }
        ActKind::NewSection { fabric } => {
            sentences(&[change_fabric(*fabric, dialect), "set the row counter to 000".into()])
        }
        ActKind::MarkBoth => mark_both(knitted, act.end),
    }
}

/// Row counter, carriage side, stitches and needles, for checking.
pub(super) fn check(entry: &Entry) -> String {
    let Some((first, last)) = entry.needles else { return String::new() };
    let side = if entry.carriage == Side::Left { "COL" } else { "COR" };
    let held = match entry.held() {
        0 => String::new(),
        held => format!(", {held} of them on hold"),
    };
    let stitches = of(entry.stitches.get(), "stitch");
    format!("RC {:03}, {side}, {stitches} on {first} to {last}{held}", entry.row.get())
}

fn counter(row: u32) -> String {
    format!("RC {row:03}")
}

fn single(knitted: &Knitted, act: &Act<'_>, dialect: Dialect) -> String {
    let end = act.end;
    let said = match &end.step {
        Step::CastOn { stitches, how, fabric, carriage, .. } => {
            return cast_on(end, stitches.get(), how, *fabric, *carriage, dialect);
        }
        Step::Knit(rows) => knit(end, rows.get()),
        Step::ChangeFabric(fabric) => change_fabric(*fabric, dialect),
        Step::ResetCounter => "set the row counter to 000".into(),
        Step::Shape(shape) => shaping(knitted, end, *shape, BOTH),
        Step::ShapeRow(shape) => format!(
            "shape the row, from the {}: {}; move the stitches together on {}",
            shape.from,
            row(shape),
            span(end)
        ),
        Step::BindOff { stitches, how, edge } => {
            let place = edge.as_ref().map_or_else(
                || format!(" at the {}", knitted.edge_name(end, end.carriage)),
                |edge| format!(" ({edge})"),
            );
            let (verb, manner) = bind_off(*how, dialect);
            let count = of(stitches.get(), "stitch");
            format!("{verb} {count} at the carriage side{place}{manner}")
        }
        Step::Extend(stitches) => {
            format!("cast on {} at the carriage side", of(stitches.get(), "stitch"))
        }
        Step::Hold { side, stitches } => {
            format!("put {} at the {side} on hold", of(stitches.get(), "needle"))
        }
        Step::Return => "put all held needles back to work".into(),
        Step::ReturnSome { side, stitches } => {
            format!("put the {} held at the {side} back to work", of(stitches.get(), "needle"))
        }
        Step::NameEdge { side, edge } => {
            format!("mark the {side} edge: from here it is the {edge}")
        }
        Step::Mark { side, marker } => format!("mark the {side} edge here: {marker}"),
        Step::SetAside { side, stitches, part, .. } => format!(
            "put {}{} on hold: they wait as the {part}",
            those(stitches.get(), *side),
            gone(act, *side, stitches.get())
        ),
        Step::Resume { part } => resume(end, part),
        Step::Rejoin { part, side } => {
            format!(
                "put the {part}, beside the others at the {side}, back to work: all on {}",
                span(end)
            )
        }
        Step::TakeOff { side, stitches, edge } => take_off(act, *side, stitches.get(), edge),
        Step::BindOffAll { how, edge } => {
            let (verb, manner) = bind_off(*how, dialect);
            return sentences(&[
                format!("{verb} all stitches{manner} ({edge})"),
                "cut the yarn and draw it through the last stitch".into(),
            ]);
        }
        Step::Hang(hang) => hung(end, hang),
        Step::Cut => "cut the yarn with a tail to darn in".into(),
        Step::Join { side } => join(end, *side),
        Step::ChangeYarn(yarn) => change_yarn(end, yarn),
        Step::JoinRound => "close the work to a round on both beds".into(),
        Step::Divide { .. } => "work back and forth again from here".into(),
        Step::Remark(text) => return text.clone(),
    };
    sentence(&[said])
}

fn knit(end: &Entry, rows: u32) -> String {
    format!("knit {}", of(rows, if end.round { "round" } else { "row" }))
}

fn span(entry: &Entry) -> String {
    entry.needles.map_or_else(String::new, |(first, last)| format!("{first} to {last}"))
}

/// The needles of stitches that leave at a side.
fn gone(act: &Act<'_>, side: Side, count: u32) -> String {
    let Some((first, last)) = act.before.and_then(|before| before.needles) else {
        return String::new();
    };
    let more = i64::from(count) - 1;
    let (from, to) = match side {
        Side::Left => (first, Needle::at(first.place() + more)),
        Side::Right => (Needle::at(last.place() - more), last),
    };
    format!(", needles {from} to {to},")
}

fn cast_on(
    end: &Entry,
    stitches: u32,
    how: &CastOn,
    fabric: Fabric,
    carriage: Side,
    dialect: Dialect,
) -> String {
    let needles = format!("needles {}", span(end));
    let count = of(stitches, "stitch");
    let name = fabric_name(fabric, dialect);
    let ready = format!("carriage at the {carriage}, row counter 000");
    let rib = beds(fabric);
    match how {
        CastOn::WasteYarn => sentences(&[
            format!("cast on {count}, {needles}, in waste yarn"),
            format!(
                "with the row counter off knit {WASTE_ROWS} rows of it and 1 row of ravel cord, which is drawn out when the edge is joined"
            ),
            format!("join the main yarn for {name}"),
            rib,
            ready,
        ]),
        CastOn::PickedUp { from } => sentences(&[
            format!(
                "with the wrong side facing you hang {count}, {needles}, from left to right: {}",
                picked_up(from)
            ),
            format!("join the yarn; they are for {name}"),
            rib,
            ready,
        ]),
        CastOn::Closed if rib.is_empty() => sentences(&[
            format!("cast on {count}, {needles}, for {name}"),
            "hang the comb and weights".into(),
            ready,
        ]),
        CastOn::Closed => sentences(&[
            format!("cast on {count}, {needles}, for {name}"),
            rib,
            format!("on two beds {FIRST_ROWS}"),
            ready,
        ]),
    }
}

fn change_fabric(fabric: Fabric, dialect: Dialect) -> String {
    match fabric {
        Fabric::Plain => {
            format!("transfer all stitches to the main bed and change to {}", dialect.plain())
        }
        Fabric::Garter => "change to garter stitch".into(),
        Fabric::Rib { .. } => format!("change to {fabric}: {}", beds(fabric)),
    }
}

fn resume(end: &Entry, part: &Name) -> String {
    format!(
        "put the {part} back to work, {} on {}, and set the row counter to {:03}",
        of(end.stitches.get(), "stitch"),
        span(end),
        end.row.get()
    )
}

fn join(end: &Entry, side: Side) -> String {
    let needle = match end.yarn {
        Hanging::At { needle, .. } => format!(", at needle {needle}"),
        Hanging::Cut => String::new(),
    };
    format!("bring the carriage to the {side} and join the yarn there{needle}")
}

fn change_yarn(end: &Entry, yarn: &Name) -> String {
    match end.yarn {
        Hanging::Cut => format!("change to the yarn {yarn}"),
        Hanging::At { side, .. } => {
            format!("change to the yarn {yarn}, which hangs at the {side}, with the carriage there")
        }
    }
}

fn take_off(act: &Act<'_>, side: Side, stitches: u32, edge: &Name) -> String {
    let waste = format!(
        "with the row counter off knit {WASTE_ROWS} rows of waste yarn over them and take them off the machine ({edge})"
    );
    if act.end.stitches.get() == 0 {
        return format!("for all {}: {waste}", of(stitches, "stitch"));
    }
    let which = format!("{}{}", those(stitches, side), gone(act, side, stitches));
    format!("for {which} hold the others and {waste}")
}

fn hung(end: &Entry, hang: &Hang) -> String {
    let side = hang.side;
    let total: u32 = hang.from.iter().map(|edge| edge.stitches.get()).sum();
    let overlap = hang.overlap.get();
    let place = if overlap == total {
        format!("on top of {}", those(overlap, side))
    } else if overlap == 0 {
        format!("on empty needles beside the others at the {side}")
    } else {
        format!(
            "at the {side}, {} on top of the outermost needles and the rest beside them",
            of(overlap, "stitch")
        )
    };
    let along = picked_up(&hang.from);
    format!(
        "hang {} {place}, from left to right: {along}; all on {}",
        of(total, "stitch"),
        span(end)
    )
}

fn shapings(knitted: &Knitted, act: &Act<'_>, rhythms: &[Rhythm]) -> String {
    if let [rhythm] = rhythms {
        let what = shaping(knitted, act.end, rhythm.shape, BOTH);
        return match (rhythm.rows.as_slice(), rhythm.gaps().as_slice()) {
            ([_], [0]) => sentence(&[what]),
            ([row], [gap]) => {
                sentences(&[format!("knit {}, to {}", of(*gap, "row"), counter(*row)), what])
            }
            _ => sentence(&[what, ": ".into(), timed(rhythm)]),
        };
    }
    let last = act.end.row.get();
    let each: Vec<String> = rhythms
        .iter()
        .map(|rhythm| {
            format!("{} {}", shaping(knitted, act.end, rhythm.shape, BOTH), timed(rhythm))
        })
        .collect();
    let what = each.join("; and ");
    sentence(&[format!("to {}, at the same time: {what}", counter(last))])
}

fn timed(rhythm: &Rhythm) -> String {
    when(rhythm, |row| format!("at {}", counter(row)))
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
    let off = dialect.bind_off();
    let once = |size| format!("{off} {}, knit {}", of(size, "stitch"), of(rows, "row"));
    sentence(&[format!("{place}, always at the carriage side: {}", in_turn(stitches, once))])
}

fn short_rows(back: bool, stitches: &[u32], rows: u32, sides: &[Side]) -> String {
    let place = match sides {
        [side, rest @ ..] if rest.iter().all(|other| other == side) => format!("at the {side}"),
        _ => "opposite the carriage".to_string(),
    };
    let once = |size| {
        let needles = of(size, "needle");
        let rows = of(rows, "row");
        if back {
            format!("put {needles} {place} back to work, knit {rows}")
        } else {
            format!("put {needles} {place} on hold, knit {rows}")
        }
    };
    let wraps = if back { "" } else { ", wrapping the first held needle each time" };
    let turns = in_turn(stitches, once);
    sentence(&[format!("short rows{wraps}, moving the weights with the needles in work: {turns}")])
}
