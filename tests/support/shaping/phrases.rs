//! The shortest phrase, by making every phrase there is.

use std::collections::BTreeMap;

/// For every list of up to `longest` items of `0..kinds`: the fewest runs and repeats
/// that tell it, and of these the fewest repeats.
///
/// Phrases are made in order of their length: a run, one phrase after another, or a
/// phrase repeated.
#[must_use]
pub fn shortest(kinds: u8, longest: usize) -> BTreeMap<Vec<u8>, (u32, u32)> {
    let mut told: BTreeMap<Vec<u8>, (u32, u32)> = BTreeMap::new();
    for item in 0..kinds {
        for n in 1..=longest {
            told.insert(vec![item; n], (1, 0));
        }
    }
    loop {
        let mut better: Vec<(Vec<u8>, (u32, u32))> = Vec::new();
        for (a, cost_a) in &told {
            for (b, cost_b) in &told {
                if a.len() + b.len() <= longest {
                    let list = [a.as_slice(), b.as_slice()].concat();
                    better.push((list, (cost_a.0 + cost_b.0, cost_a.1 + cost_b.1)));
                }
            }
            for times in 2..=longest / a.len() {
                better.push((a.repeat(times), (cost_a.0 + 1, cost_a.1 + 1)));
            }
        }
        let mut changed = false;
        for (list, cost) in better {
            let old = told.entry(list).or_insert((u32::MAX, u32::MAX));
            if cost < *old {
                (*old, changed) = (cost, true);
            }
        }
        if !changed {
            return told;
        }
    }
}
