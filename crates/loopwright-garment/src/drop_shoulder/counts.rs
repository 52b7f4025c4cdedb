//! Every count of the pullover, rounded together.

use super::Choices;
use super::rounding::{Keys, rounded};
use super::targets::Targets;
use crate::draft::Outcome;
use crate::{Error, Fabrics};
use loopwright_gauge::{Exact, Length, Repeat, Round, Rows, Spread, Stitches};
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
            sleeve_plain_rows: fabrics
                .plain
                .fit::<Rows>(choices.sleeve_plain, Repeat::any(), Round::HalfUp)?
                .count
                .get(),
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
            |rows: u32| Ok::<_, Error>(Finished::exactly(fabrics.rib.length_of(Rows::new(rows)?)?));
        let sleeve = tall(self.sleeve_rows)?.and(rib(self.cuff_rows)?)?;
        let body = tall(self.rows_to_shoulder() + self.slope_rows)?.and(rib(self.hem_rows)?)?;
        let half_chest = wide(self.body - SEAM_STITCHES)?;
        let outcome = |what, wanted, finished: Finished| finished.outcome(what, wanted);
        Ok(vec![
            outcome(
                "chest, all round",
                targets.width.scaled(Exact::whole(2))?,
                half_chest.and(half_chest)?,
            ),
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

/// A finished length, with the least and the most the swatch allows.
#[derive(Clone, Copy)]
struct Finished(Spread<Length>);

impl Finished {
    fn wide(fabrics: &Fabrics, stitches: u32) -> Result<Self, Error> {
        Ok(Self(fabrics.measured.length_of(Stitches::new(stitches)?)?))
    }

    fn tall(fabrics: &Fabrics, rows: u32) -> Result<Self, Error> {
        Ok(Self(fabrics.measured.length_of(Rows::new(rows)?)?))
    }

    const fn exactly(length: Length) -> Self {
        Self(Spread::exactly(length))
    }

    fn and(self, other: Self) -> Result<Self, Error> {
        let ([low, likely, high], [more_low, more, more_high]) = (self.0.parts(), other.0.parts());
        Ok(Self(Spread::new(
            low.checked_add(more_low)?,
            likely.checked_add(more)?,
            high.checked_add(more_high)?,
        )?))
    }

    const fn outcome(self, what: &'static str, wanted: Length) -> Outcome {
        Outcome { what, wanted, given: self.0.likely(), range: self.0 }
    }
}
