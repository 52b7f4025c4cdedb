use crate::conflict;
use crate::demand::{Demand, Link};
use crate::error::{Error, Kind};
use crate::solution::{Outcome, Solution};
use crate::solve::{self, Answer, Wanted};
use crate::unknown::Unknown;
use crate::{bounds, check};
use alloc::borrow::ToOwned;
use alloc::collections::BTreeMap;
use alloc::string::String;
use alloc::vec::Vec;

/// Unknown counts and the demands between them, to be rounded together.
///
/// The order in which unknowns and demands are given is the order of the last
/// tie-break, so it is part of the problem.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Exact, Repeat};
/// use loopwright_joint::{Demand, Problem, Unknown};
///
/// let mut problem = Problem::new();
/// problem.unknown("back", Unknown::near(Exact::new(1456, 10)?).repeat(Repeat::even()))?;
/// problem.unknown("shoulder", Unknown::near(Exact::new(504, 10)?))?;
/// problem.unknown("neck", Unknown::near(Exact::new(443, 10)?))?;
/// problem.demand("across", Demand::sum([(2, "shoulder"), (1, "neck"), (-1, "back")], 0))?;
///
/// let solution = problem.solve()?.into_result()?;
/// assert_eq!(solution.count("back"), Some(146));
/// assert_eq!(solution.count("shoulder"), Some(51));
/// assert_eq!(solution.count("neck"), Some(44));
/// assert!(solution.is_proved());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug)]
pub struct Problem {
    pub(crate) limit: u64,
    places: BTreeMap<String, usize>,
    demand_places: BTreeMap<String, usize>,
    pub(crate) names: Vec<String>,
    pub(crate) unknowns: Vec<Unknown>,
    pub(crate) demand_names: Vec<String>,
    pub(crate) links: Vec<Vec<Link>>,
}

impl Problem {
    /// A problem with nothing in it.
    #[must_use]
    pub const fn new() -> Self {
        Self {
            limit: bounds::STEPS,
            places: BTreeMap::new(),
            demand_places: BTreeMap::new(),
            names: Vec::new(),
            unknowns: Vec::new(),
            demand_names: Vec::new(),
            links: Vec::new(),
        }
    }

    /// The same problem with another limit to the work, [`bounds::STEPS`] at first:
    /// table cells filled, roughly. An answer reached at the limit says that it is
    /// not proved.
    #[must_use]
    pub const fn limit(mut self, steps: u64) -> Self {
        self.limit = steps;
        self
    }

    /// Adds an unknown under a name of its own.
    ///
    /// # Errors
    /// When the name is empty or taken, the ideal lies outside
    /// `0..=`[`bounds::COUNT`], the weight is not above zero, the range is empty, or
    /// the repeat has no count in the range.
    pub fn unknown(&mut self, name: impl Into<String>, unknown: Unknown) -> Result<(), Error> {
        let name = name.into();
        enter(&mut self.places, "an unknown", "unknowns", &name)?;
        if let Err(refused) = unknown.check(&name) {
            self.places.remove(&name);
            return Err(refused);
        }
        self.names.push(name);
        self.unknowns.push(unknown);
        Ok(())
    }

    /// Adds a demand under a name of its own, by which a conflict would tell of it.
    ///
    /// # Errors
    /// When the name is empty or taken, the demand speaks of no unknown of this
    /// problem, or of one twice, or its numbers lie outside [`bounds`].
    pub fn demand(&mut self, name: impl Into<String>, demand: Demand) -> Result<(), Error> {
        let name = name.into();
        enter(&mut self.demand_places, "a demand", "demands", &name)?;
        match demand.links(&name, |unknown| self.places.get(unknown).copied()) {
            Ok(links) => {
                self.demand_names.push(name);
                self.links.push(links);
                Ok(())
            }
            Err(refused) => {
                self.demand_places.remove(&name);
                Err(refused)
            }
        }
    }

    /// The best counts, or the smallest set of demands that cannot all hold.
    ///
    /// Best means: the least sum of weight times |count - ideal|; among those the
    /// least largest |count - ideal|; among those the counts that come first in the
    /// order of numbers, compared unknown by unknown in the order they were given.
    /// That is one answer only, and always the same.
    ///
    /// # Errors
    /// When ideals and weights do not fit one common denominator, or the search met
    /// its limit with neither an answer nor a proof that there is none.
    pub fn solve(&self) -> Result<Outcome, Error> {
        let links: Vec<&Link> = self.links.iter().flatten().collect();
        match solve::solve(&self.unknowns, &links, Wanted::Best, self.limit)? {
            Answer::Best { counts, proved } => {
                debug_assert!(check::holds(&self.unknowns, &links, &counts), "{counts:?}");
                Solution::new(self, &counts, proved).map(Outcome::Solved)
            }
            Answer::None => conflict::find(self).map(Outcome::Conflict),
        }
    }

    /// The names of the demands that `counts`, in the order of the unknowns, break:
    /// checked by their definitions, apart from the search.
    #[must_use]
    pub fn broken(&self, counts: &[u32]) -> Vec<&str> {
        let named = self.demand_names.iter().zip(&self.links);
        named
            .filter(|(_, links)| !links.iter().all(|link| link.holds(counts)))
            .map(|(name, _)| name.as_str())
            .collect()
    }
}

impl Default for Problem {
    fn default() -> Self {
        Self::new()
    }
}

fn enter(
    places: &mut BTreeMap<String, usize>,
    what: &'static str,
    plural: &'static str,
    name: &str,
) -> Result<(), Error> {
    if name.is_empty() {
        return Err(Kind::Nameless { what }.into());
    }
    if places.contains_key(name) {
        return Err(Kind::Twice { what, name: name.to_owned() }.into());
    }
    if places.len() >= bounds::ITEMS {
        return Err(Kind::Many { what: plural, most: bounds::ITEMS }.into());
    }
    places.insert(name.to_owned(), places.len());
    Ok(())
}
