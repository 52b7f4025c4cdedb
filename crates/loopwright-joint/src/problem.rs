use crate::answer::{Answer, Conflict, ConflictMember, Release};
use crate::bounds;
use crate::budget::Budget;
use crate::conflict::{self, Clash, Freed};
use crate::demand::{Demand, Limit, Link, Spot};
use crate::error::{Error, Kind, short};
use crate::key::{AnyCount, Key};
use crate::measure::{TapeMeasure, Taped};
use crate::objective::Objective;
use crate::search::Wanted;
use crate::solution::{RoundedCount, RoundedMeasure, Solution};
use crate::solve::{self, Best, Model};
use crate::step::Stop;
use crate::unknown::{Entry, Steps, Unknown, What};
use alloc::collections::BTreeMap;
use alloc::string::String;
use alloc::vec::Vec;
use loopwright_gauge::{Count, Exact, Length, Rows, Stitches};
use num_integer::gcd;

/// Unknown counts, what a tape measures of them, and the demands between them, to be
/// rounded together.
///
/// The order in which unknowns and demands are given is the order of the last
/// tie-break, so it is part of the problem.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Exact, Repeat, Stitches};
/// use loopwright_joint::{Demand, Problem, Unknown};
///
/// let mut problem = Problem::new();
/// let near = |tenths| Exact::new(tenths, 10).map(Unknown::near);
/// let back = problem.stitches("back", near(1456)?.repeat(Repeat::even()))?;
/// let shoulder = problem.stitches("shoulder", near(504)?)?;
/// let neck = problem.stitches("neck", near(443)?)?;
/// problem.demand("across", Demand::sum([(2, &shoulder), (1, &neck), (-1, &back)], 0))?;
///
/// let solution = problem.solve()?.into_result()?;
/// assert_eq!(solution[&back], Stitches::new(146)?);
/// assert_eq!(solution[&shoulder], Stitches::new(51)?);
/// assert_eq!(solution[&neck], Stitches::new(44)?);
/// assert!(solution.is_proved());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(
    feature = "serde",
    serde(try_from = "crate::form::ProblemForm", into = "crate::form::ProblemForm")
)]
pub struct Problem {
    pub(crate) steps: u64,
    places: BTreeMap<String, usize>,
    demand_places: BTreeMap<String, usize>,
    pub(crate) names: Vec<String>,
    pub(crate) entries: Vec<Entry>,
    pub(crate) said: Vec<(String, Said)>,
    measures: Vec<Taped>,
    demand_names: Vec<String>,
    links: Vec<Vec<Link>>,
}

/// A demand or a measure as it was given.
#[derive(Clone, Debug)]
pub(crate) enum Said {
    Demand(Demand),
    #[cfg_attr(not(feature = "serde"), expect(dead_code, reason = "kept to be written"))]
    Measure(TapeMeasure),
}

impl Problem {
    /// A problem with nothing in it.
    #[must_use]
    pub const fn new() -> Self {
        Self {
            steps: bounds::STEPS,
            places: BTreeMap::new(),
            demand_places: BTreeMap::new(),
            names: Vec::new(),
            entries: Vec::new(),
            said: Vec::new(),
            measures: Vec::new(),
            demand_names: Vec::new(),
            links: Vec::new(),
        }
    }

    /// The same problem with another limit to the work, [`bounds::STEPS`] at first: a
    /// step is about one cell of a table. It holds for the search for counts and, when
    /// there are none, once more for the search for the conflict. An answer reached at
    /// the limit says that it is not proved.
    #[must_use]
    pub const fn steps(mut self, steps: u64) -> Self {
        self.steps = steps;
        self
    }

    /// Adds an unknown that counts stitches, under a name of its own.
    ///
    /// # Errors
    /// When the name is empty, too long or taken, the ideal lies outside
    /// `0..=`[`bounds::COUNT`], the weight is not above zero, the range is empty, or
    /// the repeat has no count in the range.
    pub fn stitches(
        &mut self,
        name: impl Into<String>,
        unknown: Unknown,
    ) -> Result<Key<Stitches>, Error> {
        self.unknown(name, unknown)
    }

