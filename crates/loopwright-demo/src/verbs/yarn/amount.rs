//! How much yarn a plain count of stitches takes, and what to buy.

use super::{Failure, LinearDensity, Mass, Told, evidence, grams, metres, say_amount, say_length};
use crate::Units;
use loopwright::gauge::english::counted;
use loopwright::gauge::{Exact, Length, Stitches};
use loopwright::yardage::{
    Amount, EdgeFacts, EdgeRule, LoopLength, MAIN_YARN, Margin, Package, Rules, Spread, Supply,
    Tally, YarnQuantity, buy, estimate,
};
use serde_json::{Map, Value, json};
use std::fmt::Write as _;

const FABRIC: &str = "the fabric";

#[derive(Debug, clap::Args)]
pub(crate) struct AmountArgs {
    /// How many stitches are knitted.
    #[arg(long, value_name = "N")]
    stitches: Option<Stitches>,
    /// How many stitches are cast on.
    #[arg(long, value_name = "N", default_value = "0")]
    cast_on: Stitches,
    /// How many stitches are bound off.
    #[arg(long, value_name = "N", default_value = "0")]
    bind_off: Stitches,
    /// A sewn seam; may be given several times.
    #[arg(long, value_name = "LENGTH")]
    seam: Vec<Length>,
    /// How many ends are woven in.
    #[arg(long, value_name = "N", default_value_t = 0)]
    ends: u32,
    /// How many stitches are knitted in waste yarn.
    #[arg(long, value_name = "N", default_value = "0")]
    waste: Stitches,
    /// How the cast-on is reckoned: nothing, so many rows, or a tail by
    /// three-widths-and-a-tenth, four-widths, wrap, eighth-inch, inch-or-two or a measured
    /// "7 in in 10 stitches".
    #[arg(long, value_name = "RULE", default_value = "2 rows")]
    cast_on_rule: EdgeRule,
    /// How the bind-off is reckoned: as the cast-on, or sewn by sewn-three-widths or
    /// sewn-two-widths.
    #[arg(long, value_name = "RULE", default_value = "1 row")]
    bind_off_rule: EdgeRule,
    /// The needle's diameter, for the rules that ask for it.
    #[arg(long, value_name = "LENGTH")]
    needle: Option<Length>,
    /// A fixed length that the tail of the cast-on has beyond the edge, such as "15 cm".
    #[arg(long, value_name = "LENGTH", requires = "stitches")]
    tail: Option<Length>,
    /// What a ball or cone holds, such as "50 g" or "125 m": say how many to buy.
    #[arg(long, value_name = "AMOUNT")]
    package: Option<YarnQuantity>,
    /// Buy this much more, in per cent, because a later dye lot may not match.
    #[arg(long, value_name = "PERCENT", default_value = "0")]
    margin: Exact,
    /// Buy this many packages more instead.
    #[arg(long, value_name = "N", conflicts_with = "margin")]
    spare: Option<u32>,
    /// Yarn of the same dye lot already owned; may be given several times.
    #[arg(long, value_name = "AMOUNT")]
    owned: Vec<YarnQuantity>,
    /// What a package costs, in the smallest coin.
    #[arg(long, value_name = "PRICE")]
    price: Option<u64>,
    /// The moisture regain a package was weighed at, in per cent, such as 18.25 for wool.
    #[arg(long, value_name = "PERCENT", requires = "regain_here")]
    regain_sold: Option<Exact>,
    /// The moisture regain where it is knitted, in per cent.
    #[arg(long, value_name = "PERCENT", requires = "regain_sold")]
    regain_here: Option<Exact>,
}

impl AmountArgs {
    pub(super) const fn is_asked(&self) -> bool {
        self.stitches.is_some()
    }

    fn tally(&self) -> Tally {
        let begun = Tally::new("work")
            .stitches(FABRIC, self.stitches.unwrap_or(Stitches::ZERO))
            .cast_on(self.cast_on)
            .bound_off(self.bind_off)
            .ends(self.ends)
            .waste(self.waste)
            .tails(u32::from(self.tail.is_some() && !self.cast_on.is_zero()));
        self.seam.iter().fold(begun, |tally, &seam| tally.seam(seam))
    }
}

