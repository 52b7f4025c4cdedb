//! The `loopwright` program: prints what [`loopwright_demo::run`] answers.

use std::io::Write as _;
use std::process::ExitCode;

fn main() -> ExitCode {
    let outcome = loopwright_demo::run(std::env::args_os());
    // A closed pipe is the reader's choice, not a failure of the work.
    let _ = std::io::stdout().write_all(outcome.stdout.as_bytes());
    let _ = std::io::stderr().write_all(outcome.stderr.as_bytes());
    ExitCode::from(outcome.code)
}
