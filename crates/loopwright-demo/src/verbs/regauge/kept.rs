//! The nearest counts that keep every parity and every sum, rounded together.

use crate::answer::Failure;
use loopwright::gauge::{Count, Exact, Numbers, Parity, Regauged, Round, Sum, bounds};
use loopwright::joint::{Answer, Demand, Error, Problem, Unknown};
use std::collections::BTreeMap;
use std::ops::RangeInclusive;

/// What keeps all that held among the published counts.
pub(super) enum Kept {
    /// These counts, in the order of the numbers.
    Counts(Vec<u32>),
    /// Nothing: why not, in words.
    Nothing(String),
}

pub(super) fn kept<C: Count>(
    numbers: &Numbers<C>,
    regauged: &Regauged<C>,
    round: Round,
) -> Result<Kept, Failure> {
    let refused = |error: Error| Failure::Work(error.to_string());
    match problem(numbers, regauged, round).and_then(|problem| problem.solve()).map_err(refused)? {
        Answer::Solved(solution) => {
            Ok(Kept::Counts(solution.counts().iter().map(|rounded| rounded.count.get()).collect()))
        }
        Answer::Conflict(conflict) => Ok(Kept::Nothing(conflict.to_string())),
        _ => Ok(Kept::Nothing("no answer was found".into())),
    }
}

fn problem<C: Count>(
    numbers: &Numbers<C>,
    regauged: &Regauged<C>,
    round: Round,
) -> Result<Problem, Error> {
    let mut problem = Problem::new();
    for (number, fitted) in numbers.numbers().iter().zip(&regauged.counts) {
        let parity = Parity::of(number.count);
        // A published count that is not of its own repeat may have no parity to keep.
        let repeat = number.repeat.with_parity(parity).unwrap_or(number.repeat);
        let range = range(fitted.ideal, round);
        problem
            .unknown::<C>(&number.name, Unknown::near(fitted.ideal).repeat(repeat).range(range))?;
    }
    for sum in numbers.sums() {
        let name = format!("{} = {}", sum.parts.join(" + "), sum.whole);
        problem.demand(name, Demand::sum(terms(sum), 0))?;
    }
    Ok(problem)
}

/// The counts that rounding this way may give: down is never above the ideal.
fn range(ideal: Exact, round: Round) -> RangeInclusive<u32> {
    let whole = |round| ideal.to_whole(round).ok().and_then(|n| u32::try_from(n).ok()).unwrap_or(0);
    match round {
        Round::Floor => 0..=whole(Round::Floor),
        Round::Ceil => whole(Round::Ceil)..=bounds::COUNT,
        Round::Exact => whole(Round::Floor)..=whole(Round::Ceil),
        _ => 0..=bounds::COUNT,
    }
}

/// Every name once, with how often it is added.
fn terms(sum: &Sum) -> impl Iterator<Item = (i64, String)> {
    let mut terms: BTreeMap<String, i64> = BTreeMap::new();
    for part in &sum.parts {
        *terms.entry(part.clone()).or_insert(0) += 1;
    }
    *terms.entry(sum.whole.clone()).or_insert(0) -= 1;
    terms.into_iter().map(|(name, times)| (times, name))
}
