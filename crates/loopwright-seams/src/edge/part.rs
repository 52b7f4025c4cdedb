//! A stretch of an edge, and how its steps and its length are reckoned.

use crate::edge::{EdgeKind, EdgeStep, OutlinePoint};
use crate::{Error, Span, bounds};
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;
use loopwright_gauge::{Gauge, Rows, Stitches};

/// A stretch of an edge that is all of one kind and one gauge.
#[derive(Clone, Debug, Eq, PartialEq)]
pub(crate) struct Part {
    pub(crate) name: String,
    pub(crate) kind: EdgeKind,
    pub(crate) stitches: Stitches,
    pub(crate) rows: Rows,
    pub(crate) steps: Vec<EdgeStep>,
    pub(crate) gauge: Gauge,
    pub(crate) length: Span,
    pub(crate) outline: Vec<OutlinePoint>,
}

impl Part {
    /// A stretch with its length, its counts still to be given.
    pub(super) const fn bare(name: String, kind: EdgeKind, gauge: Gauge, length: Span) -> Self {
        let (stitches, rows) = (Stitches::ZERO, Rows::ZERO);
        Self { name, kind, stitches, rows, steps: Vec::new(), gauge, length, outline: Vec::new() }
    }
}

pub(super) fn checked_name(name: String) -> Result<String, Error> {
    match name.chars().count() {
        1..=bounds::NAME if !name.trim().is_empty() => Ok(name),
        0..=bounds::NAME => Err(Error::range("the name of an edge", "empty", "a name")),
        count => {
            let given = format!("{count} characters long");
            Err(Error::range("the name of an edge", given, format!("at most {}", bounds::NAME)))
        }
    }
}

pub(super) fn checked_steps(name: &str, steps: &[EdgeStep]) -> Result<(), Error> {
    if steps.is_empty() || steps.len() > bounds::STEPS {
        let what = format!("the count of steps of the {name}");
        return Err(Error::range(what, steps.len(), format!("in 1..={}", bounds::STEPS)));
    }
    let still = |step: &EdgeStep| step.rows == Rows::ZERO && step.stitches == Stitches::ZERO;
    match steps.iter().position(still) {
        Some(at) => {
            let what = format!("step {} of the {name}", at + 1);
            Err(Error::range(what, "0 rows and 0 stitches", "at least one row or stitch"))
        }
        None => Ok(()),
    }
}

pub(super) fn polyline(points: &[OutlinePoint]) -> Result<Span, Error> {
    let mut length = Span::ZERO;
    for (from, to) in points.iter().zip(points.iter().skip(1)) {
        let across = to.across.checked_sub(from.across)?;
        let up = to.up.checked_sub(from.up)?;
        length = length.checked_add(Span::hypotenuse(across, up)?)?;
    }
    Ok(length)
}

/// Straight steps are added up exactly, and only slanted ones as square roots,
/// one for each run of equal steps.
pub(super) fn stair_length(steps: &[EdgeStep], gauge: Gauge) -> Result<Span, Error> {
    let (mut stitches, mut rows, mut slants) = (Stitches::ZERO, Rows::ZERO, Span::ZERO);
    for run in steps.chunk_by(|a, b| a == b) {
        let (Some(step), Ok(times)) = (run.first(), u32::try_from(run.len())) else { continue };
        if step.rows == Rows::ZERO {
            let run = Stitches::new(step.stitches.get().saturating_mul(times))?;
            stitches = stitches.checked_add(run)?;
        } else if step.stitches == Stitches::ZERO {
            rows = rows.checked_add(Rows::new(step.rows.get().saturating_mul(times))?)?;
        } else {
            let up = gauge.length_of(step.rows)?;
            let slant = Span::hypotenuse(gauge.length_of(step.stitches)?, up)?;
            slants = slants.checked_add(slant.times(times)?)?;
        }
    }
    let straight = gauge.length_of(stitches)?.checked_add(gauge.length_of(rows)?)?;
    Span::exact(straight).checked_add(slants)
}
