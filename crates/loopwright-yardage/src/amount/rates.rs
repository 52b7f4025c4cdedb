//! The rates of one supply as integers over common denominators.
//!
//! A garment's estimate then is integer multiplication and one reduction for each
//! figure. Rates stay exact as long as the common denominators fit; when exotic
//! fractions meet, the rates are widened outwards to whole nanometres and picograms,
//! which no balance would notice, and low and high still hold the truth. A seam is
//! added to a part of the same denominators, a micrometre or finer, outwards too.

use super::sum::Sum;
use crate::Amount;
use crate::Tally;
use crate::grid::{self, Grid, outwards};
use crate::loops::length_times;
use crate::{EdgeRule, Error, LinearDensity, LoopLength, Mass, SeamRule, Spread, Supply, bounds};
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;
use loopwright_gauge::{Exact, Length, Round};
use num_integer::Integer as _;

const LENGTH_DENOM: i128 = 1_000_000_000_000;
const MASS_DENOM: i128 = 1_000_000_000_000_000;
const MICROMETRES_IN_MM: i128 = 1_000;
const NANOMETRES_IN_MM: i128 = 1_000_000;
const MICROGRAMS_IN_G: i128 = 1_000_000;
const PICOGRAMS_IN_G: i128 = 1_000_000_000_000;

#[derive(Clone, Debug)]
pub(crate) struct Rates {
    yarn: String,
    seam: SeamRule,
    /// Parts of mass in one part of length of this yarn, as a fraction.
    mass_of_part: (i128, i128),
    density: LinearDensity,
    length_denom: i128,
    mass_denom: i128,
    length_part: Exact,
    mass_part: Exact,
    fabrics: Vec<(String, Sum)>,
    cast_on: Sum,
    bind_off: Sum,
    graft: Sum,
    end: Sum,
    tail: Sum,
    float: Option<Sum>,
}

struct Rate {
    length: Spread<Length>,
    mass: Spread<Mass>,
}

impl Rates {
    pub(crate) fn new(supply: &Supply) -> Result<Self, Error> {
        let found = RawRates::new(supply)?;
        let all = || found.all();
        let lengths = || all().flat_map(|rate| rate.length.parts().map(Length::millimetres));
        let masses = || all().flat_map(|rate| rate.mass.parts().map(Mass::grams));
        let length_denom =
            common(lengths(), MICROMETRES_IN_MM, LENGTH_DENOM).unwrap_or(NANOMETRES_IN_MM);
        let mass_denom = common(masses(), MICROGRAMS_IN_G, MASS_DENOM).unwrap_or(PICOGRAMS_IN_G);
        let over = |rate: &Rate| over(rate, length_denom, mass_denom);
        let names = supply.fabrics.iter().map(|(name, _)| name.clone());
        Ok(Self {
            yarn: supply.name.clone(),
            density: supply.density,
            length_denom,
            mass_denom,
            length_part: part(length_denom)?,
            mass_part: part(mass_denom)?,
            fabrics: names.zip(found.fabrics.iter().map(over)).collect(),
            cast_on: over(&found.cast_on),
            bind_off: over(&found.bind_off),
            graft: over(&found.graft),
            end: over(&found.end),
            tail: over(&found.tail),
            float: found.float.as_ref().map(over),
            seam: supply.rules.seam,
            mass_of_part: mass_of_part(supply.density, length_denom, mass_denom),
        })
    }

    pub(crate) fn yarn(&self) -> &str {
        &self.yarn
    }

    /// Everything of `tally` but its waste yarn.
    pub(crate) fn sum(&self, tally: &Tally) -> Result<Sum, Error> {
        let mut sum = Sum::default();
        for (fabric, n) in &tally.fabrics {
            let rate = self.fabrics.iter().find(|(name, _)| name == fabric);
            let (_, rate) = rate.ok_or_else(|| {
                let what = format!("the fabric {fabric:?} of the piece {:?}", tally.piece);
                Error::missing(what, format!("a loop length in the yarn {:?}", tally.yarn))
            })?;
            sum.add(count("the count of stitches", *n)?, rate);
        }
        sum.add(count("the count of stitches cast on", tally.cast_on)?, &self.cast_on);
        sum.add(count("the count of stitches bound off", tally.bound_off)?, &self.bind_off);
        sum.add(count("the count of grafted stitches", tally.grafted)?, &self.graft);
        sum.add(count("the count of ends", tally.ends.into())?, &self.end);
        sum.add(count("the count of tails", tally.tails.into())?, &self.tail);
        if tally.floats > 0 {
            let float = self.float.as_ref().ok_or_else(|| {
                Error::missing("a float", "the width of a stitch in the yarn's rules")
            })?;
            sum.add(count("the count of floated stitches", tally.floats)?, float);
        }
        if !tally.seams.is_empty() {
            sum.add(1, &self.seams(&tally.seams)?);
        }
        Ok(sum)
    }

