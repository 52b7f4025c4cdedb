//! The tables `gauge` and `swatch` of a plan.

use super::reader::Section;
use crate::answer::Failure;
use loopwright::garment::Fabrics;
use loopwright::gauge::{Exact, Gauge, Length, Reading, Swatch, Treatment};
use loopwright::yardage::RelaxationState;

/// The gauges of the fabrics, and what the swatch had been through.
pub(super) struct Gauges {
    pub(super) fabrics: Fabrics,
    pub(super) treatment: Option<Treatment>,
    /// Readings that are far from the others.
    pub(super) doubtful: Vec<Reading>,
    pub(super) relaxation: RelaxationState,
}

pub(super) fn read(whole: &Section<'_>) -> Result<Gauges, Failure> {
    let gauge = whole.section("gauge", &["plain", "rib", "rib_repeat"])?;
    let swatch = swatch(whole)?;
    let stated: Option<Gauge> = gauge.optional("plain")?;
    let fabrics = match (&swatch, stated) {
        (Some(_), Some(_)) => {
            return Err(
                gauge.refuse("plain", "is given, and a [swatch] too; leave one of them out")
            );
        }
        (Some(swatch), None) => {
            Fabrics::swatched(swatch.gauge().map_err(|error| whole.refuse("swatch", error))?)
        }
        (None, Some(stated)) => Fabrics::plain(stated),
        (None, None) => return Err(gauge.missing("plain", "\"28 x 40 / 10 cm\"")),
    };
    let rib = gauge.optional("rib")?.unwrap_or(fabrics.plain);
    let repeat = gauge.read("rib_repeat", rib_repeat)?.unwrap_or(fabrics.rib_repeat);
    let doubtful = match &swatch {
        Some(swatch) => swatch.outliers()?.into_iter().map(|outlier| outlier.reading).collect(),
        None => Vec::new(),
    };
    let treatment = swatch.map(|swatch| swatch.treatment());
    let relaxation = match treatment {
        Some(Treatment::Washed) => RelaxationState::Wet,
        Some(Treatment::Rested) => RelaxationState::Dry,
        _ => RelaxationState::Unknown,
    };
    Ok(Gauges { fabrics: fabrics.ribbed(repeat, rib), treatment, doubtful, relaxation })
}

fn swatch(whole: &Section<'_>) -> Result<Option<Swatch>, Failure> {
    let section =
        whole.section("swatch", &["readings", "treatment", "counted_to", "measured_to"])?;
    if !section.is_given() {
        return Ok(None);
    }
    let mut readings: Vec<Reading> = Vec::new();
    for (span, text) in section.texts("readings")? {
        readings.push(text.parse().map_err(|error| section.refuse_at(span, "readings", error))?);
    }
    let treatment: Treatment = section.required("treatment", "\"washed\"")?;
    let mut swatch =
        Swatch::new(readings, treatment).map_err(|error| section.refuse("readings", error))?;
    if let Some(step) = section.optional::<Exact>("counted_to")? {
        swatch = swatch.counted_to(step).map_err(|error| section.refuse("counted_to", error))?;
    }
    if let Some(step) = section.optional::<Length>("measured_to")? {
        swatch = swatch.measured_to(step).map_err(|error| section.refuse("measured_to", error))?;
    }
    Ok(Some(swatch))
}

fn rib_repeat(text: &str) -> Result<(u8, u8), String> {
    let parsed = text
        .split_once('x')
        .and_then(|(knit, purl)| Some((knit.trim().parse().ok()?, purl.trim().parse().ok()?)));
    parsed.filter(|(knit, purl)| (1..=9).contains(knit) && (1..=9).contains(purl)).ok_or_else(
        || format!("{text:?} is no rib; write knit x purl stitches from 1 to 9 each, such as 2x2"),
    )
}