pub(super) fn answer(
    args: &super::Args,
    yarn: LinearDensity,
    units: Units,
) -> Result<Told, Failure> {
    let (loops, others) = args.evidence.loops(yarn)?;
    let Told { text: how, mut json } = evidence::told(&loops, &others);
    let asked = &args.amount;
    let mut edge = EdgeFacts::new();
    edge.needle = asked.needle;
    if let Some(gauge) = args.evidence.gauge {
        let width = Exact::ONE.checked_div(gauge.per_mm::<Stitches>()?)?;
        edge.stitch_width = Some(Length::from_millimetres(width)?);
    }
    let rules = Rules::new()
        .cast_on(asked.cast_on_rule)
        .bind_off(asked.bind_off_rule)
        .edge(edge)
        .tail(asked.tail.unwrap_or(Length::ZERO));
    let supply = Supply::new(MAIN_YARN, yarn).fabric(FABRIC, loops).rules(rules);
    let found = estimate(&[asked.tally()], &[supply])?;
    let amount = found.total(MAIN_YARN).copied().unwrap_or(Amount::ZERO);
    let mut text = format!("The work takes {} of yarn.\n{how}", say_amount(&amount, units));
    json.extend(numbers(&amount)?);
    if let Some(tail) = tail(asked, &loops, &edge)? {
        let long = say_length(tail.high(), 2, units);
        let _ = writeln!(text, "Leave a tail of {long} for the cast-on.");
        json.insert("tail_metres".into(), metres(tail.high())?);
    }
    if !asked.waste.is_zero() {
        let waste = found.waste.length;
        let _ = writeln!(text, "Waste yarn: about {}.", say_length(waste.likely(), 2, units));
        json.insert("waste_metres".into(), metres(waste.likely())?);
    }
    if let Some(content) = asked.package {
        let bought = purchase(asked, content, &amount, yarn)?;
        text += &bought.text;
        json.extend(bought.json);
    }
    Ok(Told { text, json })
}

/// The tail of a cast-on that is worked with one; `None` for one that is knitted on.
fn tail(
    asked: &AmountArgs,
    loops: &LoopLength,
    edge: &EdgeFacts,
) -> Result<Option<Spread<Length>>, Failure> {
    let (rule, stitches) = (asked.cast_on_rule, asked.cast_on);
    let knitted_on = matches!(rule, EdgeRule::Nothing | EdgeRule::Rows(_));
    if stitches.is_zero() || (knitted_on && asked.tail.is_none()) {
        return Ok(None);
    }
    let more = asked.tail.unwrap_or(Length::ZERO);
    Ok(Some(rule.tail_and(stitches, loops, edge, more)?))
}

pub(super) fn numbers(amount: &Amount) -> Result<Map<String, Value>, Failure> {
    let end = |length: Length, mass: Mass| {
        Ok::<_, Failure>(json!({ "metres": metres(length)?, "grams": grams(mass) }))
    };
    let (length, mass) = (&amount.length, &amount.mass);
    Ok(Map::from_iter([
        ("metres".to_owned(), metres(length.likely())?),
        ("grams".to_owned(), grams(mass.likely())),
        ("low".to_owned(), end(length.low(), mass.low())?),
        ("high".to_owned(), end(length.high(), mass.high())?),
    ]))
}

fn purchase(
    asked: &AmountArgs,
    content: YarnQuantity,
    amount: &Amount,
    yarn: LinearDensity,
) -> Result<Told, Failure> {
    let mut package = Package::new(content)?;
    if let (Some(sold), Some(here)) = (asked.regain_sold, asked.regain_here) {
        let hundred = Exact::whole(100);
        package = package.regain(sold.checked_div(hundred)?, here.checked_div(hundred)?);
    }
    if let Some(price) = asked.price {
        package = package.price(price);
    }
    let margin = match (asked.spare, asked.margin) {
        (Some(spare), _) => Margin::Packages(spare),
        (None, percent) if percent.is_zero() => Margin::Nothing,
        (None, percent) => Margin::percent(percent)?,
    };
    let bought = buy(amount, yarn, &package, margin, &asked.owned)?;
    let mut text = said(&bought.packages, content);
    let _ = match margin {
        Margin::Share(_) => {
            writeln!(text, "That is with {margin} more, for the dye lot.")
        }
        Margin::Packages(spare) => writeln!(text, "That is with {spare} more, for the dye lot."),
        _ => Ok(()),
    };
    let mut json = packages(&bought.packages);
    if let (Some(cost), Some(price)) = (bought.cost, asked.price) {
        let _ = writeln!(text, "At {price} each that is {}.", cost.high());
        json.insert("cost".into(), json!(cost.high()));
    }
    Ok(Told { text, json })
}

fn said(packages: &Spread<u32>, content: YarnQuantity) -> String {
    let (likely, high) = (packages.likely(), packages.high());
    let content = match content {
        YarnQuantity::Length(length) => length
            .display(loopwright::gauge::Unit::Metre, loopwright::gauge::Precision::Decimals(1))
            .to_string(),
        YarnQuantity::Mass(mass) => {
            mass.display(loopwright::yardage::MassUnit::Gram, 1).to_string()
        }
    };
    let many = counted(high, "package");
    match (likely, high) {
        (_, 0) => format!("No package of {content} need be bought.\n"),
        (likely, high) if likely == high => format!("Buy {many} of {content}.\n"),
        (0, _) => format!(
            "Buy {many} of {content} to be safe; what there is will do if the yarn can be matched \
             later.\n"
        ),
        _ => format!(
            "Buy {many} of {content} to be safe; {likely} will do if the yarn can be matched \
             later.\n"
        ),
    }
}

/// Whole packages: enough for the high, the likely and the low amount.
pub(super) fn packages(packages: &Spread<u32>) -> Map<String, Value> {
    Map::from_iter([
        ("packages".to_owned(), json!(packages.high())),
        ("packages_likely".to_owned(), json!(packages.likely())),
        ("packages_low".to_owned(), json!(packages.low())),
    ])
}
