//! The best assignment of one connected part of a problem.
//!
//! Nodes wait on a stack of their own, never on the caller's: how deep the search goes
//! is bounded by the work it may do.

use crate::bounds;
use crate::budget::Budget;
use crate::classes::{Form, Parity};
use crate::cost::{Cost, Sum};
use crate::dive;
use crate::dual::{self, Prices};
use crate::eliminate::{self, Rule};
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
    pub(crate) sums: Vec<Sum>,
}

impl Part {
    /// About how much work it is to bound it once.
    fn work(&self) -> u64 {
        let terms = |forms: &[Form]| forms.iter().map(|form| form.terms.len()).sum::<usize>();
        let sums: usize = self.sums.iter().map(|sum| sum.form.terms.len()).sum();
        let costs: usize = self.costs.iter().map(|cost| cost.len() + 2).sum();
        let work = 60 * costs + 60 * (terms(&self.forms) + sums);
        u64::try_from(work).unwrap_or(u64::MAX)
    }
}

/// The best assignment found.
#[derive(Clone, Debug)]
pub(crate) struct Found {
    pub(crate) price: Price,
    pub(crate) values: Vec<i64>,
    /// Where every assignment of the same sum lies, if that is known.
    around: Option<Vec<Range>>,
}

/// What a search comes to.
#[derive(Debug)]
pub(crate) struct Outcome {
    pub(crate) found: Option<Found>,
    /// The least bound of what was left unsearched for want of work; `None` when
    /// nothing was.
    pub(crate) open: Option<i128>,
}

/// How good an answer must be.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub(crate) enum Wanted {
    /// The one best answer.
    Best,
    /// Any answer at all.
    Any,
}

/// The assignment of `part` with the least sum, which is known to be `bound` at least,
/// and then the least largest miss.
pub(crate) fn best(part: &Part, bound: i128, wanted: Wanted, budget: &mut Budget) -> Step<Outcome> {
    if let ([cost], [range], []) = (&*part.costs, &*part.ranges, &*part.forms)
        && let Some(found) = alone(cost, *range)
    {
        return Ok(Outcome { found: Some(found), open: None });
    }
    let mut search = Search::new(part, Rule::Largest, budget);
    search.wanted = wanted;
    search.run(part.ranges.clone(), bound)
}

/// The best value of a class that nothing ties, unless very many cost the same.
fn alone(cost: &Cost, range: Range) -> Option<Found> {
    let costs = core::slice::from_ref(cost);
    let plain = dual::plain(costs, &[range]);
    let around = plain.window(0, cost, range, 0).ok().filter(|around| around.len() <= 64)?;
    let price = |t: i64| Price { sum: plain.bound, largest: cost.miss(t) };
    let best = (around.low..=around.high).map(|t| (price(t), -t)).min()?;
    Some(Found { price: best.0, values: [-best.1].into(), around: Some([around].into()) })
}

/// Of the assignments of the same sum as `known` and no miss above `most`, the one with
/// the greater values first; `known` is one of them.
pub(crate) fn first(part: &Part, most: i128, known: &Found, budget: &mut Budget) -> Step<Outcome> {
    let done = || Ok(Outcome { found: Some(known.clone()), open: None });
    let mut ranges = known.around.as_ref().unwrap_or(&part.ranges).clone();
    if !within_miss(&mut ranges, &part.costs, most) {
        return done();
    }
    if ranges.iter().all(|range| range.low == range.high) {
        return done();
    }
    let price = Price { largest: 0, ..known.price };
    let found = Found { price, values: known.values.clone(), around: None };
    let mut search = Search::new(part, Rule::Greater(most), budget);
    search.found = Some(found);
    search.run(ranges, known.price.sum)
}

/// Leaves each class the values that miss by `most` at most; whether all have any.
fn within_miss(ranges: &mut [Range], costs: &[Cost], most: i128) -> bool {
    ranges.iter_mut().zip(costs).all(|(range, cost)| {
        let within = within(cost, *range, most);
        *range = within.unwrap_or(*range);
        within.is_some()
    })
}