    fn seams(&self, seams: &[(Length, u32)]) -> Result<Sum, Error> {
        let (mut total, mut count) = (Exact::ZERO, 0_u32);
        for &(seam, times) in seams {
            if seam < Length::ZERO {
                return Err(Error::range("the length of the seam", seam, "zero or more"));
            }
            let all = length_times(seam, times.into(), Round::HalfUp)?;
            total = grid::LENGTH.sum(total, all.millimetres(), Round::HalfUp)?;
            count = count.saturating_add(times);
        }
        let yarn = self.seam.yarn(Length::from_millimetres(total)?, count)?;
        let length = numerators(yarn.parts().map(Length::millimetres), self.length_denom);
        let mass = match self.masses_of(length) {
            Some(mass) => mass,
            None => {
                numerators(self.density.masses_of(yarn)?.parts().map(Mass::grams), self.mass_denom)
            }
        };
        Ok(Sum { length, mass })
    }

    /// Parts of mass in parts of length, outwards, unless 128 bits are too few.
    fn masses_of(&self, [low, likely, high]: [i128; 3]) -> Option<[i128; 3]> {
        let (numer, denom) = self.mass_of_part;
        let twice = likely.checked_mul(2)?.checked_mul(numer)?.checked_add(denom)?;
        Some([
            low.checked_mul(numer)?.div_euclid(denom),
            twice.div_euclid(denom.checked_mul(2)?),
            -(high.checked_mul(numer)?.checked_neg()?.div_euclid(denom)),
        ])
    }

    pub(crate) fn amount(&self, sum: &Sum) -> Result<Amount, Error> {
        // Counts and rates are not below zero, and each rate's numerators are in order.
        let [low, likely, high] = sum.length;
        let length = |n, round| -> Result<_, Error> {
            Ok(Length::from_millimetres(ratio(n, self.length_part, grid::LENGTH, round)?)?)
        };
        let lengths = grid::between(
            length(low, Round::Floor)?,
            length(likely, Round::HalfUp)?,
            length(high, Round::Ceil)?,
        )?;
        let [low, likely, high] = sum.mass;
        let mass = |n, round| Mass::from_grams(ratio(n, self.mass_part, grid::MASS, round)?);
        let masses = grid::between(
            mass(low, Round::Floor)?,
            mass(likely, Round::HalfUp)?,
            mass(high, Round::Ceil)?,
        )?;
        Ok(Amount::new(lengths, masses))
    }

    /// The waste yarn of `tally`, by the loops of the first fabric.
    pub(crate) fn waste(&self, tally: &Tally) -> Result<Sum, Error> {
        let mut sum = Sum::default();
        if let Some((_, first)) = self.fabrics.first() {
            sum.add(count("the count of waste stitches", tally.waste)?, first);
        }
        Ok(sum)
    }
}

/// The rates before they have a common denominator.
struct RawRates {
    fabrics: Vec<Rate>,
    cast_on: Rate,
    bind_off: Rate,
    graft: Rate,
    end: Rate,
    tail: Rate,
    float: Option<Rate>,
}

impl RawRates {
    fn new(supply: &Supply) -> Result<Self, Error> {
        let (rules, yarn) = (&supply.rules, supply.density);
        let (_, first) = supply.fabrics.first().ok_or_else(|| {
            Error::missing(format!("the yarn {:?}", supply.name), "a fabric with a loop length")
        })?;
        let edge = |rule: EdgeRule| -> Result<Rate, Error> {
            // A knitted row weighs what its stitches were weighed at.
            if let (EdgeRule::Rows(rows), Some(mass)) = (rule, first.weighed()) {
                let rows = Exact::from(rows);
                let mass = outwards(mass, |mass, round| mass.times(rows, round))?;
                return Ok(Rate { length: rule.per_stitch(first, &rules.edge)?, mass });
            }
            Rate::of(rule.per_stitch(first, &rules.edge)?, yarn)
        };
        let fabric = |(_, loops): &(String, LoopLength)| {
            Ok(Rate { length: loops.length(), mass: loops.mass(yarn)? })
        };
        Ok(Self {
            fabrics: supply.fabrics.iter().map(fabric).collect::<Result<_, Error>>()?,
            cast_on: edge(rules.cast_on)?,
            bind_off: edge(rules.bind_off)?,
            graft: edge(rules.graft)?,
            end: Rate::of(end(rules.end)?, yarn)?,
            tail: Rate::of(tail(rules.tail)?, yarn)?,
            float: match rules.edge.stitch_width {
                Some(width) => Some(Rate::of(float(width)?, yarn)?),
                None => None,
            },
        })
    }