    /// Adds an unknown that counts rows, under a name of its own.
    ///
    /// # Errors
    /// As [`Self::stitches`].
    pub fn rows(&mut self, name: impl Into<String>, unknown: Unknown) -> Result<Key<Rows>, Error> {
        self.unknown(name, unknown)
    }

    /// Adds an unknown of either kind, under a name of its own.
    ///
    /// # Errors
    /// As [`Self::stitches`].
    pub fn unknown<C: Count>(
        &mut self,
        name: impl Into<String>,
        unknown: Unknown,
    ) -> Result<Key<C>, Error> {
        let name = name.into();
        free(&self.places, "an unknown", "unknowns", &name)?;
        let entry = unknown.entry(&name, What::of::<C>())?;
        self.places.insert(name.clone(), self.entries.len());
        self.entries.push(entry);
        let key = Key::new(&name);
        self.names.push(name);
        Ok(key)
    }

    /// Adds a demand under a name of its own, by which a conflict would tell of it.
    ///
    /// # Errors
    /// When the name is empty, too long or taken, by a measure too; when the demand
    /// speaks of no unknown of this problem, or of one twice, its numbers lie outside
    /// [`bounds`], or it asks for the length of a count without a gauge.
    pub fn demand(&mut self, name: impl Into<String>, demand: Demand) -> Result<(), Error> {
        let name = name.into();
        free(&self.demand_places, "a demand", "demands", &name)?;
        let links = demand.links(&name, |unknown| self.spot(unknown))?;
        self.enter(&name, links, Said::Demand(demand));
        Ok(())
    }

    /// Adds a measure under a name of its own.
    ///
    /// # Errors
    /// As [`Self::demand`]; also when the weight is not above zero, the tolerance below
    /// zero, or one of the counts has no gauge.
    pub fn measure(&mut self, name: impl Into<String>, measure: TapeMeasure) -> Result<(), Error> {
        let name = name.into();
        free(&self.demand_places, "a measure", "demands and measures", &name)?;
        let (taped, link) = measure.taped(&name, |unknown| self.spot(unknown))?;
        self.measures.push(taped);
        self.enter(&name, link.into_iter().collect(), Said::Measure(measure));
        Ok(())
    }

    fn enter(&mut self, name: &str, links: Vec<Link>, said: Said) {
        self.demand_places.insert(name.into(), self.said.len());
        self.said.push((name.into(), said));
        if !links.is_empty() {
            self.demand_names.push(name.into());
            self.links.push(links);
        }
    }

    fn spot(&self, unknown: &str) -> Option<Spot> {
        let place = *self.places.get(unknown)?;
        let entry = self.entries.get(place)?;
        Some(Spot { place, size: entry.size, hidden: entry.said.hidden })
    }

    /// The best counts, or the smallest set of demands that cannot all hold.
    ///
    /// Best means: the least sum of weight times miss, over wishes and measures; among
    /// those the least largest miss; among those the greater counts first, compared
    /// unknown by unknown in the order they were given. A miss is a length, and of a
    /// count without a gauge a count, as if one were a millimetre long. That is one
    /// answer only, and always the same.
    ///
    /// # Errors
    /// When ideals, lengths and weights do not fit one common denominator, or the
    /// search met its limit with neither counts nor a proof that there are none.
    pub fn solve(&self) -> Result<Answer, Error> {
        let mut said = Vec::with_capacity(self.entries.len() + self.measures.len());
        for (place, entry) in self.entries.iter().enumerate() {
            said.push(entry.wish(place)?);
        }
        said.extend(self.measures.iter().map(|measure| measure.said.clone()));
        let objective = Objective::new(&said).map_err(|_| Error::overflow())?;
        let unknowns: Vec<Steps> = self.entries.iter().map(|entry| entry.steps).collect();
        let links = self.links.iter().flatten().collect();
        let model = Model { unknowns: &unknowns, terms: &objective.terms, links };
        let mut budget = Budget::new(self.steps);
        let answer = solve::solve(&model, Wanted::Best, &mut budget);
        match answer.map_err(|_| Error::overflow())? {
            solve::Answer::Best(best) => self.solution(&best, &objective).map(Answer::Solved),
            solve::Answer::Unknown => Err(Kind::Unproved { steps: self.steps }.into()),
            solve::Answer::None => {
                // Only the wishes lead the search for a conflict.
                let wishes = objective.terms.get(..self.entries.len()).unwrap_or_default();
                let mut budget = Budget::new(self.steps);
                let clash = conflict::find(&unknowns, wishes, &self.links, &mut budget);
                let clash = clash.map_err(|_| Error::overflow())?;
                self.conflict(&clash).map(Answer::Conflict)
            }
        }
    }

