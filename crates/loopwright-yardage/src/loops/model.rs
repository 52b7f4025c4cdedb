//! Loop length from a gauge alone, through the published loop constants.

use crate::Source;
use crate::grid::sqrt;
use crate::grid::{self, outwards};
use crate::loops::length_times;
use crate::{
    Error, LinearDensity, LoopLength, LoopsPerArea, RelaxationState, Spread, Structure, Tightness,
};
use crate::{LoopConstants, RelaxedFabric};
use alloc::format;
use loopwright_gauge::{Exact, Gauge, Length, Round, Rows, Stitches, SwatchGauge};

/// Roots are held to a nanometre of loop, rounded outwards at the ends.
const NANOMETRES: u32 = 1_000_000;

/// Within the yarns the constants were measured on, the model is held to the ±8 %
/// within which it met three mill fabrics of known gauge and loop length.
const MEASURED_PERCENT: i64 = 8;

/// Beyond them, twice that: a working figure, there being no published data on
/// hand-knits.
const EXTRAPOLATED_PERCENT: i64 = 16;

/// The thickest yarn the constants were measured on: a few tens of tex.
const MEASURED_TEX: i64 = 100;

/// The loop length of a fabric from its gauge.
///
/// The wales give kw/w, the courses kc/c, and the loops per area the root of ks/S.
/// Where kc and kw are known, likely is the mean of the first two, an exact
/// fraction, with the root between them; otherwise it is the root, to the nearest
/// nanometre. Low and high hold
/// every route at both ends of its constant, and at least 8 % either side of likely;
/// at least 16 % where the yarn is above 100 tex, the tightness factor outside 1.2 to
/// 2.05 √tex/mm, or no yarn is given, because there the constants are extrapolated.
///
/// The gauge must be that of the relaxed fabric, a rib's with all its stitches
/// counted over its drawn-in width. A gauge that was measured on a swatch brings its own
/// spread in: low is of the tightest it may be, high of the loosest.
///
/// # Errors
/// When no constants were found for the fabric, or the loop is out of bounds.
///
/// # Examples
/// Hand-knit plain at 5 stitches and 7 rows to the inch: 45 stitches were counted in
/// a yard of yarn (knitnmore.blogspot.com, 2009), 20.32 mm a stitch.
/// ```
/// use loopwright_gauge::Gauge;
/// use loopwright_yardage::{RelaxedFabric, RelaxationState, Structure, loop_from_gauge};
/// let fabric = RelaxedFabric::new(Structure::Plain, RelaxationState::Wet);
/// let loops = loop_from_gauge("5x7/1in".parse::<Gauge>()?, fabric, None)?;
/// assert!(loops.length().holds("20.32 mm".parse()?));
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
pub fn loop_from_gauge(
    gauge: impl Into<SwatchGauge>,
    fabric: RelaxedFabric,
    yarn: Option<LinearDensity>,
) -> Result<LoopLength, Error> {
    let gauge: SwatchGauge = gauge.into();
    let (stitches, rows) = (gauge.stitches(), gauge.rows()?);
    let (loose, tight) = (
        Gauge::from_parts(stitches.low(), rows.low()),
        Gauge::from_parts(stitches.high(), rows.high()),
    );
    loop_from_gauges(
        loose,
        Gauge::from_parts(stitches.likely(), rows.likely()),
        tight,
        fabric,
        yarn,
    )
}

