//! What all equations together say that none of them says alone.
//!
//! Narrowing looks at one form at a time. Two contradictory sums over wide ranges
//! would have it crawl; subtracting one from the other shows the contradiction at
//! once.

use crate::classes::{Form, Parity};
use crate::propagate::{self, Range};
use crate::step::{At, Step, Stop, narrow};
use alloc::vec;
use alloc::vec::Vec;
use num_integer::gcd;

/// Whether equations and parities have a solution in whole numbers of either sign,
/// where variables with one value left have that: by column steps of Euclid's kind
/// (a Hermite normal form).
fn solvable(ranges: &[Range], equations: &[Form], parities: &[Parity]) -> Step<bool> {
    let rows = equations.len() + parities.len();
    let mut columns = vec![vec![0_i128; rows]; ranges.len() + parities.len()];
    let mut totals: Vec<i128> = equations.iter().map(|form| form.low.into()).collect();
    totals.extend(parities.iter().map(|parity| i128::from(parity.odd)));
    let mut add = |row: usize, variable: usize, times: i64| -> Step<()> {
        match ranges.get(variable) {
            Some(&Range { low, high }) if low == high => {
                let total = totals.at_mut(row)?;
                *total = less(*total, times.into(), low.into())?;
            }
            _ => *columns.at_mut(variable)?.at_mut(row)? += i128::from(times),
        }
        Ok(())
    };
    for (row, form) in equations.iter().enumerate() {
        for &(variable, times) in &form.terms {
            add(row, variable, times)?;
        }
    }
    for (place, parity) in parities.iter().enumerate() {
        // The sum of the two, and twice some whole number, is one or none.
        for (variable, times) in [(parity.one, 1), (parity.other, 1), (ranges.len() + place, 2)] {
            add(equations.len() + place, variable, times)?;
        }
    }
    let mut known: Vec<i128> = Vec::with_capacity(totals.len());
    for (row, total) in totals.into_iter().enumerate() {
        let mut rest = total;
        for (column, value) in columns.iter().zip(&known) {
            rest = less(rest, *column.at(row)?, *value)?;
        }
        let open = columns.get_mut(known.len()..).unwrap_or_default();
        let pivot = single_out(open, row)?;
        if pivot == 0 && rest != 0 || pivot != 0 && rest % pivot != 0 {
            return Ok(false);
        }
        if pivot != 0 {
            known.push(rest / pivot);
        }
    }
    Ok(true)
}

/// Leaves one column at most with anything in `row`, the first, and says what.
fn single_out(columns: &mut [Vec<i128>], row: usize) -> Step<i128> {
    loop {
        let mut least: Option<(u128, usize)> = None;
        let mut others = false;
        for (place, column) in columns.iter().enumerate() {
            let size = column.at(row)?.unsigned_abs();
            if size > 0 {
                others = least.is_some();
                least = Some(least.map_or((size, place), |known| known.min((size, place))));
            }
        }
        let Some((_, place)) = least else { return Ok(0) };
        columns.swap(0, place);
        let Some((first, rest)) = columns.split_first_mut() else { return Ok(0) };
        let pivot = *first.at(row)?;
        if !others {
            return Ok(pivot);
        }
        for column in rest {
            let times = column.at(row)? / pivot;
            for (cell, by) in column.iter_mut().zip(&*first) {
                *cell = less(*cell, *by, times)?;
            }
        }
    }
}

/// `a - b * times`.
fn less(a: i128, b: i128, times: i128) -> Step<i128> {
    b.checked_mul(times).and_then(|product| a.checked_sub(product)).ok_or(Stop::Large)
}

/// All forms together, over the variables and, after them, one slack for each form
/// that only bounds.
#[derive(Debug)]
pub(crate) struct Lattice {
    equations: Vec<Form>,
    parities: Vec<Parity>,
    slacks: Vec<Range>,
    /// Forms that follow.
    implied: Vec<Form>,
}

/// One form as a row: its coefficients, and what they come to.
struct Row {
    cells: Vec<i128>,
    total: i128,
}

