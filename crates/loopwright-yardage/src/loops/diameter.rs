//! How thick a yarn lies, and the loop length that follows from it.

use crate::grid;
use crate::grid::sqrt;
use crate::{Error, LinearDensity, Numbering};
use loopwright_gauge::{Exact, Gauge, Length, Round, Rows, Stitches};

const NANOMETRES: u32 = 1_000_000;

/// The diameter of a cotton yarn by the trade's rule: 1/(28 √Ne) in, to the nearest
/// nanometre (GATE 2007 question 85).
///
/// The rule implies a yarn of 0.914 g/cm³. Wraps counted by hand on a ruler come to about
/// half of one over this.
///
/// # Errors
/// When the diameter is out of bounds.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Precision, Unit};
/// use loopwright_yardage::cotton_diameter;
/// let thirty_sixes = cotton_diameter("36 Ne".parse()?)?;
/// let told = thirty_sixes.display(Unit::Millimetre, Precision::Decimals(3));
/// assert_eq!(told.to_string(), "0.151 mm");
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
pub fn cotton_diameter(yarn: LinearDensity) -> Result<Length, Error> {
    let inch = Exact::new(254, 10)?.checked_div(Exact::whole(28))?;
    let number = yarn.number_near(Numbering::Cotton)?;
    let square = grid::SQUARE.quotient(inch.checked_mul(inch)?, number, Round::HalfUp)?;
    Ok(Length::from_millimetres(sqrt(square, NANOMETRES, Round::HalfUp)?)?)
}

/// The diameter of a round yarn whose fibre weighs `fibre` grams in a cubic centimetre
/// and fills the share `packing` of it, to the nearest nanometre.
///
/// From the geometry: d = √(4·tex/(1000·π·fibre·packing)) mm, with π as 355/113. Fibre
/// densities: cotton 1.52 (GATE 2003 question 74), wool 1.31 (from memory).
///
/// # Errors
/// When `fibre` is not in (0, 25] or `packing` not in (0, 1], or the root cannot be held.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Length, Precision, Unit};
/// use loopwright_yardage::{LinearDensity, diameter};
/// let yarn: LinearDensity = "100 tex".parse()?;
/// let wool = diameter(yarn, "1.31".parse()?, "0.6".parse()?)?;
/// assert_eq!(wool.display(Unit::Millimetre, Precision::Decimals(3)).to_string(), "0.402 mm");
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
pub fn diameter(yarn: LinearDensity, fibre: Exact, packing: Exact) -> Result<Length, Error> {
    if !fibre.is_positive() || fibre > Exact::whole(25) {
        return Err(Error::range("the fibre density", fibre, "above zero and at most 25 g/cm³"));
    }
    if !packing.is_positive() || packing > Exact::ONE {
        return Err(Error::range("the packing", packing, "above zero and at most 1"));
    }
    let four_over_pi = Exact::new(4 * 113, 355 * 1_000)?;
    let part = |a, b| grid::SQUARE.quotient(a, b, Round::HalfUp);
    let square = grid::SQUARE.product(yarn.tex(), four_over_pi, Round::HalfUp)?;
    let square = part(part(square, fibre)?, packing)?;
    Ok(Length::from_millimetres(sqrt(square, NANOMETRES, Round::HalfUp)?)?)
}

/// Peirce's loop length: twice the course spacing, the wale spacing, and 5.94 yarn
/// diameters, the diameter taken at 1.1 cm³/g.
///
/// Fletcher and Roberts found 4.56 in place of 5.94 with a diameter that was measured. On
/// three mill fabrics of known gauge it came out 2 to 6 % too long.
///
/// # Errors
/// When the loop is out of bounds.
///
/// # Examples
/// ```
/// use loopwright_gauge::Length;
/// use loopwright_yardage::peirce_loop;
/// // Twice 1/2 mm, 1 mm, and 5.94 diameters of 1/4 mm.
/// let loops = peirce_loop("10x20/1cm".parse()?, "1/4 mm".parse()?)?;
/// assert_eq!(loops, "3.485 mm".parse()?);
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
pub fn peirce_loop(gauge: Gauge, diameter: Length) -> Result<Length, Error> {
    let each = |n, per_mm| grid::LENGTH.quotient(Exact::whole(n), per_mm, Round::HalfUp);
    let (courses, wales) =
        (each(2, gauge.per_mm::<Rows>()?)?, each(1, gauge.per_mm::<Stitches>()?)?);
    let yarn =
        grid::LENGTH.product(diameter.millimetres(), Exact::new(594, 100)?, Round::HalfUp)?;
    let sum = |a, b| grid::LENGTH.sum(a, b, Round::HalfUp);
    Ok(Length::from_millimetres(sum(sum(courses, wales)?, yarn)?)?)
}
