//! The largest and smallest numbers: answers or refusals, never a panic or a wrapped number.

use super::{rows, st};
use loopwright::gauge::Stitches;
use loopwright::shaping::even::EvenWalk;
use loopwright::shaping::{
    Convention, Crown, Doubling, Edges, Ends, Larger, LastStep, Order, RowGrowth, ShortRows, Side,
    Slope, Spacing, Taper, Technique, WedgeReach,
};

const ENDS: [u32; 7] = [0, 1, 2, 3, 9_999_998, 9_999_999, 10_000_000];

#[test]
fn tapers_at_the_ends() {
    let (mut done, mut refused) = (0, 0);
    for from in ENDS {
        for to in ENDS {
            for all in ENDS {
                for (edges, most, every) in
                    [(Edges::One, 1, 1), (Edges::Both, 10_000_000, 2), (Edges::One, 3, 10_000_000)]
                {
                    let asked = Taper::builder(st(from), st(to), rows(all))
                        .edges(edges)
                        .most(st(most))
                        .legal_rows(rows(every), rows(every));
                    for (order, ends) in
                        [(Order::Spread, Ends::Half), (Order::AlternatingLast, Ends::Both)]
                    {
                        let Ok(taper) = asked.order(order).ends(ends).build() else {
                            refused += 1;
                            continue;
                        };
                        done += 1;
                        assert_eq!(taper.count_at(rows(all)), st(to));
                        assert_eq!(taper.mirrored().unwrap().count_at(rows(all)), st(from));
                        assert!(
                            taper.events().next_back().is_none_or(|last| last.row.get() <= all)
                        );
                    }
                }
            }
        }
    }
    assert!(done > 100 && refused > 100, "{done} and {refused}");
}

#[test]
fn rows_at_the_ends() {
    let (mut done, mut refused) = (0, 0);
    for stitches in ENDS {
        for events in [0, 1, 2, 5_000_000, 10_000_000, u32::MAX] {
            for convention in Convention::ALL {
                for technique in Technique::ALL {
                    let asked = Spacing::builder(st(stitches), technique, events, convention);
                    let Ok(row) = asked.build() else {
                        refused += 1;
                        continue;
                    };
                    done += 1;
                    let last = row.positions().next_back().unwrap_or(Stitches::ZERO);
                    assert!(last <= row.stitches());
                    assert_eq!(last.get() + row.tail().get(), stitches);
                }
            }
        }
    }
    assert!(done > 100 && refused > 100, "{done} and {refused}");
}

#[test]
fn slopes_short_rows_and_rounds_at_the_ends() {
    for stitches in ENDS {
        for n in ENDS.into_iter().chain([u32::MAX]) {
            for last in LastStep::ALL {
                let slope = Slope::builder(st(stitches), n, Larger::Spread).last_step(last);
                if let Ok(slope) = slope.build() {
                    assert_eq!(slope.steps().next_back().unwrap().done, st(stitches));
                    assert!(slope.rows().get() <= 2 * n);
                }
            }
            let even = n.min(10_000_000) / 2 * 2;
            for reach in WedgeReach::ALL {
                if let Ok(short) = ShortRows::wedge(st(stitches), rows(even), Side::Left, reach) {
                    assert_eq!(short.rows().len(), even as usize);
                }
            }
            let core = st(n.min(10_000_000));
            let wedges = [
                ShortRows::heel(st(stitches), core, Side::Left),
                ShortRows::raised(st(stitches), core, rows(2), Side::Left),
                ShortRows::dart(st(stitches), rows(even), Side::Left),
            ];
            for short in wedges.into_iter().flatten() {
                assert!(short.rows().len() <= 100_000);
            }
            if let Ok(crown) = Crown::new(st(stitches), n, rows(3), st(1)) {
                assert!(crown.rounds().all(|(nth, left)| nth.get() > 0 && left < st(stitches)));
            }
            let growth = RowGrowth::new(st(stitches), core, rows(1)).unwrap();
            let all = rows(10_000_000);
            let (first, last) = (u128::from(stitches), u128::from(growth.count_at(all)));
            assert_eq!(growth.total(all), (first + last) * 10_000_000 / 2);
        }
        if let Ok(shawl) = Doubling::new(st(stitches)) {
            assert!(shawl.rings().count() <= 24);
        }
    }
}

#[test]
fn a_walk_is_the_division_at_every_step() {
    for over in [1_u64, 2, 3, 7, 28, 1 << 40] {
        for start in [0, 1, 5, over - 1, over, 3 * over + 1] {
            for step in [0, 1, 2, over - 1, over, 5 * over + 2] {
                let walk = EvenWalk::new(start, step, over).unwrap();
                let wide = EvenWalk::new(u128::from(start), step.into(), over.into()).unwrap();
                let divided = (0..60).map(|k| (start + k * step) / over);
                assert!(walk.take(60).eq(divided.clone()), "({start} + k {step}) / {over}");
                assert!(wide.take(60).eq(divided), "({start} + k {step}) / {over}");
            }
        }
    }
    assert!(EvenWalk::new(1_u64, 1, 0).is_none());
    assert!(EvenWalk::new(1, 1, u64::MAX).is_none());
    // Where there are no larger numbers the values stay.
    let walk = EvenWalk::new(u64::MAX, u64::MAX, 1).unwrap();
    assert!(walk.take(9).all(|value| value == u64::MAX));
}
