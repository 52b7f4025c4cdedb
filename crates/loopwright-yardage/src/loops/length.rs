use crate::grid;
use crate::{Error, Factor, LinearDensity, Mass, Spread, bounds};
use alloc::format;
use core::fmt;
use loopwright_gauge::{Exact, Length, Round, choices};

choices! {
    /// What a loop length was found from, the most direct first.
    ///
    /// # Examples
    /// ```
    /// use loopwright_yardage::Source;
    /// assert!(Source::Unravelled < Source::Stated && Source::Stated < Source::Model);
    /// ```
    #[derive(Ord, PartialOrd)]
    #[non_exhaustive]
    pub enum Source: "what a loop length was found from" {
        /// The yarn of counted stitches was unravelled and measured.
        Unravelled = "unravelled stitches",
        /// A counted swatch was weighed, and its yarn's tex is known.
        Weighed = "a weighed swatch",
        /// Another fabric's loop length times a factor that was measured.
        MeasuredFactor = "a measured factor on another fabric",
        /// Stated by the user, without saying how it was found.
        Stated = "a stated loop length",
        /// The loop model on a gauge, within the yarns and tightness it was measured on.
        Model = "the loop model on the gauge",
        /// The loop model on a gauge, beyond what it was measured on.
        Extrapolated = "the loop model on the gauge, extrapolated to this yarn",
        /// Another fabric's loop length times a factor from the table.
        TabledFactor = "a tabled factor on another fabric",
    }
}

/// The yarn in one stitch of a fabric: its loop length, with its spread.
///
/// Loop length and tex survive washing, gauge does not: a loop length may be
/// carried from an unwashed swatch to the washed garment, stitch and row counts may
/// not. When the evidence was a weight, the mass in one stitch is kept too, free of
/// any doubt about the tex.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Length, Spread};
/// use loopwright_yardage::{LoopLength, Source};
/// let length = Spread::new(Length::mm(14)?, Length::mm(15)?, Length::mm(17)?)?;
/// let loops = LoopLength::stated(length)?;
/// assert_eq!((loops.length(), loops.source()), (length, Source::Stated));
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(try_from = "Raw", into = "Raw"))]
pub struct LoopLength {
    length: Spread<Length>,
    mass: Option<Spread<Mass>>,
    source: Source,
}

impl LoopLength {
    /// A loop length that the caller answers for.
    ///
    /// # Errors
    /// When it is not above zero, or above [`bounds::LOOP_MM`].
    pub fn stated(length: Spread<Length>) -> Result<Self, Error> {
        Self::new(length, None, Source::Stated)
    }

    pub(crate) fn new(
        length: Spread<Length>,
        mass: Option<Spread<Mass>>,
        source: Source,
    ) -> Result<Self, Error> {
        let most = Length::mm(bounds::LOOP_MM)?;
        match length.parts().into_iter().find(|&l| !l.is_positive() || l > most) {
            None => Ok(Self { length, mass, source }),
            Some(given) => {
                let allowed = format!("above zero and at most {} mm", bounds::LOOP_MM);
                Err(Error::range("the loop length", given, allowed))
            }
        }
    }

    /// Yarn in one stitch.
    #[must_use]
    pub const fn length(&self) -> Spread<Length> {
        self.length
    }

    /// Mass in one stitch, when the evidence was a weight.
    #[must_use]
    pub const fn weighed(&self) -> Option<Spread<Mass>> {
        self.mass
    }

    /// Mass in one stitch of this yarn: as weighed, or the loop length times the tex, to
    /// the picogram outwards where it cannot be held exactly.
    ///
    /// # Errors
    /// When it is out of bounds.
    pub fn mass(&self, yarn: LinearDensity) -> Result<Spread<Mass>, Error> {
        match self.mass {
            Some(mass) => Ok(mass),
            None => yarn.masses_of(self.length),
        }
    }

    /// What so many stitches of this yarn weigh; outwards to the picogram where it cannot be
    /// held exactly.
    ///
    /// # Errors
    /// When `stitches` is below zero, or the mass is out of bounds.
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::{Exact, Length};
    /// use loopwright_yardage::{LoopLength, Mass, Spread};
    /// let loops = LoopLength::stated(Spread::exactly(Length::mm(10)?))?;
    /// let weight = loops.mass_of(Exact::whole(5_000), "100 tex".parse()?)?;
    /// assert_eq!(weight.likely(), Mass::g(5)?);
    /// # Ok::<(), loopwright_yardage::Error>(())
    /// ```
    pub fn mass_of(&self, stitches: Exact, yarn: LinearDensity) -> Result<Spread<Mass>, Error> {
        if stitches < Exact::ZERO {
            return Err(Error::range("the count of stitches", stitches, "zero or more"));
        }
        grid::outwards(self.mass(yarn)?, |mass, round| mass.times(stitches, round))
    }

