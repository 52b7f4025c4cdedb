//! Benchmarks of the shaping room.
//!
//! Rows, events and stitches are the size axes. Every answer is checked before it is
//! timed; the rival is a line-drawing crate, which visits every row of the same line.

#![allow(clippy::expect_used, reason = "a bench: what it asks for is possible")]

use criterion::{BenchmarkId, Criterion, Throughput};
use line_drawing::Bresenham;
use loopwright::gauge::{Length, Rows, Stitches};
use loopwright::shaping::{
    AtOnce, Bend, Convention, Curve, Edges, Larger, Neck, Order, Outline, Slope, Spacing, Taper,
    Technique,
};
use std::hint::black_box;

const SIZES: [u32; 6] = [12, 120, 1_200, 12_000, 120_000, 1_200_000];

fn st(n: u32) -> Stitches {
    Stitches::new(n).expect("a count in range")
}

fn rows(n: u32) -> Rows {
    Rows::new(n).expect("a count in range")
}

fn taper(change: u32, all: u32, order: Order) -> Taper {
    Taper::builder(st(100), st(100 + change), rows(all)).order(order).build().expect("a taper")
}

/// The sum of the rows on which the line rises, by drawing all of it.
fn drawn(change: u32, all: u32) -> u64 {
    let (mut sum, mut last) = (0, 0);
    for (row, done) in Bresenham::new((0_i32, 0_i32), (all.cast_signed(), change.cast_signed())) {
        if done != last {
            sum += u64::from(row.unsigned_abs());
            last = done;
        }
    }
    sum
}

/// The same by a `for` loop over the events.
fn stepped(taper: &Taper) -> u64 {
    let mut sum = 0;
    for event in taper.events() {
        sum += u64::from(event.row.get());
    }
    sum
}

fn folded(taper: &Taper) -> u64 {
    taper.events().map(|event| u64::from(event.row.get())).sum()
}

/// The crate draws its line rounded down; one of twice the height, halved up, is ours.
fn check(taper: &Taper, change: u32, all: u32) {
    let line = Bresenham::new((0_i64, 0_i64), (all.into(), (2 * change).into()));
    let mut last = 0;
    let risen = line.filter_map(|(row, twice)| {
        let done = (twice + 1) / 2;
        let rises = done != last;
        last = done;
        rises.then_some(row)
    });
    let ours = taper.events().map(|event| i64::from(event.row));
    assert!(risen.eq(ours), "time only right answers");
}

fn events(c: &mut Criterion) {
    // About one event in four rows, as garments have; and one in two, where a line rises
    // as often as the check can draw it.
    for (slope, per) in [("garment", 4), ("steep", 2)] {
        let mut group = c.benchmark_group(format!("taper/events/{slope}"));
        for all in SIZES {
            // A little off the even slope, so that there are remainders.
            let change = if all > 100 { all / per - all / 97 } else { all / per };
            let taper = taper(change, all, Order::Spread);
            check(&taper, change, all);
            assert_eq!(stepped(&taper), folded(&taper));
            group.throughput(Throughput::Elements(change.into()));
            group.bench_with_input(BenchmarkId::new("for", all), &taper, |b, taper| {
                b.iter(|| stepped(black_box(taper)));
            });
            group.bench_with_input(BenchmarkId::new("fold", all), &taper, |b, taper| {
                b.iter(|| folded(black_box(taper)));
            });
            group.bench_with_input(BenchmarkId::new("line_drawing", all), &all, |b, &all| {
                b.iter(|| drawn(black_box(change), black_box(all)));
            });
        }
        group.finish();
    }
}

fn every_row(c: &mut Criterion) {
    let mut group = c.benchmark_group("taper/events/every_row");
    for all in SIZES {
        let taper = taper(all, all, Order::Spread);
        assert_eq!(folded(&taper), drawn(all, all), "time only right answers");
        group.throughput(Throughput::Elements(all.into()));
        group.bench_with_input(BenchmarkId::new("for", all), &taper, |b, taper| {
            b.iter(|| stepped(black_box(taper)));
        });
        group.bench_with_input(BenchmarkId::new("fold", all), &taper, |b, taper| {
            b.iter(|| folded(black_box(taper)));
        });
        group.bench_with_input(BenchmarkId::new("line_drawing", all), &all, |b, &all| {
            b.iter(|| drawn(black_box(all), black_box(all)));
        });
    }
    group.finish();
}

