//! The shortest way to say a list: runs and nested repeats.
//!
//! A phrase holds no words of any language. It is a tree of items and repeats that
//! expands to exactly the list it was made from; words are made from it last.

use crate::bounds;
use alloc::vec;
use alloc::vec::Vec;

/// A list told with runs and repeats.
#[derive(Clone, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
pub enum Phrase<T> {
    /// One item, so many times running.
    Item {
        /// The item.
        item: T,
        /// How many times running.
        times: u32,
    },
    /// Several phrases in order, all of it so many times.
    Repeat {
        /// What is repeated.
        body: Vec<Phrase<T>>,
        /// How many times.
        times: u32,
    },
}

impl<T: Clone> Phrase<T> {
    /// The list this phrase stands for.
    #[must_use]
    pub fn expand(phrases: &[Self]) -> Vec<T> {
        let mut list = Vec::new();
        Self::expand_into(phrases, &mut list);
        list
    }

    fn expand_into(phrases: &[Self], list: &mut Vec<T>) {
        for phrase in phrases {
            match phrase {
                Self::Item { item, times } => {
                    list.extend((0..*times).map(|_| item.clone()));
                }
                Self::Repeat { body, times } => {
                    for _ in 0..*times {
                        Self::expand_into(body, list);
                    }
                }
            }
        }
    }
}

impl<T> Phrase<T> {
    /// How long the phrase is to say: one for every run, one for every repeat.
    #[must_use]
    pub fn length(phrases: &[Self]) -> usize {
        phrases
            .iter()
            .map(|phrase| match phrase {
                Self::Item { .. } => 1,
                Self::Repeat { body, .. } => 1 + Self::length(body),
            })
            .sum()
    }
}

/// The shortest phrase for `list`.
///
/// Objective: the fewest runs and repeats together ([`Phrase::length`]); then the
/// fewest repeats; then the shortest first part. Every way to cut the list and every
/// period of every part of it is compared, by dynamic programming over its parts,
/// so the phrase is the shortest there is for lists of up to [`bounds::PHRASE`]
/// items. Longer lists are told as runs first, and the runs are cut the same way
/// while there are at most that many; beyond, as plain runs.
///
/// # Examples
/// ```
/// use loopwright_shaping::{Phrase, shortest};
/// let phrase = shortest(&[4, 6, 4, 6, 4, 6, 4, 4]);
/// assert_eq!(
///     phrase,
///     [
///         Phrase::Repeat {
///             body: vec![
///                 Phrase::Item { item: 4, times: 1 },
///                 Phrase::Item { item: 6, times: 1 },
///             ],
///             times: 3,
///         },
///         Phrase::Item { item: 4, times: 2 },
///     ]
/// );
/// assert_eq!(Phrase::expand(&phrase), [4, 6, 4, 6, 4, 6, 4, 4]);
/// ```
#[must_use]
pub fn shortest<T: Clone + Eq>(list: &[T]) -> Vec<Phrase<T>> {
    if list.len() <= bounds::PHRASE {
        let singles: Vec<(T, u32)> = list.iter().map(|item| (item.clone(), 1)).collect();
        return Table::new(&singles).read(&singles);
    }
    let runs = runs(list);
    if runs.len() <= bounds::PHRASE {
        return Table::new(&runs).read(&runs);
    }
    runs.into_iter().map(|(item, times)| Phrase::Item { item, times }).collect()
}

/// Each item with how many times running it comes.
pub(crate) fn runs<T: Clone + Eq>(list: &[T]) -> Vec<(T, u32)> {
    let mut runs: Vec<(T, u32)> = Vec::new();
    for item in list {
        match runs.last_mut() {
            Some((running, times)) if running == item => *times += 1,
            _ => runs.push((item.clone(), 1)),
        }
    }
    runs
}

/// What is cheapest for the part of a list that starts at `i` and is `n` long.
#[derive(Clone, Copy)]
struct Best {
    /// Runs and repeats, and of these the repeats.
    cost: (u32, u32),
    how: How,
}

