//! What an assignment costs, in whole numbers.
//!
//! All lengths and counts share the denominator `D` and weights the denominator `W`; a
//! miss is times `D`, and a cost is weight times miss times `D * W * FINE`. Each cost is
//! an absolute value of a straight line over classes, so it is convex; its own numbers
//! are over a smaller denominator, and `scale` makes them of one measure.

use crate::bounds;
use crate::classes::{Form, Place, gather};
use crate::network::Price;
use crate::objective::Term;
use crate::step::{At, Step, Stop, narrow};
use alloc::vec::Vec;

/// Costs are this much finer than weights, so that prices, which are whole, are fine too.
pub(crate) const FINE: i128 = 1 << 10;

/// `weight * |base + step * t|`.
#[derive(Clone, Copy, Debug)]
struct Line {
    weight: i128,
    scale: i128,
    base: i128,
    step: i128,
}

/// The costs of one class by itself: convex in its variable.
#[derive(Clone, Debug, Default)]
pub(crate) struct Cost {
    lines: Vec<Line>,
}

/// What several classes cost together: the weight times how far the sum of the form
/// is from where it should be.
#[derive(Clone, Debug)]
pub(crate) struct Sum {
    pub(crate) form: Form,
    pub(crate) weight: i128,
    pub(crate) scale: i128,
}

impl Sum {
    /// What it costs at these values of the classes.
    pub(crate) fn price(&self, values: &[i64]) -> Step<Price> {
        let mut sum = 0;
        for &(class, times) in &self.form.terms {
            sum += times * values.at(class)?;
        }
        let miss = i128::from((sum - self.form.low).abs());
        Ok(Price { sum: self.weight * miss, largest: self.scale * miss })
    }
}

/// All costs of a problem.
#[derive(Debug, Default)]
pub(crate) struct Costs {
    pub(crate) classes: Vec<Cost>,
    pub(crate) sums: Vec<Sum>,
}

impl Cost {
    pub(crate) fn at(&self, t: i64) -> i128 {
        self.lines.iter().map(|line| line.weight.wrapping_mul(line.apart(t))).sum()
    }

    /// A value near the ideal of one unknown of the class.
    pub(crate) fn near(&self) -> i64 {
        let line = self.lines.iter().find(|line| line.step != 0);
        let near = line.map_or(0, |line| -line.base / line.step);
        i64::try_from(near).unwrap_or(0)
    }

    /// The largest miss of any one term of the class.
    pub(crate) fn miss(&self, t: i64) -> i128 {
        self.lines.iter().map(|line| line.scale.wrapping_mul(line.apart(t))).max().unwrap_or(0)
    }

    /// What the step from `t` to `t + 1` adds.
    pub(crate) fn slope(&self, t: i64) -> i128 {
        self.at(t + 1) - self.at(t)
    }

    pub(crate) fn len(&self) -> usize {
        self.lines.len()
    }
}

impl Line {
    /// Products here and below do not wrap: [`costs`] has bounded them all. Checking
    /// them once more would take most of the time.
    const fn apart(&self, t: i64) -> i128 {
        (self.base + self.step.wrapping_mul(t as i128)).abs()
    }
}

/// The costs over `classes` classes of terms over unknowns.
pub(crate) fn costs(terms: &[Term], places: &[Place], classes: usize) -> Step<Costs> {
    let mut costs = Costs { classes: Vec::new(), sums: Vec::new() };
    costs.classes.resize_with(classes, Cost::default);
    let mut whole = 0_i128;
    for term in terms {
        let reach = term.reach.checked_mul(term.weight).ok_or(Stop::Large)?;
        whole = whole.checked_add(reach).filter(|&n| n <= bounds::PRICE).ok_or(Stop::Large)?;
        costs.add(term, places)?;
    }
    Ok(costs)
}

impl Costs {
    fn add(&mut self, term: &Term, places: &[Place]) -> Step<()> {
        let (weight, scale, mut base) = (term.weight, term.scale, term.base);
        let mut terms = Vec::with_capacity(term.counts.len());
        let mut first = None;
        for &(unknown, times) in &term.counts {
            let place = places.at(unknown)?;
            base += times * i128::from(place.base);
            terms.push((place.class, times * i128::from(place.step)));
            first = first.or(Some(place.class));
        }
        gather(&mut terms);
        match *terms.as_slice() {
            // A count that is fixed still tells of its class how far it misses.
            [] => {
                let class = first.ok_or(Stop::Large)?;
                self.classes.at_mut(class)?.lines.push(Line { weight, scale, base, step: 0 });
            }
            [(class, step)] => {
                self.classes.at_mut(class)?.lines.push(Line { weight, scale, base, step });
            }
            _ => {
                let small = |&(class, times): &(usize, i128)| Ok((class, narrow(times)?));
                let terms = terms.iter().map(small).collect::<Step<Vec<_>>>()?;
                let goal = narrow(-base)?;
                let form = Form { terms, low: goal, high: goal };
                self.sums.push(Sum { form, weight, scale });
            }
        }
        Ok(())
    }
}
