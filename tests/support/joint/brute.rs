//! Every assignment tried: obviously right, far too slow.

use super::sketch::{Demand, PARTS, Sketch, length};
use core::cmp::Reverse;

/// The best assignment, or the smallest conflict.
#[derive(Debug, Eq, PartialEq)]
pub enum Judged {
    /// The sum of weight times miss and the largest miss, in 3,600ths of a millimetre or
    /// of a count without a size, and the counts.
    Best(i64, i64, Vec<u32>),
    /// The places of the demands, and by how much each must be missed for all others to
    /// hold: in counts, in sixtieths of a millimetre, one for parity; `None` when no
    /// change to it alone is enough.
    Conflict(Vec<(usize, Option<i64>)>),
}

/// Judges `sketch` by its definition; for at most 16 demands.
#[must_use]
pub fn judge(sketch: &Sketch) -> Judged {
    let assignments = assignments(sketch);
    let held = sketch.held();
    let holding = assignments
        .iter()
        .filter(|chosen| held.iter().all(|of| of.1.missed(&sketch.counts, chosen) == 0));
    holding
        .map(|chosen| {
            let misses: Vec<(i64, i64)> = misses(sketch, chosen).collect();
            let total = misses.iter().map(|(weight, miss)| weight * miss).sum::<i64>();
            let largest = misses.iter().map(|miss| miss.1).max().unwrap_or(0);
            (total, largest, Reverse(chosen.clone()))
        })
        .min()
        .map_or_else(
            || Judged::Conflict(conflict(sketch, &held, &assignments)),
            |(total, largest, Reverse(counts))| Judged::Best(total, largest, counts),
        )
}

/// Every assignment of allowed counts.
#[must_use]
pub fn assignments(sketch: &Sketch) -> Vec<Vec<u32>> {
    let mut all: Vec<Vec<u32>> = vec![Vec::new()];
    for count in &sketch.counts {
        let allowed: Vec<u32> = count.allowed().collect();
        all = all
            .iter()
            .flat_map(|head| allowed.iter().map(|&next| [head.as_slice(), &[next]].concat()))
            .collect();
    }
    all
}

/// Weight and miss of every wish and every measure.
fn misses<'a>(sketch: &'a Sketch, chosen: &'a [u32]) -> impl Iterator<Item = (i64, i64)> + 'a {
    let wishes = sketch.counts.iter().zip(chosen).map(|(count, &chosen)| {
        let apart = (i64::from(chosen) * PARTS - count.ideal).abs();
        (count.weight, apart * count.sixtieths())
    });
    let measures = sketch.measures.iter().map(|measure| {
        let given = length(&sketch.counts, &measure.terms, chosen);
        (measure.weight, (given - measure.wanted).abs() * PARTS)
    });
    wishes.chain(measures)
}

/// The smallest set of demands that no assignment holds, the first of its size.
fn conflict(
    sketch: &Sketch,
    demands: &[(usize, Demand)],
    assignments: &[Vec<u32>],
) -> Vec<(usize, Option<i64>)> {
    let mut sets: Vec<Vec<usize>> = (0..1_u32 << demands.len())
        .map(|bits| (0..demands.len()).filter(|&d| bits >> d & 1 == 1).collect())
        .collect();
    sets.sort_by_key(|set: &Vec<usize>| (set.len(), set.clone()));
    let missed: Vec<Vec<i64>> = assignments
        .iter()
        .map(|chosen| demands.iter().map(|of| of.1.missed(&sketch.counts, chosen)).collect())
        .collect();
    let held = |set: &[usize], missed: &[i64]| set.iter().all(|&demand| missed[demand] == 0);
    let set = sets.into_iter().find(|set| !missed.iter().any(|missed| held(set, missed)));
    let set = set.expect("all demands together are in conflict");
    let freed = |&demand: &usize| {
        let rest: Vec<usize> = (0..demands.len()).filter(|&other| other != demand).collect();
        let free = missed.iter().filter(|missed| held(&rest, missed));
        (demands[demand].0, free.map(|missed| missed[demand]).min())
    };
    set.iter().map(freed).collect()
}
