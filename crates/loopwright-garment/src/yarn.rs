//! The yarn of a garment, from what the replay counted and the best evidence there is.

use crate::{Error, FinishedPiece, Garment};
use loopwright_gauge::Length;
use loopwright_pattern::Fabric as Knitting;
use loopwright_seams::Join;
use loopwright_yardage::{
    Estimate, Fabric, Factor, LoopLength, Relaxation, Stitch, Structure, Supply, Tally, Unravelled,
    Yarn, estimate, loop_from_gauge, unravelled,
};

/// Rows of waste yarn that carry live stitches (about four to eight in print; see the
/// tests).
const WASTE_ROWS: u64 = 8;

/// What is known of the yarn.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct YarnFacts {
    /// The yarn as it is knitted, all strands together.
    pub yarn: Yarn,
    /// How far the swatch had relaxed when its gauge was measured.
    pub relaxation: Relaxation,
    /// Counted stitches of stocking stitch that were pulled out and measured.
    pub unravelled: Vec<Unravelled>,
}

impl YarnFacts {
    /// A yarn with a washed swatch and no stitches unravelled.
    #[must_use]
    pub const fn new(yarn: Yarn) -> Self {
        Self { yarn, relaxation: Relaxation::Wet, unravelled: Vec::new() }
    }
}

/// How much yarn a garment takes.
#[derive(Clone, Debug, Eq, PartialEq)]
#[non_exhaustive]
pub struct YarnReport {
    /// Per piece, then the seams; the total; and the waste yarn apart.
    pub estimate: Estimate,
    /// The yarn in one stitch of stocking stitch, and where that comes from.
    pub plain: LoopLength,
}

impl Garment {
    /// How much yarn the garment takes: pieces and seams in one tally each, then the
    /// total.
    ///
    /// # Errors
    /// When an amount is out of bounds or cannot be held exactly.
    pub fn yarn(&self, facts: &YarnFacts) -> Result<YarnReport, Error> {
        let density = facts.yarn.resultant()?;
        let plain = self.plain_loops(facts)?;
        let rib = plain.by_factor(&Factor::tabled(Stitch::Rib)?)?;
        let supply = Supply::new(loopwright_yardage::MAIN_YARN, density)
            .fabric(&Knitting::Plain.to_string(), plain)
            .fabric(&self.fabrics.rib_fabric().to_string(), rib);
        let mut tallies: Vec<Tally> = self.pieces.iter().map(tally).collect();
        tallies.push(self.seam_tally()?);
        Ok(YarnReport { estimate: estimate(&tallies, &[supply])?, plain })
    }

    fn plain_loops(&self, facts: &YarnFacts) -> Result<LoopLength, Error> {
        if facts.unravelled.is_empty() {
            let fabric = Fabric::new(Structure::Plain, facts.relaxation);
            return Ok(loop_from_gauge(self.fabrics.plain, fabric, Some(facts.yarn.resultant()?))?);
        }
        Ok(unravelled(&facts.unravelled)?)
    }

    /// Seams that are sewn take yarn of their own.
    fn seam_tally(&self) -> Result<Tally, Error> {
        let mut tally = Tally::new("seams");
        for (plan, verdict) in self.plans.iter().zip(&self.seams.verdicts) {
            if matches!(plan.join, Join::RowSeam | Join::StitchSeam | Join::StitchToRowSeam) {
                for _ in 0..plan.times {
                    tally = tally.seam(longer(verdict.a.length.high(), verdict.b.length.high()));
                }
            }
        }
        Ok(tally)
    }
}

fn longer(one: Length, other: Length) -> Length {
    one.max(other)
}

fn tally(piece: &FinishedPiece) -> Tally {
    let copies = u64::from(piece.copies);
    let knitted = &piece.knitted;
    let name = match piece.copies {
        1 => knitted.name.clone(),
        copies => format!("{} ({copies} of them)", knitted.name),
    };
    let begun = Tally::new(&name)
        .cast_on(knitted.cast_on * copies)
        .bound_off(knitted.bound_off * copies)
        .waste(knitted.live * copies * WASTE_ROWS)
        .ends(2 * piece.copies);
    knitted
        .loops
        .iter()
        .fold(begun, |tally, (fabric, loops)| tally.stitches(&fabric.to_string(), loops * copies))
}
