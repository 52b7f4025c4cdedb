//! Oracles and generators of the seams room.
//!
//! Each oracle tries everything and keeps the best by the stated objective.

use loopwright::gauge::{Exact, Gauge};
use num_rational::Ratio;
use proptest::prelude::*;

/// A fraction as numerator over denominator.
pub type Fraction = (i64, i64);

/// The convergents of `numer / denom`: its continued fraction cut short after every
/// term and folded up from the right.
#[must_use]
pub fn convergents(numer: i64, denom: i64) -> Vec<Fraction> {
    let mut terms = Vec::new();
    let mut rest = Ratio::new(numer, denom);
    loop {
        terms.push(rest.to_integer());
        if rest.is_integer() {
            break;
        }
        rest = rest.fract().recip();
    }
    (1..=terms.len())
        .map(|length| {
            let (last, before) = terms[..length].split_last().expect("not empty");
            let folded = before
                .iter()
                .rev()
                .fold(Ratio::from(*last), |below, term| Ratio::from(*term) + below.recip());
            (*folded.numer(), *folded.denom())
        })
        .collect()
}

/// Every fraction met on the way to `numer / denom` down the tree of mediants, with a
/// denominator of at most `most`: the convergents and intermediates.
#[must_use]
pub fn mediants(numer: i64, denom: i64, most: i64) -> Vec<Fraction> {
    let aim = Ratio::new(numer, denom);
    let (mut low, mut high) = ((0, 1), (1, 0));
    let mut met = Vec::new();
    loop {
        let middle: Fraction = (low.0 + high.0, low.1 + high.1);
        if middle.1 > most {
            return met;
        }
        met.push(middle);
        match Ratio::new(middle.0, middle.1).cmp(&aim) {
            core::cmp::Ordering::Less => low = middle,
            core::cmp::Ordering::Greater => high = middle,
            core::cmp::Ordering::Equal => return met,
        }
    }
}

/// The positive fraction nearest to `numer / denom` with a denominator of at most
/// `most`, of equally near ones that with the smallest denominator; tries them all.
#[must_use]
pub fn nearest_fraction(numer: i64, denom: i64, most: i64) -> Fraction {
    let aim = Ratio::new(numer, denom);
    let distance = |&(p, q): &Fraction| {
        let apart = Ratio::new(p, q) - aim;
        (if apart < Ratio::from(0) { -apart } else { apart }, q, p)
    };
    (1..=most)
        .flat_map(|q| {
            let floor = numer * q / denom;
            [(floor.max(1), q), (floor + 1, q)]
        })
        .min_by_key(distance)
        .expect("there is always one")
}

/// Twice `parts` times the distance of `sum` from `nth * total / parts`.
fn apart(sum: u32, nth: usize, total: u32, parts: usize) -> i64 {
    let line = i64::try_from(nth).expect("small") * i64::from(total);
    (i64::from(sum) * i64::try_from(parts).expect("small") - line).abs()
}

/// Every way to write `total` as `parts` whole numbers that each lie in `least..=most`.
#[must_use]
pub fn compositions(total: u32, parts: usize, least: u32, most: u32) -> Vec<Vec<u32>> {
    if parts == 0 {
        return if total == 0 { vec![Vec::new()] } else { Vec::new() };
    }
    (least..=most.min(total))
        .flat_map(|first| {
            let rest = compositions(total - first, parts - 1, least, most);
            rest.into_iter().map(move |mut rest| {
                rest.insert(0, first);
                rest
            })
        })
        .collect()
}

fn sums(sizes: &[u32]) -> Vec<u32> {
    sizes
        .iter()
        .scan(0, |sum, size| {
            *sum += size;
            Some(*sum)
        })
        .collect()
}

/// The way to write `total` as `parts` numbers whose sums stay nearest to the straight
/// line, all distances added up; of equal ones that with the smallest early sums.
#[must_use]
pub fn evenest(total: u32, parts: usize, least: u32, most: u32) -> Vec<u32> {
    let cost = |sizes: &Vec<u32>| {
        let sums = sums(sizes);
        let cost: i64 =
            sums.iter().enumerate().map(|(at, &sum)| apart(sum, at + 1, total, parts)).sum();
        (cost, sums)
    };
    compositions(total, parts, least, most).into_iter().min_by_key(cost).expect("there is a way")
}

/// The way to write `total` as `parts` numbers that differ by at most one, the larger
/// ones first.
#[must_use]
pub fn larger_first(total: u32, parts: usize) -> Vec<u32> {
    let (total_parts, mut sizes) = (u32::try_from(parts).expect("small"), Vec::new());
    for nth in 0..total_parts {
        sizes.push((total + total_parts - 1 - nth) / total_parts);
    }
    sizes
}

/// The shares of `total` nearest to the proportions of `weights`: least sum of
/// distances, then the least largest, then more for the earlier. With `mirrored`, only
/// shares that read the same from both ends.
#[must_use]
pub fn nearest_shares(total: u32, weights: &[i64], mirrored: bool) -> Option<Vec<u32>> {
    let all: i64 = weights.iter().sum();
    let cost = |shares: &Vec<u32>| {
        let apart = shares
            .iter()
            .zip(weights)
            .map(|(&share, weight)| (i64::from(share) * all - weight * i64::from(total)).abs());
        let larger: Vec<i64> = shares.iter().map(|&share| -i64::from(share)).collect();
        (apart.clone().sum::<i64>(), apart.max(), larger)
    };
    compositions(total, weights.len(), 0, total)
        .into_iter()
        .filter(|shares| !mirrored || shares.iter().eq(shares.iter().rev()))
        .min_by_key(cost)
}

/// Gauges a knitter meets, and some that do not divide.
pub fn gauges() -> impl Strategy<Value = Gauge> {
    (80_i64..600, 100_i64..800).prop_map(|(stitches, rows)| {
        let tenths = |n| Exact::new(n, 10).expect("small");
        let span = loopwright::gauge::Length::cm(10).expect("small");
        Gauge::new(tenths(stitches), tenths(rows), span).expect("in bounds")
    })
}
