use crate::{Error, Mass, Numbering, bounds};
use alloc::format;
use core::fmt;
use loopwright_gauge::{Exact, Length, Unit};

/// How heavy a yarn is for its length, exactly: tex inside.
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

impl LinearDensity {
    /// The yarn numbered `number` in `system`.
    ///
    /// # Errors
    /// When `number` is not above zero, or the yarn is outside the bounds in
    /// [`bounds`].
    pub fn new(number: Exact, system: Numbering) -> Result<Self, Error> {
        if !number.is_positive() {
            let given = format!("{number} {system}");
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
        let kilometres = length.in_unit(Unit::Metre)?.checked_div(Exact::whole(1_000))?;
        Self::from_tex(mass.grams().checked_div(kilometres)?)
    }

    /// Grams in a kilometre.
    #[must_use]
    pub const fn tex(self) -> Exact {
        self.0
    }

    /// The number this yarn has in `system`.
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

    /// The two yarns worked as one: the sum of their tex, take-up neglected.
    ///
    /// # Errors
    /// When the sum is out of bounds or cannot be held exactly.
    pub fn with(self, other: Self) -> Result<Self, Error> {
        Self::from_tex(self.0.checked_add(other.0)?)
    }

    /// `strands` of this yarn worked as one.
    ///
    /// # Errors
    /// When `strands` is outside 1..=[`bounds::PLIES`], or the sum is out of bounds.
    pub fn times(self, strands: u32) -> Result<Self, Error> {
        check_plies("the count of strands", strands)?;
        Self::from_tex(self.0.checked_mul(strands.into())?)
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
        Self::from_tex(wanted.0.checked_sub(self.0)?)
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
        Self::from_tex(self.0.checked_div(Exact::ONE.checked_sub(take_up)?)?)
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
    let tex =
        if system.is_direct() { number.checked_mul(factor) } else { factor.checked_div(number) };
    tex.map_err(|_| Error::overflow("the yarn number"))
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
