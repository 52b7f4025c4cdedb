//! Laws of joint rounding, each tried so often, and held to it.

use loopwright::gauge::{Exact, Gauge, Length, Repeat, Stitches};
use loopwright::joint::{
    Answer, AnyCount, Conflict, Demand, Problem, Release, Solution, TapeMeasure, Unknown,
};
use loopwright_tests::joint::random::{self, Random};
use loopwright_tests::joint::{self, Sketch, garment};

fn solution(sketch: &Sketch) -> Option<Solution> {
    match sketch.problem().solve().unwrap() {
        Answer::Solved(solution) => Some(solution),
        _ => None,
    }
}

fn conflict(sketch: &Sketch) -> Option<Conflict> {
    match sketch.problem().solve().unwrap() {
        Answer::Conflict(conflict) => Some(conflict),
        _ => None,
    }
}

fn any(solution: &Solution) -> Vec<AnyCount> {
    solution.counts().iter().map(|rounded| rounded.count).collect()
}

fn counts(solution: &Solution) -> Vec<u32> {
    any(solution).into_iter().map(AnyCount::get).collect()
}

/// The places of the demands in conflict.
fn places(conflict: &Conflict) -> Vec<usize> {
    let place = |name: &str| name.strip_prefix("demand ").unwrap().parse().unwrap();
    conflict.demands().map(place).collect()
}

/// The sketch with these demands only; measures with a tolerance are demands too.
fn with_demands(sketch: &Sketch, places: &[usize]) -> Sketch {
    let held = sketch.held();
    let kept = held.into_iter().filter(|of| places.contains(&of.0)).map(|of| of.1);
    Sketch { counts: sketch.counts.clone(), demands: kept.collect(), measures: Vec::new() }
}

#[test]
fn a_conflict_goes_when_any_one_member_goes() {
    let mut tried = 0;
    for seed in 0..800 {
        let sketch = random::small(&mut Random(seed));
        let Some(conflict) = conflict(&sketch) else { continue };
        let set = places(&conflict);
        assert!(solution(&with_demands(&sketch, &set)).is_none(), "{seed}: it is a conflict");
        for gone in &set {
            let rest: Vec<usize> = set.iter().copied().filter(|place| place != gone).collect();
            assert!(solution(&with_demands(&sketch, &rest)).is_some(), "{seed}: without {gone}");
        }
        tried += 1;
    }
    assert!(tried > 200, "{tried}");
}

/// The demand, missed by what is offered.
fn released(demand: &joint::Demand, release: Release) -> Option<joint::Demand> {
    use joint::Demand::{Lengths, Ordered, Parity, Ratio, Sum};
    match (demand.clone(), release) {
        (Sum(terms, low, high), Release::By(by)) => {
            let by = i64::try_from(by).unwrap();
            Some(Sum(terms, low - by, high + by))
        }
        (Lengths(terms, low, high), Release::ByLength(by)) => {
            let sixtieths = by.millimetres().checked_mul(Exact::whole(60)).unwrap();
            assert!(sixtieths.is_whole());
            let by = sixtieths.numer();
            Some(Lengths(terms, low.map(|low| low - by), high.map(|high| high + by)))
        }
        (Parity(_), Release::Drop) => None,
        // The rest cannot be written otherwise than let go.
        (Ordered(_) | Ratio(..), Release::By(_)) => None,
        other => panic!("{other:?}"),
    }
}

#[test]
fn every_release_applied_solves() {
    let (mut applied, mut exactly) = (0, 0);
    for seed in 0..1_500 {
        let sketch = random::small(&mut Random(seed));
        let Some(conflict) = conflict(&sketch) else { continue };
        for (place, member) in places(&conflict).into_iter().zip(conflict.members()) {
            if member.release == Release::NotAlone {
                continue;
            }
            let mut demands = Vec::new();
            for (of, demand) in sketch.held() {
                if of != place {
                    demands.push(demand);
                } else if let Some(loose) = released(&demand, member.release) {
                    demands.push(loose);
                    exactly += 1;
                }
            }
            let mended = Sketch { counts: sketch.counts.clone(), demands, measures: Vec::new() };
            assert!(solution(&mended).is_some(), "{seed}: {member:?} in {sketch:#?}");
            applied += 1;
        }
    }
    assert!(applied > 120 && exactly > 100, "{applied} applied, {exactly} exactly");
}

