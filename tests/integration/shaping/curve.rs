use super::{rows, st};
use loopwright::gauge::{Exact, Length};
use loopwright::shaping::{AtOnce, Bend, Curve, Direction, Neck, Outline};
use loopwright_tests::shaping::staircase::{Part, SCALE, Task, Trend};
use proptest::prelude::*;

/// A row to the centimetre and a stitch to the centimetre, so corners fall on whole ones.
fn outline(task: &Task) -> Outline {
    let cm = |n: i64| Length::cm(n).unwrap();
    task.parts.iter().fold(Outline::start(), |outline, part| {
        let across = cm(part.across.1 - part.across.0);
        let up = cm(part.up.1 - part.up.0);
        match part.trend {
            Trend::Straight(..) => outline.line(across, up),
            Trend::Slowing => outline.quarter(across, up, Bend::Slowing),
            Trend::Quickening => outline.quarter(across, up, Bend::Quickening),
        }
        .unwrap()
    })
}

fn narrow(n: i64) -> u32 {
    u32::try_from(n).unwrap()
}

/// The opening and the steps the library finds, with the largest deviation.
fn found(task: &Task) -> Option<(i64, Vec<(i64, i64)>)> {
    let outline = outline(task);
    let height = task.parts.last().unwrap().up.1;
    let at_once = |open: bool| if open { AtOnce::Nearest } else { AtOnce::Nothing };
    let curve = Curve::builder(&outline, st(narrow(task.total)), rows(narrow(height)))
        .most(st(narrow(task.most)))
        .single_rows(rows(narrow(task.single.0)), rows(narrow(task.single.1)))
        .several_rows_from(rows(narrow(task.several)))
        .opening(at_once(task.open.0))
        .closing(at_once(task.open.1))
        .build()
        .ok()?;
    let mut done = i64::from(curve.opening().get());
    let mut steps = vec![(0, done)];
    for event in curve.events() {
        done += i64::from(event.stitches.get());
        steps.push((event.row.get().into(), done));
    }
    let parts = curve.deviation().checked_mul(Exact::literal(SCALE, 1)).unwrap();
    assert!(parts.is_whole());
    Some((parts.numer(), steps))
}

fn task(kinds: &[u8], sizes: &[(i64, i64)], most: i64, first: i64, every: i64) -> Task {
    let (mut x, mut y) = (0, 0);
    let parts = kinds.iter().zip(sizes).map(|(kind, (across, up))| {
        let trend = match kind {
            0 => Trend::Slowing,
            1 => Trend::Quickening,
            _ => Trend::Straight(*across, *up),
        };
        let part = Part { trend, across: (x, x + across), up: (y, y + up) };
        (x, y) = (x + across, y + up);
        part
    });
    let parts: Vec<Part> = parts.collect();
    Task { parts, total: x, most, single: (first, every), several: first, open: (false, false) }
}

