use crate::Units;
use crate::answer::{Answer, Failure, fraction, length, say};
use clap::ValueEnum;
use loopwright::gauge::{Count, Fitted, Gauge, Length, Repeat, Round, Rows, Stitches};
use serde_json::json;

#[derive(Debug, clap::Args)]
pub(crate) struct Args {
    /// The length, such as "52 cm" or "20 1/2 in".
    #[arg(required_unless_present = "back", conflicts_with = "back")]
    length: Option<Length>,
    /// The gauge as stitches x rows / length, such as 28x40/10cm.
    #[arg(long)]
    gauge: Gauge,
    /// Count rows, not stitches.
    #[arg(long)]
    rows: bool,
    /// The stitch pattern's multiple.
    #[arg(long, default_value_t = 1)]
    multiple: u32,
    /// What is added once to the multiple.
    #[arg(long, default_value_t = 0)]
    extra: u32,
    /// What is added at each side.
    #[arg(long, default_value_t = 0)]
    edge: u32,
    /// Which count to take.
    #[arg(long, value_enum, default_value_t = Rounding::Nearest)]
    round: Rounding,
    /// Turn this count back into its length.
    #[arg(long)]
    back: Option<u32>,
}

#[derive(Clone, Copy, Debug, ValueEnum)]
pub(crate) enum Rounding {
    /// The nearest; halfway goes up.
    Nearest,
    /// The next below.
    Down,
    /// The next above.
    Up,
    /// Only a count that comes out whole.
    Exact,
}

impl From<Rounding> for Round {
    fn from(rounding: Rounding) -> Self {
        match rounding {
            Rounding::Nearest => Self::HalfUp,
            Rounding::Down => Self::Floor,
            Rounding::Up => Self::Ceil,
            Rounding::Exact => Self::Exact,
        }
    }
}

pub(crate) fn run(args: &Args, units: Units) -> Result<Answer, Failure> {
    match (args.back, args.length) {
        (Some(count), _) => back(args, count, units),
        (None, Some(asked)) => forth(args, asked, units),
        (None, None) => Err(Failure::Input("give a length, or --back with a count".into())),
    }
}

fn back(args: &Args, count: u32, units: Units) -> Result<Answer, Failure> {
    let (measured, what) = if args.rows {
        (args.gauge.height_of(Rows::new(count)?)?, "rows")
    } else {
        (args.gauge.width_of(Stitches::new(count)?)?, "stitches")
    };
    Ok(Answer {
        text: format!("{count} {what} measure {}", say(measured, units)),
        json: json!({ "count": count, "length": length(measured) }),
    })
}

fn forth(args: &Args, asked: Length, units: Units) -> Result<Answer, Failure> {
    let plain = args.multiple == 1 && args.extra == 0 && args.edge == 0;
    let repeat =
        if plain { Repeat::any() } else { Repeat::new(args.multiple, args.extra, args.edge)? };
    if args.rows {
        Ok(answer(&args.gauge.fit_rows(asked, repeat, args.round.into())?, units))
    } else {
        Ok(answer(&args.gauge.fit_stitches(asked, repeat, args.round.into())?, units))
    }
}

fn answer<C: Count>(fitted: &Fitted<C>, units: Units) -> Answer {
    let text = format!(
        "{} {}: {}, {} from what was asked",
        fitted.count,
        C::NAME,
        say(fitted.length, units),
        say(fitted.residual, units),
    );
    Answer {
        text,
        json: json!({
            "count": fitted.count.get(),
            "ideal": fraction(fitted.ideal),
            "length": length(fitted.length),
            "residual": length(fitted.residual),
        }),
    }
}
