//! The best counts of a whole problem, part by part.

use crate::classes::{self, Classes, Form, Parity};
use crate::cost::{self, Cost};
use crate::demand::Link;
use crate::error::{Error, Kind};
use crate::propagate::{self, Range};
use crate::search::{self, Budget, Found, Part};
use crate::step::{At, Step, Stop};
use crate::unknown::Unknown;
use alloc::vec;
use alloc::vec::Vec;

/// Rounds of narrowing over the whole problem.
const PASSES: u32 = 50;

/// Tables of one window may take this many cells.
const CELLS: u64 = 1 << 20;

/// What a problem comes to.
#[derive(Debug)]
pub(crate) enum Answer {
    Best {
        counts: Vec<u32>,
        proved: bool,
    },
    /// It is proved that no counts will do.
    None,
}

/// The best counts that hold all of `links`, within `steps` of work.
pub(crate) fn solve(
    unknowns: &[Unknown],
    links: &[&Link],
    wanted: Wanted,
    steps: u64,
) -> Result<Answer, Error> {
    let mut budget = Budget { left: steps, cells: CELLS };
    let found = Whole::new(unknowns, links).and_then(|mut whole| whole.solve(wanted, &mut budget));
    let spent = budget.left == 0;
    match found {
        Ok(counts) => Ok(Answer::Best { counts, proved: !spent }),
        Err(Stop::Infeasible) if spent => Err(Kind::Unproved { steps }.into()),
        Err(Stop::Infeasible) => Ok(Answer::None),
        Err(Stop::Large) => Err(Error::overflow()),
    }
}

/// How good an answer must be.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub(crate) enum Wanted {
    /// The one best answer.
    Best,
    /// Any answer at all.
    Any,
}

struct Whole {
    classes: Classes,
    costs: Vec<Cost>,
    ranges: Vec<Range>,
    /// Which forms and parities are in force: equations always, the rest once an
    /// answer has broken them.
    forms: Vec<bool>,
    parities: Vec<bool>,
    /// Parts solved before.
    known: Vec<Solved>,
}

/// A part by its classes and what ties them, with its best answer.
struct Solved {
    members: Members,
    part: Part,
    found: Found,
    /// The answer of least sum that comes first, under the cap it was found for.
    first: Option<(i128, Found)>,
}

#[derive(Clone, Debug, Default, Eq, PartialEq)]
struct Members {
    classes: Vec<usize>,
    forms: Vec<usize>,
    parities: Vec<usize>,
}

impl Whole {
    fn new(unknowns: &[Unknown], links: &[&Link]) -> Step<Self> {
        let classes = classes::classes(unknowns, links)?;
        let costs = cost::costs(unknowns, &classes.places, classes.tops.len())?;
        let mut ranges = propagate::whole(&classes.tops);
        propagate::narrow(&mut ranges, &classes.forms, PASSES)?;
        let forms = classes.forms.iter().map(Form::is_equation).collect();
        let parities = classes.parities.iter().map(|_| false).collect();
        Ok(Self { classes, costs, ranges, forms, parities, known: Vec::new() })
    }

    /// Solves what is in force; brings in what the answer breaks; and again. An
    /// answer that breaks nothing is best, for it is best among even more answers.
    fn solve(&mut self, wanted: Wanted, budget: &mut Budget) -> Step<Vec<u32>> {
        loop {
            self.solve_parts(budget)?;
            let values = self.values(|solved| &solved.found)?;
            if self.bring_in(&values)? {
                continue;
            }
            if wanted == Wanted::Any {
                return self.counts(&values);
            }
            self.choose_first(budget)?;
            let values = self
                .values(|solved| solved.first.as_ref().map_or(&solved.found, |first| &first.1))?;
            if !self.bring_in(&values)? {
                return self.counts(&values);
            }
        }
    }

    fn solve_parts(&mut self, budget: &mut Budget) -> Step<()> {
        let mut before = core::mem::take(&mut self.known);
        for members in self.members()? {
            let same = before.iter().position(|solved| solved.members == members);
            let solved = match same {
                Some(place) => before.swap_remove(place),
                None => self.solve_part(members, budget)?,
            };
            self.known.push(solved);
        }
        Ok(())
    }

