//! A pullover of rectangles: the sleeves are sewn to straight edges of the body, and its
//! shoulders reach down the upper arm.

mod choices;
mod counts;
mod joins;
mod neck;
mod pieces;
mod shoulder;
mod targets;

pub use choices::{DropShoulderChoices, DropShoulderEase, Shoulders};

use crate::cautions::cautions;
use crate::draft::{Made, Nearness, fit, knit};
use crate::error::Kind;
use crate::{Body, Draft, EdgeRef, Error, Fabrics, SeamPlan};
use counts::Counts;
use loopwright_gauge::{Exact, Gauge, Length, Round, Rows, Stitches};
use loopwright_pattern::Craft;
use loopwright_seams::Join;
use neck::NeckCurve;
use pieces::Maker;
use targets::Targets;

/// A drop-shoulder pullover: back, front with a shaped neck, two tapered sleeves,
/// ribbed hem and cuffs, and a neckband.
///
/// It needs the chest, the neck-to-wrist length (or the arm length and the cross back),
/// the upper arm, the wrist, the body length and the head; with the cross back it also
/// checks that the shoulders do drop. The body is half the chest with its ease, the
/// armhole half the upper arm with its ease, and the sleeve what the body leaves of the
/// neck-to-wrist length (the last from designyourownsweater.blogspot.com, January 2007).
#[derive(Clone, Debug)]
pub struct DropShoulder {
    body: Body,
    fabrics: Fabrics,
    craft: Craft,
    choices: DropShoulderChoices,
}

impl DropShoulder {
    /// The pullover for a body, with the usual choices.
    #[must_use]
    pub fn new(body: Body, fabrics: Fabrics, craft: Craft) -> Self {
        Self { body, fabrics, craft, choices: DropShoulderChoices::usual(craft) }
    }

    /// The same pullover with other choices.
    #[must_use]
    pub fn choose(self, choices: DropShoulderChoices) -> Self {
        Self { choices, ..self }
    }

    /// Drafts the pieces and seams.
    ///
    /// # Errors
    /// When a measure is missing, a choice is out of range, the lengths leave no room
    /// for one another, a piece needs more needles than the bed has, or the head does
    /// not pass through the neck.
    pub fn draft(&self) -> Result<Draft, Error> {
        self.draft_once().map_err(|mut why| {
            if let Kind::BandMisfit { remedy, .. } = &mut *why.0 {
                *remedy = self.rib_that_fits().unwrap_or_else(|| core::mem::take(remedy));
            }
            why
        })
    }

    /// The rib's gauge nearest to the one given with which all fits, found by trying, in
    /// steps of an eighth of the way to the plain gauge.
    fn rib_that_fits(&self) -> Option<String> {
        let span = Length::cm(10).ok()?;
        let (rib, plain) = (self.fabrics.rib, self.fabrics.plain);
        let (from, to) =
            (rib.count_in::<Stitches>(span).ok()?, plain.count_in::<Stitches>(span).ok()?);
        (1..=8).find_map(|eighths| {
            let part = to.checked_sub(from).ok()?.checked_mul(Exact::new(eighths, 8).ok()?).ok()?;
            let half = Exact::new(1, 2).ok()?;
            let stitches = from.checked_add(part).ok()?.snapped(half, Round::HalfUp).ok()?;
            let gauge = Gauge::new(stitches, rib.count_in::<Rows>(span).ok()?, span).ok()?;
            let fabrics = self.fabrics.ribbed(self.fabrics.rib_repeat, gauge);
            let tried = Self { fabrics, ..self.clone() };
            tried.draft_once().and_then(Draft::finish).ok()?;
            Some(format!("a rib of {} stitches to 10 cm would do", stitches.decimal(1)))
        })
    }

    fn draft_once(&self) -> Result<Draft, Error> {
        let targets = Targets::new(&self.body, &self.choices)?;
        let counts = Counts::round(&targets, &self.fabrics, &self.choices)?;
        let curve = NeckCurve::fit(&counts, &self.fabrics)?;
        let maker = Maker {
            craft: self.craft,
            fabrics: &self.fabrics,
            counts: &counts,
            choices: &self.choices,
        };
        let mut pieces = vec![maker.back()?, maker.front(&curve)?, maker.sleeve()?];
        let neck = joins::neck_edges(self.craft);
        let seams = joins::seams(self.craft, &self.choices, &self.fabrics, neck.clone());
        pieces.push(self.band(&maker, &pieces, &neck, &targets, &seams)?);
        Ok(Draft {
            fabrics: self.fabrics,
            seams,
            counts: counts.rounded.clone(),
            proved: counts.proved,
            outcomes: counts.outcomes(&targets, &self.fabrics)?,
            curves: vec![Nearness {
                what: "front neck, to half an ellipse".into(),
                most: curve.deviation,
            }],
            pieces,
            cautions: cautions(&self.body),
        })
    }

    /// The neckband, picked up along the neck as it was really knitted.
    fn band(
        &self,
        maker: &Maker<'_>,
        pieces: &[Made],
        neck: &[EdgeRef],
        targets: &Targets,
        seams: &[SeamPlan],
    ) -> Result<Made, Error> {
        let mut knitted = knit(pieces)?;
        let opening = neck::Opening::measure(&knitted, neck, &self.fabrics)?;
        opening.check_head(targets)?;
        let band = maker.neckband(&opening)?;
        knitted.extend(knit(std::slice::from_ref(&band))?);
        let pick_up: Vec<SeamPlan> =
            seams.iter().filter(|seam| seam.join == Join::PickUp).cloned().collect();
        if !fit(&knitted, &pick_up, &self.fabrics)? {
            let stitches = knitted.last().map_or(0, |band| u64::from(band.knitted.picked_up.get()));
            return Err(opening.misfit(Exact::try_from(stitches)?, &self.fabrics));
        }
        Ok(band)
    }
}
