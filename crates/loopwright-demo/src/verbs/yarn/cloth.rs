//! What the fabric weighs, how many loops lie in it, and how tight it is.

use super::{Failure, LinearDensity, Told, evidence};
use crate::Units;
use loopwright::gauge::{Exact, Round};
use loopwright::yardage::{
    ArealMass, Handle, LoopLength, LoopsPerArea, Spread, Structure, Tightness,
};
use serde_json::{Map, Value, json};

pub(super) fn answer(
    args: &super::Args,
    yarn: LinearDensity,
    units: Units,
) -> Result<Told, Failure> {
    let (loops, others) = args.evidence.loops(yarn)?;
    let Told { text: how, mut json } = evidence::told(&loops, &others);
    let fabric = args.evidence.fabric();
    let area = args.evidence.loops_per_area(&loops)?;
    let mass = mass(&area, &loops, yarn)?;
    let tightness = Tightness::new(yarn, loops.length().likely())?;
    let tight = tightness.thousandths(Round::HalfUp)?;
    let handle = tightness.against_typical(fabric.structure)?;
    let text = format!(
        "The fabric has {} and weighs {}.\n\
         Its tightness factor is {} √tex/mm{}.\n{how}",
        say_loops(&area, units)?,
        say_mass(&mass, units)?,
        tight.decimal(2),
        say_handle(fabric.structure, handle),
    );
    json.insert("cloth".into(), numbers(&area, &mass, tight, handle)?);
    Ok(Told { text, json })
}

/// Fewest loops at their lightest, most at their heaviest.
fn mass(
    area: &Spread<LoopsPerArea>,
    loops: &LoopLength,
    yarn: LinearDensity,
) -> Result<Spread<ArealMass>, Failure> {
    let [low, likely, high] = area.parts();
    Ok(Spread::new(
        low.mass(loops, yarn)?.low(),
        likely.mass(loops, yarn)?.likely(),
        high.mass(loops, yarn)?.high(),
    )?)
}

/// `116 stitches (110 to 121) in 10 square centimetres`.
fn say_loops(area: &Spread<LoopsPerArea>, units: Units) -> Result<String, Failure> {
    let said = |of: fn(LoopsPerArea) -> Result<Exact, _>, unit: &str| {
        let [low, likely, high] = area.parts();
        let likely = of(likely)?.decimal(1).to_string();
        let (low, high) = (of(low)?.decimal(1).to_string(), of(high)?.decimal(1).to_string());
        let range = if low == high { String::new() } else { format!(" ({low} to {high})") };
        Ok::<_, Failure>(format!("{likely} loops{range} to the square {unit}"))
    };
    let (cm, inch) =
        (said(LoopsPerArea::in_cm2, "centimetre")?, said(LoopsPerArea::in_in2, "inch")?);
    Ok(match units {
        Units::Cm => cm,
        Units::In => inch,
        Units::Both => format!("{cm}, {inch}"),
    })
}

fn say_mass(mass: &Spread<ArealMass>, units: Units) -> Result<String, Failure> {
    let grams = |mass: ArealMass| Ok(mass.grams_per_m2().decimal(0).to_string());
    let ounces = |mass: ArealMass| Ok(mass.ounces_per_yd2()?.decimal(1).to_string());
    let grams = said(mass, grams, "g to the square metre")?;
    let ounces = said(mass, ounces, "oz to the square yard")?;
    Ok(match units {
        Units::Cm => grams,
        Units::In => ounces,
        Units::Both => format!("{grams}, {ounces}"),
    })
}

fn said(
    mass: &Spread<ArealMass>,
    number: impl Fn(ArealMass) -> Result<String, Failure>,
    unit: &str,
) -> Result<String, Failure> {
    let [low, likely, high] = mass.parts();
    let (low, likely, high) = (number(low)?, number(likely)?, number(high)?);
    let range = if low == high { String::new() } else { format!(" ({low} to {high})") };
    Ok(format!("{likely} {unit}{range}"))
}

fn say_handle(structure: Structure, handle: Option<Handle>) -> String {
    let against = match handle {
        Some(Handle::Slack) => "slacker than",
        Some(Handle::Typical) => "within",
        Some(Handle::Tight) => "tighter than",
        _ => return String::new(),
    };
    format!(", {against} the 1.3 to 1.5 that are usual for {structure} knitting")
}

fn numbers(
    area: &Spread<LoopsPerArea>,
    mass: &Spread<ArealMass>,
    tight: Exact,
    handle: Option<Handle>,
) -> Result<Value, Failure> {
    let [low, likely, high] = area.parts().map(|area| area.in_cm2().map(Exact::to_f64_lossy));
    let [light, grams, heavy] = mass.parts().map(|mass| mass.grams_per_m2().to_f64_lossy());
    let handle = handle.map(Handle::name);
    let loops = [("low", low?), ("likely", likely?), ("high", high?)];
    let grams = [("low", light), ("likely", grams), ("high", heavy)];
    Ok(json!({
        "loops_per_cm2": Map::from_iter(loops.map(|(key, n)| (key.to_owned(), json!(n)))),
        "grams_per_m2": Map::from_iter(grams.map(|(key, n)| (key.to_owned(), json!(n)))),
        "tightness": tight.to_f64_lossy(),
        "handle": handle,
    }))
}
