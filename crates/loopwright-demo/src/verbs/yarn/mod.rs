//! Yarn numbers converted; the yarn of a stitch count; what a remainder still makes.

mod amount;
mod cloth;
mod evidence;
mod left;
mod planned;

use crate::Units;
use crate::answer::{Answer, Failure, fraction};
use loopwright::gauge::{Exact, Length, Precision, Unit};
use loopwright::yardage::{
    Amount, LinearDensity, Mass, MassUnit, Numbering, Spread, Yarn, YarnQuantity,
};
use serde_json::{Map, Value, json};
use std::fmt::Write as _;
use std::path::PathBuf;

#[derive(Debug, clap::Args)]
pub(crate) struct Args {
    /// The yarn, such as "2/28 Nm", "30/2 Ne", "10 tex x 3" or "450 m/100 g".
    #[arg(required_unless_present_any = ["plan", "done"])]
    yarn: Option<Yarn>,
    /// The garment of this plan file, in its own yarn; "-" reads standard input.
    #[arg(long, conflicts_with = "yarn")]
    plan: Option<PathBuf>,
    /// Also give its number in this system, such as Ne, tex, denier or worsted.
    #[arg(long, value_name = "SYSTEM")]
    to: Option<Numbering>,
    /// More yarns held together with it.
    #[arg(long, value_name = "YARN")]
    with: Vec<Yarn>,
    /// Say what so long a piece of it weighs, or how long so heavy a one is, such as "120 m"
    /// or "50 g".
    #[arg(long, value_name = "AMOUNT", requires = "yarn")]
    weigh: Option<YarnQuantity>,
    /// Say what the fabric weighs, how many stitches lie in it and how tight it is.
    #[arg(long, requires = "yarn")]
    cloth: bool,
    #[command(flatten)]
    evidence: Box<evidence::EvidenceArgs>,
    #[command(flatten)]
    amount: Box<amount::AmountArgs>,
    #[command(flatten)]
    left: Box<left::LeftArgs>,
}

/// What one question about a yarn adds to the answer.
struct Told {
    text: String,
    json: Map<String, Value>,
}

pub(crate) fn run(args: &Args, asked: Option<Units>) -> Result<Answer, Failure> {
    if let Some(plan) = &args.plan {
        return planned::answer(plan, asked);
    }
    let units = asked.unwrap_or(Units::Cm);
    let Some(yarn) = args.yarn else {
        let Told { text, json } = left::answer(args, None, units)?;
        return Ok(Answer { text, json: Value::Object(json) });
    };
    let mut density = yarn.resultant()?;
    for other in &args.with {
        density = density.with(other.resultant()?)?;
    }
    let Told { mut text, mut json } = convert(args, yarn, density)?;
    let weigh = args.weigh.map(|amount| weighed(amount, density, units));
    let asked = [
        args.cloth.then(|| cloth::answer(args, density, units)),
        args.amount.is_asked().then(|| amount::answer(args, density, units)),
        args.left.is_asked().then(|| left::answer(args, Some(density), units)),
    ];
    for told in weigh.into_iter().chain(asked.into_iter().flatten()) {
        let told = told?;
        text += &told.text;
        json.extend(told.json);
    }
    Ok(Answer { text, json: Value::Object(json) })
}

/// What so long a piece weighs, or how long so heavy a one is.
fn weighed(amount: YarnQuantity, yarn: LinearDensity, units: Units) -> Result<Told, Failure> {
    let (length, mass) = match amount {
        YarnQuantity::Length(length) => (length, yarn.masses_of(Spread::exactly(length))?.likely()),
        YarnQuantity::Mass(mass) => (yarn.lengths_of(Spread::exactly(mass))?.likely(), mass),
    };
    let (long, heavy) = (say_length(length, 3, units), say_mass(mass, 3, units));
    let text = match amount {
        YarnQuantity::Length(_) => format!("{long} of it weigh {heavy}.\n"),
        YarnQuantity::Mass(_) => format!("{heavy} of it are {long} long.\n"),
    };
    let json = json!({ "metres": metres(length)?, "grams": grams(mass) });
    Ok(Told { text, json: Map::from_iter([("weighed".to_owned(), json)]) })
}

