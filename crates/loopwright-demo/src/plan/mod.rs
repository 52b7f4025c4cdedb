//! Plan files: our own keys for a wearer, the knitting, the gauge and the choices.

mod gauges;
mod reader;
mod yarn;

use crate::Units;
use crate::answer::Failure;
use crate::input::Source;
use loopwright::garment::{Body, BodyMeasure, DropShoulder, DropShoulderChoices, YarnFacts};
use loopwright::gauge::{Exact, Length, Reading, Treatment};
use loopwright::pattern::{Bed, Craft};
use loopwright::shaping::Order;
use reader::Section;
use std::path::Path;

/// What a plan file says.
pub(crate) struct Plan {
    pub(crate) title: String,
    pub(crate) garment: DropShoulder,
    pub(crate) craft: Craft,
    /// The units the plan wants its sheet in.
    pub(crate) units: Units,
    /// What the swatch had been through, where there was one.
    pub(crate) swatch: Option<Treatment>,
    /// Its readings that are far from the others.
    pub(crate) doubtful: Vec<Reading>,
    /// The yarn, where the plan tells of one.
    pub(crate) yarn: Option<YarnFacts>,
}

const TABLES: [&str; 10] =
    ["title", "garment", "units", "swatch", "yarn", "wearer", "ease", "knitting", "gauge", "shape"];
const SHAPE: [&str; 10] = [
    "hem",
    "cuff",
    "neckband",
    "neck_width",
    "neck_depth",
    "neck_stretch",
    "shoulder_drop",
    "shoulders",
    "sleeve_order",
    "sleeve_plain",
];

/// Reads the plan at `path`.
pub(crate) fn read(path: &Path) -> Result<Plan, Failure> {
    let source = Source::open(path)?;
    let table = reader::table(&source)?;
    let whole = Section::whole(&source, &table, &TABLES)?;
    let title = whole.required("title", "\"My pullover\"")?;
    let construction: String = whole.required("garment", "\"drop-shoulder\"")?;
    if construction != "drop-shoulder" {
        return Err(whole
            .refuse("garment", format!("{construction:?} is not known; write \"drop-shoulder\"")));
    }
    let units = whole.read("units", units)?.unwrap_or(Units::Cm);
    let body = wearer(&whole)?;
    let craft = knitting(&whole)?;
    let gauges = gauges::read(&whole)?;
    let yarn = yarn::read(&whole, gauges.relaxation)?;
    let choices = choices(&whole, craft)?;
    let garment = DropShoulder::new(body, gauges.fabrics, craft).choose(choices);
    Ok(Plan {
        title,
        garment,
        craft,
        units,
        swatch: gauges.treatment,
        doubtful: gauges.doubtful,
        yarn,
    })
}

/// Where in a plan the measures and choices stand that a refusal speaks of.
pub(crate) fn places(error: &loopwright::garment::Error) -> Vec<String> {
    let place = |key: &str| match key {
        _ if key.starts_with("ease.") => key.to_owned(),
        "rib" => "gauge.rib".to_owned(),
        _ if SHAPE.contains(&key) => format!("shape.{key}"),
        _ => format!("wearer.{key}"),
    };
    let measure = error.measure().map(BodyMeasure::key);
    let bed = error.is_off_bed().then(|| "knitting.bed".to_owned());
    error
        .keys()
        .iter()
        .copied()
        .chain(error.choice())
        .chain(measure)
        .map(place)
        .chain(bed)
        .collect()
}

