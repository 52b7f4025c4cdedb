//! Loop length from a gauge alone, through the published loop constants.

use crate::constants::{Fabric, LoopConstants};
use crate::loops::Source;
use crate::root::sqrt;
use crate::{Error, LinearDensity, LoopLength, Relaxation, Spread, Structure, Tightness};
use alloc::format;
use loopwright_gauge::{Exact, Gauge, Length, Round, SwatchGauge};

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
/// use loopwright_yardage::{Fabric, Relaxation, Structure, loop_from_gauge};
/// let fabric = Fabric::new(Structure::Plain, Relaxation::Wet);
/// let loops = loop_from_gauge("5x7/1in".parse::<Gauge>()?, fabric, None)?;
/// assert!(loops.length().holds("20.32 mm".parse()?));
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
pub fn loop_from_gauge(
    gauge: impl Into<SwatchGauge>,
    fabric: Fabric,
    yarn: Option<LinearDensity>,
) -> Result<LoopLength, Error> {
    let SwatchGauge { stitches, rows, .. } = gauge.into();
    let (loose, tight) = (
        Gauge::from_parts(stitches.low(), rows.low()),
        Gauge::from_parts(stitches.high(), rows.high()),
    );
    loop_from_gauges(loose, Gauge::from_parts(stitches.value(), rows.value()), tight, fabric, yarn)
}

/// As [`loop_from_gauge`], from three gauges: `loose` has the fewest stitches and rows,
/// `tight` the most.
///
/// # Errors
/// As [`loop_from_gauge`].
pub fn loop_from_gauges(
    loose: Gauge,
    likely: Gauge,
    tight: Gauge,
    fabric: Fabric,
    yarn: Option<LinearDensity>,
) -> Result<LoopLength, Error> {
    let at = routes(likely, relaxation_likely(fabric))?.likely;
    let (mut low, mut high) = (at, at);
    for state in relaxations(fabric) {
        low = low.min(routes(tight, state)?.low);
        high = high.max(routes(loose, state)?.high);
    }
    let source = source(at, yarn)?;
    let percent = if source == Source::Model { MEASURED_PERCENT } else { EXTRAPOLATED_PERCENT };
    let (low, high) = (
        low.min(at.scaled(Exact::new(100 - percent, 100)?)?),
        high.max(at.scaled(Exact::new(100 + percent, 100)?)?),
    );
    LoopLength::new(Spread::new(low, at, high)?, None, source)
}

/// Unknown relaxation lies between dry and full, most likely wet.
fn relaxation_likely(fabric: Fabric) -> Fabric {
    match (fabric.structure, fabric.relaxation) {
        (Structure::Plain, Relaxation::Unknown) => Fabric { relaxation: Relaxation::Wet, ..fabric },
        _ => nearest_row(fabric),
    }
}

fn relaxations(fabric: Fabric) -> impl Iterator<Item = Fabric> {
    let spread = fabric.structure == Structure::Plain && fabric.relaxation == Relaxation::Unknown;
    let states = if spread {
        [Relaxation::Dry, Relaxation::Full]
    } else {
        let row = nearest_row(fabric).relaxation;
        [row, row]
    };
    states.into_iter().map(move |relaxation| Fabric { relaxation, ..fabric })
}

/// The row there is: the ribs and interlock were found in one state only.
fn nearest_row(fabric: Fabric) -> Fabric {
    let relaxation = match fabric.structure {
        Structure::Plain => fabric.relaxation,
        Structure::Rib1x1 | Structure::Rib2x1 => Relaxation::Finished,
        Structure::Interlock => Relaxation::Full,
    };
    Fabric { relaxation, ..fabric }
}

struct Routes {
    low: Length,
    likely: Length,
    high: Length,
}

fn routes(gauge: Gauge, fabric: Fabric) -> Result<Routes, Error> {
    let row = LoopConstants::find(fabric.structure, fabric.relaxation);
    let missing =
        || Error::missing("the loop model", format!("constants for {}", fabric.structure));
    let row = row.ok_or_else(missing)?;
    match (row.kc(), row.kw()) {
        (Some(kc), Some(kw)) => by_direction(gauge, kc, kw),
        _ => by_area(gauge, row.ks().ok_or_else(missing)?),
    }
}

fn by_direction(gauge: Gauge, kc: Spread<Exact>, kw: Spread<Exact>) -> Result<Routes, Error> {
    let along = |k: Exact, per_mm: Exact| -> Result<Length, Error> {
        Ok(Length::from_millimetres(k.checked_div(per_mm)?)?)
    };
    let wales = kw.map(|k| along(k, gauge.stitches_per_mm()))?;
    let courses = kc.map(|k| along(k, gauge.rows_per_mm()))?;
    let likely = wales.likely().checked_add(courses.likely())?.scaled(Exact::new(1, 2)?)?;
    Ok(Routes {
        low: wales.low().min(courses.low()),
        likely,
        high: wales.high().max(courses.high()),
    })
}

fn by_area(gauge: Gauge, ks: Spread<Exact>) -> Result<Routes, Error> {
    let per_mm2 = gauge.stitches_per_mm().checked_mul(gauge.rows_per_mm())?;
    let root = |k: Exact, round| -> Result<Length, Error> {
        Ok(Length::from_millimetres(sqrt(k.checked_div(per_mm2)?, NANOMETRES, round)?)?)
    };
    Ok(Routes {
        low: root(ks.low(), Round::Floor)?,
        likely: root(ks.likely(), Round::HalfUp)?,
        high: root(ks.high(), Round::Ceil)?,
    })
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
