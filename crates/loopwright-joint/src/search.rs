//! The best assignment of one connected part of a problem.

use crate::bounds;
use crate::classes::{Form, Parity};
use crate::cost::Cost;
use crate::dual::{self, Prices};
use crate::eliminate;
use crate::lattice::Lattice;
use crate::network::{self, Network, Plan, Price};
use crate::propagate::{self, Range};
use crate::step::{At, Step, Stop};
use alloc::vec::Vec;

/// Rounds of narrowing: enough for ranges to meet, never a slow crawl.
const PASSES: u32 = 20;

/// Classes that hang together, numbered from 0 in their order.
#[derive(Debug)]
pub(crate) struct Part {
    pub(crate) costs: Vec<Cost>,
    pub(crate) ranges: Vec<Range>,
    pub(crate) forms: Vec<Form>,
    pub(crate) parities: Vec<Parity>,
}

/// What makes one assignment better than another.
#[derive(Clone, Copy, Debug)]
enum Goal {
    /// The least sum, then the least largest deviation.
    Price,
    /// The least sum, then the order of numbers.
    First,
}

/// The best assignment found.
#[derive(Clone, Debug)]
pub(crate) struct Found {
    pub(crate) price: Price,
    pub(crate) values: Vec<i64>,
    /// Where every assignment of the same sum lies, if that is known.
    around: Option<Vec<Range>>,
}

/// Work left before the search gives up its proof, and how much of it the tables of
/// one window may take before the search splits instead.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Budget {
    pub(crate) left: u64,
    pub(crate) cells: u64,
}

impl Budget {
    /// Spends `work`, or says that it is not there.
    fn spend(&mut self, work: u64) -> bool {
        let enough = self.left >= work;
        self.left = self.left.saturating_sub(work);
        enough
    }
}

/// The assignment of `part` with the least sum and then the least largest deviation;
/// `None` when there is none. Neither is proved once the budget is spent.
pub(crate) fn best(part: &Part, budget: &mut Budget) -> Step<Option<Found>> {
    if let ([cost], [range], []) = (&*part.costs, &*part.ranges, &*part.forms)
        && let Some(found) = alone(cost, *range)
    {
        return Ok(Some(found));
    }
    let mut search = Search {
        part,
        goal: Goal::Price,
        budget,
        found: None,
        looked: false,
        splits: false,
        lattice: None,
    };
    match search.node(&part.ranges) {
        Err(Stop::Infeasible) => Ok(None),
        other => other.map(|()| search.found),
    }
}

/// The best value of a class that nothing ties, unless very many cost the same.
fn alone(cost: &Cost, range: Range) -> Option<Found> {
    let costs = core::slice::from_ref(cost);
    let plain = dual::plain(costs, &[range]);
    let around = plain.window(0, cost, range, 0).ok().filter(|around| around.len() <= 64)?;
    let price = |t: i64| Price { sum: plain.bound, largest: cost.deviation(t) };
    let best = (around.low..=around.high).map(|t| (price(t), t)).min()?;
    Some(Found { price: best.0, values: [best.1].into(), around: Some([around].into()) })
}

/// The first in the order of numbers among the assignments of the same sum as `known`
/// and no deviation above `most`; `known` is one of them.
pub(crate) fn first(part: &Part, most: i128, known: &Found, budget: &mut Budget) -> Step<Found> {
    let mut ranges = known.around.as_ref().unwrap_or(&part.ranges).clone();
    for (range, cost) in ranges.iter_mut().zip(&part.costs) {
        let Some(within) = within(cost, *range, most) else { return Ok(known.clone()) };
        *range = within;
    }
    if ranges.iter().all(|range| range.low == range.high) {
        return Ok(known.clone());
    }
    let price = Price { largest: 0, ..known.price };
    let found = Some(Found { price, values: known.values.clone(), around: None });
    let mut search = Search {
        part,
        goal: Goal::First,
        budget,
        found,
        looked: false,
        splits: false,
        lattice: None,
    };
    search.node(&ranges)?;
    Ok(search.found.unwrap_or_else(|| known.clone()))
}

