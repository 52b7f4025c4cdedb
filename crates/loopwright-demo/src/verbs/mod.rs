//! One module a verb: its arguments, and the call into the library.

mod count;
mod curve;
mod draft;
mod fit;
mod gauge;
mod knit;
mod listing;
mod pickup;
mod regauge;
mod seam;
mod slope;
mod space;
mod taper;
mod turn;
mod yarn;

use crate::Units;
use crate::answer::{Answer, Failure};
use clap::Subcommand;

#[derive(Debug, Subcommand)]
pub(crate) enum Verb {
    /// Swatch readings to a gauge with its error.
    Gauge(gauge::Args),
    /// A length to stitches or rows, or a count back to its length.
    Count(count::Args),
    /// A published count at one gauge, at another.
    Regauge(regauge::Args),
    /// More or fewer stitches, evenly over a row.
    Space(space::Args),
    /// An edge from one width to another over rows.
    Taper(taper::Args),
    /// Stepped shoulders and hems.
    Slope(slope::Args),
    /// An outline as the staircase nearest to it.
    Curve(curve::Args),
    /// Short rows: wedges, darts and turned heels.
    Turn(turn::Args),
    /// Stitches picked up along an edge.
    Pickup(pickup::Args),
    /// Two edges and how they are joined.
    Seam(seam::Args),
    /// A file of counts and demands, rounded together.
    Fit(fit::Args),
    /// Yarn numbers, and how much yarn.
    Yarn(yarn::Args),
    /// A plan file to instructions.
    Draft(draft::Args),
    /// Pieces of one's own as JSON of steps, knitted and told.
    Knit(knit::Args),
}

pub(crate) fn run(verb: &Verb, asked: Option<Units>) -> Result<Answer, Failure> {
    let units = asked.unwrap_or(Units::Cm);
    match verb {
        Verb::Gauge(args) => gauge::run(args, units),
        Verb::Count(args) => count::run(args, units),
        Verb::Regauge(args) => regauge::run(args, units),
        Verb::Space(args) => space::run(args, units),
        Verb::Taper(args) => taper::run(args, units),
        Verb::Slope(args) => slope::run(args, units),
        Verb::Curve(args) => curve::run(args, units),
        Verb::Turn(args) => turn::run(args, units),
        Verb::Pickup(args) => pickup::run(args, units),
        Verb::Seam(args) => seam::run(args, units),
        Verb::Fit(args) => fit::run(args, units),
        Verb::Yarn(args) => yarn::run(args, asked),
        Verb::Draft(args) => draft::run(args, asked),
        Verb::Knit(args) => knit::run(args),
    }
}
