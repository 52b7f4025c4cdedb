use crate::Units;
use crate::answer::{Answer, Failure, fraction, length, say};
use crate::choice::choice;
use loopwright::gauge::{
    Count, DimensionalChange, Exact, Length, Outlier, PerLength, Reading, ReadingDirection, Spread,
    Swatch, Treatment, YarnClass,
};
use serde_json::{Map, Value, json};
use std::fmt::Write as _;

#[derive(Debug, clap::Args)]
pub(crate) struct Args {
    #[command(flatten)]
    swatch: SwatchArgs,
    /// The same fabric before this treatment; may be given several times.
    #[arg(long, value_name = "READING")]
    before: Vec<Reading>,
    /// Say how long a reading must be for a piece of this width or height ...
    #[arg(long, value_name = "LENGTH", requires = "within")]
    size: Option<Length>,
    /// ... to be known within this length.
    #[arg(long, value_name = "LENGTH", requires = "size")]
    within: Option<Length>,
}

/// A swatch as it is given on the command line.
#[derive(Debug, clap::Args)]
pub(crate) struct SwatchArgs {
    /// A reading of the swatch, such as "40 st = 13.3 cm" or "60 rows = 15.4 cm"; may be
    /// given several times.
    #[arg(long = "reading", value_name = "READING")]
    readings: Vec<Reading>,
    /// What the swatch had been through.
    #[arg(long, value_parser = choice::<Treatment>(), default_value = "washed")]
    treatment: Treatment,
    /// Counts were read to the nearest such part of a stitch or row; 0 when they are
    /// certain.
    #[arg(long, value_name = "STEP", default_value = "1/2")]
    counted_to: Exact,
    /// Lengths were read to the nearest such step of the ruler.
    #[arg(long, value_name = "STEP", default_value = "1 mm")]
    measured_to: Length,
}

impl SwatchArgs {
    /// Whether there is any reading.
    pub(crate) const fn is_given(&self) -> bool {
        !self.readings.is_empty()
    }

    fn swatch(&self, readings: &[Reading]) -> Result<Swatch, Failure> {
        let swatch = Swatch::new(readings.iter().copied(), self.treatment)?;
        Ok(swatch.counted_to(self.counted_to)?.measured_to(self.measured_to)?)
    }

    /// The gauge of the readings in one direction.
    pub(crate) fn of<C: Count>(&self) -> Result<Spread<PerLength>, Failure> {
        Ok(self.swatch(&self.readings)?.pooled(C::DIRECTION)?)
    }
}

pub(crate) fn run(args: &Args, units: Units) -> Result<Answer, Failure> {
    let swatch = args.swatch.swatch(&args.swatch.readings)?;
    let mut text = heading(swatch.treatment());
    let mut answer = Map::new();
    let mut classes = Vec::new();
    for direction in [ReadingDirection::Stitches, ReadingDirection::Rows] {
        let key = format!("{direction}_per_10cm");
        let Some(measured) = pooled(&swatch, direction)? else {
            answer.insert(key, Value::Null);
            continue;
        };
        text += &told(direction, measured, units)?;
        answer.insert(key, numbers(measured)?);
        answer.insert(direction.name().into(), conversions(direction, measured)?);
        if direction == ReadingDirection::Stitches {
            classes = YarnClass::of_gauge(measured.likely()).map(YarnClass::name).collect();
        }
    }
    if !classes.is_empty() {
        let _ = writeln!(text, "Yarn classes knitted at such a gauge: {}.", classes.join(", "));
    }
    answer.insert("treatment".into(), json!(swatch.treatment()));
    answer.insert("yarn_classes".into(), json!(classes));
    add_outliers(&swatch, units, &mut text, &mut answer)?;
    add_change(args, &swatch, &mut text, &mut answer)?;
    add_span(args, &swatch, units, &mut text, &mut answer)?;
    Ok(Answer { text, json: Value::Object(answer) })
}

fn heading(treatment: Treatment) -> String {
    let caution = match treatment {
        Treatment::Washed => "",
        _ => " Washing will change it: measure it again before you trust the counts.",
    };
    format!("The swatch was {treatment} when it was measured.{caution}\n")
}

/// `None` when the direction was not read.
fn pooled(
    swatch: &Swatch,
    direction: ReadingDirection,
) -> Result<Option<Spread<PerLength>>, Failure> {
    match swatch.pooled(direction) {
        Ok(measured) => Ok(Some(measured)),
        Err(error) if error.is_missing() => Ok(None),
        Err(error) => Err(error.into()),
    }
}

fn per_10cm(gauge: PerLength) -> Result<Exact, Failure> {
    Ok(gauge.per(Length::cm(10)?)?)
}

