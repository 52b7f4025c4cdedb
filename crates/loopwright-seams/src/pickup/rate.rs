//! Pick-up rates: "3 of every 4", and how far each such fraction misses.

use crate::edge::cut_short;
use crate::error::Kind;
#[cfg(feature = "serde")]
use crate::pickup::serial::RawRate;
use crate::{Error, bounds};
use alloc::format;
use alloc::vec::Vec;
use core::fmt;
use core::str::FromStr;
use loopwright_gauge::{Exact, Gauge, Rows, Stitches, choices};

/// So many stitches picked up of so many rows: 3 of every 4.
///
/// # Examples
/// ```
/// use loopwright_seams::Rate;
/// let rate: Rate = "3 of every 4".parse()?;
/// assert_eq!((rate, rate), (Rate::new(3, 4)?, "3/4".parse()?));
/// assert_eq!(rate.exact()?.to_string(), "3/4");
/// assert_eq!(Rate::new(4, 3)?.to_string(), "4 for every 3");
/// # Ok::<(), loopwright_seams::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(try_from = "RawRate", into = "RawRate"))]
pub struct Rate {
    pick: u32,
    of: u32,
}

choices! {
    /// Where a fraction stands in the continued fraction of the exact ratio.
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::Exact;
    /// use loopwright_seams::{RateKind, rates};
    /// let convergents: Vec<String> = rates(Exact::new(10, 13)?, 13)?
    ///     .into_iter()
    ///     .filter(|found| found.kind == RateKind::Convergent)
    ///     .map(|found| found.rate.to_string())
    ///     .collect();
    /// assert_eq!(convergents, ["1 of each", "3 of every 4", "10 of every 13"]);
    /// # Ok::<(), loopwright_seams::Error>(())
    /// ```
    #[non_exhaustive]
    pub enum RateKind: "the kind of a rate" {
        /// A convergent: no fraction with a smaller denominator is so near, even when
        /// each is judged by what it leaves over on its own denominator.
        Convergent = "convergent",
        /// Between two convergents.
        Intermediate = "intermediate",
    }
}

/// A fraction near the exact ratio.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Exact, Rows};
/// use loopwright_seams::{RateKind, rates};
/// let of_88 = rates(Exact::new(71, 88)?, 5)?;
/// let last = of_88.last().unwrap();
/// assert_eq!((last.rate.to_string().as_str(), last.nearest), ("4 of every 5", true));
/// assert_eq!(last.kind, RateKind::Convergent);
/// // Over the whole edge it picks up 70.4 of the 71 wanted.
/// assert_eq!(last.error_over(Rows::new(88)?)?, Exact::new(-3, 5)?);
/// # Ok::<(), loopwright_seams::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct RateCandidate {
    /// The fraction.
    pub rate: Rate,
    /// Where it stands.
    pub kind: RateKind,
    /// Whether no fraction of positive whole numbers whose denominator is no larger is
    /// nearer. Of two that are equally near, one above and one below, both are.
    pub nearest: bool,
    /// The fraction less the exact ratio, in stitches a row.
    pub error: Exact,
}

impl Rate {
    /// `pick` stitches of every `of` rows.
    ///
    /// # Errors
    /// When either is zero or above [`bounds::RATE`].
    pub fn new(pick: u32, of: u32) -> Result<Self, Error> {
        let check = |what, given: u32| {
            if (1..=bounds::RATE).contains(&given) {
                return Ok(());
            }
            Err(Error::range(what, given, format!("in 1..={}", bounds::RATE)))
        };
        check("the count of stitches of a rate", pick)?;
        check("the count of rows of a rate", of)?;
        Ok(Self { pick, of })
    }

    /// How many stitches are picked up of each [`of`](Self::of) rows.
    #[must_use]
    pub const fn pick(self) -> u32 {
        self.pick
    }

    /// Of how many rows.
    #[must_use]
    pub const fn of(self) -> u32 {
        self.of
    }

    /// The rate as a number of stitches a row.
    ///
    /// # Errors
    /// Never for a rate made by [`Rate::new`].
    pub fn exact(self) -> Result<Exact, Error> {
        Ok(Exact::new(self.pick.into(), self.of.into())?)
    }

