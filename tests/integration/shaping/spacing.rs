use super::st;
use loopwright::gauge::{Repeat, Round};
use loopwright::shaping::{Convention, Larger, Rest, Spacing, SpacingBuilder, Technique};
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
    builder.build().ok().map(|row| row.positions().collect())
}

#[test]
fn half_gaps_are_the_best_of_all_placements() {
    for technique in TECHNIQUES {
        for width in 1..=12 {
            for events in 1..=6 {
                let row = Spacing::builder(st(width), technique, events, Convention::HalfGaps);
                let best = if technique.uses() == 0 && events > width {
                    None
                } else {
                    best_places(width, events, technique.uses())
                };
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
                let best = if technique.uses() == 0 && events > width {
                    None
                } else {
                    best_mirrored(width, events, technique.uses())
                };
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
                    let uses = technique.uses();
                    let allowed = |place: u32| match uses {
                        0 => place < from || place >= to,
                        _ => (place - uses + 1..=place).all(|stitch| stitch < from || stitch > to),
                    };
                    let best = least_moves(&wanted, width, uses, &allowed);
                    let got = places(row.avoid(from, to));
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
                assert_eq!(places(row.between_repeats(multiple, offset)), best);
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
        rest in prop_oneof![Just(Rest::Start), Just(Rest::End), Just(Rest::Split)],
        borders in (0..6_u32, 0..6_u32),
        (mirrored, reversed) in (any::<bool>(), any::<bool>()),
        avoid in prop::collection::vec((1..150_u32, 0..8_u32), 0..3),
    ) -> SpacingBuilder {
        let row = Spacing::builder(st(stitches), technique, events, convention)
            .round(round)
            .larger(larger)
            .rest(rest)
            .borders(borders.0, borders.1);
        let row = if mirrored { row.mirrored() } else { row };
        let row = if reversed { row.reversed() } else { row };
        avoid.into_iter().fold(row, |row, (from, wide)| row.avoid(from, from + wide))
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(3000))]

    #[test]
    fn the_written_row_works_out_stitch_by_stitch(asked in asked()) {
        let Ok(row) = asked.build() else { return Ok(()) };
        if row.stitches().get() == 0 {
            return Ok(());
        }
        let words = row.words().to_string();
        let worked = work(&words, row.stitches().get()).map_err(TestCaseError::fail)?;
        let positions: Vec<u32> = row.positions().collect();
        prop_assert_eq!(worked.new.len(), row.result().get() as usize, "{}", words);
        prop_assert_eq!(&worked.events, &positions, "{}", words);
        let backwards: Vec<u32> = row.positions().rev().collect();
        prop_assert!(backwards.iter().rev().eq(&positions));
        prop_assert_eq!(row.positions().len(), positions.len());
        let told: u32 = row.groups().map(|group| group.size * group.times).sum();
        let (start, end) = row.borders();
        prop_assert_eq!(start + row.lead() + told + row.tail() + end, row.stitches().get());
    }

    #[test]
    fn mirrored_rows_are_palindromes(asked in asked()) {
        let Ok(row) = asked.mirrored().build() else { return Ok(()) };
        let positions: Vec<u32> = row.positions().collect();
        let (start, end) = row.borders();
        let sum = start + row.stitches().get() - end + row.technique().uses();
        let pairs = positions.iter().zip(positions.iter().rev());
        prop_assert!(pairs.clone().all(|(a, b)| a + b == sum));
        prop_assert!(row.is_mirrored());
    }

    #[test]
    fn turned_round_twice_is_the_same_row(asked in asked()) {
        let Ok(row) = asked.clone().build() else { return Ok(()) };
        let twice = asked.reversed().reversed().build().unwrap();
        prop_assert!(row.positions().eq(twice.positions()));
    }

    #[test]
    fn half_gaps_stay_within_half_an_event(
        stitches in 1..3_000_u32,
        events in 1..1_000_u32,
        technique in prop::sample::select(TECHNIQUES.as_slice()),
    ) {
        let asked = Spacing::builder(st(stitches), technique, events, Convention::HalfGaps);
        let Ok(row) = asked.build() else { return Ok(()) };
        // Where an event cannot use stitches that are not there, it is held up.
        if stitches < 2 * technique.uses() * events {
            return Ok(());
        }
        let (mut done, mut ahead) = (0_u64, row.positions().peekable());
        for prefix in 0..=stitches {
            while ahead.next_if(|place| *place <= prefix).is_some() {
                done += 1;
            }
            let off = (u64::from(prefix) * u64::from(events)).abs_diff(done * u64::from(stitches));
            prop_assert!(2 * off <= u64::from(stitches), "prefix {}", prefix);
        }
    }

    #[test]
    fn a_row_taken_onto_a_repeat_is_allowed_by_it(
        stitches in 1..400_u32,
        multiple in 1..30_u32,
        extra in 0..10_u32,
    ) {
        let repeat = Repeat::new(multiple, extra, 1).unwrap();
        let asked = Spacing::onto(st(stitches), repeat, Round::HalfUp, Convention::HalfGaps).unwrap();
        let Ok(row) = asked.build() else { return Ok(()) };
        let result = row.result().get();
        prop_assert!(repeat.allows(result));
        // No other allowed count is nearer.
        let nearer = (1..=400 + 60).filter(|n| repeat.allows(*n));
        let nearest = nearer.map(|n: u32| n.abs_diff(stitches)).min().unwrap();
        prop_assert_eq!(result.abs_diff(stitches), nearest);
    }
}

#[test]
fn the_largest_row_fits() {
    let all = 10_000_000;
    for convention in [Convention::HalfGaps, Convention::Round, Convention::Blocks] {
        for events in [1, 3_333_333, 5_000_000] {
            let row = Spacing::builder(st(all), Technique::TwoTogether, events, convention).build();
            let row = row.unwrap();
            assert_eq!(row.result().get(), all - events);
            assert!(row.positions().next_back().unwrap() <= all);
        }
    }
}
