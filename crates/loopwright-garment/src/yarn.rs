//! The yarn of a garment, from what the replay counted and the best evidence there is.

use crate::{Error, FinishedPiece, Garment};
use loopwright_pattern::Fabric as Knitting;
use loopwright_seams::Join;
use loopwright_yardage::{
    Agreement, Amount, Estimate, Factor, LoopLength, MAIN_YARN, Margin, Package, Purchase,
    RelaxationState, RelaxedFabric, StitchKind, Stitches, Structure, Supply, Tally, Unravelled,
    Weighed, Yarn, YarnQuantity, buy, estimate, loop_from_gauge, unravelled, weighed,
};

/// What is known of the yarn.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct YarnFacts {
    /// The yarn as it is knitted, all strands together.
    pub yarn: Yarn,
    /// How far the swatch had relaxed when its gauge was measured.
    pub relaxation: RelaxationState,
    /// Counted stitches of stocking stitch that were pulled out and measured.
    pub unravelled: Vec<Unravelled>,
    /// Counted stitches of stocking stitch that were weighed.
    pub weighed: Vec<Weighed>,
    /// How the yarn is sold.
    pub package: Option<Package>,
    /// What is bought beyond the amount.
    pub margin: Margin,
    /// What there is already.
    pub owned: Vec<YarnQuantity>,
}

impl YarnFacts {
    /// A yarn with a washed swatch and no stitches unravelled.
    #[must_use]
    pub const fn new(yarn: Yarn) -> Self {
        Self {
            yarn,
            relaxation: RelaxationState::Wet,
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
        let rib = plain.by_factor(&Factor::tabled(StitchKind::Rib)?)?;
        let supply = Supply::new(MAIN_YARN, density)
            .fabric(&Knitting::Plain.to_string(), plain)
            .fabric(&self.fabrics.rib_fabric().to_string(), rib);
        let tallies: Result<Vec<Tally>, Error> = self.pieces.iter().map(tally).collect();
        let mut tallies = tallies?;
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
        let fabric = RelaxedFabric::new(Structure::Plain, facts.relaxation);
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

fn tally(piece: &FinishedPiece) -> Result<Tally, Error> {
    let knitted = &piece.knitted;
    let name = match piece.copies {
        1 => knitted.name.to_string(),
        copies => format!("{} ({copies} of them)", knitted.name),
    };
    let count = |n: u64| Stitches::try_from(n).map_err(loopwright_yardage::Error::from);
    // Stitches hung on needles take no yarn of their own; those picked up by hand do.
    let picked_up = if knitted.craft.is_machine() { Stitches::ZERO } else { knitted.picked_up };
    let mut one = Tally::new(&name)
        .cast_on(knitted.cast_on)
        .cast_on(picked_up)
        .bound_off(knitted.bound_off)
        .waste(count(knitted.waste)?)
        .ends(knitted.ends);
    for of in &knitted.loops {
        one = one.stitches(&of.fabric.to_string(), count(of.loops)?);
    }
    Ok(one.times(piece.copies))
}
