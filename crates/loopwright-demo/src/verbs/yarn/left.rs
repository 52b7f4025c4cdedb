//! How far what is left of a yarn goes, and how much of a piece is done.

use super::{Failure, LinearDensity, Mass, Told, evidence, grams, say_length, say_mass};
use crate::Units;
use loopwright::gauge::english::{agreeing, counted};
use loopwright::gauge::{Count as _, Exact, Round, Rows, Stitches};
use loopwright::yardage::{
    Growth, LoopLength, Plan, Remainder, Spread, Stop, Worked, YarnQuantity,
};
use serde_json::{Map, Value, json};
use std::fmt::Write as _;
use std::str::FromStr;

#[derive(Debug, clap::Args)]
pub(crate) struct LeftArgs {
    /// Yarn that is left, such as "63 g" or "120 m": say how many rows it gives.
    #[arg(long, value_name = "AMOUNT", requires = "row")]
    left: Option<YarnQuantity>,
    /// Keep this much of it untouched.
    #[arg(long, value_name = "AMOUNT", requires = "left")]
    keep: Option<YarnQuantity>,
    /// Stitches in the first row of the piece, or knitted from what is left.
    #[arg(long, value_name = "N")]
    row: Option<Stitches>,
    /// Stitches that are added ...
    #[arg(long, value_name = "N", default_value = "0")]
    add: Stitches,
    /// ... each time so many rows are done.
    #[arg(long, value_name = "ROWS", default_value = "1")]
    every: Rows,
    /// Rows of the piece already knitted, and what they took if that was weighed or
    /// measured, such as "120" or "120 rows = 35 g".
    #[arg(long, value_name = "ROWS", requires = "row")]
    done: Option<Done>,
    /// Rows that the whole piece has.
    #[arg(long, value_name = "N", requires = "done")]
    rows: Option<Rows>,
    /// An edging along the last row, in rows of it: 1 for a bind-off.
    #[arg(long, value_name = "ROWS", default_value = "1")]
    edging: Exact,
    /// Knit so many pieces alike, such as two sleeves.
    #[arg(long, value_name = "N", default_value_t = 1)]
    copies: u32,
}

/// How many rows are knitted, and what they took.
#[derive(Clone, Copy, Debug)]
enum Done {
    Rows(Rows),
    Took(Worked),
}

impl Done {
    const fn rows(self) -> Rows {
        match self {
            Self::Rows(rows) => rows,
            Self::Took(worked) => worked.rows(),
        }
    }
}

impl FromStr for Done {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        if text.contains('=') {
            return text
                .parse()
                .map(Self::Took)
                .map_err(|refused: loopwright::yardage::Error| refused.to_string());
        }
        text.parse().map(Self::Rows).map_err(|why: loopwright::gauge::Error| why.to_string())
    }
}

impl LeftArgs {
    pub(super) const fn is_asked(&self) -> bool {
        self.left.is_some() || self.done.is_some()
    }

    fn growth(&self) -> Result<Growth, Failure> {
        Ok(Growth::even(self.row.unwrap_or(Stitches::ZERO), self.add, self.every)?)
    }

    fn plan(&self) -> Result<Plan, Failure> {
        Ok(Plan::new(self.growth()?).edging(self.edging)?.copies(self.copies)?)
    }

    fn done_rows(&self) -> Rows {
        self.done.map_or(Rows::ZERO, Done::rows)
    }

    /// A weighed remainder is as uncertain as the balance, a measured one is taken as told.
    fn remainder(&self, left: YarnQuantity, balance: Mass) -> Remainder {
        let remainder = match left {
            YarnQuantity::Mass(mass) => Remainder::weighed(mass, balance),
            YarnQuantity::Length(_) => Remainder::new(left),
        };
        self.keep.map_or(remainder, |keep| remainder.reserve(keep))
    }
}

pub(super) fn answer(
    args: &super::Args,
    yarn: Option<LinearDensity>,
    units: Units,
) -> Result<Told, Failure> {
    let asked = &args.left;
    let mut told = Told { text: String::new(), json: Map::new() };
    if let (Some(done), Some(of)) = (asked.done, asked.rows) {
        let share = share(asked, done, of, units)?;
        told.text += &share.text;
        told.json.extend(share.json);
    }
    if let Some(left) = asked.left {
        let rows = rows(args, left, yarn, units)?;
        told.text += &rows.text;
        told.json.extend(rows.json);
    }
    if told.text.is_empty() {
        let why =
            "say how many rows the piece has with --rows, or how much yarn is left with --left";
        return Err(Failure::Input(why.into()));
    }
    Ok(told)
}

/// How much of the piece is done, by stitches, and what the rest takes.
fn share(asked: &LeftArgs, done: Done, of: Rows, units: Units) -> Result<Told, Failure> {
    let growth = asked.growth()?;
    let percent = growth.percent_done(done.rows(), of)?;
    let mut text = format!(
        "After {} of {}, {} of {} are knitted: {} %.\n",
        done.rows(),
        of.counted(),
        growth.total(done.rows()),
        counted(growth.total(of), "stitch"),
        percent.decimal(1),
    );
    let mut json = Map::from_iter([
        ("done_percent".to_owned(), json!(percent.to_f64_lossy())),
        ("done_stitches".to_owned(), json!(growth.total(done.rows()))),
        ("all_stitches".to_owned(), json!(growth.total(of))),
    ]);
    if let Done::Took(worked) = done {
        let rest = worked.rest(&growth, of)?;
        let _ = writeln!(text, "The rest takes about {}, without an edging.", say(rest, units));
        json.insert("rest".into(), amount(rest)?);
    }
    Ok(Told { text, json })
}

