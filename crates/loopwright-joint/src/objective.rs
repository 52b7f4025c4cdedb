//! What is to be small: weighted misses of wishes and measures, over one denominator.

use crate::bounds;
use crate::cost::FINE;
use crate::step::{Step, Stop};
use alloc::vec::Vec;
use loopwright_gauge::Exact;
use num_integer::Integer as _;

/// One miss as it is said: the sum of sizes times counts, less what is wanted.
#[derive(Clone, Debug)]
pub(crate) struct Said {
    pub(crate) weight: Exact,
    pub(crate) counts: Vec<(usize, Exact)>,
    pub(crate) wanted: Exact,
}

/// `weight * |base + sum of times * count|`, in whole numbers over a denominator of its
/// own.
#[derive(Clone, Debug)]
pub(crate) struct Term {
    /// What one of miss costs, by the measure of all.
    pub(crate) weight: i128,
    /// How much one of miss is, by the measure of all.
    pub(crate) scale: i128,
    pub(crate) counts: Vec<(usize, i128)>,
    pub(crate) base: i128,
    /// The miss is at most this, whatever the counts.
    pub(crate) reach: i128,
}

#[derive(Clone, Debug)]
pub(crate) struct Objective {
    pub(crate) terms: Vec<Term>,
    /// What one millimetre of miss, or one count without a gauge, costs at weight one.
    pub(crate) unit: i128,
}

impl Objective {
    pub(crate) fn new(said: &[Said]) -> Step<Self> {
        let sizes = said.iter().flat_map(|said| said.counts.iter().map(|count| count.1));
        let lengths = common(sizes.chain(said.iter().map(|said| said.wanted)))?;
        let weights = common(said.iter().map(|said| said.weight))?;
        let terms = said.iter().map(|said| term(said, lengths, weights));
        let unit = lengths.checked_mul(weights).and_then(|unit| unit.checked_mul(FINE));
        Ok(Self { terms: terms.collect::<Step<_>>()?, unit: unit.ok_or(Stop::Large)? })
    }
}

fn term(said: &Said, lengths: i128, weights: i128) -> Step<Term> {
    let weight = scaled(said.weight, weights)?.checked_mul(FINE).ok_or(Stop::Large)?;
    let own = common(said.counts.iter().map(|count| count.1).chain([said.wanted]))?;
    let scale = lengths / own;
    let weight = weight.checked_mul(scale).ok_or(Stop::Large)?;
    let base = -scaled(said.wanted, own)?;
    let mut counts = Vec::with_capacity(said.counts.len());
    let mut reach = base.abs();
    for &(unknown, size) in &said.counts {
        let times = scaled(size, own)?;
        let most = times.abs().checked_mul(bounds::COUNT.into()).ok_or(Stop::Large)?;
        reach = reach.checked_add(most).ok_or(Stop::Large)?;
        counts.push((unknown, times));
    }
    // Sums of several counts are held in 64 bits.
    if said.counts.len() > 1 && reach > bounds::FORM {
        return Err(Stop::Large);
    }
    Ok(Term { weight, scale, counts, base, reach })
}

/// The least common multiple of the denominators.
fn common(numbers: impl Iterator<Item = Exact>) -> Step<i128> {
    let mut multiple = 1_i128;
    for number in numbers {
        let denominator = i128::from(number.denom());
        let factor = denominator / multiple.gcd(&denominator);
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
