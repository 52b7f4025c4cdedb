mod kept;

use self::kept::{Kept, kept};
use super::count::{RepeatArgs, difference};
use crate::Units;
use crate::answer::{Answer, Failure, fraction, length, say};
use crate::choice::choice;
use loopwright::gauge::english::agreeing;
use loopwright::gauge::{
    Count, EdgeStitches, Fitted, Gauge, Numbers, Regauge, Regauged, Repeat, Round, Rows, Stitches,
    Sum, Warning,
};
use serde_json::{Map, Value, json};
use std::collections::HashSet;
use std::fmt::Write as _;
use std::hash::Hash;

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
    /// What becomes of the edge stitches of the repeat: seam stitches are kept.
    #[arg(long, value_parser = choice::<EdgeStitches>(), default_value = "scaled", requires = "edge")]
    edge_stitches: EdgeStitches,
    /// Published counts that add up, such as 23+27+23=73; may be given several times.
    #[arg(long = "sum", value_name = "SUM")]
    sums: Vec<String>,
}

pub(crate) fn run(args: &Args, units: Units) -> Result<Answer, Failure> {
    if args.rows { regauged::<Rows>(args, units) } else { regauged::<Stitches>(args, units) }
}

fn regauged<C: Count>(args: &Args, units: Units) -> Result<Answer, Failure> {
    let numbers = numbers::<C>(args)?;
    let regauge = Regauge::new(args.from, args.to).edge_stitches(args.edge_stitches);
    answer(args, &numbers, &regauge.fit_all(&numbers, args.round)?, units)
}

/// The counts named by themselves; a count, or a sum, given twice is one.
fn numbers<C: Count>(args: &Args) -> Result<Numbers<C>, Failure> {
    let repeat = args.repeat.repeat()?;
    let named = |count: u32| -> Result<(String, (C, Repeat)), Failure> {
        Ok((count.to_string(), (C::new(count)?, repeat)))
    };
    let named = once(&args.counts).map(|&count| named(count)).collect::<Result<Vec<_>, _>>()?;
    once(&args.sums).try_fold(Numbers::new(named)?, |numbers, sum| add(numbers, sum))
}

/// Each of them, the first time it comes.
fn once<T: Eq + Hash>(given: &[T]) -> impl Iterator<Item = &T> {
    let mut seen = HashSet::new();
    given.iter().filter(move |&one| seen.insert(one))
}

fn add<C: Count>(numbers: Numbers<C>, sum: &str) -> Result<Numbers<C>, Failure> {
    let Some((parts, whole)) = sum.split_once('=') else {
        let why = format!("the sum {sum:?} cannot be read: write it such as 23+27+23=73");
        return Err(Failure::Input(why));
    };
    let parts: Vec<&str> = parts.split('+').map(str::trim).collect();
    let given =
        Sum { parts: parts.iter().map(ToString::to_string).collect(), whole: whole.trim().into() };
    // The same sum may be written with other spaces.
    if numbers.sums().contains(&given) {
        Ok(numbers)
    } else {
        Ok(numbers.sum(&parts, whole.trim())?)
    }
}

fn answer<C: Count>(
    args: &Args,
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
    let mut answer = match args.counts.as_slice() {
        [_] => objects.pop().unwrap_or_default(),
        _ => Map::from_iter([(
            "counts".to_owned(),
            objects.into_iter().map(Value::Object).collect(),
        )]),
    };
    answer.insert("warnings".into(), Value::Array(warnings));
    add_kept(args, numbers, regauged, &mut text, &mut answer)?;
    Ok(Answer { text, json: Value::Object(answer) })
}

/// Where a parity or a sum would break, the nearest counts that keep them all.
fn add_kept<C: Count>(
    args: &Args,
    numbers: &Numbers<C>,
    regauged: &Regauged<C>,
    text: &mut String,
    answer: &mut Map<String, Value>,
) -> Result<(), Failure> {
    if regauged.warnings.is_empty() {
        return Ok(());
    }
    match kept(numbers, regauged, args.round)? {
        Kept::Counts(counts) => {
            let pairs = numbers.numbers().iter().zip(&counts);
            let told: Vec<String> =
                pairs.map(|(number, count)| format!("{} to {count}", number.count)).collect();
            let _ = writeln!(
                text,
                "{} counts that keep what can be kept: {}.",
                match args.round {
                    Round::Floor => "The nearest not larger",
                    Round::Ceil => "The nearest not smaller",
                    _ => "The nearest",
                },
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

fn line<C: Count>(published: C, fitted: &Fitted<C>, units: Units) -> String {
    let (count, verb) = (fitted.count, agreeing(published.get(), "becomes", "become"));
    let change = difference(fitted.residual, ["longer", "shorter"], "than published", units);
    let length = say(fitted.length.likely(), units);
    format!("{} {verb} {count}: {length}, {change}", published.counted())
}

fn object<C: Count>(published: C, fitted: &Fitted<C>) -> Map<String, Value> {
    Map::from_iter([
        ("published".to_owned(), json!(published.get())),
        ("count".to_owned(), json!(fitted.count.get())),
        ("ideal".to_owned(), json!(fraction(fitted.ideal))),
        ("length".to_owned(), length(fitted.length.likely())),
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
