//! What must not allocate does not.

#![allow(clippy::unwrap_used, reason = "test code: a panic is a failed test")]

mod shaping;

use loopwright::gauge::{
    CountRange, Gauge, Length, Repeat, Round, Rows, Spread, Stitches, SwatchGauge,
};
use std::hint::black_box;

/// Allocations made by `run`, given a first run so that nothing is set up in it.
fn allocations(mut run: impl FnMut()) -> u64 {
    run();
    allocation_counter::measure(run).count_total
}

#[test]
fn fitting_does_not_allocate() {
    let gauge: Gauge = "28.5 x 39 / 10 cm".parse().unwrap();
    let repeat = Repeat::new(6, 2, 1).unwrap();
    let width: Length = "20 1/2 in".parse().unwrap();
    let range = CountRange::new(Stitches::ZERO, Stitches::new(200).unwrap()).unwrap();
    for round in [Round::Floor, Round::Ceil, Round::HalfUp, Round::HalfDown, Round::HalfEven] {
        let count = allocations(|| {
            black_box(gauge.fit::<Stitches>(black_box(width), repeat, round).unwrap());
            black_box(gauge.fit::<Rows>(black_box(width), repeat, round).unwrap());
            black_box(
                gauge.fit_within::<Stitches>(black_box(width), repeat, range, round).unwrap(),
            );
        });
        assert_eq!(count, 0, "{round:?}");
    }
}

#[test]
fn fitting_with_the_error_of_the_gauge_does_not_allocate() {
    let measured = |value: &str, low: &str, high: &str| {
        Spread::new(low.parse().unwrap(), value.parse().unwrap(), high.parse().unwrap()).unwrap()
    };
    let gauge = SwatchGauge::new(
        measured("28/10cm", "27.5/10cm", "28.5/10cm"),
        measured("40/10cm", "39/10cm", "41/10cm"),
    );
    let width: Length = "52,5 cm".parse().unwrap();
    let count = allocations(|| {
        black_box(gauge.fit::<Stitches>(black_box(width), Repeat::even(), Round::HalfUp).unwrap());
        black_box(gauge.length_of(black_box(Rows::ZERO)).unwrap());
    });
    assert_eq!(count, 0);
}

#[test]
fn reading_a_length_does_not_allocate() {
    for text in ["52 cm", "52,5 cm", "20 1/2 in", "20½\"", "5 ft 4 in"] {
        let count = allocations(|| {
            black_box(black_box(text).parse::<Length>().unwrap());
        });
        assert_eq!(count, 0, "{text}");
    }
}

#[test]
fn the_counter_counts() {
    assert_eq!(allocations(|| drop(black_box(vec![0_u8; 100]))), 1);
}
