//! Every count of the pullover, rounded together.

use super::targets::{Targets, cm};
use super::{DropShoulderChoices, Shoulders};
use crate::draft::Outcome;
use crate::error::Kind;
use crate::{Error, Fabrics};
use loopwright_gauge::{Exact, Length, Repeat, Round, Rows, Spread, Stitches};
use loopwright_joint::{AnyCount, Demand, Problem, RoundedCount, Solution, Unknown};
use std::borrow::Cow;

/// Stitches that a row seam hides at the two edges of a piece (studioknits.com).
pub(super) const SEAM_STITCHES: u32 = 2;

#[derive(Clone, Debug)]
pub(super) struct Counts {
    pub(super) body: u32,
    pub(super) neck: u32,
    pub(super) shoulder: u32,
    pub(super) wrist: u32,
    pub(super) sleeve_top: u32,
    pub(super) hem_rows: u32,
    pub(super) side_rows: u32,
    pub(super) armhole_rows: u32,
    /// Rows from the first shoulder step to the last; zero for a straight shoulder.
    pub(super) slope_rows: u32,
    /// Rows of the front neck, up to the highest point of the back.
    pub(super) neck_rows: u32,
    pub(super) cuff_rows: u32,
    pub(super) sleeve_rows: u32,
    pub(super) sleeve_plain_rows: u32,
    pub(super) band_rows: u32,
    /// As they were rounded together.
    pub(super) rounded: Vec<RoundedCount>,
    /// Whether the rounding is proved best.
    pub(super) proved: bool,
}

impl Counts {
    pub(super) fn round(
        targets: &Targets,
        fabrics: &Fabrics,
        choices: &DropShoulderChoices,
    ) -> Result<Self, Error> {
        let solution = together(
            &problem(targets, fabrics, choices)?,
            "the counts cannot be rounded together",
        )?;
        Self::read(&solution, targets, fabrics, choices)
    }

    fn read(
        solution: &Solution,
        targets: &Targets,
        fabrics: &Fabrics,
        choices: &DropShoulderChoices,
    ) -> Result<Self, Error> {
        let count = |name: &str| {
            solution.count(name).map(AnyCount::get).ok_or_else(|| {
                Error::from(Kind::CannotBe { keys: &[], why: format!("no count for {name}") })
            })
        };
        Ok(Self {
            body: count("body")?,
            neck: count("neck")?,
            shoulder: count("shoulder")?,
            wrist: count("wrist")?,
            sleeve_top: count("sleeve top")? + SEAM_STITCHES,
            hem_rows: count("hem rows")?,
            side_rows: count("side rows")?,
            armhole_rows: count("armhole rows")?,
            slope_rows: if targets.shoulder_drop.is_positive() {
                count("shoulder rows")?
            } else {
                0
            },
            neck_rows: count("neck rows")?,
            cuff_rows: count("cuff rows")?,
            sleeve_rows: count("sleeve rows")?,
            sleeve_plain_rows: fabrics
                .plain
                .fit::<Rows>(choices.sleeve_plain, Repeat::any(), Round::HalfUp)?
                .count
                .get(),
            band_rows: count("neckband rows")?,
            rounded: solution.counts().to_vec(),
            proved: solution.is_proved(),
        })
    }

    /// Rows from the top of the hem to the shoulder.
    pub(super) const fn rows_to_shoulder(&self) -> u32 {
        self.side_rows + self.armhole_rows
    }

