use super::st;
use loopwright::gauge::{Repeat, Round, Stitches};
use loopwright::shaping::{Convention, Larger, Spacing, SpacingBuilder, Surplus, Technique};
use loopwright_tests::laws::tried_on;
use loopwright_tests::shaping::evenly::{best_mirrored, best_places, least_moves};
use loopwright_tests::shaping::row::work;
use proptest::prelude::*;

const TECHNIQUES: [Technique; 4] = [
    Technique::IncreaseBetween,
    Technique::IncreaseIn,
    Technique::TwoTogether,
    Technique::ThreeTogether,
];

fn places(builder: SpacingBuilder) -> Option<Vec<u32>> {
    builder.build().ok().map(|row| row.positions().map(Stitches::get).collect())
}

#[test]
fn half_gaps_are_the_best_of_all_placements() {
    for technique in TECHNIQUES {
        for width in 1..=12 {
            for events in 1..=6 {
                let row = Spacing::builder(st(width), technique, events, Convention::HalfGaps);
                let best = best_places(width, events, technique.uses().get());
                assert_eq!(places(row), best, "{events} {technique:?} in {width}");
            }
        }
    }
}

#[test]
fn mirrored_half_gaps_are_the_best_of_all_mirrored_placements() {
    for technique in TECHNIQUES {
        for width in 1..=12 {
            for events in 1..=6 {
                let row =
                    Spacing::builder(st(width), technique, events, Convention::HalfGaps).mirrored();
                let best = best_mirrored(width, events, technique.uses().get());
                assert_eq!(places(row), best, "{events} {technique:?} in {width}");
            }
        }
    }
}

#[test]
fn moves_off_a_cable_are_the_least_of_all() {
    for technique in TECHNIQUES {
        for width in [9, 12] {
            for events in 1..=4 {
                for (from, to) in [(1, 2), (3, 5), (4, 9), (6, 6), (8, 12)] {
                    let row = Spacing::builder(st(width), technique, events, Convention::HalfGaps);
                    let Some(wanted) = places(row.clone()) else { continue };
                    let uses = technique.uses().get();
                    let allowed = |place: u32| match uses {
                        0 => place < from || place >= to,
                        _ => (place - uses + 1..=place).all(|stitch| stitch < from || stitch > to),
                    };
                    let best = least_moves(&wanted, width, uses, &allowed);
                    let got = places(row.avoid(st(from), st(to)));
                    assert_eq!(got, best, "{events} {technique:?} in {width}, off {from} to {to}");
                }
            }
        }
    }
}

#[test]
fn events_between_repeats_never_break_one() {
    for multiple in 2..=4 {
        // From the second repeat on is a place to begin, too.
        for offset in 0..2 * multiple {
            for events in 1..=3 {
                let technique = Technique::IncreaseBetween;
                let row = Spacing::builder(st(14), technique, events, Convention::HalfGaps);
                let wanted = places(row.clone()).unwrap();
                let allowed =
                    |place: u32| place >= offset && (place - offset).is_multiple_of(multiple);
                let best = least_moves(&wanted, 14, 0, &allowed);
                assert_eq!(places(row.between_repeats(st(multiple), st(offset))), best);
            }
        }
    }
}

fn convention() -> impl Strategy<Value = Convention> {
    prop_oneof![
        Just(Convention::Round),
        Just(Convention::FullGaps),
        Just(Convention::HalfGaps),
        Just(Convention::BothEnds),
        Just(Convention::Blocks),
        Just(Convention::BlocksHalved),
        Just(Convention::Leftover),
        Just(Convention::HalfNumbers),
    ]
}

fn round() -> impl Strategy<Value = Round> {
    prop_oneof![
        Just(Round::Floor),
        Just(Round::Ceil),
        Just(Round::HalfUp),
        Just(Round::HalfDown),
        Just(Round::Exact),
    ]
}

