use super::gauge::SwatchArgs;
use crate::Units;
use crate::answer::{Answer, Failure, fraction, length, say};
use crate::choice::choice;
use loopwright::gauge::{
    Count, CountRange, Error, Fitted, Gauge, Length, ReadingDirection, Repeat, Round, Rows,
    Stitches, SwatchGauge, bounds,
};
use serde_json::{Map, Value, json};
use std::fmt::Write as _;

#[derive(Debug, clap::Args)]
pub(crate) struct Args {
    /// The length, such as "52 cm" or "20 1/2 in".
    #[arg(required_unless_present = "back", conflicts_with = "back", allow_hyphen_values = true)]
    length: Option<Length>,
    /// The gauge as stitches x rows / length, such as 28x40/10cm.
    #[arg(long, conflicts_with = "readings")]
    gauge: Option<Gauge>,
    #[command(flatten)]
    swatch: SwatchArgs,
    /// Count rows, not stitches.
    #[arg(long)]
    rows: bool,
    #[command(flatten)]
    repeat: RepeatArgs,
    /// The least the count may be.
    #[arg(long)]
    least: Option<u32>,
    /// The most the count may be.
    #[arg(long)]
    most: Option<u32>,
    /// Which count to take.
    #[arg(long, value_parser = choice::<Round>(), default_value = "nearest")]
    round: Round,
    /// Show this many of the nearest allowed counts at each side as well.
    #[arg(long, value_name = "COUNTS")]
    near: Option<u32>,
    /// Turn this count back into its length.
    #[arg(long, value_name = "COUNT")]
    back: Option<u32>,
}

/// A repeat as it is given on the command line.
#[derive(Debug, clap::Args)]
pub(crate) struct RepeatArgs {
    /// The stitch pattern's multiple.
    #[arg(long, default_value_t = 1)]
    multiple: u32,
    /// What is added once to the multiple.
    #[arg(long, default_value_t = 0)]
    extra: u32,
    /// What is added at each side.
    #[arg(long, default_value_t = 0)]
    edge: u32,
}

impl RepeatArgs {
    pub(crate) fn repeat(&self) -> Result<Repeat, Error> {
        match (self.multiple, self.extra, self.edge) {
            (1, 0, 0) => Ok(Repeat::any()),
            (multiple, extra, edge) => Repeat::new(multiple, extra, edge),
        }
    }
}

pub(crate) fn run(args: &Args, units: Units) -> Result<Answer, Failure> {
    let gauge = gauge(args)?;
    match (args.back, args.length) {
        (Some(count), _) => back(args, gauge, count, units),
        (None, Some(asked)) if args.rows => rows(args, gauge, asked, units),
        (None, Some(asked)) => stitches(args, gauge, asked, units),
        (None, None) => Err(Failure::Input("give a length, or --back with a count".into())),
    }
}

fn gauge(args: &Args) -> Result<SwatchGauge, Failure> {
    let direction = if args.rows { ReadingDirection::Rows } else { ReadingDirection::Stitches };
    match args.gauge {
        Some(gauge) => Ok(gauge.into()),
        None if args.swatch.is_given() => args.swatch.gauge(direction),
        None => Err(Failure::Input("give a --gauge, or at least one --reading".into())),
    }
}

fn back(args: &Args, gauge: SwatchGauge, count: u32, units: Units) -> Result<Answer, Failure> {
    let (measured, between, what) = if args.rows {
        let rows = Rows::new(count)?;
        (gauge.gauge().height_of(rows)?, gauge.height_of(rows)?, "rows")
    } else {
        let stitches = Stitches::new(count)?;
        (gauge.gauge().width_of(stitches)?, gauge.width_of(stitches)?, "stitches")
    };
    let (low, high) = (between.low(), between.high());
    Ok(Answer {
        text: format!(
            "{count} {what} measure {}{}",
            say(measured, units),
            may_be(low, high, units)
        ),
        json: json!({
            "count": count,
            "length": length(measured),
            "low": length(low),
            "high": length(high),
        }),
    })
}

fn stitches(
    args: &Args,
    gauge: SwatchGauge,
    asked: Length,
    units: Units,
) -> Result<Answer, Failure> {
    let (repeat, round) = (args.repeat.repeat()?, args.round);
    let fitted = match range(args)? {
        Some(range) => gauge.fit_stitches_within(asked, repeat, range, round)?,
        None => gauge.fit_stitches(asked, repeat, round)?,
    };
    let near = args.near.map(|each| gauge.nearest_stitches(asked, repeat, each)).transpose()?;
    Ok(answer(&fitted, near, units))
}

fn rows(args: &Args, gauge: SwatchGauge, asked: Length, units: Units) -> Result<Answer, Failure> {
    let (repeat, round) = (args.repeat.repeat()?, args.round);
    let fitted = match range(args)? {
        Some(range) => gauge.fit_rows_within(asked, repeat, range, round)?,
        None => gauge.fit_rows(asked, repeat, round)?,
    };
    let near = args.near.map(|each| gauge.nearest_rows(asked, repeat, each)).transpose()?;
    Ok(answer(&fitted, near, units))
}

fn range<C: Count>(args: &Args) -> Result<Option<CountRange<C>>, Error> {
    if args.least.is_none() && args.most.is_none() {
        return Ok(None);
    }
    let (least, most) = (args.least.unwrap_or(0), args.most.unwrap_or(bounds::COUNT));
    CountRange::new(C::new(least)?, C::new(most)?).map(Some)
}

fn answer<C: Count>(fitted: &Fitted<C>, near: Option<Vec<Fitted<C>>>, units: Units) -> Answer {
    let mut text = format!("{}{}\n", line(fitted, units), may_be(fitted.low, fitted.high, units));
    let mut json = object(fitted);
    if let Some(near) = near {
        text += "Near it:\n";
        for candidate in &near {
            let _ = writeln!(text, "  {}", line(candidate, units));
        }
        json.insert("candidates".into(), near.iter().map(object).collect());
    }
    Answer { text, json: Value::Object(json) }
}

fn line<C: Count>(fitted: &Fitted<C>, units: Units) -> String {
    let (count, residual) = (fitted.count, fitted.residual);
    let cost = difference(residual, ["more", "less"], "than asked", units);
    format!("{count} {}: {}, {cost}", C::NAME, say(fitted.length, units))
}

/// A difference in words; one too small to measure is told as none.
pub(crate) fn difference(
    residual: Length,
    [more, less]: [&str; 2],
    than: &str,
    units: Units,
) -> String {
    let size = residual.abs();
    if size < Length::MILLIMETRE {
        return format!("within 1 mm of what was {}", than.trim_start_matches("than "));
    }
    let word = if residual.is_positive() { more } else { less };
    format!("{} {word} {than}", say(size, units))
}

/// What the gauge's error adds to the answer, where it has one.
fn may_be(low: Length, high: Length, units: Units) -> String {
    if low == high {
        return String::new();
    }
    format!("; it may come out between {} and {}", say(low, units), say(high, units))
}

fn object<C: Count>(fitted: &Fitted<C>) -> Map<String, Value> {
    Map::from_iter([
        ("count".to_owned(), json!(fitted.count.get())),
        ("ideal".to_owned(), json!(fraction(fitted.ideal))),
        ("length".to_owned(), length(fitted.length)),
        ("residual".to_owned(), length(fitted.residual)),
        ("low".to_owned(), length(fitted.low)),
        ("high".to_owned(), length(fitted.high)),
    ])
}
