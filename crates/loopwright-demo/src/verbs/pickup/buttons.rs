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
    let gaps = match args.margin {
        Some(margin) => Gaps::Margins { first: margin, last: margin },
        None => Gaps::Equal,
    };
    let holes = Buttonholes::new(stitches.get(), buttons, args.hole)?;
    let holes = holes.place(gaps, Leftover::Spread)?;
    if let Some(map) = json.as_object_mut() {
        map.insert("buttonholes".into(), told(&holes));
    }
    lines.extend([words(&holes), CAUTION.into()]);
    Ok(())
}

fn told(holes: &Holes) -> Value {
    json!({
        "gaps": holes.gaps(),
        "starts": holes.starts().collect::<Vec<_>>(),
        "width": holes.width(),
    })
}

fn words(holes: &Holes) -> String {
    let starts: Vec<String> = holes.starts().map(|start| start.to_string()).collect();
    let starts = starts.join(", ");
    match holes.width() {
        0 => format!("buttonholes between stitches, before stitches {starts}"),
        1 => format!("buttonholes of 1 stitch, at stitches {starts}"),
        width => format!("buttonholes of {width} stitches, starting at stitches {starts}"),
    }
}
