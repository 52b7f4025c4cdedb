use crate::error::Kind;
use crate::grid;
use crate::{Amount, Error, LinearDensity, LoopLength, Mass, Spread, YarnQuantity};
use alloc::string::ToString;
use loopwright_gauge::{Exact, Length, Round};

/// Yarn that is left, and what of it must not be touched.
///
/// # Examples
/// ```
/// use loopwright_yardage::{Mass, Remainder};
/// let ball = Remainder::weighed(Mass::g(31)?, Mass::g(2)?).reserve("5 g".parse()?);
/// let net = ball.mass("100 tex".parse()?)?;
/// assert_eq!(net.parts(), [Mass::g(25)?, Mass::g(26)?, Mass::g(27)?]);
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
pub struct Remainder {
    left: YarnQuantity,
    #[cfg_attr(feature = "serde", serde(default))]
    read_to: Mass,
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    reserve: Option<YarnQuantity>,
}

impl Remainder {
    /// Yarn whose amount is known as it stands.
    #[must_use]
    pub const fn new(left: YarnQuantity) -> Self {
        Self { left, read_to: Mass::ZERO, reserve: None }
    }

    /// A ball weighed on a balance that reads to `read_to`.
    #[must_use]
    pub const fn weighed(left: Mass, read_to: Mass) -> Self {
        Self { left: YarnQuantity::Mass(left), read_to, reserve: None }
    }

    /// The same remainder with `reserve` kept back for an edging.
    #[must_use]
    pub const fn reserve(self, reserve: YarnQuantity) -> Self {
        Self { reserve: Some(reserve), ..self }
    }

    /// How many stitches of a fabric it knits, unrounded: the least is the yarn at its
    /// lightest in stitches at their longest.
    ///
    /// Yarn that is told by weight, or a stitch that was weighed, is reckoned by weight,
    /// otherwise by length; outwards to a thousandth of a stitch where the fraction is too
    /// long.
    ///
    /// # Errors
    /// When the remainder does not cover its reserve, or a figure is out of bounds.
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::{Exact, Length, Round};
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
        // A long remainder of fine yarn may be longer than a length can be.
        if loops.weighed().is_some() || matches!(self.left, YarnQuantity::Mass(_)) {
            let left = self.mass(yarn)?.parts().map(Mass::grams);
            return whole_in(left, loops.mass(yarn)?.parts().map(Mass::grams));
        }
        let left = self.length(yarn)?.parts().map(Length::millimetres);
        whole_in(left, loops.length().parts().map(Length::millimetres))
    }

    /// What it weighs without its reserve.
    ///
    /// # Errors
    /// When it does not cover its reserve, or the mass is out of bounds.
    pub fn mass(&self, yarn: LinearDensity) -> Result<Spread<Mass>, Error> {
        self.masses(Some(yarn))
    }

    pub(crate) fn masses(&self, yarn: Option<LinearDensity>) -> Result<Spread<Mass>, Error> {
        let left = self.left.masses(yarn)?;
        let kept =
            self.reserve.map_or(Ok(Spread::exactly(Mass::ZERO)), |kept| kept.masses(yarn))?;
        self.covered(&left.likely(), &kept.likely())?;
        let half = grid::MASS.product(self.read_to.grams(), Exact::new(1, 2)?, Round::Ceil)?;
        let [low, likely, high] =
            net(left.parts().map(Mass::grams), kept.parts().map(Mass::grams), half)?;
        let g = Mass::from_grams;
        grid::between(g(low)?, g(likely)?, g(high)?)
    }

    /// How long it is without its reserve.
    ///
    /// # Errors
    /// When it does not cover its reserve, or the length is out of bounds.
    pub fn length(&self, yarn: LinearDensity) -> Result<Spread<Length>, Error> {
        self.lengths(Some(yarn))
    }

    pub(crate) fn lengths(&self, yarn: Option<LinearDensity>) -> Result<Spread<Length>, Error> {
        let left = self.left.lengths(yarn)?;
        let kept = self.reserve;
        let kept = kept.map_or(Ok(Spread::exactly(Length::ZERO)), |kept| kept.lengths(yarn))?;
        self.covered(&left.likely(), &kept.likely())?;
        let half = grid::MASS.product(self.read_to.grams(), Exact::new(1, 2)?, Round::Ceil)?;
        let half = YarnQuantity::Mass(Mass::from_grams(half)?);
        let half = if self.read_to == Mass::ZERO {
            Exact::ZERO
        } else {
            half.lengths(yarn)?.high().millimetres()
        };
        let mm = |spread: Spread<Length>| spread.parts().map(Length::millimetres);
        let [low, likely, high] = net(mm(left), mm(kept), half)?;
        let mm = |mm| Ok::<_, Error>(Length::from_millimetres(mm)?);
        grid::between(mm(low)?, mm(likely)?, mm(high)?)
    }

    /// Refuses a reserve of more than there is, in the words it was given in.
    fn covered<T: Ord>(&self, left: &T, kept: &T) -> Result<(), Error> {
        match self.reserve {
            Some(reserve) if left < kept => {
                let (have, reserve) = (self.left.to_string(), reserve.to_string());
                Err(Kind::Reserved { have, reserve }.into())
            }
            _ => Ok(()),
        }
    }
}

/// What is left of `left` without `kept`, read to `half` either way, and never below zero.
fn net(left: [Exact; 3], kept: [Exact; 3], half: Exact) -> Result<[Exact; 3], Error> {
    let ([low, likely, high], [least, kept, most]) = (left, kept);
    let less = |a, b, round| grid::LENGTH.difference(a, b, round);
    Ok([
        less(less(low, most, Round::Floor)?, half, Round::Floor)?.max(Exact::ZERO),
        less(likely, kept, Round::HalfUp)?.max(Exact::ZERO),
        grid::LENGTH.sum(less(high, least, Round::Ceil)?, half, Round::Ceil)?,
    ])
}

/// How often a stitch goes into what is left, outwards to a thousandth where the fraction
/// is too long.
fn whole_in(left: [Exact; 3], stitch: [Exact; 3]) -> Result<Spread<Exact>, Error> {
    let ([low, likely, high], [least, stitch, most]) = (left, stitch);
    let times = |a, b, round| grid::STITCHES.quotient(a, b, round);
    grid::between(
        times(low, most, Round::Floor)?,
        times(likely, stitch, Round::HalfUp)?,
        times(high, least, Round::Ceil)?,
    )
}

/// Which of several sizes a remainder is enough for; see [`largest_size`].
///
/// # Examples
/// ```
/// use loopwright_yardage::largest_size;
/// let none = largest_size(&[], "240 g".parse()?);
/// assert_eq!((none.surely, none.likely), (None, None));
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
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
pub fn largest_size(sizes: &[Amount], have: YarnQuantity) -> Fits {
    let spread = |size: &Amount| match have {
        YarnQuantity::Length(_) => size.length.parts().map(Length::millimetres),
        YarnQuantity::Mass(_) => size.mass.parts().map(Mass::grams),
    };
    let have = match have {
        YarnQuantity::Length(length) => length.millimetres(),
        YarnQuantity::Mass(mass) => mass.grams(),
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
