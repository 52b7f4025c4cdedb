use crate::error::Kind;
use crate::{Craft, Error, Knitted, Name, Step, replay};
use alloc::vec::Vec;

/// A piece: what it is knitted on and the steps that knit it.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Rows, Stitches};
/// use loopwright_pattern::{Bed, Craft, Fabric, Piece, Side, Step};
/// let mut piece = Piece::new("swatch", Craft::Machine(Bed::of_needles(200)?))?;
/// piece.push(Step::cast_on(Stitches::new(40)?, Fabric::Plain, Side::Right));
/// piece.push(Step::Knit(Rows::new(60)?));
/// piece.push(Step::bind_off_all("top"));
/// assert_eq!(piece.replay()?.rows.get(), 60);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(deny_unknown_fields, try_from = "Written")
)]
pub struct Piece {
    name: Name,
    craft: Craft,
    steps: Vec<Step>,
}

#[cfg(feature = "serde")]
#[derive(serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct Written {
    name: Name,
    craft: Craft,
    steps: Vec<Step>,
}

#[cfg(feature = "serde")]
impl TryFrom<Written> for Piece {
    type Error = Error;

    fn try_from(written: Written) -> Result<Self, Error> {
        let mut piece = Self::new(written.name, written.craft)?;
        piece.steps = written.steps;
        Ok(piece)
    }
}

impl Piece {
    /// A piece with no steps yet.
    ///
    /// # Errors
    /// When the name is not sound, as [`Name::is_sound`] has it.
    pub fn new(name: impl Into<Name>, craft: Craft) -> Result<Self, Error> {
        let name = name.into();
        if !name.is_sound() {
            let given = name.as_str().chars().take(20).collect();
            return Err(Kind::PieceName { given }.into());
        }
        Ok(Self { name, craft, steps: Vec::new() })
    }

    /// What the piece is called.
    #[must_use]
    pub const fn name(&self) -> &Name {
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
    /// When a step cannot be knitted: a needle off the bed, a row that would begin where
    /// no yarn hangs, a hold at the wrong side, stitches left on the needles, and so on.
    /// The text names the piece, the step (the first is 1), the row and the hindrance.
    pub fn replay(&self) -> Result<Knitted, Error> {
        replay::replay(self)
    }
}

impl Extend<Step> for Piece {
    fn extend<I: IntoIterator<Item = Step>>(&mut self, steps: I) {
        self.steps.extend(steps);
    }
}
