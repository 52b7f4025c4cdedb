//! Oracles and generators of the gauge room.

use loopwright::gauge::{Exact, Gauge, Length, PerLength, Repeat, Round};
use num_rational::BigRational;
use proptest::prelude::*;

/// The same number in a general-purpose library, without bounds.
#[must_use]
pub fn big(exact: Exact) -> BigRational {
    BigRational::new(exact.numer().into(), exact.denom().into())
}

/// The counts a repeat allows, up to `most`, by its definition: whole multiples, at least so
/// many of them, with the extra once and the edge at both sides.
#[must_use]
pub fn allowed(repeat: Repeat, most: u32) -> Vec<u32> {
    let more = repeat.extra() + repeat.edge() + repeat.edge();
    let counts = (repeat.least()..).map(|times| times * repeat.multiple() + more);
    counts.take_while(|&count| count <= most).collect()
}

/// The count that `round` chooses for `ideal` among those a repeat allows, by looking
/// at every one of them: `None` when rounding that way has nothing to choose.
///
/// Halves are judged between neighbouring allowed counts; "even" is the number of
/// repeats. Where none is at or below the ideal, the nearest is the least there is.
#[must_use]
pub fn brute_fit(ideal: Exact, repeat: Repeat, round: Round) -> Option<u32> {
    let ideal = big(ideal);
    let at = |n: u32| BigRational::from_integer(n.into());
    let step = repeat.multiple();
    let room = (repeat.least() + 2) * step + repeat.extra() + 2 * repeat.edge();
    let most = u32::try_from(ideal.ceil().to_integer()).unwrap_or(0) + room;
    let allowed = allowed(repeat, most);
    let below = allowed.iter().rposition(|&n| at(n) <= ideal);
    let Some(below) = below else {
        return if matches!(round, Round::Exact | Round::Floor) { None } else { Some(allowed[0]) };
    };
    let repeats = u64::from(repeat.least()) + below as u64;
    let below = allowed[below];
    let above = *allowed.iter().find(|&&n| at(n) >= ideal).expect("counts go on");
    let (down, up) = (&ideal - at(below), at(above) - &ideal);
    let nearest_or = |tie: u32| match down.cmp(&up) {
        core::cmp::Ordering::Less => below,
        core::cmp::Ordering::Greater => above,
        core::cmp::Ordering::Equal => tie,
    };
    Some(match round {
        Round::Floor => below,
        Round::Ceil => above,
        Round::HalfUp => nearest_or(above),
        Round::HalfDown => nearest_or(below),
        Round::HalfEven => nearest_or(if repeats.is_multiple_of(2) { below } else { above }),
        Round::Exact => return (below == above).then_some(below),
    })
}

/// Every way of rounding.
pub fn rounds() -> impl Strategy<Value = Round> {
    prop_oneof![
        Just(Round::Floor),
        Just(Round::Ceil),
        Just(Round::HalfUp),
        Just(Round::HalfDown),
        Just(Round::HalfEven),
        Just(Round::Exact),
    ]
}

/// Exact numbers, leaning on the edges of what can be held.
pub fn exacts() -> impl Strategy<Value = Exact> {
    let numer = prop_oneof![
        Just(0),
        Just(1),
        Just(-1),
        Just(i64::MAX),
        -i64::MAX..=i64::MAX,
        -1_000..1_000_i64,
    ];
    let denom = prop_oneof![Just(1), Just(i64::MAX), 1..=i64::MAX, 1..200_i64];
    (numer, denom).prop_map(|(numer, denom)| Exact::new(numer, denom).expect("in bounds"))
}

/// Lengths as they are measured, zero and above: tenths of a centimetre, sixteenths of
/// an inch, and odd fractions; up to about 10 m.
pub fn lengths() -> impl Strategy<Value = Length> {
    let made = |numer: i64, denom: i64| {
        Length::from_millimetres(Exact::new(numer, denom).expect("a number")).expect("a length")
    };
    prop_oneof![
        1 => Just(Length::ZERO),
        4 => (0..10_000_i64).prop_map(move |mm| made(mm, 1)),
        4 => (0..6_400_i64).prop_map(move |sixteenths| made(sixteenths * 254, 160)),
        2 => (0..100_000_i64, 1..97_i64).prop_map(move |(n, d)| made(n, d)),
    ]
}

/// Gauges in one direction as they are published: eighths of a count in 10 cm, 4 in or
/// 1 in, and the width of 40 or 60.
pub fn per_lengths() -> impl Strategy<Value = PerLength> {
    let count = |eighths: i64| Exact::new(eighths, 8).expect("a number");
    let span = prop_oneof![
        Just(Length::cm(10).expect("a length")),
        Just(Length::inches(4).expect("a length")),
    ];
    prop_oneof![
        (16..640_i64, span)
            .prop_map(move |(n, span)| PerLength::new(count(n), span).expect("a gauge")),
        (8..120_i64).prop_map(move |n| {
            PerLength::new(count(n), Length::inches(1).expect("a length")).expect("a gauge")
        }),
        (prop_oneof![Just(40), Just(60)], 30..900_i64).prop_map(|(count, mm)| {
            PerLength::new(Exact::whole(count), Length::mm(mm).expect("a length")).expect("a gauge")
        }),
    ]
}

/// Gauges in both directions.
pub fn gauges() -> impl Strategy<Value = Gauge> {
    (per_lengths(), per_lengths()).prop_map(|(stitches, rows)| Gauge::from_parts(stitches, rows))
}

/// Repeats: any count, even, odd, and small multiples with extras and edges.
pub fn repeats() -> impl Strategy<Value = Repeat> {
    prop_oneof![
        Just(Repeat::any()),
        Just(Repeat::even()),
        Just(Repeat::odd()),
        (1..25_u32, 0..20_u32, 0..4_u32, 0..3_u32).prop_map(|(multiple, extra, edge, least)| {
            Repeat::new(multiple, extra, edge)
                .and_then(|repeat| repeat.at_least(least))
                .expect("a repeat")
        }),
    ]
}