fn convert(args: &Args, yarn: Yarn, density: LinearDensity) -> Result<Told, Failure> {
    let number = |system| Ok::<_, Failure>(density.number_near(system)?);
    let (per_100g, per_pound) =
        (number(Numbering::MetresPer100g)?, number(Numbering::YardsPerPound)?);
    let mut text = format!(
        "The yarn is {} tex: {} m in 100 g, {} yd in a pound.\n",
        density.tex().decimal(2),
        per_100g.decimal(1),
        per_pound.decimal(0),
    );
    let mut json = Map::from_iter([
        ("tex".to_owned(), json!(density.tex().to_f64_lossy())),
        ("tex_exact".to_owned(), json!(fraction(density.tex()))),
        ("plies".to_owned(), json!(yarn.plies())),
        ("strands".to_owned(), json!(yarn.strands())),
        ("metres_per_100g".to_owned(), json!(per_100g.to_f64_lossy())),
        ("yards_per_lb".to_owned(), json!(per_pound.to_f64_lossy())),
    ]);
    if let Some(system) = args.to {
        let number = number(system)?;
        let _ = writeln!(text, "That is {} {}.", number.decimal(2), system.symbol());
        json.insert("system".into(), json!(system.symbol()));
        json.insert("number".into(), json!(number.to_f64_lossy()));
        if density.number(system) == Ok(number) {
            json.insert("number_exact".into(), json!(fraction(number)));
        }
    }
    Ok(Told { text, json })
}

/// A length of yarn in words, to at least so many digits: metres, yards, or both.
fn say_length(length: Length, digits: u8, units: Units) -> String {
    let said = |unit| {
        let places = length.in_unit(unit).map_or(0, |amount| places(amount, digits));
        length.display(unit, Precision::Decimals(places)).to_string()
    };
    match units {
        Units::Cm => said(Unit::Metre),
        Units::In => said(Unit::Yard),
        Units::Both => format!("{} ({})", said(Unit::Metre), said(Unit::Yard)),
    }
}

/// A weight of yarn in words, to at least so many digits: grams, ounces, or both.
fn say_mass(mass: Mass, digits: u8, units: Units) -> String {
    let said = |unit| {
        let places = mass.in_unit(unit).map_or(0, |amount| places(amount, digits));
        mass.display(unit, places).to_string()
    };
    match units {
        Units::Cm => said(MassUnit::Gram),
        Units::In => said(MassUnit::Ounce),
        Units::Both => format!("{} ({})", said(MassUnit::Gram), said(MassUnit::Ounce)),
    }
}

/// The decimal places that show at least `digits` digits of `amount`: none of 31, one of
/// 3.1, two of 0.31.
fn places(amount: Exact, digits: u8) -> u8 {
    let mut places = 0;
    let mut shown = amount.abs();
    let least = Exact::whole(10_i32.pow(u32::from(digits.saturating_sub(1))));
    while shown < least && places < 4 {
        let Ok(next) = shown.checked_mul(Exact::whole(10)) else { return places };
        (shown, places) = (next, places + 1);
    }
    places
}

/// `about 435 m, 31 g (at least 366 m, 26 g; at most 505 m, 36 g)`.
fn say_amount(amount: &Amount, units: Units) -> String {
    let part = |at: fn(&Spread<Length>) -> Length, mass: fn(&Spread<Mass>) -> Mass| {
        let (length, mass) = (at(&amount.length), mass(&amount.mass));
        format!("{}, {}", say_length(length, 2, units), say_mass(mass, 2, units))
    };
    format!(
        "about {} (at least {}; at most {})",
        part(Spread::likely, Spread::likely),
        part(Spread::low, Spread::low),
        part(Spread::high, Spread::high),
    )
}

fn metres(length: Length) -> Result<Value, Failure> {
    Ok(json!(length.in_unit(Unit::Metre)?.to_f64_lossy()))
}

fn grams(mass: Mass) -> Value {
    json!(mass.grams().to_f64_lossy())
}
