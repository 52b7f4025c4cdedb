//! Whatever is asked, an answer comes, after work that is counted.

use loopwright::gauge::{Exact, Repeat};
use loopwright::joint::{Answer, Demand, Problem, Unknown};
use loopwright_tests::joint::random::{self, Random};
use loopwright_tests::joint::{Demand as Said, Sketch, brute};

fn near(n: i32) -> Unknown {
    Unknown::near(Exact::whole(n))
}

#[test]
fn counts_far_from_each_other_do_not_exhaust_a_small_stack() {
    let far = || {
        for distance in [4_000, 17_027, 1_000_000, 10_000_000] {
            let mut problem = Problem::new();
            problem.stitches("a", near(0)).unwrap();
            problem.stitches("b", near(distance)).unwrap();
            problem.demand("rising", Demand::ordered(["b", "a"])).unwrap();
            let Answer::Solved(solution) = problem.solve().unwrap() else { panic!("it can be") };
            assert_eq!(solution.total_miss(), Exact::whole(distance));
        }
    };
    let small = std::thread::Builder::new().stack_size(256 * 1_024);
    small.spawn(far).unwrap().join().unwrap();
}

#[test]
fn what_coefficients_have_in_common_is_seen() {
    let mut problem = Problem::new();
    let names = ["u0", "u1", "u2", "u3"];
    for name in names {
        problem.stitches(name, near(0)).unwrap();
    }
    // 8 u0 is 97 modulo 101, so u0 is 50 at least, and 50 x 10,007 is too much.
    let terms = names.map(|name| (if name == "u0" { -10_007 } else { -101 }, name));
    problem.demand("sum", Demand::sum(terms, -391_573)).unwrap();
    let Answer::Conflict(conflict) = problem.solve().unwrap() else { panic!("it cannot be") };
    assert!(conflict.demands().eq(["sum"]));
}

#[test]
fn divisors_are_seen_when_equal_counts_are_one() {
    let mut problem = Problem::new();
    let near = |tenths| Unknown::near(Exact::new(tenths, 10).unwrap());
    let sixes = Repeat::multiple_of(6).unwrap();
    problem.stitches("left front", near(486).repeat(sixes)).unwrap();
    problem.stitches("right front", near(486)).unwrap();
    let fours = Repeat::multiple_of(4).unwrap().plus(2).unwrap();
    problem.stitches("back", near(972).repeat(fours)).unwrap();
    let parts = [(1, "left front"), (1, "right front"), (-1, "back")];
    problem.demand("alike", Demand::equal("left front", "right front")).unwrap();
    problem.demand("whole", Demand::sum(parts, 0)).unwrap();
    let Answer::Conflict(conflict) = problem.solve().unwrap() else { panic!("it cannot be") };
    assert!(conflict.demands().eq(["alike", "whole"]));
    assert!(conflict.is_smallest());
}

#[test]
fn a_large_conflict_is_found_and_not_called_smallest_without_proof() {
    let mut problem = Problem::new();
    for count in 0..20 {
        problem.stitches(format!("count {count}"), near(11)).unwrap();
        let only = [(1, format!("count {count}"))];
        problem.demand(format!("range {count}"), Demand::sum_within(only, 10..=12)).unwrap();
    }
    let all = (0..20).map(|count| (1, format!("count {count}")));
    problem.demand("sum", Demand::sum(all, 150)).unwrap();
    let Answer::Conflict(conflict) = problem.solve().unwrap() else { panic!("it cannot be") };
    // Sixteen counts of ten are more than 150, fifteen are not.
    assert_eq!(conflict.members().len(), 17);
    assert_eq!(conflict.demands().last(), Some("sum"));
}

/// Up to seven counts anywhere, with sums of any coefficients.
fn wild(random: &mut Random) -> Sketch {
    let mut sketch = random::dense(random, 7, 0);
    sketch.counts.truncate(usize::try_from(random.within(1, 7)).unwrap());
    for count in &mut sketch.counts {
        count.ideal = [0, random.within(0, 6_000), random.within(0, 600_000)]
            [usize::try_from(random.within(0, 2)).unwrap()];
        if random.within(0, 2) == 0 {
            let multiple = u32::try_from(random.within(2, 12)).unwrap();
            count.repeat = Some((multiple, u32::try_from(random.within(0, 11)).unwrap()));
        }
    }
    for _ in 0..random.within(0, 4) {
        let mut terms = Vec::new();
        for place in 0..sketch.counts.len() {
            if random.within(0, 1) == 0 {
                let most = [3, 101, 10_007][usize::try_from(random.within(0, 2)).unwrap()];
                let times = random.within(1, most) * [1, -1][place % 2];
                terms.push((times, place));
            }
        }
        let total = random.within(-400_000, 400_000);
        if !terms.is_empty() {
            sketch.demands.push(Said::Sum(terms, total, total + random.within(0, 1)));
        }
    }
    sketch
}

/// Of so many wild problems, how many were solved, found impossible, and given up.
fn judged(many: u64, steps: u64) -> [u32; 3] {
    let mut came = [0; 3];
    for seed in 0..many {
        let sketch = wild(&mut Random(seed));
        let problem = sketch.problem().steps(steps);
        match problem.solve() {
            Ok(Answer::Solved(solution)) => {
                let counts: Vec<_> = solution.counts().iter().map(|of| of.count).collect();
                assert_eq!(problem.broken(&counts), Vec::<&str>::new(), "seed {seed}");
                assert!(solution.least_total() <= solution.total_miss());
                came[0] += 1;
            }
            Ok(_) => came[1] += 1,
            Err(why) => {
                assert!(why.is_unproved(), "seed {seed}: {why}");
                came[2] += 1;
            }
        }
    }
    came
}

#[test]
fn wild_problems_come_back() {
    let [solved, impossible, given_up] = judged(300, 300_000);
    println!("{solved} solved, {impossible} impossible, {given_up} given up");
    assert!(solved > 60 && impossible > 50, "{solved} solved, {impossible} impossible");
}

/// By hand: `scripts/joint-comes-back`.
#[test]
#[ignore = "takes minutes: run by scripts/joint-comes-back"]
fn ten_thousand_wild_problems_come_back() {
    let [solved, impossible, given_up] = judged(10_000, loopwright::joint::bounds::STEPS);
    println!("{solved} solved, {impossible} impossible, {given_up} given up");
    assert!(solved > 2_000 && impossible > 1_500);
}

#[test]
fn as_many_small_ones_are_never_given_up() {
    let mut solved = 0;
    for seed in 20_000..21_000 {
        let sketch = random::small(&mut Random(seed));
        let found = matches!(sketch.problem().solve().unwrap(), Answer::Solved(_));
        assert_eq!(found, matches!(brute::judge(&sketch), brute::Judged::Best(..)), "{seed}");
        solved += u32::from(found);
    }
    assert!(solved > 300, "{solved}");
}
