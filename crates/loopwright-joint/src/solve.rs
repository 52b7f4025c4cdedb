//! The best counts of a whole problem, part by part.

use crate::budget::Budget;
use crate::classes::{self, Classes, Form, Parity};
use crate::cost::{self, Costs, Sum};
use crate::demand::Link;
use crate::groups::Groups;
use crate::objective::Term;
use crate::propagate::{self, Range};
use crate::search::{self, Found, Part, Wanted};
use crate::step::{At, Step, Stop};
use crate::unknown::Steps;
use alloc::vec;
use alloc::vec::Vec;

/// Rounds of narrowing over the whole problem.
const PASSES: u32 = 50;

/// Counts to be found, what is to be small, and what must hold.
#[derive(Debug)]
pub(crate) struct Model<'a> {
    pub(crate) unknowns: &'a [Steps],
    pub(crate) terms: &'a [Term],
    pub(crate) links: Vec<&'a Link>,
}

/// What a problem comes to.
#[derive(Debug)]
pub(crate) enum Answer {
    Best(Best),
    /// It is proved that no counts will do.
    None,
    /// The work ran out before anything was found or proved.
    Unknown,
}

/// Counts that hold everything.
#[derive(Debug)]
pub(crate) struct Best {
    pub(crate) counts: Vec<u32>,
    /// Whether they are proved to be the one best answer.
    pub(crate) proved: bool,
    /// No answer costs less.
    pub(crate) bound: i128,
}

/// The best counts of `model`, as far as `budget` goes.
pub(crate) fn solve(model: &Model<'_>, wanted: Wanted, budget: &mut Budget) -> Step<Answer> {
    // Should the work not be enough, there is some left to find anything at all.
    let reserve = budget.take(budget.left() / 4);
    let found = Whole::new(model).and_then(|mut whole| {
        let found = whole.solve(wanted, budget)?;
        budget.give_back(reserve);
        if found.is_some() { Ok(found) } else { whole.settle(budget) }
    });
    match found {
        Ok(None) => Ok(Answer::Unknown),
        Ok(Some(best)) => Ok(Answer::Best(best)),
        Err(Stop::Infeasible) => Ok(Answer::None),
        // Numbers too large to go on with only mean that nothing is known.
        Err(Stop::Large) => Ok(Answer::Unknown),
    }
}

struct Whole {
    classes: Classes,
    costs: Costs,
    ranges: Vec<Range>,
    /// Which forms and parities are in force: equations always, the rest once an
    /// answer has broken them.
    forms: Vec<bool>,
    parities: Vec<bool>,
    /// Parts solved before.
    known: Vec<Solved>,
    /// No answer costs less.
    bound: i128,
}

/// A part by its classes and what ties them, with its best answer.
struct Solved {
    members: Members,
    part: Part,
    found: Found,
    /// No answer of the part costs less.
    bound: i128,
    proved: bool,
    /// The answer of least sum that comes first, under the cap it was found for, and
    /// whether that is proved.
    first: Option<(i128, Found, bool)>,
}

#[derive(Clone, Debug, Default, Eq, PartialEq)]
struct Members {
    classes: Vec<usize>,
    forms: Vec<usize>,
    parities: Vec<usize>,
    sums: Vec<usize>,
}

impl Whole {
    fn new(model: &Model<'_>) -> Step<Self> {
        let classes = classes::classes(model.unknowns, &model.links)?;
        let costs = cost::costs(model.terms, &classes.places, classes.tops.len())?;
        let mut ranges = propagate::whole(&classes.tops);
        propagate::narrow(&mut ranges, &classes.forms, PASSES)?;
        let forms = classes.forms.iter().map(Form::is_equation).collect();
        let parities = classes.parities.iter().map(|_| false).collect();
        Ok(Self { classes, costs, ranges, forms, parities, known: Vec::new(), bound: 0 })
    }

    /// Solves what is in force; brings in what the answer breaks; and again. An
    /// answer that breaks nothing is best, for it is best among even more answers.
    /// `None` when the work ran out before there was one.
    fn solve(&mut self, wanted: Wanted, budget: &mut Budget) -> Step<Option<Best>> {
        loop {
            if !self.solve_parts(wanted, budget)? {
                return Ok(None);
            }
            let values = self.values(|solved| &solved.found)?;
            if self.bring_in(&values)? {
                continue;
            }
            if wanted == Wanted::Any {
                return self.best(&values).map(Some);
            }
            self.choose_first(budget)?;
            let first = self
                .values(|solved| solved.first.as_ref().map_or(&solved.found, |first| &first.1))?;
            if !self.bring_in(&first)? {
                return self.best(&first).map(Some);
            }
            if budget.is_spent() {
                // The counts before hold everything, and are the best there are.
                self.known.iter_mut().for_each(|solved| solved.proved = false);
                return self.best(&values).map(Some);
            }
        }
    }

