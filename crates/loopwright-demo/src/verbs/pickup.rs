use crate::Units;
use crate::answer::{Answer, Failure, fraction, length, say as say_length};
use clap::ValueEnum;
use loopwright::gauge::{Exact, Gauge, Length, Repeat, Round, Rows, Stitches};
use loopwright::seams::{
    Buttonholes, Candidate, Gaps, Group, Holes, Leftover, Placement, Rate, Spacing, rates, say,
};
use serde_json::{Map, Value, json};

#[derive(Debug, clap::Args)]
pub(crate) struct Args {
    /// The length of the edge, such as "50 cm"; or give --rows.
    #[arg(conflicts_with = "rows")]
    length: Option<Length>,
    /// The rows of the edge, or the stitches of a bound-off edge.
    #[arg(long)]
    rows: Option<u32>,
    /// The count to pick up; otherwise it follows from the gauges.
    #[arg(long)]
    stitches: Option<u32>,
    /// The gauge of the edge, as stitches x rows / length.
    #[arg(long)]
    gauge: Option<Gauge>,
    /// The gauge of what is picked up, when it is another fabric.
    #[arg(long, requires = "gauge")]
    band_gauge: Option<Gauge>,
    /// The band's multiple.
    #[arg(long, default_value_t = 1, conflicts_with = "stitches")]
    multiple: u32,
    /// What is added once to the multiple.
    #[arg(long, default_value_t = 0, conflicts_with = "stitches")]
    extra: u32,
    /// What happens at the ends, and how groups of two sizes are ordered.
    #[arg(long, value_enum, default_value_t = Ends::Blocks)]
    ends: Ends,
    /// The most rows that the ratio may be told in; the simplest that is out by less
    /// than a stitch is told, or the nearest.
    #[arg(long, default_value_t = 20)]
    most: u32,
    /// Buttonholes to space along the band.
    #[arg(long)]
    buttons: Option<u32>,
    /// Stitches of one buttonhole.
    #[arg(long, default_value_t = 1, requires = "buttons")]
    hole: u32,
    /// Stitches before the first buttonhole and after the last; without it the ends are
    /// gaps like the others.
    #[arg(long, requires = "buttons")]
    margin: Option<u32>,
}

#[derive(Clone, Copy, Debug, ValueEnum)]
pub(crate) enum Ends {
    /// Half a group at both ends, the nearest to even everywhere.
    Half,
    /// Whole groups at both ends, spread among each other.
    Full,
    /// Whole groups at both ends, the larger first.
    Blocks,
    /// Every group closed by its miss, for an edge that meets itself.
    Round,
}

impl From<Ends> for Spacing {
    fn from(ends: Ends) -> Self {
        match ends {
            Ends::Half => Self::Half,
            Ends::Full => Self::Full,
            Ends::Blocks => Self::Blocks,
            Ends::Round => Self::Round,
        }
    }
}

/// What is picked up along what, once the gauges have had their say.
struct Task {
    rows: Rows,
    stitches: Stitches,
    /// The exact count by the gauges, or the count asked for.
    ideal: Exact,
    length: Option<Length>,
}

pub(crate) fn run(args: &Args, units: Units) -> Result<Answer, Failure> {
    let task = task(args)?;
    let placement = Placement::new(task.rows.get(), task.stitches, args.ends.into())?;
    let ratio = task.ideal.checked_div(task.rows.get().into())?;
    let told = Rate::simplest(ratio, args.most, task.rows, Exact::ONE)?;
    let candidates = rates(ratio, args.most)?;
    let holes = holes(args, task.stitches.get())?;
    let groups = placement.groups();
    let mut json = json!({
        "stitches": task.stitches.get(),
        "rows": task.rows.get(),
        "ideal": fraction(task.ideal),
        "ratio": [told.pick(), told.of()],
        "rates": candidates.iter().map(|c| rate(*c, task.rows)).collect::<Result<Vec<_>, _>>()?,
        "groups": groups.iter().map(group).collect::<Vec<_>>(),
        "drift": fraction(placement.drift()?),
        "words": say(&groups),
    });
    if let (Some(measured), Some(map)) = (task.length, json.as_object_mut()) {
        map.insert("length".into(), length(measured));
    }
    if let (Some(holes), Some(map)) = (&holes, json.as_object_mut()) {
        map.insert("buttonholes".into(), buttonholes(holes));
    }
    Ok(Answer { text: text(&task, told, &groups, holes.as_ref(), units), json })
}

