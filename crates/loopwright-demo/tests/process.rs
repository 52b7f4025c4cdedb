//! The program as a process: what its exit code says when nobody can read its answer.

#![cfg(unix)]
#![allow(clippy::unwrap_used, reason = "test code: a panic is a failed test")]

use std::io::{BufRead as _, BufReader, Write as _};
use std::process::{Command, Stdio};

const COUNT: [&str; 4] = ["count", "52 cm", "--gauge", "28x40/10cm"];
const PLAN: &str = include_str!("../../../examples/plans/kite.toml");

fn loopwright(arguments: &[&str]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_loopwright"));
    command.args(arguments);
    command
}

#[test]
fn a_full_disk_is_told() {
    let Ok(full) = std::fs::OpenOptions::new().write(true).open("/dev/full") else { return };
    let run = loopwright(&COUNT).stdout(full).stderr(Stdio::piped()).output().unwrap();
    assert_eq!(run.status.code(), Some(1));
    let told = String::from_utf8(run.stderr).unwrap();
    assert!(told.starts_with("the answer cannot be written: "), "{told}");
}

#[test]
fn a_closed_pipe_is_quiet() {
    // The sheet is written only after the plan was read, and by then nobody listens.
    let mut run = loopwright(&["draft", "-"])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    drop(run.stdout.take());
    run.stdin.take().unwrap().write_all(PLAN.as_bytes()).unwrap();
    let run = run.wait_with_output().unwrap();
    assert_eq!((run.status.code(), run.stderr.len()), (Some(0), 0));
}

#[test]
fn standard_input_is_read_by_every_verb_with_a_file() {
    let counts = "[[count]]\nname = \"cuff\"\nideal = 47.5\n";
    for (arguments, input, first) in [
        (&["fit", "-"][..], counts, "cuff"),
        (&["draft", "-"], PLAN, "Kite pullover"),
        (&["yarn", "--plan", "-"], PLAN, "Yarn"),
    ] {
        let mut run =
            loopwright(arguments).stdin(Stdio::piped()).stdout(Stdio::piped()).spawn().unwrap();
        run.stdin.take().unwrap().write_all(input.as_bytes()).unwrap();
        let mut line = String::new();
        BufReader::new(run.stdout.take().unwrap()).read_line(&mut line).unwrap();
        assert!(line.starts_with(first), "{arguments:?}: {line}");
        run.wait().unwrap();
    }
}

#[test]
fn wrong_input_on_standard_input_is_called_by_that_name() {
    let mut run =
        loopwright(&["draft", "-"]).stdin(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
    run.stdin.take().unwrap().write_all(b"title = \"x\"\n").unwrap();
    let run = run.wait_with_output().unwrap();
    assert_eq!(run.status.code(), Some(2));
    let told = String::from_utf8(run.stderr).unwrap();
    assert!(told.starts_with("standard input, line 1, garment: is missing"), "{told}");
}
