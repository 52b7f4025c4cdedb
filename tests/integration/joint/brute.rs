//! The solver against every assignment tried.

use loopwright::gauge::Exact;
use loopwright::joint::{Answer, Release};
use loopwright_tests::joint::Sketch;
use loopwright_tests::joint::brute::{self, Judged};
use loopwright_tests::joint::random::{self, Random};

/// The whole number of these parts.
fn parts(exact: Exact, parts: i32) -> i64 {
    let whole = exact.checked_mul(Exact::whole(parts)).unwrap();
    assert!(whole.is_whole(), "{exact} in {parts} parts");
    whole.numer()
}

fn solved(sketch: &Sketch) -> Judged {
    match sketch.problem().solve().unwrap() {
        Answer::Solved(solution) => {
            assert!(solution.is_proved());
            assert_eq!(solution.least_total(), solution.total_miss());
            let counts = solution.counts().iter().map(|rounded| rounded.count.get()).collect();
            let (total, largest) = (solution.total_miss(), solution.largest_miss());
            Judged::Best(parts(total, 3_600), parts(largest, 3_600), counts)
        }
        Answer::Conflict(conflict) => {
            assert!(conflict.is_smallest());
            let place = |name: &str| name.strip_prefix("demand ").unwrap().parse().unwrap();
            let by = |release| match release {
                Release::By(by) => Some(i64::try_from(by).unwrap()),
                Release::ByLength(by) => Some(parts(by.millimetres(), 60)),
                Release::Drop => Some(1),
                _ => None,
            };
            let members = conflict.members().iter();
            Judged::Conflict(
                members.map(|member| (place(&member.demand), by(member.release))).collect(),
            )
        }
        other => panic!("{other:?}"),
    }
}

#[test]
fn ten_thousand_small_problems_agree_with_every_assignment_tried() {
    let (mut possible, mut impossible, mut alone, mut measured) = (0, 0, 0, 0);
    for seed in 0..10_000 {
        let sketch = random::small(&mut Random(seed));
        let judged = brute::judge(&sketch);
        assert_eq!(solved(&sketch), judged, "seed {seed}: {sketch:#?}");
        measured += usize::from(!sketch.measures.is_empty());
        match judged {
            Judged::Best(..) => possible += 1,
            Judged::Conflict(members) => {
                impossible += 1;
                alone += members.iter().filter(|member| member.1.is_some()).count();
            }
        }
    }
    assert!(possible > 3_000 && impossible > 3_000, "{possible} possible, {impossible} not");
    assert!(alone > 1_000 && measured > 3_000, "{alone} releases, {measured} with measures");
}
