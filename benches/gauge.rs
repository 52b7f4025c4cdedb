//! Fitting lengths to counts, against the same sum in plain `f64`, and reading
//! lengths; the size axis is how many of them.

#![allow(
    clippy::cast_possible_truncation,
    clippy::cast_precision_loss,
    clippy::cast_sign_loss,
    clippy::expect_used,
    clippy::float_arithmetic,
    reason = "a bench, and the plain float it is held against"
)]

use criterion::{BenchmarkId, Criterion, Throughput};
use loopwright::gauge::{Fitted, Gauge, Length, Repeat, Round, Stitches, Swatch, Treatment};
use std::hint::black_box;
use std::time::Instant;

const SIZES: [usize; 3] = [10, 100, 1_000];

/// What a designer types: centimetres with a decimal, inches with a fraction, feet.
fn texts(size: usize) -> Vec<String> {
    let text = |n: usize| match n % 4 {
        0 => format!("{} cm", 5 + n % 90),
        1 => format!("{},{} cm", 5 + n % 90, n % 10),
        2 => format!("{} {}/8 in", 2 + n % 40, 1 + 2 * (n / 4 % 4)),
        _ => format!("{} ft {} in", n % 3, n % 12),
    };
    (0..size).map(text).collect()
}

fn lengths(size: usize) -> Vec<Length> {
    texts(size).iter().map(|text| text.parse().expect("a length")).collect()
}

fn gauge() -> Gauge {
    "28.5 x 39 / 10 cm".parse().expect("a gauge")
}

fn repeat() -> Repeat {
    Repeat::new(6, 2, 1).expect("a repeat")
}

fn exact(gauge: Gauge, width: Length, repeat: Repeat) -> Fitted<Stitches> {
    gauge.fit::<Stitches>(width, repeat, Round::HalfUp).expect("a count")
}

/// The same sum, unchecked and inexact.
struct Plain {
    count: u32,
    ideal: f64,
    length: f64,
    residual: f64,
}

fn plain(per_mm: f64, width: f64, multiple: f64, offset: f64, smallest: f64) -> Plain {
    let ideal = width * per_mm;
    let repeats = ((ideal - offset) / multiple + 0.5).floor();
    let count = (repeats * multiple + offset).max(smallest);
    let length = count / per_mm;
    Plain { count: count as u32, ideal, length, residual: length - width }
}

fn plain_at(width: f64) -> Plain {
    plain(black_box(0.285), width, black_box(6.0), black_box(4.0), black_box(10.0))
}

/// Time only right answers: the two sums agree wherever floats can be trusted.
fn check(lengths: &[Length]) {
    for &length in lengths {
        let fitted = exact(gauge(), length, repeat());
        let rough = plain_at(length.millimetres().to_f64_lossy());
        assert_eq!(fitted.count.get(), rough.count, "{length}");
        let close = |a: f64, b: f64| assert!((a - b).abs() < 1e-6, "{a} and {b} for {length}");
        close(fitted.ideal.to_f64_lossy(), rough.ideal);
        close(fitted.length.likely().millimetres().to_f64_lossy(), rough.length);
        close(fitted.residual.millimetres().to_f64_lossy(), rough.residual);
    }
}

/// Half a step off the float's rounding edge, so that both must agree.
fn fair(lengths: Vec<Length>) -> Vec<Length> {
    let edge = |length: &Length| {
        let ideal = gauge().count_in::<Stitches>(*length).expect("an ideal").to_f64_lossy();
        (((ideal - 4.0) / 6.0).fract() - 0.5).abs() < 1e-9
    };
    lengths.into_iter().filter(|length| !edge(length)).collect()
}

fn fit(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("gauge/fit");
    for size in SIZES {
        let exact_lengths = fair(lengths(size));
        check(&exact_lengths);
        let floats: Vec<f64> =
            exact_lengths.iter().map(|length| length.millimetres().to_f64_lossy()).collect();
        group.throughput(Throughput::Elements(exact_lengths.len() as u64));
        group.bench_with_input(BenchmarkId::new("exact", size), &exact_lengths, |b, lengths| {
            b.iter(|| run_exact(lengths));
        });
        group.bench_with_input(BenchmarkId::new("plain_f64", size), &floats, |b, lengths| {
            b.iter(|| run_plain(lengths));
        });
    }
    group.finish();
}

fn run_exact(lengths: &[Length]) {
    let (gauge, repeat) = (gauge(), repeat());
    for &length in lengths {
        black_box(exact(black_box(gauge), black_box(length), black_box(repeat)));
    }
}

fn run_plain(lengths: &[f64]) {
    for &length in lengths {
        black_box(plain_at(black_box(length)));
    }
}

fn read(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("gauge/read_length");
    for size in SIZES {
        let texts = texts(size);
        assert_eq!(lengths(size).len(), size);
        group.throughput(Throughput::Elements(size as u64));
        group.bench_with_input(BenchmarkId::from_parameter(size), &texts, |b, texts| {
            b.iter(|| run_read(texts));
        });
    }
    group.finish();
}

fn run_read(texts: &[String]) {
    for text in texts {
        black_box(black_box(text).parse::<Length>()).expect("a length");
    }
}

fn pool(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("gauge/pool");
    for size in [2_usize, 10, 50] {
        let readings = (0..size).flat_map(|n| {
            [format!("{}.5 st = 10 cm", 27 + n % 2), format!("{} rows = 10 cm", 39 + n % 2)]
        });
        let readings = readings.map(|text| text.parse().expect("a reading"));
        let swatch = Swatch::new(readings, Treatment::Washed).expect("a swatch");
        let expected = "28 x 39.5 / 10 cm".parse::<Gauge>().expect("a gauge");
        assert_eq!(swatch.gauge().expect("a gauge").gauge(), expected);
        group.throughput(Throughput::Elements(2 * size as u64));
        group.bench_with_input(BenchmarkId::from_parameter(size), &swatch, |b, swatch| {
            b.iter(|| black_box(swatch).gauge());
        });
    }
    group.finish();
}

/// The shortest of several runs, in nanoseconds for each item.
fn per_item(items: usize, mut run: impl FnMut()) -> f64 {
    let shortest = (0..50).map(|_| {
        let start = Instant::now();
        (0..20).for_each(|_| run());
        start.elapsed()
    });
    shortest.min().unwrap_or_default().as_nanos() as f64 / (20 * items) as f64
}

/// Fitting beside the plain float, and reading, in nanoseconds: to be read, not asserted,
/// because a busy machine takes longer.
fn figures() {
    let exact_lengths = fair(lengths(1_000));
    let floats: Vec<f64> =
        exact_lengths.iter().map(|length| length.millimetres().to_f64_lossy()).collect();
    let texts = texts(1_000);
    let fit = per_item(exact_lengths.len(), || run_exact(&exact_lengths));
    let float = per_item(floats.len(), || run_plain(&floats));
    let read = per_item(texts.len(), || run_read(&texts));
    eprintln!("fit {fit:.1} ns, the same in f64 {float:.1} ns, read a length {read:.1} ns");
}

fn main() {
    figures();
    let mut criterion = Criterion::default().configure_from_args();
    fit(&mut criterion);
    read(&mut criterion);
    pool(&mut criterion);
    criterion.final_summary();
}