prop_compose! {
    fn asked()(
        stitches in 0..200_u32,
        technique in prop::sample::select(TECHNIQUES.as_slice()),
        events in 0..60_u32,
        (convention, round) in (convention(), round()),
        larger in prop_oneof![Just(Larger::First), Just(Larger::Last), Just(Larger::Spread)],
        rest in prop_oneof![Just(Surplus::Start), Just(Surplus::End), Just(Surplus::Split)],
        borders in (0..6_u32, 0..6_u32),
        (mirrored, reversed) in (any::<bool>(), any::<bool>()),
        avoid in prop::collection::vec((1..150_u32, 0..8_u32), 0..3),
    ) -> SpacingBuilder {
        let row = Spacing::builder(st(stitches), technique, events, convention)
            .round(round)
            .larger(larger)
            .surplus(rest)
            .borders(st(borders.0), st(borders.1));
        let row = if mirrored { row.mirrored() } else { row };
        let row = if reversed { row.reversed() } else { row };
        avoid.into_iter().fold(row, |row, (from, wide)| row.avoid(st(from), st(from + wide)))
    }
}

#[test]
fn the_written_row_works_out_stitch_by_stitch() {
    tried_on(3_000, &asked(), 30, 1, |asked| {
        let Ok(row) = asked.build() else { return Ok(false) };
        if row.stitches().get() == 0 {
            return Ok(false);
        }
        let words = row.words().to_string();
        let worked = work(&words, row.stitches().get()).map_err(TestCaseError::fail)?;
        let positions: Vec<u32> = row.positions().map(Stitches::get).collect();
        prop_assert_eq!(worked.new.len(), row.result().get() as usize, "{}", words);
        prop_assert_eq!(&worked.events, &positions, "{}", words);
        let backwards: Vec<u32> = row.positions().rev().map(Stitches::get).collect();
        prop_assert!(backwards.iter().rev().eq(&positions));
        prop_assert_eq!(row.positions().len(), positions.len());
        let told: u32 = row.groups().map(|group| group.size.get() * group.times).sum();
        let (start, end) = row.borders();
        let parts = [start, row.lead(), st(told), row.tail(), end];
        prop_assert_eq!(Stitches::total(parts).unwrap(), row.stitches());
        Ok(true)
    });
}

#[test]
fn mirrored_rows_are_palindromes() {
    tried_on(3_000, &asked(), 8, 1, |asked| {
        let Ok(row) = asked.mirrored().build() else { return Ok(false) };
        let positions: Vec<u32> = row.positions().map(Stitches::get).collect();
        let (start, end) = row.borders();
        let sum = start.get() + row.stitches().get() - end.get() + row.technique().uses().get();
        let pairs = positions.iter().zip(positions.iter().rev());
        prop_assert!(pairs.clone().all(|(a, b)| a + b == sum));
        prop_assert!(row.is_mirrored());
        Ok(!positions.is_empty())
    });
}

#[test]
fn turned_round_twice_is_the_same_row() {
    tried_on(2_000, &asked(), 30, 1, |asked| {
        let Ok(row) = asked.clone().build() else { return Ok(false) };
        let twice = asked.reversed().reversed().build().unwrap();
        prop_assert!(row.positions().eq(twice.positions()));
        Ok(true)
    });
}

#[test]
fn half_gaps_stay_within_half_an_event() {
    let technique = prop::sample::select(TECHNIQUES.as_slice());
    tried_on(
        2_000,
        &(1..3_000_u32, 1..1_000_u32, technique),
        25,
        1,
        |(stitches, events, technique)| {
            let asked = Spacing::builder(st(stitches), technique, events, Convention::HalfGaps);
            let Ok(row) = asked.build() else { return Ok(false) };
            // Where an event cannot use stitches that are not there, it is held up.
            if stitches < 2 * technique.uses().get().max(1) * events {
                return Ok(false);
            }
            let (mut done, mut ahead) = (0_u64, row.positions().peekable());
            for prefix in 0..=stitches {
                while ahead.next_if(|place| place.get() <= prefix).is_some() {
                    done += 1;
                }
                let off =
                    (u64::from(prefix) * u64::from(events)).abs_diff(done * u64::from(stitches));
                prop_assert!(2 * off <= u64::from(stitches), "prefix {}", prefix);
            }
            Ok(true)
        },
    );
}

