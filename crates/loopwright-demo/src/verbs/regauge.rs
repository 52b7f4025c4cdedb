mod kept;

use self::kept::{Kept, kept};
use super::count::{RepeatArgs, difference};
use crate::Units;
use crate::answer::{Answer, Failure, fraction, length, say};
use crate::choice::choice;
use loopwright::gauge::{
    Count, Fitted, Gauge, Numbers, Regauge, Regauged, Repeat, Round, Rows, Stitches, Warning,
};
use serde_json::{Map, Value, json};
use std::fmt::Write as _;

#[derive(Debug, clap::Args)]
pub(crate) struct Args {
    /// The published counts.
    #[arg(required = true, value_name = "COUNT")]
    counts: Vec<u32>,
    /// The gauge they were published at.
    #[arg(long)]
    from: Gauge,
    /// The gauge they will be knitted at.
    #[arg(long)]
    to: Gauge,
    /// The counts are rows, not stitches.
    #[arg(long)]
    rows: bool,
    #[command(flatten)]
    repeat: RepeatArgs,
    /// Which count to take.
    #[arg(long, value_parser = choice::<Round>(), default_value = "nearest")]
    round: Round,
    /// Published counts that add up, such as 23+27+23=73; may be given several times.
    #[arg(long = "sum", value_name = "SUM")]
    sums: Vec<String>,
}

pub(crate) fn run(args: &Args, units: Units) -> Result<Answer, Failure> {
    let regauge = Regauge::new(args.from, args.to);
    let round = args.round;
    if args.rows {
        let numbers = numbers::<Rows>(args)?;
        answer(&numbers, &regauge.all_rows(&numbers, round)?, units)
    } else {
        let numbers = numbers::<Stitches>(args)?;
        answer(&numbers, &regauge.all_stitches(&numbers, round)?, units)
    }
}

/// The counts named by themselves; a count given twice is one number.
fn numbers<C: Count>(args: &Args) -> Result<Numbers<C>, Failure> {
    let repeat = args.repeat.repeat()?;
    let mut given = args.counts.clone();
    let mut seen = std::collections::HashSet::new();
    given.retain(|&count| seen.insert(count));
    let named = |count: u32| -> Result<(String, (C, Repeat)), Failure> {
        Ok((count.to_string(), (C::new(count)?, repeat)))
    };
    let named = given.into_iter().map(named).collect::<Result<Vec<_>, _>>()?;
    args.sums.iter().try_fold(Numbers::new(named)?, |numbers, sum| add(numbers, sum))
}

fn add<C: Count>(numbers: Numbers<C>, sum: &str) -> Result<Numbers<C>, Failure> {
    let Some((parts, whole)) = sum.split_once('=') else {
        let why = format!("the sum {sum:?} cannot be read: write it such as 23+27+23=73");
        return Err(Failure::Input(why));
    };
    let parts: Vec<&str> = parts.split('+').map(str::trim).collect();
    Ok(numbers.sum(&parts, whole.trim())?)
}

fn answer<C: Count>(
    numbers: &Numbers<C>,
    regauged: &Regauged<C>,
    units: Units,
) -> Result<Answer, Failure> {
    let mut text = String::new();
    let mut objects = Vec::new();
    for (number, fitted) in numbers.numbers().iter().zip(&regauged.counts) {
        let _ = writeln!(text, "{}", line(number.count, fitted, units));
        objects.push(object(number.count, fitted));
    }
    for warning in &regauged.warnings {
        let _ = writeln!(text, "Take care: {warning}.");
    }
    let warnings: Vec<Value> = regauged.warnings.iter().map(warned).collect();
    let mut answer = one_or_all(objects);
    answer.insert("warnings".into(), Value::Array(warnings));
    add_kept(numbers, regauged, &mut text, &mut answer)?;
    Ok(Answer { text, json: Value::Object(answer) })
}

/// Where a parity or a sum would break, the nearest counts that keep them all.
fn add_kept<C: Count>(
    numbers: &Numbers<C>,
    regauged: &Regauged<C>,
    text: &mut String,
    answer: &mut Map<String, Value>,
) -> Result<(), Failure> {
    if regauged.warnings.is_empty() {
        return Ok(());
    }
    match kept(numbers, regauged)? {
        Kept::Counts(counts) => {
            let pairs = numbers.numbers().iter().zip(&counts);
            let told: Vec<String> =
                pairs.map(|(number, count)| format!("{} to {count}", number.count)).collect();
            let _ = writeln!(
                text,
                "The nearest counts that keep what can be kept: {}.",
                told.join(", ")
            );
            answer.insert("kept".into(), json!(counts));
        }
        Kept::Nothing(why) => {
            let _ = writeln!(text, "No counts keep everything: {why}.");
            answer.insert("kept".into(), Value::Null);
        }
    }
    Ok(())
}

/// One count answers as itself, several as a list.
fn one_or_all(mut objects: Vec<Map<String, Value>>) -> Map<String, Value> {
    match objects.pop() {
        Some(only) if objects.is_empty() => only,
        last => {
            objects.extend(last);
            let counts = objects.into_iter().map(Value::Object).collect();
            Map::from_iter([("counts".to_owned(), counts)])
        }
    }
}

fn line<C: Count>(published: C, fitted: &Fitted<C>, units: Units) -> String {
    let (count, name) = (fitted.count, C::NAME);
    let change = difference(fitted.residual, ["longer", "shorter"], "than published", units);
    format!("{published} {name} become {count}: {}, {change}", say(fitted.length, units))
}

fn object<C: Count>(published: C, fitted: &Fitted<C>) -> Map<String, Value> {
    Map::from_iter([
        ("published".to_owned(), json!(published.get())),
        ("count".to_owned(), json!(fitted.count.get())),
        ("ideal".to_owned(), json!(fraction(fitted.ideal))),
        ("length".to_owned(), length(fitted.length)),
        ("residual".to_owned(), length(fitted.residual)),
    ])
}

fn warned<C: Count>(warning: &Warning<C>) -> Value {
    let text = warning.to_string();
    match warning {
        Warning::Repeat { published, .. } => {
            json!({ "kind": "repeat", "published": published.get(), "text": text })
        }
        Warning::Parity { published, count, keeps, .. } => json!({
            "kind": "parity",
            "published": published.get(),
            "count": count.get(),
            "keeps": keeps.map(Count::get),
            "text": text,
        }),
        Warning::Sum { missing, .. } => {
            json!({ "kind": "sum", "missing": missing, "text": text })
        }
        _ => json!({ "kind": "other", "text": text }),
    }
}
