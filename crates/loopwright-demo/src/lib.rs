//! The demo as a function from arguments to an outcome, so that tests can call it.

mod answer;
mod choice;
mod input;
mod output;
mod plan;
mod sheet;
mod verbs;

use answer::{Answer, Failure};
use clap::error::ContextValue;
use clap::{Parser, ValueEnum};
use std::ffi::OsString;

/// What a run prints and the code it exits with: 0 done, 1 cannot be done, 2 the
/// input is wrong.
#[derive(Debug)]
pub struct Outcome {
    /// The exit code.
    pub code: u8,
    /// What goes to standard output.
    pub stdout: String,
    /// What goes to standard error: one sentence, or nothing.
    pub stderr: String,
}

/// Knitting sums, from a single count to a whole garment.
#[derive(Debug, Parser)]
#[command(name = "loopwright", version)]
struct Cli {
    /// Answer with one JSON object instead of text.
    #[arg(long, global = true)]
    json: bool,
    /// The units lengths are printed in; centimetres, if neither this nor a plan says.
    #[arg(long, global = true, value_enum)]
    units: Option<Units>,
    #[command(subcommand)]
    verb: verbs::Verb,
}

/// The units lengths are printed in.
#[derive(Clone, Copy, Debug, Eq, PartialEq, ValueEnum)]
pub(crate) enum Units {
    /// Centimetres.
    Cm,
    /// Inches, to the nearest eighth.
    In,
    /// Centimetres, with inches in brackets.
    Both,
}

/// Runs one command line, the program's own name first.
pub fn run<I>(args: I) -> Outcome
where
    I: IntoIterator,
    I::Item: Into<OsString> + Clone,
{
    let cli = match Cli::try_parse_from(args) {
        Ok(cli) => cli,
        Err(refused) => return refuse(&refused),
    };
    match verbs::run(&cli.verb, cli.units) {
        Ok(answer) => Outcome { code: 0, stdout: print(&answer, cli.json), stderr: String::new() },
        Err(Failure::Refused(why)) if cli.json => {
            Outcome { stdout: print(&why, true), ..failed(&Failure::Refused(why)) }
        }
        Err(failure) => failed(&failure),
    }
}

fn print(answer: &Answer, json: bool) -> String {
    let mut text = if json {
        output::shown_json(&answer.json.to_string())
    } else {
        output::shown(&answer.text)
    };
    if !text.ends_with('\n') {
        text.push('\n');
    }
    text
}

fn failed(failure: &Failure) -> Outcome {
    let (code, why) = match failure {
        Failure::Input(why) => (2, why),
        Failure::Work(why) => (1, why),
        Failure::Refused(why) => (1, &why.text),
    };
    Outcome { code, stdout: String::new(), stderr: format!("{}\n", output::sentence(why)) }
}

/// What a whole number is refused with, in words a knitter knows.
const PLAIN: [(&str, &str); 3] = [
    ("invalid digit found in string", "write a whole number, such as 60"),
    ("cannot parse integer from empty string", "write a whole number, such as 60"),
    ("is not in 0..=4294967295", "is too large"),
];

/// Help is an answer; anything else clap refuses is told in one sentence.
fn refuse(refused: &clap::Error) -> Outcome {
    if refused.exit_code() == 0 {
        return Outcome { code: 0, stdout: refused.to_string(), stderr: String::new() };
    }
    let mut text = refused.to_string();
    for (_, value) in refused.context() {
        if let ContextValue::String(given) = value {
            text = text.replace(given, &output::one_line(&output::short(given)));
        }
    }
    for (theirs, ours) in PLAIN {
        text = text.replace(theirs, ours);
    }
    let told: Vec<&str> = text
        .lines()
        .map(str::trim)
        .take_while(|line| !line.starts_with("Usage:") && !line.starts_with("For more"))
        .filter(|line| !line.is_empty())
        .collect();
    let why = told.join(" ").trim_start_matches("error: ").to_owned();
    failed(&Failure::Input(format!("{why}; see `loopwright --help`")))
}
