//! The yarn of a whole plan.

use super::{Answer, Failure, Units, grams, metres};
use crate::verbs::draft;
use crate::{plan, sheet};
use loopwright::yardage::Spread;
use serde_json::json;
use std::path::Path;

pub(super) fn answer(path: &Path, units: Units) -> Result<Answer, Failure> {
    let plan = plan::read(path)?;
    let garment = draft::finished(path, &plan)?;
    let facts = plan.yarn.as_ref().ok_or_else(|| {
        let why = "has no [yarn]; add one with a line such as count = \"2/28 Nm\"";
        Failure::Input(format!("{} {why}", path.display()))
    })?;
    let report = garment.yarn(facts).map_err(|error| draft::cannot(path, &error))?;
    let total = report.total();
    let part =
        |length, mass| Ok::<_, Failure>(json!({ "metres": metres(length)?, "grams": grams(mass) }));
    let (length, mass) = (&total.length, &total.mass);
    let json = json!({
        "tex": facts.yarn.resultant()?.tex().to_f64_lossy(),
        "metres": metres(length.likely())?,
        "grams": grams(mass.likely()),
        "low": part(length.low(), mass.low())?,
        "high": part(length.high(), mass.high())?,
        "packages": report.purchase.as_ref().map(|purchase| {
            let [low, likely, high] = Spread::parts(&purchase.packages);
            json!({ "low": low, "likely": likely, "high": high })
        }),
    });
    Ok(Answer { text: sheet::yarn(&report, units), json })
}
