//! The joint problem of the pullover: its counts, what a tape measures of them, and what
//! ties them together.

use super::counts::SEAM_STITCHES;
use super::targets::{Targets, cm};
use super::{Choices, Shoulders};
use crate::error::Kind;
use crate::{Error, Fabrics, half};
use loopwright_gauge::english::list;
use loopwright_gauge::{Exact, Gauge, Length, Repeat, Rows, Stitches};
use loopwright_joint::{Conflict, Demand, Key, Problem, Solution, TapeMeasure, Unknown};

pub(super) struct Keys {
    pub(super) body: Key<Stitches>,
    pub(super) neck: Key<Stitches>,
    pub(super) shoulder: Key<Stitches>,
    pub(super) wrist: Key<Stitches>,
    pub(super) sleeve_top: Key<Stitches>,
    pub(super) hem: Key<Rows>,
    pub(super) side: Key<Rows>,
    pub(super) armhole: Key<Rows>,
    pub(super) neck_depth: Key<Rows>,
    pub(super) cuff: Key<Rows>,
    pub(super) sleeve: Key<Rows>,
    pub(super) band: Key<Rows>,
    /// Rows of the sloped shoulders, if they are sloped.
    pub(super) slope: Option<Key<Rows>>,
}

/// What no tape measures by itself: it gives way to what is measured.
const SLIGHT: Exact = Exact::literal(1, 4);
/// A width that is met all round the body.
const ROUND: Exact = Exact::literal(8, 1);
/// A length from end to end.
const WHOLE: Exact = Exact::literal(6, 1);

/// The counts, and the keys they are read by.
pub(super) fn rounded(
    targets: &Targets,
    fabrics: &Fabrics,
    choices: &Choices,
) -> Result<(Keys, Solution), Error> {
    let mut problem = Problem::new();
    let keys = keys(&mut problem, targets, fabrics)?;
    demand(&mut problem, &keys)?;
    measure(&mut problem, &keys, targets)?;
    sleeve_round_armhole(&mut problem, &keys, targets, fabrics, choices)?;
    let solution = problem.solve()?.into_result().map_err(|conflict| refusal(&conflict))?;
    Ok((keys, solution))
}

fn keys(problem: &mut Problem, targets: &Targets, fabrics: &Fabrics) -> Result<Keys, Error> {
    let rib = fabrics.rib_counts()?;
    let shoulder = targets.width.checked_sub(targets.neck_width)?.scaled(half()?)?;
    if !shoulder.is_positive() {
        let why = format!(
            "a neck {} wide leaves no shoulder on a body {} wide",
            cm(targets.neck_width),
            cm(targets.width)
        );
        return Err(Kind::CannotBe(why).into());
    }
    let wide = |width: Length| Unknown::near_length(width, fabrics.plain);
    let seamed = |width: Length| wide(width).hidden(SEAM_STITCHES);
    let mut stitches = |name: &str, unknown: Unknown| problem.stitches(name, unknown);
    let body = stitches("body", seamed(targets.width).repeat(rib).weight(ROUND))?;
    let neck = stitches("neck", wide(targets.neck_width).range(4..=MOST))?;
    let shoulder = stitches("shoulder", wide(shoulder).range(3..=MOST).hidden(1_u32))?;
    let wrist = stitches("wrist", seamed(targets.wrist).repeat(rib))?;
    let top = seamed(targets.sleeve_top).range(4..=MOST);
    let sleeve_top = stitches("sleeve top", top.weight(Exact::whole(2)))?;
    // Row counts are even, so that the carriage ends where it began.
    let mut even = |name: &str, height: Length, gauge: Gauge, weight: Exact| {
        let unknown = Unknown::near_length(height, gauge).repeat(Repeat::even()).weight(weight);
        problem.rows(name, unknown)
    };
    let (plain, ribbed, one) = (fabrics.plain, fabrics.rib, Exact::ONE);
    let drop = targets.shoulder_drop;
    Ok(Keys {
        hem: even("hem rows", targets.hem, ribbed, one)?,
        side: even("side rows", targets.side()?, plain, SLIGHT)?,
        armhole: even("armhole rows", targets.armhole, plain, one)?,
        neck_depth: even("neck rows", targets.neck_depth, plain, one)?,
        cuff: even("cuff rows", targets.cuff, ribbed, one)?,
        sleeve: even("sleeve rows", targets.sleeve()?, plain, SLIGHT)?,
        band: even("neckband rows", targets.neckband, ribbed, one)?,
        slope: if drop.is_positive() {
            Some(even("shoulder rows", drop, plain, one)?)
        } else {
            None
        },
        body,
        neck,
        shoulder,
        wrist,
        sleeve_top,
    })
}

