//! The best assignment of a network, by eliminating variable after variable.
//!
//! To eliminate a variable is to note, for every assignment of the variables it is
//! tied to, its best value and what that costs. Sums add and largest deviations take
//! the greater, so a dearer part can never make a cheaper whole: each table may keep
//! the cheapest alone. The same is true of the order of numbers among assignments of
//! one sum: the first place where two of them differ does not depend on the rest.

use crate::classes::Form;
use crate::network::{Network, Plan, Price};
use crate::propagate::Range;
use crate::step::{At, Step, Stop};
use alloc::vec;
use alloc::vec::Vec;

/// The best assignment of the network's classes, and its price; `None` when there
/// is none. `own` has, for each class, the price of each value of its range.
pub(crate) fn best(
    network: &Network,
    plan: &Plan,
    own: &[Vec<Price>],
    rule: Rule,
) -> Step<Option<(Price, Vec<i64>)>> {
    let mut tables = Tables::new(network, plan, own, rule)?;
    let mut price = Price::ZERO;
    for (turn, (variable, scope)) in plan.order.iter().enumerate() {
        let bucket = tables.eliminate(turn, *variable, scope)?;
        if scope.is_empty() {
            let whole = bucket.prices.first().copied().unwrap_or(Price::NONE);
            if whole == Price::NONE {
                return Ok(None);
            }
            price = price.with(whole);
        }
        tables.keep(turn, bucket)?;
    }
    tables.assignment().map(|values| Some((price, values)))
}

/// What goes before what among assignments of one sum.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub(crate) enum Rule {
    /// The least largest miss.
    Largest,
    /// Misses of at most so much; of those, the greater count of the earlier class.
    Greater(i128),
}

/// What is known of one eliminated variable.
#[derive(Debug, Default)]
struct Bucket {
    variable: usize,
    scope: Vec<usize>,
    /// How far apart neighbouring values of each scope variable lie.
    strides: Vec<usize>,
    prices: Vec<Price>,
    choices: Vec<i64>,
    /// The turns whose tables were used up.
    children: Vec<usize>,
}

struct Tables<'a> {
    network: &'a Network,
    own: &'a [Vec<Price>],
    rule: Rule,
    turns: Vec<usize>,
    /// By turn: the forms, parities and tables that meet there.
    forms: Vec<Vec<usize>>,
    parities: Vec<Vec<usize>>,
    sums: Vec<Vec<usize>>,
    meeting: Vec<Vec<usize>>,
    buckets: Vec<Bucket>,
}

/// A whole number that moves with the scope: the rest of a form or of a parity.
struct Moving {
    now: i64,
    /// What one step of each scope variable adds.
    steps: Vec<i64>,
    own: i64,
    low: i64,
    high: i64,
}

/// A place in a table that moves with the scope.
struct Lookup<'a> {
    prices: &'a [Price],
    now: usize,
    steps: Vec<usize>,
    own: usize,
}

impl<'a> Tables<'a> {
    fn new(network: &'a Network, plan: &Plan, own: &'a [Vec<Price>], rule: Rule) -> Step<Self> {
        let count = network.ranges.len();
        let mut turns = vec![0; count];
        for (turn, (variable, _)) in plan.order.iter().enumerate() {
            *turns.at_mut(*variable)? = turn;
        }
        let empty = || (0..count).map(|_| Vec::new()).collect::<Vec<Vec<usize>>>();
        let (mut forms, mut parities, mut sums) = (empty(), empty(), empty());
        let earliest = |form: &Form| -> Step<usize> {
            let mut turn = count;
            for &(variable, _) in &form.terms {
                turn = turn.min(*turns.at(variable)?);
            }
            Ok(turn)
        };
        for (place, form) in network.forms.iter().enumerate() {
            forms.at_mut(earliest(form)?)?.push(place);
        }
        for (place, sum) in network.sums.iter().enumerate() {
            sums.at_mut(earliest(&sum.form)?)?.push(place);
        }
        for (place, parity) in network.parities.iter().enumerate() {
            let turn = *turns.at(parity.one)?.min(turns.at(parity.other)?);
            parities.at_mut(turn)?.push(place);
        }
        let (meeting, buckets) = (empty(), Vec::with_capacity(count));
        Ok(Self { network, own, rule, turns, forms, parities, sums, meeting, buckets })
    }

    fn eliminate(&self, turn: usize, variable: usize, scope: &[usize]) -> Step<Bucket> {
        let mut sides = self.sides(scope)?;
        let mut strides = Vec::with_capacity(scope.len());
        let mut cells = 1_usize;
        for &(len, _) in &sides {
            strides.push(cells);
            cells = cells.checked_mul(len).ok_or(Stop::Large)?;
        }
        let mut bucket = Bucket {
            variable,
            scope: scope.to_vec(),
            strides,
            prices: Vec::with_capacity(cells),
            choices: Vec::with_capacity(cells),
            children: self.meeting.at(turn)?.clone(),
        };
        let mut cell = self.cell(turn, variable, scope)?;
        for _ in 0..cells {
            let (price, choice) = cell.best(|one, other| {
                self.goes_on() && self.comes_first(&bucket, &sides, one, other).unwrap_or(false)
            });
            bucket.prices.push(price);
            bucket.choices.push(choice);
            cell.advance(&mut sides);
        }
        Ok(bucket)
    }