#[test]
fn a_demand_more_never_improves_and_one_that_holds_changes_nothing() {
    let (mut held, mut broken) = (0, 0);
    for seed in 0..1_500 {
        let mut sketch = random::small(&mut Random(seed));
        let Some(before) = solution(&sketch) else { continue };
        let here = |place: &usize| *place < sketch.counts.len();
        let more = random::small(&mut Random(seed + 10_000)).demands;
        let more = more.into_iter().filter(|demand| demand.places().iter().all(here));
        let Some(demand) = more.into_iter().next() else { continue };
        if matches!(demand, joint::Demand::Lengths(..)) && sketch.counts[0].size.is_none() {
            continue;
        }
        let holds = demand.missed(&sketch.counts, &counts(&before)) == 0;
        sketch.demands.push(demand);
        let after = solution(&sketch);
        if holds {
            assert_eq!(after.as_ref().map(counts), Some(counts(&before)), "seed {seed}");
            held += 1;
        } else if let Some(after) = after {
            assert!(after.total_miss() >= before.total_miss(), "seed {seed}");
            broken += 1;
        }
    }
    assert!(held > 40 && broken > 40, "{held} held, {broken} broken");
}

#[test]
fn the_order_of_demands_and_measures_does_not_matter() {
    let mut tried = 0;
    for seed in 0..600 {
        let mut sketch = random::small(&mut Random(seed));
        let before = solution(&sketch).as_ref().map(counts);
        sketch.demands.reverse();
        sketch.measures.reverse();
        assert_eq!(solution(&sketch).as_ref().map(counts), before, "seed {seed}");
        tried += usize::from(before.is_some() && sketch.demands.len() > 1);
    }
    assert!(tried > 100, "{tried}");
}

#[test]
fn the_order_of_unknowns_changes_no_miss() {
    let mut tried = 0;
    for seed in 0..600 {
        let sketch = random::small(&mut Random(seed));
        let Some(before) = solution(&sketch) else { continue };
        let last = sketch.counts.len() - 1;
        let turned = |place: usize| last - place;
        let terms = |terms: &[(i64, usize)]| -> Vec<(i64, usize)> {
            terms.iter().map(|&(times, place)| (times, turned(place))).collect()
        };
        let all = |places: &[usize]| places.iter().map(|&place| turned(place)).collect();
        let demand = |demand: &joint::Demand| match demand {
            joint::Demand::Sum(of, low, high) => joint::Demand::Sum(terms(of), *low, *high),
            joint::Demand::Lengths(of, low, high) => joint::Demand::Lengths(terms(of), *low, *high),
            joint::Demand::Ratio(above, below, ratio, tolerance) => {
                joint::Demand::Ratio(turned(*above), turned(*below), *ratio, *tolerance)
            }
            joint::Demand::Ordered(places) => joint::Demand::Ordered(all(places)),
            joint::Demand::Parity(places) => joint::Demand::Parity(all(places)),
        };
        let measure = |measure: &joint::Measure| joint::Measure {
            terms: terms(&measure.terms),
            ..measure.clone()
        };
        let other = Sketch {
            counts: sketch.counts.iter().rev().cloned().collect(),
            demands: sketch.demands.iter().map(demand).collect(),
            measures: sketch.measures.iter().map(measure).collect(),
        };
        let after = solution(&other).expect("it can still be");
        assert_eq!(after.total_miss(), before.total_miss(), "seed {seed}");
        assert_eq!(after.largest_miss(), before.largest_miss(), "seed {seed}");
        tried += 1;
    }
    assert!(tried > 200, "{tried}");
}

