//! Which things hang together.

use crate::step::{At, Step};
use alloc::vec::Vec;

pub(crate) struct Groups(Vec<usize>);

impl Groups {
    pub(crate) fn new(count: usize) -> Self {
        Self((0..count).collect())
    }

    fn head(&mut self, mut place: usize) -> Step<usize> {
        loop {
            let up = *self.0.at(place)?;
            if up == place {
                return Ok(place);
            }
            let top = *self.0.at(up)?;
            *self.0.at_mut(place)? = top;
            place = top;
        }
    }

    pub(crate) fn join(&mut self, one: usize, other: usize) -> Step<()> {
        let (one, other) = (self.head(one)?, self.head(other)?);
        *self.0.at_mut(one.max(other))? = one.min(other);
        Ok(())
    }

    /// A number from 0 for each thing's group, in the order of their first things.
    pub(crate) fn numbers(&mut self) -> Step<(Vec<usize>, usize)> {
        let (mut numbers, mut count) = (Vec::with_capacity(self.0.len()), 0);
        for place in 0..self.0.len() {
            let head = self.head(place)?;
            if head == place {
                numbers.push(count);
                count += 1;
            } else {
                numbers.push(*numbers.at(head)?);
            }
        }
        Ok((numbers, count))
    }
}
