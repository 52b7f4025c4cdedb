use super::gauge::SwatchArgs;
use crate::Units;
use crate::answer::{Answer, Failure, fraction, length, say};
use crate::choice::choice;
use loopwright::gauge::english::agreeing;
use loopwright::gauge::{
    Count, CountRange, Error, Fitted, Gauge, Length, PerLength, Repeat, Round, Rows, Spread,
    Stitches, bounds,
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
    if args.rows { counted::<Rows>(args, units) } else { counted::<Stitches>(args, units) }
}

fn counted<C: Count>(args: &Args, units: Units) -> Result<Answer, Failure> {
    let gauge = gauge::<C>(args)?;
    match (args.back, args.length) {
        (Some(count), _) => back(gauge, C::new(count)?, units),
        (None, Some(asked)) => fit::<C>(args, gauge, asked, units),
        (None, None) => Err(Failure::Input("give a length, or --back with a count".into())),
    }
}

fn gauge<C: Count>(args: &Args) -> Result<Spread<PerLength>, Failure> {
    match args.gauge {
        Some(gauge) => Ok(Spread::exactly(gauge.of::<C>()?)),
        None if args.swatch.is_given() => args.swatch.of::<C>(),
        None => Err(Failure::Input("give a --gauge, or at least one --reading".into())),
    }
}

fn back<C: Count>(gauge: Spread<PerLength>, count: C, units: Units) -> Result<Answer, Failure> {
    let measured = gauge.length_of(count.into())?;
    let verb = agreeing(count.get(), "measures", "measure");
    Ok(Answer {
        text: format!(
            "{} {verb} {}{}",
            count.counted(),
            say(measured.likely(), units),
            may_be(measured, units)
        ),
        json: json!({
            "count": count.get(),
            "length": length(measured.likely()),
            "low": length(measured.low()),
            "high": length(measured.high()),
        }),
    })
}

fn fit<C: Count>(
    args: &Args,
    gauge: Spread<PerLength>,
    asked: Length,
    units: Units,
) -> Result<Answer, Failure> {
    let (repeat, round, each) = (args.repeat.repeat()?, args.round, args.near);
    let (fitted, near) = match range::<C>(args)? {
        Some(range) => (
            gauge.fit_within(asked, repeat, range, round)?,
            each.map(|each| gauge.nearest_within(asked, repeat, range, each)).transpose()?,
        ),
        None => (
            gauge.fit(asked, repeat, round)?,
            each.map(|each| gauge.nearest(asked, repeat, each)).transpose()?,
        ),
    };
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
    let mut text = format!("{}{}\n", line(fitted, units), may_be(fitted.length, units));
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
    format!("{}: {}, {cost}", count.counted(), say(fitted.length.likely(), units))
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
fn may_be(length: Spread<Length>, units: Units) -> String {
    if length.is_exact() {
        return String::new();
    }
    let (low, high) = (say(length.low(), units), say(length.high(), units));
    format!("; it may come out between {low} and {high}")
}

fn object<C: Count>(fitted: &Fitted<C>) -> Map<String, Value> {
    Map::from_iter([
        ("count".to_owned(), json!(fitted.count.get())),
        ("ideal".to_owned(), json!(fraction(fitted.ideal))),
        ("length".to_owned(), length(fitted.length.likely())),
        ("residual".to_owned(), length(fitted.residual)),
        ("low".to_owned(), length(fitted.length.low())),
        ("high".to_owned(), length(fitted.length.high())),
    ])
}
