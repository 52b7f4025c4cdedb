//! The same edge with more or fewer stitches or rows, as far as it can be knitted so.

use crate::edge::Part;
use crate::{Edge, EdgeCount, EdgeKind, EdgeStep, Error};
use alloc::format;
use alloc::vec::Vec;
use core::cmp::Reverse;
use loopwright_gauge::{Exact, Length, ReadingDirection as Counting, Rows, Stitches, bounds};

/// What an edge can be lengthened and shortened by.
pub(crate) struct Room {
    /// How many it has.
    pub(crate) count: u32,
    /// The length of one more.
    one: Length,
    /// How many can be taken away, and the length of each of them.
    take: Vec<(u32, Length)>,
}

impl Room {
    /// How many can be added, or taken away.
    pub(crate) fn most(&self, more: bool) -> u32 {
        if more {
            return bounds::COUNT.saturating_sub(self.count);
        }
        self.take.iter().fold(0, |sum, (count, _)| sum.saturating_add(*count))
    }

    /// By how much the edge grows with so many more; below zero fewer.
    pub(crate) fn grown(&self, more: i64) -> Result<Length, Error> {
        if more >= 0 {
            return Ok(self.one.scaled(Exact::try_from(more)?)?);
        }
        let (mut left, mut length) = (more.unsigned_abs(), Length::ZERO);
        for &(count, one) in &self.take {
            let taken = left.min(count.into());
            let taken = u32::try_from(taken).unwrap_or(u32::MAX);
            length = length.checked_sub(one.scaled(taken.into())?)?;
            left -= u64::from(taken);
        }
        Ok(length)
    }
}

impl Edge {
    /// The same edge with another count of stitches, if it is counted in them, or of
    /// rows.
    ///
    /// Rows are added where the edge runs straight, or at its end where it never does,
    /// and taken away from its straight rows only: the longest stretch gives first, then
    /// the next. Stitches go to and from the longest part. An ideal outline is left
    /// behind where its part changes.
    ///
    /// # Errors
    /// When the edge has no such rows or stitches, too few of them can be taken away,
    /// or the count is out of bounds.
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::Rows;
    /// use loopwright_seams::Edge;
    /// let armhole = Edge::read("armhole", "6 st, 2 rows 3 st x4, 40 rows", "28x40/10cm".parse()?)?;
    /// assert_eq!(armhole.rows(), Rows::new(48)?);
    /// assert_eq!(armhole.recounted(Rows::new(45)?)?.rows(), Rows::new(45)?);
    /// // Only the 40 straight rows can be left out.
    /// assert!(armhole.recounted(Rows::new(7)?).is_err());
    /// # Ok::<(), loopwright_seams::Error>(())
    /// ```
    pub fn recounted(&self, count: impl Into<EdgeCount>) -> Result<Self, Error> {
        let count = count.into();
        let counted = count.direction();
        let (from, to) = (self.count_as(counted), i64::from(count.get()));
        let mut by = to - i64::from(from);
        let mut edges: Vec<Self> = self.parts.iter().map(Self::of_part).collect();
        for at in self.givers(counted) {
            let Some((part, edge)) = self.parts.get(at).zip(edges.get_mut(at)) else { continue };
            // The first takes all that comes; each gives what it can.
            let own = by.max(-i64::from(spare(part, counted)));
            if own != 0 {
                *edge = part.grown(own)?;
                by -= own;
            }
        }
        if by != 0 {
            let least = to - by;
            return Err(Error::range(
                format!("the count of {counted} of the {}", self.name),
                to,
                if by < 0 { format!("at least {least}") } else { format!("{from}") },
            ));
        }
        match <[Self; 1]>::try_from(edges) {
            Ok([only]) => Ok(Self { name: self.name.clone(), ..only }),
            Err(edges) => Self::joined(self.name.clone(), edges),
        }
    }

    /// What the edge can be lengthened and shortened by in stitches, or in rows.
    pub(crate) fn room(&self, counted: Counting) -> Result<Room, Error> {
        let mut take = Vec::new();
        for part in self.givers(counted).into_iter().filter_map(|at| self.parts.get(at)) {
            take.push((spare(part, counted), part.one(counted)?));
        }
        let one = take.first().map_or(Length::ZERO, |(_, one)| *one);
        Ok(Room { count: self.count_as(counted), one, take })
    }