/// The values whose deviations are all at most `most`.
fn within(cost: &Cost, range: Range, most: i128) -> Option<Range> {
    // Deviation is convex: its least lies where it stops falling.
    let (mut low, mut high) = (range.low, range.high);
    while low < high {
        let middle = low + (high - low) / 2;
        if cost.deviation(middle) > cost.deviation(middle + 1) {
            low = middle + 1;
        } else {
            high = middle;
        }
    }
    let least = low;
    if cost.deviation(least) > most {
        return None;
    }
    let edge = |mut inside: i64, mut outside: i64| {
        while (outside - inside).abs() > 1 {
            let middle = inside + (outside - inside) / 2;
            if cost.deviation(middle) <= most { inside = middle } else { outside = middle }
        }
        inside
    };
    Some(Range { low: edge(least, range.low - 1), high: edge(least, range.high + 1) })
}

struct Search<'a> {
    part: &'a Part,
    goal: Goal,
    budget: &'a mut Budget,
    found: Option<Found>,
    /// What all forms together say, once it has been needed and looked for.
    looked: bool,
    /// Whether ranges have been split, so that no node sees all.
    splits: bool,
    lattice: Option<Lattice>,
}

/// Two lower bounds, each with the reduced costs that prove it.
struct Bounds {
    plain: Prices,
    priced: Prices,
}

