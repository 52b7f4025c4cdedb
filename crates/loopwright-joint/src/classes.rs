//! One variable for all unknowns that equations between two tie together.
//!
//! Every count is `base + step * t` for the whole variable `t` of its class, which
//! runs from 0 to the class's `top`. Repeats and equations between two classes are
//! then solved for good (a linear Diophantine equation each), and what is left
//! speaks of classes.

use crate::demand::{Link, Row};
use crate::step::{At, Step, Stop, narrow};
use crate::unknown::Steps;
use alloc::vec::Vec;
use num_integer::{div_ceil as ceil, div_floor as floor, gcd};

/// Where an unknown's count comes from: `base + step * t`.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Place {
    pub(crate) class: usize,
    pub(crate) base: i64,
    pub(crate) step: i64,
}

/// `low <= sum of coefficient * t <= high`, over classes in rising order.
#[derive(Clone, Debug)]
pub(crate) struct Form {
    pub(crate) terms: Vec<(usize, i64)>,
    pub(crate) low: i64,
    pub(crate) high: i64,
}

impl Form {
    pub(crate) const fn is_equation(&self) -> bool {
        self.low == self.high
    }
}

/// The sum of two variables is even, or with `odd` it is odd.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Parity {
    pub(crate) one: usize,
    pub(crate) other: usize,
    pub(crate) odd: bool,
}

#[derive(Debug)]
pub(crate) struct Classes {
    pub(crate) places: Vec<Place>,
    /// The variable of each class runs over `0..=top`.
    pub(crate) tops: Vec<i64>,
    pub(crate) forms: Vec<Form>,
    pub(crate) parities: Vec<Parity>,
}

/// The classes of `unknowns` under all of `links`.
pub(crate) fn classes(unknowns: &[Steps], links: &[&Link]) -> Step<Classes> {
    let mut merger = Merger::new(unknowns);
    let mut left: Vec<&Link> = links.to_vec();
    loop {
        let before = left.len();
        merger.reseated = false;
        let mut kept = Vec::with_capacity(before);
        for link in left {
            if merger.keep(link)? {
                kept.push(link);
            }
        }
        left = kept;
        if left.len() == before && !merger.reseated {
            break;
        }
    }
    merger.finish(&left)
}

struct Merger {
    places: Vec<Place>,
    tops: Vec<i64>,
    members: Vec<Vec<usize>>,
    /// Whether a form of three classes or more has left one of them fewer values.
    reseated: bool,
}

/// What a link is once it speaks of classes.
enum Reduced {
    Holds,
    Form(Form),
    Parity(Parity),
    /// The variable of this class must be odd, or even.
    Half(usize, bool),
}

impl Merger {
    fn new(unknowns: &[Steps]) -> Self {
        let mut places = Vec::with_capacity(unknowns.len());
        let mut tops = Vec::with_capacity(unknowns.len());
        for (class, &Steps { first, each, more }) in unknowns.iter().enumerate() {
            let step = if more == 0 { 0 } else { each };
            places.push(Place { class, base: first.into(), step: step.into() });
            tops.push(i64::from(more));
        }
        let members = (0..unknowns.len()).map(|place| [place].into()).collect();
        Self { places, tops, members, reseated: false }
    }

    /// Works `link` into the classes where it ties no more than two, and says
    /// whether anything of it is left.
    fn keep(&mut self, link: &Link) -> Step<bool> {
        match self.reduce(link)? {
            Reduced::Holds => Ok(false),
            Reduced::Half(class, odd) => {
                let first = i64::from(odd);
                let steps = floor((self.top(class)? - first).into(), 2);
                self.reseat(class, first, 2, narrow(steps)?).map(|()| false)
            }
            Reduced::Form(form) => match *form.terms.as_slice() {
                [(class, _)] => self.tighten(class, &form).map(|()| false),
                [one, other] if form.is_equation() => {
                    self.merge(one, other, form.low).map(|()| false)
                }
                _ if form.is_equation() => self.sift(&form).map(|()| true),
                _ => Ok(true),
            },
            Reduced::Parity(_) => Ok(true),
        }
    }

