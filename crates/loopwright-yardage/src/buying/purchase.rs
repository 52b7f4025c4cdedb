use crate::grid;
use crate::{Amount, Error, LinearDensity, Mass, Spread, YarnQuantity, bounds};
use alloc::string::ToString as _;
use core::fmt;
use core::str::FromStr;
use loopwright_gauge::english::{agreeing, counted};
use loopwright_gauge::{Exact, Length, Round};

/// A ball, hank or cone as it is sold: by length or by weight. It reads `50 g` and `125 m`.
///
/// # Examples
/// ```
/// use loopwright_gauge::Exact;
/// use loopwright_yardage::Package;
/// let ball = Package::balls("50 g")?.price(450);
/// assert_eq!(ball.to_string(), "50 g");
/// // Wool sold at a regain of 18.25 % and knitted at 14 %.
/// let cone: Package = "1 kg".parse()?;
/// let cone = cone.regain(Exact::new(1_825, 10_000)?, Exact::new(14, 100)?);
/// assert_ne!(cone, "1 kg".parse()?);
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(try_from = "Raw", into = "Raw"))]
pub struct Package {
    content: YarnQuantity,
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
    pub fn new(content: YarnQuantity) -> Result<Self, Error> {
        if !content.is_positive() {
            return Err(Error::range("the content of a package", content, "above zero"));
        }
        Ok(Self { content, regain: None, price: None })
    }

    /// Balls that hold what this says, such as `50 g` or `125 m`.
    ///
    /// # Errors
    /// When the text cannot be read, or says nothing at all.
    pub fn balls(content: &str) -> Result<Self, Error> {
        Self::new(content.parse()?)
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

    fn content(&self) -> Result<YarnQuantity, Error> {
        match (self.content, self.regain) {
            (YarnQuantity::Mass(mass), Some((sold, knitted))) => {
                Ok(YarnQuantity::Mass(mass.at_regain(sold, knitted)?))
            }
            (content, _) => Ok(content),
        }
    }
}

impl fmt::Display for Package {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.content.fmt(f)
    }
}

impl FromStr for Package {
    type Err = Error;

    fn from_str(text: &str) -> Result<Self, Error> {
        Self::balls(text)
    }
}

/// What is bought beyond the amount, because a later dye lot may not match. It reads and
/// prints `nothing`, `10 %` and `1 package more`.
///
/// No standard gives a figure. A tenth more is usual (common practice, no source); a
/// yarn shop's rule is one ball more (diananatters.blogspot.com, 2010).
///
/// # Examples
/// ```
/// use loopwright_gauge::Exact;
/// use loopwright_yardage::Margin;
/// assert_eq!(Margin::percent(10)?, Margin::Share(Exact::new(1, 10)?));
/// assert_eq!("1 package more".parse(), Ok(Margin::Packages(1)));
/// assert_eq!("7.5 %".parse::<Margin>()?.to_string(), "7.5 %");
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
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

impl Margin {
    /// A share of the amount, in per cent.
    ///
    /// # Errors
    /// When it is below zero or above 1,000 per cent.
    pub fn percent(percent: impl Into<Exact>) -> Result<Self, Error> {
        let percent = percent.into();
        if percent < Exact::ZERO || percent > Exact::whole(1_000) {
            return Err(Error::range("the margin in per cent", percent, "in 0..=1000"));
        }
        Ok(Self::Share(grid::SHARE.quotient(percent, Exact::whole(100), Round::HalfUp)?))
    }
}

impl fmt::Display for Margin {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match *self {
            Self::Nothing => f.write_str("nothing"),
            Self::Packages(more) => write!(f, "{} more", counted(more, "package")),
            Self::Share(share) => match share.checked_mul(Exact::whole(100)) {
                Ok(percent) if percent.decimal(6).to_string().parse() == Ok(percent) => {
                    write!(f, "{} %", percent.decimal(6))
                }
                Ok(percent) => write!(f, "{percent} %"),
                Err(_) => Err(fmt::Error),
            },
        }
    }
}

