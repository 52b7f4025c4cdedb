use super::listing::{listed, say_stitches};
use crate::Units;
use crate::answer::{Answer, Failure, say_rows};
use crate::choice::choice;
use loopwright::gauge::{Exact, PerLength, Round, Rows, Stitches};
use loopwright::shaping::{Direction, Edges, Ends, Order, Taper};
use serde_json::json;

#[derive(Debug, clap::Args)]
pub(crate) struct Args {
    /// Stitches at the start.
    from: u32,
    /// Stitches at the end.
    to: u32,
    /// All the rows.
    #[arg(long)]
    rows: u32,
    /// How many edges are shaped.
    #[arg(long, value_parser = choice::<Edges>(), default_value = "one")]
    edges: Edges,
    /// Only every row of this period may shape: 2 is every other row.
    #[arg(long, default_value_t = 1)]
    every: u32,
    /// The first row that may shape; the first multiple of --every, if nothing is said.
    #[arg(long)]
    first: Option<u32>,
    /// In which order wide and narrow gaps come.
    #[arg(long, value_parser = choice::<Order>(), default_value = "spread")]
    order: Order,
    /// Where the first and the last shaping fall.
    #[arg(long, value_parser = choice::<Ends>())]
    ends: Option<Ends>,
    /// Rows at the start that do not shape.
    #[arg(long, default_value_t = 0)]
    plain_before: u32,
    /// Rows at the end that do not shape.
    #[arg(long, default_value_t = 0)]
    plain_after: u32,
    /// The most stitches one edge may change in one row.
    #[arg(long, default_value_t = 1)]
    most: u32,
    /// Stitches taken in every shaping.
    #[arg(long, default_value_t = 1)]
    at_once: u32,
    /// Row numbers go on after this row.
    #[arg(long, default_value_t = 0)]
    after: u32,
    /// Plan the rest again: the row that was just worked.
    #[arg(long)]
    worked: Option<u32>,
    /// The stitches there are now; those of the plan, if nothing is said.
    #[arg(long, requires = "worked")]
    now: Option<u32>,
    /// The row gauge of the plan, such as 40/10cm: the length stays, the rows change.
    #[arg(long, requires_all = ["worked", "reached"])]
    planned: Option<PerLength>,
    /// The row gauge really reached.
    #[arg(long, requires_all = ["worked", "planned"])]
    reached: Option<PerLength>,
}

pub(crate) fn run(args: &Args, _units: Units) -> Result<Answer, Failure> {
    let (from, to) = (Stitches::new(args.from)?, Stitches::new(args.to)?);
    let mut builder = Taper::builder(from, to, Rows::new(args.rows)?)
        .edges(args.edges)
        .legal_rows(Rows::new(args.first.unwrap_or(args.every))?, Rows::new(args.every)?)
        .plain_before(Rows::new(args.plain_before)?)
        .plain_after(Rows::new(args.plain_after)?)
        .most(Stitches::new(args.most)?)
        .at_once(Stitches::new(args.at_once)?)
        .order(args.order)
        .after(Rows::new(args.after)?);
    if let Some(end) = args.ends {
        builder = builder.ends(end);
    }
    let taper = builder.build()?;
    let (taper, after) = match args.worked {
        Some(row) => (rest(args, &taper, row)?, row),
        None => (taper, args.after),
    };
    listed("the number of shapings", taper.events().len())?;
    Ok(answer(&taper, after))
}

/// What is left after a row, over the rows planned or over those of the gauge reached.
fn rest(args: &Args, taper: &Taper, row: u32) -> Result<Taper, Failure> {
    if row < args.after {
        let why =
            format!("row {row} is worked before the taper, which starts after row {}", args.after);
        return Err(Failure::Input(why));
    }
    let worked = Rows::new(row)?;
    let now = args.now.map(Stitches::new).transpose()?.unwrap_or_else(|| taper.count_at(worked));
    let rows = |gauge: Option<PerLength>| gauge.map_or(Exact::ONE, PerLength::per_mm);
    let (planned, reached) = (rows(args.planned), rows(args.reached));
    Ok(taper.replan_at_gauge(worked, now, planned, reached, Round::HalfUp)?)
}

/// `after` is the row before the first of the taper.
fn answer(taper: &Taper, after: u32) -> Answer {
    let words = taper.words().to_string();
    let (rows, stitches): (Vec<Rows>, Vec<Stitches>) =
        taper.events().map(|event| (event.row, event.stitches)).unzip();
    let direction = taper.direction().map(Direction::name);
    let over = match after {
        0 => say_rows(taper.rows()),
        row => format!("the {} after row {row}", say_rows(taper.rows())),
    };
    Answer {
        text: format!("{} to {} over {over}:\n{words}", taper.from(), say_stitches(taper.to())),
        json: json!({
            "from": taper.from().get(),
            "to": taper.to().get(),
            "rows": taper.rows().get(),
            "events": rows,
            "event_stitches": stitches,
            "segments": taper.segments().collect::<Vec<_>>(),
            "plain_before": taper.plain_before().get(),
            "plain_after": taper.plain_after().get(),
            "direction": direction,
            "words": words,
        }),
    }
}