    /// What the coefficients of all other classes have in common leaves a class of an
    /// equation one value in so many.
    fn sift(&mut self, form: &Form) -> Step<()> {
        if form.terms.iter().filter(|term| term.1.abs() == 1).nth(1).is_some() {
            return Ok(());
        }
        for (place, &(class, times)) in form.terms.iter().enumerate() {
            let others = form.terms.iter().enumerate().filter(|other| other.0 != place);
            let shared = others.fold(0, |shared, other| gcd(shared, other.1.1.unsigned_abs()));
            let shared = i128::from(shared);
            if shared > 1 {
                // The row is reduced, so `times` has nothing in common with `shared`.
                let total = i128::from(form.low).rem_euclid(shared);
                let first = (total * inverse(times.into(), shared)).rem_euclid(shared);
                let steps = floor(i128::from(self.top(class)?) - first, shared);
                self.reseat(class, narrow(first)?, narrow(shared)?, narrow(steps)?)?;
                self.reseated = true;
                // The other coefficients stay, but this one has moved.
                return Ok(());
            }
        }
        Ok(())
    }

    fn top(&self, class: usize) -> Step<i64> {
        self.tops.at(class).copied()
    }

    fn reduce(&self, link: &Link) -> Step<Reduced> {
        match link {
            Link::Row(row) => self.reduce_row(row),
            Link::Parity(one, other) => {
                reduce_parity(*self.places.at(*one)?, *self.places.at(*other)?)
            }
        }
    }

    fn reduce_row(&self, row: &Row) -> Step<Reduced> {
        let mut terms = Vec::with_capacity(row.terms.len());
        let mut base = 0_i128;
        for &(unknown, times) in &row.terms {
            let place = self.places.at(unknown)?;
            base += i128::from(times) * i128::from(place.base);
            if place.step != 0 {
                terms.push((place.class, i128::from(times) * i128::from(place.step)));
            }
        }
        gather(&mut terms);
        let (mut least, mut most) = (0_i128, 0_i128);
        for &(class, times) in &terms {
            let reach = times * i128::from(self.top(class)?);
            least += reach.min(0);
            most += reach.max(0);
        }
        let low = row.low.map_or(least, |low| i128::from(low) - base);
        let high = row.high.map_or(most, |high| i128::from(high) - base);
        if low > most || high < least {
            return Err(Stop::Infeasible);
        }
        if low <= least && high >= most {
            return Ok(Reduced::Holds);
        }
        shrink(&terms, low.max(least), high.min(most)).map(Reduced::Form)
    }

    /// One class alone is bounded.
    fn tighten(&mut self, class: usize, form: &Form) -> Step<()> {
        let [(_, times)] = *form.terms.as_slice() else { return Ok(()) };
        let (low, high, times) = (i128::from(form.low), i128::from(form.high), i128::from(times));
        let (from, to) = if times > 0 { (low, high) } else { (high, low) };
        let first = narrow(ceil(from, times))?.max(0);
        let last = narrow(floor(to, times))?.min(self.top(class)?);
        self.reseat(class, first, 1, last - first)
    }

    /// The variable of `class` becomes `first + step * s`, for `s` in `0..=steps`.
    fn reseat(&mut self, class: usize, first: i64, step: i64, steps: i64) -> Step<()> {
        if steps < 0 {
            return Err(Stop::Infeasible);
        }
        *self.tops.at_mut(class)? = steps;
        for &member in self.members.at(class)? {
            self.places.at_mut(member)?.reseat(first, step, steps);
        }
        Ok(())
    }

    /// `a * t + b * u = total`: both variables become steps of one.
    fn merge(&mut self, one: (usize, i64), other: (usize, i64), total: i64) -> Step<()> {
        let ((class, a), (into, b)) = (one, other);
        let (a, b, total) = (i128::from(a), i128::from(b), i128::from(total));
        let modulus = b.abs();
        // The row is reduced, so `a` and `b` have no common factor.
        let start = (total.rem_euclid(modulus) * inverse(a, modulus)).rem_euclid(modulus);
        let (step, other_step) = (modulus, -a * b.signum());
        let other_start = (total - a * start) / b;
        let (mut low, mut high) = (0, floor(i128::from(self.top(class)?) - start, step));
        let (near, far) = (-other_start, i128::from(self.top(into)?) - other_start);
        let (near, far) = if other_step > 0 { (near, far) } else { (far, near) };
        low = low.max(ceil(near, other_step));
        high = high.min(floor(far, other_step));
        if low > high {
            return Err(Stop::Infeasible);
        }
        let steps = narrow(high - low)?;
        let fixed = |step: i128| if steps == 0 { Ok(0) } else { narrow(step) };
        let first = narrow(start + step * low)?;
        let other_first = narrow(other_start + other_step * low)?;
        self.reseat(class, first, fixed(step)?, steps)?;
        self.reseat(into, other_first, fixed(other_step)?, steps)?;
        self.join(class, into)
    }

