//! The solver against every assignment tried.

use loopwright::gauge::Exact;
use loopwright::joint::{Outcome, Relaxation};
use loopwright_tests::joint::Sketch;
use loopwright_tests::joint::brute::{self, Judged};
use loopwright_tests::joint::random::{self, Random};

fn solved(sketch: &Sketch) -> Judged {
    match sketch.problem().solve().unwrap() {
        Outcome::Solved(solution) => {
            assert!(solution.is_proved());
            let sixtieths = |n: Exact| n.checked_mul(Exact::whole(60)).unwrap().numer();
            let counts = solution.counts().iter().map(|rounded| rounded.count).collect();
            let (total, largest) = (solution.total_deviation(), solution.largest_deviation());
            Judged::Best(sixtieths(total), sixtieths(largest), counts)
        }
        Outcome::Conflict(conflict) => {
            let place = |name: &str| name.strip_prefix("demand ").unwrap().parse().unwrap();
            let by = |relaxation| match relaxation {
                Relaxation::By(by) => i64::try_from(by).unwrap(),
                Relaxation::Drop => 1,
                other => panic!("{other:?}"),
            };
            let members = conflict.members().iter();
            Judged::Conflict(
                members.map(|member| (place(&member.demand), by(member.relaxation))).collect(),
            )
        }
        other => panic!("{other:?}"),
    }
}

#[test]
fn ten_thousand_small_problems_agree_with_every_assignment_tried() {
    let (mut possible, mut impossible) = (0, 0);
    for seed in 0..10_000 {
        let sketch = random::small(&mut Random(seed));
        let judged = brute::judge(&sketch);
        assert_eq!(solved(&sketch), judged, "seed {seed}: {sketch:#?}");
        match judged {
            Judged::Best(..) => possible += 1,
            Judged::Conflict(_) => impossible += 1,
        }
    }
    assert!(possible > 3_000 && impossible > 3_000, "{possible} possible, {impossible} not");
}
