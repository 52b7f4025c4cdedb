//! Small phrases that both voices use: clauses in lower case without a stop, and what
//! makes sentences of them.

use super::acts::Rhythm;
use super::dialect::Dialect;
use crate::{
    Along, BindOff, Direction, Entry, Fabric, Knitted, PickUp, Shape, ShapeMethod, Side, Sides,
};
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;
use loopwright_gauge::Stitches;
use loopwright_gauge::english::{capital, counted, every, times as times_of};
use loopwright_seams::{PickUpGroup, say};
use loopwright_shaping::{Phrase, shortest};

/// Clauses as one sentence: the first letter large, a stop at the end.
pub(super) fn sentence(clauses: &[String]) -> String {
    let mut text = capital(&clauses.concat());
    text.push('.');
    text
}

/// Sentences after each other.
pub(super) fn sentences(all: &[String]) -> String {
    let told: Vec<String> = all
        .iter()
        .filter(|one| !one.is_empty())
        .map(|one| sentence(core::slice::from_ref(one)))
        .collect();
    told.join(" ")
}

/// "every 4th row 34 times, then every 5th row 8 times", from the rows between events,
/// in the shortest phrase that says them.
fn rates(gaps: &[u32]) -> String {
    list(&shortest(gaps), ", then ")
}

fn list(phrases: &[Phrase<u32>], between: &str) -> String {
    let told: Vec<String> = phrases.iter().map(rate).collect();
    told.join(between)
}

fn rate(phrase: &Phrase<u32>) -> String {
    match phrase {
        Phrase::Item { item, times } => format!("{} {}", every(*item, "row"), times_of(*times)),
        Phrase::Repeat { body, times } => format!("({}) {}", list(body, ", "), times_of(*times)),
    }
}

/// When the shapings of a rhythm come: "every 6th row 9 times, the first at RC 006, the
/// last at RC 054", or "at RC 005, then every 6th row 8 times, the last at RC 053".
pub(super) fn when(rhythm: &Rhythm, at: impl Fn(u32) -> String) -> String {
    let gaps = rhythm.gaps();
    let last = rhythm.rows.last().copied().unwrap_or(0);
    match (rhythm.rows.as_slice(), gaps.as_slice()) {
        ([only], _) => at(*only),
        ([first, ..], [one, two, ..]) if one == two => {
            format!("{}, the first {}, the last {}", rates(&gaps), at(*first), at(last))
        }
        ([first, ..], [_, rest @ ..]) => {
            format!("{}, then {}, the last {}", at(*first), rates(rest), at(last))
        }
        _ => String::new(),
    }
}

/// Equal neighbours counted.
fn runs(values: &[u32]) -> Vec<(u32, u32)> {
    let mut runs: Vec<(u32, u32)> = Vec::new();
    for &value in values {
        match runs.last_mut() {
            Some((last, times)) if *last == value => *times += 1,
            _ => runs.push((value, 1)),
        }
    }
    runs
}

/// "1 row", "2 rows".
pub(super) fn of(count: u32, one: &str) -> String {
    counted(count, one).to_string()
}

/// "(bind off 3 stitches, knit 2 rows), then (bind off 2 stitches, knit 2 rows) twice",
/// from the sizes of the steps and what is done with one.
pub(super) fn in_turn(sizes: &[u32], once: impl Fn(u32) -> String) -> String {
    let told: Vec<String> = runs(sizes)
        .iter()
        .map(|&(size, times)| match times {
            1 => format!("({})", once(size)),
            times => format!("({}) {}", once(size), times_of(times)),
        })
        .collect();
    told.join(", then ")
}

/// Where stitches are picked up, edge by edge, each in the order it is gone along.
pub(super) fn picked_up(from: &[PickUp]) -> String {
    let told: Vec<String> = from
        .iter()
        .map(|edge| {
            let along = format!("{} along the {} of the {}", edge.stitches, edge.edge, edge.piece);
            format!("{along}{} [{}]", stretch(edge), places(edge))
        })
        .collect();
    told.join("; ")
}

fn places(edge: &PickUp) -> String {
    if edge.groups.is_empty() {
        return "one for one".into();
    }
    let (way, groups) = match edge.along {
        Along::Forward => ("from below", edge.groups.clone()),
        Along::Backward => ("from above", backward(&edge.groups)),
    };
    format!("{way}, in row ends and bound-off stitches: {}", say(&groups))
}

/// The most groups with stitches beside each other that are told apart.
const APART: u32 = 1_000;