/// The values whose misses are all at most `most`.
fn within(cost: &Cost, range: Range, most: i128) -> Option<Range> {
    // The largest miss is convex: its least lies where it stops falling.
    let (mut low, mut high) = (range.low, range.high);
    while low < high {
        let middle = low + (high - low) / 2;
        if cost.miss(middle) > cost.miss(middle + 1) {
            low = middle + 1;
        } else {
            high = middle;
        }
    }
    let least = low;
    if cost.miss(least) > most {
        return None;
    }
    let edge = |mut inside: i64, mut outside: i64| {
        while (outside - inside).abs() > 1 {
            let middle = inside + (outside - inside) / 2;
            if cost.miss(middle) <= most { inside = middle } else { outside = middle }
        }
        inside
    };
    Some(Range { low: edge(least, range.low - 1), high: edge(least, range.high + 1) })
}

struct Search<'a> {
    part: &'a Part,
    rule: Rule,
    wanted: Wanted,
    budget: &'a mut Budget,
    found: Option<Found>,
    open: Option<i128>,
    stack: Vec<Node>,
    /// What bounding one node costs.
    work: u64,
    /// What all forms together say, once it has been needed and looked for.
    looked: bool,
    /// Whether ranges have been split, so that no node sees all.
    splits: bool,
    /// Whether any answer at all was sought.
    dived: bool,
    lattice: Option<Lattice>,
}

/// What is still to be searched, and a bound known of it.
struct Node {
    ranges: Vec<Range>,
    bound: i128,
}

/// Two lower bounds, each with the reduced costs that prove it.
struct Bounds {
    plain: Prices,
    priced: Prices,
}

/// What became of a window.
enum Window {
    /// All of it is searched.
    Done,
    /// Its tables are too large; this class has the largest.
    Split(usize),
    /// There is no work left for it.
    Spent,
}

impl<'a> Search<'a> {
    fn new(part: &'a Part, rule: Rule, budget: &'a mut Budget) -> Self {
        Self {
            part,
            rule,
            wanted: Wanted::Best,
            budget,
            found: None,
            open: None,
            stack: Vec::new(),
            work: part.work(),
            looked: false,
            splits: false,
            dived: false,
            lattice: None,
        }
    }

    /// Searches `ranges` for anything better than what is found, or as good.
    fn run(mut self, ranges: Vec<Range>, bound: i128) -> Step<Outcome> {
        self.stack.push(Node { ranges, bound });
        while let Some(node) = self.stack.pop() {
            if self.found.as_ref().is_some_and(|found| node.bound > found.price.sum) {
                continue;
            }
            if !self.budget.spend(self.work) {
                self.leave(node.bound);
                continue;
            }
            match self.node(node) {
                Err(Stop::Infeasible) => {}
                other => other?,
            }
            if self.wanted == Wanted::Any && self.found.is_some() {
                break;
            }
        }
        Ok(Outcome { found: self.found, open: self.open })
    }

    /// Notes that something of at least `bound` was not searched.
    fn leave(&mut self, bound: i128) {
        self.open = Some(self.open.map_or(bound, |open| open.min(bound)));
    }

    fn node(&mut self, node: Node) -> Step<()> {
        let mut ranges = node.ranges;
        self.narrow(&mut ranges)?;
        let lower = self.bounds(&ranges);
        let bound = lower.bound().max(node.bound);
        if let Some(found) = &self.found
            && bound == found.price.sum
            && !self.beats(&mut ranges)
        {
            return Ok(());
        }
        let mut most = match &self.found {
            Some(found) => found.price.sum,
            None => bound + self.first_slack(&lower, &ranges)?,
        };
        loop {
            if bound > most {
                return Ok(());
            }
            if !self.budget.spend(self.work / 4) {
                self.leave(bound);
                return Ok(());
            }
            let (windows, all) = self.windows(&lower, &ranges, most)?;
            // Where the windows hold all, sums may miss by anything.
            let slack = (!all).then_some(most - lower.plain.bound);
            match self.window(windows, slack)? {
                Window::Spent => {
                    self.leave(bound);
                    return Ok(());
                }
                Window::Split(_) if !self.looked && self.found.is_none() => {
                    self.look_deeper(&ranges)?;
                    self.stack.push(Node { ranges, bound });
                    return Ok(());
                }
                Window::Split(class) => {
                    self.dive(&ranges, &lower)?;
                    // What a dive found is no closer than it is.
                    let most = self.found.as_ref().map_or(most, |found| found.price.sum);
                    return self.split(class, ranges, &lower, most);
                }
                Window::Done if all => return Ok(()),
                Window::Done => {}
            }
            let Some(found) = &self.found else {
                if !self.looked {
                    self.look_deeper(&ranges)?;
                    self.stack.push(Node { ranges, bound });
                    return Ok(());
                }
                self.dive(&ranges, &lower)?;
                let least = lower.bound().min(most);
                most = match &self.found {
                    Some(found) => found.price.sum,
                    None => most + (most - least) / 2 + 1,
                };
                continue;
            };
            // Everything that costs at most `most` has been seen.
            let sum = found.price.sum;
            if sum <= most || self.wanted == Wanted::Any {
                return self.look_around(&lower, &ranges, sum);
            }
            most = sum;
        }
    }