    /// The names of the demands that `counts`, in the order of the unknowns, break:
    /// checked by their definitions, apart from the search.
    #[must_use]
    pub fn broken(&self, counts: &[AnyCount]) -> Vec<&str> {
        let counts: Vec<u32> = counts.iter().map(|count| count.get()).collect();
        let named = self.demand_names.iter().zip(&self.links);
        named
            .filter(|(_, links)| !links.iter().all(|link| link.holds(&counts)))
            .map(|(name, _)| name.as_str())
            .collect()
    }

    fn solution(&self, best: &Best, objective: &Objective) -> Result<Solution, Error> {
        let mut solution = Solution {
            counts: Vec::with_capacity(self.entries.len()),
            measures: Vec::with_capacity(self.measures.len()),
            total: Exact::ZERO,
            largest: Exact::ZERO,
            least_total: Exact::ZERO,
            proved: best.proved,
            measured: self.entries.iter().any(|entry| entry.size.is_some()),
        };
        for ((name, entry), &count) in self.names.iter().zip(&self.entries).zip(&best.counts) {
            let deviation = Exact::from(count).checked_sub(entry.ideal)?;
            let size = entry.size.unwrap_or(Exact::ONE);
            solution.miss(entry.said.weight, deviation.abs().checked_mul(size)?)?;
            let count = match entry.what {
                What::Stitches => AnyCount::Stitches(Stitches::new(count)?),
                What::Rows => AnyCount::Rows(Rows::new(count)?),
            };
            let (name, ideal) = (name.clone(), entry.ideal);
            solution.counts.push(RoundedCount { name, count, ideal, deviation });
        }
        for measure in &self.measures {
            let mut over = Exact::ZERO.checked_sub(measure.said.wanted)?;
            for &(place, size) in &measure.said.counts {
                let count = best.counts.get(place).copied().unwrap_or(0);
                over = size.checked_mul(count.into()).and_then(|of| over.checked_add(of))?;
            }
            solution.miss(measure.said.weight, over.abs())?;
            let (name, wanted) = (measure.name.clone(), measure.length);
            let over = Length::from_millimetres(over)?;
            let given = wanted.checked_add(over)?;
            let missed = over.abs();
            solution.measures.push(RoundedMeasure { name, wanted, given, missed });
        }
        let known = exactly(best.bound, objective.unit).min(solution.total);
        solution.least_total = if best.proved { solution.total } else { known };
        Ok(solution)
    }

    fn conflict(&self, clash: &Clash) -> Result<Conflict, Error> {
        let mut members = Vec::with_capacity(clash.members.len());
        for &(place, freed) in &clash.members {
            let demand = self.demand_names.get(place).cloned().unwrap_or_default();
            let (release, would_be) = match freed {
                Freed::By { units, total } => self.release(place, units, total)?,
                Freed::Drop => (Release::Drop, None),
                Freed::NotAlone => (Release::NotAlone, None),
            };
            members.push(ConflictMember { demand, release, would_be });
        }
        Ok(Conflict { members, smallest: clash.smallest })
    }