/// As [`loop_from_gauge`], from three gauges: `loose` has the fewest stitches and rows,
/// `tight` the most.
///
/// # Errors
/// As [`loop_from_gauge`].
///
/// # Examples
/// ```
/// use loopwright_yardage::{RelaxedFabric, loop_from_gauge, loop_from_gauges};
/// let jersey: RelaxedFabric = "plain, wet".parse()?;
/// let (loose, likely, tight) =
///     ("27x39/10cm".parse()?, "28x40/10cm".parse()?, "29x41/10cm".parse()?);
/// let doubted = loop_from_gauges(loose, likely, tight, jersey, None)?.length();
/// let sure = loop_from_gauge(likely, jersey, None)?.length();
/// assert!(doubted.low() <= sure.low() && sure.high() <= doubted.high());
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
pub fn loop_from_gauges(
    loose: Gauge,
    likely: Gauge,
    tight: Gauge,
    fabric: RelaxedFabric,
    yarn: Option<LinearDensity>,
) -> Result<LoopLength, Error> {
    let at = routes(likely, relaxation_likely(fabric))?.likely;
    let (mut low, mut high) = (at, at);
    for state in relaxations(fabric) {
        low = low.min(routes(tight, state)?.low);
        high = high.max(routes(loose, state)?.high);
    }
    finding(low, at, high, yarn)
}

/// A finding of the model, widened to what the model is trusted to.
fn finding(
    low: Length,
    at: Length,
    high: Length,
    yarn: Option<LinearDensity>,
) -> Result<LoopLength, Error> {
    let source = source(at, yarn)?;
    let percent = if source == Source::Model { MEASURED_PERCENT } else { EXTRAPOLATED_PERCENT };
    let (low, high) = (
        low.min(length_times(at, Exact::new(100 - percent, 100)?, Round::Floor)?),
        high.max(length_times(at, Exact::new(100 + percent, 100)?, Round::Ceil)?),
    );
    LoopLength::new(Spread::new(low, at, high)?, None, source)
}

/// Unknown relaxation lies between dry and full, most likely wet.
pub(crate) fn relaxation_likely(fabric: RelaxedFabric) -> RelaxedFabric {
    match (fabric.structure, fabric.relaxation) {
        (Structure::Plain, RelaxationState::Unknown) => {
            RelaxedFabric { relaxation: RelaxationState::Wet, ..fabric }
        }
        _ => nearest_row(fabric),
    }
}

pub(crate) fn relaxations(fabric: RelaxedFabric) -> impl Iterator<Item = RelaxedFabric> {
    let spread =
        fabric.structure == Structure::Plain && fabric.relaxation == RelaxationState::Unknown;
    let states = if spread {
        [RelaxationState::Dry, RelaxationState::Full]
    } else {
        let row = nearest_row(fabric).relaxation;
        [row, row]
    };
    states.into_iter().map(move |relaxation| RelaxedFabric { relaxation, ..fabric })
}

/// The row there is: the ribs and interlock were found in one state only.
fn nearest_row(fabric: RelaxedFabric) -> RelaxedFabric {
    let relaxation = match fabric.structure {
        Structure::Plain => fabric.relaxation,
        Structure::Rib1x1 | Structure::Rib2x1 => RelaxationState::Finished,
        Structure::Interlock => RelaxationState::Full,
    };
    RelaxedFabric { relaxation, ..fabric }
}

struct Routes {
    low: Length,
    likely: Length,
    high: Length,
}

fn routes(gauge: Gauge, fabric: RelaxedFabric) -> Result<Routes, Error> {
    let row = LoopConstants::find(fabric.structure, fabric.relaxation);
    let row = row.ok_or_else(|| missing(fabric))?;
    match (row.kc(), row.kw()) {
        (Some(kc), Some(kw)) => by_direction(gauge, kc, kw),
        _ => by_area(gauge, row.ks().ok_or_else(|| missing(fabric))?),
    }
}

fn by_direction(gauge: Gauge, kc: Spread<Exact>, kw: Spread<Exact>) -> Result<Routes, Error> {
    let along = |k: Exact, per_mm: Exact, round| grid::LENGTH.quotient(k, per_mm, round);
    let wales = outwards(kw, |k, round| along(k, gauge.per_mm::<Stitches>()?, round))?;
    let courses = outwards(kc, |k, round| along(k, gauge.per_mm::<Rows>()?, round))?;
    let both = grid::LENGTH.sum(wales.likely(), courses.likely(), Round::HalfUp)?;
    let likely = grid::LENGTH.product(both, Exact::new(1, 2)?, Round::HalfUp)?;
    Ok(Routes {
        low: Length::from_millimetres(wales.low().min(courses.low()))?,
        likely: Length::from_millimetres(likely)?,
        high: Length::from_millimetres(wales.high().max(courses.high()))?,
    })
}

