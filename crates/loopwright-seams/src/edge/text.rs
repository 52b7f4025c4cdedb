//! Edges as knitters write them.

use crate::error::Kind;
use crate::{Edge, EdgeStep, Error, bounds};
use alloc::string::String;
use alloc::vec::Vec;
use core::fmt;
use core::str::FromStr;
use loopwright_gauge::{Count as _, Gauge, Rows, Stitches};

impl Edge {
    /// The edge that `text` tells: steps between commas, each of rows or stitches or
    /// both, with `x4` after a step that comes four times.
    ///
    /// Rows alone are a selvedge, stitches alone are live, and both a staircase.
    ///
    /// # Errors
    /// When the text cannot be read, or the edge is out of bounds.
    ///
    /// # Examples
    /// ```
    /// use loopwright_seams::{Edge, EdgeKind};
    /// let gauge = "28 x 40 / 10 cm".parse()?;
    /// let armhole = Edge::read("armhole", "6 st, 2 rows 3 st x4, 40 rows", gauge)?;
    /// assert_eq!((armhole.rows().get(), armhole.stitches().get()), (48, 18));
    /// assert_eq!(Edge::read("side", "152 rows", gauge)?.kind(), EdgeKind::Selvedge);
    /// # Ok::<(), loopwright_seams::Error>(())
    /// ```
    pub fn read(name: impl Into<String>, text: &str, gauge: Gauge) -> Result<Self, Error> {
        let name = name.into();
        let unreadable = || Error(Kind::Unreadable { edge: name.clone(), text: cut_short(text) });
        let mut steps: Vec<EdgeStep> = Vec::new();
        let (mut stitches, mut rows) = (0_u64, 0_u64);
        for part in text.split(',') {
            let (step, times) = read_step(part).ok_or_else(unreadable)?;
            // Nothing is written out before it is known to be short enough.
            if times > bounds::STEPS - steps.len() {
                return Err(unreadable());
            }
            steps.extend(core::iter::repeat_n(step, times));
            stitches += u64::from(step.stitches.get()) * times as u64;
            rows += u64::from(step.rows.get()) * times as u64;
        }
        match (stitches, rows) {
            (_, 0) => Self::live(name, Stitches::new(whole(stitches))?, gauge),
            (0, _) => Self::selvedge(name, Rows::new(whole(rows))?, gauge),
            _ => Self::stepped(name, steps, gauge),
        }
    }
}

/// More than any count where it is more than 32 bits.
fn whole(count: u64) -> u32 {
    u32::try_from(count).unwrap_or(u32::MAX)
}

/// The most characters of a text that an error repeats.
const ECHO: usize = 60;

pub(crate) fn cut_short(text: &str) -> String {
    text.chars().take(ECHO).collect()
}

fn read_step(text: &str) -> Option<(EdgeStep, usize)> {
    let Some((step, times)) = text.rsplit_once(['x', '×']) else {
        return Some((text.parse().ok()?, 1));
    };
    let times = times.trim().parse().ok().filter(|&times| times > 0)?;
    Some((step.parse().ok()?, times))
}

impl FromStr for EdgeStep {
    type Err = Error;

    fn from_str(text: &str) -> Result<Self, Error> {
        let unreadable = || Error(Kind::UnreadableStep { text: cut_short(text) });
        let mut step = Self { rows: Rows::ZERO, stitches: Stitches::ZERO };
        let mut words = text.split_whitespace();
        while let Some(word) = words.next() {
            let count: u32 = word.parse().map_err(|_| unreadable())?;
            let unit = words.next().ok_or_else(unreadable)?;
            match unit.to_ascii_lowercase().as_str() {
                "row" | "rows" if step.rows == Rows::ZERO => step.rows = Rows::new(count)?,
                "st" | "sts" | "stitch" | "stitches" if step.stitches == Stitches::ZERO => {
                    step.stitches = Stitches::new(count)?;
                }
                _ => return Err(unreadable()),
            }
        }
        let moves = step.rows > Rows::ZERO || step.stitches > Stitches::ZERO;
        if moves { Ok(step) } else { Err(unreadable()) }
    }
}

impl fmt::Display for EdgeStep {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write_both(f, self.rows, self.stitches, " ")
    }
}

/// `3 rows and 1 stitch`, or one of the two where the other is none.
pub(crate) fn write_both(
    f: &mut fmt::Formatter<'_>,
    rows: Rows,
    stitches: Stitches,
    and: &str,
) -> fmt::Result {
    let (up, across) = (rows.counted(), stitches.counted());
    match (rows.is_zero(), stitches.is_zero()) {
        (true, _) => write!(f, "{across}"),
        (_, true) => write!(f, "{up}"),
        _ => write!(f, "{up}{and}{across}"),
    }
}
