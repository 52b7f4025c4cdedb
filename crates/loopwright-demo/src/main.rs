//! The `loopwright` program: prints what [`loopwright_demo::run`] answers.

use std::process::ExitCode;

fn main() -> ExitCode {
    let outcome = loopwright_demo::run(std::env::args_os());
    ExitCode::from(outcome.write(&mut std::io::stdout().lock(), &mut std::io::stderr().lock()))
}