    const fn goes_on(&self) -> bool {
        matches!(self.rule, Rule::Greater(_))
    }

    /// How many values each scope variable has, and which it is at.
    fn sides(&self, scope: &[usize]) -> Step<Vec<(usize, usize)>> {
        let side = |&near: &usize| {
            let len = usize::try_from(self.network.ranges.at(near)?.len());
            len.map(|len| (len, 0)).map_err(|_| Stop::Large)
        };
        scope.iter().map(side).collect()
    }

    /// All that meets at this turn, with the scope at its first assignment.
    fn cell(&self, turn: usize, variable: usize, scope: &[usize]) -> Step<Cell<'_>> {
        let network = self.network;
        let mut moving = Vec::new();
        for &form in self.forms.at(turn)? {
            let form = network.forms.at(form)?;
            moving.push(self.moving(&form.terms, variable, scope, (form.low, form.high))?);
        }
        let mut even = Vec::new();
        for &parity in self.parities.at(turn)? {
            let parity = network.parities.at(parity)?;
            let terms = [(parity.one, 1), (parity.other, 1)];
            let mut sum = self.moving(&terms, variable, scope, (0, 0))?;
            sum.now += i64::from(parity.odd);
            even.push(sum);
        }
        let mut misses = Vec::new();
        for &place in self.sums.at(turn)? {
            let sum = network.sums.at(place)?;
            let bounds = (sum.form.low, sum.form.high);
            let moving = self.moving(&sum.form.terms, variable, scope, bounds)?;
            misses.push((moving, sum.weight, sum.scale));
        }
        let mut lookups = Vec::new();
        for &child in self.meeting.at(turn)? {
            lookups.push(Lookup::new(self.buckets.at(child)?, variable, scope));
        }
        let none: &[Price] = &[];
        let own = self.own.get(variable).map_or(none, Vec::as_slice);
        let (range, rule) = (*network.ranges.at(variable)?, self.rule);
        Ok(Cell { range, own, moving, even, misses, lookups, rule })
    }

    fn moving(
        &self,
        terms: &[(usize, i64)],
        variable: usize,
        scope: &[usize],
        (low, high): (i64, i64),
    ) -> Step<Moving> {
        let mut moving =
            Moving { now: 0, steps: scope.iter().map(|_| 0).collect(), own: 0, low, high };
        for &(near, times) in terms {
            if near == variable {
                moving.own = times;
            } else {
                let place = scope.iter().position(|&other| other == near);
                *moving.steps.at_mut(place.ok_or(Stop::Large)?)? = times;
                moving.now += times * self.network.ranges.at(near)?.low;
            }
        }
        Ok(moving)
    }

    /// Files a bucket under the turn of the scope variable that comes next.
    fn keep(&mut self, turn: usize, bucket: Bucket) -> Step<()> {
        let mut next = None;
        for &near in &bucket.scope {
            let turn = *self.turns.at(near)?;
            next = Some(next.map_or(turn, |other: usize| other.min(turn)));
        }
        if let Some(next) = next {
            self.meeting.at_mut(next)?.push(turn);
        }
        self.buckets.push(bucket);
        Ok(())
    }

    /// Reads the choices back, the last eliminated first.
    fn assignment(&self) -> Step<Vec<i64>> {
        let mut values = vec![0; self.network.ranges.len()];
        for bucket in self.buckets.iter().rev() {
            let choice = self.choice(bucket, &values)?;
            *values.at_mut(bucket.variable)? = choice;
        }
        values.truncate(self.network.classes);
        Ok(values)
    }

    fn choice(&self, bucket: &Bucket, values: &[i64]) -> Step<i64> {
        let mut cell = 0;
        for (&near, stride) in bucket.scope.iter().zip(&bucket.strides) {
            let offset = values.at(near)? - self.network.ranges.at(near)?.low;
            cell += usize::try_from(offset).map_err(|_| Stop::Large)? * stride;
        }
        bucket.choices.at(cell).copied()
    }

    /// Whether, with the scope as it stands, the value `one` leads to an assignment
    /// of all that is eliminated here with the greater value where it first differs
    /// from the one of `other`.
    fn comes_first(
        &self,
        bucket: &Bucket,
        sides: &[(usize, usize)],
        one: i64,
        other: i64,
    ) -> Step<bool> {
        let mut values = vec![0; self.network.ranges.len()];
        for (&near, &(_, offset)) in bucket.scope.iter().zip(sides) {
            let offset = i64::try_from(offset).map_err(|_| Stop::Large)?;
            *values.at_mut(near)? = self.network.ranges.at(near)?.low + offset;
        }
        let one = self.below(bucket, one, &mut values)?;
        let other = self.below(bucket, other, &mut values)?;
        let differing = one.iter().zip(&other).filter(|(one, other)| one != other).min();
        Ok(differing.is_some_and(|(one, other)| one.1 > other.1))
    }

    /// All classes eliminated at or below `bucket`, with their values; always in the
    /// same order.
    fn below(&self, bucket: &Bucket, value: i64, values: &mut [i64]) -> Step<Vec<(usize, i64)>> {
        let mut found = Vec::new();
        let mut open: Vec<(&Bucket, Option<i64>)> = [(bucket, Some(value))].into();
        while let Some((bucket, known)) = open.pop() {
            let value = match known {
                Some(value) => value,
                None => self.choice(bucket, values)?,
            };
            *values.at_mut(bucket.variable)? = value;
            if bucket.variable < self.network.classes {
                found.push((bucket.variable, value));
            }
            for &child in &bucket.children {
                open.push((self.buckets.at(child)?, None));
            }
        }
        Ok(found)
    }
}