impl Lattice {
    /// Eliminates the variables of the widest ranges from as many forms as can be.
    pub(crate) fn new(ranges: &[Range], forms: &[Form], parities: &[Parity]) -> Step<Self> {
        let (mut equations, mut slacks) = (Vec::with_capacity(forms.len()), Vec::new());
        for form in forms {
            let mut equation = form.clone();
            if !form.is_equation() {
                equation.terms.push((ranges.len() + slacks.len(), -1));
                (equation.low, equation.high) = (0, 0);
                slacks.push(Range { low: form.low, high: form.high });
            }
            equations.push(equation);
        }
        let mut rows = Vec::with_capacity(equations.len());
        for equation in &equations {
            rows.push(Row::new(equation, ranges.len() + slacks.len())?);
        }
        let mut order: Vec<usize> = (0..ranges.len()).collect();
        order.sort_by_key(|&variable| ranges.get(variable).map(|range| u64::MAX - range.len()));
        let mut used = 0;
        for variable in order {
            let open = rows.get(used..).unwrap_or_default();
            let found =
                open.iter().position(|row| row.cells.get(variable).is_some_and(|&n| n != 0));
            if let Some(place) = found {
                rows.swap(used, used + place);
                eliminate(&mut rows, used, variable)?;
                used += 1;
            }
        }
        let implied = rows.iter().map(Row::form).collect::<Step<Vec<Option<Form>>>>()?;
        let implied = implied.into_iter().flatten().collect();
        Ok(Self { equations, parities: parities.to_vec(), slacks, implied })
    }

    /// Narrows the ranges of the variables by what is implied.
    pub(crate) fn narrow(&self, ranges: &mut [Range], passes: u32) -> Step<()> {
        let mut all = [&*ranges, self.slacks.as_slice()].concat();
        propagate::narrow(&mut all, &self.implied, passes)?;
        for (range, narrowed) in ranges.iter_mut().zip(&all) {
            *range = *narrowed;
        }
        match solvable(&all, &self.equations, &self.parities) {
            Ok(false) => Err(Stop::Infeasible),
            // Numbers too large to go on with only mean that nothing is known.
            _ => Ok(()),
        }
    }
}

/// Takes `variable` out of every row but the one at `pivot`.
fn eliminate(rows: &mut [Row], pivot: usize, variable: usize) -> Step<()> {
    let (before, rest) = rows.split_at_mut(pivot);
    let Some((row, after)) = rest.split_first_mut() else { return Ok(()) };
    let own = *row.cells.at(variable)?;
    for other in before.iter_mut().chain(after) {
        let theirs = *other.cells.at(variable)?;
        if theirs != 0 {
            other.combine(own, row, theirs)?;
        }
    }
    Ok(())
}

impl Row {
    fn new(equation: &Form, variables: usize) -> Step<Self> {
        let mut cells = vec![0_i128; variables];
        for &(variable, times) in &equation.terms {
            *cells.at_mut(variable)? = times.into();
        }
        Ok(Self { cells, total: equation.low.into() })
    }

    /// `self * times - other * by`, without what all its numbers have in common.
    fn combine(&mut self, times: i128, other: &Self, by: i128) -> Step<()> {
        let scaled = |cell: i128, theirs: i128| {
            let product = cell.checked_mul(times).ok_or(Stop::Large)?;
            less(product, theirs, by)
        };
        for (cell, &theirs) in self.cells.iter_mut().zip(&other.cells) {
            *cell = scaled(*cell, theirs)?;
        }
        self.total = scaled(self.total, other.total)?;
        let shared = self.shared()?;
        if shared > 1 {
            if self.total % shared != 0 {
                return Err(Stop::Infeasible);
            }
            self.total /= shared;
            self.cells.iter_mut().for_each(|cell| *cell /= shared);
        }
        Ok(())
    }

    fn shared(&self) -> Step<i128> {
        let mut shared = 0;
        for &cell in self.cells.iter().filter(|cell| **cell != 0) {
            shared = gcd(shared, narrow(cell)?.unsigned_abs());
        }
        Ok(shared.into())
    }

    /// The row as a form; `None` when nothing is left of it, or its numbers are too
    /// large to be narrowed by.
    fn form(&self) -> Step<Option<Form>> {
        let cells = self.cells.iter().enumerate().filter(|(_, cell)| **cell != 0);
        let small = |n: i128| narrow(n).ok().filter(|n| n.unsigned_abs() < 1 << 32);
        let terms: Option<Vec<(usize, i64)>> =
            cells.map(|(variable, &cell)| Some((variable, small(cell)?))).collect();
        match (terms, narrow(self.total)) {
            (Some(terms), Ok(total)) if terms.is_empty() && total != 0 => Err(Stop::Infeasible),
            (Some(terms), Ok(total)) if !terms.is_empty() && total.unsigned_abs() < 1 << 60 => {
                Ok(Some(Form { terms, low: total, high: total }))
            }
            _ => Ok(None),
        }
    }
}