#[test]
fn a_longer_wish_never_gives_a_shorter_result() {
    let gauge: Gauge = "17x23/10cm".parse().unwrap();
    for repeat in [Repeat::any(), Repeat::even(), Repeat::multiple_of(6).unwrap()] {
        let mut before = 0;
        for mm in 100..400 {
            let mut problem = Problem::new();
            let wish = Unknown::near_length(Length::mm(mm).unwrap(), gauge).repeat(repeat);
            let width = problem.stitches("width", wish).unwrap();
            let solution = problem.solve().unwrap().into_result().unwrap();
            assert!(solution[&width].get() >= before, "{mm} mm, {repeat}");
            before = solution[&width].get();
        }
        assert!(before > 60);
    }
}

#[test]
fn neighbouring_sizes_never_step_backwards() {
    let mut tried = 0;
    for seed in 0..40 {
        let sketch = garment::uneven(&mut Random(seed), 4);
        let Some(solution) = solution(&sketch) else { continue };
        let counts = counts(&solution);
        for (place, count) in counts.iter().enumerate().skip(garment::PIECES) {
            assert!(*count >= counts[place - garment::PIECES], "seed {seed}, count {place}");
        }
        tried += 1;
    }
    assert!(tried > 30, "{tried}");
}

#[test]
fn a_conflict_of_a_garment_goes_when_any_one_member_goes() {
    for seed in 0..40 {
        let sketch = garment::impossible(&mut Random(seed), 24);
        let conflict = conflict(&sketch).expect("it cannot be");
        assert!(conflict.is_smallest());
        let set = places(&conflict);
        for gone in &set {
            let rest: Vec<usize> = set.iter().copied().filter(|place| place != gone).collect();
            assert!(solution(&with_demands(&sketch, &rest)).is_some(), "{seed}: without {gone}");
        }
    }
}

#[test]
fn every_demand_of_a_graded_garment_holds() {
    let mut tried = 0;
    for seed in 0..40 {
        let problem = garment::graded(&mut Random(seed), 4).problem();
        let Answer::Solved(solution) = problem.solve().unwrap() else { continue };
        assert_eq!(problem.broken(&any(&solution)), Vec::<&str>::new());
        assert!(solution.is_proved());
        tried += 1;
    }
    assert!(tried > 30, "{tried}");
}

#[test]
fn weights_all_doubled_change_no_count() {
    for seed in 0..40 {
        let mut sketch = garment::measured(&mut Random(seed), 24);
        let before = solution(&sketch).expect("it can be");
        for count in &mut sketch.counts {
            count.weight *= 2;
        }
        for measure in &mut sketch.measures {
            measure.weight *= 2;
        }
        let after = solution(&sketch).expect("it still can");
        assert_eq!(counts(&before), counts(&after));
        let doubled = before.total_miss().checked_mul(Exact::whole(2)).unwrap();
        assert_eq!(doubled, after.total_miss());
    }
}

#[test]
fn counts_asked_for_again_come_out_as_they_are() {
    for seed in 0..40 {
        let mut sketch = garment::garment(&mut Random(seed), 24);
        let before = counts(&solution(&sketch).expect("it can be"));
        for (count, &chosen) in sketch.counts.iter_mut().zip(&before) {
            count.ideal = i64::from(chosen) * 60;
        }
        let again = solution(&sketch).expect("it still can");
        assert_eq!(counts(&again), before);
        assert!(again.total_miss().is_zero());
    }
}

/// A back and its two bands in inches or in centimetres, under these names.
fn spoken(names: [&str; 3], length: &str, gauge: &str) -> Vec<u32> {
    let gauge: Gauge = gauge.parse().unwrap();
    let third: Length = "2.54 cm".parse().unwrap();
    let mut problem = Problem::new();
    for name in names {
        let unknown = Unknown::near_length(third, gauge).weight(Exact::new(1, 3).unwrap());
        problem.stitches(name, unknown).unwrap();
    }
    let terms = names.map(|name| (1, name));
    problem.measure("whole", TapeMeasure::sum(terms, length.parse().unwrap())).unwrap();
    counts(&problem.solve().unwrap().into_result().unwrap())
}

