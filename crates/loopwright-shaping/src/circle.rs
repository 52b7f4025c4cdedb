//! Circles, crowns, shawls: counts by round, as closed forms.

use crate::bounds::{COUNT, range};
use crate::error::{Error, Remedy};
use crate::words::stitches as stitches_noun;
use alloc::format;
use loopwright_gauge::{Exact, Gauge, Length, Round, Rows, Stitches};

/// π, as the convergent 245850922/78256779 of its continued fraction: less than
/// 10^-16 away, so a count within [`COUNT`](crate::bounds::COUNT) is off by less than
/// 10^-9 of a stitch.
fn pi() -> Result<Exact, Error> {
    Ok(Exact::new(245_850_922, 78_256_779)?)
}

fn count(exact: Exact, what: &'static str, round: Round) -> Result<u32, Error> {
    let whole = exact.to_whole(round)?;
    let refuse = || Error::range(what, &whole, format!("in 0..={COUNT}"));
    u32::try_from(whole).ok().filter(|&n| n <= COUNT).ok_or_else(refuse)
}

/// A flat circle in rounds from its centre.
///
/// A round `r` rows out is `2π r` rows long, so every round has `2π` times stitch
/// gauge over row gauge stitches more than the one before, whatever the radius.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Round, Rows};
/// use loopwright_shaping::Circle;
/// let circle = Circle::flat("8x10/1in".parse()?)?;
/// assert_eq!(circle.growth_by(Round::HalfUp)?.get(), 5);
/// assert_eq!(circle.count_at(Rows::new(12)?, Round::HalfUp)?.get(), 60);
/// # Ok::<(), loopwright_shaping::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(try_from = "crate::serial::CircleParts"))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Circle {
    pub(crate) growth: Exact,
}

impl Circle {
    /// The circle that lies flat at `gauge`.
    ///
    /// # Errors
    /// When the growth cannot be held exactly.
    pub fn flat(gauge: Gauge) -> Result<Self, Error> {
        let ratio = gauge.per_mm::<Stitches>()?.checked_div(gauge.per_mm::<Rows>()?)?;
        Ok(Self { growth: ratio.checked_mul(Exact::whole(2))?.checked_mul(pi()?)? })
    }

    /// Stitches that every round has more than the one before.
    #[must_use]
    pub const fn growth(&self) -> Exact {
        self.growth
    }

    /// The growth as a whole number of increases in every round.
    ///
    /// # Errors
    /// When it is out of range, or [`Round::Exact`] meets a remainder.
    pub fn growth_by(&self, round: Round) -> Result<Stitches, Error> {
        Ok(Stitches::new(count(self.growth, "the growth of a circle", round)?)?)
    }

    /// The stitches of a round, the first round from the centre being 1.
    ///
    /// # Errors
    /// When they are out of range, or [`Round::Exact`] meets a remainder.
    pub fn count_at(&self, nth: Rows, round: Round) -> Result<Stitches, Error> {
        let exact = self.growth.checked_mul(Exact::from(nth))?;
        Ok(Stitches::new(count(exact, "the stitches of a round", round)?)?)
    }
}

/// A disc knitted sideways in equal slices of short rows: the radius is stitches, the
/// rim is rows.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Length, Round};
/// use loopwright_shaping::Slices;
/// let disc = Slices::new(Length::inches(44)?, "4x6/1in".parse()?, 5, Round::HalfUp)?;
/// assert_eq!((disc.stitches.get(), disc.rows_each.get()), (88, 166));
/// # Ok::<(), loopwright_shaping::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct Slices {
    /// Stitches from the centre to the rim.
    pub stitches: Stitches,
    /// Rows of one slice at the rim.
    pub rows_each: Rows,
}

impl Slices {
    /// A disc of this diameter in so many slices.
    ///
    /// # Errors
    /// When there is no slice, or a count is out of range or not whole.
    pub fn new(diameter: Length, gauge: Gauge, slices: u32, round: Round) -> Result<Self, Error> {
        range::count("the number of slices", slices, 1)?;
        let radius = diameter.scaled(Exact::new(1, 2)?)?;
        let rim = gauge.count_in::<Rows>(diameter)?.checked_mul(pi()?)?;
        let each = rim.checked_div(slices.into())?;
        let stitches =
            count(gauge.count_in::<Stitches>(radius)?, "the stitches of a slice", round)?;
        let rows = count(each, "the rows of a slice", round)?;
        Ok(Self { stitches: Stitches::new(stitches)?, rows_each: Rows::new(rows)? })
    }
}