impl Search<'_> {
    /// Searches `ranges` for anything better than what is found, or as good.
    fn node(&mut self, ranges: &[Range]) -> Step<()> {
        let mut ranges = ranges.to_vec();
        if !self.narrow(&mut ranges)? {
            return Ok(());
        }
        let plain = dual::plain(&self.part.costs, &ranges);
        let priced = dual::priced(&self.part.costs, &ranges, &self.part.forms, &plain)
            .unwrap_or_else(|_| plain.clone());
        let lower = Bounds { plain, priced };
        let bound = lower.bound();
        let mut most = match &self.found {
            Some(found) => found.price.sum,
            None => bound + self.first_slack(&lower, &ranges)?,
        };
        loop {
            if bound > most || !self.budget.spend(1_000) {
                return Ok(());
            }
            let (windows, all) = self.windows(&lower, &ranges, most)?;
            match self.window(windows)? {
                Window::Split(class) => return self.split(class, &ranges, &lower, most),
                Window::Done if all => return Ok(()),
                Window::Done => {}
            }
            let Some(found) = &self.found else {
                if !self.looked {
                    self.look_deeper(&ranges)?;
                    return self.node(&ranges);
                }
                most = bound + (most - bound) * 2;
                continue;
            };
            // Everything that costs at most `most` has been seen.
            let sum = found.price.sum;
            if sum <= most {
                return self.look_around(&lower, &ranges, sum);
            }
            most = sum;
        }
    }

    /// Narrows by every form, and says whether anything is left.
    fn narrow(&self, ranges: &mut [Range]) -> Step<bool> {
        let narrowed = propagate::narrow(ranges, &self.part.forms, PASSES).and_then(|()| {
            self.lattice.as_ref().map_or(Ok(()), |lattice| lattice.narrow(ranges, PASSES))
        });
        match narrowed {
            Err(Stop::Infeasible) => Ok(false),
            other => other.map(|()| true),
        }
    }

    /// Notes where all assignments of the least sum lie, while that is all known.
    fn look_around(&mut self, lower: &Bounds, ranges: &[Range], sum: i128) -> Step<()> {
        if self.splits || matches!(self.goal, Goal::First) {
            return Ok(());
        }
        let (mut windows, _) = self.windows(lower, ranges, sum)?;
        propagate::narrow(&mut windows, &self.part.forms, PASSES)?;
        if let Some(found) = &mut self.found {
            found.around = Some(windows);
        }
        Ok(())
    }

    /// Once the nearest counts have failed: takes all forms together.
    fn look_deeper(&mut self, ranges: &[Range]) -> Step<()> {
        self.looked = true;
        match Lattice::new(ranges, &self.part.forms, &self.part.parities) {
            // Numbers too large to go on with only mean that nothing is known.
            Err(Stop::Large) => {}
            other => self.lattice = Some(other?),
        }
        Ok(())
    }

    /// A first guess at how far above the bound the best answer lies, which only
    /// decides how often tables are made anew: a third of what a step costs the class
    /// whose cheaper step is the dearest.
    fn first_slack(&self, bounds: &Bounds, ranges: &[Range]) -> Step<i128> {
        let mut slack = 1;
        for (class, (cost, range)) in self.part.costs.iter().zip(ranges).enumerate() {
            let (best, slope) = (*bounds.priced.best.at(class)?, *bounds.priced.slopes.at(class)?);
            let up = (best < range.high).then(|| cost.slope(best) - slope);
            let down = (best > range.low).then(|| slope - cost.slope(best - 1));
            slack = slack.max(match (up, down) {
                (Some(up), Some(down)) => up.min(down),
                (up, down) => up.or(down).unwrap_or(0),
            });
        }
        Ok(slack / 3 + 1)
    }

    /// The values that an answer of at most `most` can have, and whether those are
    /// all of `ranges`.
    fn windows(&self, lower: &Bounds, ranges: &[Range], most: i128) -> Step<(Vec<Range>, bool)> {
        let mut windows = Vec::with_capacity(ranges.len());
        for (class, (cost, &range)) in self.part.costs.iter().zip(ranges).enumerate() {
            let slack = most - lower.plain.bound;
            let range = lower.plain.window(class, cost, range, slack)?;
            let range = clamp(&lower.priced, class, cost, range, most)?;
            windows.push(range);
        }
        // No answer costs more than that, so no window need be wider than the range.
        let all = windows == ranges || most > bounds::PRICE;
        Ok((if all { ranges.to_vec() } else { windows }, all))
    }

    fn window(&mut self, mut windows: Vec<Range>) -> Step<Window> {
        if windows.iter().any(|range| range.low > range.high) {
            return Ok(Window::Done);
        }
        let network = propagate::narrow(&mut windows, &self.part.forms, PASSES)
            .and_then(|()| Network::new(&windows, &self.part.forms, &self.part.parities));
        let network = match network {
            Err(Stop::Infeasible) => return Ok(Window::Done),
            other => other?,
        };
        let plan = network::plan(&network)?;
        if let (true, Some(widest)) = (plan.work > self.budget.cells, plan.widest) {
            return Ok(Window::Split(widest));
        }
        if self.budget.spend(plan.work) {
            self.tables(&network, &plan)?;
        }
        Ok(Window::Done)
    }

    fn tables(&mut self, network: &Network, plan: &Plan) -> Step<()> {
        let mut own = Vec::with_capacity(self.part.costs.len());
        for (cost, range) in self.part.costs.iter().zip(&network.ranges) {
            own.push((range.low..=range.high).map(|t| self.price(cost, t)).collect());
        }
        let first = matches!(self.goal, Goal::First);
        if let Some((price, values)) = eliminate::best(network, plan, &own, first)? {
            self.offer(Found { price, values, around: None });
        }
        Ok(())
    }

    fn price(&self, cost: &Cost, t: i64) -> Price {
        let largest = match self.goal {
            Goal::Price => cost.deviation(t),
            Goal::First => 0,
        };
        Price { sum: cost.at(t), largest }
    }

    fn offer(&mut self, new: Found) {
        let better = self.found.as_ref().is_none_or(|old| {
            let first = matches!(self.goal, Goal::First) && new.values < old.values;
            new.price < old.price || (new.price == old.price && first)
        });
        if better {
            self.found = Some(new);
        }
    }

    /// Both halves of the range of `class`, the half with the better bound first.
    fn split(&mut self, class: usize, ranges: &[Range], bounds: &Bounds, most: i128) -> Step<()> {
        let mut ranges = ranges.to_vec();
        self.splits = true;
        if self.found.is_some() {
            (ranges, _) = self.windows(bounds, &ranges, most)?;
        }
        let Range { low, high } = *ranges.at(class)?;
        if low == high {
            return Err(Stop::Large);
        }
        let best = (*bounds.priced.best.at(class)?).clamp(low, high);
        let lower = Range { low, high: if best == high { high - 1 } else { best } };
        let upper = Range { low: lower.high + 1, high };
        let halves = if best == high { [upper, lower] } else { [lower, upper] };
        for half in halves {
            *ranges.at_mut(class)? = half;
            self.node(&ranges)?;
        }
        Ok(())
    }
}

enum Window {
    /// All of it is searched.
    Done,
    /// Its tables are too large; this class has the largest.
    Split(usize),
}

impl Bounds {
    const fn bound(&self) -> i128 {
        if self.plain.bound > self.priced.bound { self.plain.bound } else { self.priced.bound }
    }
}

/// The window by prices, within the plain one that may no longer hold their best.
fn clamp(prices: &Prices, class: usize, cost: &Cost, plain: Range, most: i128) -> Step<Range> {
    let whole = Range {
        low: plain.low.min(*prices.best.at(class)?),
        high: plain.high.max(*prices.best.at(class)?),
    };
    let window = prices.window(class, cost, whole, most - prices.bound)?;
    let low = plain.low.max(window.low);
    Ok(Range { low, high: plain.high.min(window.high) })
}