    fn all(&self) -> impl Iterator<Item = &Rate> {
        let edges = [&self.cast_on, &self.bind_off, &self.graft, &self.end, &self.tail];
        self.fabrics.iter().chain(edges).chain(&self.float)
    }
}

impl Rate {
    fn of(length: Spread<Length>, yarn: LinearDensity) -> Result<Self, Error> {
        Ok(Self { length, mass: yarn.masses_of(length)? })
    }
}

/// An end to weave in: as cut, or 15 cm, 10 to 20 (common practice, no source).
fn end(cut: Option<Length>) -> Result<Spread<Length>, Error> {
    match cut {
        Some(length) if length < Length::ZERO => {
            Err(Error::range("the length of an end", length, "zero or more"))
        }
        Some(length) => Ok(Spread::exactly(length)),
        None => Ok(Spread::new(Length::cm(10)?, Length::cm(15)?, Length::cm(20)?)?),
    }
}

/// What a tail has beyond its edge.
fn tail(more: Length) -> Result<Spread<Length>, Error> {
    if more < Length::ZERO {
        return Err(Error::range("the fixed length of a tail", more, "zero or more"));
    }
    Ok(Spread::exactly(more))
}

/// A float past one stitch: at least its width, and up to a quarter more so that it
/// does not pucker (a working figure: no published rule was found).
fn float(width: Length) -> Result<Spread<Length>, Error> {
    let slack = |percent: i64, round| length_times(width, Exact::new(100 + percent, 100)?, round);
    grid::between(width, slack(10, Round::HalfUp)?, slack(25, Round::Ceil)?)
}

fn count(what: &'static str, n: u64) -> Result<i128, Error> {
    if n <= bounds::STITCHES {
        return Ok(n.into());
    }
    Err(Error::range(what, n, format!("in 0..={}", bounds::STITCHES)))
}

/// The least common denominator of `values` and `least`, if it is within `most`.
fn common(values: impl Iterator<Item = Exact>, least: i128, most: i128) -> Option<i128> {
    let mut denom = least;
    for value in values {
        denom = denom.lcm(&value.denom().into()); // below 10^15 × 2^63
        if denom > most {
            return None;
        }
    }
    Some(denom)
}

/// One part of length weighs tex/10⁶ g over its denominator; in parts of mass, reduced.
fn mass_of_part(yarn: LinearDensity, length_denom: i128, mass_denom: i128) -> (i128, i128) {
    let (numer, denom) = (i128::from(yarn.tex().numer()), i128::from(yarn.tex().denom()));
    let (numer, denom) = (numer * mass_denom, denom * length_denom * 1_000_000);
    let divisor = numer.gcd(&denom);
    (numer / divisor, denom / divisor)
}

fn part(denom: i128) -> Result<Exact, Error> {
    let denom = i64::try_from(denom).map_err(|_| Error::overflow("the amount of yarn"))?;
    Ok(Exact::new(1, denom)?)
}

fn over(rate: &Rate, length_denom: i128, mass_denom: i128) -> Sum {
    Sum {
        length: numerators(rate.length.parts().map(Length::millimetres), length_denom),
        mass: numerators(rate.mass.parts().map(Mass::grams), mass_denom),
    }
}

/// Numerators over `denom`, exact where they can be, otherwise rounded outwards.
fn numerators([low, likely, high]: [Exact; 3], denom: i128) -> [i128; 3] {
    let parts = |value: Exact| (i128::from(value.numer()) * denom, i128::from(value.denom()));
    let floor = |(n, d): (i128, i128)| n.div_euclid(d);
    let (n, d) = parts(likely);
    [floor(parts(low)), floor((2 * n + d, 2 * d)), {
        let (n, d) = parts(high);
        -floor((-n, d))
    }]
}

/// `numer` over the whole number whose reciprocal is `part`, in lowest terms; on the grid
/// where the fraction is too long.
fn ratio(numer: i128, part: Exact, grid: Grid, round: Round) -> Result<Exact, Error> {
    // Nearly always: the product is reduced without wide division.
    if let Some(whole) = i64::try_from(numer).ok().and_then(|n| Exact::try_from(n).ok()) {
        return grid.product(whole, part, round);
    }
    grid.ratio(numer, part.denom().into(), round)
}