    fn join(&mut self, class: usize, into: usize) -> Step<()> {
        let moved = core::mem::take(self.members.at_mut(class)?);
        for &member in &moved {
            self.places.at_mut(member)?.class = into;
        }
        self.members.at_mut(into)?.extend(moved);
        Ok(())
    }

    /// Numbers the classes by their first unknowns, which then rise with their
    /// variables, and writes what is left of the links over them.
    fn finish(mut self, left: &[&Link]) -> Step<Classes> {
        let mut number: Vec<Option<usize>> = (0..self.tops.len()).map(|_| None).collect();
        let mut tops = Vec::new();
        for unknown in 0..self.places.len() {
            let place = *self.places.at(unknown)?;
            if number.at(place.class)?.is_some() {
                continue;
            }
            let top = self.top(place.class)?;
            if place.step < 0 {
                self.reseat(place.class, top, -1, top)?;
            }
            *number.at_mut(place.class)? = Some(tops.len());
            tops.push(top);
        }
        for place in &mut self.places {
            place.class = number.at(place.class)?.ok_or(Stop::Large)?;
        }
        self.tops = tops;
        self.written(left)
    }

    fn written(self, left: &[&Link]) -> Step<Classes> {
        let (mut forms, mut parities) = (Vec::new(), Vec::new());
        for link in left {
            match self.reduce(link)? {
                Reduced::Form(form) => forms.push(form),
                Reduced::Parity(parity) => parities.push(parity),
                Reduced::Holds | Reduced::Half(..) => {}
            }
        }
        Ok(Classes { places: self.places, tops: self.tops, forms, parities })
    }
}

fn reduce_parity(one: Place, other: Place) -> Step<Reduced> {
    let odd = (one.base + other.base) % 2 != 0;
    let moves = |place: Place| place.step % 2 != 0;
    match (moves(one), moves(other)) {
        (true, true) if one.class != other.class => {
            Ok(Reduced::Parity(Parity { one: one.class, other: other.class, odd }))
        }
        (true, false) => Ok(Reduced::Half(one.class, odd)),
        (false, true) => Ok(Reduced::Half(other.class, odd)),
        _ if odd => Err(Stop::Infeasible),
        _ => Ok(Reduced::Holds),
    }
}

impl Place {
    const fn reseat(&mut self, first: i64, step: i64, steps: i64) {
        self.base += self.step * first;
        self.step = if steps == 0 { 0 } else { self.step * step };
    }
}

/// Sorts by class, adds up terms of one class and drops those that cancel.
pub(crate) fn gather(terms: &mut Vec<(usize, i128)>) {
    terms.sort_unstable_by_key(|term| term.0);
    terms.dedup_by(|next, kept| {
        let same = next.0 == kept.0;
        if same {
            kept.1 += next.1;
        }
        same
    });
    terms.retain(|term| term.1 != 0);
}

/// Divides by the greatest common divisor; whole bounds move inwards.
fn shrink(terms: &[(usize, i128)], low: i128, high: i128) -> Step<Form> {
    let mut divisor = 0;
    for &(_, times) in terms {
        divisor = gcd(divisor, narrow(times)?.unsigned_abs());
    }
    let divisor = i128::from(divisor.max(1));
    let (low, high) = (narrow(ceil(low, divisor))?, narrow(floor(high, divisor))?);
    if low > high {
        return Err(Stop::Infeasible);
    }
    let narrowed = |&(class, times): &(usize, i128)| Ok((class, narrow(times / divisor)?));
    Ok(Form { terms: terms.iter().map(narrowed).collect::<Step<_>>()?, low, high })
}

/// The inverse of `a` modulo `modulus`, which has no common factor with it.
fn inverse(a: i128, modulus: i128) -> i128 {
    let (mut rest, mut next) = (modulus, a.rem_euclid(modulus));
    let (mut at, mut after) = (0, 1);
    while next != 0 {
        let quotient = rest / next;
        (rest, next) = (next, rest % next);
        (at, after) = (after, at - quotient * after);
    }
    at.rem_euclid(modulus)
}
