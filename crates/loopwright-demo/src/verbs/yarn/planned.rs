//! The yarn of a whole plan.

use super::{Answer, Failure, Units, Value, amount};
use crate::verbs::draft;
use crate::{plan, sheet};
use serde_json::json;
use std::path::Path;

pub(super) fn answer(path: &Path, asked: Option<Units>) -> Result<Answer, Failure> {
    let plan = plan::read(path)?;
    let units = asked.unwrap_or(plan.units);
    let garment = draft::finished(path, &plan)?;
    let facts = plan.yarn.as_ref().ok_or_else(|| {
        let why = "has no [yarn]; add one with a line such as count = \"2/28 Nm\"";
        Failure::Input(format!("{} {why}", path.display()))
    })?;
    let report = garment.yarn(facts).map_err(|error| draft::cannot(path, &error))?;
    let mut json = amount::numbers(&report.total())?;
    json.insert("tex".into(), json!(facts.yarn.resultant()?.tex().to_f64_lossy()));
    if let Some(purchase) = &report.purchase {
        json.extend(amount::packages(&purchase.packages));
    }
    Ok(Answer { text: sheet::yarn(&report, units), json: Value::Object(json) })
}
