use crate::error::Kind;
use crate::{Amount, Error, LinearDensity, LoopLength, Mass, Measure, Spread};
use alloc::string::ToString;
use loopwright_gauge::{Exact, Length};

/// Yarn that is left, and what of it must not be touched.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub struct Remainder {
    left: Measure,
    read_to: Mass,
    reserve: Option<Measure>,
}

impl Remainder {
    /// Yarn whose amount is known as it stands.
    #[must_use]
    pub const fn new(left: Measure) -> Self {
        Self { left, read_to: Mass::ZERO, reserve: None }
    }

    /// A ball weighed on a balance that reads to `read_to`.
    #[must_use]
    pub const fn weighed(left: Mass, read_to: Mass) -> Self {
        Self { left: Measure::Mass(left), read_to, reserve: None }
    }

    /// The same remainder with `reserve` kept back for an edging.
    #[must_use]
    pub const fn reserve(self, reserve: Measure) -> Self {
        Self { reserve: Some(reserve), ..self }
    }

    /// How many stitches of a fabric it knits, unrounded: the least is the yarn at its
    /// lightest in stitches at their longest.
    ///
    /// A stitch that was weighed is set against weight, any other against length.
    ///
    /// # Errors
    /// When the remainder does not cover its reserve, or a figure cannot be held exactly.
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::{Exact, Length};
    /// use loopwright_yardage::{LinearDensity, LoopLength, Remainder, Spread};
    /// let yarn: LinearDensity = "400 m/100 g".parse()?;
    /// let loops = LoopLength::stated(Spread::exactly(Length::mm(10)?))?;
    /// let ball = Remainder::new("63 g".parse()?).reserve("13 g".parse()?);
    /// assert_eq!(ball.stitches(&loops, yarn)?.likely(), Exact::whole(20_000));
    /// # Ok::<(), loopwright_yardage::Error>(())
    /// ```
    pub fn stitches(
        &self,
        loops: &LoopLength,
        yarn: LinearDensity,
    ) -> Result<Spread<Exact>, Error> {
        let left = self.mass(yarn)?;
        let mass = loops.mass(yarn)?;
        Ok(Spread::new(
            left.low().ratio(mass.high())?,
            left.likely().ratio(mass.likely())?,
            left.high().ratio(mass.low())?,
        )?)
    }

    /// What it weighs without its reserve.
    ///
    /// # Errors
    /// When it does not cover its reserve, or the mass cannot be held exactly.
    pub fn mass(&self, yarn: LinearDensity) -> Result<Spread<Mass>, Error> {
        let left = self.left.mass(yarn)?;
        let reserve = self.reserve.map_or(Ok(Mass::ZERO), |kept| kept.mass(yarn))?;
        let half = self.read_to.scaled(Exact::new(1, 2)?)?;
        if left < reserve {
            let (have, reserve) = (left.to_string(), reserve.to_string());
            return Err(Kind::Reserved { have, reserve }.into());
        }
        let net = left.checked_sub(reserve)?;
        let low = if half < net { net.checked_sub(half)? } else { Mass::ZERO };
        Ok(Spread::new(low, net, net.checked_add(half)?)?)
    }
}

/// Which of several sizes a remainder is enough for.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
#[non_exhaustive]
pub struct Fits {
    /// The place of the largest size whose high amount the yarn covers.
    pub surely: Option<usize>,
    /// The place of the largest size whose likely amount the yarn covers.
    pub likely: Option<usize>,
}

/// The largest size that the yarn is enough for: of those it covers, the one that takes
/// most, the earlier of two that take the same.
///
/// Weight is compared with weight, length with length.
///
/// # Examples
/// ```
/// use loopwright_yardage::{Amount, LinearDensity, Mass, Spread, largest_size};
/// let yarn: LinearDensity = "400 m/100 g".parse()?;
/// let size = |low, likely, high| {
///     let mass = Spread::new(Mass::g(low)?, Mass::g(likely)?, Mass::g(high)?)?;
///     Ok::<_, loopwright_yardage::Error>(Amount::new(mass.map(|m| yarn.length_of(m))?, mass))
/// };
/// let sizes = [size(180, 200, 230)?, size(205, 230, 260)?, size(235, 260, 290)?];
/// let fits = largest_size(&sizes, "240 g".parse()?);
/// assert_eq!((fits.surely, fits.likely), (Some(0), Some(1)));
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
#[must_use]
pub fn largest_size(sizes: &[Amount], have: Measure) -> Fits {
    let spread = |size: &Amount| match have {
        Measure::Length(_) => size.length.parts().map(Length::millimetres),
        Measure::Mass(_) => size.mass.parts().map(Mass::grams),
    };
    let have = match have {
        Measure::Length(length) => length.millimetres(),
        Measure::Mass(mass) => mass.grams(),
    };
    Fits {
        surely: largest(sizes.iter().map(|size| spread(size)[2]), have),
        likely: largest(sizes.iter().map(|size| spread(size)[1]), have),
    }
}

fn largest(needs: impl Iterator<Item = Exact>, have: Exact) -> Option<usize> {
    let mut best: Option<(usize, Exact)> = None;
    for (at, need) in needs.enumerate() {
        if need <= have && best.is_none_or(|(_, most)| need > most) {
            best = Some((at, need));
        }
    }
    best.map(|(at, _)| at)
}
