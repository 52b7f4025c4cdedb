//! Even placement by trying every placement.

/// How good a placement is, smaller being better: the largest deviation from the
/// straight line at any prefix, the sum of deviations, and the list itself.
///
/// A prefix of `p` of `places` should hold `p * events / places`; deviations are
/// `places` times as large, so as to be whole.
fn judge(counts: &[u64], events: u64) -> (u64, u64) {
    let places = counts.len() as u64 - 1;
    let off = |(p, count): (usize, &u64)| (p as u64 * events).abs_diff(count * places);
    let off: Vec<u64> = counts.iter().enumerate().map(off).collect();
    (off.iter().copied().max().unwrap_or(0), off.iter().sum())
}

/// The best way to do `total` in `slots` slots with at most `most` in one: how much is
/// done in each. Ties go to the one that does more earlier.
#[must_use]
pub fn best_sizes(total: u64, slots: usize, most: u64) -> Option<Vec<u64>> {
    let mut best: Option<((u64, u64), Vec<u64>)> = None;
    each_sizes(total, slots, most, &mut Vec::new(), &mut |sizes| {
        let mut counts = vec![0];
        for size in sizes {
            counts.push(counts.last().unwrap() + size);
        }
        let cost = judge(&counts, total);
        let better = match &best {
            None => true,
            Some((old, kept)) => cost < *old || (cost == *old && sizes > kept.as_slice()),
        };
        if better {
            best = Some((cost, sizes.to_vec()));
        }
    });
    best.map(|(_, sizes)| sizes)
}

fn each_sizes(
    left: u64,
    slots: usize,
    most: u64,
    sizes: &mut Vec<u64>,
    see: &mut impl FnMut(&[u64]),
) {
    if slots == 0 {
        if left == 0 {
            see(sizes);
        }
        return;
    }
    for size in 0..=most.min(left) {
        sizes.push(size);
        each_sizes(left - size, slots - 1, most, sizes, see);
        sizes.pop();
    }
}

/// Every list of `events` places of a flat row of `width` stitches, with the stitches an
/// event uses lying before its place; one that uses none lies between two stitches.
pub fn each_placement(width: u32, events: u32, uses: u32, see: &mut impl FnMut(&[u32])) {
    match uses {
        0 => fill(width.saturating_sub(1), events, 1, 1, &mut Vec::new(), see),
        _ => fill(width, events, uses, uses, &mut Vec::new(), see),
    }
}

fn fill(
    width: u32,
    left: u32,
    from: u32,
    room: u32,
    places: &mut Vec<u32>,
    see: &mut impl FnMut(&[u32]),
) {
    if left == 0 {
        see(places);
        return;
    }
    for place in from..=width {
        places.push(place);
        fill(width, left - 1, place + room, room, places, see);
        places.pop();
    }
}

/// The best placement across a row by the count of events at every prefix; ties go to
/// the earlier events.
#[must_use]
pub fn best_places(width: u32, events: u32, uses: u32) -> Option<Vec<u32>> {
    let mut best: Option<((u64, u64), Vec<u32>)> = None;
    each_placement(width, events, uses, &mut |places| {
        let counts: Vec<u64> = (0..=width)
            .map(|p| places.iter().filter(|place| **place <= p).count() as u64)
            .collect();
        let cost = judge(&counts, events.into());
        if best.as_ref().is_none_or(|(old, kept)| (cost, places) < (*old, kept.as_slice())) {
            best = Some((cost, places.to_vec()));
        }
    });
    best.map(|(_, places)| places)
}

/// The best placement that reads the same from both ends: the middle of every event as
/// near as can be to its share of the row, half a share from both ends; ties go away
/// from the middle of the row.
#[must_use]
pub fn best_mirrored(width: u32, events: u32, uses: u32) -> Option<Vec<u32>> {
    let mut best: Option<((u64, u64), Vec<u32>)> = None;
    each_placement(width, events, uses, &mut |places| {
        let sum = width + uses;
        let mirrored = places.iter().zip(places.iter().rev()).all(|(a, b)| a + b == sum);
        if !mirrored {
            return;
        }
        // Twice `events` times the distance of the middle from its place.
        let off = |(k, place): (u64, &u32)| {
            let middle = (2 * u64::from(*place)).abs_diff(u64::from(uses)) * u64::from(events);
            middle.abs_diff((2 * k + 1) * u64::from(width))
        };
        let off: Vec<u64> = (0..).zip(places).map(off).collect();
        let cost = (off.iter().copied().max().unwrap_or(0), off.iter().sum());
        if best.as_ref().is_none_or(|(old, kept)| (cost, places) < (*old, kept.as_slice())) {
            best = Some((cost, places.to_vec()));
        }
    });
    best.map(|(_, places)| places)
}

/// The allowed placement with the smallest largest move from `wanted`, then the
/// smallest sum of moves, then the earlier places from the last event back.
#[must_use]
pub fn least_moves(
    wanted: &[u32],
    width: u32,
    uses: u32,
    allowed: &dyn Fn(u32) -> bool,
) -> Option<Vec<u32>> {
    let mut best: Option<((u32, u32), Vec<u32>)> = None;
    let events = u32::try_from(wanted.len()).unwrap();
    each_placement(width, events, uses, &mut |places| {
        if !places.iter().all(|place| allowed(*place)) {
            return;
        }
        let moves: Vec<u32> = places.iter().zip(wanted).map(|(a, b)| a.abs_diff(*b)).collect();
        let cost = (moves.iter().copied().max().unwrap_or(0), moves.iter().sum());
        let backwards: Vec<u32> = places.iter().rev().copied().collect();
        if best.as_ref().is_none_or(|(old, kept)| (&cost, &backwards) < (old, kept)) {
            best = Some((cost, backwards));
        }
    });
    best.map(|(_, backwards)| backwards.into_iter().rev().collect())
}
