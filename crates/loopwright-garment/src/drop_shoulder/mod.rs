//! A pullover of rectangles: the sleeves are sewn to straight edges of the body, and its
//! shoulders reach down the upper arm.

mod choices;
mod counts;
mod joins;
mod neck;
mod pieces;
mod shoulder;
mod targets;

pub use choices::{Choices, Ease, Shoulders};

use crate::cautions::cautions;
use crate::draft::{Made, Nearness, knit};
use crate::{Body, Draft, EdgeRef, Error, Fabrics};
use counts::Counts;
use loopwright_pattern::Craft;
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
    choices: Choices,
}

impl DropShoulder {
    /// The pullover for a body, with the usual choices.
    #[must_use]
    pub fn new(body: Body, fabrics: Fabrics, craft: Craft) -> Self {
        Self { body, fabrics, craft, choices: Choices::usual(craft) }
    }

    /// The same pullover with other choices.
    #[must_use]
    pub fn choose(self, choices: Choices) -> Self {
        Self { choices, ..self }
    }

    /// Drafts the pieces and seams.
    ///
    /// # Errors
    /// When a measure is missing, a choice is out of range, the lengths leave no room
    /// for one another, a piece needs more needles than the bed has, or the head does
    /// not pass through the neck.
    pub fn draft(&self) -> Result<Draft, Error> {
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
        pieces.push(self.band(&maker, &pieces, &neck, &targets)?);
        Ok(Draft {
            fabrics: self.fabrics,
            seams: joins::seams(self.craft, &self.choices, &self.fabrics, neck),
            counts: counts.rounded.clone(),
            proved: counts.proved,
            outcomes: counts.outcomes(&targets, &self.fabrics)?,
            curves: vec![Nearness {
                what: "front neck, to half an ellipse",
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
    ) -> Result<Made, Error> {
        let opening = neck::Opening::measure(&knit(pieces)?, neck, &self.fabrics)?;
        opening.check_head(targets)?;
        maker.neckband(&opening)
    }
}
