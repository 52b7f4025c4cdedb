//! Assertions that name what they compare.

use core::fmt::{Debug, Display};

/// Asserts that `got` is an error with exactly this text.
#[track_caller]
pub fn assert_error<T: Debug, E: Debug + Display>(got: Result<T, E>, text: &str) {
    assert_eq!(got.expect_err("an error was expected").to_string(), text);
}
