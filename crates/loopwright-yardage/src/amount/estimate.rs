use super::rates::Rates;
use super::sum::Sum;
use crate::{Amount, Error, Supply, Tally};
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// The yarn of one tally: what [`Estimate::pieces`] lists.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Length, Spread, Stitches};
/// use loopwright_yardage::{LoopLength, Supply, Tally, estimate};
/// let loops = LoopLength::stated(Spread::exactly(Length::mm(10)?))?;
/// let supply = Supply::new("main", "100 tex".parse()?).fabric("plain", loops);
/// let pocket = Tally::new("pocket").stitches("plain", Stitches::new(1_000)?);
/// let piece = &estimate(&[pocket], &[supply])?.pieces[0];
/// assert_eq!((piece.piece.as_str(), piece.yarn.as_str()), ("pocket", "main"));
/// assert_eq!(piece.amount.length.likely(), "10 m".parse()?);
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct PieceAmount {
    /// The piece.
    pub piece: String,
    /// The yarn.
    pub yarn: String,
    /// How much of it.
    pub amount: Amount,
}

/// The yarn of a whole garment: what [`estimate()`] answers.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Length, Spread, Stitches};
/// use loopwright_yardage::{LoopLength, Mass, Supply, Tally, estimate};
/// let loops = LoopLength::stated(Spread::exactly(Length::mm(10)?))?;
/// let supply = Supply::new("main", "100 tex".parse()?).fabric("plain", loops);
/// let sleeve = Tally::new("sleeve").stitches("plain", Stitches::new(9_000)?).times(2);
/// let answer = estimate(&[sleeve], &[supply])?;
/// assert_eq!(answer.total("main").map(|total| total.mass.likely()), Some(Mass::g(18)?));
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
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
/// Every amount is a sum of counts times rates (see [`Supply`]): exact, or with rates
/// widened outwards to the nanometre and picogram where odd fractions meet. Estimating many tallies from the same supplies is
/// quicker with [`Estimator`].
///
/// # Errors
/// When a tally names a yarn or fabric that no supply knows, a count is above
/// [`bounds::STITCHES`](crate::bounds::STITCHES), or an amount cannot be held.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Length, Rows, Spread, Stitches};
/// use loopwright_yardage::{LoopLength, Supply, Tally, Yarn, estimate};
/// let yarn: Yarn = "2/28 Nm".parse()?;
/// let loops = LoopLength::stated(Spread::exactly(Length::mm(6)?))?;
/// let supply = Supply::new("main", yarn.resultant()?).fabric("plain", loops);
/// let scarf = Tally::rectangle("scarf", "plain", Stitches::new(100)?, Rows::new(497)?);
/// let answer = estimate(&[scarf], &[supply])?;
/// let total = answer.total("main").expect("the main yarn was used");
/// assert_eq!(total.length.likely(), "300 m".parse()?); // 100 × (497 + 3) loops
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
pub fn estimate(tallies: &[Tally], supplies: &[Supply]) -> Result<Estimate, Error> {
    Estimator::new(supplies)?.estimate(tallies)
}

/// Supplies made ready: every rate over one common denominator.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Length, Rows, Spread, Stitches};
/// use loopwright_yardage::{Estimator, LoopLength, Supply, Tally};
/// let loops = LoopLength::stated(Spread::exactly(Length::mm(10)?))?;
/// let supply = Supply::new("main", "100 tex".parse()?).fabric("plain", loops);
/// let estimator = Estimator::new(&[supply])?;
/// for (rows, metres) in [(7, "2 m"), (17, "4 m")] {
///     let swatch = Tally::rectangle("swatch", "plain", Stitches::new(20)?, Rows::new(rows)?);
///     let answer = estimator.estimate(&[swatch])?;
///     assert_eq!(answer.pieces[0].amount.length.likely(), metres.parse()?);
/// }
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
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