    fn release(
        &self,
        demand: usize,
        units: i64,
        total: Option<i64>,
    ) -> Result<(Release, Option<Limit>), Error> {
        let links = self.links.get(demand).map_or(&[][..], Vec::as_slice);
        let [Link::Row(row)] = links else { return Ok((Release::By(units.unsigned_abs()), None)) };
        // What the two sides of an equation come to tells nobody anything.
        let limits = row.terms.len() == 1 || row.low.is_none() || row.high.is_none();
        let total = total.filter(|_| limits && row.unit == 1 && self.is_sum(demand));
        let Some(per_mm) = row.per_mm else {
            return Ok((Release::By(units.unsigned_abs()), total.map(Limit::Count)));
        };
        let length = |units: i64| Length::from_millimetres(Exact::new(units, per_mm)?);
        let would_be = match total {
            Some(total) => Some(Limit::Length(length(total)?.checked_sub(self.hidden(row)?)?)),
            None => None,
        };
        Ok((Release::ByLength(length(units)?), would_be))
    }

    /// Whether a demand was said as a sum or as a measure.
    fn is_sum(&self, demand: usize) -> bool {
        let name = self.demand_names.get(demand).and_then(|name| self.demand_places.get(name));
        match name.and_then(|&place| self.said.get(place)) {
            Some((_, Said::Demand(demand))) => demand.is_sum(),
            Some((_, Said::Measure(_))) => true,
            None => false,
        }
    }

    /// The length that is counted in a row, but that seams hide.
    fn hidden(&self, row: &crate::demand::Row) -> Result<Length, Error> {
        let per_mm = row.per_mm.unwrap_or(1);
        let mut hidden = Exact::ZERO;
        for &(place, times) in &row.terms {
            let of = self.entries.get(place).map_or(0, |entry| entry.said.hidden);
            hidden = Exact::new(times, per_mm)?.checked_mul(of.into())?.checked_add(hidden)?;
        }
        Ok(Length::from_millimetres(hidden)?)
    }
}

impl Default for Problem {
    fn default() -> Self {
        Self::new()
    }
}

/// `cost / unit`, or a little less where that is too long a fraction.
fn exactly(cost: i128, unit: i128) -> Exact {
    const GRID: i128 = 1_000_000;
    let short = |numer: i128, denom: i128| {
        Exact::new(i64::try_from(numer).ok()?, i64::try_from(denom).ok()?).ok()
    };
    let whole = |n: i128| u64::try_from(n).ok();
    let reduced = whole(cost).zip(whole(unit)).and_then(|(numer, denom)| {
        let shared = gcd(numer, denom).max(1);
        short((numer / shared).into(), (denom / shared).into())
    });
    let snapped = || cost.checked_mul(GRID).and_then(|cost| short(cost / unit.max(1), GRID));
    reduced.or_else(snapped).or_else(|| short(cost / unit.max(1), 1)).unwrap_or(Exact::ZERO)
}

/// Refuses a name that is missing, too long or taken, or one item too many.
fn free(
    places: &BTreeMap<String, usize>,
    what: &'static str,
    plural: &'static str,
    name: &str,
) -> Result<(), Error> {
    if name.is_empty() {
        return Err(Kind::Nameless { what }.into());
    }
    let given = name.chars().count();
    if given > bounds::NAME {
        let name = name.chars().take(20).chain("...".chars()).collect();
        return Err(Kind::LongName { name, given, most: bounds::NAME }.into());
    }
    if places.contains_key(name) {
        return Err(Kind::Twice { what, name: short(name) }.into());
    }
    if places.len() >= bounds::ITEMS {
        return Err(Kind::Many { what: plural, most: bounds::ITEMS }.into());
    }
    Ok(())
}

impl From<Stop> for Error {
    fn from(_: Stop) -> Self {
        Self::overflow()
    }
}
