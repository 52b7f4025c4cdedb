//! Joint rounding: growth with the count of unknowns, graded sizes, and a general
//! solver of linear problems on the same garment in the same run.

#![allow(
    clippy::expect_used,
    clippy::float_arithmetic,
    clippy::panic,
    reason = "a wrong answer must not be timed"
)]

use core::hint::black_box;
use core::time::Duration;
use criterion::{BenchmarkId, Criterion};
use loopwright::joint::{Answer, Problem, Solution};
use loopwright_tests::joint::milp::{self, Said};
use loopwright_tests::joint::random::Random;
use loopwright_tests::joint::{Sketch, garment};

/// Problems of each size, timed in turn, so that no lucky one is timed alone.
const SEEDS: u64 = 8;

fn main() {
    let mut criterion = Criterion::default().configure_from_args();
    garments(&mut criterion);
    measured(&mut criterion);
    sizes(&mut criterion);
    conflicts(&mut criterion);
    general(&mut criterion);
    criterion.final_summary();
}

fn solved(problem: &Problem) -> Option<Solution> {
    match problem.solve() {
        Ok(Answer::Solved(solution)) if solution.is_proved() => Some(solution),
        _ => None,
    }
}

/// Time only right answers: proved, and every demand held.
fn checked(sketch: &Sketch) -> Problem {
    let problem = sketch.problem();
    let solution = solved(&problem).expect("the garment can be rounded");
    let counts: Vec<_> = solution.counts().iter().map(|rounded| rounded.count).collect();
    assert!(problem.broken(&counts).is_empty(), "every demand holds");
    problem
}

fn garments(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("joint/unknowns");
    for count in [6_usize, 12, 24, 48, 96] {
        let problems: Vec<Problem> =
            (0..SEEDS).map(|seed| checked(&garment::garment(&mut Random(seed), count))).collect();
        group.bench_with_input(BenchmarkId::from_parameter(count), &problems, |b, problems| {
            let mut turns = problems.iter().cycle();
            b.iter(|| turns.next().and_then(|problem| solved(black_box(problem))));
        });
    }
    group.finish();
}

/// The same with gauges, and ten measures to every 24 counts.
fn measured(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("joint/measured");
    for count in [6_usize, 12, 24, 48] {
        let problems: Vec<Problem> =
            (0..SEEDS).map(|seed| checked(&garment::measured(&mut Random(seed), count))).collect();
        group.bench_with_input(BenchmarkId::from_parameter(count), &problems, |b, problems| {
            let mut turns = problems.iter().cycle();
            b.iter(|| turns.next().and_then(|problem| solved(black_box(problem))));
        });
    }
    group.finish();
}

fn sizes(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("joint/sizes");
    for count in [3_usize, 6, 12] {
        let problems: Vec<Problem> =
            (0..SEEDS).map(|seed| checked(&garment::graded(&mut Random(seed), count))).collect();
        group.bench_with_input(BenchmarkId::from_parameter(count), &problems, |b, problems| {
            let mut turns = problems.iter().cycle();
            b.iter(|| turns.next().and_then(|problem| solved(black_box(problem))));
        });
    }
    group.finish();
}

fn general(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("joint/against-general");
    let sketch = garment::measured(&mut Random(1), 24);
    let problem = checked(&sketch);
    let least = solved(&problem).map(|solution| solution.total_miss().to_f64_lossy());
    match (milp::ask(&sketch, Duration::from_secs(20)), least) {
        (Said::Least(theirs), Some(ours)) => {
            assert!((ours - theirs).abs() < 1e-4 * theirs, "one optimum")
        }
        other => panic!("{other:?}"),
    }
    group.bench_function("loopwright", |b| b.iter(|| solved(black_box(&problem))));
    group.bench_function("loopwright, named and solved", |b| {
        b.iter(|| solved(&black_box(&sketch).problem()));
    });
    group.sample_size(10);
    group.bench_function("general", |b| {
        b.iter(|| milp::ask(black_box(&sketch), Duration::from_secs(20)));
    });
    let sketch = garment::impossible(&mut Random(1), 24);
    let problem = sketch.problem();
    assert_eq!(milp::ask(&sketch, Duration::from_secs(20)), Said::Impossible);
    assert!(matches!(problem.solve(), Ok(Answer::Conflict(_))), "it cannot be rounded");
    group.bench_function("loopwright, which demands clash", |b| {
        b.iter(|| black_box(&problem).solve());
    });
    group.bench_function("general, that some do", |b| {
        b.iter(|| milp::ask(black_box(&sketch), Duration::from_secs(20)));
    });
    group.finish();
}

fn conflicts(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("joint/conflict");
    group.sample_size(10);
    for count in [24_usize, 96] {
        let problem = garment::impossible(&mut Random(3), count).problem();
        assert!(matches!(problem.solve(), Ok(Answer::Conflict(_))), "it cannot be rounded");
        group.bench_with_input(BenchmarkId::from_parameter(count), &problem, |b, problem| {
            b.iter(|| black_box(problem).solve());
        });
    }
    group.finish();
}