    fn solve_part(&self, members: Members, budget: &mut Budget) -> Step<Solved> {
        let part = self.part(&members)?;
        let found = search::best(&part, budget)?.ok_or(Stop::Infeasible)?;
        Ok(Solved { members, part, found, first: None })
    }

    /// Among answers of least sum whose deviations stay within the least largest one
    /// of the whole, each part takes the first in the order of numbers.
    fn choose_first(&mut self, budget: &mut Budget) -> Step<()> {
        let largest = self.known.iter().map(|solved| solved.found.price.largest).max();
        let cap = largest.unwrap_or(0);
        for solved in &mut self.known {
            if solved.first.as_ref().is_some_and(|first| first.0 == cap) {
                continue;
            }
            let found = search::first(&solved.part, cap, &solved.found, budget)?;
            solved.first = Some((cap, found));
        }
        Ok(())
    }

    /// The classes that hang together by what is in force.
    fn members(&self) -> Step<Vec<Members>> {
        let mut groups = Groups::new(self.ranges.len());
        for (form, _) in self.classes.forms.iter().zip(&self.forms).filter(|(_, on)| **on) {
            for (&(one, _), &(other, _)) in form.terms.iter().zip(form.terms.iter().skip(1)) {
                groups.join(one, other)?;
            }
        }
        for (parity, _) in self.classes.parities.iter().zip(&self.parities).filter(|(_, on)| **on) {
            groups.join(parity.one, parity.other)?;
        }
        let (numbers, count) = groups.numbers()?;
        let mut members: Vec<Members> = (0..count).map(|_| Members::default()).collect();
        for (class, &number) in numbers.iter().enumerate() {
            members.at_mut(number)?.classes.push(class);
        }
        for (place, (form, on)) in self.classes.forms.iter().zip(&self.forms).enumerate() {
            if let (Some(&(class, _)), true) = (form.terms.first(), on) {
                members.at_mut(*numbers.at(class)?)?.forms.push(place);
            }
        }
        for (place, (parity, on)) in self.classes.parities.iter().zip(&self.parities).enumerate() {
            if *on {
                members.at_mut(*numbers.at(parity.one)?)?.parities.push(place);
            }
        }
        Ok(members)
    }

    fn part(&self, members: &Members) -> Step<Part> {
        let local = |class: usize| members.classes.binary_search(&class).map_err(|_| Stop::Large);
        let (mut costs, mut ranges) = (Vec::new(), Vec::new());
        for &class in &members.classes {
            costs.push(self.costs.at(class)?.clone());
            ranges.push(*self.ranges.at(class)?);
        }
        let mut forms = Vec::with_capacity(members.forms.len());
        for &place in &members.forms {
            let form = self.classes.forms.at(place)?;
            let term = |&(class, times): &(usize, i64)| Ok((local(class)?, times));
            let terms = form.terms.iter().map(term).collect::<Step<_>>()?;
            forms.push(Form { terms, low: form.low, high: form.high });
        }
        let mut parities = Vec::with_capacity(members.parities.len());
        for &place in &members.parities {
            let Parity { one, other, odd } = *self.classes.parities.at(place)?;
            parities.push(Parity { one: local(one)?, other: local(other)?, odd });
        }
        Ok(Part { costs, ranges, forms, parities })
    }

    /// The value of every class.
    fn values(&self, of: impl Fn(&Solved) -> &Found) -> Step<Vec<i64>> {
        let mut values = vec![0; self.ranges.len()];
        for solved in &self.known {
            for (&class, &value) in solved.members.classes.iter().zip(&of(solved).values) {
                *values.at_mut(class)? = value;
            }
        }
        Ok(values)
    }

