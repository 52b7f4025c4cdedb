//! One straight edge: how many, at which rate, and in which rows.

use super::{Args, buttons, repeat, tell};
use crate::Units;
use crate::answer::{Answer, Failure, fraction, length, say as say_length};
use loopwright::gauge::{Count as _, Exact, Gauge, Length, Repeat, Round, Rows, Stitches};
use loopwright::seams::{Placement, Rate, RateCandidate, rates, say};
use serde_json::{Value, json};

/// What is picked up along what, once the gauges have had their say.
struct Task {
    rows: Rows,
    stitches: Stitches,
    /// The exact count by the gauges, or the count asked for.
    ideal: Exact,
    length: Option<Length>,
}

pub(super) fn run(args: &Args, units: Units) -> Result<Answer, Failure> {
    let task = task(args)?;
    let groups = Placement::new(task.rows, task.stitches, args.ends)?;
    let drift = groups.drift()?;
    let groups = groups.groups();
    let ratio = task.ideal.checked_div(task.rows.get().into())?;
    let told = Rate::simplest(ratio, args.most, task.rows, Exact::ONE)?;
    let candidates = rates(ratio, args.most)?;
    let mut lines = vec![picked(&task, told, units), say(&groups)];
    lines.extend(say_rates(&candidates, task.rows)?);
    let mut json = json!({
        "stitches": task.stitches.get(),
        "rows": task.rows.get(),
        "ideal": fraction(task.ideal),
        "ratio": [told.pick(), told.of()],
        "rates": candidates.iter().map(|c| rate(*c, task.rows)).collect::<Result<Vec<_>, _>>()?,
        "groups": groups.iter().map(tell::group).collect::<Vec<_>>(),
        "drift": fraction(drift),
        "words": say(&groups),
    });
    if let (Some(measured), Some(map)) = (task.length, json.as_object_mut()) {
        map.insert("length".into(), length(measured));
    }
    buttons::add(args, task.stitches, &mut json, &mut lines)?;
    Ok(Answer { text: lines.join("\n"), json })
}

fn task(args: &Args) -> Result<Task, Failure> {
    match args.gauge {
        Some(gauge) => by_gauge(args, gauge),
        None => by_counts(args),
    }
}

fn by_counts(args: &Args) -> Result<Task, Failure> {
    let (Some(rows), Some(stitches)) = (args.rows, args.stitches) else {
        return Err(super::too_little());
    };
    Ok(Task { rows, stitches, ideal: stitches.get().into(), length: None })
}

fn by_gauge(args: &Args, gauge: Gauge) -> Result<Task, Failure> {
    let (rows, edge) = match (args.rows, args.length) {
        (Some(rows), _) => (rows, gauge.length_of(rows)?),
        (None, Some(asked)) => {
            (gauge.fit::<Rows>(asked, Repeat::any(), Round::HalfUp)?.count, asked)
        }
        (None, None) => return Err(super::too_little()),
    };
    let band = args.band_gauge.unwrap_or(gauge);
    let fitted = band.fit::<Stitches>(edge, repeat(args)?, Round::HalfUp)?;
    let stitches = args.stitches.unwrap_or(fitted.count);
    Ok(Task { rows, stitches, ideal: band.count_in::<Stitches>(edge)?, length: Some(edge) })
}

fn picked(task: &Task, told: Rate, units: Units) -> String {
    let rows = task.rows.counted();
    let along = match task.length {
        Some(measured) => format!("{rows} ({})", say_length(measured, units)),
        None => rows.to_string(),
    };
    let rate = match (told.pick(), told.of()) {
        (1, 1) => "one for one".into(),
        (pick, 1) => format!("about {pick} for every row"),
        _ => format!("about {told} rows"),
    };
    let stitches = task.stitches.counted();
    format!("pick up {stitches} along {along}, {rate}:")
}

fn rate(candidate: RateCandidate, rows: Rows) -> Result<Value, Failure> {
    let rate = candidate.rate;
    Ok(json!({
        "ratio": [rate.pick(), rate.of()],
        "kind": candidate.kind,
        "nearest": candidate.nearest,
        "error": fraction(candidate.error_over(rows)?),
    }))
}

/// What the rates that are nearest for their size leave over on this edge: the three of
/// most rows.
fn say_rates(candidates: &[RateCandidate], rows: Rows) -> Result<Option<String>, Failure> {
    let nearest: Vec<_> = candidates.iter().filter(|candidate| candidate.nearest).collect();
    let (_, last) = nearest.split_at(nearest.len().saturating_sub(3));
    let told = last.iter().map(|rate| say_rate(**rate, rows)).collect::<Result<Vec<_>, _>>()?;
    let some = told.len() > 1;
    Ok(some.then(|| format!("a rate kept to all along would be out: {}", told.join(", "))))
}

fn say_rate(candidate: RateCandidate, rows: Rows) -> Result<String, Failure> {
    let error = candidate.error_over(rows)?;
    let by = error.abs().decimal(1);
    let out = match (error.is_zero(), error.is_positive()) {
        (true, _) => "exact".into(),
        (_, true) => format!("{by} too many"),
        (_, false) => format!("{by} too few"),
    };
    Ok(format!("{} ({out})", candidate.rate))
}
