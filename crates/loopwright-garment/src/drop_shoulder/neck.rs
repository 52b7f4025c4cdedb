//! The curve of the front neck, and the opening the band is picked up along.

use super::counts::{Counts, together};
use super::pieces::neck_edge;
use super::targets::{Targets, cm};
use crate::draft::{EdgeRef, FinishedPiece, line};
use crate::error::Kind;
use crate::{Error, Fabrics, half};
use loopwright_gauge::english::counted;
use loopwright_gauge::{Exact, Length, Round, Rows, Stitches};
use loopwright_joint::{AnyCount, Demand, Problem, Unknown};
use loopwright_pattern::{Along, PickUp, Side};
use loopwright_seams::{Edge, EdgeKind, PickUpGroup, PickUpLine, PickUpSpacing};
use loopwright_shaping::{AtOnce, Bend, Neck, Outline};

/// What gives a neck more rows to shape in.
const NECK_ADVICE: &str = "give a deeper or a narrower neck";
const NECK_KEYS: &[&str] = &["neck_depth", "neck_width"];

/// The staircase nearest to a half ellipse.
pub(super) struct NeckCurve {
    /// Stitches left at the centre.
    pub(super) centre: u32,
    /// Row above the centre and stitches shaped at it, for one side.
    pub(super) steps: Vec<(u32, u32)>,
    /// The largest distance from the half ellipse in any row.
    pub(super) deviation: Length,
}

impl NeckCurve {
    /// A third of the neck is left at the centre, or more if that is nearer (zaro.info:
    /// not less than a third; the rest in steps of 3, 2 and 1).
    pub(super) fn fit(counts: &Counts, fabrics: &Fabrics) -> Result<Self, Error> {
        let rows = counts.neck_rows - counts.slope_rows;
        let unit = Length::cm(1)?;
        let quarter = Outline::quarter_ellipse(unit, unit, Bend::Slowing)?;
        let neck = Neck::builder(&quarter, Stitches::new(counts.neck)?, Rows::new(rows)?)
            .centre(AtOnce::AtLeast(Stitches::new(counts.neck.div_ceil(3))?))
            .build()
            .map_err(|why| Kind::NoShape {
                what: "neck",
                why,
                advice: NECK_ADVICE,
                keys: NECK_KEYS,
            })?;
        let side = neck.side();
        Ok(Self {
            centre: neck.centre().get(),
            steps: side
                .events()
                .iter()
                .map(|event| (event.row.get(), event.stitches.get()))
                .collect(),
            deviation: side.deviation_width(fabrics.plain)?,
        })
    }

    /// Stitches shaped at each side of the centre.
    pub(super) fn each_side(&self) -> u32 {
        self.steps.iter().map(|&(_, stitches)| stitches).sum()
    }
}

/// The edge of the neck as it was knitted, in the order it is picked up along.
pub(super) struct Opening {
    stretches: Vec<(EdgeRef, Edge)>,
}

impl Opening {
    pub(super) fn measure(
        pieces: &[FinishedPiece],
        neck: &[EdgeRef],
        fabrics: &Fabrics,
    ) -> Result<Self, Error> {
        let stretch = |wanted: &EdgeRef| -> Result<_, Error> {
            Ok((wanted.clone(), line(pieces, std::slice::from_ref(wanted), fabrics)?))
        };
        Ok(Self { stretches: neck.iter().map(stretch).collect::<Result<_, _>>()? })
    }

    fn length(&self) -> Result<Length, Error> {
        let mut sum = Length::ZERO;
        for (_, edge) in &self.stretches {
            sum = sum.checked_add(edge.length().low())?;
        }
        Ok(sum)
    }

    /// The neck, stretched, must pass the head (stylishknitting.com and others).
    pub(super) fn check_head(&self, targets: &Targets) -> Result<(), Error> {
        let opening = self.length()?;
        let stretched = opening.scaled(Exact::ONE.checked_add(targets.stretch)?)?;
        if stretched >= targets.head {
            return Ok(());
        }
        let missing = targets
            .head
            .scaled(Exact::ONE.checked_div(Exact::ONE.checked_add(targets.stretch)?)?)?;
        let wider = missing.checked_sub(opening)?.scaled(half()?)?;
        let keys: &[&str] = &["neck_width", "neck_depth", "neck_stretch"];
        let why = format!(
            "the neck opening of {} stretches to {}, but the head is {}; make the neck about {} wider, or deeper, or say that it stretches more",
            cm(opening),
            cm(stretched),
            cm(targets.head),
            cm(wider)
        );
        Err(Kind::CannotBe { keys, why }.into())
    }

    /// Stitches of the neck that wait on waste yarn or a holder.
    fn waiting(&self) -> u32 {
        self.stretches.iter().filter_map(|(_, edge)| live(edge)).sum()
    }

