mod file;
mod told;

use crate::Units;
use crate::answer::{Answer, Failure};
use crate::input::Source;
use loopwright::joint::{Outcome, Problem};
use std::path::PathBuf;

#[derive(Debug, clap::Args)]
pub(crate) struct Args {
    /// The file of counts and demands, in TOML or JSON; "-" reads standard input.
    #[arg(long_help = file::SHAPE)]
    file: PathBuf,
    /// How many steps of work before the answer is given as not proved.
    #[arg(long)]
    steps: Option<u64>,
}

pub(crate) fn run(args: &Args, _units: Units) -> Result<Answer, Failure> {
    let name = args.file.display().to_string();
    let file: file::File = Source::open(&args.file)?.parse()?;
    let mut problem = file.problem().map_err(|failure| match failure {
        Failure::Input(why) => Failure::Input(format!("{name}: {why}")),
        other => other,
    })?;
    if let Some(steps) = args.steps {
        problem = problem.limit(steps);
    }
    answer(&problem)
}

fn answer(problem: &Problem) -> Result<Answer, Failure> {
    match problem.solve()? {
        Outcome::Solved(solution) => Ok(told::solution(&solution)),
        Outcome::Conflict(conflict) => Err(Failure::Refused(told::conflict(&conflict))),
        _ => Err(Failure::Work("the counts came out as nothing known here".into())),
    }
}
