//! Every assignment tried: obviously right, far too slow.

use super::sketch::{PARTS, Sketch};

/// The best assignment, or the smallest conflict.
#[derive(Debug, Eq, PartialEq)]
pub enum Judged {
    /// The sum of weight times deviation in sixtieths, the largest deviation in
    /// sixtieths, and the counts.
    Best(i64, i64, Vec<u32>),
    /// The places of the demands, and by how much each must be missed for the rest
    /// to hold.
    Conflict(Vec<(usize, i64)>),
}

/// Judges `sketch` by its definition; for at most 16 demands.
#[must_use]
pub fn judge(sketch: &Sketch) -> Judged {
    let assignments = assignments(sketch);
    let holding = assignments
        .iter()
        .filter(|counts| sketch.demands.iter().all(|demand| demand.missed(counts) == 0));
    holding
        .map(|counts| (total(sketch, counts), largest(sketch, counts), counts.clone()))
        .min()
        .map_or_else(
            || Judged::Conflict(conflict(sketch, &assignments)),
            |(total, largest, counts)| Judged::Best(total, largest, counts),
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

fn deviations<'a>(sketch: &'a Sketch, counts: &'a [u32]) -> impl Iterator<Item = i64> + 'a {
    let both = sketch.counts.iter().zip(counts);
    both.map(|(count, &chosen)| (i64::from(chosen) * PARTS - count.ideal).abs())
}

fn total(sketch: &Sketch, counts: &[u32]) -> i64 {
    let both = sketch.counts.iter().zip(deviations(sketch, counts));
    both.map(|(count, deviation)| count.weight * deviation).sum()
}

fn largest(sketch: &Sketch, counts: &[u32]) -> i64 {
    deviations(sketch, counts).max().unwrap_or(0)
}

/// The smallest set of demands that no assignment holds, the first of its size.
fn conflict(sketch: &Sketch, assignments: &[Vec<u32>]) -> Vec<(usize, i64)> {
    let mut sets: Vec<Vec<usize>> = (0..1_u32 << sketch.demands.len())
        .map(|bits| (0..sketch.demands.len()).filter(|&d| bits >> d & 1 == 1).collect())
        .collect();
    sets.sort_by_key(|set: &Vec<usize>| (set.len(), set.clone()));
    let missed: Vec<Vec<i64>> = assignments
        .iter()
        .map(|counts| sketch.demands.iter().map(|demand| demand.missed(counts)).collect())
        .collect();
    let held = |set: &[usize], missed: &[i64]| set.iter().all(|&demand| missed[demand] == 0);
    let set = sets.into_iter().find(|set| !missed.iter().any(|missed| held(set, missed)));
    let set = set.expect("all demands together are in conflict");
    let relaxed = |&demand: &usize| {
        let rest: Vec<usize> = set.iter().copied().filter(|&other| other != demand).collect();
        let free = missed.iter().filter(|missed| held(&rest, missed));
        (demand, free.map(|missed| missed[demand]).min().expect("the rest can hold"))
    };
    set.iter().map(relaxed).collect()
}
