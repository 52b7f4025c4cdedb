//! The yarn of a garment, from what the replay counted and the best evidence there is.

use crate::{Error, FinishedPiece, Garment};
use loopwright_pattern::Fabric as Knitting;
use loopwright_seams::Join;
use loopwright_yardage::{
    Agreement, Amount, Estimate, Fabric, Factor, LoopLength, MAIN_YARN, Margin, Measure, Package,
    Purchase, Relaxation, Stitch, Structure, Supply, Tally, Unravelled, Weighed, Yarn, buy,
    estimate, loop_from_gauge, unravelled, weighed,
};

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
    /// Counted stitches of stocking stitch that were weighed.
    pub weighed: Vec<Weighed>,
    /// How the yarn is sold.
    pub package: Option<Package>,
    /// What is bought beyond the amount.
    pub margin: Margin,
    /// What there is already.
    pub owned: Vec<Measure>,
}

impl YarnFacts {
    /// A yarn with a washed swatch and no stitches unravelled.
    #[must_use]
    pub const fn new(yarn: Yarn) -> Self {
        Self {
            yarn,
            relaxation: Relaxation::Wet,
            unravelled: Vec::new(),
            weighed: Vec::new(),
            package: None,
            margin: Margin::Nothing,
            owned: Vec::new(),
        }
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
    /// How the other evidence agrees with that, the gauge last.
    pub agreements: Vec<Agreement>,
    /// What to buy, where the facts say how the yarn is sold.
    pub purchase: Option<Purchase>,
}

impl YarnReport {
    /// The yarn of the whole garment, without the waste yarn.
    #[must_use]
    pub fn total(&self) -> Amount {
        self.estimate.total(MAIN_YARN).copied().unwrap_or(Amount::ZERO)
    }
}

impl Garment {
    /// How much yarn the garment takes: pieces and seams in one tally each, then the
    /// total.
    ///
    /// # Errors
    /// When an amount is out of bounds or cannot be held exactly.
    pub fn yarn(&self, facts: &YarnFacts) -> Result<YarnReport, Error> {
        let density = facts.yarn.resultant()?;
        let (plain, agreements) = self.plain_loops(facts)?;
        let rib = plain.by_factor(&Factor::tabled(Stitch::Rib)?)?;
        let supply = Supply::new(MAIN_YARN, density)
            .fabric(&Knitting::Plain.to_string(), plain)
            .fabric(&self.fabrics.rib_fabric().to_string(), rib);
        let mut tallies: Vec<Tally> = self.pieces.iter().map(tally).collect();
        tallies.push(self.seam_tally());
        let estimate = estimate(&tallies, &[supply])?;
        let mut report = YarnReport { estimate, plain, agreements, purchase: None };
        if let Some(package) = &facts.package {
            report.purchase =
                Some(buy(&report.total(), density, package, facts.margin, &facts.owned)?);
        }
        Ok(report)
    }

    /// The most direct finding on a stitch of stocking stitch, and how the others agree.
    fn plain_loops(&self, facts: &YarnFacts) -> Result<(LoopLength, Vec<Agreement>), Error> {
        let density = facts.yarn.resultant()?;
        let mut findings = Vec::new();
        if !facts.unravelled.is_empty() {
            findings.push(unravelled(&facts.unravelled)?);
        }
        for swatch in &facts.weighed {
            findings.push(weighed(swatch, density)?);
        }
        let fabric = Fabric::new(Structure::Plain, facts.relaxation);
        findings.push(loop_from_gauge(self.fabrics.measured, fabric, Some(density))?);
        Ok(LoopLength::best(&findings)?)
    }

    /// Seams that are sewn take yarn of their own.
    fn seam_tally(&self) -> Tally {
        let mut tally = Tally::new("seams");
        for (plan, verdict) in self.plans.iter().zip(&self.seams.verdicts) {
            if matches!(plan.join, Join::RowSeam | Join::StitchSeam | Join::StitchToRowSeam) {
                let length = verdict.a.length.high().max(verdict.b.length.high());
                tally = tally.seams(length, plan.times);
            }
        }
        tally
    }
}

fn tally(piece: &FinishedPiece) -> Tally {
    let copies = u64::from(piece.copies);
    let knitted = &piece.knitted;
    let name = match piece.copies {
        1 => knitted.name.to_string(),
        copies => format!("{} ({copies} of them)", knitted.name),
    };
    let all = |n: u64| n.saturating_mul(copies);
    // Stitches hung on needles take no yarn of their own; those picked up by hand do.
    let picked_up = if knitted.craft.is_machine() { 0 } else { knitted.picked_up.get() };
    let on = u64::from(knitted.cast_on.get()) + u64::from(picked_up);
    let begun = Tally::new(&name)
        .cast_on(all(on))
        .bound_off(all(knitted.bound_off.get().into()))
        .waste(all(knitted.waste))
        .ends(knitted.ends.saturating_mul(piece.copies));
    knitted
        .loops
        .iter()
        .fold(begun, |tally, of| tally.stitches(&of.fabric.to_string(), all(of.loops)))
}
