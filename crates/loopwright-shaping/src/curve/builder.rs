use super::rules::{Legal, Rules};
use super::sample::sample;
use super::solve::{Problem, Solution, Unsolved, solve};
use super::{AtOnce, Curve};
use crate::bounds::{CURVE, CURVE_STEPS, SUBSTITCH, range};
use crate::error::{Error, Remedy};
use crate::words::{rows, stitches};
use crate::{Event, Outline};
use alloc::format;
use loopwright_gauge::{Exact, Gauge, Round, Rows, Stitches};

/// What a [`Curve`] is asked to be.
#[derive(Clone, Copy, Debug)]
#[must_use]
pub struct CurveBuilder<'a> {
    outline: &'a Outline,
    stitches: Stitches,
    rows: Rows,
    most: u32,
    single: Legal,
    several: Legal,
    opening: AtOnce,
    closing: AtOnce,
    /// Half a stitch of the outline belongs to a stitch on the centre line.
    pub(super) half: bool,
}

impl<'a> CurveBuilder<'a> {
    pub(super) const fn new(outline: &'a Outline, stitches: Stitches, rows: Rows) -> Self {
        let other_rows = Legal { first: 2, every: 2 };
        Self {
            outline,
            stitches,
            rows,
            most: 4,
            single: other_rows,
            several: other_rows,
            opening: AtOnce::Nothing,
            closing: AtOnce::Nothing,
            half: false,
        }
    }

    /// The most stitches in one step; 4, if nothing is said.
    pub const fn most(self, stitches: Stitches) -> Self {
        Self { most: stitches.get(), ..self }
    }

    /// Rows on which one stitch may be shaped: `first`, and every `every`th after it;
    /// the even rows, if nothing is said.
    pub const fn single_rows(self, first: Rows, every: Rows) -> Self {
        Self { single: Legal { first: first.get(), every: every.get() }, ..self }
    }

    /// Rows on which several stitches may be shaped at once, because the carriage is
    /// at their side: `first`, and every other row after it; the even rows, if
    /// nothing is said.
    pub const fn several_rows_from(self, first: Rows) -> Self {
        Self { several: Legal { first: first.get(), every: 2 }, ..self }
    }

    /// What is shaped at once before the first row; nothing, if nothing is said.
    pub const fn opening(self, at_once: AtOnce) -> Self {
        Self { opening: at_once, ..self }
    }

    /// What is left to be shaped at once after the last row; nothing, if nothing is
    /// said.
    pub const fn closing(self, at_once: AtOnce) -> Self {
        Self { closing: at_once, ..self }
    }

    /// Finds the nearest staircase.
    ///
    /// # Errors
    /// When a number is out of range, the outline is flat or upright, the rules allow no
    /// staircase, or the nearest is too far off to be found in
    /// [`CURVE_STEPS`](crate::bounds::CURVE_STEPS).
    pub fn build(self) -> Result<Curve, Error> {
        let total = range::within("the stitches of a curve", self.stitches.get(), 0, CURVE)?;
        let all_rows = range::within("the rows of a curve", self.rows.get(), 1, CURVE)?;
        let problem_rules = self.rules()?;
        let opening = self.at_once("the stitches shaped at once before", self.opening)?;
        let closing = self.at_once("the stitches left after a curve", self.closing)?;
        let half = i64::from(self.half) * i64::from(SUBSTITCH / 2);
        let width = i64::from(total) * i64::from(SUBSTITCH) + half;
        let samples = sample(self.outline, width, all_rows, half)?;
        let problem = Problem { samples: &samples, rules: problem_rules, total, opening, closing };
        let solution = solve(&problem).map_err(|why| self.refuse(why))?;
        self.curve(&solution)
    }

    fn rules(self) -> Result<Rules, Error> {
        range::within("the most stitches in one step", self.most, 1, CURVE)?;
        for legal in [self.single, self.several] {
            range::within("the first legal row", legal.first, 1, CURVE)?;
            range::within("the period of legal rows", legal.every, 1, CURVE)?;
        }
        Ok(Rules { most: self.most, single: self.single, several: self.several })
    }

    fn at_once(self, what: &'static str, at_once: AtOnce) -> Result<(u32, u32), Error> {
        let total = self.stitches.get();
        Ok(match at_once {
            AtOnce::Nothing => (0, 0),
            AtOnce::Nearest => (0, total),
            AtOnce::Exactly(n) => (range::within(what, n.get(), 0, total)?, n.get()),
            AtOnce::AtLeast(n) => (range::within(what, n.get(), 0, total)?, total),
        })
    }

    fn refuse(self, why: Unsolved) -> Error {
        let (all, rows) = (stitches(self.stitches.get()), rows(self.rows.get()));
        let why = match why {
            Unsolved::NoStaircase => format!(
                "no staircase of {} {all} in {} {rows} has steps of at most {}",
                self.stitches, self.rows, self.most
            ),
            Unsolved::TooLong => format!(
                "the nearest staircase of {} {all} in {} {rows} takes more than {CURVE_STEPS} \
                 steps to find: divide the outline, or ask for fewer rows",
                self.stitches, self.rows
            ),
        };
        Error::impossible(why, Remedy::NONE)
    }

    fn curve(self, solution: &Solution) -> Result<Curve, Error> {
        let done = |step: Option<&(u32, u32)>| Stitches::clamped(step.map_or(0, |step| step.1));
        let step = |pair: &[(u32, u32)]| match pair {
            [before, after] => Event {
                row: Rows::clamped(after.0),
                stitches: Stitches::clamped(after.1 - before.1),
            },
            _ => Event::default(),
        };
        Ok(Curve {
            stitches: self.stitches,
            rows: self.rows,
            opening: done(solution.steps.first()),
            events: solution.steps.windows(2).map(step).collect(),
            closing: self.stitches.saturating_sub(done(solution.steps.last())),
            deviation: Exact::new(solution.deviation, SUBSTITCH.into())?,
        })
    }
}

impl Curve {
    /// Starts a curve along `outline` at `gauge`: stitches and rows are the
    /// outline's width and height, made whole by `round`.
    ///
    /// # Errors
    /// When a count cannot be made whole, or is out of range.
    pub fn at_gauge(
        outline: &Outline,
        gauge: Gauge,
        round: Round,
    ) -> Result<CurveBuilder<'_>, Error> {
        let whole = |exact: Exact, what: &'static str| -> Result<u32, Error> {
            let whole = exact.to_whole(round)?;
            let refuse = || Error::range(what, &whole, format!("in 0..={CURVE}"));
            u32::try_from(whole).map_err(|_| refuse())
        };
        let stitches =
            whole(gauge.count_in::<Stitches>(outline.width()?)?, "the stitches of a curve")?;
        let rows = whole(gauge.count_in::<Rows>(outline.height()?)?, "the rows of a curve")?;
        Ok(Self::builder(outline, Stitches::new(stitches)?, Rows::new(rows)?))
    }
}
