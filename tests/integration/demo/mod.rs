//! The program as a hurried knitter would use it.

mod draft;

use loopwright_demo::Outcome;

/// Runs a command line, without the program's name.
pub(super) fn run(arguments: &[&str]) -> Outcome {
    loopwright_demo::run(std::iter::once("loopwright").chain(arguments.iter().copied()))
}
