//! The yarn of a whole garment from its counts, and how far a remainder goes.
//!
//! The size axis of `estimate` is the pieces of a garment (eight is a pullover with its
//! bands), that of `rows` the yarn that is left.

use criterion::{BenchmarkId, Criterion, Throughput};
use loopwright::gauge::{Exact, Gauge, Length, Rows, Stitches};
use loopwright::yardage::{
    Estimator, Growth, Plan, RelaxationState, RelaxedFabric, Structure, Supply, Tally, Yarn,
    estimate, loop_from_gauge,
};
use loopwright_tests::yardage::{even_rows, rows_by_walking};
use std::hint::black_box;

type Failure = Box<dyn std::error::Error>;

fn supply(yarn: &str) -> Result<Supply, Failure> {
    let density = yarn.parse::<Yarn>()?.resultant()?;
    let loops = |gauge: &str, structure| {
        let fabric = RelaxedFabric::new(structure, RelaxationState::Wet);
        loop_from_gauge(gauge.parse::<Gauge>()?, fabric, Some(density))
    };
    Ok(Supply::new("main", density)
        .fabric("plain", loops("28x40/10cm", Structure::Plain)?)
        .fabric("rib", loops("36x42/10cm", Structure::Rib1x1)?))
}

/// Pieces of a pullover: a rib, a plain part, edges, ends, and every other one a seam.
fn pieces(count: u32) -> Result<Vec<Tally>, Failure> {
    let piece = |n: u32| {
        let stitches = Stitches::new(90 + n % 7 * 11)?;
        let tally = Tally::new("piece")
            .cast_on(stitches)
            .stitches("rib", stitches.checked_mul(24)?)
            .stitches("plain", stitches.checked_mul(163)?.checked_add(Stitches::new(17)?)?)
            .bound_off(Stitches::new(stitches.get() / 2)?)
            .waste(stitches.checked_mul(8)?)
            .ends(3);
        let seam = Length::from_millimetres(Exact::new(4_000 + i64::from(n), 28)?)?;
        Ok(if n.is_multiple_of(2) { tally.seam(seam) } else { tally })
    };
    (0..count).map(piece).collect()
}

/// The answer to be timed, against the sum of each piece estimated by itself.
fn check(tallies: &[Tally], supply: &Supply) -> Result<(), Failure> {
    let supplies = core::slice::from_ref(supply);
    let mut sum = loopwright::yardage::Amount::ZERO;
    for tally in tallies {
        let one = estimate(core::slice::from_ref(tally), supplies)?;
        sum = sum.checked_add(one.total("main").ok_or("no total")?)?;
    }
    assert_eq!(estimate(tallies, supplies)?.total("main"), Some(&sum), "time only right answers");
    Ok(())
}

fn estimates(criterion: &mut Criterion) -> Result<(), Failure> {
    let mut group = criterion.benchmark_group("yardage/estimate");
    for yarn in ["2/28 Nm", "30/2 Ne"] {
        let supply = supply(yarn)?;
        let estimator = Estimator::new(core::slice::from_ref(&supply))?;
        for count in [8, 64] {
            let tallies = pieces(count)?;
            check(&tallies, &supply)?;
            group.throughput(Throughput::Elements(count.into()));
            group.bench_with_input(BenchmarkId::new(yarn, count), &tallies, |b, tallies| {
                b.iter(|| estimator.estimate(black_box(tallies)));
            });
            let name = format!("{yarn} with its supply");
            group.bench_with_input(BenchmarkId::new(name, count), &tallies, |b, tallies| {
                b.iter(|| estimate(black_box(tallies), core::slice::from_ref(&supply)));
            });
        }
    }
    group.finish();
    Ok(())
}

fn rows(criterion: &mut Criterion) -> Result<(), Failure> {
    let mut group = criterion.benchmark_group("yardage/rows");
    let plan = Plan::new(Growth::even(Stitches::new(3)?, Stitches::new(2)?, Rows::new(2)?)?)
        .edging(Exact::whole(6))?;
    for yarn in [1_000, 100_000, 10_000_000] {
        let walked = rows_by_walking(&even_rows(3, 2, 2, 1_000_000), 6, 0, 1, yarn);
        let stop = plan.rows_from(Exact::literal(yarn, 1))?;
        assert_eq!(Some(stop.rows.get()), walked, "time only right answers");
        group.bench_with_input(BenchmarkId::from_parameter(yarn), &yarn, |b, &yarn| {
            b.iter(|| plan.rows_from(black_box(Exact::literal(yarn, 1))));
        });
    }
    group.finish();
    Ok(())
}

fn main() -> Result<(), Failure> {
    let mut criterion = Criterion::default().configure_from_args();
    estimates(&mut criterion)?;
    rows(&mut criterion)?;
    criterion.final_summary();
    Ok(())
}