    pub(super) fn outcomes(
        &self,
        targets: &Targets,
        fabrics: &Fabrics,
    ) -> Result<Vec<Outcome>, Error> {
        let wide = |stitches: u32| wide(fabrics, stitches);
        let tall = |rows: u32| tall(fabrics, rows);
        let rib =
            |rows: u32| Ok::<_, Error>(Spread::exactly(fabrics.rib.length_of(Rows::new(rows)?)?));
        let half_chest = wide(self.body - SEAM_STITCHES)?;
        let chest = targets.width.checked_add(targets.width)?;
        let body = and(tall(self.rows_to_shoulder() + self.slope_rows)?, rib(self.hem_rows)?)?;
        let sleeve = and(tall(self.sleeve_rows)?, rib(self.cuff_rows)?)?;
        let outcome = |what, wanted, given| Outcome { what: Cow::Borrowed(what), wanted, given };
        Ok(vec![
            outcome("chest, all round", chest, and(half_chest, half_chest)?),
            outcome("body, hem to neck", targets.body_length, body),
            outcome("armhole depth", targets.armhole, tall(self.armhole_rows)?),
            outcome("neck width", targets.neck_width, wide(self.neck)?),
            outcome("front neck depth", targets.neck_depth, tall(self.neck_rows)?),
            outcome("sleeve, cuff to shoulder seam", targets.sleeve_length, sleeve),
            outcome(
                "sleeve top, all round",
                targets.sleeve_top,
                wide(self.sleeve_top - SEAM_STITCHES)?,
            ),
            outcome("wrist, all round", targets.wrist, wide(self.wrist - SEAM_STITCHES)?),
        ])
    }
}

/// What so many stitches measure, for all the swatch tells.
fn wide(fabrics: &Fabrics, stitches: u32) -> Result<Spread<Length>, Error> {
    Ok(fabrics.measured.length_of(Stitches::new(stitches)?)?)
}

/// What so many rows measure, for all the swatch tells.
fn tall(fabrics: &Fabrics, rows: u32) -> Result<Spread<Length>, Error> {
    Ok(fabrics.measured.length_of(Rows::new(rows)?)?)
}

fn and(one: Spread<Length>, other: Spread<Length>) -> Result<Spread<Length>, Error> {
    let low = one.low().checked_add(other.low())?;
    let likely = one.likely().checked_add(other.likely())?;
    Ok(Spread::new(low, likely, one.high().checked_add(other.high())?)?)
}

/// The counts of a problem; what cannot hold is told after `refusal`.
pub(super) fn together(problem: &Problem, refusal: &str) -> Result<Solution, Error> {
    let keys: &[&str] = &["neck_width", "neck_depth", "shoulder_drop"];
    let refuse = |conflict| Kind::CannotBe { keys, why: format!("{refusal}: {conflict}") }.into();
    problem.solve()?.into_result().map_err(refuse)
}

/// What is unknown, near which ideal, and what ties it together.
fn problem(
    targets: &Targets,
    fabrics: &Fabrics,
    choices: &DropShoulderChoices,
) -> Result<Problem, Error> {
    let mut problem = Problem::new();
    stitches(&mut problem, targets, fabrics)?;
    rows(&mut problem, targets, fabrics)?;
    sleeve_round_armhole(&mut problem, targets, fabrics, choices)?;
    Ok(problem)
}

/// The top of the sleeve, without its seam stitches, goes along both armhole edges within
/// the tolerance of the seam: one stitch or one row, whichever is longer, or a sixtieth of
/// the length wanted if that is more (the seam allows a fiftieth of the length knitted).
///
/// A sloped shoulder adds rows to the armhole edges: closing rows after short rows, two
/// at one sleeve and three at the other; the row to the far side before bind-offs, one
/// and two.
fn sleeve_round_armhole(
    problem: &mut Problem,
    targets: &Targets,
    fabrics: &Fabrics,
    choices: &DropShoulderChoices,
) -> Result<(), Error> {
    let (fewest, most) = match choices.shoulders {
        Shoulders::BindOff => (1, 2),
        Shoulders::ShortRows if targets.shoulder_drop.is_positive() => (2, 3),
        Shoulders::ShortRows => (0, 0),
    };
    let per_row =
        fabrics.plain.per_mm::<Stitches>()?.checked_div(fabrics.plain.per_mm::<Rows>()?)?;
    let (stitches, rows) = (Exact::try_from(per_row.numer())?, Exact::try_from(per_row.denom())?);
    let top = fabrics.plain.count_in::<Stitches>(targets.sleeve_top)?;
    let tolerance = top.checked_mul(Exact::new(1, 60)?)?.max(Exact::ONE).max(per_row);
    let tolerance = tolerance.checked_mul(rows)?;
    let low =
        stitches.checked_mul(Exact::whole(most))?.checked_sub(tolerance)?.to_whole(Round::Ceil)?;
    let high = stitches
        .checked_mul(Exact::whole(fewest))?
        .checked_add(tolerance)?
        .to_whole(Round::Floor)?;
    let both = stitches.checked_mul(Exact::whole(-2))?;
    let terms = [(rows.numer(), "sleeve top"), (both.numer(), "armhole rows")];
    problem.demand("the sleeve goes round the armhole", Demand::sum_within(terms, low..=high))?;
    Ok(())
}

