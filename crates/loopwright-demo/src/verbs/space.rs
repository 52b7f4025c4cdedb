use super::listing::{listed, say_stitches};
use crate::Units;
use crate::answer::{Answer, Failure};
use crate::choice::choice;
use loopwright::gauge::{Repeat, Round, Stitches};
use loopwright::shaping::{Convention, Larger, Spacing, SpacingBuilder, Surplus, Technique};
use serde_json::json;

#[derive(Debug, clap::Args)]
#[command(group(clap::ArgGroup::new("wanted").required(true).args(["change", "to", "multiple"])))]
pub(crate) struct Args {
    /// The stitches of the row.
    stitches: u32,
    /// Stitches more or fewer, such as +14 or -10.
    #[arg(long, allow_hyphen_values = true)]
    change: Option<i64>,
    /// The count wanted after the row.
    #[arg(long)]
    to: Option<u32>,
    /// Go to the nearest count that is a multiple of this, with --extra.
    #[arg(long)]
    multiple: Option<u32>,
    /// What is added once to the multiple.
    #[arg(long, default_value_t = 0, requires = "multiple")]
    extra: u32,
    /// Which such count, below or above the stitches there are.
    #[arg(long, value_parser = choice::<Round>(), default_value = "nearest", requires = "multiple")]
    multiple_round: Round,
    /// What happens at the ends of the row.
    #[arg(long, value_parser = choice::<Convention>(), default_value = "half-gaps")]
    ends: Convention,
    /// How a place between two stitches becomes whole.
    #[arg(long, value_parser = choice::<Round>(), default_value = "up")]
    round: Round,
    /// Which groups are one stitch larger, with --ends blocks.
    #[arg(long, value_parser = choice::<Larger>(), default_value = "last")]
    larger: Larger,
    /// Where stitches left over go, with --ends leftover.
    #[arg(long, value_parser = choice::<Surplus>(), default_value = "end")]
    rest: Surplus,
    /// Plain stitches kept at each end.
    #[arg(long, default_value_t = 0)]
    border: u32,
    /// Increase in a stitch, not between two.
    #[arg(long)]
    in_stitch: bool,
    /// Decrease so many stitches into one.
    #[arg(long, default_value_t = 2, value_parser = clap::value_parser!(u32).range(2..=3))]
    together: u32,
    /// The row must read the same from both ends.
    #[arg(long)]
    mirror: bool,
    /// Turn the row round.
    #[arg(long)]
    reverse: bool,
    /// Stitches no event may touch, such as 20-27; may be given several times.
    #[arg(long, value_parser = columns)]
    avoid: Vec<(Stitches, Stitches)>,
    /// Events only where pattern repeats of so many stitches meet; one that uses
    /// stitches uses the last of a repeat.
    #[arg(long)]
    between_repeats: Option<u32>,
    /// The stitches before the first of those repeats.
    #[arg(long, default_value_t = 0, requires = "between_repeats")]
    edge: u32,
}

fn columns(text: &str) -> Result<(Stitches, Stitches), String> {
    let (from, to) = text.split_once('-').unwrap_or((text, text));
    match (from.trim().parse(), to.trim().parse()) {
        (Ok(from), Ok(to)) => Ok((from, to)),
        _ => Err("write the first and the last stitch, such as 20-27".into()),
    }
}

pub(crate) fn run(args: &Args, _units: Units) -> Result<Answer, Failure> {
    let from = Stitches::new(args.stitches)?;
    let to = wanted(args, from)?;
    let mut builder =
        Spacing::builder(from, technique(args, from, to), events(args, from, to)?, args.ends)
            .round(args.round)
            .larger(args.larger)
            .surplus(args.rest)
            .border(Stitches::new(args.border)?);
    if args.mirror {
        builder = builder.mirrored();
    }
    if args.reverse {
        builder = builder.reversed();
    }
    if let Some(multiple) = args.between_repeats {
        builder = builder.between_repeats(Stitches::new(multiple)?, Stitches::new(args.edge)?);
    }
    let row = avoiding(args, builder).build()?;
    listed("the number of events", row.positions().len())?;
    Ok(answer(&row))
}

fn wanted(args: &Args, from: Stitches) -> Result<Stitches, Failure> {
    if let Some(multiple) = args.multiple {
        let repeat = Repeat::new(multiple, args.extra, 0)?;
        let row = Spacing::onto(from, repeat, args.multiple_round, args.ends)?;
        return Ok(row.build()?.result());
    }
    let to = match (args.change, args.to) {
        (Some(change), _) => i64::from(args.stitches).checked_add(change),
        (None, Some(to)) => Some(to.into()),
        (None, None) => Some(args.stitches.into()),
    };
    let refuse = || {
        let why = "the count after the row must be zero or more, and at most 10000000";
        Failure::Input(why.into())
    };
    let to = to.and_then(|to| u32::try_from(to).ok()).ok_or_else(refuse)?;
    Ok(Stitches::new(to)?)
}

fn technique(args: &Args, from: Stitches, to: Stitches) -> Technique {
    match (to > from, args.in_stitch, args.together) {
        (true, false, _) => Technique::IncreaseBetween,
        (true, true, _) => Technique::IncreaseIn,
        (false, _, 3) => Technique::ThreeTogether,
        (false, ..) => Technique::TwoTogether,
    }
}

/// Three together loses two stitches in one event.
fn events(args: &Args, from: Stitches, to: Stitches) -> Result<u32, Failure> {
    let change = to.get().abs_diff(from.get());
    if to < from && args.together == 3 {
        if !change.is_multiple_of(2) {
            let why = format!(
                "three together loses two stitches each time, so {change} fewer cannot be reached: \
                 give an even change"
            );
            return Err(Failure::Input(why));
        }
        return Ok(change / 2);
    }
    Ok(change)
}

fn avoiding(args: &Args, builder: SpacingBuilder) -> SpacingBuilder {
    args.avoid.iter().fold(builder, |builder, &(from, to)| builder.avoid(from, to))
}

fn answer(row: &Spacing) -> Answer {
    let words = row.words().to_string();
    let (from, to) = (row.stitches(), row.result());
    let (told, one) = (say_stitches(from), from.get() == 1);
    let verb = if one { "becomes" } else { "become" };
    let text = match row.positions().len() {
        0 if one => format!("{told} stays {from}: knit the row plain"),
        0 => format!("{told} stay {from}: knit the row plain"),
        1 => format!("{told} {verb} {to}, in 1 place:\n{words}"),
        n => format!("{told} {verb} {to}, in {n} places:\n{words}"),
    };
    let groups: Vec<_> = row.groups().collect();
    Answer {
        text,
        json: json!({
            "positions": row.positions().collect::<Vec<_>>(),
            "groups": groups,
            "border": row.borders().0,
            "lead": row.lead(),
            "tail": row.tail(),
            "result": to.get(),
            "mirrored": row.is_mirrored(),
            "words": words,
        }),
    }
}
