use crate::grid;
use crate::{Amount, Error, LinearDensity, Mass, Measure, Spread, bounds};
use loopwright_gauge::{Exact, Length, Round};

/// A ball, hank or cone as it is sold: by length or by weight.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub struct Package {
    content: Measure,
    regain: Option<(Exact, Exact)>,
    price: Option<u64>,
}

impl Package {
    /// A package that holds `content`.
    ///
    /// Where a ball's label gives both, the length is the surer: it does not change
    /// with the damp in the yarn.
    ///
    /// # Errors
    /// When `content` is not above zero.
    pub fn new(content: Measure) -> Result<Self, Error> {
        if !content.is_positive() {
            return Err(Error::range("the content of a package", content, "above zero"));
        }
        Ok(Self { content, regain: None, price: None })
    }

    /// The same package, weighed by the seller at one moisture regain and knitted at
    /// another, both as fractions of the dry mass.
    ///
    /// 18.25 % is the trade norm for wool that is sold by weight; the damp of a room
    /// leaves about 14 %.
    #[must_use]
    pub const fn regain(self, sold: Exact, knitted: Exact) -> Self {
        Self { regain: Some((sold, knitted)), ..self }
    }

    /// The same package at a price, in the smallest coin.
    #[must_use]
    pub const fn price(self, price: u64) -> Self {
        Self { price: Some(price), ..self }
    }

    fn content(&self) -> Result<Measure, Error> {
        match (self.content, self.regain) {
            (Measure::Mass(mass), Some((sold, knitted))) => {
                Ok(Measure::Mass(mass.at_regain(sold, knitted)?))
            }
            (content, _) => Ok(content),
        }
    }
}

/// What is bought beyond the amount, because a later dye lot may not match.
///
/// No standard gives a figure. A tenth more is usual (common practice, no source); a
/// yarn shop's rule is one ball more (diananatters.blogspot.com, 2010).
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
#[non_exhaustive]
pub enum Margin {
    /// Nothing.
    Nothing,
    /// A share of the amount, 1/10 for a tenth.
    Share(Exact),
    /// This many packages more.
    Packages(u32),
}

/// What to buy.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
#[non_exhaustive]
pub struct Purchase {
    /// Packages needed, unrounded, the margin added and what is owned taken off; never
    /// below zero.
    pub needed: Spread<Exact>,
    /// Whole packages to buy for the low, the likely and the high amount. Buy the high
    /// when the dye lot cannot be matched later.
    pub packages: Spread<u32>,
    /// What the packages cost, when a price was given.
    pub cost: Option<Spread<u64>>,
}

/// How many packages of a yarn an amount takes.
///
/// By weight or by length as the package is sold; `owned` is yarn of the same lot that
/// is already there, opened balls included.
///
/// # Errors
/// When the margin is below zero or above ten, or more than
/// [`bounds::PACKAGES`](crate::bounds::PACKAGES) are needed.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Exact, Length};
/// use loopwright_yardage::{Amount, LinearDensity, Margin, Measure, Package, Spread, buy};
/// let yarn: LinearDensity = "400 m/100 g".parse()?;
/// let length = Spread::new("900 m".parse()?, "1000 m".parse()?, "1150 m".parse()?)?;
/// let amount = Amount::new(length, length.map(|length| yarn.mass_of(length))?);
/// let ball = Package::new("50 g".parse()?)?;
/// let tenth = Margin::Share(Exact::new(1, 10)?);
/// let purchase = buy(&amount, yarn, &ball, tenth, &["20 g".parse()?])?;
/// assert_eq!(purchase.packages, Spread::new(5, 6, 6)?);
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
pub fn buy(
    amount: &Amount,
    yarn: LinearDensity,
    package: &Package,
    margin: Margin,
    owned: &[Measure],
) -> Result<Purchase, Error> {
    let needed = match package.content()? {
        Measure::Length(one) => {
            let one = one.millimetres();
            let have = owned_in(owned, |part| Ok(part.lengths(Some(yarn))?.low().millimetres()))?;
            needed(amount.length.parts().map(Length::millimetres), have, one, margin)?
        }
        Measure::Mass(one) => {
            let have = owned_in(owned, |part| Ok(part.masses(Some(yarn))?.low().grams()))?;
            needed(amount.mass.parts().map(Mass::grams), have, one.grams(), margin)?
        }
    };
    let packages = needed.map(whole)?;
    let cost = match package.price {
        Some(price) => Some(
            packages
                .map(|n| price.checked_mul(n.into()).ok_or_else(|| Error::overflow("the cost")))?,
        ),
        None => None,
    };
    Ok(Purchase { needed, packages, cost })
}

/// All that is owned, in the unit that `part` gives.
fn owned_in(
    owned: &[Measure],
    part: impl Fn(Measure) -> Result<Exact, Error>,
) -> Result<Exact, Error> {
    owned.iter().try_fold(Exact::ZERO, |sum, &one| grid::LENGTH.sum(sum, part(one)?, Round::Floor))
}

/// Packages that hold `one` each for the amount and its margin, what is owned taken off;
/// to a millionth, outwards, where the fraction is too long.
fn needed(
    amount: [Exact; 3],
    have: Exact,
    one: Exact,
    margin: Margin,
) -> Result<Spread<Exact>, Error> {
    let net = |amount, round| {
        let wanted = margin.on(grid::SHARE.quotient(amount, one, round)?, round)?;
        let owned = grid::SHARE.quotient(have, one, Round::Floor)?;
        Ok::<_, Error>(grid::SHARE.difference(wanted, owned, round)?.max(Exact::ZERO))
    };
    let [low, likely, high] = amount;
    grid::between(net(low, Round::Floor)?, net(likely, Round::HalfUp)?, net(high, Round::Ceil)?)
}

impl Margin {
    fn on(self, packages: Exact, round: Round) -> Result<Exact, Error> {
        match self {
            Self::Nothing => Ok(packages),
            Self::Packages(more) => grid::SHARE.sum(packages, more.into(), round),
            Self::Share(share) if share < Exact::ZERO || share > Exact::whole(10) => {
                Err(Error::range("the margin", share, "in 0..=10"))
            }
            Self::Share(share) => {
                let more = grid::SHARE.product(packages, share, round)?;
                grid::SHARE.sum(packages, more, round)
            }
        }
    }
}

fn whole(packages: Exact) -> Result<u32, Error> {
    let n = packages.to_whole(Round::Ceil)?;
    u32::try_from(n).ok().filter(|&n| n <= bounds::PACKAGES).ok_or_else(|| {
        let allowed = alloc::format!("in 0..={}", bounds::PACKAGES);
        Error::range("the count of packages", n, allowed)
    })
}
