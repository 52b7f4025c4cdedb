//! Narrowing ranges: what each form leaves to each of its variables.

use crate::classes::Form;
use crate::step::{At, Step, Stop};
use alloc::vec::Vec;

/// The values `low..=high` of one variable.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub(crate) struct Range {
    pub(crate) low: i64,
    pub(crate) high: i64,
}

impl Range {
    pub(crate) const fn len(self) -> u64 {
        (self.high - self.low).unsigned_abs() + 1
    }
}

/// Narrows `ranges` by `forms` until nothing moves, or after `passes`: no answer is
/// lost, but not every impossible value need be found.
pub(crate) fn narrow(ranges: &mut [Range], forms: &[Form], passes: u32) -> Step<()> {
    for _ in 0..passes {
        let mut moved = false;
        for form in forms {
            moved |= once(ranges, form)?;
        }
        if !moved {
            break;
        }
    }
    Ok(())
}

fn once(ranges: &mut [Range], form: &Form) -> Step<bool> {
    let (mut least, mut most) = (0_i64, 0_i64);
    for &(variable, times) in &form.terms {
        let (low, high) = reach(*ranges.at(variable)?, times);
        least += low;
        most += high;
    }
    if least > form.high || most < form.low {
        return Err(Stop::Infeasible);
    }
    if least >= form.low && most <= form.high {
        return Ok(false);
    }
    let mut moved = false;
    for &(variable, times) in &form.terms {
        let range = ranges.at_mut(variable)?;
        let (low, high) = reach(*range, times);
        // What is left for this term once the others are at their extremes.
        let (from, to) = (form.low - (most - high), form.high - (least - low));
        let (bottom, top) = if times > 0 {
            (ceil(from, times), to.div_euclid(times))
        } else {
            (ceil(-to, -times), (-from).div_euclid(-times))
        };
        if bottom > range.low || top < range.high {
            *range = Range { low: bottom.max(range.low), high: top.min(range.high) };
            moved = true;
            if range.low > range.high {
                return Err(Stop::Infeasible);
            }
            let (new_low, new_high) = reach(*range, times);
            least += new_low - low;
            most += new_high - high;
        }
    }
    Ok(moved)
}

/// The least and the most of `times * t`.
const fn reach(range: Range, times: i64) -> (i64, i64) {
    let (one, other) = (times * range.low, times * range.high);
    if one < other { (one, other) } else { (other, one) }
}

/// `a / b` rounded up, for a positive `b`.
const fn ceil(a: i64, b: i64) -> i64 {
    -((-a).div_euclid(b))
}

/// Whole ranges from 0 to `tops`.
pub(crate) fn whole(tops: &[i64]) -> Vec<Range> {
    tops.iter().map(|&high| Range { low: 0, high }).collect()
}
