//! Arithmetic that never refuses an estimate for want of room.
//!
//! A result is exact where its fraction can be held. Where it grows too long it is
//! snapped to a stated grid: the low end of a spread down, the high end up, the likely
//! value to the nearest part.

mod root;

pub(crate) use root::sqrt;

use crate::error::Kind;
use crate::{Error, Spread};
use alloc::format;
use core::fmt;
use loopwright_gauge::{Exact, Round};
use num_integer::Integer as _;

/// How many bits of a denominator are looked at when a fraction is snapped; with the 40
/// bits of the finest grid they fit 128.
const BITS: u32 = 80;

/// What a quantity is snapped to when its fraction grows too long: parts of its unit.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Grid {
    what: &'static str,
    parts: i64,
}

/// Millimetres, to the nanometre.
pub(crate) const LENGTH: Grid = Grid::new("the length of yarn", 1_000_000);
/// Square millimetres, to a billionth.
pub(crate) const SQUARE: Grid = Grid::new("the square of a length", 1_000_000_000);
/// Grams, to the picogram: the yarn of one stitch.
pub(crate) const STITCH_MASS: Grid = Grid::new("the mass of yarn", 1_000_000_000_000);
/// Grams, to the nanogram: an amount of yarn.
pub(crate) const MASS: Grid = Grid::new("the mass of yarn", 1_000_000_000);
/// Stitches, to a thousandth.
pub(crate) const STITCHES: Grid = Grid::new("the count of stitches", 1_000);
/// Packages and other shares, to a millionth.
pub(crate) const SHARE: Grid = Grid::new("the share", 1_000_000);

impl Grid {
    pub(crate) const fn new(what: &'static str, parts: i64) -> Self {
        Self { what, parts }
    }

    pub(crate) fn product(self, a: Exact, b: Exact, round: Round) -> Result<Exact, Error> {
        a.checked_mul(b).or_else(|_| self.snap(numer(a) * numer(b), denom(a) * denom(b), round))
    }

    /// `b` is above zero, or an error.
    pub(crate) fn quotient(self, a: Exact, b: Exact, round: Round) -> Result<Exact, Error> {
        match a.checked_div(b) {
            Err(refused) if !b.is_positive() => Err(refused.into()),
            found => found.or_else(|_| self.snap(numer(a) * denom(b), denom(a) * numer(b), round)),
        }
    }

    pub(crate) fn sum(self, a: Exact, b: Exact, round: Round) -> Result<Exact, Error> {
        let (left, right) = (numer(a) * denom(b), numer(b) * denom(a));
        a.checked_add(b).or_else(|_| self.snap(left + right, denom(a) * denom(b), round))
    }

    pub(crate) fn difference(self, a: Exact, b: Exact, round: Round) -> Result<Exact, Error> {
        let (left, right) = (numer(a) * denom(b), numer(b) * denom(a));
        a.checked_sub(b).or_else(|_| self.snap(left - right, denom(a) * denom(b), round))
    }

    /// `numer` over `denom`, which is above zero, in lowest terms or on the grid.
    pub(crate) fn ratio(self, numer: i128, denom: i128, round: Round) -> Result<Exact, Error> {
        let divisor = numer.gcd(&denom);
        let narrow = |n: i128| i64::try_from(n / divisor).ok();
        match (narrow(numer), narrow(denom)) {
            (Some(numer), Some(denom)) => Ok(Exact::new(numer, denom)?),
            _ => self.snap(numer, denom, round),
        }
    }

    /// `numer` over `denom`, which is above zero, on the grid.
    fn snap(self, numer: i128, denom: i128, round: Round) -> Result<Exact, Error> {
        let parts = i128::from(self.parts);
        let (whole, rest) = (numer.div_euclid(denom), numer.rem_euclid(denom));
        let share = share_of(rest, denom, parts, round);
        let all = whole.checked_mul(parts).and_then(|whole| whole.checked_add(share));
        let all = all.and_then(|all| i64::try_from(all).ok()).filter(|&all| all != i64::MIN);
        Ok(Exact::new(all.ok_or_else(|| self.too_large())?, self.parts)?)
    }

