//! How far what is left of a yarn goes.

use super::{Failure, LinearDensity, Mass, Told, evidence, grams};
use crate::Units;
use loopwright::gauge::{Exact, Round};
use loopwright::yardage::{Growth, LoopLength, MassUnit, Measure, Plan, Remainder, Spread, Stop};
use serde_json::{Map, json};
use std::fmt::Write as _;

#[derive(Debug, clap::Args)]
pub(crate) struct LeftArgs {
    /// Yarn that is left, such as "63 g" or "120 m": say how many rows it gives.
    #[arg(long, value_name = "AMOUNT", requires = "row")]
    left: Option<Measure>,
    /// Keep this much of it untouched.
    #[arg(long, value_name = "AMOUNT", requires = "left")]
    keep: Option<Measure>,
    /// Stitches in the first row knitted from it.
    #[arg(long, value_name = "N", requires = "left")]
    row: Option<u32>,
    /// Stitches that are added ...
    #[arg(long, value_name = "N", default_value_t = 0)]
    add: u32,
    /// ... each time so many rows are done.
    #[arg(long, value_name = "ROWS", default_value_t = 1)]
    every: u32,
    /// An edging along the last row, in rows of it: 1 for a bind-off.
    #[arg(long, value_name = "ROWS", default_value = "1")]
    edging: Exact,
    /// Knit so many pieces alike, such as two sleeves.
    #[arg(long, value_name = "N", default_value_t = 1)]
    copies: u32,
}

impl LeftArgs {
    pub(super) const fn is_asked(&self) -> bool {
        self.left.is_some()
    }

    fn plan(&self) -> Result<Plan, Failure> {
        let growth = Growth::even(self.row.unwrap_or(0), self.add, self.every)?;
        Ok(Plan::new(growth).edging(self.edging)?.copies(self.copies)?)
    }

    /// A weighed remainder is as uncertain as the balance, a measured one is taken as told.
    fn remainder(&self, left: Measure, balance: Mass) -> Remainder {
        let remainder = match left {
            Measure::Mass(mass) => Remainder::weighed(mass, balance),
            Measure::Length(_) => Remainder::new(left),
        };
        self.keep.map_or(remainder, |keep| remainder.reserve(keep))
    }
}

pub(super) fn answer(
    args: &super::Args,
    yarn: LinearDensity,
    units: Units,
) -> Result<Told, Failure> {
    let asked = &args.left;
    let Some(left) = asked.left else {
        return Err(Failure::Input("--left says how much yarn is left".into()));
    };
    let (loops, others) = args.evidence.loops(yarn)?;
    let Told { text: how, mut json } = evidence::told(&loops, &others);
    let stitches = asked.remainder(left, args.evidence.balance).stitches(&loops, yarn)?;
    let plan = asked.plan()?;
    let rows = plan.rows_from_spread(&stitches)?;
    let stop = plan.rows_from(stitches.low())?;
    let keep = weight(stop.keep, &loops, yarn)?;
    let mut text = said(asked, &rows, &stop);
    if asked.edging.is_positive() {
        let _ = writeln!(
            text,
            "Begin the edging when {} is left{}.",
            say_finely(keep, units),
            if asked.keep.is_some() { ", besides what is kept" } else { "" },
        );
    }
    json.extend(Map::from_iter([
        ("rows".to_owned(), json!(rows.low())),
        ("rows_likely".to_owned(), json!(rows.likely())),
        ("rows_high".to_owned(), json!(rows.high())),
        ("last_row".to_owned(), json!(stop.last_row)),
        ("edging_grams".to_owned(), grams(keep)),
        ("stitches".to_owned(), json!(stitches.likely().to_whole(Round::Floor)?)),
    ]));
    Ok(Told { text: text + &how, json })
}

/// What yarn for `stitches` weighs when every stitch is as large as it may be.
fn weight(stitches: Exact, loops: &LoopLength, yarn: LinearDensity) -> Result<Mass, Failure> {
    Ok(loops.mass(yarn)?.high().scaled(stitches)?)
}

/// An edging may weigh a gram: to a tenth.
fn say_finely(mass: Mass, units: Units) -> String {
    let (grams, ounces) = (mass.display(MassUnit::Gram, 1), mass.display(MassUnit::Ounce, 2));
    match units {
        Units::Cm => grams.to_string(),
        Units::In => ounces.to_string(),
        Units::Both => format!("{grams} ({ounces})"),
    }
}

fn said(asked: &LeftArgs, rows: &Spread<u32>, stop: &Stop) -> String {
    let each = match asked.copies {
        1 => String::new(),
        copies => format!(" in each of {copies} pieces"),
    };
    let first = asked.row.unwrap_or(0);
    let growing = match asked.add {
        0 => format!("of {first} stitches"),
        _ => format!("from {first} stitches, the last of {}", stop.last_row),
    };
    let edging = if asked.edging == Exact::ONE {
        ", and the bind-off".to_owned()
    } else if asked.edging.is_positive() {
        format!(", and an edging worth {} rows", asked.edging.decimal(1))
    } else {
        String::new()
    };
    format!(
        "What is left knits {} rows {growing}{each}{edging} for certain; {} are likely, {} \
         possible.\n",
        rows.low(),
        rows.likely(),
        rows.high(),
    )
}