#[derive(Clone, Copy)]
enum How {
    /// The same item all along.
    Run,
    /// The first so many items, then the others.
    Cut(usize),
    /// The first so many items, again and again.
    Period(usize),
}

/// The cheapest phrase of every part of a list; row `n - 1` holds the parts that
/// are `n` long, by their start.
struct Table {
    rows: Vec<Vec<Best>>,
}

impl Table {
    fn new<T: Eq>(list: &[(T, u32)]) -> Self {
        let same = same_ahead(list);
        let mut table = Self { rows: Vec::with_capacity(list.len()) };
        for n in 1..=list.len() {
            let row = (0..=list.len() - n).map(|i| table.best(&same, i, n)).collect();
            table.rows.push(row);
        }
        table
    }

    fn cost(&self, i: usize, n: usize) -> (u32, u32) {
        let found = self.rows.get(n.wrapping_sub(1)).and_then(|row| row.get(i));
        found.map_or((0, 0), |best| best.cost)
    }

    fn best(&self, same: &[Vec<usize>], i: usize, n: usize) -> Best {
        let ahead = |p: usize| same.get(p).and_then(|row| row.get(i)).map_or(0, |&ahead| ahead);
        if n == 1 || ahead(1) >= n - 1 {
            return Best { cost: (1, 0), how: How::Run };
        }
        let periods = (1..=n / 2).filter(|&p| n.is_multiple_of(p) && ahead(p) >= n - p).map(|p| {
            let (length, repeats) = self.cost(i, p);
            Best { cost: (length + 1, repeats + 1), how: How::Period(p) }
        });
        let cuts = (1..n).map(|k| {
            let (a, b) = (self.cost(i, k), self.cost(i + k, n - k));
            Best { cost: (a.0 + b.0, a.1 + b.1), how: How::Cut(k) }
        });
        // The first of the cheapest: periods before cuts, short before long.
        let start = Best { cost: (u32::MAX, 0), how: How::Run };
        periods
            .chain(cuts)
            .fold(start, |best, next| if next.cost < best.cost { next } else { best })
    }

    fn read<T: Clone + Eq>(&self, list: &[(T, u32)]) -> Vec<Phrase<T>> {
        let mut phrases = Vec::new();
        self.read_part(list, 0, list.len(), &mut phrases);
        phrases
    }

    fn read_part<T: Clone + Eq>(
        &self,
        list: &[(T, u32)],
        i: usize,
        n: usize,
        phrases: &mut Vec<Phrase<T>>,
    ) {
        let Some(best) = self.rows.get(n.wrapping_sub(1)).and_then(|row| row.get(i)) else {
            return;
        };
        match best.how {
            How::Run => {
                let part = list.get(i..i + n).unwrap_or_default();
                if let Some((item, _)) = part.first() {
                    let times = part.iter().map(|(_, times)| times).sum();
                    phrases.push(Phrase::Item { item: item.clone(), times });
                }
            }
            How::Cut(k) => {
                self.read_part(list, i, k, phrases);
                self.read_part(list, i + k, n - k, phrases);
            }
            How::Period(p) => {
                let mut body = Vec::new();
                self.read_part(list, i, p, &mut body);
                let times = u32::try_from(n / p).unwrap_or(u32::MAX);
                phrases.push(Phrase::Repeat { body, times });
            }
        }
    }
}

/// `same[p][i]`: how many items from `i` on are the same as the item `p` later.
fn same_ahead<T: Eq>(list: &[T]) -> Vec<Vec<usize>> {
    let mut same = vec![vec![0; list.len()]; list.len() / 2 + 1];
    for (p, row) in same.iter_mut().enumerate().skip(1) {
        let mut ahead = 0;
        let pairs = list.iter().zip(list.iter().skip(p)).zip(row);
        for ((item, later), slot) in pairs.rev() {
            ahead = if item == later { ahead + 1 } else { 0 };
            *slot = ahead;
        }
    }
    same
}
