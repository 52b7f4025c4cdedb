//! The program as a hurried knitter would use it.

mod draft;
mod edges;
mod grammar;
mod refusals;

use loopwright_demo::Outcome;
use std::path::{Path, PathBuf};

/// Runs a command line, without the program's name.
pub(super) fn run(arguments: &[&str]) -> Outcome {
    loopwright_demo::run(std::iter::once("loopwright").chain(arguments.iter().copied()))
}

/// An empty folder of its own for each test.
fn folder(name: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    let _ = std::fs::remove_dir_all(&folder);
    std::fs::create_dir_all(&folder).unwrap();
    folder
}

/// A command's words; what stands between single quotes is one.
fn words(command: &str) -> Vec<&str> {
    let parts = command.split('\'').enumerate();
    parts
        .flat_map(|(at, part)| match at % 2 {
            0 => part.split_whitespace().collect(),
            _ => vec![part],
        })
        .collect()
}