fn task(args: &Args) -> Result<Task, Failure> {
    let Some(gauge) = args.gauge else {
        let missing = || {
            Failure::Input("give --rows and --stitches, or --gauge with a length or --rows".into())
        };
        let rows = Rows::new(args.rows.ok_or_else(missing)?)?;
        let stitches = Stitches::new(args.stitches.ok_or_else(missing)?)?;
        return Ok(Task { rows, stitches, ideal: stitches.get().into(), length: None });
    };
    let rows = match (args.rows, args.length) {
        (Some(rows), _) => Rows::new(rows)?,
        (None, Some(asked)) => gauge.fit_rows(asked, Repeat::any(), Round::HalfUp)?.count,
        (None, None) => {
            return Err(Failure::Input("give a length or --rows beside --gauge".into()));
        }
    };
    let edge = args.length.map_or_else(|| gauge.height_of(rows), Ok)?;
    let band = args.band_gauge.unwrap_or(gauge);
    let plain = args.multiple == 1 && args.extra == 0;
    let repeat = if plain { Repeat::any() } else { Repeat::new(args.multiple, args.extra, 0)? };
    let fitted = band.fit_stitches(edge, repeat, Round::HalfUp)?;
    let stitches = args.stitches.map_or(Ok(fitted.count), Stitches::new)?;
    Ok(Task { rows, stitches, ideal: band.stitches_in(edge)?, length: Some(edge) })
}

fn holes(args: &Args, stitches: u32) -> Result<Option<Holes>, Failure> {
    let Some(buttons) = args.buttons else { return Ok(None) };
    let gaps = match args.margin {
        Some(margin) => Gaps::Margins { first: margin, last: margin },
        None => Gaps::Equal,
    };
    let holes = Buttonholes::new(stitches, buttons, args.hole)?.place(gaps, Leftover::Spread)?;
    Ok(Some(holes))
}

fn group(group: &Group) -> Value {
    let mut told = Map::new();
    told.insert("pick".into(), group.pick.into());
    told.insert("miss".into(), group.miss.into());
    if group.extra > 0 {
        told.insert("extra".into(), group.extra.into());
    }
    told.insert("times".into(), group.times.into());
    told.into()
}

fn rate(candidate: Candidate, rows: Rows) -> Result<Value, Failure> {
    let rate = candidate.rate;
    Ok(json!({
        "ratio": [rate.pick(), rate.of()],
        "kind": candidate.kind,
        "nearest": candidate.nearest,
        "error": fraction(candidate.error_over(rows)?),
    }))
}

fn buttonholes(holes: &Holes) -> Value {
    json!({ "gaps": holes.gaps(), "starts": holes.starts().collect::<Vec<_>>(), "width": holes.width() })
}

fn text(task: &Task, told: Rate, groups: &[Group], holes: Option<&Holes>, units: Units) -> String {
    let along = match task.length {
        Some(measured) => format!("{} rows ({})", task.rows, say_length(measured, units)),
        None => format!("{} rows", task.rows),
    };
    let picked = format!("pick up {} stitches along {along}, about {told} rows:", task.stitches);
    let mut lines = vec![picked, say(groups)];
    if let Some(holes) = holes {
        lines.extend([say_holes(holes), CAUTION.into()]);
    }
    lines.join("\n")
}

const CAUTION: &str = "buttons are small parts: for a child under three leave them off, \
                       or follow your local rules";

fn say_holes(holes: &Holes) -> String {
    let starts: Vec<String> = holes.starts().map(|start| start.to_string()).collect();
    let width = match holes.width() {
        0 | 1 => "1 stitch".into(),
        width => format!("{width} stitches"),
    };
    format!("buttonholes of {width}, starting at stitches {}", starts.join(", "))
}
