//! The same sketch for a general solver of mixed whole and real linear problems.
//!
//! It works in floating point, and only its least sum is asked for.

#![allow(
    clippy::cast_precision_loss,
    clippy::float_arithmetic,
    reason = "the solver on the other side works in floating point"
)]

use super::sketch::{Count, Demand, PARTS, Sketch};
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
    for demand in &sketch.demands {
        add_demand(&mut problem, demand, &counts);
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
    let deviation = problem.add_var(count.weight as f64, (0.0, f64::INFINITY));
    problem.add_constraint([(deviation, 1.0), (chosen, 1.0)], ComparisonOp::Ge, ideal);
    problem.add_constraint([(deviation, 1.0), (chosen, -1.0)], ComparisonOp::Ge, -ideal);
    if let Some((multiple, extra)) = count.repeat {
        let repeats = problem.add_integer_var(0.0, (1, whole(count.high)));
        let terms = [(chosen, 1.0), (repeats, -f64::from(multiple))];
        problem.add_constraint(terms, ComparisonOp::Eq, f64::from(extra));
    }
    chosen
}

fn add_demand(problem: &mut Problem, demand: &Demand, counts: &[Variable]) {
    match demand {
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
