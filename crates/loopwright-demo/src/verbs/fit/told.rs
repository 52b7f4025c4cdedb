//! Counts rounded together, in both voices.

use crate::Units;
use crate::answer::{Answer, fraction, length, say};
use crate::output::one_line;
use loopwright::gauge::{Exact, Length};
use loopwright::joint::{
    Conflict, ConflictMember, Limit, Release, RoundedCount, RoundedMeasure, Solution,
};
use serde_json::{Map, Value, json};

pub(super) fn solution(solution: &Solution, units: Units) -> Answer {
    let of = |read: fn(&RoundedCount) -> Value| -> Map<String, Value> {
        solution.counts().iter().map(|rounded| (rounded.name.clone(), read(rounded))).collect()
    };
    let measures: Map<String, Value> =
        solution.measures().iter().map(|of| (of.name.clone(), measure(of))).collect();
    Answer {
        text: text(solution, units),
        json: json!({
            "counts": of(|rounded| rounded.count.get().into()),
            "deviation": of(|rounded| number(rounded.deviation)),
            "measures": measures,
            "total": number(solution.total_miss()),
            "largest": number(solution.largest_miss()),
            "least_total": number(solution.least_total()),
            "proved": solution.is_proved(),
        }),
    }
}

fn measure(measure: &RoundedMeasure) -> Value {
    json!({
        "wanted": length(measure.wanted),
        "given": length(measure.given),
        "missed": length(measure.missed),
    })
}

fn number(exact: Exact) -> Value {
    json!({ "value": exact.to_f64_lossy(), "exact": fraction(exact) })
}

fn text(solution: &Solution, units: Units) -> String {
    let counts = solution.counts().iter().map(|rounded| {
        (one_line(&rounded.name), rounded.count.get().to_string(), off(rounded.deviation))
    });
    let measures = solution.measures().iter().map(|of| {
        (one_line(&of.name), say(of.given, units), apart(of.wanted, of.given, of.missed, units))
    });
    let mut lines = columns(&counts.collect::<Vec<_>>());
    lines.extend(columns(&measures.collect::<Vec<_>>()));
    lines.push(summary(solution));
    if !solution.is_proved() {
        lines.push(unproved(solution));
    }
    lines.join("\n")
}

/// Names to the left, numbers to the right; a very long name shifts only its own line.
fn columns(rows: &[(String, String, String)]) -> Vec<String> {
    const WIDEST: usize = 40;
    let wide = |of: fn(&(String, String, String)) -> &String| {
        rows.iter().map(|row| of(row).chars().count()).max().unwrap_or(0).min(WIDEST)
    };
    let (name, value) = (wide(|row| &row.0), wide(|row| &row.1));
    rows.iter().map(|row| format!("{:name$}  {:>value$}  {}", row.0, row.1, row.2)).collect()
}

/// In counts where nothing is measured, else in millimetres.
fn summary(solution: &Solution) -> String {
    let (total, largest) = (solution.total_miss(), solution.largest_miss());
    if solution.is_measured() {
        return format!(
            "In all {total:.2} mm away from what was asked, by weight; {largest:.2} mm at most in one."
        );
    }
    format!(
        "In all {total:.2} away from what was asked, by weight; {largest:.2} at most in one count."
    )
}

fn unproved(solution: &Solution) -> String {
    let least = solution.least_total();
    if least == solution.total_miss() {
        return "The work allowed was not enough to compare all counts that are as near.".into();
    }
    format!(
        "The work allowed was not enough to prove that nothing is nearer: none is nearer than {least:.2} in all."
    )
}

fn off(deviation: Exact) -> String {
    match deviation {
        zero if zero.is_zero() => "as asked".into(),
        more if more.is_positive() => format!("{more:.2} more than asked"),
        fewer => format!("{:.2} fewer than asked", fewer.abs()),
    }
}

fn apart(wanted: Length, given: Length, missed: Length, units: Units) -> String {
    let than = if given > wanted { "longer" } else { "shorter" };
    if missed == Length::ZERO {
        return "as asked".into();
    }
    format!("{} {than} than the {} asked", say(missed, units), say(wanted, units))
}

pub(super) fn conflict(conflict: &Conflict, units: Units) -> Answer {
    let members: Vec<Value> = conflict.members().iter().map(member).collect();
    let told: Vec<String> = conflict.members().iter().map(|member| mend(member, units)).collect();
    let text = match told.as_slice() {
        [only] => format!("This demand cannot hold with the counts as allowed: {only}."),
        all if conflict.is_smallest() => format!(
            "These {} demands cannot all hold, but any {} of them can: {}.",
            all.len(),
            all.len() - 1,
            all.join("; "),
        ),
        all => format!("These {} demands cannot all hold: {}.", all.len(), all.join("; ")),
    };
    Answer { text, json: json!({ "conflict": members, "smallest": conflict.is_smallest() }) }
}

fn member(member: &ConflictMember) -> Value {
    let by = match member.release {
        Release::By(by) => by.into(),
        Release::ByLength(by) => length(by),
        _ => Value::Null,
    };
    let mut told = json!({ "demand": member.demand, "relax_by": by });
    match member.would_be {
        Some(Limit::Count(total)) => told["would_be"] = total.into(),
        Some(Limit::Length(total)) => told["would_be"] = length(total),
        None => {}
    }
    told
}

fn mend(member: &ConflictMember, units: Units) -> String {
    let mend = match (member.release, member.would_be) {
        (_, Some(Limit::Count(total))) => format!("{total} would do"),
        (_, Some(Limit::Length(total))) => format!("{} would do", say(total, units)),
        (Release::By(by), _) => format!("would need to be missed by {by}"),
        (Release::ByLength(by), _) => format!("would need {} more room", say(by, units)),
        (Release::Drop, _) => "would need to be let go".into(),
        _ => "no change to it alone is enough".into(),
    };
    format!("{:?} ({mend})", member.demand)
}