    /// Counts that hold everything, if the work is enough to find any.
    fn settle(&mut self, budget: &mut Budget) -> Step<Option<Best>> {
        self.forms.iter_mut().chain(&mut self.parities).for_each(|on| *on = true);
        let known = self.bound;
        if !self.solve_parts(Wanted::Best, budget)? {
            return Ok(None);
        }
        self.known.iter_mut().for_each(|solved| solved.proved = false);
        let best = self.best(&self.values(|solved| &solved.found)?)?;
        Ok(Some(Best { bound: best.bound.max(known), ..best }))
    }

    /// Whether every part has an answer.
    fn solve_parts(&mut self, wanted: Wanted, budget: &mut Budget) -> Step<bool> {
        let mut before = core::mem::take(&mut self.known);
        let mut whole = true;
        let mut parts = self.members()?;
        // The small ones first: one large part may use all the work up.
        parts.sort_by_key(|members| members.classes.len());
        for members in parts {
            let same = before.iter().position(|solved| solved.members == members);
            let solved = if let Some(place) = same {
                Some(before.swap_remove(place))
            } else {
                // What fewer demands cost, more cost at least.
                let within = |solved: &&Solved| members.holds(&solved.members);
                let bound = before.iter().filter(within).map(|solved| solved.bound).sum();
                self.solve_part(members, bound, wanted, budget)?
            };
            whole &= solved.is_some();
            // Another part may still be proved impossible.
            self.known.extend(solved);
        }
        let bound = self.known.iter().map(|solved| solved.bound).sum();
        self.bound = self.bound.max(bound);
        Ok(whole)
    }

    fn solve_part(
        &self,
        members: Members,
        bound: i128,
        wanted: Wanted,
        budget: &mut Budget,
    ) -> Step<Option<Solved>> {
        let part = self.part(&members)?;
        let search::Outcome { found, open } = search::best(&part, bound, wanted, budget)?;
        let proved = open.is_none();
        let Some(found) = found else {
            return if proved { Err(Stop::Infeasible) } else { Ok(None) };
        };
        let bound = open.unwrap_or(found.price.sum).min(found.price.sum);
        Ok(Some(Solved { members, part, found, bound, proved, first: None }))
    }

    /// Among answers of least sum whose misses stay within the least largest one of
    /// the whole, each part takes the one with the greater counts first.
    fn choose_first(&mut self, budget: &mut Budget) -> Step<()> {
        let largest = self.known.iter().map(|solved| solved.found.price.largest).max();
        let cap = largest.unwrap_or(0);
        for solved in &mut self.known {
            if solved.first.as_ref().is_some_and(|first| first.0 == cap) {
                continue;
            }
            let outcome = search::first(&solved.part, cap, &solved.found, budget)?;
            let proved = outcome.open.is_none();
            let found = outcome.found.unwrap_or_else(|| solved.found.clone());
            solved.first = Some((cap, found, proved));
        }
        Ok(())
    }