const MOST: u32 = 1_000_000;

fn demand(problem: &mut Problem, keys: &Keys) -> Result<(), Error> {
    let across = [(2, &keys.shoulder), (1, &keys.neck), (-1, &keys.body)];
    problem.demand("shoulder, neck and shoulder make the back", Demand::sum(across, 0))?;
    let alike = Demand::same_parity([&keys.wrist, &keys.sleeve_top]);
    problem.demand("the sleeve is shaped alike at both edges", alike)?;
    let slope = keys.slope.iter();
    let above = [(1, &keys.armhole), (-1, &keys.neck_depth)];
    let above = above.into_iter().chain(slope.clone().map(|slope| (1, slope)));
    problem.demand(ABOVE_MARKS, Demand::at_least(above, 2))?;
    let below = [(1, &keys.neck_depth)].into_iter().chain(slope.map(|slope| (-1, slope)));
    problem.demand(BELOW_SHOULDERS, Demand::at_least(below, 2))?;
    Ok(())
}

fn measure(problem: &mut Problem, keys: &Keys, targets: &Targets) -> Result<(), Error> {
    let body = [(1, &keys.hem), (1, &keys.side), (1, &keys.armhole)];
    let body = body.into_iter().chain(keys.slope.iter().map(|slope| (1, slope)));
    let body = TapeMeasure::sum(body, targets.body_length).weight(WHOLE);
    problem.measure("body, hem to neck", body)?;
    let sleeve = [(1, &keys.cuff), (1, &keys.sleeve)];
    let sleeve = TapeMeasure::sum(sleeve, targets.sleeve_length).weight(WHOLE);
    problem.measure("sleeve, cuff to shoulder seam", sleeve)?;
    Ok(())
}

/// The top of the sleeve, without its seam stitches, goes along both armhole edges as
/// nearly as may be, and within two stitches or a sixtieth of its length, whichever is
/// more: so much is eased in (the seam allows a fiftieth of the length knitted).
///
/// A sloped shoulder adds rows to the armhole edges: closing rows after short rows, two
/// at one sleeve and three at the other; the row to the far side before bind-offs, one
/// and two.
fn sleeve_round_armhole(
    problem: &mut Problem,
    keys: &Keys,
    targets: &Targets,
    fabrics: &Fabrics,
    choices: &Choices,
) -> Result<(), Error> {
    let halves = match choices.shoulders {
        Shoulders::BindOff => 3,
        Shoulders::ShortRows if targets.shoulder_drop.is_positive() => 5,
        Shoulders::ShortRows => 0,
    };
    let row = fabrics.plain.length_of(Rows::ONE)?;
    let stitch = fabrics.plain.length_of(Stitches::ONE)?;
    let more = row.scaled(Exact::new(halves, 2)?)?;
    let eased = targets.sleeve_top.scaled(Exact::new(1, 60)?)?.max(stitch.scaled(Exact::whole(2))?);
    let tolerance = eased.max(row).checked_sub(row.scaled(half()?)?)?;
    let terms = [(1, keys.sleeve_top.name()), (-2, keys.armhole.name())];
    let measure = TapeMeasure::sum(terms, more).weight(WHOLE).tolerance(tolerance);
    problem.measure(ROUND_ARMHOLE, measure)?;
    Ok(())
}

const ABOVE_MARKS: &str = "the neck ends above the armhole marks";
const BELOW_SHOULDERS: &str = "the neck begins below the shoulders";
const ROUND_ARMHOLE: &str = "the sleeve goes round the armhole";

/// What cannot hold, and which keys of the plan would mend it.
fn refusal(conflict: &Conflict) -> Error {
    let mend = |demand: &str| match demand {
        ABOVE_MARKS => Some("a smaller neck_depth"),
        BELOW_SHOULDERS => Some("a smaller shoulder_drop"),
        ROUND_ARMHOLE => Some("another ease.upper_arm"),
        _ => None,
    };
    let mends: Vec<&str> = conflict.demands().filter_map(mend).collect();
    let mends = if mends.is_empty() { vec!["other lengths"] } else { mends };
    let demands = list(conflict.demands().map(|demand| format!("{demand:?}")), "and");
    let why = format!(
        "the counts cannot be rounded together: {demands} cannot all hold; give {}",
        list(mends, "or")
    );
    Kind::CannotBe(why).into()
}
