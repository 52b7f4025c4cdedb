//! What a class costs at each value of its variable, in whole numbers.
//!
//! Ideals share the denominator `D` and weights the denominator `W`; a cost is the
//! weighted deviation times `D * W`, and a deviation is times `D`. Each class's cost
//! is a sum of absolute values of straight lines, so it is convex.

use crate::bounds;
use crate::classes::Place;
use crate::step::{At, Step, Stop, gcd};
use crate::unknown::Unknown;
use alloc::vec::Vec;
use loopwright_gauge::Exact;

/// `weight * |base + step * t|`.
#[derive(Clone, Copy, Debug)]
struct Term {
    weight: i128,
    base: i128,
    step: i128,
}

/// The costs of one class: convex in its variable.
#[derive(Clone, Debug, Default)]
pub(crate) struct Cost {
    terms: Vec<Term>,
}

impl Cost {
    pub(crate) fn at(&self, t: i64) -> i128 {
        self.terms.iter().map(|term| term.weight * term.deviation(t)).sum()
    }

    /// A value near the ideal of one unknown of the class.
    pub(crate) fn near(&self) -> i64 {
        let term = self.terms.iter().find(|term| term.step != 0);
        let near = term.map_or(0, |term| -term.base / term.step);
        i64::try_from(near).unwrap_or(0)
    }

    /// The largest deviation of any unknown of the class.
    pub(crate) fn deviation(&self, t: i64) -> i128 {
        self.terms.iter().map(|term| term.deviation(t)).max().unwrap_or(0)
    }

    /// What the step from `t` to `t + 1` adds.
    pub(crate) fn slope(&self, t: i64) -> i128 {
        self.at(t + 1) - self.at(t)
    }
}

impl Term {
    fn deviation(&self, t: i64) -> i128 {
        (self.base + self.step * i128::from(t)).abs()
    }
}

/// The costs of `classes` classes.
pub(crate) fn costs(unknowns: &[Unknown], places: &[Place], classes: usize) -> Step<Vec<Cost>> {
    let ideals = common(unknowns.iter().map(|unknown| unknown.ideal))?;
    let weights = common(unknowns.iter().map(|unknown| unknown.weight))?;
    let mut costs: Vec<Cost> = (0..classes).map(|_| Cost::default()).collect();
    let mut whole = 0_i128;
    for (unknown, place) in unknowns.iter().zip(places) {
        let weight = scaled(unknown.weight, weights)?;
        let ideal = scaled(unknown.ideal, ideals)?;
        let scale = |n: i64| i128::from(n).checked_mul(ideals).ok_or(Stop::Large);
        let base = scale(place.base)?.checked_sub(ideal).ok_or(Stop::Large)?;
        let step = scale(place.step)?;
        let reach = scale(bounds::COUNT.into())?.checked_mul(weight).ok_or(Stop::Large)?;
        whole = whole.checked_add(reach).filter(|&n| n <= bounds::PRICE).ok_or(Stop::Large)?;
        costs.at_mut(place.class)?.terms.push(Term { weight, base, step });
    }
    Ok(costs)
}

/// The least common multiple of the denominators.
fn common(numbers: impl Iterator<Item = Exact>) -> Step<i128> {
    let mut multiple = 1_i128;
    for number in numbers {
        let denominator = number.denom();
        let rest = multiple.rem_euclid(denominator.into());
        let rest = u64::try_from(rest).map_err(|_| Stop::Large)?;
        let shared = gcd(denominator.unsigned_abs(), rest);
        let factor = i128::from(denominator) / i128::from(shared);
        multiple = multiple.checked_mul(factor).ok_or(Stop::Large)?;
        if multiple > bounds::PRICE {
            return Err(Stop::Large);
        }
    }
    Ok(multiple)
}

fn scaled(number: Exact, denominator: i128) -> Step<i128> {
    let times = denominator / i128::from(number.denom());
    times.checked_mul(number.numer().into()).ok_or(Stop::Large)
}
