use crate::grid::{self, outwards};
use crate::{Error, Mass, Numbering, Spread, bounds};
use alloc::format;
use core::fmt;
use loopwright_gauge::{Exact, Length, Round};

/// How heavy a yarn is for its length: tex inside.
///
/// Exact, or to the nearest billionth of a tex where the fraction of many odd yarns, or of
/// a number with many decimals, grows too long.
///
/// # Examples
/// ```
/// use loopwright_gauge::Exact;
/// use loopwright_yardage::{LinearDensity, Numbering};
/// let cotton = LinearDensity::new(Exact::whole(10), Numbering::Cotton)?;
/// assert_eq!(cotton.number(Numbering::Worsted)?, Exact::whole(15));
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, Ord, PartialEq, PartialOrd)]
pub struct LinearDensity(Exact);

/// Tex, to a billionth.
const TEX: grid::Grid = grid::Grid::new("the linear density", 1_000_000_000);

/// Kilometres, to the nanometre.
const KILOMETRES: grid::Grid = grid::Grid::new("the length of yarn in km", 1_000_000_000_000);

impl LinearDensity {
    /// The yarn numbered `number` in `system`.
    ///
    /// # Errors
    /// When `number` is not above zero, or the yarn is outside the bounds in
    /// [`bounds`].
    pub fn new(number: Exact, system: Numbering) -> Result<Self, Error> {
        if !number.is_positive() {
            let given = format!("{number} {}", system.symbol());
            return Err(Error::range("the yarn number", given, "above zero"));
        }
        Self::from_tex(convert(number, system)?)
    }

    /// An exact number of tex.
    ///
    /// # Errors
    /// When it is outside the bounds in [`bounds`].
    pub fn from_tex(tex: Exact) -> Result<Self, Error> {
        let finest = Exact::new(1, bounds::TEX_FINEST)?;
        if tex >= finest && tex <= Exact::literal(bounds::TEX, 1) {
            return Ok(Self(tex));
        }
        let allowed = format!("in {finest}..={} tex", bounds::TEX);
        Err(Error::range("the linear density", format!("{tex} tex"), allowed))
    }

    /// The yarn of which `length` weighs `mass`, as a ball's label or a balance
    /// says.
    ///
    /// # Errors
    /// When `length` is not above zero, or the yarn is outside the bounds in
    /// [`bounds`].
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::{Exact, Length};
    /// use loopwright_yardage::{LinearDensity, Mass};
    /// let ball = LinearDensity::of("450 m".parse()?, Mass::g(100)?)?;
    /// assert_eq!(ball.tex(), Exact::new(2_000, 9)?);
    /// # Ok::<(), loopwright_yardage::Error>(())
    /// ```
    pub fn of(length: Length, mass: Mass) -> Result<Self, Error> {
        if !length.is_positive() {
            return Err(Error::range("the length of yarn", length, "above zero"));
        }
        let million = Exact::whole(1_000_000);
        let grams = grid::STITCHES.product(mass.grams(), million, Round::HalfUp)?;
        Self::from_tex(TEX.quotient(grams, length.millimetres(), Round::HalfUp)?)
    }

    /// Grams in a kilometre.
    #[must_use]
    pub const fn tex(self) -> Exact {
        self.0
    }

    /// The number this yarn has in `system`, to a millionth where it cannot be held exactly.
    ///
    /// # Errors
    /// When the number is out of bounds.
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::Exact;
    /// use loopwright_yardage::{LinearDensity, Numbering};
    /// let yarn: LinearDensity = "2/28 Nm".parse()?;
    /// assert_eq!(yarn.number_near(Numbering::MetresPer100g)?, Exact::whole(1_400));
    /// # Ok::<(), loopwright_yardage::Error>(())
    /// ```
    pub fn number_near(self, system: Numbering) -> Result<Exact, Error> {
        let factor = factor(system)?;
        if system.is_direct() {
            grid::SHARE.quotient(self.0, factor, Round::HalfUp)
        } else {
            grid::SHARE.quotient(factor, self.0, Round::HalfUp)
        }
    }

    /// The number this yarn has in `system`, exactly.
    ///
    /// # Errors
    /// When the number cannot be held exactly.
    pub fn number(self, system: Numbering) -> Result<Exact, Error> {
        let factor = factor(system)?;
        let number = if system.is_direct() {
            self.0.checked_div(factor)
        } else {
            factor.checked_div(self.0)
        };
        number.map_err(|_| Error::overflow("the yarn number"))
    }

    /// What `length` of the yarn weighs.
    ///
    /// # Errors
    /// When `length` is below zero, or the mass cannot be held exactly.
    pub fn mass_of(self, length: Length) -> Result<Mass, Error> {
        let grams_per_mm = self.0.checked_div(Exact::whole(1_000_000))?;
        Mass::from_grams(length.millimetres().checked_mul(grams_per_mm)?)
    }

    /// How much of the yarn weighs `mass`.
    ///
    /// # Errors
    /// When the length is out of bounds or cannot be held exactly.
    pub fn length_of(self, mass: Mass) -> Result<Length, Error> {
        let mm_per_gram = Exact::whole(1_000_000).checked_div(self.0)?;
        Ok(Length::from_millimetres(mass.grams().checked_mul(mm_per_gram)?)?)
    }