    /// The fraction of fewest rows that is out by less than `within` stitches over
    /// `rows`, of those with at most `most` rows; when there is none, the nearest.
    ///
    /// # Errors
    /// As [`rates`].
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::{Exact, Rows};
    /// use loopwright_seams::Rate;
    /// let ratio = Exact::new(71, 88)?;
    /// let told = Rate::simplest(ratio, 20, Rows::new(88)?, Exact::ONE)?;
    /// assert_eq!(told.to_string(), "4 of every 5");
    /// # Ok::<(), loopwright_seams::Error>(())
    /// ```
    pub fn simplest(ratio: Exact, most: u32, rows: Rows, within: Exact) -> Result<Self, Error> {
        for candidate in rates(ratio, most)? {
            if candidate.nearest && candidate.error_over(rows)?.abs() < within {
                return Ok(candidate.rate);
            }
        }
        Self::nearest(ratio, most)
    }

    /// The fraction nearest to `ratio` of those with at most `most` rows; of equally
    /// near ones, the one with fewest rows, then with fewest stitches.
    ///
    /// # Errors
    /// As [`rates`].
    ///
    /// # Examples
    /// ```
    /// use loopwright_seams::{Rate, pick_up_ratio};
    /// let plain = "20 x 26 / 10 cm".parse()?;
    /// let ratio = pick_up_ratio(plain, plain)?;
    /// assert_eq!(Rate::nearest(ratio, 8)?, Rate::new(3, 4)?);
    /// assert_eq!(Rate::nearest(ratio, 20)?, Rate::new(10, 13)?);
    /// # Ok::<(), loopwright_seams::Error>(())
    /// ```
    pub fn nearest(ratio: Exact, most: u32) -> Result<Self, Error> {
        let found = rates(ratio, most)?;
        // The first of equals has the fewest rows, and of whole numbers the fewest stitches.
        let nearest = found.iter().min_by_key(|candidate| candidate.error.abs());
        nearest.map(|candidate| candidate.rate).ok_or_else(|| refuse(ratio))
    }
}

impl RateCandidate {
    /// How many stitches too many (or too few, below zero) the rate gives over
    /// `rows`.
    ///
    /// # Errors
    /// When the number cannot be held exactly.
    pub fn error_over(self, rows: Rows) -> Result<Exact, Error> {
        Ok(self.error.checked_mul(rows.get().into())?)
    }
}

impl fmt::Display for Rate {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match (self.pick, self.of) {
            (pick, 1) => write!(f, "{pick} of each"),
            (pick, of) if pick > of => write!(f, "{pick} for every {of}"),
            (pick, of) => write!(f, "{pick} of every {of}"),
        }
    }
}

/// "3 of every 4", "3 of 4", "3/4", "4 for every 3", "2 of each".
impl FromStr for Rate {
    type Err = Error;

    fn from_str(text: &str) -> Result<Self, Error> {
        let unreadable = || Error(Kind::UnreadableRate { text: cut_short(text) });
        let number = |word: &str| word.trim().parse::<u32>().map_err(|_| unreadable());
        if let Some((pick, of)) = text.split_once('/') {
            return Self::new(number(pick)?, number(of)?);
        }
        let words: Vec<&str> = text.split_whitespace().collect();
        match words.as_slice() {
            [pick, "of" | "for", "each"] => Self::new(number(pick)?, 1),
            [pick, "of" | "for", of] | [pick, "of" | "for", "every", of] => {
                Self::new(number(pick)?, number(of)?)
            }
            _ => Err(unreadable()),
        }
    }
}

/// Stitches to pick up for each row of `fabric`, at the gauge of `band`.
///
/// The stitches of the band in a length over the rows of the fabric in the same
/// length.
///
/// # Errors
/// When the ratio cannot be held exactly.
///
/// # Examples
/// ```
/// use loopwright_seams::pick_up_ratio;
/// let ratio = pick_up_ratio("21 x 28 / 10 cm".parse()?, "21 x 28 / 10 cm".parse()?)?;
/// assert_eq!(ratio.to_string(), "3/4");
/// # Ok::<(), loopwright_seams::Error>(())
/// ```
pub fn pick_up_ratio(fabric: Gauge, band: Gauge) -> Result<Exact, Error> {
    Ok(band.per_mm::<Stitches>()?.checked_div(fabric.per_mm::<Rows>()?)?)
}