    fn too_large(self) -> Error {
        let most = format!("{}", i64::MAX / self.parts);
        Kind::Large { what: self.what, most }.into()
    }
}

/// How many of `parts` the fraction `rest` over `denom`, in 0..1, comes to. Cutting both to
/// [`BITS`] is rounded the same way, and shifts the result by less than one part.
fn share_of(rest: i128, denom: i128, parts: i128, round: Round) -> i128 {
    let cut = (i128::BITS - denom.leading_zeros()).saturating_sub(BITS);
    let more = i128::from(cut > 0);
    let (rest, denom) = (rest >> cut, denom >> cut);
    match round {
        Round::Floor => rest * parts / (denom + more),
        Round::Ceil => ((rest + more) * parts + denom - 1) / denom,
        _ => (2 * rest * parts + denom) / (2 * denom),
    }
}

fn numer(exact: Exact) -> i128 {
    exact.numer().into()
}

fn denom(exact: Exact) -> i128 {
    exact.denom().into()
}

/// A spread with each value through `change`, which rounds as it is told: low down, high
/// up, likely to the nearest.
pub(crate) fn outwards<T, U>(
    spread: Spread<T>,
    change: impl Fn(T, Round) -> Result<U, Error>,
) -> Result<Spread<U>, Error>
where
    T: Copy,
    U: Copy + Ord + fmt::Display,
{
    let [low, likely, high] = spread.parts();
    between(change(low, Round::Floor)?, change(likely, Round::HalfUp)?, change(high, Round::Ceil)?)
}

/// The spread from `low` to `high`; a likely value that was rounded beyond an end which
/// could be held exactly is that end.
pub(crate) fn between<T: Copy + Ord + fmt::Display>(
    low: T,
    likely: T,
    high: T,
) -> Result<Spread<T>, Error> {
    Ok(Spread::new(low, likely.max(low).min(high), high)?)
}

#[cfg(test)]
mod tests {
    use super::*;

    const PRIME: i64 = 9_223_372_036_854_775_783; // the largest below 2^63

    fn exact(numer: i64, denom: i64) -> Exact {
        Exact::new(numer, denom).unwrap()
    }

    #[test]
    fn what_can_be_held_is_exact() {
        let third = exact(1, 3);
        assert_eq!(LENGTH.product(third, third, Round::Floor), Ok(exact(1, 9)));
        assert_eq!(LENGTH.quotient(third, exact(7, 1), Round::Ceil), Ok(exact(1, 21)));
    }

    #[test]
    fn what_cannot_be_held_is_snapped_outwards() {
        let (a, b) = (exact(PRIME / 3 * 2, PRIME), exact(1, PRIME - 24));
        let sum = |round| LENGTH.sum(a, b, round).unwrap();
        assert_eq!(sum(Round::Floor), exact(666_666, 1_000_000));
        assert_eq!(sum(Round::HalfUp), exact(666_667, 1_000_000));
        assert_eq!(sum(Round::Ceil), exact(666_667, 1_000_000));
        let product = |round| LENGTH.product(a, exact(PRIME - 24, PRIME - 58), round).unwrap();
        assert_eq!(product(Round::Floor), exact(666_666, 1_000_000));
        assert_eq!(product(Round::Ceil), exact(666_667, 1_000_000));
        let below = |round| LENGTH.difference(b, a, round).unwrap();
        assert_eq!(below(Round::Floor), exact(-666_667, 1_000_000));
        assert_eq!(below(Round::Ceil), exact(-666_666, 1_000_000));
    }

    #[test]
    fn what_is_beyond_the_grid_is_refused_and_nothing_wraps() {
        let most = exact(i64::MAX, 1);
        for round in [Round::Floor, Round::HalfUp, Round::Ceil] {
            assert!(MASS.product(most, most, round).unwrap_err().is_range());
            assert!(MASS.quotient(most, exact(1, i64::MAX), round).unwrap_err().is_range());
            assert!(MASS.sum(most, exact(1, i64::MAX), round).unwrap_err().is_range());
            assert!(MASS.quotient(most, Exact::ZERO, round).is_err());
        }
    }
}