    /// The classes that hang together by what is in force.
    fn members(&self) -> Step<Vec<Members>> {
        let mut groups = Groups::new(self.ranges.len());
        let forms = self.classes.forms.iter().zip(&self.forms).filter(|(_, on)| **on);
        for form in forms.map(|(form, _)| form).chain(self.costs.sums.iter().map(|sum| &sum.form)) {
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
        for (place, sum) in self.costs.sums.iter().enumerate() {
            if let Some(&(class, _)) = sum.form.terms.first() {
                members.at_mut(*numbers.at(class)?)?.sums.push(place);
            }
        }
        Ok(members)
    }

    fn part(&self, members: &Members) -> Step<Part> {
        let (mut costs, mut ranges) = (Vec::new(), Vec::new());
        for &class in &members.classes {
            costs.push(self.costs.classes.at(class)?.clone());
            ranges.push(*self.ranges.at(class)?);
        }
        let mut forms = Vec::with_capacity(members.forms.len());
        for &place in &members.forms {
            forms.push(members.form(self.classes.forms.at(place)?)?);
        }
        let mut parities = Vec::with_capacity(members.parities.len());
        for &place in &members.parities {
            let Parity { one, other, odd } = *self.classes.parities.at(place)?;
            parities.push(Parity { one: members.local(one)?, other: members.local(other)?, odd });
        }
        let mut sums = Vec::with_capacity(members.sums.len());
        for &place in &members.sums {
            let sum = self.costs.sums.at(place)?;
            sums.push(Sum { form: members.form(&sum.form)?, ..*sum });
        }
        Ok(Part { costs, ranges, forms, parities, sums })
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

    fn best(&self, values: &[i64]) -> Step<Best> {
        let count = |place: &classes::Place| {
            let count = place.base + place.step * values.at(place.class)?;
            u32::try_from(count).map_err(|_| Stop::Large)
        };
        let counts = self.classes.places.iter().map(count).collect::<Step<_>>()?;
        let proved = self
            .known
            .iter()
            .all(|solved| solved.proved && solved.first.as_ref().is_none_or(|first| first.2));
        let bound = self.known.iter().map(|solved| solved.bound).sum();
        Ok(Best { counts, proved, bound })
    }
}

impl Members {
    /// The number of a class within the part.
    fn local(&self, class: usize) -> Step<usize> {
        self.classes.binary_search(&class).map_err(|_| Stop::Large)
    }

    /// Whether all classes of `other` are among these.
    fn holds(&self, other: &Self) -> bool {
        other.classes.iter().all(|class| self.classes.binary_search(class).is_ok())
    }

    fn form(&self, form: &Form) -> Step<Form> {
        let term = |&(class, times): &(usize, i64)| Ok((self.local(class)?, times));
        let terms = form.terms.iter().map(term).collect::<Step<_>>()?;
        Ok(Form { terms, low: form.low, high: form.high })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::demand::{Demand, Spot};
    use crate::objective::{Objective, Said};
    use loopwright_gauge::Exact;
    use std::format;

    /// The next of a row of numbers that look random, below `below`.
    fn next(state: &mut u64, below: i64) -> i64 {
        *state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1);
        i64::try_from(*state >> 33).unwrap() % below
    }

    /// Counts near whole and half ideals, sums that some counts hold, and a measure.
    fn problem(state: &mut u64) -> (Vec<Steps>, Vec<Term>, Vec<Link>) {
        let count = 4 + next(state, 4);
        let ideals: Vec<i64> = (0..count).map(|_| 20 + next(state, 40)).collect();
        let whole = |n| Exact::whole(n);
        let mut said: Vec<Said> = Vec::new();
        for (place, &half) in ideals.iter().enumerate() {
            let wanted = Exact::new(half, 2).unwrap();
            said.push(Said { weight: whole(1), counts: [(place, whole(1))].into(), wanted });
        }
        let counts = (0..3).map(|place| (place, Exact::literal(1 + next(state, 3), 1))).collect();
        let wanted = Exact::new(40 + next(state, 60), 3).unwrap();
        said.push(Said { weight: Exact::literal(1 + next(state, 3), 1), counts, wanted });
        let unknowns = ideals.iter().map(|_| Steps { first: 0, each: 1, more: 60 }).collect();
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
            let find = |name: &str| {
                let place = name.parse().ok()?;
                Some(Spot { place, size: None, hidden: 0 })
            };
            links.extend(Demand::sum(terms, total).links("sum", find).unwrap());
        }
        (unknowns, Objective::new(&said).unwrap().terms, links)
    }

    #[test]
    fn splitting_ranges_gives_what_whole_tables_give() {
        let mut state = 1;
        for turn in 0..8 {
            let (unknowns, terms, links) = problem(&mut state);
            let model = Model { unknowns: &unknowns, terms: &terms, links: links.iter().collect() };
            let solved = |cells| {
                let mut budget = Budget::new(u64::MAX);
                budget.cells = cells;
                match solve(&model, Wanted::Best, &mut budget).unwrap() {
                    Answer::Best(best) => Some((best.counts, best.proved, best.bound)),
                    Answer::None => None,
                    Answer::Unknown => panic!("there is work enough"),
                }
            };
            let whole = solved(1 << 30);
            for cells in [500, 2_000] {
                assert_eq!(solved(cells), whole, "turn {turn}, {cells} cells: {links:?}");
            }
        }
    }
}