/// Every convergent and intermediate fraction of `ratio` with at most `most` rows,
/// by growing denominator.
///
/// The fractions nearest to a number for their size are all among these (A. Ya.
/// Khinchin, *Continued Fractions*, theorem 15), so no better rate is left out.
/// Fractions that pick up nothing are.
///
/// # Errors
/// When `ratio` is not above zero or above [`bounds::RATE`], or `most` is not in
/// `1..=bounds::RATE`.
///
/// # Examples
/// ```
/// use loopwright_gauge::Exact;
/// use loopwright_seams::rates;
/// let found = rates(Exact::new(10, 13)?, 13)?;
/// let told: Vec<String> = found.iter().map(|found| found.rate.to_string()).collect();
/// assert_eq!(told.last().unwrap(), "10 of every 13");
/// assert!(told.contains(&"3 of every 4".to_owned()));
/// # Ok::<(), loopwright_seams::Error>(())
/// ```
pub fn rates(ratio: Exact, most: u32) -> Result<Vec<RateCandidate>, Error> {
    if !ratio.is_positive() || ratio > Exact::from(bounds::RATE) {
        return Err(refuse(ratio));
    }
    if !(1..=bounds::RATE).contains(&most) {
        let allowed = format!("in 1..={}", bounds::RATE);
        return Err(Error::range("the largest count of rows of a rate", most, allowed));
    }
    let mut found = Vec::new();
    for (pick, of, kind) in fractions(ratio, most) {
        let rate = Rate { pick, of };
        let error = rate.exact()?.checked_sub(ratio)?;
        found.push(RateCandidate { rate, kind, nearest: false, error });
    }
    mark_nearest(&mut found);
    Ok(found)
}

fn refuse(ratio: Exact) -> Error {
    let allowed = format!("above 0 and at most {}", bounds::RATE);
    Error::range("the ratio of stitches to rows", ratio, allowed)
}

/// Numerators and denominators from the continued fraction, by Euclid's algorithm.
fn fractions(ratio: Exact, most: u32) -> Vec<(u32, u32, RateKind)> {
    let (mut numer, mut denom) = (i128::from(ratio.numer()), i128::from(ratio.denom()));
    let (mut before, mut last) = ((0_i128, 1_i128), (1_i128, 0_i128));
    let mut found = Vec::new();
    while denom != 0 {
        let quotient = numer / denom;
        // Whole numbers below the first convergent are never of use.
        let first = if last.1 == 0 { quotient } else { 1 };
        for times in first..=quotient {
            let (pick, of) = (before.0 + times * last.0, before.1 + times * last.1);
            if of > i128::from(most) {
                return found;
            }
            let whole = times == quotient;
            let kind = if whole { RateKind::Convergent } else { RateKind::Intermediate };
            if let (Ok(pick @ 1..), Ok(of)) = (u32::try_from(pick), u32::try_from(of)) {
                found.push((pick, of, kind));
            }
        }
        (before, last) = (last, (before.0 + quotient * last.0, before.1 + quotient * last.1));
        (numer, denom) = (denom, numer % denom);
    }
    found
}

/// The denominators grow, so a fraction is nearest when none before it is nearer; only
/// whole numbers, of one row, can share a denominator.
fn mark_nearest(found: &mut [RateCandidate]) {
    let mut least: Option<Exact> = None;
    for candidate in found.iter_mut() {
        let error = candidate.error.abs();
        candidate.nearest = least.is_none_or(|least| error <= least);
        least = Some(least.map_or(error, |least| least.min(error)));
    }
    if let [first, second, ..] = found
        && first.rate.of == second.rate.of
    {
        first.nearest = first.error.abs() <= second.error.abs();
    }
}