fn stitches(problem: &mut Problem, targets: &Targets, fabrics: &Fabrics) -> Result<(), Error> {
    let gauge = fabrics.plain;
    let wide =
        |width: Length, more: u32| gauge.count_in::<Stitches>(width)?.checked_add(more.into());
    let rib = fabrics.rib_counts()?;
    let body = wide(targets.width, SEAM_STITCHES)?;
    let neck = wide(targets.neck_width, 0)?;
    let shoulder = body.checked_sub(neck)?.checked_mul(crate::half()?)?;
    if !shoulder.is_positive() {
        let why = format!(
            "a neck {} wide leaves no shoulder on a body {} wide",
            cm(targets.neck_width),
            cm(targets.width)
        );
        return Err(Kind::CannotBe { keys: &["neck_width", "ease.chest"], why }.into());
    }
    // The width of the body is met four times by the tape measure.
    problem.stitches("body", Unknown::near(body).repeat(rib).weight(Exact::whole(4)))?;
    problem.stitches("neck", Unknown::near(neck).range(4_u32..=1_000_000))?;
    problem.stitches("shoulder", Unknown::near(shoulder).range(3_u32..=1_000_000))?;
    problem.stitches("wrist", Unknown::near(wide(targets.wrist, SEAM_STITCHES)?).repeat(rib))?;
    problem.stitches(
        "sleeve top",
        Unknown::near(wide(targets.sleeve_top, 0)?).range(2_u32..=1_000_000),
    )?;
    problem.demand(
        "shoulder, neck and shoulder make the back",
        Demand::sum([(2, "shoulder"), (1, "neck"), (-1, "body")], 0),
    )?;
    problem.demand(
        "the sleeve is shaped alike at both edges",
        Demand::same_parity(["wrist", "sleeve top"]),
    )?;
    Ok(())
}

/// Row counts are even, so that the carriage ends where it began.
fn rows(problem: &mut Problem, targets: &Targets, fabrics: &Fabrics) -> Result<(), Error> {
    let plain = |height: Length| fabrics.plain.count_in::<Rows>(height);
    let rib = |height: Length| fabrics.rib.count_in::<Rows>(height);
    let mut even = |name: &str, ideal: Exact| {
        problem.rows(name, Unknown::near(ideal).repeat(Repeat::even())).map(|_| ())
    };
    even("hem rows", rib(targets.hem)?)?;
    even("side rows", plain(targets.side()?)?)?;
    even("armhole rows", plain(targets.armhole)?)?;
    even("neck rows", plain(targets.neck_depth)?)?;
    even("cuff rows", rib(targets.cuff)?)?;
    even("sleeve rows", plain(targets.sleeve()?)?)?;
    even("neckband rows", rib(targets.neckband)?)?;
    let sloped = targets.shoulder_drop.is_positive();
    if sloped {
        even("shoulder rows", plain(targets.shoulder_drop)?)?;
    }
    let mut above_marks = vec![(1, "armhole rows"), (-1, "neck rows")];
    let mut below_shoulders = vec![(1, "neck rows")];
    if sloped {
        above_marks.push((1, "shoulder rows"));
        below_shoulders.push((-1, "shoulder rows"));
    }
    problem.demand(
        "the neck ends above the armhole marks",
        Demand::sum_within(above_marks, 2..=1_000_000),
    )?;
    problem.demand(
        "the neck begins below the shoulders",
        Demand::sum_within(below_shoulders, 2..=1_000_000),
    )?;
    Ok(())
}