#[test]
fn a_row_taken_onto_a_repeat_is_allowed_by_it() {
    tried_on(1_000, &(1..400_u32, 1..30_u32, 0..10_u32), 60, 0, |(stitches, multiple, extra)| {
        let repeat = Repeat::new(multiple, extra, 1).unwrap();
        let asked = Spacing::onto(st(stitches), repeat, Round::HalfUp, Convention::Round).unwrap();
        let Ok(row) = asked.build() else { return Ok(false) };
        let result = row.result().get();
        prop_assert!(repeat.allows(result));
        // No other allowed count is nearer.
        let nearer = (1..=400 + 60).filter(|n| repeat.allows(*n));
        let nearest = nearer.map(|n: u32| n.abs_diff(stitches)).min().unwrap();
        prop_assert_eq!(result.abs_diff(stitches), nearest);
        Ok(true)
    });
}

/// How far the `k`th of `n` events may lie from its line, and twice how far it does, all
/// of it `2 n (n + 1) (n - 1)` times as large so as to be whole.
fn off_the_line(convention: Convention, width: i64, uses: i64, n: i64, places: &[i64]) -> i64 {
    let (d, last) = (2 * n * (n + 1) * (n - 1).max(1), (n - 1).max(1));
    let first = if uses == 0 { 1 } else { uses };
    let end = if uses == 0 { width - 1 } else { width };
    let line = |k: i64| match convention {
        Convention::Round => d / n * width * k,
        Convention::FullGaps => d / (n + 1) * width * k,
        Convention::BothEnds => d * first + d / last * (end - first) * (k - 1),
        _ => d / (2 * n) * width * (2 * k - 1),
    };
    let off = (1..).zip(places).map(|(k, place)| (d * place - line(k)).abs()).max().unwrap_or(0);
    // In hundredths, rounded up.
    (100 * off + d - 1) / d
}

#[test]
fn four_conventions_keep_to_a_straight_line() {
    let four =
        [Convention::Round, Convention::FullGaps, Convention::HalfGaps, Convention::BothEnds];
    let mut farthest = [0; 4];
    for technique in TECHNIQUES {
        for width in 1..60_u32 {
            for n in 1..=width {
                for (convention, farthest) in four.into_iter().zip(&mut farthest) {
                    let row = Spacing::builder(st(width), technique, n, convention);
                    let Some(places) = places(row) else { continue };
                    let places: Vec<i64> = places.into_iter().map(i64::from).collect();
                    let uses = technique.uses().into();
                    let off = off_the_line(convention, width.into(), uses, n.into(), &places);
                    let most = if convention == Convention::HalfGaps { 50 * uses } else { 0 };
                    assert!(off <= most.max(100), "{n} {technique:?} in {width}, {convention:?}");
                    *farthest = off.max(*farthest);
                }
            }
        }
    }
    // The bound of the page is reached: three together, three stitches, one event.
    assert!(farthest[2] == 150 && farthest.iter().all(|off| *off > 90), "{farthest:?}");
}

#[test]
fn other_conventions_do_not_keep_to_a_straight_line() {
    // 50 in 20 groups of 2 and of 3, ten each: after the tenth 20 are used, not 25. What is
    // left over of 59 in twos, 19 stitches, lies behind the last event.
    for (stitches, convention, off) in [
        (50, Convention::Blocks, 5),
        (50, Convention::BlocksHalved, 5),
        (59, Convention::Leftover, 19),
    ] {
        let row = Spacing::builder(st(stitches), Technique::TwoTogether, 20, convention);
        let places = places(row).unwrap();
        let line = |k: u32| k * stitches / 20;
        let farthest = (1..).zip(&places).map(|(k, place)| place.abs_diff(line(k))).max();
        assert!(farthest >= Some(off), "{convention:?}");
    }
}

