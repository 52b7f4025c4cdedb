//! A shaped piece replayed: over its width, and over its steps.

use criterion::{BenchmarkId, Criterion, Throughput};
use loopwright::gauge::{Rows, Stitches};
use loopwright::pattern::{Craft, Direction, Fabric, Piece, Shape, Side, Sides, Step, words};
use std::hint::black_box;

type Failure = Box<dyn std::error::Error>;

/// So many stitches, one more at each edge after every 4th row.
fn shaped(stitches: u32, rows: u32) -> Result<Piece, Failure> {
    let mut piece = Piece::new("sleeve", Craft::Hand)?;
    piece.push(Step::cast_on(Stitches::new(stitches)?, Fabric::Plain, Side::Right));
    for _ in 0..rows / 4 {
        piece.push(Step::Knit(Rows::new(4)?));
        piece.push(Step::Shape(Shape::new(Direction::Increase, Sides::Both, Stitches::new(1)?)));
    }
    piece.push(Step::bind_off_all("top"));
    Ok(piece)
}

fn replay(criterion: &mut Criterion) -> Result<(), Failure> {
    let mut group = criterion.benchmark_group("pattern/replay");
    for (stitches, rows) in [(50, 400), (200, 400), (800, 400), (200, 1_600), (200, 6_400)] {
        let piece = shaped(stitches, rows)?;
        let knitted = piece.replay()?;
        assert_eq!(knitted.bound_off.get(), stitches + rows / 2, "time only right answers");
        group.throughput(Throughput::Elements(piece.steps().len() as u64));
        let name = format!("{stitches} stitches, {rows} rows");
        group.bench_with_input(BenchmarkId::from_parameter(name), &piece, |b, piece| {
            b.iter(|| black_box(piece).replay());
        });
    }
    group.finish();
    Ok(())
}

fn table_and_words(criterion: &mut Criterion) -> Result<(), Failure> {
    let knitted = shaped(200, 400)?.replay()?;
    assert_eq!(knitted.row_table().len(), 400, "time only right answers");
    criterion.bench_function("pattern/row table of 400 rows", |b| {
        b.iter(|| black_box(&knitted).row_table().len());
    });
    assert_eq!(words::instructions(&knitted).lines.len(), 3, "time only right answers");
    criterion.bench_function("pattern/words of a shaped piece", |b| {
        b.iter(|| words::instructions(black_box(&knitted)));
    });
    Ok(())
}

fn main() -> Result<(), Failure> {
    let mut criterion = Criterion::default().configure_from_args();
    replay(&mut criterion)?;
    table_and_words(&mut criterion)?;
    criterion.final_summary();
    Ok(())
}