impl<'a> Lookup<'a> {
    fn new(bucket: &'a Bucket, variable: usize, scope: &[usize]) -> Self {
        let stride = |of: usize| {
            let place = bucket.scope.iter().position(|&near| near == of);
            place.and_then(|place| bucket.strides.get(place)).copied().unwrap_or(0)
        };
        let steps = scope.iter().map(|&near| stride(near)).collect();
        Self { prices: &bucket.prices, now: 0, steps, own: stride(variable) }
    }
}

/// One assignment of the scope: which value of the variable is best.
struct Cell<'a> {
    range: Range,
    own: &'a [Price],
    moving: Vec<Moving>,
    even: Vec<Moving>,
    /// Sums that should come to `low`, with what one of miss costs and is.
    misses: Vec<(Moving, i128, i128)>,
    lookups: Vec<Lookup<'a>>,
    rule: Rule,
}

impl Cell<'_> {
    fn best(&self, comes_first: impl Fn(i64, i64) -> bool) -> (Price, i64) {
        let mut best = (Price::NONE, self.range.low);
        let Some(range) = self.narrowed() else { return best };
        for value in range.low..=range.high {
            if self.even.iter().any(|sum| (sum.now + value) % 2 != 0) {
                continue;
            }
            let price = self.price(value);
            if price < best.0
                || (price == best.0 && price != Price::NONE && comes_first(value, best.1))
            {
                best = (price, value);
            }
        }
        best
    }

    /// The values that every form leaves.
    fn narrowed(&self) -> Option<Range> {
        let mut range = self.range;
        for form in &self.moving {
            let (from, to) = (form.low - form.now, form.high - form.now);
            let (first, last) = match form.own {
                1 => (from, to),
                -1 => (-to, -from),
                own if own > 0 => (ceil(from, own), to.div_euclid(own)),
                own => (ceil(-to, -own), (-from).div_euclid(-own)),
            };
            range.low = range.low.max(first);
            range.high = range.high.min(last);
        }
        (range.low <= range.high).then_some(range)
    }

    fn price(&self, value: i64) -> Price {
        let offset = usize::try_from(value - self.range.low).unwrap_or(usize::MAX);
        let mut price = self.own.get(offset).copied().unwrap_or(Price::ZERO);
        for (sum, weight, scale) in &self.misses {
            let miss = i128::from((sum.now + sum.own * value - sum.low).abs());
            let largest = match self.rule {
                Rule::Largest => scale.wrapping_mul(miss),
                Rule::Greater(most) if scale.wrapping_mul(miss) > most => return Price::NONE,
                Rule::Greater(_) => 0,
            };
            price = price.with(Price { sum: weight.wrapping_mul(miss), largest });
        }
        for lookup in &self.lookups {
            match lookup.prices.get(lookup.now + lookup.own * offset) {
                Some(&part) if part != Price::NONE => price = price.with(part),
                _ => return Price::NONE,
            }
        }
        price
    }

    /// Moves to the next assignment of the scope: its first variable the quickest.
    fn advance(&mut self, sides: &mut [(usize, usize)]) {
        for (place, (len, offset)) in sides.iter_mut().enumerate() {
            let back = *offset;
            let wraps = back + 1 == *len;
            *offset = if wraps { 0 } else { back + 1 };
            let misses = self.misses.iter_mut().map(|miss| &mut miss.0);
            for sum in self.moving.iter_mut().chain(&mut self.even).chain(misses) {
                let step = sum.steps.get(place).copied().unwrap_or(0);
                sum.now += if wraps { -step * i64::try_from(back).unwrap_or(0) } else { step };
            }
            for lookup in &mut self.lookups {
                let step = lookup.steps.get(place).copied().unwrap_or(0);
                lookup.now = if wraps { lookup.now - step * back } else { lookup.now + step };
            }
            if !wraps {
                break;
            }
        }
    }
}

/// `a / b` rounded up, for a positive `b`.
const fn ceil(a: i64, b: i64) -> i64 {
    -((-a).div_euclid(b))
}
