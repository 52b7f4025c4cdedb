//! The grammar of yarn notations; the table is in the docs of [`Yarn`].

use super::mass::split_unit;
use crate::{Error, LinearDensity, Mass, MassUnit, Numbering, Yarn, bounds};
use core::str::FromStr;
use loopwright_gauge::{Exact, Length};

const WHAT: &str = "the yarn";
const FORMS: &str = "write a number and its system, such as 2/28 Nm, 30/2 Ne, 10 tex x 3, \
                     or a length per mass, such as 450 m/100 g";
const UNNAMED: &str = "a slash means plies in one order or the other, so name the system after \
                       it, such as 2/28 Nm, 30/2 Ne or 2/40 cotton";
const DIRECT: &str = "tex, dtex, denier and jute take no slash: write the plies as in 110 dtex x 2";
const EITHER: &str = "either number could be the plies: write the count first and the plies \
                      after an x, such as 3 Ne x 2";
const SLASH: &str = "a slash stands between two numbers, one of them the count of plies";

impl FromStr for Yarn {
    type Err = Error;

    fn from_str(text: &str) -> Result<Self, Error> {
        let (strands, rest) = match text.split_once(" strands of ") {
            Some((strands, rest)) => (whole(text, strands)?, rest),
            None => (1, text),
        };
        let (body, take_up) = match rest.split_once(", take-up ") {
            Some((body, take_up)) => (body, number(text, take_up)?),
            None => (rest, Exact::ZERO),
        };
        plied(text, body)?.held(strands)?.take_up(take_up)
    }
}

impl FromStr for LinearDensity {
    type Err = Error;

    /// Reads what [`Yarn`] reads, and gives the resultant.
    fn from_str(text: &str) -> Result<Self, Error> {
        text.parse::<Yarn>()?.resultant()
    }
}

fn number(text: &str, part: &str) -> Result<Exact, Error> {
    part.parse().map_err(|_| Error::parse(WHAT, text, FORMS))
}

fn whole(text: &str, part: &str) -> Result<u32, Error> {
    part.parse().map_err(|_| Error::parse(WHAT, text, FORMS))
}

/// A count with its plies after an x, or a length per mass, or a slashed count.
fn plied(text: &str, body: &str) -> Result<Yarn, Error> {
    if let Some((single, plies)) = body.rsplit_once(" x ") {
        let single = plied(text, single)?;
        let plies = whole(text, plies)?.saturating_mul(single.plies());
        return single.plied(plies);
    }
    if let Some(density) = length_per_mass(body) {
        return Ok(Yarn::single(density?));
    }
    let (count, system) = count_and_system(text, body)?;
    match count.split_once('/') {
        Some(slashed) if !count.contains(' ') => slash(text, slashed, system),
        _ => Ok(Yarn::single(LinearDensity::new(number(text, count)?, system)?)),
    }
}

/// `450 m/100 g`, `450 m per 100 g`, `1400 yd/lb`; `None` when it is not one.
fn length_per_mass(body: &str) -> Option<Result<LinearDensity, Error>> {
    let (length, mass) = body.split_once(" per ").or_else(|| body.rsplit_once('/'))?;
    let mass = match mass.parse::<MassUnit>() {
        Ok(unit) => Mass::new(Exact::ONE, unit),
        Err(_) => mass.parse(),
    };
    let length: Length = length.parse().ok()?;
    Some(mass.and_then(|mass| LinearDensity::of(length, mass)))
}

/// The count and the system, in either order: `2/28 Nm`, `Nm 2/28`, `62s worsted`.
fn count_and_system<'a>(text: &str, body: &'a str) -> Result<(&'a str, Numbering), Error> {
    let refuse = |why| Error::parse(WHAT, text, why);
    let leads = body.starts_with(char::is_alphabetic);
    let (count, name) = if leads {
        let at = body.find(|c: char| c.is_ascii_digit()).ok_or_else(|| refuse(FORMS))?;
        let (name, count) = body.split_at(at);
        (count, name.strip_suffix(' ').unwrap_or(name))
    } else {
        let (count, name) = split_unit(body);
        (count, name.strip_prefix("s ").unwrap_or(name))
    };
    let unnamed = if name.is_empty() && count.contains('/') { UNNAMED } else { FORMS };
    name.parse().map(|system| (count, system)).map_err(|_| refuse(unnamed))
}

fn slash(text: &str, (first, second): (&str, &str), system: Numbering) -> Result<Yarn, Error> {
    if system.is_direct() {
        return Err(Error::parse(WHAT, text, DIRECT));
    }
    let (first, second) = (number(text, first)?, number(text, second)?);
    let (plies, count) = order(text, first, second, system)?;
    let count = LinearDensity::new(count, system)?;
    let plies = u32::try_from(plies).map_err(|_| Error::parse(WHAT, text, SLASH))?;
    if system != Numbering::SpunSilk {
        return Yarn::single(count).plied(plies);
    }
    // Spun silk is numbered as finished: the single is finer by the plies.
    let single = LinearDensity::from_tex(count.tex().checked_div(Exact::from(plies))?)?;
    Yarn::single(single).plied(plies)
}

/// Which of the two numbers is the plies; see the docs of [`Yarn`].
fn order(
    text: &str,
    first: Exact,
    second: Exact,
    system: Numbering,
) -> Result<(i64, Exact), Error> {
    let most = Exact::literal(bounds::PLIES_IN_SLASH, 1);
    let may_be_plies = |n: Exact| n.is_whole() && n.is_positive() && n <= most;
    match (may_be_plies(first), may_be_plies(second)) {
        (true, false) => Ok((first.numer(), second)),
        (false, true) => Ok((second.numer(), first)),
        (true, true) if first == second => Ok((first.numer(), second)),
        (true, true) if first < second && system != Numbering::Cotton => {
            Ok((first.numer(), second))
        }
        (true, true) => Err(Error::parse(WHAT, text, EITHER)),
        (false, false) => Err(Error::parse(WHAT, text, SLASH)),
    }
}
