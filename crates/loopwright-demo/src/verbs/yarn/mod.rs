//! Yarn numbers converted; the yarn of a stitch count; what a remainder still makes.

mod amount;
mod evidence;
mod left;
mod planned;

use crate::Units;
use crate::answer::{Answer, Failure, fraction};
use loopwright::gauge::{Length, Precision, Unit};
use loopwright::yardage::{Amount, LinearDensity, Mass, MassUnit, Numbering, Spread, Yarn};
use serde_json::{Map, Value, json};
use std::fmt::Write as _;
use std::path::PathBuf;

#[derive(Debug, clap::Args)]
pub(crate) struct Args {
    /// The yarn, such as "2/28 Nm", "30/2 Ne", "10 tex x 3" or "450 m/100 g".
    #[arg(required_unless_present = "plan")]
    yarn: Option<Yarn>,
    /// The garment of this plan file, in its own yarn; "-" reads standard input.
    #[arg(long, conflicts_with = "yarn")]
    plan: Option<PathBuf>,
    /// Also give its number in this system, such as Ne, tex, denier or worsted.
    #[arg(long, value_name = "SYSTEM")]
    to: Option<String>,
    /// More yarns held together with it.
    #[arg(long, value_name = "YARN")]
    with: Vec<Yarn>,
    #[command(flatten)]
    evidence: Box<evidence::EvidenceArgs>,
    #[command(flatten)]
    amount: Box<amount::AmountArgs>,
    #[command(flatten)]
    left: Box<left::LeftArgs>,
}

impl From<loopwright::yardage::Error> for Failure {
    fn from(error: loopwright::yardage::Error) -> Self {
        let told = error.to_string();
        if error.is_short() { Self::Work(told) } else { Self::Input(told) }
    }
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
    let yarn = args
        .yarn
        .ok_or_else(|| Failure::Input("give a yarn, or --plan with a plan file".into()))?;
    let mut density = yarn.resultant()?;
    for other in &args.with {
        density = density.with(other.resultant()?)?;
    }
    let Told { mut text, mut json } = convert(args, yarn, density)?;
    let asked = [
        args.amount.is_asked().then(|| amount::answer(args, density, units)),
        args.left.is_asked().then(|| left::answer(args, density, units)),
    ];
    for told in asked.into_iter().flatten() {
        let told = told?;
        text += &told.text;
        json.extend(told.json);
    }
    Ok(Answer { text, json: Value::Object(json) })
}

fn convert(args: &Args, yarn: Yarn, density: LinearDensity) -> Result<Told, Failure> {
    let number = |system| Ok::<_, Failure>(density.number(system)?);
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
    if let Some(name) = &args.to {
        let system = system(name)?;
        let number = number(system)?;
        let _ = writeln!(text, "That is {} {system}.", number.decimal(2));
        json.insert("system".into(), json!(system.symbol()));
        json.insert("number".into(), json!(number.to_f64_lossy()));
        json.insert("number_exact".into(), json!(fraction(number)));
    }
    Ok(Told { text, json })
}

fn system(name: &str) -> Result<Numbering, Failure> {
    Numbering::from_name(name).ok_or_else(|| {
        let known: Vec<&str> = Numbering::ALL.iter().map(|system| system.symbol()).collect();
        Failure::Input(format!("the system {name:?} is not known; write {}", known.join(", ")))
    })
}

/// A length of yarn in words: metres, yards, or both.
fn say_length(length: Length, units: Units) -> String {
    let metres = length.display(Unit::Metre, Precision::Decimals(0));
    let yards = length.display(Unit::Yard, Precision::Decimals(0));
    match units {
        Units::Cm => metres.to_string(),
        Units::In => yards.to_string(),
        Units::Both => format!("{metres} ({yards})"),
    }
}

/// A weight of yarn in words: grams, ounces, or both.
fn say_mass(mass: Mass, units: Units) -> String {
    let grams = mass.display(MassUnit::Gram, 0);
    let ounces = mass.display(MassUnit::Ounce, 1);
    match units {
        Units::Cm => grams.to_string(),
        Units::In => ounces.to_string(),
        Units::Both => format!("{grams} ({ounces})"),
    }
}

/// `about 435 m, 31 g (at least 366 m, 26 g; at most 505 m, 36 g)`.
fn say_amount(amount: &Amount, units: Units) -> String {
    let part = |at: fn(&Spread<Length>) -> Length, mass: fn(&Spread<Mass>) -> Mass| {
        let (length, mass) = (at(&amount.length), mass(&amount.mass));
        format!("{}, {}", say_length(length, units), say_mass(mass, units))
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
