//! A whole pullover: drafted, replayed and checked, over sizes.

use criterion::{BenchmarkId, Criterion};
use loopwright::garment::{Body, BodyMeasure, Draft, DropShoulder, Fabrics};
use loopwright::pattern::{Bed, Craft};
use std::hint::black_box;

type Failure = Box<dyn std::error::Error>;

fn pullover(chest_cm: i64) -> Result<DropShoulder, Failure> {
    let cm = loopwright::gauge::Length::cm;
    let body = Body::new()
        .with(BodyMeasure::Chest, cm(chest_cm)?)?
        .with(BodyMeasure::NeckToWrist, cm(55 + chest_cm / 4)?)?
        .with(BodyMeasure::UpperArm, cm(chest_cm / 3)?)?
        .with(BodyMeasure::Wrist, cm(17)?)?
        .with(BodyMeasure::BodyLength, cm(62)?)?
        .with(BodyMeasure::Head, cm(56)?)?;
    let fabrics = Fabrics::plain("28 x 40 / 10 cm".parse()?);
    Ok(DropShoulder::new(body, fabrics, Craft::Machine(Bed::of_needles(400)?)))
}

fn whole(criterion: &mut Criterion) -> Result<(), Failure> {
    let mut group = criterion.benchmark_group("garment/pullover");
    for chest in [80, 100, 120, 140] {
        let pullover = pullover(chest)?;
        assert!(pullover.draft()?.finish()?.seams.holds(), "time only garments that fit together");
        group.bench_with_input(
            BenchmarkId::new("draft and finish", chest),
            &pullover,
            |b, pullover| {
                b.iter(|| black_box(pullover).draft().and_then(Draft::finish));
            },
        );
        let draft = pullover.draft()?;
        group.bench_with_input(BenchmarkId::new("replay", chest), &draft, |b, draft| {
            b.iter(|| {
                draft.pieces.iter().map(|made| black_box(made).piece.replay()).collect::<Vec<_>>()
            });
        });
    }
    group.finish();
    Ok(())
}

fn main() -> Result<(), Failure> {
    let mut criterion = Criterion::default().configure_from_args();
    whole(&mut criterion)?;
    criterion.final_summary();
    Ok(())
}