    /// What a length that is not known exactly weighs.
    ///
    /// Exact where the fractions can be held; where they grow too long, low is rounded
    /// down and high up to the picogram, or to the nanogram beyond a tonne.
    ///
    /// # Errors
    /// When the length is below zero, or the mass is above [`bounds::MASS_G`].
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::Length;
    /// use loopwright_yardage::{LinearDensity, Mass, Spread};
    /// let yarn: LinearDensity = "400 m/100 g".parse()?;
    /// let mass = yarn.masses_of(Spread::exactly("120 m".parse()?))?;
    /// assert_eq!(mass.likely(), Mass::g(30)?);
    /// # Ok::<(), loopwright_yardage::Error>(())
    /// ```
    pub fn masses_of(self, length: Spread<Length>) -> Result<Spread<Mass>, Error> {
        outwards(length, |length, round| self.mass_near(length, round))
    }

    /// How much of the yarn weighs a mass that is not known exactly.
    ///
    /// Exact where the fractions can be held; where they grow too long, low is rounded
    /// down and high up to the nanometre.
    ///
    /// # Errors
    /// When the length is out of bounds.
    pub fn lengths_of(self, mass: Spread<Mass>) -> Result<Spread<Length>, Error> {
        outwards(mass, |mass, round| self.length_near(mass, round))
    }

    pub(crate) fn mass_near(self, length: Length, round: Round) -> Result<Mass, Error> {
        // Millimetres times grams in a kilometre are micrograms: to the picogram, or for
        // great amounts to the nanogram.
        let mm = length.millimetres();
        let micrograms = grid::LENGTH
            .product(mm, self.0, round)
            .or_else(|_| grid::STITCHES.product(mm, self.0, round))?;
        let million = Exact::whole(1_000_000);
        let grams = grid::STITCH_MASS
            .quotient(micrograms, million, round)
            .or_else(|_| grid::MASS.quotient(micrograms, million, round))?;
        Mass::from_grams(grams)
    }

    pub(crate) fn length_near(self, mass: Mass, round: Round) -> Result<Length, Error> {
        // Grams over grams in a kilometre are kilometres, to the nanometre.
        let kilometres = KILOMETRES.quotient(mass.grams(), self.0, round)?;
        let mm = grid::LENGTH.product(kilometres, Exact::whole(1_000_000), round)?;
        Ok(Length::from_millimetres(mm)?)
    }

    /// The two yarns worked as one: the sum of their tex, take-up neglected.
    ///
    /// # Errors
    /// When the sum is out of bounds.
    pub fn with(self, other: Self) -> Result<Self, Error> {
        Self::from_tex(TEX.sum(self.0, other.0, Round::HalfUp)?)
    }

    /// `strands` of this yarn worked as one.
    ///
    /// # Errors
    /// When `strands` is outside 1..=[`bounds::PLIES`], or the sum is out of bounds.
    pub fn times(self, strands: u32) -> Result<Self, Error> {
        check_plies("the count of strands", strands)?;
        Self::from_tex(TEX.product(self.0, strands.into(), Round::HalfUp)?)
    }

    /// The yarn that must be held with this one to make `wanted`.
    ///
    /// # Errors
    /// When `wanted` is not the thicker.
    pub fn partner(self, wanted: Self) -> Result<Self, Error> {
        if wanted <= self {
            let allowed = format!("above the {} tex of the yarn held", self.0);
            return Err(Error::range("the yarn wanted", format!("{} tex", wanted.0), allowed));
        }
        Self::from_tex(TEX.difference(wanted.0, self.0, Round::HalfUp)?)
    }

    /// This yarn after twisting has shortened it by `take_up`, a fraction of its
    /// length: tex over one less the take-up.
    ///
    /// # Errors
    /// When `take_up` is not in 0..=1/2.
    pub fn twisted(self, take_up: Exact) -> Result<Self, Error> {
        if take_up < Exact::ZERO || take_up > Exact::new(1, 2)? {
            return Err(Error::range("the twist take-up", take_up, "in 0..=1/2"));
        }
        let left = Exact::ONE.checked_sub(take_up)?;
        Self::from_tex(TEX.quotient(self.0, left, Round::HalfUp)?)
    }
}

pub(crate) fn check_plies(what: &'static str, given: u32) -> Result<(), Error> {
    if (1..=bounds::PLIES).contains(&given) {
        return Ok(());
    }
    Err(Error::range(what, given, format!("in 1..={}", bounds::PLIES)))
}

fn factor(system: Numbering) -> Result<Exact, Error> {
    let (tex, per) = system.factor();
    Ok(Exact::new(tex, per)?)
}

fn convert(number: Exact, system: Numbering) -> Result<Exact, Error> {
    let factor = factor(system)?;
    if system.is_direct() {
        TEX.product(number, factor, Round::HalfUp)
    } else {
        TEX.quotient(factor, number, Round::HalfUp)
    }
}

/// A number that no ply notation can be mistaken for: `71 3/7`, `0 5/7`.
pub(crate) struct Mixed(pub(crate) Exact);

impl fmt::Display for Mixed {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (numer, denom) = (self.0.numer(), self.0.denom());
        write!(f, "{}", numer / denom)?;
        if numer % denom == 0 { Ok(()) } else { write!(f, " {}/{denom}", numer % denom) }
    }
}

impl fmt::Display for LinearDensity {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} tex", Mixed(self.0))
    }
}