fn numbers(measured: Spread<PerLength>) -> Result<Value, Failure> {
    let value = per_10cm(measured.likely())?;
    Ok(json!({
        "value": value.to_f64_lossy(),
        "exact": fraction(value),
        "low": per_10cm(measured.low())?.to_f64_lossy(),
        "high": per_10cm(measured.high())?.to_f64_lossy(),
    }))
}

/// How many are counted for a reading the machine knitters' way.
const fn usual_count(direction: ReadingDirection) -> i32 {
    match direction {
        ReadingDirection::Stitches => 40,
        ReadingDirection::Rows => 60,
    }
}

fn conversions(direction: ReadingDirection, measured: Spread<PerLength>) -> Result<Value, Failure> {
    let gauge = measured.likely();
    let count = usual_count(direction);
    Ok(json!({
        "per_4in": gauge.per(Length::inches(4)?)?.to_f64_lossy(),
        "per_1in": gauge.per(Length::inches(1)?)?.to_f64_lossy(),
        "per_1cm": gauge.per(Length::cm(1)?)?.to_f64_lossy(),
        format!("length_of_{count}"): length(gauge.length_of(Exact::whole(count))?),
    }))
}

fn told(
    direction: ReadingDirection,
    measured: Spread<PerLength>,
    units: Units,
) -> Result<String, Failure> {
    let (value, count) = (measured.likely(), usual_count(direction));
    let capital = match direction {
        ReadingDirection::Stitches => "Stitches",
        ReadingDirection::Rows => "Rows",
    };
    let (low, high) = (per_10cm(measured.low())?, per_10cm(measured.high())?);
    Ok(format!(
        "{capital}: {:.2} in 10 cm (between {low:.2} and {high:.2}); {:.2} in 4 in, {:.2} in 1 in, \
         {:.2} in 1 cm; {count} {direction} measure {}.\n",
        per_10cm(value)?,
        value.per(Length::inches(4)?)?,
        value.per(Length::inches(1)?)?,
        value.per(Length::cm(1)?)?,
        say(value.length_of(Exact::whole(count))?, units),
    ))
}

fn add_outliers(
    swatch: &Swatch,
    units: Units,
    text: &mut String,
    answer: &mut Map<String, Value>,
) -> Result<(), Failure> {
    let mut listed = Vec::new();
    for Outlier { index, reading, others, .. } in swatch.outliers()? {
        let (count, direction, span) = (reading.count(), reading.direction(), reading.span());
        let _ = writeln!(
            text,
            "Reading {} ({count} {direction} over {}) is far from the others, which say {:.2} in \
             10 cm: measure it again.",
            index + 1,
            say(span, units),
            per_10cm(others.likely())?,
        );
        listed.push(json!({
            "reading": index + 1,
            "count": fraction(count),
            "direction": direction,
            "length": length(span),
            "others_per_10cm": numbers(others)?,
        }));
    }
    answer.insert("outliers".into(), Value::Array(listed));
    Ok(())
}

fn add_change(
    args: &Args,
    swatch: &Swatch,
    text: &mut String,
    answer: &mut Map<String, Value>,
) -> Result<(), Failure> {
    if args.before.is_empty() {
        return Ok(());
    }
    let before = args.swatch.swatch(&args.before)?;
    let DimensionalChange { width_percent, length_percent } = before.change_to(swatch)?;
    let _ = writeln!(
        text,
        "Since the earlier readings the width changed by {width_percent:.2} % and the length by \
         {length_percent:.2} % (below zero is shrinkage).",
    );
    let change =
        |percent: Exact| json!({ "value": percent.to_f64_lossy(), "exact": fraction(percent) });
    answer.insert(
        "change_percent".into(),
        json!({ "width": change(width_percent), "length": change(length_percent) }),
    );
    Ok(())
}

fn add_span(
    args: &Args,
    swatch: &Swatch,
    units: Units,
    text: &mut String,
    answer: &mut Map<String, Value>,
) -> Result<(), Failure> {
    let (Some(size), Some(within)) = (args.size, args.within) else { return Ok(()) };
    let mut spans = Map::new();
    for direction in [ReadingDirection::Stitches, ReadingDirection::Rows] {
        if pooled(swatch, direction)?.is_none() {
            continue;
        }
        let span = swatch.span_needed(direction, size, within)?;
        let _ = writeln!(
            text,
            "To know {} within {}, measure {direction} over at least {}.",
            say(size, units),
            say(within, units),
            say(span, units),
        );
        spans.insert(direction.name().into(), length(span));
    }
    answer.insert("span_needed".into(), Value::Object(spans));
    Ok(())
}