    /// Puts in force what `values` break; whether there was anything.
    fn bring_in(&mut self, values: &[i64]) -> Step<bool> {
        let mut broken = false;
        for (form, on) in self.classes.forms.iter().zip(&mut self.forms).filter(|(_, on)| !**on) {
            let mut sum = 0;
            for &(class, times) in &form.terms {
                sum += times * values.at(class)?;
            }
            *on = sum < form.low || sum > form.high;
            broken |= *on;
        }
        let parities = self.classes.parities.iter().zip(&mut self.parities);
        for (parity, on) in parities.filter(|(_, on)| !**on) {
            let sum = values.at(parity.one)? + values.at(parity.other)?;
            *on = (sum % 2 != 0) != parity.odd;
            broken |= *on;
        }
        Ok(broken)
    }

    fn counts(&self, values: &[i64]) -> Step<Vec<u32>> {
        let count = |place: &classes::Place| {
            let count = place.base + place.step * values.at(place.class)?;
            u32::try_from(count).map_err(|_| Stop::Large)
        };
        self.classes.places.iter().map(count).collect()
    }
}

/// Which things hang together.
struct Groups(Vec<usize>);

impl Groups {
    fn new(count: usize) -> Self {
        Self((0..count).collect())
    }

    fn head(&mut self, mut place: usize) -> Step<usize> {
        loop {
            let up = *self.0.at(place)?;
            if up == place {
                return Ok(place);
            }
            let top = *self.0.at(up)?;
            *self.0.at_mut(place)? = top;
            place = top;
        }
    }

    fn join(&mut self, one: usize, other: usize) -> Step<()> {
        let (one, other) = (self.head(one)?, self.head(other)?);
        *self.0.at_mut(one.max(other))? = one.min(other);
        Ok(())
    }

    /// A number from 0 for each thing's group, in the order of their first things.
    fn numbers(&mut self) -> Step<(Vec<usize>, usize)> {
        let (mut numbers, mut count) = (Vec::with_capacity(self.0.len()), 0);
        for place in 0..self.0.len() {
            let head = self.head(place)?;
            if head == place {
                numbers.push(count);
                count += 1;
            } else {
                numbers.push(*numbers.at(head)?);
            }
        }
        Ok((numbers, count))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::demand::Demand;
    use loopwright_gauge::Exact;
    use std::format;

    /// The next of a row of numbers that look random, below `below`.
    fn next(state: &mut u64, below: i64) -> i64 {
        *state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1);
        i64::try_from(*state >> 33).unwrap() % below
    }

    /// Counts near whole and half ideals, and sums that some counts hold.
    fn problem(state: &mut u64) -> (Vec<Unknown>, Vec<Link>) {
        let count = 4 + next(state, 4);
        let ideals: Vec<i64> = (0..count).map(|_| 20 + next(state, 40)).collect();
        let unknown = |&half: &i64| Unknown::near(Exact::new(half, 2).unwrap()).range(0..=60);
        let unknowns = ideals.iter().map(unknown).collect();
        let mut links = Vec::new();
        for _ in 0..2 {
            let mut terms = Vec::new();
            let mut total = 0;
            for (place, half) in ideals.iter().enumerate() {
                if next(state, 3) > 0 {
                    let times = [1, 1, -1, 2, 3][usize::try_from(next(state, 5)).unwrap()];
                    total += times * (half / 2 + next(state, 5) - 2);
                    terms.push((times, format!("{place}")));
                }
            }
            if terms.is_empty() {
                continue;
            }
            let find = |name: &str| name.parse().ok();
            links.extend(Demand::sum(terms, total).links("sum", find).unwrap());
        }
        (unknowns, links)
    }

    #[test]
    fn splitting_ranges_gives_what_whole_tables_give() {
        let mut state = 1;
        for turn in 0..400 {
            let (unknowns, links) = problem(&mut state);
            let links: Vec<&Link> = links.iter().collect();
            let solved = |cells| {
                let mut budget = Budget { left: u64::MAX, cells };
                Whole::new(&unknowns, &links)
                    .and_then(|mut whole| whole.solve(Wanted::Best, &mut budget))
            };
            let whole = solved(1 << 30);
            for cells in [12, 40, 200] {
                assert_eq!(solved(cells), whole, "turn {turn}, {cells} cells: {links:?}");
            }
        }
    }
}
