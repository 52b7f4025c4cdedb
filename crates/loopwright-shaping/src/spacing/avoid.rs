//! Events moved off stitches they must not touch.

use crate::bounds::range;
use crate::error::Error;
use alloc::format;
use alloc::vec::Vec;
use loopwright_gauge::Stitches;

/// Which places an event may have, on the stitches between the borders.
#[derive(Debug)]
pub(super) struct Allowed {
    /// Places that are not allowed, from and to, in order and apart.
    forbidden: Vec<(u32, u32)>,
    multiple: u32,
    /// The first place on the grid.
    offset: u32,
    /// The first place and the last.
    limits: (u32, u32),
}

impl Allowed {
    pub(super) fn new(
        avoid: &[(Stitches, Stitches)],
        grid: Option<(Stitches, Stitches)>,
        border: Stitches,
        limits: (u32, u32),
        uses: u32,
    ) -> Result<Self, Error> {
        let border = border.get();
        let (multiple, offset) = grid.map_or((1, 0), |(every, first)| (every.get(), first.get()));
        range::count("the repeat to keep whole", multiple, 1)?;
        // The same grid, seen from the border.
        let offset = match offset.checked_sub(border) {
            Some(offset) => offset,
            None => (multiple - (border - offset) % multiple) % multiple,
        };
        let mut forbidden = Vec::with_capacity(avoid.len());
        for (from, to) in avoid.iter().map(|(from, to)| (from.get(), to.get())) {
            if from < 1 || to < from {
                let given = format!("{from} to {to}");
                return Err(Error::range(
                    "the stitches to avoid",
                    &given,
                    "counted from 1, upwards",
                ));
            }
            // An event uses the stitches before its place; one that uses none only has
            // to stay out of the middle.
            let last = if uses == 0 { to - 1 } else { to.saturating_add(uses - 1) };
            // After the border itself is a place, too.
            if last >= from && last >= border {
                forbidden.push((from.saturating_sub(border), last - border));
            }
        }
        forbidden.sort_unstable();
        Ok(Self { forbidden, multiple, offset, limits })
    }

    /// The first allowed place from `place` on.
    fn next(&self, place: u32) -> Option<u32> {
        let mut place = self.on_grid(place.max(self.limits.0))?;
        for &(from, to) in &self.forbidden {
            if (from..=to).contains(&place) {
                place = self.on_grid(to.checked_add(1)?)?;
            }
        }
        (place <= self.limits.1).then_some(place)
    }

    fn on_grid(&self, place: u32) -> Option<u32> {
        let past = place.saturating_sub(self.offset);
        past.checked_next_multiple_of(self.multiple)?.checked_add(self.offset)
    }
}

/// The most places that are compared when events are moved: a second's work.
const PLACES: u64 = 10_000_000;

/// The places nearest to `wanted` that are allowed and at least `room` apart.
///
/// Objective: the smallest largest move; then the smallest sum of moves; then, from
/// the last event back, the earlier place. The first is found by halving, with the
/// earliest places that keep a bound as the test; the others by dynamic programming
/// over the places within the bound.
///
/// `None` when no places are allowed.
///
/// # Errors
/// When the events have more than [`PLACES`] places to choose from.
pub(super) fn moved(
    wanted: &[u32],
    allowed: &Allowed,
    room: u32,
) -> Result<Option<Vec<u32>>, Error> {
    let (mut low, mut high) = (0, allowed.limits.1);
    if !fits(wanted, allowed, room, high) {
        return Ok(None);
    }
    while low < high {
        let middle = low + (high - low) / 2;
        if fits(wanted, allowed, room, middle) { high = middle } else { low = middle + 1 }
    }
    let places = wanted.len() as u64 * (2 * u64::from(high) + 1);
    if places > PLACES {
        let allowed = format!("at most {PLACES}: avoid fewer stitches");
        return Err(Error::range("the number of places to choose from", &places, allowed));
    }
    Ok(cheapest(wanted, allowed, room, high))
}

/// Whether all events can be placed with no move above `bound`.
fn fits(wanted: &[u32], allowed: &Allowed, room: u32, bound: u32) -> bool {
    let mut least = 0;
    wanted.iter().all(|&place| match allowed.next(place.saturating_sub(bound).max(least)) {
        Some(found) if found <= place.saturating_add(bound) => {
            least = found.saturating_add(room);
            true
        }
        _ => false,
    })
}

/// A place of an event, with the best sum of moves up to it.
#[derive(Clone, Copy)]
struct State {
    place: u32,
    sum: u64,
    before: usize,
}

fn cheapest(wanted: &[u32], allowed: &Allowed, room: u32, bound: u32) -> Option<Vec<u32>> {
    let mut layers: Vec<Vec<State>> = Vec::with_capacity(wanted.len());
    for &want in wanted {
        let mut layer = Vec::new();
        let mut from = want.saturating_sub(bound);
        // The best state before that leaves room; it only moves on.
        let (mut best, mut ahead): (Option<(usize, u64)>, usize) = (None, 0);
        while let Some(place) = allowed.next(from).filter(|&p| p <= want.saturating_add(bound)) {
            if let Some(before) = layers.last() {
                while let Some(state) = before.get(ahead).filter(|s| s.place + room <= place) {
                    if best.is_none_or(|(_, sum)| state.sum < sum) {
                        best = Some((ahead, state.sum));
                    }
                    ahead += 1;
                }
            } else {
                best = Some((0, 0));
            }
            if let Some((before, sum)) = best {
                layer.push(State { place, sum: sum + u64::from(place.abs_diff(want)), before });
            }
            from = place + 1;
        }
        layers.push(layer);
    }
    let last = layers.last()?;
    let mut at = last.iter().enumerate().min_by_key(|(_, state)| state.sum)?.0;
    let mut places = Vec::with_capacity(wanted.len());
    for layer in layers.iter().rev() {
        let state = layer.get(at)?;
        places.push(state.place);
        at = state.before;
    }
    places.reverse();
    Some(places)
}
