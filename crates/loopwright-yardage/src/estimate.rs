use crate::grid::{self, outwards};
use crate::loops::length_times;
use crate::rates::Rates;
use crate::tally::Tally;
use crate::{Error, Mass, Spread, Supply};
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;
use core::fmt;
use loopwright_gauge::{Exact, Length, Precision, Round, Unit};

/// An amount of yarn, as a length and as a mass, each with its spread.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[non_exhaustive]
pub struct Amount {
    /// How long it is.
    pub length: Spread<Length>,
    /// How much it weighs.
    pub mass: Spread<Mass>,
}

impl Amount {
    /// No yarn.
    pub const ZERO: Self =
        Self { length: Spread::exactly(Length::ZERO), mass: Spread::exactly(Mass::ZERO) };

    /// An amount from its two spreads.
    #[must_use]
    pub const fn new(length: Spread<Length>, mass: Spread<Mass>) -> Self {
        Self { length, mass }
    }

    /// The sum, the spreads end to end: the pieces share one gauge and one yarn, so
    /// their errors do not cancel. To the nanometre and nanogram, outwards, where a sum
    /// cannot be held exactly.
    ///
    /// # Errors
    /// When a sum is out of bounds.
    pub fn checked_add(&self, rhs: &Self) -> Result<Self, Error> {
        let [low, likely, high] = [Round::Floor, Round::HalfUp, Round::Ceil];
        let mm = |a: Length, b: Length, round| -> Result<_, Error> {
            let sum = grid::LENGTH.sum(a.millimetres(), b.millimetres(), round)?;
            Ok(Length::from_millimetres(sum)?)
        };
        let (a, b) = (&self.length, &rhs.length);
        let length = grid::between(
            mm(a.low(), b.low(), low)?,
            mm(a.likely(), b.likely(), likely)?,
            mm(a.high(), b.high(), high)?,
        )?;
        let g = |a: Mass, b: Mass, round| {
            Mass::from_grams(grid::MASS.sum(a.grams(), b.grams(), round)?)
        };
        let (a, b) = (&self.mass, &rhs.mass);
        let mass = grid::between(
            g(a.low(), b.low(), low)?,
            g(a.likely(), b.likely(), likely)?,
            g(a.high(), b.high(), high)?,
        )?;
        Ok(Self { length, mass })
    }

    /// This amount, `factor` times; to the nanometre and picogram, outwards, where it cannot
    /// be held exactly.
    ///
    /// # Errors
    /// When `factor` is below zero, or the amount is out of bounds.
    pub fn scaled(&self, factor: Exact) -> Result<Self, Error> {
        if factor < Exact::ZERO {
            return Err(Error::range("the factor of an amount", factor, "zero or more"));
        }
        Ok(Self {
            length: outwards(self.length, |length, round| length_times(length, factor, round))?,
            mass: outwards(self.mass, |mass, round| mass.times(factor, round))?,
        })
    }
}

impl fmt::Display for Amount {
    /// `920 m (850 m to 990 m), 66 g (61 g to 71 g)`, to the whole metre and gram.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let metres = |length: Length| length.display(Unit::Metre, Precision::Decimals(0));
        let grams = |mass: Mass| mass.display(crate::MassUnit::Gram, 0);
        let (length, mass) = (&self.length, &self.mass);
        write!(f, "{} ", metres(length.likely()))?;
        write!(f, "({} to {}), ", metres(length.low()), metres(length.high()))?;
        write!(f, "{} ({} to {})", grams(mass.likely()), grams(mass.low()), grams(mass.high()))
    }
}

/// The yarn of one tally.
#[derive(Clone, Debug, Eq, PartialEq)]
#[non_exhaustive]
pub struct PieceAmount {
    /// The piece.
    pub piece: String,
    /// The yarn.
    pub yarn: String,
    /// How much of it.
    pub amount: Amount,
}

/// The yarn of a whole garment.
#[derive(Clone, Debug, Eq, PartialEq)]
#[non_exhaustive]
pub struct Estimate {
    /// One for each tally, in the order they were given.
    pub pieces: Vec<PieceAmount>,
    /// Each yarn and its total, in the order of the supplies.
    pub totals: Vec<(String, Amount)>,
    /// The waste yarn of all pieces, in no total; its loops taken as those of the
    /// supply's first fabric.
    pub waste: Amount,
}

impl Estimate {
    /// The total of one yarn.
    #[must_use]
    pub fn total(&self, yarn: &str) -> Option<&Amount> {
        self.totals.iter().find(|(name, _)| name == yarn).map(|(_, amount)| amount)
    }
}