#[test]
fn single_parts_are_the_best_of_all_staircases() {
    for kind in 0..3 {
        for across in 1..=6 {
            for up in 2..=9 {
                for (first, every) in [(1, 1), (2, 2), (1, 2)] {
                    for open in [(false, false), (true, false), (false, true), (true, true)] {
                        let mut task = task(&[kind], &[(across, up)], 3, first, every);
                        task.open = open;
                        assert_eq!(found(&task), task.best(), "{task:?}");
                    }
                }
            }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn parts_after_one_another_are_the_best_of_all_staircases(
        kinds in prop::sample::select([[0, 1], [1, 0], [0, 2], [2, 0], [1, 2], [2, 1]].as_slice()),
        sizes in ((1..5_i64, 2..6_i64), (1..4_i64, 2..6_i64)),
        (most, first) in (2..4_i64, 1..3_i64),
        open in (any::<bool>(), any::<bool>()),
    ) {
        let mut task = task(&kinds, &[sizes.0, sizes.1], most, first, first);
        task.open = open;
        prop_assert_eq!(found(&task), task.best());
    }

    #[test]
    fn curve_laws(
        (across, up) in (1..60_u32, 4..120_u32),
        bend in prop_oneof![Just(Bend::Slowing), Just(Bend::Quickening)],
        single in 1..3_u32,
    ) {
        let unit = Length::cm(10).unwrap();
        let quarter = Outline::quarter_ellipse(unit, unit, bend).unwrap();
        let curve = Curve::builder(&quarter, st(across), rows(up))
            .most(st(6))
            .single_rows(rows(single), rows(single))
            .opening(AtOnce::Nearest)
            .closing(AtOnce::Nearest)
            .build()
            .unwrap();
        let steps: u32 = curve.events().iter().map(|event| event.stitches.get()).sum();
        let all = curve.opening().get() + steps + curve.closing().get();
        prop_assert_eq!(all, across);
        prop_assert_eq!(curve.done_at(rows(up)).get(), across - curve.closing().get());
        // Several stitches only every other row; sizes never turn back.
        let events = curve.events();
        prop_assert!(events.iter().all(|event| event.stitches.get() == 1 || event.row.get() % 2 == 0));
        let sizes: Vec<u32> = events.iter().map(|event| event.stitches.get()).collect();
        let smooth = match bend {
            Bend::Slowing => sizes.is_sorted_by(|a, b| a >= b),
            Bend::Quickening => sizes.is_sorted(),
        };
        prop_assert!(smooth, "{:?}", sizes);
    }
}

#[test]
fn a_round_neck_of_the_usual_size_has_steps_of_three_two_and_one() {
    // The general knitting handbook's 32-stitch neck (3, 2, 2, 1, 1, 1) and zaro.info's
    // rule of steps of 3, 2 and 1. A front neck is 2 to 3 in deep.
    for stitches in 30..=42 {
        for depth in (16..=24).step_by(2) {
            let neck = Neck::round(st(stitches), rows(depth)).unwrap();
            let mut sizes: Vec<u32> =
                neck.side().events().iter().map(|event| event.stitches.get()).collect();
            sizes.dedup();
            assert_eq!(sizes, [3, 2, 1], "{stitches} over {depth}");
            let side = neck.side().stitches().get();
            assert_eq!(neck.centre().get() + 2 * side, stitches);
        }
    }
}

#[test]
fn published_necks_are_staircases_and_none_is_nearer_than_ours() {
    // Half the width, what is bound off of it at once, rows, first carriage row, and the
    // steps as (row, done); the source of each beside it.
    type Published = (i64, i64, i64, i64, Vec<(i64, i64)>);
    let published: [Published; 3] = [
        // General knitting handbook, zanotowane.pl/713/7786: 32, centre 12, 3, 2, 2, 1, 1, 1.
        (16, 6, 16, 2, vec![(2, 9), (4, 11), (6, 13), (8, 14), (10, 15), (12, 16)]),
        // A double-bed machine owner's manual, p. 26: 30, centre 8, 3, 2, then 1 on
        // alternate rows and on every 4th, 28 rows after dividing.
        (
            15,
            4,
            28,
            2,
            vec![(2, 7), (4, 9), (6, 10), (8, 11), (10, 12), (14, 13), (18, 14), (22, 15)],
        ),
        // 10rowsaday.com: an armhole of 4, 3, 2, 1 at the beginning of rows, 8 rows.
        (10, 0, 8, 1, vec![(1, 4), (3, 7), (5, 9), (7, 10)]),
    ];
    for (half, centre, depth, first, steps) in published {
        let mut task = task(&[0], &[(half, depth)], 4, first, 2);
        task.open = (true, false);
        let mut theirs = vec![(0, centre, centre)];
        for (row, done) in steps {
            let before = theirs.last().unwrap().2;
            theirs.push((row, done - before, done));
        }
        assert!(task.allows(&theirs), "{theirs:?}");
        let quarter = outline(&task);
        let curve = Curve::builder(&quarter, st(narrow(half)), rows(narrow(depth)))
            .several_rows_from(rows(narrow(first)))
            .single_rows(rows(narrow(first)), rows(2))
            .opening(AtOnce::Exactly(st(narrow(centre))))
            .build()
            .unwrap();
        let mut ours = vec![(0, centre, centre)];
        for event in curve.events() {
            let before = ours.last().unwrap().2;
            let stitches = i64::from(event.stitches.get());
            ours.push((event.row.get().into(), stitches, before + stitches));
        }
        assert!(task.cost(&ours) <= task.cost(&theirs), "{ours:?}");
    }
}

#[test]
fn a_v_neck_of_thirty_and_of_thirty_one() {
    // knit1knitall.blogspot.com, August 2015: 15 each side; of 31, one at the centre.
    let line = Outline::start().line(Length::cm(8).unwrap(), Length::cm(20).unwrap()).unwrap();
    for (all, centre) in [(30, 0), (31, 1)] {
        let neck = Neck::builder(&line, st(all), rows(60))
            .centre(AtOnce::Nothing)
            .side(|side| side.single_rows(rows(1), rows(1)))
            .build()
            .unwrap();
        assert_eq!(neck.centre().get(), centre);
        assert_eq!(neck.side().stitches().get(), 15);
        assert!(neck.side().events().iter().all(|event| event.stitches.get() == 1));
    }
}

#[test]
fn a_straight_line_uses_only_the_two_rates_around_it() {
    let line = Outline::start().line(Length::cm(5).unwrap(), Length::cm(20).unwrap()).unwrap();
    let edge = Curve::builder(&line, st(7), rows(61)).build().unwrap();
    let mut last = 0;
    for (i, event) in edge.events().iter().enumerate() {
        let gap = event.row.get() - last;
        last = event.row.get();
        assert!(i == 0 || gap == 8 || gap == 10, "a gap of {gap}");
    }
}

#[test]
fn curves_in_words() {
    let unit = Length::cm(1).unwrap();
    let quarter = Outline::quarter_ellipse(unit, unit, Bend::Slowing).unwrap();
    let curve = Curve::builder(&quarter, st(10), rows(8)).opening(AtOnce::Exactly(st(4))).build();
    assert_eq!(
        curve.unwrap().words(Direction::Decrease).to_string(),
        "bind off 4, then bind off 3 every other row once, then bind off 2 every other row once, \
         then decrease 1 every other row once, then work 2 rows plain"
    );
}

#[test]
fn deviations_are_those_of_a_true_ellipse() {
    // Drawn with floating point, where the library and its oracle take whole roots: half of
    // row 7 of 40 is 6.5 rows up, and a quarter ellipse is there w * sqrt(1 - (1 - y)^2) across.
    for (stitches, up) in [(16_u32, 22_u32), (40, 40), (150, 90), (600, 800)] {
        for bend in [Bend::Slowing, Bend::Quickening] {
            let quarter =
                Outline::quarter_ellipse(Length::cm(9).unwrap(), Length::cm(8).unwrap(), bend);
            let quarter = quarter.unwrap();
            let curve = Curve::builder(&quarter, st(stitches), rows(up))
                .most(st(12))
                .opening(AtOnce::Nearest)
                .closing(AtOnce::Nearest)
                .build()
                .unwrap();
            let off = (1..=up).map(|row| {
                let y = (f64::from(row) - 0.5) / f64::from(up);
                let across = match bend {
                    Bend::Slowing => (1.0 - (1.0 - y).powi(2)).sqrt(),
                    Bend::Quickening => 1.0 - (1.0 - y * y).sqrt(),
                };
                (f64::from(stitches) * across - f64::from(curve.done_at(rows(row)).get())).abs()
            });
            let farthest = off.fold(0.0, f64::max);
            let told = curve.deviation().to_f64_lossy();
            assert!((told - farthest).abs() < 1e-3, "{stitches} over {up}: {told}, not {farthest}");
        }
    }
}

#[test]
fn the_largest_curves_are_found() {
    // As large as a curve may be: without an opening the staircase is far off, and it is
    // found all the same.
    let unit = Length::cm(1).unwrap();
    let quarter = |bend| Outline::quarter_ellipse(unit, unit, bend).unwrap();
    let far = quarter(Bend::Slowing);
    let curve = |most| Curve::builder(&far, st(1_000), rows(1_000)).most(most);
    let found = curve(st(4)).build().unwrap();
    assert_eq!(found.done_at(rows(1_000)), st(1_000));
    // Four in two rows fall behind a quarter circle until it rises 2 in a row, too: so it
    // does 1 - 2 / sqrt 5 of its height up and 1 / sqrt 5 across.
    let told = found.deviation().to_f64_lossy();
    let off = 1_000.0 * (1.0 / 5.0_f64.sqrt() - 2.0 * (1.0 - 2.0 / 5.0_f64.sqrt()));
    assert!((told - off).abs() < 3.0, "{told}, not {off}");
    let mut nearest = 0;
    for most in [4, 30, 1_000] {
        for bend in [Bend::Slowing, Bend::Quickening] {
            let outline = quarter(bend);
            let asked = Curve::builder(&outline, st(1_000), rows(1_000))
                .most(st(most))
                .opening(AtOnce::Nearest)
                .closing(AtOnce::Nearest);
            match asked.build() {
                Ok(found) => {
                    let done = found.done_at(rows(1_000)).get();
                    assert_eq!(done + found.closing().get(), 1_000);
                    nearest += 1;
                }
                Err(refused) => assert_eq!(
                    refused.to_string(),
                    "the nearest staircase of 1000 stitches in 1000 rows takes more than 40000000 \
                     steps to find: divide the outline, or ask for fewer rows"
                ),
            }
        }
    }
    assert!(nearest >= 3, "only {nearest} were found");
}

#[test]
fn large_curves_are_found() {
    let unit = Length::cm(1).unwrap();
    let quarter = Outline::quarter_ellipse(unit, unit, Bend::Slowing).unwrap();
    let curve = Curve::builder(&quarter, st(900), rows(900))
        .most(st(40))
        .opening(AtOnce::Nearest)
        .build()
        .unwrap();
    assert_eq!(curve.done_at(rows(900)), st(900));
}
