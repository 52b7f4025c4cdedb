//! Fabric mass per area and tightness factor.

use crate::grid::sqrt;
use crate::grid::{self, Grid, outwards};
use crate::{Error, LinearDensity, LoopLength, Mass, MassUnit, Spread, Structure};
use core::fmt;
use core::str::FromStr;
use loopwright_gauge::{Exact, Gauge, Length, Round, Rows, Stitches, Unit, choices};

/// Grams in a square metre, to a billionth.
const GRAMS: Grid = Grid::new("the mass per area", 1_000_000_000);

/// Mass per area of a fabric in grams per square metre: exact, or to a billionth of a gram
/// where the fraction grows too long.
///
/// # Examples
/// ```
/// use loopwright_yardage::ArealMass;
/// let cloth: ArealMass = "300 g/m2".parse()?;
/// assert_eq!(cloth.ounces_per_yd2()?.decimal(3).to_string(), "8.848");
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, Ord, PartialEq, PartialOrd)]
pub struct ArealMass(Exact);

impl ArealMass {
    /// From a piece that was weighed and measured.
    ///
    /// # Errors
    /// When a side is not above zero, or the result is out of bounds.
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::{Exact, Length};
    /// use loopwright_yardage::{ArealMass, Mass};
    /// let disc = ArealMass::of(Mass::g(3)?, Length::cm(10)?, Length::cm(10)?)?;
    /// assert_eq!(disc.grams_per_m2(), Exact::whole(300));
    /// # Ok::<(), loopwright_yardage::Error>(())
    /// ```
    pub fn of(mass: Mass, width: Length, height: Length) -> Result<Self, Error> {
        for side in [width, height] {
            if !side.is_positive() {
                return Err(Error::range("the side of the weighed piece", side, "above zero"));
            }
        }
        let million = Exact::whole(1_000_000);
        let part = |grams, side: Length| GRAMS.quotient(grams, side.millimetres(), Round::HalfUp);
        let grams = part(part(mass.grams(), width)?, height)?;
        Ok(Self(GRAMS.product(grams, million, Round::HalfUp)?))
    }

    /// From loops counted per area: loops times loop length times tex.
    ///
    /// # Errors
    /// When the result is out of bounds.
    pub fn counted(gauge: Gauge, loops: Length, yarn: LinearDensity) -> Result<Self, Error> {
        let nearest = |a, b| GRAMS.product(a, b, Round::HalfUp);
        // (loops/mm²)(10⁶ mm²/m²) × mm (1 km/10⁶ mm) × g/km: the powers cancel.
        let yarn = nearest(loops.millimetres(), yarn.tex())?;
        Ok(Self(nearest(nearest(yarn, gauge.per_mm::<Stitches>()?)?, gauge.per_mm::<Rows>()?)?))
    }

    /// From `per_mm2` loops in a square millimetre, each as heavy as weighed or as its length
    /// of yarn.
    pub(crate) fn of_loops(
        per_mm2: Exact,
        loops: &LoopLength,
        yarn: LinearDensity,
    ) -> Result<Spread<Self>, Error> {
        outwards(loops.mass(yarn)?, |stitch, round| {
            let grams = GRAMS.product(stitch.grams(), Exact::whole(1_000_000), round)?;
            Ok(Self(GRAMS.product(grams, per_mm2, round)?))
        })
    }

    /// From the area constant of the structure: ks times tex over loop length.
    ///
    /// # Errors
    /// When `loops` is not above zero, or the result is out of bounds.
    pub fn modelled(ks: Exact, loops: Length, yarn: LinearDensity) -> Result<Self, Error> {
        Self::near(ks, loops, yarn, Round::HalfUp)
    }

    /// As [`ArealMass::modelled`] for each end of the constant.
    ///
    /// # Errors
    /// As [`ArealMass::modelled`].
    pub fn modelled_spread(
        ks: Spread<Exact>,
        loops: Length,
        yarn: LinearDensity,
    ) -> Result<Spread<Self>, Error> {
        outwards(ks, |ks, round| Self::near(ks, loops, yarn, round))
    }

    fn near(ks: Exact, loops: Length, yarn: LinearDensity, round: Round) -> Result<Self, Error> {
        if !loops.is_positive() {
            return Err(Error::range("the loop length", loops, "above zero"));
        }
        let yarn = GRAMS.product(ks, yarn.tex(), round)?;
        Ok(Self(GRAMS.quotient(yarn, loops.millimetres(), round)?))
    }

    /// Grams per square metre.
    #[must_use]
    pub const fn grams_per_m2(self) -> Exact {
        self.0
    }

    /// Ounces per square yard.
    ///
    /// # Errors
    /// When the number is out of bounds.
    pub fn ounces_per_yd2(self) -> Result<Exact, Error> {
        let yard = Exact::new(Unit::Yard.micrometres(), Unit::Metre.micrometres())?;
        let ounce = Exact::new(MassUnit::Ounce.nanograms(), 1_000_000_000)?;
        let times = |a, b| GRAMS.product(a, b, Round::HalfUp);
        GRAMS.quotient(times(times(self.0, yard)?, yard)?, ounce, Round::HalfUp)
    }
}

/// It reads what it prints, and `160 g/m2` or `4.7 oz/yd2`.
impl FromStr for ArealMass {
    type Err = Error;

