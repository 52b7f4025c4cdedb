mod file;
mod told;

use crate::Units;
use crate::answer::{Answer, Failure};
use loopwright::joint::{Answer as Joint, Problem};
use std::path::PathBuf;

#[derive(Debug, clap::Args)]
pub(crate) struct Args {
    /// The file of counts, measures and demands, in TOML or JSON; "-" reads standard input.
    #[arg(long_help = file::SHAPE)]
    file: PathBuf,
    /// How much work to do before the answer is given as not proved, in steps: about as
    /// many cells of tables (without it about a tenth of a second).
    #[arg(long)]
    steps: Option<u64>,
}

pub(crate) fn run(args: &Args, units: Units) -> Result<Answer, Failure> {
    let mut problem = file::read(&args.file)?;
    if let Some(steps) = args.steps {
        problem = problem.steps(steps);
    }
    answer(&problem, units)
}

fn answer(problem: &Problem, units: Units) -> Result<Answer, Failure> {
    match problem.solve()? {
        Joint::Solved(solution) => Ok(told::solution(&solution, units)),
        Joint::Conflict(conflict) => Err(Failure::Refused(told::conflict(&conflict, units))),
        _ => Err(Failure::Work("the counts came out as nothing known here".into())),
    }
}