/// A crown: so many lines, each losing one stitch in every shaping round.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Rows, Stitches};
/// use loopwright_shaping::Crown;
/// let hat = Crown::new(Stitches::new(88)?, 8, Rows::new(2)?, Stitches::new(8)?)?;
/// let told: Vec<(u32, u32)> = hat.rounds().map(|(nth, left)| (nth.get(), left.get())).collect();
/// assert_eq!((told[0], told[1], told[9]), ((1, 80), (3, 72), (19, 8)));
/// # Ok::<(), loopwright_shaping::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(try_from = "crate::serial::CrownParts"))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Crown {
    pub(crate) stitches: u32,
    pub(crate) lines: u32,
    pub(crate) every: u32,
    pub(crate) shapings: u32,
}

impl Crown {
    /// A crown of `lines` lines that shapes in round 1 and every `every`th round from
    /// it, until at most `until` stitches are left or a line has no stitch to lose.
    ///
    /// # Errors
    /// When there is no line or no round; or when the stitches are not a multiple of
    /// the lines, with the number to lose first.
    pub fn new(
        stitches: Stitches,
        lines: u32,
        every: Rows,
        until: Stitches,
    ) -> Result<Self, Error> {
        range::count("the crown lines", lines, 1)?;
        let every = range::count("the period of shaping rounds", every.get(), 1)?;
        let all = stitches.get();
        if !all.is_multiple_of(lines) {
            let over = all % lines;
            let st = stitches_noun(all);
            let why = match all - over {
                0 => format!("{all} {st} are too few for {lines} crown lines"),
                even => format!("{all} {st} do not divide into {lines} crown lines: {even} do"),
            };
            let remedy = Remedy { more_rows: None, fewer_stitches: Some(Stitches::clamped(over)) };
            return Err(Error::told(why, remedy));
        }
        let lose = all.saturating_sub(until.get().max(lines));
        let shapings = lose.div_ceil(lines);
        let last = 1 + u64::from(every) * u64::from(shapings.saturating_sub(1));
        if last > COUNT.into() {
            let allowed = format!("at most {COUNT} with these rounds between");
            return Err(Error::range("the number of the last round of the crown", &last, allowed));
        }
        Ok(Self { stitches: all, lines, every, shapings })
    }

    /// The shaping rounds in order, each with the stitches left after it.
    #[must_use]
    pub fn rounds(
        &self,
    ) -> impl DoubleEndedIterator<Item = (Rows, Stitches)> + ExactSizeIterator + use<> {
        let Self { stitches, lines, every, shapings } = *self;
        (0..shapings).map(move |i| {
            (Rows::clamped(1 + i * every), Stitches::clamped(stitches - (i + 1) * lines))
        })
    }

    /// The stitches left after a round.
    #[must_use]
    pub fn count_at(&self, nth: Rows) -> Stitches {
        let shaped = nth.get().div_ceil(self.every).min(self.shapings);
        Stitches::clamped(self.stitches - shaped * self.lines)
    }
}

/// A circle that doubles its stitches each time its radius has doubled.
///
/// # Examples
/// ```
/// use loopwright_gauge::Stitches;
/// use loopwright_shaping::Doubling;
/// let shawl = Doubling::new(Stitches::new(9)?)?;
/// let rings = shawl.rings().take(3).map(|(stitches, plain)| (stitches.get(), plain.get()));
/// assert_eq!(rings.collect::<Vec<_>>(), [(9, 1), (18, 3), (36, 6)]);
/// # Ok::<(), loopwright_shaping::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(try_from = "crate::serial::DoublingParts"))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Doubling {
    start: u32,
}

impl Doubling {
    /// A shawl that starts with so many stitches.
    ///
    /// # Errors
    /// When there are none.
    pub fn new(start: Stitches) -> Result<Self, Error> {
        Ok(Self { start: range::count("the stitches of the first round", start.get(), 1)? })
    }

    /// Each ring's stitches and the plain rounds worked on them, as long as the
    /// stitches are in range.
    pub fn rings(&self) -> impl Iterator<Item = (Stitches, Rows)> + use<> {
        let start = self.start;
        (0..24_u32).map_while(move |k| {
            let stitches = start.checked_mul(1 << k).filter(|&n| n <= COUNT)?;
            let plain = if k == 0 { 1 } else { 3 << (k - 1) };
            Some((Stitches::clamped(stitches), Rows::clamped(plain)))
        })
    }
}