    /// What it was found from.
    #[must_use]
    pub const fn source(&self) -> Source {
        self.source
    }

    /// The loop length of another fabric in the same yarn, by the factor between
    /// their stitches.
    ///
    /// # Errors
    /// When the result is out of bounds.
    pub fn by_factor(&self, factor: &Factor) -> Result<Self, Error> {
        let [low, likely, high] = self.length.parts();
        let by = factor.spread();
        let length = grid::between(
            length_times(low, by.low(), Round::Floor)?,
            length_times(likely, by.likely(), Round::HalfUp)?,
            length_times(high, by.high(), Round::Ceil)?,
        )?;
        let source = if factor.measured { Source::MeasuredFactor } else { Source::TabledFactor };
        Self::new(length, None, source.max(self.source))
    }

    /// How this loop length and another of the same fabric agree.
    ///
    /// # Errors
    /// When one is more than a million million times the other.
    pub fn compare(&self, other: &Self) -> Result<Agreement, Error> {
        let mm = |loops: &Self| loops.length.likely().millimetres();
        let ratio = grid::SHARE.quotient(mm(other), mm(self), Round::HalfUp)?;
        Ok(Agreement {
            sources: [self.source, other.source],
            difference: grid::SHARE.difference(ratio, Exact::ONE, Round::HalfUp)?,
            overlap: self.length.overlaps(&other.length),
        })
    }

    /// The most direct of several findings on one fabric (the narrowest, among
    /// equals), and how each of the others agrees with it, in the order given.
    ///
    /// # Errors
    /// When `findings` is empty.
    pub fn best(findings: &[Self]) -> Result<(Self, alloc::vec::Vec<Agreement>), Error> {
        let mut chosen: Option<(usize, &Self)> = None;
        for (at, finding) in findings.iter().enumerate() {
            let better = match chosen {
                None => true,
                Some((_, so_far)) => finding.rank()? < so_far.rank()?,
            };
            if better {
                chosen = Some((at, finding));
            }
        }
        let (place, best) =
            chosen.ok_or_else(|| Error::missing("the fabric", "a loop length to choose from"))?;
        let others = findings.iter().enumerate().filter(|&(at, _)| at != place);
        let agreements = others.map(|(_, other)| best.compare(other)).collect::<Result<_, _>>()?;
        Ok((*best, agreements))
    }

    fn rank(&self) -> Result<(Source, Exact), Error> {
        let [low, _, high] = self.length.parts().map(Length::millimetres);
        Ok((self.source, grid::LENGTH.difference(high, low, Round::Ceil)?))
    }
}

/// `length`, `factor` times, to the nanometre where it cannot be held exactly.
pub(crate) fn length_times(length: Length, factor: Exact, round: Round) -> Result<Length, Error> {
    Ok(Length::from_millimetres(grid::LENGTH.product(length.millimetres(), factor, round)?)?)
}

/// How two findings of one loop length agree.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Length, Spread};
/// use loopwright_yardage::LoopLength;
/// let stated = |mm| LoopLength::stated(Spread::exactly(Length::mm(mm)?));
/// let agreement = stated(10)?.compare(&stated(12)?)?;
/// assert!(!agreement.overlap);
/// assert!(agreement.to_string().ends_with("disagree: the second is 20 % longer"));
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct Agreement {
    /// What the two were found from.
    pub sources: [Source; 2],
    /// How far the second lies from the first, as a fraction: -1/10 is 10 % shorter.
    pub difference: Exact,
    /// Whether their spreads have a value in common.
    pub overlap: bool,
}

impl fmt::Display for Agreement {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let [first, second] = self.sources;
        let verdict = if self.overlap { "agree" } else { "disagree" };
        let side = if self.difference < Exact::ZERO { "shorter" } else { "longer" };
        write!(f, "{first} and {second} {verdict}: the second is ")?;
        let thousandth = Exact::literal(1, 1_000);
        let share = self.difference.abs().snapped(thousandth, Round::HalfUp);
        let percent = share.and_then(|share| share.checked_mul(Exact::literal(100, 1)));
        write!(f, "{}", percent.map_err(|_| fmt::Error)?.decimal(1))?;
        write!(f, " % {side}")
    }
}

/// A value as it is written.
#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
struct Raw {
    length: Spread<Length>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    weighed: Option<Spread<Mass>>,
    source: Source,
}

#[cfg(feature = "serde")]
impl TryFrom<Raw> for LoopLength {
    type Error = Error;

    fn try_from(raw: Raw) -> Result<Self, Error> {
        Self::new(raw.length, raw.weighed, raw.source)
    }
}

#[cfg(feature = "serde")]
impl From<LoopLength> for Raw {
    fn from(value: LoopLength) -> Self {
        Self { length: value.length, weighed: value.mass, source: value.source }
    }
}
