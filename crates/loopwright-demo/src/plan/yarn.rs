//! The table `yarn` of a plan.

use super::reader::Section;
use crate::answer::Failure;
use loopwright::garment::YarnFacts;
use loopwright::gauge::{Exact, Length, Reading, ReadingDirection, Stitches};
use loopwright::yardage::{Margin, Mass, Package, RelaxationState, Unravelled, Weighed, Yarn};

const KEYS: [&str; 8] =
    ["name", "count", "strands", "unravelled", "weighed", "package", "margin", "owned"];

pub(super) fn read(
    whole: &Section<'_>,
    relaxation: RelaxationState,
) -> Result<Option<YarnFacts>, Failure> {
    let section = whole.section("yarn", &KEYS)?;
    if !section.is_given() {
        return Ok(None);
    }
    section.optional::<String>("name")?;
    let mut yarn: Yarn = section.required("count", "\"2/28 Nm\"")?;
    if let Some(strands) = section.optional("strands")? {
        yarn = yarn.held(strands).map_err(|error| section.refuse("strands", error))?;
    }
    let mut facts = YarnFacts::new(yarn);
    facts.relaxation = relaxation;
    for (span, text) in section.texts("unravelled")? {
        facts
            .unravelled
            .push(unravelled(text).map_err(|why| section.refuse_at(span, "unravelled", why))?);
    }
    for (span, text) in section.texts("weighed")? {
        facts.weighed.push(weighed(text).map_err(|why| section.refuse_at(span, "weighed", why))?);
    }
    let said = |error: loopwright::yardage::Error| error.to_string();
    facts.package = section.read("package", |text| Package::balls(text).map_err(said))?;
    // A bare number is per cent too.
    let margin = |text: &str| match text.parse::<Exact>() {
        Ok(percent) => Margin::percent(percent).map_err(said),
        Err(_) => text.parse().map_err(said),
    };
    if let Some(margin) = section.read("margin", margin)? {
        facts.margin = margin;
    }
    for (span, text) in section.texts("owned")? {
        let owned = text
            .parse()
            .map_err(|error: loopwright::yardage::Error| section.refuse_at(span, "owned", error))?;
        facts.owned.push(owned);
    }
    Ok(Some(facts))
}

/// "100 st = 148 cm", read to the millimetre.
fn unravelled(text: &str) -> Result<Unravelled, String> {
    let reading: Reading =
        text.parse().map_err(|error: loopwright::gauge::Error| error.to_string())?;
    match (reading.direction(), Stitches::try_from(reading.count())) {
        (ReadingDirection::Stitches, Ok(stitches)) => {
            let step = Length::mm(1).map_err(|error| error.to_string())?;
            Unravelled::new(stitches, reading.span(), step).map_err(|error| error.to_string())
        }
        _ => Err(format!(
            "{text:?} is not whole stitches and their yarn; write such as \"100 st = 148 cm\""
        )),
    }
}

/// "2400 st = 11.2 g", read to a tenth of a gram.
fn weighed(text: &str) -> Result<Weighed, String> {
    let form =
        || format!("{text:?} is not stitches and their weight; write such as \"2400 st = 11.2 g\"");
    let (stitches, mass) = text.split_once('=').ok_or_else(form)?;
    let stitches = stitches.trim().strip_suffix("st").ok_or_else(form)?;
    let stitches = stitches.trim().parse::<Stitches>().map_err(|_| form())?;
    let mass: Mass =
        mass.trim().parse().map_err(|error: loopwright::yardage::Error| error.to_string())?;
    let tenth = Exact::new(1, 10).map_err(|error| error.to_string())?;
    let step = Mass::from_grams(tenth).map_err(|error| error.to_string())?;
    Weighed::new(stitches, mass, step).map_err(|error| error.to_string())
}