    /// Looks for any answer, so that the search has something to beat.
    fn dive(&mut self, ranges: &[Range], lower: &Bounds) -> Step<()> {
        if self.dived || self.found.is_some() {
            return Ok(());
        }
        self.dived = true;
        let part = self.part;
        let mut share = self.budget.take(self.budget.left() / 4);
        let liked = &lower.priced.best;
        let values = dive::dive(ranges, &part.forms, &part.parities, liked, &mut share);
        self.budget.give_back(share);
        let Some(values) = values? else { return Ok(()) };
        let mut price = Price::ZERO;
        for (cost, &t) in part.costs.iter().zip(&values) {
            price = price.with(self.price(cost, t));
        }
        for sum in &part.sums {
            price = price.with(sum.price(&values)?);
        }
        self.offer(Found { price, values, around: None });
        Ok(())
    }

    fn bounds(&self, ranges: &[Range]) -> Bounds {
        let part = self.part;
        let plain = dual::plain(&part.costs, ranges);
        let priced = dual::priced(&part.costs, ranges, &part.forms, &part.sums, &plain)
            .unwrap_or_else(|_| plain.clone());
        Bounds { plain, priced }
    }

    /// Narrows to what can be better than the answer found at the same sum: smaller
    /// misses, or greater values first. Whether anything is left.
    fn beats(&self, ranges: &mut [Range]) -> bool {
        let Some(found) = &self.found else { return true };
        match self.rule {
            Rule::Largest => within_miss(ranges, &self.part.costs, found.price.largest - 1),
            Rule::Greater(_) => {
                for (range, &value) in ranges.iter_mut().zip(&found.values) {
                    range.low = range.low.max(value);
                    if range.low > range.high {
                        return false;
                    }
                    if range.high > value {
                        return true;
                    }
                }
                false
            }
        }
    }

    /// Narrows by every form.
    fn narrow(&self, ranges: &mut [Range]) -> Step<()> {
        propagate::narrow(ranges, &self.part.forms, PASSES)?;
        self.lattice.as_ref().map_or(Ok(()), |lattice| lattice.narrow(ranges, PASSES))
    }

