//! The same sketch for a general solver of mixed whole and real linear problems.
//!
//! It works in floating point, and only its least sum is asked for.

#![allow(
    clippy::cast_precision_loss,
    clippy::float_arithmetic,
    reason = "the solver on the other side works in floating point"
)]

use super::sketch::{Count, Demand, Measure, PARTS, Sketch};
use core::time::Duration;
use microlp::{ComparisonOp, Error, OptimizationDirection, Problem, Variable};

/// What the general solver says.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Said {
    /// The least sum of weight times deviation.
    Least(f64),
    /// There are no such counts.
    Impossible,
    /// It did not finish in time, or lost its footing.
    Nothing,
}

/// Asks the general solver, which may take `time`.
#[must_use]
pub fn ask(sketch: &Sketch, time: Duration) -> Said {
    let mut problem = Problem::new(OptimizationDirection::Minimize);
    problem.set_time_limit(time);
    let counts: Vec<Variable> =
        sketch.counts.iter().map(|count| add_count(&mut problem, count)).collect();
    for (_, demand) in sketch.held() {
        add_demand(&mut problem, &demand, sketch, &counts);
    }
    for measure in &sketch.measures {
        add_measure(&mut problem, measure, sketch, &counts);
    }
    match problem.solve() {
        Ok(outcome) => match outcome.into_solution() {
            Ok(solution) if solution.status() == microlp::SolutionStatus::Optimal => {
                Said::Least(solution.objective())
            }
            _ => Said::Nothing,
        },
        Err(Error::Infeasible) => Said::Impossible,
        Err(_) => Said::Nothing,
    }
}

/// A count, and a deviation that is at least its distance from the ideal either way.
fn add_count(problem: &mut Problem, count: &Count) -> Variable {
    let whole = |n: u32| i32::try_from(n).unwrap();
    let ideal = count.ideal as f64 / PARTS as f64;
    let chosen = problem.add_integer_var(0.0, (whole(count.low), whole(count.high)));
    let deviation = problem.add_var(count.weight as f64 * size(count), (0.0, f64::INFINITY));
    problem.add_constraint([(deviation, 1.0), (chosen, 1.0)], ComparisonOp::Ge, ideal);
    problem.add_constraint([(deviation, 1.0), (chosen, -1.0)], ComparisonOp::Ge, -ideal);
    if let Some((multiple, extra)) = count.repeat {
        let repeats = problem.add_integer_var(0.0, (1, whole(count.high)));
        let terms = [(chosen, 1.0), (repeats, -f64::from(multiple))];
        problem.add_constraint(terms, ComparisonOp::Eq, f64::from(extra));
    }
    chosen
}

/// Millimetres to one; a count without a size counts as one.
fn size(count: &Count) -> f64 {
    count.size.map_or(1.0, |(numer, denom)| numer as f64 / denom as f64)
}

/// The terms of a sum of lengths, and the length that is hidden in it.
fn lengths(
    sketch: &Sketch,
    terms: &[(i64, usize)],
    counts: &[Variable],
) -> (Vec<(Variable, f64)>, f64) {
    let each = |&(times, place): &(i64, usize)| times as f64 * size(&sketch.counts[place]);
    let hidden = |of: &(i64, usize)| each(of) * f64::from(sketch.counts[of.1].hidden);
    let all = terms.iter().map(|of| (counts[of.1], each(of))).collect();
    (all, terms.iter().map(hidden).sum())
}

/// A miss that is at least the measure's distance from its length either way.
fn add_measure(problem: &mut Problem, measure: &Measure, sketch: &Sketch, counts: &[Variable]) {
    let (terms, hidden) = lengths(sketch, &measure.terms, counts);
    let wanted = measure.wanted as f64 / PARTS as f64 + hidden;
    let missed = problem.add_var(measure.weight as f64, (0.0, f64::INFINITY));
    let below = [terms.clone(), vec![(missed, 1.0)]].concat();
    problem.add_constraint(below, ComparisonOp::Ge, wanted);
    problem.add_constraint([terms, vec![(missed, -1.0)]].concat(), ComparisonOp::Le, wanted);
}

fn add_demand(problem: &mut Problem, demand: &Demand, sketch: &Sketch, counts: &[Variable]) {
    match demand {
        Demand::Lengths(terms, low, high) => {
            let (terms, hidden) = lengths(sketch, terms, counts);
            for (limit, op) in [(low, ComparisonOp::Ge), (high, ComparisonOp::Le)] {
                if let Some(limit) = limit {
                    let limit = *limit as f64 / PARTS as f64 + hidden;
                    problem.add_constraint(terms.clone(), op, limit);
                }
            }
        }
        Demand::Sum(terms, low, high) => {
            let terms: Vec<(Variable, f64)> =
                terms.iter().map(|&(times, place)| (counts[place], times as f64)).collect();
            if low == high {
                problem.add_constraint(terms, ComparisonOp::Eq, *low as f64);
            } else {
                problem.add_constraint(terms.clone(), ComparisonOp::Ge, *low as f64);
                problem.add_constraint(terms, ComparisonOp::Le, *high as f64);
            }
        }
        Demand::Ratio(above, below, (numer, denom), tolerance) => {
            let scale = (denom * PARTS) as f64;
            for (sign, op) in [(-1, ComparisonOp::Ge), (1, ComparisonOp::Le)] {
                let edge = (numer * PARTS + sign * tolerance * denom) as f64;
                problem.add_constraint([(counts[*above], scale), (counts[*below], -edge)], op, 0.0);
            }
        }
        Demand::Ordered(places) => {
            for pair in places.windows(2) {
                let terms = [(counts[pair[1]], 1.0), (counts[pair[0]], -1.0)];
                problem.add_constraint(terms, ComparisonOp::Ge, 0.0);
            }
        }
        Demand::Parity(places) => {
            for pair in places.windows(2) {
                let half = problem.add_integer_var(0.0, (-100_000, 100_000));
                let terms = [(counts[pair[1]], 1.0), (counts[pair[0]], -1.0), (half, -2.0)];
                problem.add_constraint(terms, ComparisonOp::Eq, 0.0);
            }
        }
    }
}
