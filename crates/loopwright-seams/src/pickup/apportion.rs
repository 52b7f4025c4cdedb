//! Whole numbers shared out in given proportions.

use crate::Error;
use alloc::vec::Vec;
use loopwright_gauge::Exact;
use num_integer::gcd;

/// What an error calls the least common denominator of several lengths.
pub(crate) const MEASURE: &str = "the common measure of the edges' lengths";

/// The numbers over their least common denominator: the numerators.
pub(crate) fn common(numbers: &[Exact]) -> Result<Vec<i128>, Error> {
    let refuse = || Error::range(MEASURE, "too fine to be held", "a fraction of fewer digits");
    let mut denom = 1_i128;
    for number in numbers {
        let own = i128::from(number.denom());
        denom = (denom / gcd(denom, own)).checked_mul(own).ok_or_else(refuse)?;
    }
    // The sum of all must be held too, with room for a count of stitches.
    let all: Option<Vec<i128>> = numbers
        .iter()
        .map(|number| i128::from(number.numer()).checked_mul(denom / i128::from(number.denom())))
        .collect();
    let all = all.ok_or_else(refuse)?;
    let sum = all.iter().try_fold(0_i128, |sum, n| sum.checked_add(*n));
    sum.filter(|sum| *sum <= i128::MAX >> 28).map(|_| all).ok_or_else(refuse)
}

/// Shares of `whole` near `targets / denom`, which are not below zero and add up to
/// `whole`: each rounded down, and one more for the largest remainders, the earlier
/// first of equal ones.
pub(crate) fn largest_remainders(targets: &[i128], denom: i128, whole: u32) -> Vec<u32> {
    let mut shares: Vec<u32> =
        targets.iter().map(|target| u32::try_from(target / denom).unwrap_or(whole)).collect();
    let left = whole.saturating_sub(shares.iter().sum());
    let mut order: Vec<usize> = (0..targets.len()).collect();
    let remainder = |at: &usize| targets.get(*at).map_or(0, |target| target % denom);
    order.sort_by_key(|at| core::cmp::Reverse(remainder(at)));
    for at in order.into_iter().take(left as usize) {
        if let Some(share) = shares.get_mut(at) {
            *share += 1;
        }
    }
    shares
}

/// The same shares with one moved to the last, from the last of the others that was
/// rounded up with a remainder just as large; `None` where there is none.
pub(crate) fn give_last(shares: &[u32], targets: &[i128], denom: i128) -> Option<Vec<u32>> {
    let (last, before) = targets.split_last()?;
    let up = |share: u32, target: i128| i128::from(share) > target / denom;
    if up(*shares.last()?, *last) {
        return None;
    }
    let from = shares
        .iter()
        .zip(before)
        .rposition(|(&share, &target)| target % denom == last % denom && up(share, target))?;
    let mut moved = shares.to_vec();
    *moved.get_mut(from)? -= 1;
    *moved.last_mut()? += 1;
    Some(moved)
}