fn say(amount: YarnQuantity, units: Units) -> String {
    match amount {
        YarnQuantity::Length(length) => say_length(length, 2, units),
        YarnQuantity::Mass(mass) => say_mass(mass, 2, units),
    }
}

fn amount(amount: YarnQuantity) -> Result<Value, Failure> {
    Ok(match amount {
        YarnQuantity::Length(length) => json!({ "metres": super::metres(length)? }),
        YarnQuantity::Mass(mass) => json!({ "grams": grams(mass) }),
    })
}

/// How many rows what is left gives.
fn rows(
    args: &super::Args,
    left: YarnQuantity,
    yarn: Option<LinearDensity>,
    units: Units,
) -> Result<Told, Failure> {
    let asked = &args.left;
    let remainder = asked.remainder(left, args.evidence.balance);
    let plan = asked.plan()?;
    if let Some(Done::Took(worked)) = asked.done {
        let worked = worked.read_to(args.evidence.balance)?;
        let stitches = worked.stitches(&asked.growth()?, &remainder, yarn)?;
        return told(asked, &plan, &stitches, None, units);
    }
    let Some(yarn) = yarn else {
        let why =
            "give a yarn, or say what the rows so far took, such as --done \"120 rows = 35 g\"";
        return Err(Failure::Input(why.into()));
    };
    let (loops, others) = args.evidence.loops(yarn)?;
    let stitches = remainder.stitches(&loops, yarn)?;
    let mut told = told(asked, &plan, &stitches, Some((&loops, yarn)), units)?;
    let how = evidence::told(&loops, &others);
    told.text += &how.text;
    told.json.extend(how.json);
    Ok(told)
}

fn told(
    asked: &LeftArgs,
    plan: &Plan,
    stitches: &Spread<Exact>,
    loops: Option<(&LoopLength, LinearDensity)>,
    units: Units,
) -> Result<Told, Failure> {
    let done = asked.done_rows();
    let rows = stitches.map(|stitches| Ok::<_, Failure>(plan.rows_after(done, stitches)?.rows))?;
    let stop = plan.rows_after(done, stitches.low())?;
    let mut text = said(asked, &rows, &stop);
    let mut json = Map::from_iter([
        ("rows".to_owned(), json!(rows.low())),
        ("rows_likely".to_owned(), json!(rows.likely())),
        ("rows_high".to_owned(), json!(rows.high())),
        ("last_row".to_owned(), json!(stop.last_row)),
        ("stitches".to_owned(), json!(stitches.likely().to_whole(Round::Floor)?)),
    ]);
    if let Some((loops, yarn)) = loops {
        let keep = weight(stop.keep, loops, yarn)?;
        if asked.edging.is_positive() {
            let besides = if asked.keep.is_some() { ", besides what is kept" } else { "" };
            let keep = say_mass(keep, 2, units);
            let _ = writeln!(text, "Begin the edging when {keep} is left{besides}.");
        }
        json.insert("edging_grams".to_owned(), grams(keep));
    }
    Ok(Told { text, json })
}

/// What yarn for `stitches` weighs when every stitch is as large as it may be.
fn weight(stitches: Exact, loops: &LoopLength, yarn: LinearDensity) -> Result<Mass, Failure> {
    Ok(loops.mass_of(stitches, yarn)?.high())
}

/// `Count on 205 rows of 120 stitches and the bind-off; 209 are likely, 212 possible.`
fn said(asked: &LeftArgs, rows: &Spread<Rows>, stop: &Stop) -> String {
    let more = if asked.done.is_some() { " more" } else { "" };
    let each = match asked.copies {
        1 => String::new(),
        copies => format!(" in each of {copies} pieces"),
    };
    let first = asked.row.unwrap_or(Stitches::ZERO).counted().to_string();
    let last = stop.last_row;
    let width = match asked.done {
        _ if asked.add.is_zero() => format!(" of {first}"),
        None => format!(" from {first}, the last with {last},"),
        Some(done) => {
            let row = done.rows().get().saturating_add(rows.low().get());
            format!(", the last of them row {row} with {},", last.counted())
        }
    };
    let edging = if asked.edging == Exact::ONE {
        " and the bind-off".to_owned()
    } else if asked.edging.is_positive() {
        format!(" and an edging worth {} rows", asked.edging.decimal(1))
    } else {
        String::new()
    };
    let [low, likely, high] = rows.parts();
    let sure = format!("{low}{more} {}", agreeing(low.get(), "row", "rows"));
    let doubt =
        if low == high { String::new() } else { format!("; {likely} are likely, {high} possible") };
    format!("Count on {sure}{width}{each}{edging}{doubt}.\n")
}
