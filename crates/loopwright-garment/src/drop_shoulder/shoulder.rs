//! Shoulders: straight, by short rows, or by bind-offs in steps.

use super::counts::Counts;
use super::pieces::{Half, knit, shoulder_edge};
use super::{DropShoulderChoices, Shoulders};
use crate::Error;
use crate::error::Kind;
use loopwright_gauge::Stitches;
use loopwright_pattern::{BindOff, Name, Piece, Side, Step};
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
            steps: slope.steps().map(|step| step.stitches.get()).collect(),
            how: choices.shoulders,
        })
    }

    /// Both shoulders of the back at once, one row apart, and the neck between them. The
    /// carriage is at one side.
    pub(super) fn pair(&self, piece: &mut Piece, neck: u32, carriage: Side) -> Result<(), Error> {
        match self.how {
            Shoulders::ShortRows => self.pair_of_short_rows(piece, carriage)?,
            Shoulders::BindOff => self.pair_of_bind_offs(piece, carriage)?,
        }
        let neck = Stitches::new(neck)?;
        piece.push(Step::TakeOff { side: Side::Left, stitches: neck, edge: BACK_NECK });
        Ok(())
    }

    /// The side opposite the carriage is held first. Two rows close the turns: the side
    /// that the carriage travels to comes back first, then the other.
    fn pair_of_short_rows(&self, piece: &mut Piece, carriage: Side) -> Result<(), Error> {
        let sides = [carriage.other(), carriage];
        if let Some((_, turns)) = self.turns() {
            for &size in turns {
                for side in sides {
                    piece.push(Step::Hold { side, stitches: Stitches::new(size)? });
                    piece.push(knit(1)?);
                }
            }
            let stitches = Stitches::new(turns.iter().sum())?;
            for side in sides {
                piece.push(Step::ReturnSome { side, stitches });
                piece.push(knit(1)?);
            }
        }
        piece.push(Step::Cut);
        for side in [Side::Left, Side::Right] {
            piece.push(self.off(side)?);
        }
        Ok(())
    }

    /// The last step of a slope, and the turns before it, if there are any.
    fn turns(&self) -> Option<(&u32, &[u32])> {
        self.steps.split_last().filter(|(_, turns)| !turns.is_empty())
    }

    /// The side of the carriage goes first.
    fn pair_of_bind_offs(&self, piece: &mut Piece, carriage: Side) -> Result<(), Error> {
        for &size in &self.steps {
            for side in [carriage, carriage.other()] {
                piece.push(bind_off(size, side)?);
                piece.push(knit(1)?);
            }
        }
        piece.push(Step::Cut);
        Ok(())
    }

    /// The shoulder of one half of the front after `straight` rows.
    pub(super) fn alone(&self, half: Half<'_>, straight: u32) -> Result<(), Error> {
        match self.how {
            Shoulders::ShortRows => self.short_rows(half, straight),
            Shoulders::BindOff => self.bind_offs(half, straight),
        }
    }

    /// The stitches at the armhole are held when the carriage is at the neck.
    fn short_rows(&self, mut half: Half<'_>, straight: u32) -> Result<(), Error> {
        let Some((_, turns)) = self.turns() else {
            half.knit(straight)?;
            return self.leave(&mut half);
        };
        // One row less, where there is one, so that both armholes stay alike.
        let rows = match straight {
            1 if half.carriage == half.neck() => 0,
            rows => half.rows_to_end_at(half.neck(), rows),
        };
        half.knit(rows)?;
        for &size in turns {
            let (side, stitches) = (half.armhole, Stitches::new(size)?);
            half.piece.push(Step::Hold { side, stitches });
            half.knit(2)?;
        }
        half.piece.push(Step::Return);
        half.knit(1)?;
        self.leave(&mut half)
    }

    /// The stitches wait on waste yarn or a holder.
    fn leave(&self, half: &mut Half<'_>) -> Result<(), Error> {
        half.piece.push(Step::Cut);
        half.piece.push(self.off(half.armhole)?);
        Ok(())
    }

    /// The steps are bound off when the carriage is at the armhole.
    fn bind_offs(&self, mut half: Half<'_>, straight: u32) -> Result<(), Error> {
        // One row more where they would end at the neck, as at one side of the back.
        let more = u32::from(half.carriage_after(straight) != half.armhole);
        half.knit(straight + more)?;
        for (index, &size) in self.steps.iter().enumerate() {
            half.knit(if index == 0 { 0 } else { 2 })?;
            half.piece.push(bind_off(size, half.armhole)?);
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

/// A step of a shoulder, where the carriage is.
fn bind_off(count: u32, side: Side) -> Result<Step, Error> {
    let (stitches, edge) = (Stitches::new(count)?, Some(shoulder_edge(side)));
    Ok(Step::BindOff { stitches, how: BindOff::Plain, edge })
}

pub(super) const BACK_NECK: Name = Name::fixed("neck stitches");
