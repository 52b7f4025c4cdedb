use super::density::{Mixed, check_plies};
use crate::{Error, LinearDensity};
use core::fmt;
use loopwright_gauge::Exact;

/// A yarn as it goes into the needles: a single, its plies, the strands held
/// together, and the length lost to twist.
///
/// It reads the notations of the trade:
///
/// | text | meaning |
/// |---|---|
/// | `2/28 Nm`, `Nm 2/28` | two plies of 28 Nm |
/// | `30/2 Ne`, `2/40 cotton` | two plies of 30, of 40 Ne |
/// | `40/2 spun silk` | two plies that together are 40: spun silk is numbered finished |
/// | `10 tex x 3`, `28 Nm x 2` | three plies of 10 tex, two of 28 Nm |
/// | `450 m/100 g`, `400 yd/100 g`, `1400 yd/lb` | a single of that yield |
/// | `3 strands of 2/28 Nm` | three of them held together |
/// | `10 tex x 3, take-up 1/20` | twist shortens the plied yarn by a twentieth |
///
/// A slash needs its system named. A number that is not whole, or is above
/// [`bounds::PLIES_IN_SLASH`](crate::bounds::PLIES_IN_SLASH), cannot be plies; when
/// both numbers could be, plies come first (J. T. Taylor, *Cotton Weaving and
/// Designing*), except that a larger number first, and any cotton, is refused as
/// ambiguous, because the trade writes both orders.
///
/// # Examples
/// ```
/// use loopwright_gauge::Exact;
/// use loopwright_yardage::Yarn;
/// let yarn: Yarn = "2/28 Nm".parse()?;
/// assert_eq!(yarn.resultant()?.tex(), Exact::new(500, 7)?);
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
pub struct Yarn {
    single: LinearDensity,
    plies: u32,
    strands: u32,
    take_up: Exact,
}

impl Yarn {
    /// A single yarn: one ply, one strand, no take-up.
    #[must_use]
    pub const fn single(single: LinearDensity) -> Self {
        Self { single, plies: 1, strands: 1, take_up: Exact::ZERO }
    }

    /// The same single in `plies` plies.
    ///
    /// # Errors
    /// When `plies` is outside 1..=[`bounds::PLIES`](crate::bounds::PLIES), or the
    /// yarn is too thick.
    pub fn plied(self, plies: u32) -> Result<Self, Error> {
        check_plies("the count of plies", plies)?;
        Self { plies, ..self }.checked()
    }

    /// The same yarn with `strands` held together.
    ///
    /// # Errors
    /// When `strands` is outside 1..=[`bounds::PLIES`](crate::bounds::PLIES), or the
    /// strands together are too thick.
    pub fn held(self, strands: u32) -> Result<Self, Error> {
        check_plies("the count of strands", strands)?;
        Self { strands, ..self }.checked()
    }

    /// The same yarn, shortened by `take_up` in twisting, a fraction of its length.
    ///
    /// # Errors
    /// When `take_up` is not in 0..=1/2, or the yarn becomes too thick.
    pub fn take_up(self, take_up: Exact) -> Result<Self, Error> {
        Self { take_up, ..self }.checked()
    }

    fn checked(self) -> Result<Self, Error> {
        self.resultant().map(|_| self)
    }

    /// The linear density of one ply.
    #[must_use]
    pub const fn ply(self) -> LinearDensity {
        self.single
    }

    /// How many plies a strand has.
    #[must_use]
    pub const fn plies(self) -> u32 {
        self.plies
    }

    /// How many strands are held together.
    #[must_use]
    pub const fn strands(self) -> u32 {
        self.strands
    }

    /// The linear density of one strand, its take-up included.
    ///
    /// # Errors
    /// When it cannot be held exactly.
    pub fn strand(self) -> Result<LinearDensity, Error> {
        self.single.times(self.plies)?.twisted(self.take_up)
    }

    /// The linear density of everything that goes into the needle together.
    ///
    /// # Errors
    /// When it cannot be held exactly.
    pub fn resultant(self) -> Result<LinearDensity, Error> {
        self.strand()?.times(self.strands)
    }
}

impl From<LinearDensity> for Yarn {
    fn from(single: LinearDensity) -> Self {
        Self::single(single)
    }
}

impl fmt::Display for Yarn {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.strands > 1 {
            write!(f, "{} strands of ", self.strands)?;
        }
        write!(f, "{}", self.single)?;
        if self.plies > 1 {
            write!(f, " x {}", self.plies)?;
        }
        if self.take_up.is_positive() {
            write!(f, ", take-up {}", Mixed(self.take_up))?;
        }
        Ok(())
    }
}
