//! Small phrases that both voices use.

use crate::{Change, Entry, Knitted, PickUp, Shape, Side, Sides};
use loopwright_seams::say;
use loopwright_shaping::{Phrase, shortest};

/// "every 4th row 34 times, then every 5th row 8 times", from the rows between events,
/// in the shortest phrase that says them.
/// A gap of no rows is a first event at once.
pub(super) fn rates(gaps: &[u32]) -> String {
    match gaps {
        [0] => "now".into(),
        [0, rest @ ..] => format!("now, then {}", list(&shortest(rest), ", then ")),
        gaps => list(&shortest(gaps), ", then "),
    }
}

fn list(phrases: &[Phrase<u32>], between: &str) -> String {
    let told: Vec<String> = phrases.iter().map(rate).collect();
    told.join(between)
}

fn rate(phrase: &Phrase<u32>) -> String {
    match phrase {
        Phrase::Item { item, times } => format!("{} {}", every(*item), count_times(*times)),
        Phrase::Repeat { body, times } => format!("({}) {}", list(body, ", "), count_times(*times)),
    }
}

/// Equal neighbours counted.
pub(super) fn runs(values: &[u32]) -> Vec<(u32, u32)> {
    let mut runs: Vec<(u32, u32)> = Vec::new();
    for &value in values {
        match runs.last_mut() {
            Some((last, times)) if *last == value => *times += 1,
            _ => runs.push((value, 1)),
        }
    }
    runs
}

fn every(gap: u32) -> String {
    match gap {
        1 => "every row".into(),
        2 => "every other row".into(),
        gap => format!("every {} row", ordinal(gap)),
    }
}

fn ordinal(n: u32) -> String {
    let ending = match (n % 10, n % 100) {
        (1, rest) if rest != 11 => "st",
        (2, rest) if rest != 12 => "nd",
        (3, rest) if rest != 13 => "rd",
        _ => "th",
    };
    format!("{n}{ending}")
}

pub(super) fn count_times(times: u32) -> String {
    match times {
        1 => "once".into(),
        2 => "twice".into(),
        times => format!("{times} times"),
    }
}

/// "1 row", "2 rows".
pub(super) fn of(count: u32, one: &str) -> String {
    let many = match one {
        "stitch" => "stitches",
        "row" => "rows",
        "needle" => "needles",
        other => other,
    };
    format!("{count} {}", if count == 1 { one } else { many })
}

/// "(bind off 3 stitches, knit 2 rows), then (bind off 2 stitches, knit 2 rows) twice",
/// from the sizes of the steps and what is done with one.
pub(super) fn in_turn(sizes: &[u32], once: impl Fn(u32) -> String) -> String {
    let told: Vec<String> = runs(sizes)
        .iter()
        .map(|&(size, times)| match times {
            1 => format!("({})", once(size)),
            times => format!("({}) {}", once(size), count_times(times)),
        })
        .collect();
    told.join(", then ")
}

/// Where stitches are picked up, edge by edge.
pub(super) fn picked_up(from: &[PickUp]) -> String {
    let told: Vec<String> = from
        .iter()
        .map(|edge| {
            let how = if edge.groups.is_empty() {
                "one for one".into()
            } else {
                format!("from below, in row ends and bound-off stitches: {}", say(&edge.groups))
            };
            format!("{} along the {} of the {} [{how}]", edge.stitches, edge.edge, edge.piece)
        })
        .collect();
    told.join("; ")
}

pub(super) const fn verb(shape: Shape) -> &'static str {
    match shape.change {
        Change::Increase => "Increase",
        Change::Decrease => "Decrease",
    }
}

/// "Increase 1 stitch at both edges, 2 stitches in from the edge,".
pub(super) fn shaping(knitted: &Knitted, entry: &Entry, shape: Shape, both: &str) -> String {
    let place = match shape.sides {
        Sides::Both => format!(" at {both}"),
        Sides::One(side) => at_edge(knitted, entry, side),
    };
    let inset = match shape.inset {
        0 => String::new(),
        inset => format!(", {} in from the edge,", of(inset, "stitch")),
    };
    format!("{} {}{place}{inset}", verb(shape), of(shape.stitches, "stitch"))
}

/// " at the left neck edge".
pub(super) fn at_edge(knitted: &Knitted, entry: &Entry, side: Side) -> String {
    format!(" at the {}", knitted.edge_name(entry, side))
}

pub(super) fn mark_both(knitted: &Knitted, end: &Entry) -> String {
    let name = |side| knitted.edge_name(end, side);
    format!(
        "Mark both edges here: above the marks they are the {} and the {}.",
        name(Side::Left),
        name(Side::Right)
    )
}
