mod buttons;
mod one;
mod several;
mod tell;

use crate::Units;
use crate::answer::{Answer, Failure};
use crate::choice::choice;
use loopwright::gauge::{Gauge, Length, Repeat, Rows, Stitches};
use loopwright::seams::PickUpSpacing;

#[derive(Debug, clap::Args)]
pub(crate) struct Args {
    /// The length of the edge, such as "50 cm"; or give --rows.
    #[arg(conflicts_with = "rows")]
    length: Option<Length>,
    /// The rows of the edge, or the stitches of a bound-off edge.
    #[arg(long)]
    rows: Option<Rows>,
    /// The count to pick up; otherwise it follows from the gauges.
    #[arg(long)]
    stitches: Option<Stitches>,
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
    #[arg(long, value_parser = choice::<PickUpSpacing>(), default_value = "blocks")]
    ends: PickUpSpacing,
    /// An edge of a line picked up in one go, once for each edge, in order: "40 st",
    /// "88 rows", or the steps of a slant or curve such as "6 st, 2 rows 3 st x4, 40 rows".
    #[arg(long, requires = "gauge", conflicts_with_all = ["length", "rows"])]
    along: Vec<String>,
    /// A corner stitch shared by this edge of the line and the next, counted from 1.
    #[arg(long, requires = "along")]
    corner_after: Vec<usize>,
    /// Pick up both halves of the line alike.
    #[arg(long, requires = "along")]
    mirrored: bool,
    /// The most rows that the ratio may be told in; the simplest that is out by less
    /// than a stitch is told, or the nearest.
    #[arg(long, default_value_t = 20)]
    most: u32,
    /// Buttonholes to space along the band.
    #[arg(long)]
    buttons: Option<u32>,
    /// Stitches of one buttonhole.
    #[arg(long, default_value_t = Stitches::ONE, requires = "buttons")]
    hole: Stitches,
    /// Stitches before the first buttonhole and after the last; without it the ends are
    /// gaps like the others.
    #[arg(long, requires = "buttons")]
    margin: Option<Stitches>,
    /// Stitches before the first buttonhole, where the two margins differ.
    #[arg(long, requires = "buttons")]
    first_margin: Option<Stitches>,
    /// Stitches after the last buttonhole, where the two margins differ.
    #[arg(long, requires = "buttons")]
    last_margin: Option<Stitches>,
}

pub(crate) fn run(args: &Args, units: Units) -> Result<Answer, Failure> {
    match args.gauge {
        Some(gauge) if !args.along.is_empty() => several::run(args, gauge),
        _ => one::run(args, units),
    }
}

fn repeat(args: &Args) -> Result<Repeat, Failure> {
    let plain = args.multiple == 1 && args.extra == 0;
    Ok(if plain { Repeat::any() } else { Repeat::new(args.multiple, args.extra, 0)? })
}

fn too_little() -> Failure {
    let wanted = "give --rows and --stitches, or --gauge with a length, --rows or --along";
    Failure::Input(wanted.into())
}
