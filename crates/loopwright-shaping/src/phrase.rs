//! The shortest way to say a list: runs and nested repeats.
//!
//! A phrase holds no words of any language. It is a tree of items and repeats that
//! expands to exactly the list it was made from; words are made from it last.

use crate::Error;
use crate::bounds;
use alloc::vec;
use alloc::vec::Vec;

/// A list told with runs and repeats.
#[derive(Clone, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case", deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
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
    /// The list these phrases stand for.
    ///
    /// # Errors
    /// When the list has more than [`COUNT`](bounds::COUNT) items.
    ///
    /// # Examples
    /// ```
    /// use loopwright_shaping::Phrase;
    /// let twice = Phrase::Repeat { body: vec![Phrase::Item { item: 4, times: 3 }], times: 2 };
    /// assert_eq!(Phrase::expand(&[twice])?, [4, 4, 4, 4, 4, 4]);
    /// # Ok::<(), loopwright_shaping::Error>(())
    /// ```
    pub fn expand(phrases: &[Self]) -> Result<Vec<T>, Error> {
        let count = Self::count(phrases);
        if count > bounds::COUNT.into() {
            let allowed = alloc::format!("at most {}", bounds::COUNT);
            return Err(Error::range("the number of items of a phrase", &count, allowed));
        }
        let mut list = Vec::with_capacity(usize::try_from(count).unwrap_or(0));
        Self::expand_into(phrases, &mut list);
        Ok(list)
    }

    fn expand_into(phrases: &[Self], list: &mut Vec<T>) {
        for phrase in phrases {
            match phrase {
                Self::Item { item, times } => {
                    list.extend((0..*times).map(|_| item.clone()));
                }
                // What stands for nothing is not walked through again and again.
                Self::Repeat { body, .. } if Self::count(body) == 0 => {}
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

    /// How many items the phrases stand for; `u64::MAX`, if they are more.
    ///
    /// # Examples
    /// ```
    /// use loopwright_shaping::{Phrase, shortest};
    /// assert_eq!(Phrase::count(&shortest(&[4, 6, 4, 6, 4])), 5);
    /// ```
    #[must_use]
    pub fn count(phrases: &[Self]) -> u64 {
        phrases.iter().fold(0, |sum: u64, phrase| {
            sum.saturating_add(match phrase {
                Self::Item { times, .. } => (*times).into(),
                Self::Repeat { body, times } => Self::count(body).saturating_mul((*times).into()),
            })
        })
    }
}

/// The shortest phrase for `list`.
///
/// Objective: the fewest runs and repeats together ([`Phrase::length`]); then the
/// fewest repeats; then the shortest first part. Every way to cut the list and every
/// period of every part of it is compared, by dynamic programming over its parts,
/// so the phrase is the shortest there is for lists of up to [`bounds::PHRASE`]
/// items. Longer lists are told as runs first, and the runs are cut the same way
/// while there are at most that many. Beyond, a list that comes again and again is
/// told by what comes, and any other as plain runs.
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
/// assert_eq!(Phrase::expand(&phrase)?, [4, 6, 4, 6, 4, 6, 4, 4]);
/// # Ok::<(), loopwright_shaping::Error>(())
/// ```
#[must_use]
pub fn shortest<T: Clone + Eq>(list: &[T]) -> Vec<Phrase<T>> {
    shortest_of_runs(&runs(list.iter().map(|item| (item.clone(), 1))))
}

/// The shortest phrase for a list that is told as runs: neighbours that differ, each
/// with how many times running it comes. See [`shortest`].
///
/// # Examples
/// ```
/// use loopwright_shaping::{Phrase, shortest, shortest_of_runs};
/// assert_eq!(shortest_of_runs(&[(4, 3), (6, 1)]), shortest(&[4, 4, 4, 6]));
/// // A list too long to write out.
/// let told = shortest_of_runs(&[(4, u32::MAX), (6, 1)]);
/// assert_eq!(Phrase::count(&told), u64::from(u32::MAX) + 1);
/// ```
#[must_use]
pub fn shortest_of_runs<T: Clone + Eq>(runs: &[(T, u32)]) -> Vec<Phrase<T>> {
    let items: u64 = runs.iter().map(|(_, times)| u64::from(*times)).sum();
    if items <= bounds::PHRASE as u64 {
        let mut singles: Vec<(T, u32)> = Vec::new();
        for (item, times) in runs {
            singles.extend((0..*times).map(|_| (item.clone(), 1)));
        }
        return Table::new(&singles).read(&singles);
    }
    if runs.len() <= bounds::PHRASE {
        return Table::new(runs).read(runs);
    }
    let period = period(runs);
    match runs.split_at_checked(period) {
        Some((body, _)) if period <= bounds::PHRASE => {
            let times = runs.len() / period;
            let rest = runs.get(times * period..).unwrap_or_default();
            let mut told = vec![Phrase::Repeat {
                body: Table::new(body).read(body),
                times: u32::try_from(times).unwrap_or(u32::MAX),
            }];
            told.extend(Table::new(rest).read(rest));
            told
        }
        _ => {
            let item =
                |(item, times): &(T, u32)| Phrase::Item { item: item.clone(), times: *times };
            runs.iter().map(item).collect()
        }
    }
}

/// After how many runs a list begins again, to its end: its length, if it never does.
fn period<T: Eq>(runs: &[T]) -> usize {
    // border[i]: the longest beginning of the list that also ends its first i + 1 runs.
    let mut border: Vec<usize> = Vec::with_capacity(runs.len());
    for (i, run) in runs.iter().enumerate() {
        let mut k = border.last().copied().unwrap_or(0);
        while k > 0 && runs.get(k) != Some(run) {
            k = border.get(k - 1).copied().unwrap_or(0);
        }
        border.push(if i > 0 && runs.get(k) == Some(run) { k + 1 } else { 0 });
    }
    runs.len() - border.last().copied().unwrap_or(0)
}

/// Each item with how many times running it comes, neighbours that are alike in one.
pub(crate) fn runs<T: Eq>(list: impl IntoIterator<Item = (T, u32)>) -> Vec<(T, u32)> {
    let mut runs: Vec<(T, u32)> = Vec::new();
    for (item, times) in list {
        match runs.last_mut() {
            Some((running, all)) if *running == item => *all = all.saturating_add(times),
            _ => runs.push((item, times)),
        }
    }
    runs
}

/// What a phrase costs: runs and repeats, and of these the repeats, in one number.
type Cost = u32;

const RUN: Cost = 1 << 16;
const REPEAT: Cost = (1 << 16) + 1;

/// How the part of a list that starts at `i` and is `n` long is told.
#[derive(Clone, Copy)]
enum How {
    /// The same item all along.
    Run,
    /// The first so many items, then the others.
    Cut(usize),
    /// The first so many items, again and again.
    Period(usize),
}

/// The cheapest phrase of every part of a list, the short parts first.
struct Table {
    /// By the start of a part and its length less one.
    how: Vec<Vec<How>>,
    from: Vec<Vec<Cost>>,
    /// The same costs by the end of a part, so that both halves of all cuts lie in order.
    until: Vec<Vec<Cost>>,
}

impl Table {
    fn new<T: Eq>(list: &[(T, u32)]) -> Self {
        let same = same_ahead(list);
        let (all, empty) = (list.len(), || vec![Vec::new(); list.len()]);
        let mut table = Self { how: vec![Vec::new(); all], from: empty(), until: empty() };
        for n in 1..=all {
            for i in 0..=all - n {
                let (cost, how) = table.best(&same, i, n);
                table.keep(i, n, cost, how);
            }
        }
        table
    }

    fn keep(&mut self, i: usize, n: usize, cost: Cost, how: How) {
        if let Some(row) = self.how.get_mut(i) {
            row.push(how);
        }
        if let Some(row) = self.from.get_mut(i) {
            row.push(cost);
        }
        if let Some(row) = self.until.get_mut(i + n - 1) {
            row.push(cost);
        }
    }

    fn best(&self, same: &[Vec<usize>], i: usize, n: usize) -> (Cost, How) {
        let ahead = |p: usize| same.get(p).and_then(|row| row.get(i)).map_or(0, |&ahead| ahead);
        if n == 1 || ahead(1) >= n - 1 {
            return (RUN, How::Run);
        }
        let (Some(from), Some(until)) = (self.from.get(i), self.until.get(i + n - 1)) else {
            return (RUN, How::Run);
        };
        // The first of the cheapest: periods before cuts, short before long.
        let mut best = (Cost::MAX, How::Run);
        let periods = (1..=n / 2).filter(|&p| n.is_multiple_of(p) && ahead(p) >= n - p);
        for p in periods {
            let cost = from.get(p - 1).map_or(Cost::MAX, |cost| cost + REPEAT);
            if cost < best.0 {
                best = (cost, How::Period(p));
            }
        }
        for (k, (first, rest)) in (1..n).zip(from.iter().zip(until.iter().rev())) {
            if first + rest < best.0 {
                best = (first + rest, How::Cut(k));
            }
        }
        best
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
        let how = self.how.get(i).and_then(|row| row.get(n.wrapping_sub(1)));
        match how.copied().unwrap_or(How::Run) {
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
