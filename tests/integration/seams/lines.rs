#![expect(clippy::float_arithmetic, reason = "lengths are compared with the standard library's")]

use super::{bound_off, gauge, rows, selvedge, stitches};
use loopwright::gauge::{Gauge, Repeat, Round};
use loopwright::seams::{Edge, EdgeStep, PickUpLine, PickUpSpacing, Rate};
use loopwright_tests::laws::tried;
use loopwright_tests::seams::nearest_shares;
use proptest::prelude::*;

fn counts(line: &PickUpLine, count: u32) -> Vec<u32> {
    let picked = line.place(stitches(count), PickUpSpacing::Half).unwrap();
    picked.iter().map(|run| run.stitches.get()).collect()
}

fn sides(lengths: &[u32]) -> PickUpLine {
    lengths.iter().fold(PickUpLine::new(gauge()), |line, &n| line.along(selvedge("side", n)))
}

/// forum.knittinghelp.com/t/48137 and /t/124191: quarters of 40 and of 71.
#[test]
fn quarters() {
    let quarters = sides(&[22, 22, 22, 22]);
    assert_eq!(counts(&quarters, 40), [10, 10, 10, 10]);
    assert_eq!(counts(&quarters, 71), [18, 18, 18, 17]);
}

/// Every kind of edge in one line round a neck.
#[test]
fn a_neck_of_every_kind_of_edge() {
    let step = |up, across| EdgeStep { rows: rows(up), stitches: stitches(across) };
    let curve = |name| {
        let steps = vec![step(0, 4), step(2, 3), step(2, 2), step(2, 1), step(2, 1), step(20, 0)];
        Edge::stepped(name, steps, gauge()).unwrap()
    };
    let neck = PickUpLine::new("30x40/10cm".parse().unwrap())
        .along(bound_off("back neck", 40))
        .along(curve("left front neck"))
        .along_at(bound_off("front neck", 20), Rate::new(1, 1).unwrap())
        .along(curve("right front neck"));
    let fitted = neck.fit(Repeat::multiple_of(4).unwrap(), Round::HalfUp).unwrap();
    assert_eq!(fitted.count.get() % 4, 0);
    let picked = neck.place(fitted.count, PickUpSpacing::Full).unwrap();
    assert_eq!(picked.iter().map(|run| run.stitches.get()).sum::<u32>(), fitted.count.get());
    assert_eq!(picked[1].stitches, picked[3].stitches);
    for run in &picked {
        let told: u64 = run.groups.iter().map(|group| group.stitches()).sum();
        assert_eq!(told, u64::from(run.stitches.get()), "{}", run.edge);
    }
    // Four bound-off stitches, five and four along the bound-off steps, two rows a
    // decrease, and twenty rows.
    let places: u64 = picked[1].groups.iter().map(|group| group.places()).sum();
    assert_eq!(places, 4 + 5 + 4 + 2 + 2 + 20);
}

#[test]
fn a_shared_corner_is_counted_once() {
    let neck = |corners| {
        let line = sides(&[80]);
        let line = if corners { line.corner() } else { line };
        line.along(selvedge("other side", 80))
    };
    // 20 cm each, so 56 stitches; the corner takes half a stitch from each.
    assert_eq!(counts(&neck(false), 112), [56, 56]);
    let cornered = neck(true).mirrored().place(stitches(113), PickUpSpacing::Half).unwrap();
    assert_eq!(cornered.iter().map(|run| run.stitches.get()).sum::<u32>(), 112);
    assert!(cornered[0].corner && !cornered[1].corner);
    assert_eq!(
        neck(true).place(stitches(112), PickUpSpacing::Half).unwrap()[0].stitches,
        stitches(56)
    );
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn shares_are_the_nearest_of_all(lengths in prop::collection::vec(5_u32..40, 1..4), count in 1_u32..9) {
        let weights: Vec<i64> = lengths.iter().map(|&n| n.into()).collect();
        let best = nearest_shares(count, &weights, false).unwrap();
        prop_assert_eq!(counts(&sides(&lengths), count), best);
    }
}