fn by_area(gauge: Gauge, ks: Spread<Exact>) -> Result<Routes, Error> {
    let root = |k: Exact, round| -> Result<Length, Error> {
        let wide = grid::SQUARE.quotient(k, gauge.per_mm::<Stitches>()?, round)?;
        let square = grid::SQUARE.quotient(wide, gauge.per_mm::<Rows>()?, round)?;
        Ok(Length::from_millimetres(sqrt(square, NANOMETRES, round)?)?)
    };
    Ok(Routes {
        low: root(ks.low(), Round::Floor)?,
        likely: root(ks.likely(), Round::HalfUp)?,
        high: root(ks.high(), Round::Ceil)?,
    })
}

/// The loop length of a fabric from its loops per area alone, `l² = ks/S`.
///
/// Likely to the nearest nanometre; low and high hold both ends of the area constant and
/// at least as much either side of likely as [`loop_from_gauge`] does.
///
/// # Errors
/// When no constants were found for the fabric, or the loop is out of bounds.
///
/// # Examples
/// Chart A of a mill (textileclothinginfo.blogspot.com, 2015): 233.3 loops in a square
/// centimetre of a finished jersey of Ne 18, knitted at 2.94 mm.
/// ```
/// use loopwright_yardage::{
///     RelaxedFabric, LoopsPerArea, RelaxationState, Structure, loop_from_loops_per_area,
/// };
/// let jersey = RelaxedFabric::new(Structure::Plain, RelaxationState::Finished);
/// let counted = LoopsPerArea::per_cm2("233.3".parse()?)?;
/// let loops = loop_from_loops_per_area(counted, jersey, Some("18 Ne".parse()?))?;
/// assert!(loops.length().holds("2.94 mm".parse()?));
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
pub fn loop_from_loops_per_area(
    counted: LoopsPerArea,
    fabric: RelaxedFabric,
    yarn: Option<LinearDensity>,
) -> Result<LoopLength, Error> {
    let at = counted.loop_at(ks(relaxation_likely(fabric))?.likely(), Round::HalfUp)?;
    let (mut low, mut high) = (at, at);
    for state in relaxations(fabric) {
        let ks = ks(state)?;
        low = low.min(counted.loop_at(ks.low(), Round::Floor)?);
        high = high.max(counted.loop_at(ks.high(), Round::Ceil)?);
    }
    finding(low, at, high, yarn)
}

/// The area constant of a fabric, or of the state it was found in.
pub(crate) fn ks(fabric: RelaxedFabric) -> Result<Spread<Exact>, Error> {
    let row = LoopConstants::find(fabric.structure, fabric.relaxation);
    row.and_then(LoopConstants::ks).ok_or_else(|| missing(fabric))
}

fn missing(fabric: RelaxedFabric) -> Error {
    Error::missing("the loop model", format!("constants for {}", fabric.structure))
}

fn source(loop_length: Length, yarn: Option<LinearDensity>) -> Result<Source, Error> {
    let Some(yarn) = yarn else { return Ok(Source::Extrapolated) };
    let tightness = Tightness::new(yarn, loop_length)?;
    let (slackest, tightest) = (Exact::new(12, 10)?, Exact::new(205, 100)?);
    let measured = yarn.tex() <= Exact::literal(MEASURED_TEX, 1)
        && tightness.is_at_least(slackest)?
        && tightness.is_at_most(tightest)?;
    Ok(if measured { Source::Model } else { Source::Extrapolated })
}
