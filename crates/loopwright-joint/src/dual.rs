//! Prices for forms: a lower bound on every answer, and reduced costs.
//!
//! With a price `p` on each form, the sum of all costs is at least the sum over
//! classes of the least of `cost - m * t`, where `m` adds up price times
//! coefficient, plus each price times the bound it presses on (Lagrange). Any prices
//! give a true bound; here each form in turn gets the price at which its own
//! classes, moved one by one where that is cheapest, just satisfy it.

use crate::classes::Form;
use crate::cost::{Cost, Sum};
use crate::propagate::Range;
use crate::step::{At, Step, Stop};
use alloc::vec::Vec;

/// Rounds over all forms; later rounds gain little.
const ROUNDS: u32 = 6;

#[derive(Clone, Debug)]
pub(crate) struct Prices {
    /// What each class's cost is reduced by at each step of its variable.
    pub(crate) slopes: Vec<i128>,
    /// Where each class's reduced cost is least.
    pub(crate) best: Vec<i64>,
    /// No answer within the ranges costs less.
    pub(crate) bound: i128,
}

/// The bound with no prices at all.
pub(crate) fn plain(costs: &[Cost], ranges: &[Range]) -> Prices {
    let slopes = costs.iter().map(|_| 0).collect();
    let best: Vec<i64> =
        costs.iter().zip(ranges).map(|(cost, &range)| least(cost, 0, range, cost.near())).collect();
    let bound = costs.iter().zip(&best).map(|(cost, &t)| cost.at(t)).sum();
    Prices { slopes, best, bound }
}

/// The bound by prices.
pub(crate) fn priced(
    costs: &[Cost],
    ranges: &[Range],
    forms: &[Form],
    sums: &[Sum],
    plain: &Prices,
) -> Step<Prices> {
    let (slopes, best) = (plain.slopes.clone(), plain.best.clone());
    let mut ascent = Ascent { costs, ranges, slopes, best };
    // A sum's price may not pass its weight: from there on, missing is cheaper.
    let all = || {
        let held = forms.iter().map(|form| (form, i128::MAX));
        held.chain(sums.iter().map(|sum| (&sum.form, sum.weight)))
    };
    let mut prices: Vec<i128> = all().map(|_| 0).collect();
    for _ in 0..ROUNDS {
        let mut moved = false;
        for ((form, most), price) in all().zip(&mut prices) {
            moved |= ascent.settle_form(form, most, price)?;
        }
        if !moved {
            break;
        }
    }
    let bound = ascent.bound(all().map(|of| of.0), &prices)?;
    Ok(Prices { slopes: ascent.slopes, best: ascent.best, bound })
}

struct Ascent<'a> {
    costs: &'a [Cost],
    ranges: &'a [Range],
    slopes: Vec<i128>,
    best: Vec<i64>,
}

/// One class of a form that can move the form's sum the wanted way.
struct Move {
    class: usize,
    /// One up or one down.
    way: i64,
    /// How far the sum moves for it.
    gain: i64,
    price: i128,
}