fn wearer(whole: &Section<'_>) -> Result<Body, Failure> {
    let mut keys = vec!["name", "age_years"];
    keys.extend(BodyMeasure::ALL.map(BodyMeasure::key));
    let section = whole.section("wearer", &keys)?;
    section.optional::<String>("name")?;
    let mut body = Body::new();
    for measure in BodyMeasure::ALL {
        let key = measure.key();
        let read = |text: &str| -> Result<Length, String> {
            let length =
                text.parse().map_err(|error: loopwright::gauge::Error| error.to_string())?;
            measure.check(length).map_err(|error| error.to_string())
        };
        if let Some(length) = section.read(key, read)? {
            body = body.with(measure, length).map_err(|error| section.refuse(key, error))?;
        }
    }
    for (measure, example) in [
        (BodyMeasure::Chest, "\"94 cm\""),
        (BodyMeasure::UpperArm, "\"30 cm\""),
        (BodyMeasure::Wrist, "\"16 cm\""),
        (BodyMeasure::BodyLength, "\"60 cm\""),
        (BodyMeasure::Head, "\"56 cm\""),
    ] {
        body.get(measure).map_err(|_| section.missing(measure.key(), example))?;
    }
    body.neck_to_wrist().map_err(|_| {
        section.refuse("neck_to_wrist", "is missing; give it, or both arm_length and cross_back")
    })?;
    Ok(match section.optional("age_years")? {
        Some(years) => body.aged(years),
        None => body,
    })
}

fn knitting(whole: &Section<'_>) -> Result<Craft, Failure> {
    let section = whole.section("knitting", &["craft", "bed"])?;
    let craft: String = section.required("craft", "\"machine\"")?;
    match craft.as_str() {
        "hand" if section.optional::<u32>("bed")?.is_some() => Err(section
            .refuse("bed", "is only for machine knitting; leave it out for craft = \"hand\"")),
        "hand" => Ok(Craft::Hand),
        "machine" => {
            let read = |text: &str| -> Result<Bed, String> {
                let needles = text
                    .parse()
                    .map_err(|_| format!("{text:?} is not a whole number of needles"))?;
                Bed::of_needles(needles).map_err(|error| error.to_string())
            };
            section
                .read("bed", read)?
                .map(Craft::Machine)
                .ok_or_else(|| section.missing("bed", "200"))
        }
        other => Err(section
            .refuse("craft", format!("{other:?} is not known; write \"machine\" or \"hand\""))),
    }
}

fn choices(whole: &Section<'_>, craft: Craft) -> Result<DropShoulderChoices, Failure> {
    let mut choices = DropShoulderChoices::usual(craft);
    let ease = whole.section("ease", &["chest", "upper_arm", "wrist"])?;
    set(&ease, "chest", &mut choices.ease.chest)?;
    set(&ease, "upper_arm", &mut choices.ease.upper_arm)?;
    set(&ease, "wrist", &mut choices.ease.wrist)?;
    let shape = whole.section("shape", &SHAPE)?;
    set(&shape, "hem", &mut choices.hem)?;
    set(&shape, "cuff", &mut choices.cuff)?;
    set(&shape, "neckband", &mut choices.neckband)?;
    set(&shape, "shoulder_drop", &mut choices.shoulder_drop)?;
    set(&shape, "sleeve_plain", &mut choices.sleeve_plain)?;
    choices.neck_width = shape.optional("neck_width")?;
    choices.neck_depth = shape.optional("neck_depth")?;
    choices.neck_stretch = shape.optional::<Exact>("neck_stretch")?.unwrap_or(choices.neck_stretch);
    choices.shoulders = shape.optional("shoulders")?.unwrap_or(choices.shoulders);
    choices.sleeve_order = shape.read("sleeve_order", order)?.unwrap_or(choices.sleeve_order);
    Ok(choices)
}

fn set(section: &Section<'_>, key: &str, choice: &mut Length) -> Result<(), Failure> {
    if let Some(given) = section.optional(key)? {
        *choice = given;
    }
    Ok(())
}

fn order(text: &str) -> Result<Order, String> {
    text.parse().map_err(|why: loopwright::gauge::Error| why.to_string())
}

fn units(text: &str) -> Result<Units, String> {
    match text {
        "cm" => Ok(Units::Cm),
        "in" => Ok(Units::In),
        "both" => Ok(Units::Both),
        other => Err(format!("{other:?} is not known; write \"cm\", \"in\" or \"both\"")),
    }
}
