//! Edges as the command line writes them.

use crate::answer::Failure;
use loopwright::gauge::{Gauge, Rows, Stitches};
use loopwright::seams::{Edge, Step};

/// Reads an edge: steps between commas, each of rows and stitches, with `xN` to
/// repeat it. Rows alone are a selvedge and stitches alone are live.
pub(crate) fn edge(name: &str, text: &str, gauge: Gauge) -> Result<Edge, Failure> {
    let mut steps = Vec::new();
    for part in text.split(',') {
        let (step, times) = read_step(part).ok_or_else(|| unreadable(name, text))?;
        let room = 100_000 - steps.len().min(100_000);
        if times > room {
            return Err(unreadable(name, text));
        }
        steps.extend(std::iter::repeat_n(step, times));
    }
    Ok(match steps.as_slice() {
        [Step { rows, stitches: Stitches::ZERO }] => Edge::selvedge(name, *rows, gauge)?,
        [Step { rows: Rows::ZERO, stitches }] => Edge::live(name, *stitches, gauge)?,
        _ => Edge::stepped(name, steps, gauge)?,
    })
}

fn unreadable(name: &str, text: &str) -> Failure {
    let text: String = text.chars().take(60).collect();
    Failure::Input(format!(
        "the {name} {text:?} cannot be read: write rows and stitches, such as \"152 rows\", \
         \"44 stitches\" or \"6 st, 2 rows 3 st x4, 40 rows\""
    ))
}

fn read_step(text: &str) -> Option<(Step, usize)> {
    let mut step = Step { rows: Rows::ZERO, stitches: Stitches::ZERO };
    let mut times = 1;
    let mut words = text.split_whitespace();
    while let Some(word) = words.next() {
        if let Some(count) = word.strip_prefix(['x', '×']) {
            times = count.parse().ok().filter(|&times| times > 0)?;
            return words.next().is_none().then_some((step, times));
        }
        let count: u32 = word.parse().ok()?;
        match words.next()? {
            "row" | "rows" if step.rows == Rows::ZERO => step.rows = Rows::new(count).ok()?,
            "st" | "sts" | "stitch" | "stitches" if step.stitches == Stitches::ZERO => {
                step.stitches = Stitches::new(count).ok()?;
            }
            _ => return None,
        }
    }
    (step.rows > Rows::ZERO || step.stitches > Stitches::ZERO).then_some((step, times))
}