#[test]
fn a_flat_row_neither_begins_nor_ends_with_an_increase_between_stitches() {
    let flat = [
        Convention::FullGaps,
        Convention::HalfGaps,
        Convention::BothEnds,
        Convention::BlocksHalved,
    ];
    for convention in flat {
        for round in [Round::Floor, Round::Ceil, Round::HalfUp] {
            for width in 1..30 {
                let (mut done, mut refused) = (0, 0);
                for events in 1..=width {
                    for border in [(0, 0), (0, 2), (2, 0), (2, 2)] {
                        let all = width + border.0 + border.1;
                        let row = Spacing::builder(
                            st(all),
                            Technique::IncreaseBetween,
                            events,
                            convention,
                        )
                        .round(round)
                        .borders(st(border.0), st(border.1));
                        let Some(places) = places(row) else {
                            refused += 1;
                            continue;
                        };
                        done += 1;
                        assert!(places.iter().all(|place| (1..all).contains(place)), "{places:?}");
                        assert!(places.is_sorted_by(|a, b| a < b), "{places:?}");
                    }
                }
                assert!(width < 6 || done > refused, "{convention:?} {width}");
            }
        }
    }
}

#[test]
fn halved_blocks_have_a_first_group_and_two_sizes() {
    let mut tight = 0;
    for technique in TECHNIQUES {
        for larger in [Larger::First, Larger::Last] {
            for width in 1..60 {
                for events in 2..=width {
                    let row =
                        Spacing::builder(st(width), technique, events, Convention::BlocksHalved);
                    let Ok(row) = row.larger(larger).build() else { continue };
                    let (small, more) = (width / events, width % events);
                    let mut sizes: Vec<u32> = Vec::new();
                    for group in row.groups() {
                        sizes.extend((0..group.times).map(|_| group.size.get()));
                    }
                    // The first group and the rest of it at the end are a whole group.
                    sizes[0] += row.tail().get();
                    let large = sizes.iter().filter(|size| **size == small + 1).count();
                    let small = sizes.iter().filter(|size| **size == small).count();
                    assert_eq!((large, small), (more as usize, (events - more) as usize));
                    let first = row.groups().next().unwrap().size.get();
                    let half = sizes[0].div_ceil(2);
                    assert_eq!(first, half.max(technique.uses().get()), "{events} in {width}");
                    tight += u32::from(first > half);
                }
            }
        }
    }
    assert!(tight > 100, "only {tight} rows were tight");
}

#[test]
fn moves_off_the_border_are_the_least_of_all() {
    let mut moved = 0;
    for technique in TECHNIQUES {
        for border in 0..4_u32 {
            for events in 1..=3 {
                for convention in [Convention::HalfGaps, Convention::BothEnds] {
                    for (from, wide) in [(1, 1), (2, 1), (2, 3), (3, 0), (4, 2), (9, 2), (10, 4)] {
                        let (all, to) = (13, from + wide);
                        let row = Spacing::builder(st(all), technique, events, convention)
                            .border(st(border));
                        let Some(wanted) = places(row.clone()) else { continue };
                        let uses = technique.uses().get();
                        // Between the borders, off the stitches to avoid.
                        let allowed = |place: u32| {
                            let touched = match uses {
                                0 => place >= from && place < to,
                                _ => (place - uses + 1..=place).any(|s| s >= from && s <= to),
                            };
                            place >= border + uses && place <= all - border && !touched
                        };
                        let best = least_moves(&wanted, all, uses, &allowed);
                        moved += u32::from(best.is_some() && best.as_ref() != Some(&wanted));
                        assert_eq!(
                            places(row.avoid(st(from), st(to))),
                            best,
                            "{events} {technique:?} within {border}, off {from} to {to}"
                        );
                    }
                }
            }
        }
    }
    assert!(moved > 50, "only {moved} rows had to be moved");
}

#[test]
fn the_largest_row_fits() {
    let all = 10_000_000;
    for convention in [Convention::HalfGaps, Convention::Round, Convention::Blocks] {
        for events in [1, 3_333_333, 5_000_000] {
            let row = Spacing::builder(st(all), Technique::TwoTogether, events, convention).build();
            let row = row.unwrap();
            assert_eq!(row.result().get(), all - events);
            assert!(row.positions().next_back().unwrap().get() <= all);
        }
    }
}
