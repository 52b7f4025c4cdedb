use crate::bounds;
use crate::demand::{Spot, length_row, spots};
use crate::error::{Error, Kind, short};
use crate::objective::Said;
use crate::{Limit, Link};
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;
use loopwright_gauge::{Exact, Length};

/// What a tape measures on the finished piece: counts, each over its own gauge and
/// without what seams hide, added up to one length.
///
/// It is held as near to the length wanted as all else allows. Without more it weighs
/// one, and may miss by any length.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Exact, Gauge, Length, Repeat, Rows};
/// use loopwright_joint::{Problem, TapeMeasure, Unknown};
///
/// let (rib, plain): (Gauge, Gauge) = ("24x36/10cm".parse()?, "12x15/10cm".parse()?);
/// let even = |cm, gauge| Ok::<_, loopwright_gauge::Error>(
///     Unknown::near_length(Length::cm(cm)?, gauge).repeat(Repeat::even()),
/// );
/// let mut problem = Problem::new();
/// let hem = problem.rows("hem", even(6, rib)?)?;
/// let side = problem.rows("side", even(34, plain)?)?;
/// let armhole = problem.rows("armhole", even(22, plain)?)?;
/// let body = TapeMeasure::sum([(1, &hem), (1, &side), (1, &armhole)], Length::cm(62)?);
/// problem.measure("body length", body.weight(Exact::whole(4)))?;
///
/// // 21.6, 51 and 33 by themselves would come to 22, 50 and 32: 60.8 cm.
/// let solution = problem.solve()?.into_result()?;
/// assert_eq!(solution[&hem], Rows::new(22)?);
/// assert_eq!(solution[&side], Rows::new(52)?);
/// assert_eq!(solution[&armhole], Rows::new(32)?);
/// assert!(solution.measures()[0].missed < Length::mm(2)?);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(
    feature = "serde",
    serde(from = "crate::form::MeasureForm", into = "crate::form::MeasureForm")
)]
#[must_use = "a measure is nothing until a problem has it"]
pub struct TapeMeasure {
    pub(crate) terms: Vec<(i64, String)>,
    pub(crate) length: Length,
    pub(crate) weight: Exact,
    pub(crate) tolerance: Option<Length>,
}

/// A measure as the search needs it.
#[derive(Clone, Debug)]
pub(crate) struct Taped {
    pub(crate) name: String,
    pub(crate) length: Length,
    pub(crate) said: Said,
}

impl TapeMeasure {
    /// The lengths of the counts, each times its whole coefficient, should come to
    /// `length`.
    pub fn sum<N: Into<String>>(terms: impl IntoIterator<Item = (i64, N)>, length: Length) -> Self {
        let terms = terms.into_iter().map(|(times, name)| (times, name.into())).collect();
        Self { terms, length, weight: Exact::ONE, tolerance: None }
    }

    /// How much its miss matters: one, unless said.
    pub fn weight(self, weight: Exact) -> Self {
        Self { weight, ..self }
    }

    /// How far it may miss at most: then it is a demand too, of the same name.
    pub fn tolerance(self, tolerance: Length) -> Self {
        Self { tolerance: Some(tolerance), ..self }
    }

    /// The measure over places, and the demand its tolerance makes.
    pub(crate) fn taped(
        &self,
        name: &str,
        find: impl Fn(&str) -> Option<Spot>,
    ) -> Result<(Taped, Option<Link>), Error> {
        let refuse = |what, given: String, allowed: String| {
            Err(Error::from(Kind::Range { what, name: short(name), given, allowed }))
        };
        let most = Exact::from(bounds::COUNT);
        if !self.weight.is_positive() || self.weight > most {
            let allowed = format!("above 0 and at most {most}");
            return refuse("the weight", self.weight.to_string(), allowed);
        }
        if let Some(tolerance) = self.tolerance.filter(|&tolerance| tolerance < Length::ZERO) {
            return refuse("the tolerance", tolerance.to_string(), "0 mm or more".into());
        }
        let names = self.terms.iter().map(|term| &term.1);
        let spots = spots(name, names, 1, find)?;
        let (mut counts, mut hidden) = (Vec::with_capacity(spots.len()), Exact::ZERO);
        for (spot, &(times, ref of)) in spots.iter().zip(&self.terms) {
            crate::demand::check_times(name, times)?;
            let size = spot.size.ok_or_else(|| Kind::Gaugeless { name: short(of) })?;
            let size = size.checked_mul(Exact::try_from(times)?)?;
            hidden = hidden.checked_add(size.checked_mul(spot.hidden.into())?)?;
            counts.push((spot.place, size));
        }
        let wanted = self.length.millimetres().checked_add(hidden)?;
        let said = Said { weight: self.weight, counts, wanted };
        let link = match self.tolerance {
            None => None,
            Some(tolerance) => {
                let low = Limit::Length(self.length.checked_sub(tolerance)?);
                let high = Limit::Length(self.length.checked_add(tolerance)?);
                Some(Link::Row(length_row(name, &self.terms, &spots, Some(low), Some(high))?))
            }
        };
        Ok((Taped { name: name.into(), length: self.length, said }, link))
    }
}
