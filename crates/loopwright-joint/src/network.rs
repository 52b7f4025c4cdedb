//! A part of a problem as tables want it: few values each, no form over more than
//! three variables.

use crate::classes::{Form, Parity};
use crate::cost::Sum;
use crate::propagate::{self, Range};
use crate::step::{At, Step};
use alloc::vec;
use alloc::vec::Vec;
use num_integer::gcd;

/// What an assignment costs, so far: the sum first, then the largest miss.
#[derive(Clone, Copy, Debug, Eq, Ord, PartialEq, PartialOrd)]
pub(crate) struct Price {
    pub(crate) sum: i128,
    pub(crate) largest: i128,
}

impl Price {
    pub(crate) const ZERO: Self = Self { sum: 0, largest: 0 };
    /// No assignment.
    pub(crate) const NONE: Self = Self { sum: i128::MAX, largest: i128::MAX };

    #[inline]
    pub(crate) fn with(self, other: Self) -> Self {
        Self { sum: self.sum + other.sum, largest: self.largest.max(other.largest) }
    }
}

#[derive(Debug)]
pub(crate) struct Network {
    /// Classes first, in their order; then the partial sums of long forms.
    pub(crate) ranges: Vec<Range>,
    /// How many of the variables are classes.
    pub(crate) classes: usize,
    pub(crate) forms: Vec<Form>,
    pub(crate) parities: Vec<Parity>,
    /// What classes cost together.
    pub(crate) sums: Vec<Sum>,
}

impl Network {
    pub(crate) fn new(
        ranges: &[Range],
        forms: &[Form],
        parities: &[Parity],
        sums: &[Sum],
    ) -> Step<Self> {
        let mut network = Self {
            ranges: ranges.to_vec(),
            classes: ranges.len(),
            forms: Vec::with_capacity(forms.len()),
            parities: parities.to_vec(),
            sums: sums.to_vec(),
        };
        let uses = uses(ranges.len(), forms)?;
        for form in forms {
            network.add(form, &uses)?;
        }
        propagate::narrow(&mut network.ranges, &network.forms, 4)?;
        Ok(network)
    }

    /// Adds `form`, cut into partial sums of three terms if it is longer. Classes
    /// that nothing else speaks of are summed first, and so eliminated first.
    fn add(&mut self, form: &Form, uses: &[u32]) -> Step<()> {
        let mut terms = form.terms.clone();
        terms.sort_by_key(|term| uses.get(term.0).copied());
        let mut rest = terms.into_iter();
        let mut head: Vec<(usize, i64)> = Vec::with_capacity(3);
        while let Some(term) = rest.next() {
            head.push(term);
            if head.len() == 2 && rest.len() > 1 {
                head = vec![self.partial(&head)?];
            }
        }
        self.forms.push(Form { terms: head, low: form.low, high: form.high });
        Ok(())
    }

    /// A variable for the sum of two terms, divided by what they have in common.
    fn partial(&mut self, head: &[(usize, i64)]) -> Step<(usize, i64)> {
        let shared = head.iter().fold(0, |shared, term| gcd(shared, term.1.unsigned_abs()));
        let shared = i64::try_from(shared).unwrap_or(1).max(1);
        let variable = self.ranges.len();
        let mut terms = Vec::with_capacity(3);
        let mut range = Range { low: 0, high: 0 };
        for &(class, times) in head {
            let times = times / shared;
            let values = *self.ranges.at(class)?;
            let (one, other) = (times * values.low, times * values.high);
            range.low += one.min(other);
            range.high += one.max(other);
            terms.push((class, times));
        }
        terms.push((variable, -1));
        self.ranges.push(range);
        self.forms.push(Form { terms, low: 0, high: 0 });
        Ok((variable, shared))
    }
}

