//! Counts rounded together, in both voices.

use crate::answer::{Answer, fraction};
use crate::output::one_line;
use loopwright::gauge::Exact;
use loopwright::joint::{Conflict, Member, Relaxation, Rounded, Solution};
use serde_json::{Map, Value, json};

pub(super) fn solution(solution: &Solution) -> Answer {
    let of = |read: fn(&Rounded) -> Value| -> Map<String, Value> {
        solution.counts().iter().map(|rounded| (rounded.name.clone(), read(rounded))).collect()
    };
    Answer {
        text: text(solution),
        json: json!({
            "counts": of(|rounded| rounded.count.into()),
            "deviation": of(|rounded| number(rounded.deviation)),
            "total": number(solution.total_deviation()),
            "largest": number(solution.largest_deviation()),
            "proved": solution.is_proved(),
        }),
    }
}

fn number(exact: Exact) -> Value {
    json!({ "value": exact.to_f64_lossy(), "exact": fraction(exact) })
}

fn text(solution: &Solution) -> String {
    let wide = |length: fn(&Rounded) -> usize| solution.counts().iter().map(length).max();
    let name = wide(|rounded| one_line(&rounded.name).chars().count()).unwrap_or(0);
    let digits = wide(|rounded| rounded.count.to_string().len()).unwrap_or(0);
    let mut lines: Vec<String> = solution
        .counts()
        .iter()
        .map(|rounded| {
            let (called, count) = (one_line(&rounded.name), rounded.count);
            format!("{called:name$}  {count:digits$}  {}", off(rounded.deviation))
        })
        .collect();
    lines.push(format!(
        "In all {:.2} away from what was asked, by weight; {:.2} at most in one count.",
        solution.total_deviation(),
        solution.largest_deviation(),
    ));
    if !solution.is_proved() {
        lines.push("The search met its limit: better counts may exist.".into());
    }
    lines.join("\n")
}

fn off(deviation: Exact) -> String {
    match deviation {
        zero if zero.is_zero() => "as asked".into(),
        more if more.is_positive() => format!("{more:.2} more than asked"),
        fewer => format!("{:.2} fewer than asked", fewer.abs()),
    }
}

pub(super) fn conflict(conflict: &Conflict) -> Answer {
    let members: Vec<Value> = conflict.members().iter().map(member).collect();
    let told: Vec<String> = conflict.members().iter().map(mend).collect();
    let text = match told.as_slice() {
        [only] => format!("This demand cannot hold with the counts as allowed: {only}."),
        all => format!(
            "These {} demands cannot all hold, but any {} of them can: {}.",
            all.len(),
            all.len() - 1,
            all.join("; "),
        ),
    };
    Answer { text, json: json!({ "conflict": members }) }
}

fn member(member: &Member) -> Value {
    match member.relaxation {
        Relaxation::By(by) => json!({ "demand": member.demand, "relax_by": by }),
        _ => json!({ "demand": member.demand, "relax_by": Value::Null }),
    }
}

fn mend(member: &Member) -> String {
    match member.relaxation {
        Relaxation::By(by) => format!("{:?} (would need to be missed by {by})", member.demand),
        _ => format!("{:?} (would need to be let go)", member.demand),
    }
}
