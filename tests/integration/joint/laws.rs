//! Laws of joint rounding.

use loopwright::gauge::Exact;
use loopwright::joint::{Conflict, Demand, Outcome, Problem, Solution, Unknown};
use loopwright_tests::joint::random::{self, Random};
use loopwright_tests::joint::{Sketch, garment};
use proptest::prelude::*;

fn solution(sketch: &Sketch) -> Option<Solution> {
    match sketch.problem().solve().unwrap() {
        Outcome::Solved(solution) => Some(solution),
        _ => None,
    }
}

fn conflict(sketch: &Sketch) -> Option<Conflict> {
    match sketch.problem().solve().unwrap() {
        Outcome::Conflict(conflict) => Some(conflict),
        _ => None,
    }
}

fn counts(solution: &Solution) -> Vec<u32> {
    solution.counts().iter().map(|rounded| rounded.count).collect()
}

/// The places of the demands in conflict.
fn places(conflict: &Conflict) -> Vec<usize> {
    let place = |name: &str| name.strip_prefix("demand ").unwrap().parse().unwrap();
    conflict.demands().map(place).collect()
}

fn with_demands(sketch: &Sketch, places: &[usize]) -> Sketch {
    let demands = places.iter().map(|&place| sketch.demands[place].clone()).collect();
    Sketch { counts: sketch.counts.clone(), demands }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn a_conflict_goes_when_any_one_member_goes(seed in any::<u64>()) {
        let sketch = random::small(&mut Random(seed));
        let Some(conflict) = conflict(&sketch) else { return Ok(()) };
        let set = places(&conflict);
        prop_assert!(solution(&with_demands(&sketch, &set)).is_none(), "the set is in conflict");
        for gone in &set {
            let rest: Vec<usize> = set.iter().copied().filter(|place| place != gone).collect();
            prop_assert!(solution(&with_demands(&sketch, &rest)).is_some(), "without {gone}");
        }
    }

    #[test]
    fn a_demand_that_holds_already_changes_nothing(seed in any::<u64>()) {
        let mut sketch = random::small(&mut Random(seed));
        let Some(before) = solution(&sketch) else { return Ok(()) };
        let more = random::small(&mut Random(seed ^ 1)).demands;
        let here = |place: &usize| *place < sketch.counts.len();
        let held = counts(&before);
        let more: Vec<_> = more
            .into_iter()
            .filter(|demand| demand.places().iter().all(here) && demand.missed(&held) == 0)
            .collect();
        sketch.demands.extend(more);
        prop_assert_eq!(solution(&sketch), Some(before));
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]

    #[test]
    fn a_conflict_of_a_garment_goes_when_any_one_member_goes(seed in any::<u64>()) {
        let sketch = garment::impossible(&mut Random(seed), 24);
        let conflict = conflict(&sketch).expect("it cannot be");
        let set = places(&conflict);
        for gone in &set {
            let rest: Vec<usize> = set.iter().copied().filter(|place| place != gone).collect();
            prop_assert!(solution(&with_demands(&sketch, &rest)).is_some(), "without {gone}");
        }
    }

    #[test]
    fn every_demand_of_a_graded_garment_holds(seed in any::<u64>()) {
        let problem = garment::graded(&mut Random(seed), 4).problem();
        let Outcome::Solved(solution) = problem.solve().unwrap() else { return Ok(()) };
        prop_assert_eq!(problem.broken(&counts(&solution)), Vec::<&str>::new());
        prop_assert!(solution.is_proved());
    }

    #[test]
    fn weights_all_doubled_change_no_count(seed in any::<u64>()) {
        let mut sketch = garment::garment(&mut Random(seed), 24);
        let before = solution(&sketch).expect("it can be");
        for count in &mut sketch.counts {
            count.weight *= 2;
        }
        let after = solution(&sketch).expect("it still can");
        prop_assert_eq!(counts(&before), counts(&after));
        let doubled = before.total_deviation().checked_mul(Exact::whole(2)).unwrap();
        prop_assert_eq!(doubled, after.total_deviation());
    }

    #[test]
    fn counts_asked_for_again_come_out_as_they_are(seed in any::<u64>()) {
        let mut sketch = garment::garment(&mut Random(seed), 24);
        let before = counts(&solution(&sketch).expect("it can be"));
        for (count, &chosen) in sketch.counts.iter_mut().zip(&before) {
            count.ideal = i64::from(chosen) * 60;
        }
        let again = solution(&sketch).expect("it still can");
        prop_assert_eq!(counts(&again), before);
        prop_assert!(again.total_deviation().is_zero());
    }
}

/// Two pairs that make one whole, with halves everywhere: ties on every level.
fn tied() -> Problem {
    let mut problem = Problem::new();
    for name in ["left", "middle", "right"] {
        problem.unknown(name, Unknown::near(Exact::new(41, 2).unwrap())).unwrap();
    }
    let all = [(1, "left"), (1, "middle"), (1, "right")];
    problem.demand("whole", Demand::sum(all, 62)).unwrap();
    problem
}

