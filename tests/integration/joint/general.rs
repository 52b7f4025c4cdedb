//! The solver against a general solver of linear problems, on garments.

use core::time::Duration;
use loopwright::joint::Answer;
use loopwright_tests::joint::garment;
use loopwright_tests::joint::milp::{self, Said};
use loopwright_tests::joint::random::{self, Random};

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
