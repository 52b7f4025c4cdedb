use super::listing::say_stitches;
use crate::Units;
use crate::answer::{Answer, Failure};
use crate::choice::choice;
use clap::ValueEnum;
use loopwright::gauge::{Gauge, Length, Repeat, Round, Rows, Stitches};
use loopwright::shaping::{ShortRows, Side, WedgeReach};
use serde_json::json;

#[derive(Debug, clap::Args)]
pub(crate) struct Args {
    /// The stitches the short rows are knitted over.
    width: u32,
    /// What they make.
    #[arg(long, value_enum, default_value_t = Shape::Wedge)]
    shape: Shape,
    /// How many rows higher: an even number.
    #[arg(long, conflicts_with = "height")]
    rows: Option<u32>,
    /// How much higher, as a length; rounded to an even number of rows.
    #[arg(long, requires = "gauge")]
    height: Option<Length>,
    /// The gauge as stitches x rows / length, such as 28x40/10cm.
    #[arg(long)]
    gauge: Option<Gauge>,
    /// The stitches in the middle, for a raised middle or a heel.
    #[arg(long)]
    core: Option<u32>,
    /// The deep side of a wedge or dart; where the others start.
    #[arg(long, value_parser = choice::<Side>(), default_value = "right")]
    side: Side,
    /// Whether the rows of a wedge become longer or shorter.
    #[arg(long, value_parser = choice::<WedgeReach>(), default_value = "shrinking")]
    reach: WedgeReach,
    /// Turn without wraps.
    #[arg(long)]
    no_wraps: bool,
}

#[derive(Clone, Copy, Debug, Eq, PartialEq, ValueEnum)]
enum Shape {
    /// Higher at one side.
    Wedge,
    /// A wedge into hold and back.
    Dart,
    /// Higher in the middle, as a back neck.
    Raised,
    /// A heel or toe.
    Heel,
}

pub(crate) fn run(args: &Args, _units: Units) -> Result<Answer, Failure> {
    let width = Stitches::new(args.width)?;
    let (side, reach) = (args.side, args.reach);
    let short = match args.shape {
        Shape::Wedge => ShortRows::wedge(width, rows(args)?, side, reach)?,
        Shape::Dart => ShortRows::dart(width, rows(args)?, side)?,
        Shape::Raised => ShortRows::raised(width, core(args)?, rows(args)?, side)?,
        Shape::Heel => ShortRows::heel(width, core(args)?, side)?,
    };
    Ok(answer(&if args.no_wraps { short.without_wraps() } else { short }))
}

fn rows(args: &Args) -> Result<Rows, Failure> {
    match (args.rows, args.height, args.gauge) {
        (Some(rows), ..) => Ok(Rows::new(rows)?),
        (None, Some(height), Some(gauge)) => {
            Ok(gauge.fit::<Rows>(height, Repeat::even(), Round::HalfUp)?.count)
        }
        _ => Err(Failure::Input("give --rows, or --height with --gauge".into())),
    }
}

fn core(args: &Args) -> Result<Stitches, Failure> {
    let refuse = || Failure::Input("give --core, the stitches in the middle".into());
    Ok(Stitches::new(args.core.ok_or_else(refuse)?)?)
}

fn answer(short: &ShortRows) -> Answer {
    let words = short.to_string();
    let rows = short.rows().len();
    let noun = if rows == 1 { "row" } else { "rows" };
    Answer {
        text: format!("{rows} short {noun} over {}:\n{words}", say_stitches(short.width())),
        json: json!({
            "turns": short.turns().collect::<Vec<_>>(),
            "rows": rows,
            "words": words,
        }),
    }
}