#[test]
fn mirrored_shares_are_the_nearest_of_all() {
    let half = prop::collection::vec(5_u32..40, 1..3);
    let input = (half, prop::option::of(5_u32..40), 1_u32..11);
    tried(&input, 40, 5, |(half, middle, count)| {
        let lengths: Vec<u32> =
            half.iter().copied().chain(middle).chain(half.iter().rev().copied()).collect();
        let weights: Vec<i64> = lengths.iter().map(|&n| n.into()).collect();
        let picked = sides(&lengths).mirrored().place(stitches(count), PickUpSpacing::Half);
        match (nearest_shares(count, &weights, true), picked) {
            (Some(best), Ok(picked)) => {
                let found: Vec<u32> = picked.iter().map(|run| run.stitches.get()).collect();
                prop_assert_eq!(found, best);
                Ok(true)
            }
            (None, Err(_)) => Ok(false),
            // A middle that is due less than one stitch gets none, or the odd one.
            (Some(_), Err(refused)) => {
                prop_assert!(refused.to_string().contains("too short in the middle"), "{refused}");
                Ok(false)
            }
            (None, Ok(picked)) => Err(TestCaseError::fail(format!("{picked:?}"))),
        }
    });
}

/// What is due after every place of a staircase, by its length.
fn dues(steps: &[(u32, u32)], count: u32) -> Vec<f64> {
    let (mut along, mut marks) = (0.0_f64, Vec::new());
    for &(up, across) in steps {
        let (h, w) = (f64::from(up) * 2.5, f64::from(across) / 0.28);
        let places = if across > 1 { up + across } else { up };
        for _ in 0..places {
            along += h.hypot(w) / f64::from(places);
            marks.push(along);
        }
    }
    marks.iter().map(|mark| mark / along * f64::from(count)).collect()
}

/// Along a staircase the stitches keep step with the length, to half a stitch; what would
/// take more than two in one place is refused.
#[test]
fn a_staircase_is_picked_up_by_length() {
    let steps = prop::collection::vec((1_u32..9, 0_u32..5), 2..12);
    tried(&(steps, 1_u32..60), 50, 3, |(mut steps, count)| {
        steps[0].1 = steps[0].1.max(1); // a slant, not a straight side
        let stair = steps
            .iter()
            .map(|&(up, across)| EdgeStep { rows: rows(up), stitches: stitches(across) });
        let edge = Edge::stepped("curve", stair.collect(), gauge()).unwrap();
        let dues = dues(&steps, count);
        let line = PickUpLine::new(gauge()).along(edge);
        let Ok(picked) = line.place(stitches(count), PickUpSpacing::Half) else {
            let widest = dues.windows(2).map(|due| due[1] - due[0]).fold(dues[0], f64::max);
            prop_assert!(widest > 1.0, "{} refused for {}", count, widest);
            return Ok(false);
        };
        let mut each: Vec<u32> = Vec::new();
        let groups = picked[0].groups.iter();
        for group in groups.flat_map(|g| std::iter::repeat_n(g, g.times as usize)) {
            each.extend(vec![1; group.pick.get() as usize]);
            if !group.extra.is_zero() {
                *each.last_mut().unwrap() += group.extra.get();
            }
            each.extend(vec![0; group.miss as usize]);
        }
        prop_assert_eq!((each.len(), each.iter().sum()), (dues.len(), count));
        let mut sum = 0;
        for (stitches, due) in each.iter().zip(dues) {
            sum += stitches;
            prop_assert!(
                *stitches <= 2 && (f64::from(sum) - due).abs() < 0.500_1,
                "{sum} for {due}"
            );
        }
        Ok(true)
    });
}

#[test]
fn a_rate_overrules_the_length() {
    let fine: Gauge = "40x56/10cm".parse().unwrap();
    let line = |rate: Option<Rate>| {
        let edge = bound_off("back neck", 36);
        let line = PickUpLine::new(fine);
        let line = match rate {
            Some(rate) => line.along_at(edge, rate),
            None => line.along(edge),
        };
        line.fit(Repeat::any(), Round::HalfUp).unwrap().count.get()
    };
    assert_eq!(line(None), 51); // 36 / 28 * 40 = 51.4
    assert_eq!(line(Some(Rate::new(1, 1).unwrap())), 36);
}