fn orders(c: &mut Criterion) {
    let mut group = c.benchmark_group("taper/orders");
    let (change, all) = (42, 176);
    for order in [Order::Spread, Order::SlowFirst, Order::QuickFirst, Order::Alternating] {
        let taper = taper(change, all, order);
        assert_eq!(taper.count_at(rows(all)).get(), 100 + change);
        group.throughput(Throughput::Elements(change.into()));
        group.bench_function(BenchmarkId::from_parameter(format!("{order:?}")), |b| {
            b.iter(|| stepped(black_box(&taper)));
        });
    }
    group.finish();
}

fn count_at(c: &mut Criterion) {
    let mut group = c.benchmark_group("taper/count_at");
    for all in SIZES {
        let taper = taper(all / 4, all, Order::Spread);
        let row = rows(all / 3);
        let done = taper.events().filter(|event| event.row <= row).count();
        assert_eq!(taper.count_at(row).get() as usize, 100 + done, "time only right answers");
        group.bench_with_input(BenchmarkId::from_parameter(all), &row, |b, &row| {
            b.iter(|| black_box(&taper).count_at(black_box(row)));
        });
    }
    group.finish();
}

fn spacing(c: &mut Criterion) {
    let mut group = c.benchmark_group("spacing/positions");
    for (events, stitches) in [(10, 124), (100, 10_000), (1_000, 1_000_000), (100_000, 1_000_000)] {
        let technique = Technique::IncreaseBetween;
        let row = Spacing::builder(st(stitches), technique, events, Convention::HalfGaps);
        let row = row.build().expect("a row");
        let (s, n) = (u64::from(stitches), u64::from(events));
        let nearest = (1..=n).map(|k| ((2 * k - 1) * s).div_ceil(2 * n));
        assert!(
            row.positions().map(|place| u64::from(place.get())).eq(nearest),
            "time only right answers"
        );
        group.throughput(Throughput::Elements(n));
        group.bench_function(BenchmarkId::from_parameter(format!("{events} in {stitches}")), |b| {
            b.iter(|| black_box(&row).positions().map(|place| u64::from(place.get())).sum::<u64>());
        });
    }
    group.finish();
}

fn cap() -> Outline {
    let cm = |n| Length::cm(n).expect("a length");
    Outline::start()
        .line(cm(2), Length::ZERO)
        .and_then(|cap| cap.quarter(cm(5), cm(6), Bend::Slowing))
        .and_then(|cap| cap.quarter(cm(6), cm(6), Bend::Quickening))
        .expect("a cap")
}

fn curves(c: &mut Criterion) {
    let mut group = c.benchmark_group("curve/cap");
    let cap = cap();
    for all in [30, 60, 120, 240] {
        let curve = Curve::builder(&cap, st(all * 2 / 3), rows(all))
            .opening(AtOnce::Nearest)
            .closing(AtOnce::Nearest);
        let found = curve.build().expect("a cap");
        let steps: u32 = found.events().iter().map(|event| event.stitches.get()).sum();
        let sum = found.opening().get() + steps + found.closing().get();
        assert_eq!(sum, all * 2 / 3, "time only right answers");
        group.bench_with_input(BenchmarkId::from_parameter(all), &curve, |b, curve| {
            b.iter(|| black_box(*curve).build());
        });
    }
    group.finish();
    c.bench_function("curve/neck", |b| {
        let neck = Neck::round(st(32), rows(20)).expect("a neck");
        assert_eq!(neck.centre().get() + 2 * neck.side().stitches().get(), 32);
        b.iter(|| Neck::round(black_box(st(32)), black_box(rows(20))));
    });
}

fn words(c: &mut Criterion) {
    let mut group = c.benchmark_group("taper/words");
    for (change, all) in [(42, 176), (120, 500), (250, 1_000)] {
        let taper = Taper::builder(st(500), st(500 - 2 * change), rows(all)).edges(Edges::Both);
        let taper = taper.build().expect("a taper");
        assert_eq!(taper.words().expand().expect("few shapings").len(), change as usize);
        group.bench_function(BenchmarkId::from_parameter(change), |b| {
            b.iter(|| black_box(&taper).words());
        });
    }
    group.finish();
}

fn slope(c: &mut Criterion) {
    let slope = Slope::builder(st(23), 3, Larger::First).build().expect("a slope");
    assert_eq!(slope.steps().map(|step| step.stitches.get()).sum::<u32>(), 23);
    c.bench_function("slope/steps", |b| {
        b.iter(|| black_box(&slope).steps().map(|step| step.done.get()).sum::<u32>());
    });
}

fn main() {
    let mut c = Criterion::default().configure_from_args();
    events(&mut c);
    every_row(&mut c);
    orders(&mut c);
    count_at(&mut c);
    spacing(&mut c);
    curves(&mut c);
    words(&mut c);
    slope(&mut c);
    c.final_summary();
}