    fn from_str(text: &str) -> Result<Self, Error> {
        const FORMS: &str = "write such as 160 g/m2 or 4.7 oz/yd2";
        // 28.349523125 g over 0.83612736 m².
        let ounce = Exact::new(28_349_523_125, 836_127_360)?;
        let units =
            [("g/m²", Exact::ONE), ("g/m2", Exact::ONE), ("oz/yd²", ounce), ("oz/yd2", ounce)];
        let grams = read_unit(text, &units, GRAMS);
        let grams = grams.ok_or_else(|| Error::parse("the mass per area", text, FORMS))??;
        if grams < Exact::ZERO {
            return Err(Error::range("the mass per area", text, "zero or more"));
        }
        Ok(Self(grams))
    }
}

/// A number and one of these units, in the unit that is worth one; `None` when it is not.
pub(crate) fn read_unit(
    text: &str,
    units: &[(&str, Exact)],
    grid: Grid,
) -> Option<Result<Exact, Error>> {
    let (number, worth) = units
        .iter()
        .find_map(|&(unit, worth)| Some((text.trim().strip_suffix(unit)?.trim(), worth)))?;
    let number: Exact = number.parse().ok()?;
    Some(grid.product(number, worth, Round::HalfUp))
}

impl fmt::Display for ArealMass {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} g/m²", self.0)
    }
}

/// How tightly a fabric is knitted: the root of its tex over its loop length, in
/// √tex/mm.
///
/// Its square is a fraction, exact or to a billionth where it grows too long, and
/// comparisons are made on the square. Texts
/// that give about 14 mean √tex/cm, ten times this.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Exact, Length, Round};
/// use loopwright_yardage::{LinearDensity, Tightness};
/// let yarn = LinearDensity::from_tex(Exact::whole(49))?;
/// let tightness = Tightness::new(yarn, Length::mm(5)?)?;
/// assert_eq!(tightness.thousandths(Round::HalfUp)?, "1.4".parse()?);
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, Ord, PartialEq, PartialOrd)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(try_from = "Raw", into = "Raw"))]
pub struct Tightness {
    square: Exact,
}

impl Tightness {
    /// Of a yarn in loops of this length.
    ///
    /// # Errors
    /// When `loops` is not above zero, or the square is out of bounds.
    pub fn new(yarn: LinearDensity, loops: Length) -> Result<Self, Error> {
        if !loops.is_positive() {
            return Err(Error::range("the loop length", loops, "above zero"));
        }
        let part = |n, mm| grid::SQUARE.quotient(n, mm, Round::HalfUp);
        let mm = loops.millimetres();
        Ok(Self { square: part(part(yarn.tex(), mm)?, mm)? })
    }

    /// Its square: tex over mm².
    #[must_use]
    pub const fn square(self) -> Exact {
        self.square
    }

    /// In √tex/mm, to a thousandth.
    ///
    /// # Errors
    /// [`Round::Exact`] fails unless the root is a whole number of thousandths.
    pub fn thousandths(self, round: Round) -> Result<Exact, Error> {
        sqrt(self.square, 1_000, round)
    }

    /// Whether it is at or above `tightness` √tex/mm, decided exactly.
    ///
    /// # Errors
    /// When the square of `tightness` cannot be held exactly.
    pub fn is_at_least(self, tightness: Exact) -> Result<bool, Error> {
        Ok(self.square >= tightness.checked_mul(tightness)?)
    }

    /// Whether it is at or below `tightness` √tex/mm, decided exactly.
    ///
    /// # Errors
    /// When the square of `tightness` cannot be held exactly.
    pub fn is_at_most(self, tightness: Exact) -> Result<bool, Error> {
        Ok(self.square <= tightness.checked_mul(tightness)?)
    }

    /// Where it lies against the range published as typical for `structure`; `None`
    /// where no range with units was found.
    ///
    /// Plain: 1.3 to 1.5 √tex/mm (study note "Tightness factor"). Finished mill cottons
    /// run from 1.57 to 2.02, so "tight" there is not a fault.
    ///
    /// # Errors
    /// When a comparison cannot be held exactly.
    pub fn against_typical(self, structure: Structure) -> Result<Option<Handle>, Error> {
        if structure != Structure::Plain {
            return Ok(None);
        }
        let (low, high) = (Exact::new(13, 10)?, Exact::new(15, 10)?);
        Ok(Some(match (self.is_at_least(low)?, self.is_at_most(high)?) {
            (false, _) => Handle::Slack,
            (_, false) => Handle::Tight,
            _ => Handle::Typical,
        }))
    }
}

choices! {
    /// Where a tightness factor lies against the typical range.
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::Length;
    /// use loopwright_yardage::{Handle, Structure, Tightness};
    /// let tightness = Tightness::new("49 tex".parse()?, Length::mm(5)?)?;
    /// assert_eq!(tightness.against_typical(Structure::Plain)?, Some(Handle::Typical));
    /// # Ok::<(), loopwright_yardage::Error>(())
    /// ```
    #[non_exhaustive]
    pub enum Handle: "the handle of the fabric" {
        /// Below it: an open, soft fabric.
        Slack = "slack",
        /// Within it.
        Typical = "typical",
        /// Above it: a firm fabric.
        Tight = "tight",
    }
}

/// A value as it is written.
#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
struct Raw {
    square: Exact,
}

#[cfg(feature = "serde")]
impl TryFrom<Raw> for Tightness {
    type Error = Error;

    fn try_from(raw: Raw) -> Result<Self, Error> {
        if raw.square < Exact::ZERO {
            return Err(Error::range("the square of the tightness", raw.square, "zero or more"));
        }
        Ok(Self { square: raw.square })
    }
}

#[cfg(feature = "serde")]
impl From<Tightness> for Raw {
    fn from(value: Tightness) -> Self {
        Self { square: value.square }
    }
}