#[test]
fn ties_go_to_the_counts_that_come_first() {
    let Outcome::Solved(solution) = tied().solve().unwrap() else { panic!("it can be") };
    // 20, 21, 21 and its two rearrangements cost the same, and each is off by a half.
    assert_eq!(counts(&solution), [20, 21, 21]);
    assert_eq!(solution.largest_deviation(), Exact::new(1, 2).unwrap());
}

#[test]
fn of_one_sum_the_least_largest_deviation_wins() {
    let mut problem = Problem::new();
    for name in ["one", "other"] {
        problem.unknown(name, Unknown::near(Exact::whole(50))).unwrap();
    }
    problem.demand("together", Demand::sum([(1, "one"), (1, "other")], 110)).unwrap();
    let Outcome::Solved(solution) = problem.solve().unwrap() else { panic!("it can be") };
    // Any split of the ten costs ten; only half and half is off by five.
    assert_eq!(counts(&solution), [55, 55]);
}

#[test]
fn the_limit_is_told_and_never_silent() {
    let sketch = garment::garment(&mut Random(1), 48);
    let proved = solution(&sketch).expect("it can be");
    let mut told = 0;
    for steps in [0, 1_000, 5_000, 10_000, 20_000, 50_000] {
        match sketch.problem().limit(steps).solve() {
            Err(error) => {
                assert!(error.is_unproved());
                assert_eq!(
                    error.to_string(),
                    format!(
                        "no answer was found within {steps} steps, and none was proved impossible"
                    ),
                );
                told += 1;
            }
            Ok(Outcome::Solved(found)) if found.is_proved() => assert_eq!(found, proved),
            Ok(Outcome::Solved(found)) => {
                let problem = sketch.problem();
                assert_eq!(problem.broken(&counts(&found)), Vec::<&str>::new());
                assert!(found.total_deviation() >= proved.total_deviation());
                told += 1;
            }
            Ok(other) => panic!("{other:?}"),
        }
    }
    assert!(told > 0);
}

/// Wide open unknowns: nothing but the demands themselves shows the conflict.
fn open(names: &[&str], demands: &[(&str, Demand)]) -> Vec<String> {
    let mut problem = Problem::new();
    for name in names {
        problem.unknown(*name, Unknown::near(Exact::whole(40))).unwrap();
    }
    for (name, demand) in demands {
        problem.demand(*name, demand.clone()).unwrap();
    }
    match problem.solve().unwrap() {
        Outcome::Conflict(conflict) => conflict.demands().map(str::to_owned).collect(),
        other => panic!("{other:?}"),
    }
}

#[test]
fn conflicts_over_unbounded_counts_are_proved_at_once() {
    let parts = [(1, "back"), (-1, "left"), (-1, "neck"), (-1, "right")];
    let found = open(
        &["back", "left", "neck", "right"],
        &[("one", Demand::sum(parts, 0)), ("other", Demand::sum(parts, 3))],
    );
    assert_eq!(found, ["one", "other"]);
    // Three evens make no odd.
    let found = open(
        &["a", "b", "c"],
        &[
            ("same", Demand::same_parity(["a", "b"])),
            ("odd", Demand::sum([(1, "a"), (1, "b"), (2, "c")], 41)),
        ],
    );
    assert_eq!(found, ["same", "odd"]);
    // Sixes and tens make no odd either, nor do they make an odd apart.
    let found = open(
        &["a", "b", "c"],
        &[
            ("first", Demand::sum([(6, "a"), (10, "b"), (15, "c")], 1_000)),
            ("second", Demand::sum([(6, "a"), (10, "b"), (-15, "c")], 1_005)),
        ],
    );
    assert_eq!(found, ["first", "second"]);
    // Each is more than the other.
    let found = open(
        &["a", "b", "c", "d"],
        &[
            ("up", Demand::sum([(1, "a"), (-1, "b"), (-1, "c")], 0)),
            ("down", Demand::sum([(1, "b"), (-1, "a"), (-1, "d")], 1)),
        ],
    );
    assert_eq!(found, ["up", "down"]);
    // A size that is less than one it may not be less than.
    let found = open(
        &["small", "medium", "large"],
        &[
            ("grading", Demand::ordered(["small", "medium", "large"])),
            ("misprint", Demand::equal_with_offset("large", "small", -1)),
        ],
    );
    assert_eq!(found, ["grading", "misprint"]);
}

#[test]
fn solutions_are_written_with_exact_numbers() {
    let Outcome::Solved(solution) = tied().solve().unwrap() else { panic!("it can be") };
    let told = serde_json::to_value(&solution).unwrap();
    assert_eq!(
        told["counts"][0],
        serde_json::json!({ "name": "left", "count": 20, "ideal": "41/2", "deviation": "-1/2" })
    );
    assert_eq!(told["total"], "3/2");
    assert_eq!(told["proved"], true);
}
