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
    tried_on(Config::default().cases, strategy, percent, refused, law);
}

/// The same on so many values.
///
/// # Panics
/// As for [`tried`].
#[track_caller]
pub fn tried_on<S: Strategy>(
    cases: u32,
    strategy: &S,
    percent: u32,
    refused: u32,
    law: impl Fn(S::Value) -> Result<bool, TestCaseError>,
) {
    let (yes, no) = (Cell::new(0_u32), Cell::new(0_u32));
    let config = Config { failure_persistence: None, ..Config::with_cases(cases) };
    let mut runner = TestRunner::new(config);
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_law_tried_often_enough_holds() {
        tried_on(400, &(0..1_000_u32), 35, 35, |n| Ok(n.is_multiple_of(2)));
    }

    #[test]
    #[should_panic(expected = "were tried")]
    fn a_law_hardly_tried_fails() {
        tried_on(400, &(0..1_000_u32), 70, 0, |n| Ok(n.is_multiple_of(2)));
    }

    #[test]
    #[should_panic(expected = "were refused")]
    fn a_law_hardly_refused_fails() {
        tried_on(400, &(0..1_000_u32), 0, 70, |n| Ok(n.is_multiple_of(2)));
    }

    #[test]
    #[should_panic(expected = "too large")]
    fn a_law_that_does_not_hold_fails() {
        tried_on(400, &(0..1_000_u32), 0, 0, |n| {
            if n > 500 { Err(TestCaseError::fail("too large")) } else { Ok(true) }
        });
    }
}