    /// Why a band of so many stitches cannot go round this neck.
    pub(super) fn misfit(&self, band: Exact, fabrics: &Fabrics) -> Error {
        let long = |stitches: Exact| {
            let length = fabrics.rib.per_mm::<Stitches>()?;
            Length::from_millimetres(stitches.checked_div(length)?)
        };
        let told = |length: Result<Length, _>| length.map_or_else(|_| "too long".into(), cm);
        let whole = band.to_whole(Round::HalfUp).unwrap_or(0);
        Error::from(Kind::BandMisfit {
            band: counted(whole, "stitch").to_string(),
            long: told(long(band)),
            neck: self.length().map_or_else(|_| "too long".into(), cm),
            waiting: counted(self.waiting(), "stitch").to_string(),
            remedy: "give a rib with a gauge nearer to the plain one".into(),
        })
    }

    /// Why the places of a neck edge do not take the stitches of the band: because of the
    /// rib, or because they are too few for any fabric.
    fn no_places(&self, edge: &Edge, band: Exact, fabrics: &Fabrics, why: &Error) -> Error {
        // What a rib at the plain gauge takes at one side, with a repeat to spare.
        let side = self.length().and_then(|neck| {
            let band =
                fabrics.plain.count_in::<Stitches>(neck)?.checked_sub(self.waiting().into())?;
            Ok(band.checked_mul(half()?)?.to_whole(Round::Ceil)?)
        });
        let side = side.ok().and_then(|side| u32::try_from(side).ok()).unwrap_or(1).max(1);
        let plain = side.saturating_add(fabrics.rib_stitches());
        if places(edge, plain, fabrics).is_ok() {
            return self.misfit(band, fabrics);
        }
        let why = format!(
            "a front neck with so few rows cannot take the stitches of a band at its sides: {why}; make the neck deeper, or give a gauge with more rows"
        );
        Kind::CannotBe { keys: NECK_KEYS, why }.into()
    }

    /// Live stitches one for one, and along the sloped edges what the band's length
    /// wants beyond them, alike at both.
    pub(super) fn picked_up(&self, fabrics: &Fabrics) -> Result<Vec<PickUp>, Error> {
        let waiting = self.waiting();
        let band = fabrics.rib.count_in::<Stitches>(self.length()?)?;
        let side = band.checked_sub(waiting.into())?.checked_mul(half()?)?.max(Exact::ONE);
        let rib = fabrics.rib_counts()?;
        let mut problem = Problem::new();
        problem.stitches("band", Unknown::near(band).repeat(rib))?;
        problem.stitches("one side", Unknown::near(side).range(1_u32..=1_000_000))?;
        problem.stitches("other side", Unknown::near(side).range(1_u32..=1_000_000))?;
        let sides = [(1, "one side"), (1, "other side"), (-1, "band")];
        problem.demand("the band is the neck", Demand::sum(sides, -i64::from(waiting)))?;
        problem.demand(
            "both sides are alike",
            Demand::sum_within([(1, "one side"), (-1, "other side")], 0..=1),
        )?;
        let solution = together(&problem, "the neckband cannot be picked up")?;
        let mut sides = ["one side", "other side"].into_iter();
        let pick = |(wanted, edge): &(EdgeRef, Edge)| -> Result<PickUp, Error> {
            let (stitches, groups) = if let Some(stitches) = live(edge) {
                (stitches, Vec::new())
            } else {
                let stitches =
                    sides.next().and_then(|side| solution.count(side)).map_or(1, AnyCount::get);
                let picked = places(edge, stitches, fabrics);
                (stitches, picked.map_err(|why| self.no_places(edge, band, fabrics, &why))?)
            };
            // Along the needles from left to right the left edge goes down to the centre.
            let along =
                if wanted.edge == neck_edge(Side::Left) { Along::Backward } else { Along::Forward };
            let (piece, edge) = (wanted.piece.clone(), wanted.edge.clone());
            let stitches = Stitches::new(stitches)?;
            Ok(PickUp { piece, edge, stitches, groups, along, stretch: None })
        };
        self.stretches.iter().map(pick).collect()
    }
}

/// The stitches of an edge that waits on waste yarn or a holder.
fn live(edge: &Edge) -> Option<u32> {
    (edge.kind() == EdgeKind::Live).then(|| edge.stitches().get())
}

/// Which places of a sloped edge are picked up, evenly from end to end.
fn places(edge: &Edge, stitches: u32, fabrics: &Fabrics) -> Result<Vec<PickUpGroup>, Error> {
    let line = PickUpLine::new(fabrics.rib).along(edge.clone());
    let picked = line.place(Stitches::new(stitches)?, PickUpSpacing::Half)?;
    Ok(picked.into_iter().flat_map(|picked| picked.groups).collect())
}
