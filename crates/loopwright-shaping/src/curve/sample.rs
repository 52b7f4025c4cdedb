//! An outline stretched to stitches and rows, and read off in the middle of each row.
//!
//! Corners are snapped down to [`SUBSTITCH`]ths of a stitch and of a row, and
//! everything after is whole-number arithmetic: the square root of an ellipse is
//! taken of whole numbers, rounded down.

use crate::bounds::SUBSTITCH;
use crate::error::Error;
use crate::outline::{Bend, Outline, Piece};
use alloc::vec::Vec;
use loopwright_gauge::{Length, Round};

const SCALE: i64 = SUBSTITCH as i64;

/// What the outline does around a row: the rule for how step sizes may change.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub(super) enum Trend {
    /// Steps must not become quicker.
    Slowing,
    /// Steps must not become slower.
    Quickening,
    /// A straight line, this many [`SUBSTITCH`]ths of a stitch across in as many
    /// [`SUBSTITCH`]ths of a row up: only the two rates around it.
    Straight { across: i64, up: i64 },
}

/// The outline at one row.
#[derive(Clone, Copy, Debug)]
pub(super) struct Sample {
    /// Where the outline is in the middle of the row, in [`SUBSTITCH`]ths of a stitch.
    pub(super) at: i64,
    /// Which stretch of one trend the row belongs to.
    pub(super) stretch: usize,
}

#[derive(Debug)]
pub(super) struct Samples {
    pub(super) rows: Vec<Sample>,
    pub(super) trends: Vec<Trend>,
}

/// A piece between two corners on the fine grid.
#[derive(Clone, Copy)]
struct Span {
    from: (i64, i64),
    to: (i64, i64),
    bend: Option<Bend>,
    stretch: usize,
}

/// Reads `outline` off, stretched to `width` [`SUBSTITCH`]ths of a stitch and `rows`
/// rows, and moved back by `offset`.
pub(super) fn sample(
    outline: &Outline,
    width: i64,
    rows: u32,
    offset: i64,
) -> Result<Samples, Error> {
    let mut spans = spans(outline, width, i64::from(rows) * SCALE)?;
    let trends = trends(&mut spans);
    let mut ahead = spans.iter().peekable();
    let rows = (0..i64::from(rows)).map(|row| {
        let middle = row * SCALE + SCALE / 2;
        while ahead.next_if(|span| span.to.1 <= middle).is_some() {}
        ahead.peek().map_or(Sample { at: width - offset, stretch: 0 }, |span| Sample {
            at: span.at(middle) - offset,
            stretch: span.stretch,
        })
    });
    Ok(Samples { rows: rows.collect(), trends })
}

fn spans(outline: &Outline, width: i64, height: i64) -> Result<Vec<Span>, Error> {
    let frame = outline.frame()?;
    let (mut across, mut up, mut from) = (Length::ZERO, Length::ZERO, (0, 0));
    let mut spans = Vec::with_capacity(outline.pieces().len());
    for &piece in outline.pieces() {
        let size = piece.size();
        (across, up) = (across.checked_add(size.0)?, up.checked_add(size.1)?);
        let to = (snap(across, frame.0, width)?, snap(up, frame.1, height)?);
        let bend = match piece {
            Piece::Line { .. } => None,
            Piece::Quarter { bend, .. } => Some(bend),
        };
        spans.push(Span { from, to, bend, stretch: 0 });
        from = to;
    }
    Ok(spans)
}

fn snap(part: Length, whole: Length, cells: i64) -> Result<i64, Error> {
    let cell = part.ratio(whole)?.checked_mul(cells.try_into()?)?;
    Ok(cell.to_whole(Round::Floor)?)
}

impl Span {
    /// Where the span is at the height `y`, which lies within it.
    fn at(self, y: i64) -> i64 {
        let (across, up) = (self.to.0 - self.from.0, self.to.1 - self.from.1);
        match self.bend {
            None => self.from.0 + across * (y - self.from.1) / up,
            Some(Bend::Slowing) => self.from.0 + chord(across, up, self.to.1 - y),
            Some(Bend::Quickening) => self.to.0 - chord(across, up, y - self.from.1),
        }
    }

    /// Across over up at the beginning and at the end, as fractions; a denominator
    /// of zero is as flat as can be.
    fn slopes(self) -> [(i64, i64); 2] {
        let (across, up) = (self.to.0 - self.from.0, self.to.1 - self.from.1);
        match self.bend {
            None => [(across, up), (across, up)],
            Some(Bend::Slowing) => [(1, 0), (0, 1)],
            Some(Bend::Quickening) => [(0, 1), (1, 0)],
        }
    }
}

/// `across * sqrt(up^2 - y^2) / up`, rounded down: half the chord of an ellipse.
fn chord(across: i64, up: i64, y: i64) -> i64 {
    let (a, u, y) = (wide(across), wide(up), wide(y));
    // Below 2^60 each, so the product fits.
    let square = a * a * (u * u - (y * y).min(u * u)) / (u * u).max(1);
    i64::try_from(square.isqrt()).unwrap_or(i64::MAX)
}

fn wide(n: i64) -> u128 {
    n.unsigned_abs().into()
}

/// Numbers the stretches of one trend, and names each stretch's trend.
fn trends(spans: &mut [Span]) -> Vec<Trend> {
    let mut trends: Vec<Option<Trend>> = Vec::new();
    let mut lines: Vec<(i64, i64)> = Vec::new();
    let (mut before, mut jumped): (Option<(i64, i64)>, bool) = (None, false);
    for span in spans {
        if span.from.1 == span.to.1 {
            // A jump between two rows: what comes after it starts afresh.
            jumped = true;
            continue;
        }
        let [start, end] = span.slopes();
        let joint = before.and_then(|before| match flatter(before, start) {
            core::cmp::Ordering::Greater => Some(Trend::Slowing),
            core::cmp::Ordering::Less => Some(Trend::Quickening),
            core::cmp::Ordering::Equal => None,
        });
        let own = span.bend.map(|bend| match bend {
            Bend::Slowing => Trend::Slowing,
            Bend::Quickening => Trend::Quickening,
        });
        let fits = |trend: Option<Trend>, new: Option<Trend>| {
            trend.is_none() || new.is_none() || trend == new
        };
        match trends.last_mut() {
            Some(trend) if !jumped && fits(*trend, joint) && fits(trend.or(joint), own) => {
                *trend = trend.or(joint).or(own);
            }
            _ => {
                trends.push(own);
                lines.push(start);
            }
        }
        span.stretch = trends.len() - 1;
        (before, jumped) = (Some(end), false);
    }
    let straight = |(across, up)| Trend::Straight { across, up };
    trends.into_iter().zip(lines).map(|(trend, line)| trend.unwrap_or(straight(line))).collect()
}

/// Compares two slopes, across over up: the greater is the flatter.
fn flatter(a: (i64, i64), b: (i64, i64)) -> core::cmp::Ordering {
    (i128::from(a.0) * i128::from(b.1)).cmp(&(i128::from(b.0) * i128::from(a.1)))
}
