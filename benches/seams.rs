//! Benchmarks of the seams room: pick-up placement by the count of stitches, rates,
//! lines by the count of edges, and the check of a whole garment by the count of joins.

#![expect(clippy::expect_used, reason = "a bench that cannot set up must stop")]

use criterion::{BenchmarkId, Criterion, Throughput};
use loopwright::gauge::{Exact, Gauge, Rows, Stitches};
use loopwright::seams::{
    Edge, EdgeStep, Join, PickUpLine, PickUpSpacing, Placement, Rate, Seam, Tolerance, check_all,
    rates,
};
use std::hint::black_box;

/// 71 stitches along every 88 rows.
fn placement(times: u32, spacing: PickUpSpacing) -> Placement {
    let stitches = Stitches::new(71 * times).expect("in bounds");
    Placement::new(Rows::new(88 * times).expect("in bounds"), stitches, spacing).expect("it fits")
}

fn stitches_placed(placement: Placement) -> u32 {
    placement.each().map(u32::from).sum()
}

fn place(c: &mut Criterion) {
    let mut group = c.benchmark_group("seams/place");
    for times in [1_u32, 10, 100, 1_000] {
        for (name, spacing) in [("half", PickUpSpacing::Half), ("full", PickUpSpacing::Full)] {
            let placement = placement(times, spacing);
            assert_eq!(stitches_placed(placement), 71 * times, "time only right answers");
            group.throughput(Throughput::Elements(u64::from(71 * times)));
            group.bench_with_input(BenchmarkId::new(name, 71 * times), &placement, |b, &p| {
                b.iter(|| stitches_placed(black_box(p)));
            });
        }
    }
    group.finish();
}

fn groups(c: &mut Criterion) {
    let mut group = c.benchmark_group("seams/groups");
    for times in [1_u32, 10, 100, 1_000] {
        let placement = placement(times, PickUpSpacing::Full);
        let told: u64 = placement.groups().iter().map(|g| g.stitches()).sum();
        assert_eq!(told, u64::from(71 * times), "time only right answers");
        group.throughput(Throughput::Elements(told));
        group.bench_with_input(BenchmarkId::from_parameter(told), &placement, |b, &p| {
            b.iter(|| black_box(p).groups());
        });
    }
    group.finish();
}

fn rate(c: &mut Criterion) {
    let mut group = c.benchmark_group("seams/rates");
    let ratio = Exact::new(717, 1_013).expect("small");
    for most in [10_u32, 100, 1_000] {
        assert!(Rate::nearest(ratio, most).is_ok_and(|rate| rate.of() <= most));
        group.bench_with_input(BenchmarkId::from_parameter(most), &most, |b, &most| {
            b.iter(|| rates(black_box(ratio), most));
        });
    }
    group.finish();
}

fn gauge() -> Gauge {
    "28x40/10cm".parse().expect("a gauge")
}

fn side(rows: u32) -> Edge {
    Edge::selvedge("side", Rows::new(rows).expect("in bounds"), gauge()).expect("an edge")
}

fn line(c: &mut Criterion) {
    let mut group = c.benchmark_group("seams/line");
    for edges in [1_u32, 4, 16, 64] {
        let line =
            (0..edges).fold(PickUpLine::new(gauge()), |line, nth| line.along(side(80 + nth)));
        let wanted = Stitches::new(58 * edges).expect("in bounds");
        let place = |line: &PickUpLine| line.place(wanted, PickUpSpacing::Half).expect("it fits");
        let placed: u32 = place(&line).iter().map(|run| run.stitches.get()).sum();
        assert_eq!(placed, 58 * edges, "time only right answers");
        group.throughput(Throughput::Elements(u64::from(placed)));
        group.bench_with_input(BenchmarkId::from_parameter(edges), &line, |b, line| {
            b.iter(|| place(black_box(line)));
        });
    }
    group.finish();
}

/// A staircase of two alternating steps: two of every five rows have a stitch.
fn stair(c: &mut Criterion) {
    let mut group = c.benchmark_group("seams/stair");
    for times in [10_usize, 100, 1_000] {
        let step = |rows| EdgeStep {
            rows: Rows::new(rows).expect("in bounds"),
            stitches: Stitches::new(1).expect("in bounds"),
        };
        let steps = [step(2), step(3)].repeat(times);
        let edge = Edge::stepped("slant", steps, gauge()).expect("an edge");
        let line = PickUpLine::new(gauge()).along(edge);
        let wanted = Stitches::new(u32::try_from(4 * times).expect("small")).expect("in bounds");
        let place = |line: &PickUpLine| line.place(wanted, PickUpSpacing::Half).expect("it fits");
        let placed: u32 = place(&line).iter().map(|run| run.stitches.get()).sum();
        assert_eq!(placed, wanted.get(), "time only right answers");
        group.throughput(Throughput::Elements(u64::from(placed)));
        group.bench_with_input(BenchmarkId::from_parameter(placed), &line, |b, line| {
            b.iter(|| place(black_box(line)));
        });
    }
    group.finish();
}

fn garment(c: &mut Criterion) {
    let mut group = c.benchmark_group("seams/check_all");
    for joins in [8_u32, 64, 512] {
        let seams: Vec<Seam> = (0..joins)
            .map(|nth| match nth % 2 {
                0 => Seam::new(Join::RowSeam, side(100 + nth), side(100 + nth)),
                _ => Seam::new(Join::Eased, side(100 + nth), side(90)).within(Tolerance::none()),
            })
            .collect();
        let report = check_all(&seams, &[]).expect("they suit");
        assert_eq!(report.failures().count(), seams.len() / 2, "time only right answers");
        group.throughput(Throughput::Elements(joins.into()));
        group.bench_with_input(BenchmarkId::from_parameter(joins), &seams, |b, seams| {
            b.iter(|| check_all(black_box(seams), &[]));
        });
    }
    group.finish();
}

fn main() {
    let mut criterion = Criterion::default().configure_from_args();
    place(&mut criterion);
    groups(&mut criterion);
    rate(&mut criterion);
    line(&mut criterion);
    stair(&mut criterion);
    garment(&mut criterion);
    criterion.final_summary();
}
