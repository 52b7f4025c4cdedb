//! Shoulders: straight, by short rows, or by bind-offs in steps.

use super::counts::Counts;
use super::pieces::{knit, knit_on, shoulder_edge};
use super::{DropShoulderChoices, Shoulders};
use crate::Error;
use crate::error::Kind;
use loopwright_gauge::Stitches;
use loopwright_pattern::{Piece, Side, Step};
use loopwright_shaping::{Larger, Slope};

pub(super) struct Shoulder {
    stitches: u32,
    /// Sizes of the steps from the armhole to the neck; one for a straight shoulder.
    steps: Vec<u32>,
    how: Shoulders,
}

impl Shoulder {
    pub(super) fn new(counts: &Counts, choices: &DropShoulderChoices) -> Result<Self, Error> {
        let turns = counts.slope_rows / 2 + 1;
        if turns > counts.shoulder {
            let why = format!(
                "a shoulder of {} stitches cannot be sloped over {} rows: at most {} rows, one stitch a step; give a smaller shoulder drop",
                counts.shoulder,
                counts.slope_rows,
                2 * (counts.shoulder - 1)
            );
            return Err(Kind::CannotBe { keys: &["shoulder_drop", "neck_width"], why }.into());
        }
        let slope = Slope::builder(Stitches::new(counts.shoulder)?, turns, Larger::Last).build()?;
        Ok(Self {
            stitches: counts.shoulder,
            steps: slope.steps().map(|step| step.stitches).collect(),
            how: choices.shoulders,
        })
    }

    /// Both shoulders of the back at once, one row apart, and the neck between them.
    pub(super) fn pair(&self, piece: &mut Piece, neck: u32) -> Result<(), Error> {
        match self.how {
            Shoulders::ShortRows => self.pair_of_short_rows(piece)?,
            Shoulders::BindOff => self.pair_of_bind_offs(piece)?,
        }
        let neck = Stitches::new(neck)?;
        piece.push(Step::TakeOff { side: Side::Left, stitches: neck, edge: BACK_NECK.into() });
        Ok(())
    }

    fn pair_of_short_rows(&self, piece: &mut Piece) -> Result<(), Error> {
        if let Some((_, turns)) = self.steps.split_last().filter(|(_, turns)| !turns.is_empty()) {
            for &size in turns {
                for side in [Side::Left, Side::Right] {
                    piece.push(Step::Hold { side, stitches: Stitches::new(size)? });
                    piece.push(knit(1)?);
                }
            }
            piece.push(Step::Return);
            piece.push(knit(1)?);
        }
        for side in [Side::Left, Side::Right] {
            piece.push(self.off(side)?);
        }
        Ok(())
    }

    /// The carriage is at the right after an even row, so the right goes first.
    fn pair_of_bind_offs(&self, piece: &mut Piece) -> Result<(), Error> {
        for &size in &self.steps {
            for side in [Side::Right, Side::Left] {
                piece.push(Step::BindOff {
                    stitches: Stitches::new(size)?,
                    edge: Some(shoulder_edge(side)),
                });
                piece.push(knit(1)?);
            }
        }
        Ok(())
    }

    /// The shoulder of one side of the front after `straight` rows; the carriage is at
    /// the neck.
    pub(super) fn alone(&self, piece: &mut Piece, side: Side, straight: u32) -> Result<(), Error> {
        match self.how {
            Shoulders::ShortRows => {
                knit_on(piece, straight)?;
                self.short_rows(piece, side)
            }
            Shoulders::BindOff => self.bind_offs(piece, side, straight),
        }
    }

    fn short_rows(&self, piece: &mut Piece, side: Side) -> Result<(), Error> {
        if let Some((_, turns)) = self.steps.split_last().filter(|(_, turns)| !turns.is_empty()) {
            for &size in turns {
                piece.push(Step::Hold { side, stitches: Stitches::new(size)? });
                piece.push(knit(2)?);
            }
            piece.push(Step::Return);
            piece.push(knit(1)?);
        }
        piece.push(self.off(side)?);
        Ok(())
    }

    /// One row brings the carriage to the armhole, where the steps are bound off.
    fn bind_offs(&self, piece: &mut Piece, side: Side, straight: u32) -> Result<(), Error> {
        let mut between = straight + 1;
        for &size in &self.steps {
            knit_on(piece, between)?;
            between = 2;
            piece.push(Step::BindOff {
                stitches: Stitches::new(size)?,
                edge: Some(shoulder_edge(side)),
            });
        }
        Ok(())
    }

    fn off(&self, side: Side) -> Result<Step, Error> {
        Ok(Step::TakeOff {
            side,
            stitches: Stitches::new(self.stitches)?,
            edge: shoulder_edge(side),
        })
    }
}

pub(super) const BACK_NECK: &str = "neck stitches";