    /// Notes where all assignments of the least sum lie, while that is all known.
    fn look_around(&mut self, lower: &Bounds, ranges: &[Range], sum: i128) -> Step<()> {
        if self.splits || self.rule != Rule::Largest {
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
        let (rows, columns) = (self.part.forms.len(), ranges.len());
        let work = u64::try_from(rows * rows * (rows + columns)).unwrap_or(u64::MAX);
        // All forms at once may be too much to look at.
        if work > self.budget.left() / 4 || !self.budget.spend(work) {
            return Ok(());
        }
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

    /// Searches the windows for answers whose sums cost `slack` at most.
    fn window(&mut self, mut windows: Vec<Range>, slack: Option<i128>) -> Step<Window> {
        if windows.iter().any(|range| range.low > range.high) {
            return Ok(Window::Done);
        }
        let near = slack.map(|slack| self.near(slack)).unwrap_or_default();
        let network = propagate::narrow(&mut windows, &self.part.forms, PASSES)
            .and_then(|()| propagate::narrow(&mut windows, &near, 2))
            .and_then(|()| {
                let part = self.part;
                Network::new(&windows, &part.forms, &part.parities, &part.sums)
            });
        let network = match network {
            Err(Stop::Infeasible) => return Ok(Window::Done),
            other => other?,
        };
        let plan = network::plan(&network)?;
        if let (true, Some(widest)) = (plan.work > self.budget.cells, plan.widest) {
            return Ok(Window::Split(widest));
        }
        if !self.budget.spend(plan.work) {
            return Ok(Window::Spent);
        }
        self.tables(&network, &plan)?;
        Ok(Window::Done)
    }

    /// The sums as forms: none may cost more than `slack` alone.
    fn near(&self, slack: i128) -> Vec<Form> {
        let near = |sum: &Sum| {
            let room = slack.max(0) / sum.weight.max(1);
            let room = i64::try_from(room).ok().filter(|&room| i128::from(room) < bounds::FORM)?;
            let (low, high) = (sum.form.low - room, sum.form.high + room);
            Some(Form { terms: sum.form.terms.clone(), low, high })
        };
        self.part.sums.iter().filter_map(near).collect()
    }

    fn tables(&mut self, network: &Network, plan: &Plan) -> Step<()> {
        let mut own = Vec::with_capacity(self.part.costs.len());
        for (cost, range) in self.part.costs.iter().zip(&network.ranges) {
            own.push((range.low..=range.high).map(|t| self.price(cost, t)).collect());
        }
        if let Some((price, values)) = eliminate::best(network, plan, &own, self.rule)? {
            self.offer(Found { price, values, around: None });
        }
        Ok(())
    }

    fn price(&self, cost: &Cost, t: i64) -> Price {
        match self.rule {
            Rule::Largest => Price { sum: cost.at(t), largest: cost.miss(t) },
            // The ranges hold no greater miss.
            Rule::Greater(_) => Price { sum: cost.at(t), largest: 0 },
        }
    }

    fn offer(&mut self, new: Found) {
        let better = self.found.as_ref().is_none_or(|old| {
            let greater = self.rule != Rule::Largest && new.values > old.values;
            new.price < old.price || (new.price == old.price && greater)
        });
        if better {
            self.found = Some(new);
        }
    }

    /// Pieces of the range of `class`, to be searched one after another.
    fn split(
        &mut self,
        class: usize,
        mut ranges: Vec<Range>,
        bounds: &Bounds,
        most: i128,
    ) -> Step<()> {
        self.splits = true;
        if self.found.is_some() {
            (ranges, _) = self.windows(bounds, &ranges, most)?;
        }
        let Range { low, high } = *ranges.at(class)?;
        if low >= high {
            return Err(if low > high { Stop::Infeasible } else { Stop::Large });
        }
        let best = (*bounds.priced.best.at(class)?).clamp(low, high);
        let bound = bounds.bound();
        for half in pieces(Range { low, high }, best, self.found.is_none(), self.rule) {
            let mut part = ranges.clone();
            *part.at_mut(class)? = half;
            self.stack.push(Node { ranges: part, bound });
        }
        Ok(())
    }
}

/// The pieces a range is searched in, the last one first: straight down to `best` while
/// nothing is found, then in halves, the more promising first.
fn pieces(range: Range, best: i64, down: bool, rule: Rule) -> Vec<Range> {
    let Range { low, high } = range;
    if down {
        let mut pieces = Vec::with_capacity(3);
        pieces.extend((low < best).then(|| Range { low, high: best - 1 }));
        pieces.extend((best < high).then(|| Range { low: best + 1, high }));
        pieces.push(Range { low: best, high: best });
        return pieces;
    }
    let edge = cut(low, high, best);
    let (lower, upper) = (Range { low, high: edge }, Range { low: edge + 1, high });
    let upward = rule != Rule::Largest || best > edge;
    if upward { [lower, upper].into() } else { [upper, lower].into() }
}

/// Where to cut `low..=high`: beside `best`, but never so that next to nothing comes off.
fn cut(low: i64, high: i64, best: i64) -> i64 {
    let least = (high - low) / 8;
    best.clamp(low + least, high - 1 - least)
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
