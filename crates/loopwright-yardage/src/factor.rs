use crate::{Error, Spread};
use loopwright_gauge::Exact;

/// How much yarn a stitch of one fabric takes for one of another.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub struct Factor {
    spread: Spread<Exact>,
    pub(crate) measured: bool,
}

impl Factor {
    /// A factor measured by weighing or unravelling both fabrics in the same yarn.
    ///
    /// # Errors
    /// When it is not above zero, or above ten.
    pub fn measured(spread: Spread<Exact>) -> Result<Self, Error> {
        let ten = Exact::whole(10);
        match spread.parts().into_iter().find(|&f| !f.is_positive() || f > ten) {
            None => Ok(Self { spread, measured: true }),
            Some(given) => Err(Error::range("the factor", given, "above zero and at most 10")),
        }
    }

    /// The working figure for a kind of stitch against plain, at the same stitch
    /// size; no published table was found, so the spread is wide and a measured
    /// factor is always better.
    ///
    /// # Errors
    /// Never for the stitches there are; the signature leaves room for more.
    pub fn tabled(stitch: Stitch) -> Result<Self, Error> {
        let [low, likely, high] = match stitch {
            Stitch::Rib => [90, 100, 110],
            Stitch::Garter => [95, 100, 110],
            Stitch::Tuck => [80, 95, 105],
            Stitch::Cable => [100, 105, 115],
        };
        let part = |n| Exact::new(n, 100);
        let spread = Spread::new(part(low)?, part(likely)?, part(high)?)?;
        Ok(Self { spread, measured: false })
    }

    /// The factor itself.
    #[must_use]
    pub const fn spread(&self) -> Spread<Exact> {
        self.spread
    }
}

/// A kind of stitch with a working factor against plain; see [`Factor::tabled`].
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
#[non_exhaustive]
pub enum Stitch {
    /// A stitch of a rib, at the stitch size of the plain: 0.90, 1.00, 1.10.
    Rib,
    /// A garter stitch: 0.95, 1.00, 1.10.
    Garter,
    /// A stitch of a tuck pattern, its tucked loops counted: 0.80, 0.95, 1.05.
    Tuck,
    /// A stitch of a cable, its crossings counted: 1.00, 1.05, 1.15.
    Cable,
}
