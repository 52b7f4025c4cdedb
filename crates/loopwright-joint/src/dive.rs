//! Any assignment at all, quickly: class after class is given the value its prices like
//! best, and what follows is worked out at once.

use crate::budget::Budget;
use crate::classes::{Form, Parity};
use crate::propagate::{self, Range};
use crate::step::{At, Step, Stop};
use alloc::vec::Vec;

/// Rounds of narrowing after each choice.
const PASSES: u32 = 8;

/// An assignment within `ranges` that holds everything, near `liked`; `None` when the
/// budget ends first or there is none.
pub(crate) fn dive(
    ranges: &[Range],
    forms: &[Form],
    parities: &[Parity],
    liked: &[i64],
    budget: &mut Budget,
) -> Step<Option<Vec<i64>>> {
    let terms: usize = forms.iter().map(|form| form.terms.len() + 1).sum();
    let work = u64::try_from((terms + ranges.len() + parities.len()) / 2 + 1).unwrap_or(u64::MAX);
    let mut stack = Vec::from([ranges.to_vec()]);
    while let Some(mut ranges) = stack.pop() {
        if !budget.spend(work) {
            break;
        }
        match narrow(&mut ranges, forms, parities) {
            Err(Stop::Infeasible) => continue,
            other => other?,
        }
        let open = ranges.iter().enumerate().filter(|(_, range)| range.low < range.high);
        let Some((class, &range)) = open.min_by_key(|(_, range)| range.len()) else {
            // The last rounds of narrowing may have left a form behind.
            let values: Vec<i64> = ranges.iter().map(|range| range.low).collect();
            if holds(&values, forms, parities)? {
                return Ok(Some(values));
            }
            continue;
        };
        let Range { low, high } = range;
        let best = (*liked.at(class)?).clamp(low, high);
        let (below, above) = (Range { low, high: best - 1 }, Range { low: best + 1, high });
        for piece in [below, above, Range { low: best, high: best }] {
            if piece.low <= piece.high {
                let mut next = ranges.clone();
                *next.at_mut(class)? = piece;
                stack.push(next);
            }
        }
    }
    Ok(None)
}

fn holds(values: &[i64], forms: &[Form], parities: &[Parity]) -> Step<bool> {
    for form in forms {
        let mut sum = 0;
        for &(class, times) in &form.terms {
            sum += times * values.at(class)?;
        }
        if sum < form.low || sum > form.high {
            return Ok(false);
        }
    }
    for parity in parities {
        if ((values.at(parity.one)? + values.at(parity.other)?) % 2 != 0) != parity.odd {
            return Ok(false);
        }
    }
    Ok(true)
}

fn narrow(ranges: &mut [Range], forms: &[Form], parities: &[Parity]) -> Step<()> {
    propagate::narrow(ranges, forms, PASSES)?;
    let mut moved = false;
    for parity in parities {
        moved |= even(ranges, parity.one, parity.other, parity.odd)?;
        moved |= even(ranges, parity.other, parity.one, parity.odd)?;
    }
    if moved { propagate::narrow(ranges, forms, PASSES) } else { Ok(()) }
}

/// Once `one` has one value left, takes the wrong ends off the range of `other`.
fn even(ranges: &mut [Range], one: usize, other: usize, odd: bool) -> Step<bool> {
    let Range { low, high } = *ranges.at(one)?;
    if low != high {
        return Ok(false);
    }
    let wrong = |t: i64| ((low + t) % 2 != 0) != odd;
    let range = ranges.at_mut(other)?;
    let before = *range;
    range.low += i64::from(wrong(range.low));
    range.high -= i64::from(wrong(range.high));
    if range.low > range.high { Err(Stop::Infeasible) } else { Ok(*range != before) }
}
