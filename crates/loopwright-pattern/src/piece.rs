use crate::error::Kind;
use crate::{Craft, Error, Knitted, Step, replay};

/// A piece: what it is knitted on and the steps that knit it.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct Piece {
    name: String,
    craft: Craft,
    steps: Vec<Step>,
}

impl Piece {
    /// A piece with no steps yet.
    ///
    /// # Errors
    /// When the name is empty.
    pub fn new(name: &str, craft: Craft) -> Result<Self, Error> {
        if name.trim().is_empty() {
            return Err(Kind::NoName.into());
        }
        Ok(Self { name: name.into(), craft, steps: Vec::new() })
    }

    /// What the piece is called.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }

    /// What it is knitted on.
    #[must_use]
    pub const fn craft(&self) -> Craft {
        self.craft
    }

    /// Its steps, in order.
    #[must_use]
    pub fn steps(&self) -> &[Step] {
        &self.steps
    }

    /// Adds a step at the end.
    pub fn push(&mut self, step: Step) {
        self.steps.push(step);
    }

    /// Knits the steps and tells what came of them.
    ///
    /// # Errors
    /// When a step cannot be knitted: a needle off the bed, a bind-off of stitches that
    /// are not there, a hold at the wrong side, stitches left on the needles, and so on.
    /// The text names the piece, the step (the first is 1), the row and the hindrance.
    pub fn replay(&self) -> Result<Knitted, Error> {
        replay::replay(self)
    }
}
