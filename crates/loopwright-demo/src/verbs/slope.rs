use super::listing::{listed, say_stitches};
use crate::Units;
use crate::answer::{Answer, Failure, say_rows};
use crate::choice::choice;
use loopwright::gauge::{Rows, Stitches};
use loopwright::shaping::{Larger, LastStep, Slope, SlopeMethod};
use serde_json::json;

#[derive(Debug, clap::Args)]
pub(crate) struct Args {
    /// The stitches of the slope, such as one shoulder.
    stitches: u32,
    /// In how many steps.
    #[arg(long, required_unless_present = "rows", conflicts_with = "rows")]
    turns: Option<u32>,
    /// Over how many rows, two to a step.
    #[arg(long)]
    rows: Option<u32>,
    /// Which steps are one stitch larger; print does not agree.
    #[arg(long, value_parser = choice::<Larger>(), default_value = "first")]
    larger: Larger,
    /// How the steps are made.
    #[arg(long, value_parser = choice::<SlopeMethod>(), default_value = "bind-off")]
    method: SlopeMethod,
    /// The last step costs no rows.
    #[arg(long)]
    last_free: bool,
}

pub(crate) fn run(args: &Args, _units: Units) -> Result<Answer, Failure> {
    let (stitches, larger) = (Stitches::new(args.stitches)?, args.larger);
    let last = if args.last_free { LastStep::Free } else { LastStep::CostsRows };
    let builder = match (args.turns, args.rows) {
        (_, Some(rows)) => Slope::over(stitches, Rows::new(rows)?, larger, last)?,
        (Some(turns), None) => Slope::builder(stitches, turns, larger).last_step(last),
        (None, None) => return Err(Failure::Input("give --turns or --rows".into())),
    };
    let slope = builder.method(args.method).build()?;
    listed("the number of steps", slope.steps().len())?;
    Ok(answer(&slope))
}

fn answer(slope: &Slope) -> Answer {
    let words = slope.to_string();
    let sizes: Vec<Stitches> = slope.steps().map(|step| step.stitches).collect();
    let done: Vec<Stitches> = slope.steps().map(|step| step.done).collect();
    let on: Vec<Rows> = slope.steps().map(|step| step.row).collect();
    Answer {
        text: format!(
            "{} in {} {} over {}:\n{words}",
            say_stitches(slope.stitches()),
            slope.turns(),
            if slope.turns() == 1 { "step" } else { "steps" },
            say_rows(slope.rows())
        ),
        json: json!({
            "steps": sizes,
            "step_rows": on,
            "done": done,
            "rows": slope.rows().get(),
            "words": words,
        }),
    }
}