/// The same places from the other end: misses come before the picks they came after, and
/// a place with more than one stitch is the first of its group.
fn backward(groups: &[PickUpGroup]) -> Vec<PickUpGroup> {
    let group = |pick, miss, extra, times| {
        let of = |n| Stitches::new(n).unwrap_or(Stitches::ZERO);
        PickUpGroup::pick(of(pick)).miss(miss).extra(of(extra)).times(times)
    };
    let mut told = Vec::new();
    let mut open = 0;
    for one in groups.iter().rev() {
        let (pick, extra) = (one.pick.get(), one.extra.get());
        let beside = extra > 0;
        for _ in 0..if beside { one.times.min(APART) } else { 1 } {
            told.push(group(open, one.miss, 0, 1));
            open = pick;
            if beside {
                told.push(group(1, 0, extra, 1));
                open = pick.saturating_sub(1);
            }
        }
        if !beside && one.times > 1 {
            told.push(group(pick, one.miss, 0, one.times - 1));
        }
    }
    told.push(group(open, 0, 0, 1));
    told.retain(|group| group.places() > 0);
    told
}

fn stretch(edge: &PickUp) -> String {
    let Some(stretch) = &edge.stretch else { return String::new() };
    let point = match &stretch.about {
        crate::About::Start => "its beginning".into(),
        crate::About::End => "its end".into(),
        crate::About::Middle => "its middle".into(),
        crate::About::Marker(name) => format!("the marker {name}"),
    };
    format!(", over {} places before {point} and {} after it", stretch.before, stretch.after)
}

/// "increase 1 stitch at both edges, 2 stitches in from the edge".
pub(super) fn shaping(knitted: &Knitted, entry: &Entry, shape: Shape, both: &str) -> String {
    let verb = match shape.change {
        Direction::Increase => "increase",
        Direction::Decrease => "decrease",
    };
    let place = match shape.sides {
        Sides::Both => both.to_string(),
        Sides::One(side) => format!("at the {}", knitted.edge_name(entry, side)),
    };
    let inset = match shape.inset.get() {
        0 => String::new(),
        inset => format!(", {} in from the edge", of(inset, "stitch")),
    };
    let count = of(shape.stitches.get(), "stitch");
    format!("{verb} {count} {place}{inset}{}", method(shape.method))
}

const fn method(method: ShapeMethod) -> &'static str {
    match method {
        ShapeMethod::Usual => "",
        ShapeMethod::Eyelet => ", leaving the needle empty for an eyelet",
        ShapeMethod::Filled => ", filling the empty needle from the loop below its neighbour",
        ShapeMethod::Wound => ", winding on a loop",
        ShapeMethod::Inward => ", leaning towards the middle",
        ShapeMethod::Outward => ", leaning towards the edge",
    }
}

/// "2 stitches apart": a row with events, from one side: "k3, k2tog, (k6, k2tog) 9
/// times, k3".
pub(super) fn row(shape: &crate::ShapeRow) -> String {
    let event = shape.technique.abbreviation();
    let uses = shape.technique.uses().get();
    let mut before = 0;
    let plain: Vec<u32> = shape
        .positions
        .iter()
        .map(|at| {
            let plain = at.get().saturating_sub(uses).saturating_sub(before);
            before = at.get();
            plain
        })
        .collect();
    let once = |plain: u32| if plain == 0 { event.into() } else { format!("k{plain}, {event}") };
    let mut told: Vec<String> = runs(&plain)
        .iter()
        .map(|&(plain, times)| match times {
            1 => once(plain),
            times => format!("({}) {}", once(plain), times_of(times)),
        })
        .collect();
    let rest = shape.stitches.get().saturating_sub(before);
    if rest > 0 {
        told.push(format!("k{rest}"));
    }
    told.join(", ")
}

pub(super) fn mark_both(knitted: &Knitted, end: &Entry) -> String {
    let name = |side| knitted.edge_name(end, side);
    sentence(&[format!(
        "mark both edges here: above the marks they are the {} and the {}",
        name(Side::Left),
        name(Side::Right)
    )])
}

/// The fabric by the name the reader uses.
pub(super) fn fabric(fabric: Fabric, dialect: Dialect) -> String {
    match fabric {
        Fabric::Plain => dialect.plain().into(),
        other => other.to_string(),
    }
}

/// How a bind-off is done, in front of and after what is bound off: "bind off", "loosely".
pub(super) fn bind_off(how: BindOff, dialect: Dialect) -> (String, &'static str) {
    let off = dialect.bind_off();
    match how {
        BindOff::Plain => (off.into(), ""),
        BindOff::Loosely => (off.into(), " loosely"),
        BindOff::InRib => (off.into(), " loosely in rib"),
        BindOff::Together => (off.into(), ", each with a stitch of the other piece"),
        BindOff::Sewn => (format!("sew {off}"), ", with a tail three times as long as the edge"),
        BindOff::OverWaste => (off.into(), " over a length of waste yarn laid along the needles"),
    }
}
