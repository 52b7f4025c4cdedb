use crate::Units;
use crate::answer::{Answer, Failure, fraction, length, say};
use loopwright::gauge::{Exact, Gauge, Length, Precision, Round, Rows, Stitches, Unit};
use loopwright::shaping::{AtOnce, Bend, Curve, CurveBuilder, Direction, Neck, Outline};
use serde_json::{Value, json};

#[derive(Debug, clap::Args)]
pub(crate) struct Args {
    /// The outline, part by part: `line 2cm 0cm`, `slowing 5cm 6cm` (a quarter of an
    /// ellipse, across first and then up), `quickening 5cm 6cm` (up first) or
    /// `cubic 4cm 0cm 6cm 3cm 6cm 8cm` (a cubic Bézier: both control points and the end,
    /// each so far across and up from where the part begins).
    #[arg(required = true)]
    outline: Vec<String>,
    /// The gauge as stitches x rows / length, such as 28x40/10cm.
    #[arg(long, required_unless_present_all = ["stitches", "rows"])]
    gauge: Option<Gauge>,
    /// The stitches the outline is stretched to.
    #[arg(long, requires = "rows")]
    stitches: Option<u32>,
    /// The rows the outline is stretched to.
    #[arg(long, requires = "stitches")]
    rows: Option<u32>,
    /// A neck: the outline is one half, the stitches are all of it.
    #[arg(long)]
    neck: bool,
    /// The most stitches in one step; 4, or 3 for a neck, if nothing is said.
    #[arg(long)]
    most: Option<u32>,
    /// What is shaped at once before the first row: nearest, at-least-N or a count.
    #[arg(long)]
    opening: Option<AtOnce>,
    /// What is left to be shaped at once after the last row, in the same way.
    #[arg(long)]
    closing: Option<AtOnce>,
    /// The first row on which the carriage is at the shaped edge.
    #[arg(long, default_value_t = 2)]
    first: u32,
    /// The period of rows that may shape one stitch: 2 is every other row.
    #[arg(long, default_value_t = 2)]
    single_every: u32,
    /// The curve makes the piece wider.
    #[arg(long)]
    wider: bool,
}

pub(crate) fn run(args: &Args, units: Units) -> Result<Answer, Failure> {
    let outline = outline(&args.outline)?;
    let (stitches, rows) = size(args, &outline)?;
    let rules = asked(args)?;
    if args.neck {
        let mut neck =
            Neck::builder(&outline, stitches, rows).side(|side| ruled(args, rules, side));
        if let Some(centre) = args.opening {
            neck = neck.centre(centre);
        }
        let neck = neck.build()?;
        return answer(args, neck.side(), neck.centre(), units);
    }
    let mut builder = ruled(args, rules, Curve::builder(&outline, stitches, rows));
    if let Some(opening) = args.opening {
        builder = builder.opening(opening);
    }
    let curve = builder.build()?;
    answer(args, &curve, curve.opening(), units)
}

/// The most stitches in a step, the first row of the carriage, the period of single ones.
type Rules = (Stitches, Rows, Rows);

fn asked(args: &Args) -> Result<Rules, Failure> {
    let most = args.most.unwrap_or(if args.neck { 3 } else { 4 });
    Ok((Stitches::new(most)?, Rows::new(args.first)?, Rows::new(args.single_every)?))
}

fn ruled<'a>(args: &Args, rules: Rules, builder: CurveBuilder<'a>) -> CurveBuilder<'a> {
    let builder = builder.most(rules.0).several_rows_from(rules.1).single_rows(rules.1, rules.2);
    match args.closing {
        Some(closing) => builder.closing(closing),
        None => builder,
    }
}

fn size(args: &Args, outline: &Outline) -> Result<(Stitches, Rows), Failure> {
    match (args.stitches, args.rows, args.gauge) {
        (Some(stitches), Some(rows), _) => Ok((Stitches::new(stitches)?, Rows::new(rows)?)),
        (.., Some(gauge)) => {
            let halves = Exact::whole(if args.neck { 2 } else { 1 });
            let width = outline.width()?.scaled(halves)?;
            let whole = |exact: Exact| {
                u32::try_from(exact.to_whole(Round::HalfUp)?).map_err(|_| {
                    Failure::Input(format!("the outline has {exact} stitches or rows, too many"))
                })
            };
            let stitches = whole(gauge.count_in::<Stitches>(width)?)?;
            Ok((
                Stitches::new(stitches)?,
                Rows::new(whole(gauge.count_in::<Rows>(outline.height()?)?)?)?,
            ))
        }
        _ => Err(Failure::Input("give --gauge, or --stitches and --rows".into())),
    }
}

fn outline(parts: &[String]) -> Result<Outline, Failure> {
    parts.iter().try_fold(Outline::start(), |outline, part| extended(outline, part))
}

fn extended(outline: Outline, part: &str) -> Result<Outline, Failure> {
    let refuse = || {
        Failure::Input(format!(
            "the part {part:?} of the outline cannot be read: write line, slowing or \
             quickening and two lengths, or cubic and six, each without a space, such as \
             \"slowing 5cm 6cm\""
        ))
    };
    let mut words = part.split_whitespace();
    let kind = words.next().ok_or_else(refuse)?;
    let lengths = words.map(str::parse).collect::<Result<Vec<Length>, _>>()?;
    match (kind, lengths.as_slice()) {
        ("line", &[across, up]) => Ok(outline.line(across, up)?),
        ("slowing", &[across, up]) => Ok(outline.quarter(across, up, Bend::Slowing)?),
        ("quickening", &[across, up]) => Ok(outline.quarter(across, up, Bend::Quickening)?),
        ("cubic", &[x1, y1, x2, y2, x, y]) => Ok(outline.cubic((x1, y1), (x2, y2), (x, y))?),
        _ => Err(refuse()),
    }
}

fn answer(args: &Args, curve: &Curve, opening: Stitches, units: Units) -> Result<Answer, Failure> {
    let direction = if args.wider { Direction::Increase } else { Direction::Decrease };
    let words = words(args, curve, opening, direction);
    let width = args.gauge.map(|gauge| curve.deviation_width(gauge)).transpose()?;
    let off = width.map_or_else(String::new, |width| {
        let mm = width.display(Unit::Millimetre, Precision::Decimals(1));
        match units {
            Units::Cm => format!(", {mm}"),
            _ => format!(", {}", say(width, units)),
        }
    });
    let deviation = curve.deviation();
    let text = format!(
        "{words}\nNowhere more than {:.2} stitches{off} from the outline.",
        deviation.to_f64_lossy()
    );
    let steps: Vec<Value> = curve.events().iter().map(|event| json!(event)).collect();
    Ok(Answer {
        text,
        json: json!({
            "opening": opening.get(),
            "steps": steps,
            "plain_after": curve.plain_after().get(),
            "closing": curve.closing().get(),
            "rows": curve.rows().get(),
            "deviation_stitches": { "value": deviation.to_f64_lossy(), "exact": fraction(deviation) },
            "deviation": width.map(length),
            "words": words,
        }),
    })
}

fn words(args: &Args, curve: &Curve, opening: Stitches, direction: Direction) -> String {
    let words = curve.words(direction).to_string();
    if args.neck && opening == Stitches::ZERO {
        return format!("divide in the middle, then at each side: {words}");
    }
    if args.neck {
        return format!("bind off the middle {opening}, then at each side: {words}");
    }
    words
}