/// Stitches that grow by the same number every so many rows or rounds: triangles and
/// pieces worked from the centre out.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Rows, Stitches};
/// use loopwright_shaping::RowGrowth;
/// let centre_out = RowGrowth::new(Stitches::new(8)?, Stitches::new(8)?, Rows::new(2)?)?;
/// let last = Rows::new(16)?;
/// assert_eq!((centre_out.count_at(last), centre_out.total(last)), (64, 576));
/// # Ok::<(), loopwright_shaping::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(try_from = "crate::serial::RowGrowthParts"))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct RowGrowth {
    start: u32,
    by: u32,
    every: u32,
}

impl RowGrowth {
    /// `start` stitches in row 1, `by` more after every `every` rows.
    ///
    /// # Errors
    /// When no rows lie between increases.
    pub fn new(start: Stitches, by: Stitches, every: Rows) -> Result<Self, Error> {
        Ok(Self {
            start: start.get(),
            by: by.get(),
            every: range::count("the rows between increases", every.get(), 1)?,
        })
    }

    /// The stitches of a row, the first being 1.
    #[must_use]
    pub fn count_at(&self, row: Rows) -> u64 {
        let grown = u64::from(row.get().saturating_sub(1) / self.every);
        u64::from(self.start) + u64::from(self.by) * grown
    }

    /// The stitches of rows 1 to `rows` together: the sum of an arithmetic series, each
    /// of its numbers `every` times, and a part of the last.
    #[must_use]
    pub fn total(&self, rows: Rows) -> u128 {
        let rows = rows.get();
        let (steps, rest) = (u128::from(rows / self.every), u128::from(rows % self.every));
        let [start, by, every] = [self.start, self.by, self.every].map(u128::from);
        let series = start * steps + by * (steps * steps.saturating_sub(1) / 2);
        every * series + rest * (start + by * steps)
    }
}

/// The rows of a right-angled triangle shawl of this depth, worked from the point of
/// its right angle with 4 stitches more in 2 rows: the depth over √2, in rows.
///
/// The square root is never taken: the whole number is found by comparing squares.
///
/// # Errors
/// When the depth is negative or too large; or when [`Round::Exact`] is asked for,
/// since √2 is never whole, or [`Round::HalfEven`].
///
/// # Examples
/// ```
/// use loopwright_gauge::{Length, Round};
/// use loopwright_shaping::triangle_rows;
/// let rows = triangle_rows(Length::inches(40)?, "5x7/1in".parse()?, Round::HalfUp)?;
/// assert_eq!(rows.get(), 198); // 40 / 1.41421 * 7 = 197.99
/// # Ok::<(), loopwright_shaping::Error>(())
/// ```
pub fn triangle_rows(depth: Length, gauge: Gauge, round: Round) -> Result<Rows, Error> {
    let allowed = || format!("in 0..={COUNT} rows");
    let rows = gauge.count_in::<Rows>(depth)?;
    if rows < Exact::ZERO || rows > Exact::from(COUNT) {
        return Err(Error::range("the depth of the triangle", &format!("{rows} rows"), allowed()));
    }
    // floor(sqrt(n^2 / 2 d^2)), and the same of twice the rows, for the half.
    let root = |scale: u128| {
        let numer = u128::from(rows.numer().unsigned_abs()) * scale;
        let denom = u128::from(rows.denom().unsigned_abs());
        Some((numer.checked_mul(numer)? / denom.checked_mul(denom)?.checked_mul(2)?).isqrt())
    };
    let refuse = || Error::range("the depth of the triangle", &depth, "a simpler fraction");
    let floor = root(1).ok_or_else(refuse)?;
    let whole = match round {
        Round::Floor => floor,
        Round::Ceil => floor + u128::from(rows.is_positive()),
        Round::HalfUp | Round::HalfDown | Round::HalfEven => {
            u128::midpoint(root(2).ok_or_else(refuse)?, 1)
        }
        Round::Exact if rows.is_zero() => 0,
        Round::Exact => {
            let given = "exact";
            return Err(Error::range("the rounding of a triangle", &given, "one that rounds"));
        }
    };
    let whole = u32::try_from(whole)
        .map_err(|_| Error::range("the rows of the triangle", &whole, allowed()))?;
    Ok(Rows::new(whole)?)
}