#[test]
fn units_and_names_do_not_matter() {
    let inches = spoken(["a", "b", "c"], "3 1/2 in", "5.5x7/1in");
    assert_eq!(inches, spoken(["z", "y", "x"], "88.9 mm", "5.5x7/2.54cm"));
    // 3.5 in are 19.25 stitches.
    assert_eq!(inches.iter().sum::<u32>(), 19);
}

/// Two pairs that make one whole, with halves everywhere: ties on every level.
fn tied() -> Problem {
    let mut problem = Problem::new();
    for name in ["left", "middle", "right"] {
        problem.stitches(name, Unknown::near(Exact::new(41, 2).unwrap())).unwrap();
    }
    let all = [(1, "left"), (1, "middle"), (1, "right")];
    problem.demand("whole", Demand::sum(all, 62)).unwrap();
    problem
}

#[test]
fn ties_go_to_the_greater_count_of_the_unknown_that_comes_first() {
    let Answer::Solved(solution) = tied().solve().unwrap() else { panic!("it can be") };
    // 20, 21, 21 and its two rearrangements cost the same, and each is off by a half.
    assert_eq!(counts(&solution), [21, 21, 20]);
    assert_eq!(solution.largest_miss(), Exact::new(1, 2).unwrap());
}

#[test]
fn of_one_sum_the_least_largest_deviation_wins() {
    let mut problem = Problem::new();
    for name in ["one", "other"] {
        problem.stitches(name, Unknown::near(Exact::whole(50))).unwrap();
    }
    problem.demand("together", Demand::sum([(1, "one"), (1, "other")], 110)).unwrap();
    let Answer::Solved(solution) = problem.solve().unwrap() else { panic!("it can be") };
    // Any split of the ten costs ten; only half and half is off by five.
    assert_eq!(counts(&solution), [55, 55]);
}

#[test]
fn halves_go_up_as_a_count_alone_does() {
    let mut problem = Problem::new();
    let half = Unknown::near(Exact::new(97, 2).unwrap());
    let count = problem.stitches("half", half).unwrap();
    let solution = problem.solve().unwrap().into_result().unwrap();
    assert_eq!(solution[&count], Stitches::literal(49));
}

#[test]
fn the_limit_is_told_and_never_silent() {
    let sketch = garment::measured(&mut Random(1), 48);
    let proved = solution(&sketch).expect("it can be");
    assert!(proved.is_proved());
    let (mut told, mut found_some) = (0, 0);
    for steps in [0, 1_000, 5_000, 20_000, 50_000, 100_000, 200_000] {
        match sketch.problem().steps(steps).solve() {
            Err(error) => {
                assert!(error.is_unproved());
                assert_eq!(
                    error.to_string(),
                    format!(
                        "within {steps} steps of work no counts were found that hold every \
                         demand, nor was it proved that there are none; narrower ranges, fewer \
                         demands or more steps may help"
                    ),
                );
                told += 1;
            }
            Ok(Answer::Solved(found)) if found.is_proved() => assert_eq!(found, proved),
            Ok(Answer::Solved(found)) => {
                let problem = sketch.problem();
                assert_eq!(problem.broken(&any(&found)), Vec::<&str>::new());
                assert!(found.total_miss() >= proved.total_miss());
                assert!(found.least_total() <= proved.total_miss());
                found_some += 1;
            }
            Ok(other) => panic!("{other:?}"),
        }
    }
    assert!(told > 0 && found_some > 0, "{told} told, {found_some} found");
}

/// Wide open unknowns: nothing but the demands themselves shows the conflict.
fn open(names: &[&str], demands: &[(&str, Demand)]) -> Vec<String> {
    let mut problem = Problem::new();
    for name in names {
        problem.stitches(*name, Unknown::near(Exact::whole(40))).unwrap();
    }
    for (name, demand) in demands {
        problem.demand(*name, demand.clone()).unwrap();
    }
    match problem.solve().unwrap() {
        Answer::Conflict(conflict) => conflict.demands().map(str::to_owned).collect(),
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
