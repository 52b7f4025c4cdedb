//! Laws that count how often they were really tried.
//!
//! A law over random input must leave alone what the library refuses; if nearly all is
//! refused, the law says nothing. So both outcomes are counted, and a share is demanded.

use proptest::strategy::Strategy;
use proptest::test_runner::{Config, TestCaseError, TestRunner};
use std::cell::Cell;

/// Whether the law had something to say of a case.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub enum Case {
    /// It was tried, and held.
    Tried,
    /// The case is not one of the law's: it was refused, or is of another kind.
    Left,
}

/// Tries a law on so many cases; at least `share` of a hundred must be its own.
///
/// # Panics
/// When the law does not hold, or too few cases were tried.
#[track_caller]
pub fn law<S: Strategy>(
    cases: u32,
    share: u32,
    input: S,
    test: impl Fn(S::Value) -> Result<Case, TestCaseError>,
) {
    let (tried, left) = (Cell::new(0_u32), Cell::new(0_u32));
    let mut runner =
        TestRunner::new(Config { failure_persistence: None, ..Config::with_cases(cases) });
    let outcome = runner.run(&input, |value| {
        let counter = match test(value)? {
            Case::Tried => &tried,
            Case::Left => &left,
        };
        counter.set(counter.get() + 1);
        Ok(())
    });
    if let Err(why) = outcome {
        panic!("{why}");
    }
    let (tried, left) = (tried.get(), left.get());
    assert!(
        tried * 100 >= share * (tried + left),
        "the law was tried {tried} times and left alone {left} times, but {share} % are wanted"
    );
}

#[cfg(test)]
mod tests {
    use super::*;

    fn even(n: u32) -> Case {
        if n.is_multiple_of(2) { Case::Tried } else { Case::Left }
    }

    #[test]
    fn a_law_tried_often_enough_holds() {
        law(400, 35, 0..1_000_u32, |n| Ok(even(n)));
    }

    #[test]
    #[should_panic(expected = "but 70 % are wanted")]
    fn a_law_hardly_tried_fails() {
        law(400, 70, 0..1_000_u32, |n| Ok(even(n)));
    }

    #[test]
    #[should_panic(expected = "too large")]
    fn a_law_that_does_not_hold_fails() {
        law(400, 0, 0..1_000_u32, |n| {
            if n > 500 { Err(TestCaseError::fail("too large")) } else { Ok(Case::Tried) }
        });
    }
}
