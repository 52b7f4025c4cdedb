//! Buttonholes along the band that was picked up.

use super::Args;
use crate::answer::Failure;
use loopwright::gauge::Stitches;
use loopwright::seams::{Buttonholes, Gaps, Holes, Leftover};
use serde_json::{Value, json};

const CAUTION: &str = "buttons are small parts: for a child under three leave them off, \
                       or follow your local rules";

/// Adds the buttonholes to both voices, when they were asked for.
pub(super) fn add(
    args: &Args,
    stitches: Stitches,
    json: &mut Value,
    lines: &mut Vec<String>,
) -> Result<(), Failure> {
    let Some(buttons) = args.buttons else { return Ok(()) };
    let gaps = gaps(args)?;
    let holes = Buttonholes::new(stitches, buttons, args.hole)?;
    let holes = holes.place(gaps, Leftover::Spread)?;
    if let Some(map) = json.as_object_mut() {
        map.insert("buttonholes".into(), told(&holes));
    }
    lines.extend([holes.to_string(), CAUTION.into()]);
    Ok(())
}

/// A margin for both ends, one of its own for either, or gaps alike throughout.
fn gaps(args: &Args) -> Result<Gaps, Failure> {
    match (args.first_margin.or(args.margin), args.last_margin.or(args.margin)) {
        (Some(first), Some(last)) => Ok(Gaps::Margins { first, last }),
        (None, None) => Ok(Gaps::Equal),
        (first, _) => {
            let (given, other) =
                if first.is_some() { ("first", "last") } else { ("last", "first") };
            Err(Failure::Input(format!(
                "--{given}-margin is given alone: give --{other}-margin too, which may be 0"
            )))
        }
    }
}

fn told(holes: &Holes) -> Value {
    json!({
        "gaps": holes.gaps(),
        "starts": holes.starts().collect::<Vec<_>>(),
        "width": holes.width(),
    })
}
