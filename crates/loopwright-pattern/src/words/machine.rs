//! The voice at the machine: needles, carriage side, row counter.

use super::acts::{Act, ActKind};
use super::phrase::{at_edge, in_turn, mark_both, of, picked_up, rates, shaping};
use crate::{CastOn, Entry, Fabric, Knitted, Shape, Side, Step};

/// Where a shaping at both sides is.
const BOTH: &str = "both edges";

pub(super) fn say(knitted: &Knitted, act: &Act<'_>) -> String {
    match &act.kind {
        ActKind::Single => single(knitted, act),
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

/// Row counter, carriage side, stitches and needles, for checking.
pub(super) fn check(entry: &Entry) -> String {
    let Some((first, last)) = entry.needles else { return String::new() };
    let side = if entry.carriage == Side::Left { "COL" } else { "COR" };
    let held =
        if entry.held > 0 { format!(", {} of them on hold", entry.held) } else { String::new() };
    format!(
        "RC {:03}, {side}, {} on {first} to {last}{held}",
        entry.row,
        of(entry.stitches, "stitch")
    )
}

fn single(knitted: &Knitted, act: &Act<'_>) -> String {
    let end = act.end;
    match &end.step {
        Step::CastOn { stitches, how, fabric, carriage, .. } => {
            cast_on(end, stitches.get(), how, *fabric, *carriage)
        }
        Step::Knit(rows) => format!("Knit {}.", of(rows.get(), "row")),
        Step::ChangeFabric(fabric) => change_fabric(*fabric),
        Step::ResetCounter => "Set the row counter to 000.".into(),
        Step::Shape(shape) => {
            format!("{}.", shaping(knitted, end, *shape, BOTH).trim_end_matches(','))
        }
        Step::BindOff { stitches, edge } => {
            let edge = edge
                .as_deref()
                .map_or_else(|| at_edge(knitted, end, end.carriage), |edge| format!(" ({edge})"));
            format!("Bind off {} at the carriage side{edge}.", of(stitches.get(), "stitch"))
        }
        Step::Extend(stitches) => {
            format!("Cast on {} at the carriage side.", of(stitches.get(), "stitch"))
        }
        Step::Hold { side, stitches } => {
            format!("Put {} at the {side} on hold.", of(stitches.get(), "needle"))
        }
        Step::Return => "Put all held needles back to work.".into(),
        Step::NameEdge { side, edge } => {
            format!("Mark the {side} edge: from here it is the {edge}.")
        }
        Step::SetAside { side, stitches, part, .. } => {
            format!(
                "Put the {} at the {side} on hold: they wait as the {part}.",
                of(stitches.get(), "stitch")
            )
        }
        Step::Resume { part, carriage } => format!(
            "Break the yarn. Put the {part} back to work, bring the carriage to the {carriage} and join the yarn there. Set the row counter to {:03}.",
            end.row
        ),
        Step::TakeOff { side, stitches, edge } => take_off(end, *side, stitches.get(), edge),
        Step::BindOffAll { edge } => format!("Bind off all stitches ({edge})."),
    }
}

fn cast_on(end: &Entry, stitches: u32, how: &CastOn, fabric: Fabric, carriage: Side) -> String {
    let needles = end
        .needles
        .map_or_else(String::new, |(first, last)| format!(", needles {first} to {last}"));
    let side = if carriage == Side::Left { "left" } else { "right" };
    let manner = match how {
        CastOn::Closed => format!(
            "Cast on {}{needles}, for {fabric}{}.",
            of(stitches, "stitch"),
            arrangement(fabric)
        ),
        CastOn::WasteYarn => format!(
            "Cast on {}{needles} in waste yarn, knit 8 rows and one row of ravel cord, then go on with the main yarn for {fabric}.",
            of(stitches, "stitch")
        ),
        CastOn::PickedUp { from } => {
            let along = picked_up(from);
            format!(
                "Hang {}{needles}, from left to right: {along}. They are for {fabric}{}.",
                of(stitches, "stitch"),
                arrangement(fabric)
            )
        }
    };
    format!("{manner} Carriage at the {side}, row counter 000.")
}

/// How the stitches of a rib are shared out between the two beds.
fn arrangement(fabric: Fabric) -> String {
    match fabric {
        Fabric::Rib { knit, purl } => format!(
            " ({knit} on the main bed, {purl} on the ribber by turns; without a ribber knit plain and reform {purl} of every {} stitches by hand)",
            knit.saturating_add(purl)
        ),
        Fabric::Plain | Fabric::Garter => String::new(),
    }
}

fn change_fabric(fabric: Fabric) -> String {
    match fabric {
        Fabric::Plain => {
            "Transfer all stitches to the main bed and change to stocking stitch.".into()
        }
        other => format!("Change to {other}{}.", arrangement(other)),
    }
}

fn take_off(end: &Entry, side: Side, stitches: u32, edge: &str) -> String {
    if end.stitches == 0 {
        return format!(
            "Knit 8 rows of waste yarn over all {} and take them off the machine ({edge}).",
            of(stitches, "stitch")
        );
    }
    format!("Take the {} at the {side} off on waste yarn ({edge}).", of(stitches, "stitch"))
}

fn taper(knitted: &Knitted, act: &Act<'_>, shape: Shape, gaps: &[u32]) -> String {
    let what = shaping(knitted, act.end, shape, BOTH);
    let mut row = act.begin.row_before;
    let counters: Vec<u32> = gaps
        .iter()
        .map(|gap| {
            row += gap;
            row
        })
        .collect();
    let at = match counters.as_slice() {
        [only] => {
            let (rows, what) = (of(gaps.iter().sum(), "row"), what.trim_end_matches(','));
            return format!("Knit {rows}, to RC {only:03}. {what}.");
        }
        [first, .., last] => format!("first at RC {first:03}, last at RC {last:03}"),
        [] => String::new(),
    };
    format!("{what} {}: {at}.", rates(gaps))
}

fn bind_offs(
    knitted: &Knitted,
    act: &Act<'_>,
    stitches: &[u32],
    rows: u32,
    edge: Option<&str>,
) -> String {
    let lead = match edge {
        Some(_) if rows == 1 => "Shoulders".to_owned(),
        Some(edge) => format!("The {edge}"),
        None => format!("Shape the {}", knitted.edge_name(act.begin, act.begin.carriage)),
    };
    let once = |size| format!("bind off {}, knit {}", of(size, "stitch"), of(rows, "row"));
    format!("{lead}, always at the carriage side: {}.", in_turn(stitches, once))
}

fn holds(stitches: &[u32], rows: u32, sides: &[Side]) -> String {
    let place = match sides {
        [side, rest @ ..] if rest.iter().all(|other| other == side) => format!("at the {side}"),
        _ => "opposite the carriage".to_owned(),
    };
    let once =
        |size| format!("put {} {place} on hold, knit {}", of(size, "needle"), of(rows, "row"));
    format!("Short rows, wrapping the first held needle each time: {}.", in_turn(stitches, once))
}

fn return_and_knit(rows: u32) -> String {
    format!("Put all held needles back to work and knit {}.", of(rows, "row"))
}

fn new_section(fabric: Fabric, _end: &Entry) -> String {
    format!("{} Set the row counter to 000.", change_fabric(fabric))
}