impl Ascent<'_> {
    /// Gives `form` the price at which its classes just satisfy it.
    fn settle_form(&mut self, form: &Form, most: i128, price: &mut i128) -> Step<bool> {
        let (low, high) = if form.is_equation() || *price == 0 {
            (form.low, form.high)
        } else if *price > 0 {
            (form.low, form.low)
        } else {
            (form.high, form.high)
        };
        let mut sum = 0;
        for &(class, times) in &form.terms {
            sum += times * self.best.at(class)?;
        }
        let (goal, way) = match (sum < low, sum > high) {
            (true, _) => (low, 1),
            (_, true) => (high, -1),
            _ => return Ok(false),
        };
        if *price * i128::from(way) >= most {
            return Ok(false);
        }
        let paid = self.walk(form, goal - sum, way)?;
        let mut change = paid * i128::from(way);
        if most < i128::MAX {
            change = (*price + change).clamp(-most, most) - *price;
        }
        if !form.is_equation() && *price != 0 && (*price > 0) != (*price + change > 0) {
            change = -*price;
        }
        *price += change;
        for &(class, times) in &form.terms {
            let slope = self.slopes.at_mut(class)?;
            *slope = change
                .checked_mul(times.into())
                .and_then(|change| slope.checked_add(change))
                .ok_or(Stop::Large)?;
            self.settle_class(class)?;
        }
        Ok(change != 0)
    }

    /// Moves classes, the cheapest first, until the sum has moved by `short`; the
    /// price of the last move.
    fn walk(&mut self, form: &Form, mut short: i64, way: i64) -> Step<i128> {
        let mut paid = 0;
        while short * way > 0 {
            let Some(step) = self.cheapest(form, way)? else { break };
            let wanted = (short.abs() + step.gain - 1) / step.gain;
            let steps = self.alike(&step, wanted)?;
            *self.best.at_mut(step.class)? += step.way * steps;
            short -= way * step.gain * steps;
            paid = step.price.max(paid);
        }
        Ok(paid)
    }

    fn cheapest(&self, form: &Form, way: i64) -> Step<Option<Move>> {
        let mut cheapest: Option<Move> = None;
        for &(class, times) in &form.terms {
            let (t, range) = (*self.best.at(class)?, self.ranges.at(class)?);
            let way = way * times.signum();
            if t + way < range.low || t + way > range.high {
                continue;
            }
            let price = self.rise(class, t, way)? / i128::from(times.abs());
            if cheapest.as_ref().is_none_or(|other| price < other.price) {
                cheapest = Some(Move { class, way, gain: times.abs(), price });
            }
        }
        Ok(cheapest)
    }

    /// What one step from `t` adds to the reduced cost of `class`.
    fn rise(&self, class: usize, t: i64, way: i64) -> Step<i128> {
        let (cost, slope) = (self.costs.at(class)?, *self.slopes.at(class)?);
        Ok(if way > 0 { cost.slope(t) - slope } else { slope - cost.slope(t - 1) })
    }

    /// How many steps, at most `wanted`, cost as much as the first.
    fn alike(&self, step: &Move, wanted: i64) -> Step<i64> {
        let (t, range) = (*self.best.at(step.class)?, self.ranges.at(step.class)?);
        let room = if step.way > 0 { range.high - t } else { t - range.low };
        let most = wanted.min(room);
        let first = self.rise(step.class, t, step.way)?;
        let (mut known, mut stride) = (1, 1);
        while known < most {
            let next = (known + stride).min(most);
            if self.rise(step.class, t + step.way * (next - 1), step.way)? != first {
                break;
            }
            (known, stride) = (next, stride * 2);
        }
        Ok(known)
    }

    fn settle_class(&mut self, class: usize) -> Step<()> {
        let (t, range) = (*self.best.at(class)?, *self.ranges.at(class)?);
        let down = t > range.low && self.rise(class, t, -1)? < 0;
        let up = t < range.high && self.rise(class, t, 1)? < 0;
        if down || up {
            let slope = *self.slopes.at(class)?;
            *self.best.at_mut(class)? = least(self.costs.at(class)?, slope, range, t);
        }
        Ok(())
    }

    fn bound<'f>(&self, forms: impl Iterator<Item = &'f Form>, prices: &[i128]) -> Step<i128> {
        let mut bound = 0_i128;
        for ((cost, slope), &t) in self.costs.iter().zip(&self.slopes).zip(&self.best) {
            let reduced = slope.checked_mul(t.into()).ok_or(Stop::Large)?;
            bound = bound.checked_add(cost.at(t) - reduced).ok_or(Stop::Large)?;
        }
        for (form, &price) in forms.zip(prices) {
            let pressed = if price > 0 { form.low } else { form.high };
            let pressed = price.checked_mul(pressed.into()).ok_or(Stop::Large)?;
            bound = bound.checked_add(pressed).ok_or(Stop::Large)?;
        }
        Ok(bound)
    }
}

/// The least place of the least of `cost - slope * t`: convex, so a bracket is found
/// by strides that double from `near`, and halved.
fn least(cost: &Cost, slope: i128, range: Range, near: i64) -> i64 {
    let start = near.clamp(range.low, range.high);
    let (mut low, mut high) = (range.low, range.high);
    let falls = |t: i64| t < range.high && cost.slope(t) < slope;
    let mut stride = 1;
    if falls(start) {
        low = start + 1;
        while low + stride <= high && falls(low + stride - 1) {
            (low, stride) = (low + stride, stride * 2);
        }
        high = high.min(low + stride);
    } else {
        high = start;
        while high - stride >= low && !falls(high - stride) {
            (high, stride) = (high - stride, stride * 2);
        }
        low = low.max(high - stride);
    }
    while low < high {
        let middle = low + (high - low) / 2;
        if falls(middle) { low = middle + 1 } else { high = middle }
    }
    low
}

impl Prices {
    /// The values of `class` whose reduced cost is at most `slack` above its least:
    /// all that an answer within `slack` of the bound can have.
    pub(crate) fn window(
        &self,
        class: usize,
        cost: &Cost,
        range: Range,
        slack: i128,
    ) -> Step<Range> {
        let (slope, best) = (*self.slopes.at(class)?, *self.best.at(class)?);
        let floor = cost.at(best);
        let within = |steps: i64| {
            // The difference first: `slope * t` alone may not fit.
            slope
                .checked_mul(steps.into())
                .and_then(|reduced| (cost.at(best + steps) - floor).checked_sub(reduced))
                .is_some_and(|excess| excess <= slack)
        };
        let low = best - farthest(best - range.low, |steps| within(-steps));
        let high = best + farthest(range.high - best, within);
        Ok(Range { low, high })
    }
}

/// The greatest number in `0..=most` that is within, where all smaller ones are.
fn farthest(most: i64, within: impl Fn(i64) -> bool) -> i64 {
    let (mut known, mut stride) = (0, 1);
    while known < most {
        let next = (known + stride).min(most);
        if within(next) {
            (known, stride) = (next, stride * 2);
        } else if next == known + 1 {
            break;
        } else {
            stride = ((next - known) / 2).max(1);
        }
    }
    known
}
