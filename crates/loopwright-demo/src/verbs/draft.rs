use crate::Units;
use crate::answer::{Answer, Failure};

#[derive(Debug, clap::Args)]
pub(crate) struct Args {}

pub(crate) fn run(_args: &Args, _units: Units) -> Result<Answer, Failure> {
    Err(Failure::Work("this verb is not built yet".into()))
}
