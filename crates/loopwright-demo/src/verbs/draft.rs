use crate::answer::{Answer, Failure};
use crate::plan::Plan;
use crate::{Units, output, plan, sheet};
use clap::ValueEnum;
use loopwright::garment::{Draft, Garment};
use loopwright::gauge::english::list;
use std::path::{Path, PathBuf};

#[derive(Debug, clap::Args)]
pub(crate) struct Args {
    /// The plan file; "-" reads standard input.
    plan: PathBuf,
    /// How the instructions are written.
    #[arg(long = "as", value_enum, default_value_t = Form::Text)]
    form: Form,
    /// Write them to this file instead of printing them.
    #[arg(long)]
    out: Option<PathBuf>,
}

#[derive(Clone, Copy, Debug, Eq, PartialEq, ValueEnum)]
pub(crate) enum Form {
    /// Plain text to read and print.
    Text,
    /// One JSON object.
    Json,
}

pub(crate) fn run(args: &Args, units: Option<Units>) -> Result<Answer, Failure> {
    let plan = plan::read(&args.plan)?;
    let units = units.unwrap_or(plan.units);
    let garment = finished(&args.plan, &plan)?;
    let yarn = match &plan.yarn {
        Some(facts) => Some(garment.yarn(facts).map_err(|error| cannot(&args.plan, &error))?),
        None => None,
    };
    let json = sheet::json(&plan, &garment, yarn.as_ref());
    let text = match args.form {
        Form::Text => sheet::text(&plan, &garment, yarn.as_ref(), units),
        Form::Json => output::shown_json(&json.to_string()),
    };
    let Some(out) = &args.out else { return Ok(Answer { text, json }) };
    output::save(out, &args.plan, &output::shown(&text))?;
    Ok(Answer { text: format!("written to {}", out.display()), json })
}

/// The garment of a plan, knitted in the replay and checked.
pub(crate) fn finished(path: &Path, plan: &Plan) -> Result<Garment, Failure> {
    plan.garment.draft().and_then(Draft::finish).map_err(|error| cannot(path, &error))
}

pub(crate) fn cannot(path: &Path, error: &loopwright::garment::Error) -> Failure {
    let places = plan::places(error);
    let look =
        if places.is_empty() { String::new() } else { format!("; look at {}", list(places, "or")) };
    let why = format!("{}: {error}{look}", path.display());
    if error.is_impossible() { Failure::Work(why) } else { Failure::Input(why) }
}