/// The yarn that the tallies take from the supplies.
///
/// Every amount is an exact sum of counts times rates (see [`Supply`]), so the total
/// is exactly the sum of the pieces. Estimating many tallies from the same supplies is
/// quicker with [`Estimator`].
///
/// # Errors
/// When a tally names a yarn or fabric that no supply knows, a count is above
/// [`bounds::STITCHES`](crate::bounds::STITCHES), or an amount cannot be held.
///
/// # Examples
/// ```
/// use loopwright_gauge::Length;
/// use loopwright_yardage::{LoopLength, Spread, Supply, Tally, Yarn, estimate};
/// let yarn: Yarn = "2/28 Nm".parse()?;
/// let loops = LoopLength::stated(Spread::exactly(Length::mm(6)?))?;
/// let supply = Supply::new("main", yarn.resultant()?).fabric("plain", loops);
/// let scarf = Tally::rectangle("scarf", "plain", 100, 497);
/// let answer = estimate(&[scarf], &[supply])?;
/// let total = answer.total("main").expect("the main yarn was used");
/// assert_eq!(total.length.likely(), "300 m".parse()?); // 100 × (497 + 3) loops
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
pub fn estimate(tallies: &[Tally], supplies: &[Supply]) -> Result<Estimate, Error> {
    Estimator::new(supplies)?.estimate(tallies)
}

/// Supplies made ready: every rate over one common denominator.
#[derive(Clone, Debug)]
pub struct Estimator {
    rates: Vec<Rates>,
}

impl Estimator {
    /// Makes `supplies` ready.
    ///
    /// # Errors
    /// When a rule lacks a width or a needle, a supply has no fabric, or two share a
    /// name.
    pub fn new(supplies: &[Supply]) -> Result<Self, Error> {
        for (at, supply) in supplies.iter().enumerate() {
            if supplies.iter().take(at).any(|before| before.name() == supply.name()) {
                let allowed = "one supply a yarn";
                return Err(Error::range("the yarn of two supplies", supply.name(), allowed));
            }
        }
        let rates = supplies.iter().map(Rates::new).collect::<Result<_, _>>()?;
        Ok(Self { rates })
    }

    /// As [`estimate`].
    ///
    /// # Errors
    /// As [`estimate`].
    pub fn estimate(&self, tallies: &[Tally]) -> Result<Estimate, Error> {
        let mut pieces = Vec::with_capacity(tallies.len());
        let mut sums: Vec<_> = self.rates.iter().map(|_| Used::default()).collect();
        for tally in tallies {
            let found = self.rates.iter().zip(&mut sums).find(|(r, _)| r.yarn() == tally.yarn);
            let (rates, used) = found.ok_or_else(|| missing(tally))?;
            let sum = rates.sum(tally)?;
            let amount = rates.amount(&sum)?;
            used.total.add(1, &sum);
            used.waste.add(1, &rates.waste(tally)?);
            used.tallies += 1;
            let (piece, yarn) = (tally.piece.clone(), tally.yarn.clone());
            pieces.push(PieceAmount { piece, yarn, amount });
        }
        let (mut totals, mut waste) = (Vec::new(), Amount::ZERO);
        for (rates, used) in self.rates.iter().zip(&sums).filter(|(_, used)| used.tallies > 0) {
            totals.push((rates.yarn().into(), rates.amount(&used.total)?));
            waste = waste.checked_add(&rates.amount(&used.waste)?)?;
        }
        Ok(Estimate { pieces, totals, waste })
    }
}

/// What the tallies took of one supply.
#[derive(Default)]
struct Used {
    total: Sum,
    waste: Sum,
    tallies: usize,
}

fn missing(tally: &Tally) -> Error {
    Error::missing(format!("the piece {:?}", tally.piece), format!("the yarn {:?}", tally.yarn))
}

/// Numerators of low, likely and high, length then mass, over the denominators of one
/// supply's [`Rates`].
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Sum {
    pub(crate) length: [i128; 3],
    pub(crate) mass: [i128; 3],
}

impl Sum {
    /// `n` times `rate` more; the bounds keep it below 2^127.
    pub(crate) fn add(&mut self, n: i128, rate: &Self) {
        if n == 0 {
            return;
        }
        for (sum, rate) in self.length.iter_mut().zip(rate.length) {
            *sum += n * rate;
        }
        for (sum, rate) in self.mass.iter_mut().zip(rate.mass) {
            *sum += n * rate;
        }
    }
}
