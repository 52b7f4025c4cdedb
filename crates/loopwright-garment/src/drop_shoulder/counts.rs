//! Every count of the pullover, rounded together.

use super::Choices;
use super::rounding::{Keys, rounded};
use super::targets::Targets;
use crate::draft::Outcome;
use crate::{Error, Fabrics};
use loopwright_gauge::{Exact, Length, LengthRange, Round, Rows, Stitches};
use loopwright_joint::{RoundedCount, Solution};

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
        choices: &Choices,
    ) -> Result<Self, Error> {
        let (keys, solution) = rounded(targets, fabrics, choices)?;
        Self::read(&keys, &solution, fabrics, choices)
    }

    fn read(
        keys: &Keys,
        solution: &Solution,
        fabrics: &Fabrics,
        choices: &Choices,
    ) -> Result<Self, Error> {
        let plain = fabrics.plain.rows_in(choices.sleeve_plain)?.to_whole(Round::HalfUp)?;
        Ok(Self {
            body: solution[&keys.body].get(),
            neck: solution[&keys.neck].get(),
            shoulder: solution[&keys.shoulder].get(),
            wrist: solution[&keys.wrist].get(),
            sleeve_top: solution[&keys.sleeve_top].get(),
            hem_rows: solution[&keys.hem].get(),
            side_rows: solution[&keys.side].get(),
            armhole_rows: solution[&keys.armhole].get(),
            slope_rows: keys.slope.as_ref().map_or(0, |slope| solution[slope].get()),
            neck_rows: solution[&keys.neck_depth].get(),
            cuff_rows: solution[&keys.cuff].get(),
            sleeve_rows: solution[&keys.sleeve].get(),
            sleeve_plain_rows: Rows::try_from(plain)?.get(),
            band_rows: solution[&keys.band].get(),
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
        let wide = |stitches: u32| Finished::wide(fabrics, stitches);
        let tall = |rows: u32| Finished::tall(fabrics, rows);
        let rib =
            |rows: u32| Ok::<_, Error>(Finished::exactly(fabrics.rib.height_of(Rows::new(rows)?)?));
        let sleeve = tall(self.sleeve_rows)?.and(rib(self.cuff_rows)?)?;
        let body = tall(self.rows_to_shoulder() + self.slope_rows)?.and(rib(self.hem_rows)?)?;
        let half_chest = wide(self.body - SEAM_STITCHES)?;
        let outcome = |what, wanted, finished: Finished| finished.outcome(what, wanted);
        Ok(vec![
            outcome(
                "chest, all round",
                targets.width.scaled(Exact::whole(2))?,
                half_chest.and(half_chest)?,
            )?,
            outcome("body, hem to neck", targets.body_length, body)?,
            outcome("armhole depth", targets.armhole, tall(self.armhole_rows)?)?,
            outcome("neck width", targets.neck_width, wide(self.neck)?)?,
            outcome("front neck depth", targets.neck_depth, tall(self.neck_rows)?)?,
            outcome("sleeve, cuff to shoulder seam", targets.sleeve_length, sleeve)?,
            outcome(
                "sleeve top, all round",
                targets.sleeve_top,
                wide(self.sleeve_top - SEAM_STITCHES)?,
            )?,
            outcome("wrist, all round", targets.wrist, wide(self.wrist - SEAM_STITCHES)?)?,
        ])
    }
}

/// A finished length, with the least and the most the swatch allows.
#[derive(Clone, Copy)]
struct Finished {
    given: Length,
    low: Length,
    high: Length,
}

impl Finished {
    fn wide(fabrics: &Fabrics, stitches: u32) -> Result<Self, Error> {
        let stitches = Stitches::new(stitches)?;
        let range = fabrics.measured.width_of(stitches)?;
        Ok(Self { given: fabrics.plain.width_of(stitches)?, low: range.low(), high: range.high() })
    }

    fn tall(fabrics: &Fabrics, rows: u32) -> Result<Self, Error> {
        let rows = Rows::new(rows)?;
        let range = fabrics.measured.height_of(rows)?;
        Ok(Self { given: fabrics.plain.height_of(rows)?, low: range.low(), high: range.high() })
    }

    const fn exactly(length: Length) -> Self {
        Self { given: length, low: length, high: length }
    }

    fn and(self, other: Self) -> Result<Self, Error> {
        Ok(Self {
            given: self.given.checked_add(other.given)?,
            low: self.low.checked_add(other.low)?,
            high: self.high.checked_add(other.high)?,
        })
    }

    fn outcome(self, what: &'static str, wanted: Length) -> Result<Outcome, Error> {
        Ok(Outcome {
            what,
            wanted,
            given: self.given,
            range: LengthRange::new(self.low, self.high)?,
        })
    }
}
