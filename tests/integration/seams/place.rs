use super::{rows, stitches};
use loopwright::gauge::Exact;
use loopwright::seams::{PickUpSpacing, Placement, say};
use loopwright_tests::seams::{evenest, larger_first};
use proptest::prelude::*;

const ALL: [PickUpSpacing; 4] =
    [PickUpSpacing::Half, PickUpSpacing::Full, PickUpSpacing::Blocks, PickUpSpacing::Round];

fn place(places: u32, count: u32, spacing: PickUpSpacing) -> Placement {
    Placement::new(rows(places), stitches(count), spacing).unwrap()
}

fn each(places: u32, count: u32, spacing: PickUpSpacing) -> Vec<u32> {
    place(places, count, spacing).each().map(u32::from).collect()
}

/// Runs of ones between rare things, laid out place by place.
fn lay_out(runs: &[u32], rare: Rare, closed: bool) -> Vec<u32> {
    let mut each = Vec::new();
    for (at, &run) in runs.iter().enumerate() {
        let last = at + 1 == runs.len() && !closed;
        match rare {
            Rare::Miss => {
                each.extend(vec![1; run as usize]);
                each.extend((!last).then_some(0));
            }
            Rare::Extra => {
                each.extend(vec![1; run as usize]);
                if !last {
                    *each.last_mut().unwrap() += 1;
                }
            }
            Rare::PickAfter => {
                each.extend(vec![0; run as usize]);
                each.extend((!last).then_some(1));
            }
            Rare::PickBefore => {
                each.push(1);
                each.extend(vec![0; run as usize]);
            }
        }
    }
    each
}

#[derive(Clone, Copy)]
enum Rare {
    Miss,
    Extra,
    PickAfter,
    PickBefore,
}

/// What each spacing is, written out from its definition with the oracles' groups.
fn expected(places: u32, count: u32, spacing: PickUpSpacing) -> Vec<u32> {
    let (most, least) = if count > places { (2, 1) } else { (1, 0) };
    if spacing == PickUpSpacing::Half {
        return evenest(count, places as usize, least, most);
    }
    let (rare, common, kind) = if count > places {
        (count - places, places, Rare::Extra)
    } else if places - count < count {
        (places - count, count, Rare::Miss)
    } else if spacing == PickUpSpacing::Full {
        (count, places - count, Rare::PickAfter)
    } else {
        (count, places - count, Rare::PickBefore)
    };
    if rare == 0 {
        return vec![1; places as usize];
    }
    let picks_first = matches!(kind, Rare::PickBefore);
    let closed = picks_first
        || spacing == PickUpSpacing::Round
        || (spacing == PickUpSpacing::Blocks && common % rare == 0)
        || (spacing == PickUpSpacing::Full && matches!(kind, Rare::Extra) && common == rare);
    let parts = if closed { rare } else { rare + 1 } as usize;
    let runs = match spacing {
        PickUpSpacing::Blocks => larger_first(common, parts),
        _ => evenest(common, parts, 0, common),
    };
    lay_out(&runs, kind, closed)
}

/// Every edge of up to eight rows, against trying every placement.
#[test]
fn placements_are_the_best_of_all() {
    for places in 1..=8 {
        for count in 1..=2 * places {
            for spacing in ALL {
                let best = expected(places, count, spacing);
                assert_eq!(each(places, count, spacing), best, "{count} of {places}, {spacing:?}");
            }
        }
    }
}

/// Runs of the commoner thing as a knitter sees them: how many places lie before each of
/// the rarer, and after the last; and what is left after the last of all.
fn runs(each: &[u32], rare: u32) -> (Vec<u32>, u32) {
    let (mut runs, mut run) = (Vec::new(), 0);
    for &stitches in each {
        if stitches == rare {
            // A place with two stitches ends its own run; a miss lies between two.
            runs.push(run + u32::from(rare == 2));
            run = 0;
        } else {
            run += 1;
        }
    }
    (runs, run)
}

