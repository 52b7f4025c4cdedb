//! The solver against a general solver of linear problems, on garments.

use core::time::Duration;
use loopwright::joint::Answer;
use loopwright_tests::joint::milp::{self, Said};
use loopwright_tests::joint::random::{self, Random};
use loopwright_tests::joint::{Count, Demand, Measure, Sketch, garment};
use serde_json::{Value, json};

/// Compares as many garments as the general solver has answered `many` of, and says
/// how many both found possible.
fn compare(many: u64, measured: bool) -> u32 {
    let (mut possible, mut impossible, mut unsaid, mut unproved) = (0, 0, 0, 0);
    for seed in 0.. {
        if u64::from(possible + impossible) == many {
            break;
        }
        let mut random = Random(seed);
        let count = usize::try_from(random.within(6, 36)).unwrap();
        let mut sketch = garment::garment(&mut random, count);
        garment::tighten(&mut sketch, &mut random);
        if measured {
            garment::measure(&mut sketch, &mut random);
        }
        match (sketch.problem().solve().unwrap(), milp::ask(&sketch, Duration::from_secs(5))) {
            // What is not proved is not compared, but there may be little of it.
            (Answer::Solved(solution), _) if !solution.is_proved() => unproved += 1,
            (Answer::Solved(solution), Said::Least(least)) => {
                let ours = solution.total_miss().to_f64_lossy();
                assert!(
                    (ours - least).abs() < 1e-4 * (1.0 + least),
                    "seed {seed}: {ours}, not {least}"
                );
                possible += 1;
            }
            (Answer::Conflict(_), Said::Impossible) => impossible += 1,
            (_, Said::Nothing) => unsaid += 1,
            (ours, theirs) => panic!("seed {seed}: {ours:?}, not {theirs:?}"),
        }
    }
    println!("{possible} possible, {impossible} impossible, {unsaid} the general solver gave up");
    assert!(possible > 0 && impossible > 0, "both sorts are tried");
    assert!(unproved * 20 < possible, "{unproved} not proved");
    possible
}

#[test]
fn garments_have_the_least_sum_that_a_general_solver_finds() {
    assert!(compare(30, false) > 10);
}

#[test]
fn garments_with_measures_have_the_least_sum_that_a_general_solver_finds() {
    assert!(compare(15, true) > 5);
}

/// The sketch in plain numbers, for solvers in other languages.
fn plain(sketch: &Sketch) -> Value {
    let count = |count: &Count| {
        json!({
            "ideal": count.ideal, "weight": count.weight, "repeat": count.repeat,
            "low": count.low, "high": count.high, "size": count.size, "hidden": count.hidden,
        })
    };
    let demand = |(_, demand): (usize, Demand)| match demand {
        Demand::Sum(terms, low, high) => json!({ "sum": terms, "low": low, "high": high }),
        Demand::Lengths(terms, low, high) => {
            json!({ "lengths": terms, "low": low, "high": high })
        }
        Demand::Ratio(above, below, is, tolerance) => {
            json!({ "ratio": [above, below], "is": is, "tolerance": tolerance })
        }
        Demand::Ordered(places) => json!({ "ordered": places }),
        Demand::Parity(places) => json!({ "parity": places }),
    };
    let measure = |measure: &Measure| json!({ "terms": measure.terms, "wanted": measure.wanted, "weight": measure.weight });
    json!({
        "counts": sketch.counts.iter().map(count).collect::<Vec<_>>(),
        "demands": sketch.held().into_iter().map(demand).collect::<Vec<_>>(),
        "measures": sketch.measures.iter().map(measure).collect::<Vec<_>>(),
    })
}

/// By hand: `scripts/joint-against-highs`, which reads what this writes.
#[test]
#[ignore = "writes a file for scripts/joint-against-highs"]
fn a_thousand_garments_are_written_for_another_solver() {
    let out = std::env::var_os("LOOPWRIGHT_JOINT_GARMENTS").expect("a file to write to");
    let mut lines = String::new();
    for seed in 0..1_000 {
        let mut random = Random(seed);
        let count = usize::try_from(random.within(6, 36)).unwrap();
        let mut sketch = garment::garment(&mut random, count);
        garment::tighten(&mut sketch, &mut random);
        garment::measure(&mut sketch, &mut random);
        let answer = match sketch.problem().solve() {
            Ok(Answer::Solved(solution)) if solution.is_proved() => {
                json!({ "total": solution.total_miss().to_f64_lossy() })
            }
            Ok(Answer::Conflict(_)) => json!({ "impossible": true }),
            _ => json!({ "unproved": true }),
        };
        lines += &json!({ "seed": seed, "problem": plain(&sketch), "answer": answer }).to_string();
        lines.push('\n');
    }
    std::fs::write(out, lines).unwrap();
}

#[test]
fn dense_problems_have_the_least_sum_that_a_general_solver_finds() {
    let mut compared = 0;
    for seed in 0..12 {
        let sketch = random::dense(&mut Random(seed), 8, 2);
        let Answer::Solved(solution) = sketch.problem().solve().unwrap() else {
            panic!("seed {seed}: hidden counts hold all demands");
        };
        if let Said::Least(least) = milp::ask(&sketch, Duration::from_secs(2)) {
            let ours = solution.total_miss().to_f64_lossy();
            assert!(
                (ours - least).abs() < 1e-4 * (1.0 + least),
                "seed {seed}: {ours}, not {least}"
            );
            compared += 1;
        }
    }
    assert!(compared > 6, "{compared}");
}

/// By hand: `scripts/joint-against-milp`.
#[test]
#[ignore = "takes minutes: run by scripts/joint-against-milp"]
fn a_thousand_garments_have_the_least_sum_that_a_general_solver_finds() {
    assert!(compare(1_000, false) > 500);
    assert!(compare(1_000, true) > 500);
}
