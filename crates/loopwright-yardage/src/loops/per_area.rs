use super::cloth::read_unit;
use super::model::{ks, relaxation_likely, relaxations};
use crate::grid::sqrt;
use crate::grid::{self, Grid, between};
use crate::{ArealMass, Error, LinearDensity, LoopLength, RelaxedFabric, Spread};
use core::fmt;
use core::str::FromStr;
use loopwright_gauge::{Exact, Gauge, Length, Round, Rows, Stitches};

/// Loops in a square millimetre, to a billionth.
const PER_MM2: Grid = Grid::new("the count of loops per area", 1_000_000_000);
const NANOMETRES: u32 = 1_000_000;

/// How many loops lie in an area of fabric: wales times courses.
///
/// It is steadier than either count, because a pull one way takes from the other. In ribs
/// and interlock the loops of both faces are counted. Exact, or to a billionth of a loop in
/// a square millimetre where the fraction grows too long.
///
/// # Examples
/// 18 wales and 21 courses to the inch are 378 loops in a square inch.
/// ```
/// use loopwright_gauge::{Exact, Gauge};
/// use loopwright_yardage::LoopsPerArea;
/// let loops = LoopsPerArea::counted("18x21/1in".parse::<Gauge>()?)?;
/// assert_eq!(loops.in_in2()?, Exact::whole(378));
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, Ord, PartialEq, PartialOrd)]
pub struct LoopsPerArea(Exact);

impl LoopsPerArea {
    /// So many loops in a square centimetre.
    ///
    /// # Errors
    /// When `loops` is not above zero or above a million.
    pub fn per_cm2(loops: Exact) -> Result<Self, Error> {
        if !loops.is_positive() || loops > Exact::whole(1_000_000) {
            let allowed = "above zero and at most 1000000";
            return Err(Error::range("the count of loops in a square centimetre", loops, allowed));
        }
        Ok(Self(PER_MM2.quotient(loops, Exact::whole(100), Round::HalfUp)?))
    }

    /// Those of a gauge.
    ///
    /// # Errors
    /// When the number is out of bounds.
    pub fn counted(gauge: Gauge) -> Result<Self, Error> {
        let (wales, courses) = (gauge.per_mm::<Stitches>()?, gauge.per_mm::<Rows>()?);
        Ok(Self(PER_MM2.product(wales, courses, Round::HalfUp)?))
    }

    /// Those of a fabric in loops of this length: ks/l², at each end of both.
    ///
    /// # Errors
    /// When no constant was found for the fabric, or the number is out of bounds.
    ///
    /// # Examples
    /// Fully relaxed jersey in loops of 3 mm, ks 23.1: 256.7 loops in a square centimetre.
    /// ```
    /// use loopwright_gauge::Length;
    /// use loopwright_yardage::{RelaxedFabric, LoopLength, LoopsPerArea, RelaxationState, Spread, Structure};
    /// let jersey = RelaxedFabric::new(Structure::Plain, RelaxationState::Full);
    /// let loops = LoopLength::stated(Spread::exactly(Length::mm(3)?))?;
    /// let area = LoopsPerArea::modelled(&loops, jersey)?;
    /// assert_eq!(area.likely().in_cm2()?, "256 2/3".parse()?);
    /// # Ok::<(), loopwright_yardage::Error>(())
    /// ```
    pub fn modelled(loops: &LoopLength, fabric: RelaxedFabric) -> Result<Spread<Self>, Error> {
        let [short, at, long] = loops.length().parts().map(Length::millimetres);
        let of = |ks: Exact, mm: Exact, round| {
            Ok::<_, Error>(Self(PER_MM2.quotient(PER_MM2.quotient(ks, mm, round)?, mm, round)?))
        };
        let likely = of(ks(relaxation_likely(fabric))?.likely(), at, Round::HalfUp)?;
        let (mut low, mut high) = (likely, likely);
        for state in relaxations(fabric) {
            let ks = ks(state)?;
            low = low.min(of(ks.low(), long, Round::Floor)?);
            high = high.max(of(ks.high(), short, Round::Ceil)?);
        }
        between(low, likely, high)
    }

    /// Loops in a square centimetre.
    ///
    /// # Errors
    /// Never for what this type can hold; the signature leaves room for more.
    pub fn in_cm2(self) -> Result<Exact, Error> {
        PER_MM2.product(self.0, Exact::whole(100), Round::HalfUp)
    }

    /// Loops in a square inch.
    ///
    /// # Errors
    /// As [`LoopsPerArea::in_cm2`].
    pub fn in_in2(self) -> Result<Exact, Error> {
        PER_MM2.product(self.0, Exact::new(64_516, 100)?, Round::HalfUp)
    }

    /// The loop length at which a fabric of this area constant has so many: √(ks/S), in
    /// nanometres.
    pub(crate) fn loop_at(self, ks: Exact, round: Round) -> Result<Length, Error> {
        let square = grid::SQUARE.quotient(ks, self.0, round)?;
        Ok(Length::from_millimetres(sqrt(square, NANOMETRES, round)?)?)
    }

    /// What so many loops of this length weigh in a square metre.
    ///
    /// # Errors
    /// When the result is out of bounds.
    pub fn mass(self, loops: &LoopLength, yarn: LinearDensity) -> Result<Spread<ArealMass>, Error> {
        ArealMass::of_loops(self.0, loops, yarn)
    }
}

/// It reads what it prints, and `233 loops/cm2` or `378 loops/in2`.
impl FromStr for LoopsPerArea {
    type Err = Error;

    fn from_str(text: &str) -> Result<Self, Error> {
        const FORMS: &str = "write such as 233 loops/cm2 or 378 loops/in2";
        let per_cm2 = [
            ("loops/mm²", Exact::literal(100, 1)),
            ("loops/mm2", Exact::literal(100, 1)),
            ("loops/cm²", Exact::ONE),
            ("loops/cm2", Exact::ONE),
            ("loops/in²", Exact::literal(10_000, 64_516)),
            ("loops/in2", Exact::literal(10_000, 64_516)),
        ];
        let loops = read_unit(text, &per_cm2, PER_MM2);
        Self::per_cm2(loops.ok_or_else(|| Error::parse("the loops per area", text, FORMS))??)
    }
}

impl fmt::Display for LoopsPerArea {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} loops/mm²", self.0)
    }
}
