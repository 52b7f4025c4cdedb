//! Laws that count how often they were really tried.

use proptest::strategy::Strategy;
use proptest::test_runner::{Config, TestCaseError, TestRunner};
use std::cell::Cell;

/// Tries `law` on as many values as proptest is told to. It says whether it could be tried
/// on a value; at least `percent` of them must be, and where `refused` is above zero at
/// least so many per cent must be refused, so that neither side goes untested.
///
/// # Panics
/// When the law fails on a value, or either share is too small.
#[track_caller]
pub fn tried<S: Strategy>(
    strategy: &S,
    percent: u32,
    refused: u32,
    law: impl Fn(S::Value) -> Result<bool, TestCaseError>,
) {
    let (yes, no) = (Cell::new(0_u32), Cell::new(0_u32));
    let mut runner = TestRunner::new(Config { failure_persistence: None, ..Config::default() });
    let outcome = runner.run(strategy, |value| {
        let count = if law(value)? { &yes } else { &no };
        count.set(count.get() + 1);
        Ok(())
    });
    if let Err(failure) = outcome {
        panic!("{failure}");
    }
    let (yes, no) = (yes.get(), no.get());
    let all = yes + no;
    assert!(yes * 100 >= percent * all, "only {yes} of {all} were tried");
    assert!(no * 100 >= refused * all, "only {no} of {all} were refused");
}