/// Seen from the places alone: whole groups differ by at most one, the larger first in
/// blocks, and round an edge every group is closed.
#[test]
fn groups_are_as_equal_as_can_be() {
    let (mut open, mut closed) = (0, 0);
    for places in 1..=40 {
        for count in (places / 2 + 1..=2 * places).filter(|&count| count != places) {
            for spacing in [PickUpSpacing::Full, PickUpSpacing::Blocks, PickUpSpacing::Round] {
                let each = each(places, count, spacing);
                let (mut sizes, rest) = runs(&each, if count > places { 2 } else { 0 });
                if rest > 0 {
                    sizes.push(rest);
                    open += 1;
                } else {
                    closed += 1;
                }
                let (least, most) = (sizes.iter().min().unwrap(), sizes.iter().max().unwrap());
                assert!(most - least <= 1, "{count} of {places}, {spacing}: {sizes:?}");
                if spacing == PickUpSpacing::Blocks {
                    assert!(sizes.is_sorted_by(|one, next| one >= next), "{sizes:?}");
                }
                assert!(spacing != PickUpSpacing::Round || rest == 0, "{count} of {places}");
            }
        }
    }
    assert!(open > 1_000 && closed > 1_000, "{open} open, {closed} closed");
}

fn edge() -> impl Strategy<Value = (u32, u32)> {
    let places = prop_oneof![1_u32..12, 1_u32..400, Just(10_000)];
    places.prop_flat_map(|places| (Just(places), 1..=2 * places))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn every_stitch_and_place_is_told_once((places, count) in edge(), which in 0_usize..4) {
        let placement = place(places, count, ALL[which]);
        let groups = placement.groups();
        prop_assert_eq!(groups.iter().map(|g| g.stitches()).sum::<u64>(), u64::from(count));
        prop_assert_eq!(groups.iter().map(|g| g.places()).sum::<u64>(), u64::from(places));
        prop_assert!(groups.windows(2).all(|pair| (pair[0].pick, pair[0].miss, pair[0].extra)
            != (pair[1].pick, pair[1].miss, pair[1].extra)));
        // The groups, unrolled, are the same placement as place by place.
        let mut unrolled = Vec::new();
        for group in groups.iter().flat_map(|g| std::iter::repeat_n(g, g.times as usize)) {
            unrolled.extend(vec![1_u8; group.pick.get() as usize]);
            if !group.extra.is_zero() { *unrolled.last_mut().unwrap() += 1; }
            unrolled.extend(vec![0; group.miss as usize]);
        }
        prop_assert_eq!(placement.each().collect::<Vec<_>>(), unrolled);
    }

    #[test]
    fn drift_is_the_furthest_from_the_line((places, count) in edge(), which in 0_usize..4) {
        let placement = place(places.min(400), count.min(2 * places.min(400)), ALL[which]);
        let (places, count) = (i64::from(placement.places().get()), i64::from(placement.stitches()));
        let (mut picked, mut most) = (0, 0);
        for (at, stitches) in placement.each().enumerate() {
            picked += i64::from(stitches);
            most = most.max((picked * places - count * (i64::try_from(at).unwrap() + 1)).abs());
        }
        let drift = placement.drift().unwrap();
        prop_assert_eq!(drift, Exact::new(most, places).unwrap());
        if placement.spacing() == PickUpSpacing::Half {
            prop_assert!(drift <= Exact::new(1, 2).unwrap());
        }
    }
}

#[test]
fn spacings_differ_at_the_ends() {
    let words = |spacing| say(&place(26, 20, spacing).groups());
    assert_eq!(words(PickUpSpacing::Blocks), "(pick up 3, miss 1) 6 times, then pick up 2");
    assert_eq!(
        words(PickUpSpacing::Full),
        "(pick up 3, miss 1) 3 times, then pick up 2, miss 1, then (pick up 3, miss 1) twice, \
         then pick up 3"
    );
    // 20 over 6 misses: 3.3, 6.7, 10, 13.3, 16.7, 20.
    assert_eq!(
        words(PickUpSpacing::Round),
        "[pick up 3, miss 1, pick up 4, miss 1, pick up 3, miss 1] twice"
    );
    assert_eq!(
        words(PickUpSpacing::Half),
        "pick up 2, miss 1, then (pick up 3, miss 1) twice, then pick up 4, miss 1, then (pick up 3, miss 1) twice, then pick up 2"
    );
}

#[test]
fn what_comes_again_is_told_once() {
    assert_eq!(
        say(&place(28, 20, PickUpSpacing::Round).groups()),
        "[pick up 2, miss 1, pick up 3, miss 1] 4 times"
    );
    assert_eq!(
        say(&place(21, 15, PickUpSpacing::Round).groups()),
        "[pick up 2, miss 1, pick up 3, miss 1] 3 times"
    );
}

#[test]
fn more_stitches_than_rows_share_places() {
    assert_eq!(
        say(&place(30, 40, PickUpSpacing::Blocks).groups()),
        "(pick up 3, 1 more in the same place) 10 times"
    );
    assert_eq!(
        say(&place(3, 6, PickUpSpacing::Full).groups()),
        "(pick up 2 in the same place) 3 times"
    );
}
