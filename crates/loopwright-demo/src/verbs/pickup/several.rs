//! Several edges picked up in one line.

use super::{Args, buttons, repeat, tell};
use crate::answer::{Answer, Failure, fraction};
use loopwright::gauge::{Count as _, Gauge, Round};
use loopwright::seams::{Edge, PickUpLine, Picked, say};
use serde_json::{Value, json};

pub(super) fn run(args: &Args, gauge: Gauge) -> Result<Answer, Failure> {
    let line = line(args, gauge)?;
    let fitted = line.fit(repeat(args)?, Round::HalfUp)?;
    let stitches = args.stitches.unwrap_or(fitted.count);
    let picked = line.place(stitches, args.ends)?;
    let mut json = json!({
        "stitches": stitches.get(),
        "ideal": fraction(fitted.ideal),
        "edges": picked.iter().map(told).collect::<Vec<_>>(),
    });
    let mut lines = vec![format!("pick up {} in all:", stitches.counted())];
    lines.extend(picked.iter().map(Picked::to_string));
    buttons::add(args, stitches, &mut json, &mut lines)?;
    Ok(Answer { text: lines.join("\n"), json })
}

fn line(args: &Args, gauge: Gauge) -> Result<PickUpLine, Failure> {
    let count = args.along.len();
    if let Some(wrong) = args.corner_after.iter().find(|&&nth| !(1..=count).contains(&nth)) {
        return Err(Failure::Input(format!(
            "--corner-after is {wrong}, but must be in 1..={count}, the edges given with --along"
        )));
    }
    let mut line = PickUpLine::new(args.band_gauge.unwrap_or(gauge));
    for (nth, text) in (1..).zip(&args.along) {
        line = line.along(Edge::read(format!("edge {nth}"), text, gauge)?);
        if args.corner_after.contains(&nth) {
            line = line.corner();
        }
    }
    Ok(if args.mirrored { line.mirrored() } else { line })
}

fn told(picked: &Picked) -> Value {
    json!({
        "edge": picked.edge,
        "stitches": picked.stitches,
        "ideal": fraction(picked.ideal),
        "groups": picked.groups.iter().map(tell::group).collect::<Vec<_>>(),
        "corner": picked.corner,
        "words": say(&picked.groups),
    })
}