/// How many forms speak of each class.
fn uses(classes: usize, forms: &[Form]) -> Step<Vec<u32>> {
    let mut uses = vec![0; classes];
    for (class, _) in forms.iter().flat_map(|form| &form.terms) {
        *uses.at_mut(*class)? += 1;
    }
    Ok(uses)
}

/// In which order to eliminate, and how much work that is.
#[derive(Debug)]
pub(crate) struct Plan {
    /// Each variable, with those left that it is tied to when its turn comes.
    pub(crate) order: Vec<(usize, Vec<usize>)>,
    /// Cells of all tables, times what each takes.
    pub(crate) work: u64,
    /// The class to split if that is too much: the one with the largest table, if any
    /// has more than one value.
    pub(crate) widest: Option<usize>,
}

/// Always the variable whose table is the smallest comes next.
pub(crate) fn plan(network: &Network) -> Step<Plan> {
    let mut ties = ties(network)?;
    let lens: Vec<u64> = network.ranges.iter().map(|range| range.len()).collect();
    let equated = equated(network)?;
    let mut sizes = Vec::with_capacity(ties.len());
    for tied in &ties {
        sizes.push(Some(size(tied, &lens)?));
    }
    let (mut order, mut work, mut widest) = (Vec::with_capacity(ties.len()), 0_u64, None);
    while let Some((cells, variable)) = smallest(&sizes) {
        *sizes.at_mut(variable)? = None;
        let scope = core::mem::take(ties.at_mut(variable)?);
        for &near in &scope {
            connect(ties.at_mut(near)?, near, variable, &scope);
            *sizes.at_mut(near)? = Some(size(ties.at(near)?, &lens)?);
        }
        let each = if *equated.at(variable)? { 1 } else { *lens.at(variable)? };
        let cost = cells.saturating_mul(each);
        work = work.saturating_add(cost);
        if variable < network.classes && *lens.at(variable)? > 1 {
            widest = widest.max(Some((cost, variable)));
        }
        order.push((variable, scope));
    }
    Ok(Plan { order, work, widest: widest.map(|of| of.1) })
}

fn smallest(sizes: &[Option<u64>]) -> Option<(u64, usize)> {
    sizes.iter().enumerate().filter_map(|(variable, size)| Some(((*size)?, variable))).min()
}

fn size(tied: &[usize], lens: &[u64]) -> Step<u64> {
    let mut cells = 1_u64;
    for &near in tied {
        cells = cells.saturating_mul(*lens.at(near)?);
    }
    Ok(cells)
}

/// `variable` is gone from `tied`, the neighbours of `near`; the rest of `scope` is
/// in.
fn connect(tied: &mut Vec<usize>, near: usize, variable: usize, scope: &[usize]) {
    tied.retain(|&other| other != variable);
    for &other in scope {
        if other != near && !tied.contains(&other) {
            tied.push(other);
        }
    }
}

fn ties(network: &Network) -> Step<Vec<Vec<usize>>> {
    let mut ties: Vec<Vec<usize>> = network.ranges.iter().map(|_| Vec::new()).collect();
    let mut tie = |one: usize, other: usize| -> Step<()> {
        let near = ties.at_mut(one)?;
        if one != other && !near.contains(&other) {
            near.push(other);
        }
        Ok(())
    };
    for form in network.forms.iter().chain(network.sums.iter().map(|sum| &sum.form)) {
        for &(one, _) in &form.terms {
            for &(other, _) in &form.terms {
                tie(one, other)?;
            }
        }
    }
    for parity in &network.parities {
        tie(parity.one, parity.other)?;
        tie(parity.other, parity.one)?;
    }
    Ok(ties)
}

/// Which variables an equation gives once the others are known.
fn equated(network: &Network) -> Step<Vec<bool>> {
    let mut equated = vec![false; network.ranges.len()];
    for form in network.forms.iter().filter(|form| form.is_equation()) {
        for &(variable, _) in &form.terms {
            *equated.at_mut(variable)? = true;
        }
    }
    Ok(equated)
}