impl FromStr for Margin {
    type Err = Error;

    fn from_str(text: &str) -> Result<Self, Error> {
        const FORMS: &str = "write such as 10 % or 1 package more";
        let refuse = || Error::parse("the margin", text, FORMS);
        let said = text.trim();
        if said.eq_ignore_ascii_case("nothing") {
            return Ok(Self::Nothing);
        }
        if let Some(percent) = said.strip_suffix('%') {
            return Self::percent(percent.trim().parse::<Exact>().map_err(|_| refuse())?);
        }
        let said = said.strip_suffix("more").unwrap_or(said).trim();
        let count = said.strip_suffix("packages").or_else(|| said.strip_suffix("package"));
        let count = count.ok_or_else(refuse)?.trim().parse();
        count.map(Self::Packages).map_err(|_| refuse())
    }
}

/// What to buy: what [`buy`] answers.
///
/// # Examples
/// ```
/// use loopwright_gauge::Spread;
/// use loopwright_yardage::{Amount, LinearDensity, Margin, Package, buy};
/// let yarn: LinearDensity = "400 m/100 g".parse()?;
/// let length = Spread::new("700 m".parse()?, "800 m".parse()?, "900 m".parse()?)?;
/// let amount = Amount::new(length, yarn.masses_of(length)?);
/// let ball = Package::balls("200 m")?.price(450);
/// let purchase = buy(&amount, yarn, &ball, Margin::Nothing, &[])?;
/// assert_eq!(purchase.to_string(), "5 packages (4 are likely to do)");
/// assert_eq!(purchase.cost, Some(Spread::new(1_800, 1_800, 2_250)?));
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
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

impl fmt::Display for Purchase {
    /// `4 packages (3 are likely to do)`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (likely, high) = (self.packages.likely(), self.packages.high());
        write!(f, "{}", counted(high, "package"))?;
        if likely < high {
            write!(f, " ({likely} {} likely to do)", agreeing(likely, "is", "are"))?;
        }
        Ok(())
    }
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
/// use loopwright_gauge::Spread;
/// use loopwright_yardage::{Amount, LinearDensity, Margin, Package, buy};
/// let yarn: LinearDensity = "400 m/100 g".parse()?;
/// let length = Spread::new("900 m".parse()?, "1000 m".parse()?, "1150 m".parse()?)?;
/// let amount = Amount::new(length, yarn.masses_of(length)?);
/// let ball = Package::balls("50 g")?;
/// let purchase = buy(&amount, yarn, &ball, Margin::percent(10)?, &["20 g".parse()?])?;
/// assert_eq!(purchase.packages, Spread::new(5, 6, 6)?);
/// assert_eq!(purchase.to_string(), "6 packages");
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
pub fn buy(
    amount: &Amount,
    yarn: LinearDensity,
    package: &Package,
    margin: Margin,
    owned: &[YarnQuantity],
) -> Result<Purchase, Error> {
    let needed = match package.content()? {
        YarnQuantity::Length(one) => {
            let one = one.millimetres();
            let have = owned_in(owned, |part| Ok(part.lengths(Some(yarn))?.low().millimetres()))?;
            needed(amount.length.parts().map(Length::millimetres), have, one, margin)?
        }
        YarnQuantity::Mass(one) => {
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
    owned: &[YarnQuantity],
    part: impl Fn(YarnQuantity) -> Result<Exact, Error>,
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

/// A value as it is written.
#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
struct Raw {
    content: YarnQuantity,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    regain: Option<(Exact, Exact)>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    price: Option<u64>,
}

#[cfg(feature = "serde")]
impl TryFrom<Raw> for Package {
    type Error = Error;

    fn try_from(raw: Raw) -> Result<Self, Error> {
        Ok(Self { regain: raw.regain, price: raw.price, ..Self::new(raw.content)? })
    }
}

#[cfg(feature = "serde")]
impl From<Package> for Raw {
    fn from(value: Package) -> Self {
        let Package { content, regain, price } = value;
        Self { content, regain, price }
    }
}