    fn count_as(&self, counted: Counting) -> u32 {
        match counted {
            Counting::Stitches => self.stitches.get(),
            Counting::Rows => self.rows.get(),
        }
    }

    /// The parts that have such counts, the one that can spare most first.
    fn givers(&self, counted: Counting) -> Vec<usize> {
        let has = |part: &Part| match counted {
            Counting::Stitches => part.kind.is_stitches(),
            Counting::Rows => part.rows > Rows::ZERO,
        };
        let mut order: Vec<(usize, &Part)> =
            self.parts.iter().enumerate().filter(|(_, part)| has(part)).collect();
        order.sort_by_key(|(_, part)| Reverse(spare(part, counted)));
        order.into_iter().map(|(at, _)| at).collect()
    }
}

/// How many of its stitches or straight rows a part can do without.
fn spare(part: &Part, counted: Counting) -> u32 {
    match (counted, part.kind) {
        (Counting::Stitches, _) => part.stitches.get().saturating_sub(1),
        (_, EdgeKind::Selvedge) => part.rows.get().saturating_sub(1),
        _ => straight(&part.steps).map(|step| step.rows.get()).sum(),
    }
}

fn straight(steps: &[EdgeStep]) -> impl Iterator<Item = &EdgeStep> {
    steps.iter().filter(|step| step.stitches == Stitches::ZERO)
}

impl Part {
    fn one(&self, counted: Counting) -> Result<Length, Error> {
        Ok(match counted {
            Counting::Stitches => self.gauge.length_of(Stitches::ONE)?,
            Counting::Rows => self.gauge.length_of(Rows::ONE)?,
        })
    }

    fn grown(&self, by: i64) -> Result<Edge, Error> {
        let (name, gauge) = (self.name.clone(), self.gauge);
        match self.kind {
            EdgeKind::CastOn => Edge::cast_on(name, more(self.stitches, by)?, gauge),
            EdgeKind::Live => Edge::live(name, more(self.stitches, by)?, gauge),
            EdgeKind::BoundOff => Edge::bound_off(name, more(self.stitches, by)?, gauge),
            EdgeKind::Selvedge => Edge::selvedge(name, more_rows(self.rows, by)?, gauge),
            _ => Edge::stepped(name, grown_steps(&self.steps, by)?, gauge),
        }
    }
}

/// The steps with rows more or fewer among the straight ones, the longest first.
fn grown_steps(steps: &[EdgeStep], mut by: i64) -> Result<Vec<EdgeStep>, Error> {
    let mut steps = steps.to_vec();
    let mut order: Vec<usize> = (0..steps.len()).collect();
    let plain = |steps: &[EdgeStep], at: usize| {
        steps.get(at).filter(|step| step.stitches == Stitches::ZERO).map(|step| step.rows)
    };
    order.retain(|&at| plain(&steps, at).is_some());
    order.sort_by_key(|&at| Reverse(plain(&steps, at)));
    if order.is_empty() {
        order.push(steps.len());
        steps.push(EdgeStep { rows: Rows::ZERO, stitches: Stitches::ZERO });
    }
    for at in order {
        let Some(step) = steps.get_mut(at) else { continue };
        let own = by.max(-i64::from(step.rows.get()));
        step.rows = more_rows(step.rows, own)?;
        by -= own;
    }
    steps.retain(|step| step.rows > Rows::ZERO || step.stitches > Stitches::ZERO);
    Ok(steps)
}

fn more(count: Stitches, by: i64) -> Result<Stitches, Error> {
    let sum = i64::from(count.get()).saturating_add(by);
    Ok(Stitches::new(u32::try_from(sum).unwrap_or(u32::MAX))?)
}

fn more_rows(count: Rows, by: i64) -> Result<Rows, Error> {
    let sum = i64::from(count.get()).saturating_add(by);
    Ok(Rows::new(u32::try_from(sum).unwrap_or(u32::MAX))?)
}
