//! The smallest mend, against trying every change.

use super::{rows, stitches};
use loopwright::gauge::{Exact, Gauge, Length, Stitches};
use loopwright::seams::{Edge, Join, Seam, Tolerance, Verdict, check};
use loopwright_tests::laws::tried;
use loopwright_tests::seams::gauges;
use proptest::prelude::*;

#[derive(Clone, Copy, Debug)]
struct Edges {
    join: Join,
    gauges: (Gauge, Gauge),
    tolerance: Tolerance,
    overlap: Stitches,
}

impl Edges {
    fn check(self, a: u32, b: u32) -> Verdict {
        let by_rows = |n, gauge| Edge::selvedge("a", rows(n), gauge).unwrap();
        let by_stitches = |n, gauge| Edge::live("b", stitches(n), gauge).unwrap();
        let (ga, gb) = self.gauges;
        let (first, second) = match self.join {
            Join::RowSeam => (by_rows(a, ga), by_rows(b, gb)),
            Join::PickUp | Join::HangBack => (by_rows(a, ga), by_stitches(b, gb)),
            Join::StitchToRowSeam => (by_stitches(a, ga), by_rows(b, gb)),
            _ => (by_stitches(a, ga), by_stitches(b, gb)),
        };
        let seam = Seam::new(self.join, first, second).within(self.tolerance);
        let hung = self.join == Join::HangBack;
        let overlap = if hung { self.overlap } else { stitches(0) };
        seam.overlap(overlap).check().unwrap()
    }

    /// The nearest count at which the join holds, by trying them all outwards.
    fn nearest(count: u32, far: u32, holds: impl Fn(u32) -> bool) -> Option<u32> {
        (1..far).find_map(|by| {
            let less = count.checked_sub(by).filter(|&n| n > 0 && holds(n));
            less.or_else(|| Some(count + by).filter(|&n| holds(n)))
        })
    }
}

fn joins() -> impl Strategy<Value = Join> {
    prop_oneof![
        Just(Join::Graft),
        Just(Join::RowSeam),
        Just(Join::StitchSeam),
        Just(Join::StitchToRowSeam),
        Just(Join::PickUp),
        Just(Join::Eased),
        Just(Join::HangBack),
    ]
}

fn tolerances() -> impl Strategy<Value = Tolerance> {
    let exact = |n| Exact::new(n, 10).unwrap();
    prop_oneof![
        (0_u32..4).prop_map(Tolerance::counts),
        (0_u32..3, 0_u32..60).prop_map(|(counts, share)| Tolerance::near(counts, share)),
        (-30_i64..30, 0_i64..40).prop_map(|(least, more)| {
            Tolerance::eased(Length::mm(least).unwrap(), Length::mm(least + more).unwrap()).unwrap()
        }),
        (6_i64..20, 0_i64..8).prop_map(move |(least, more)| Tolerance::gathered(
            exact(least),
            exact(least + more)
        )
        .unwrap()),
    ]
}

/// An edge as a list of steps of rows and stitches.
type Steps = &'static [(u32, u32)];

const SLANTED: [Steps; 6] = [
    &[(20, 3), (20, 3), (20, 3), (20, 3)],
    &[(0, 6), (2, 3), (2, 3), (40, 0)],
    &[(3, 0), (2, 1), (2, 1), (5, 0), (2, 1)],
    &[(1, 1), (1, 1), (1, 1), (1, 1), (1, 1), (1, 1), (1, 1), (1, 1), (1, 1), (1, 1)],
    &[(60, 0)],
    &[(150, 0)],
];

fn written(steps: &[(u32, u32)], gauge: Gauge) -> Edge {
    let one = |&(up, across): &(u32, u32)| match (up, across) {
        (up, 0) => format!("{up} rows"),
        (0, across) => format!("{across} st"),
        (up, across) => format!("{up} rows {across} st"),
    };
    let text: Vec<String> = steps.iter().map(one).collect();
    Edge::read("edge", &text.join(", "), gauge).unwrap()
}

/// The steps with so many rows, as a knitter would: more at the end, fewer only of those
/// without shaping; `None` where there are not enough.
fn reknitted(steps: &[(u32, u32)], rows: u32) -> Option<Vec<(u32, u32)>> {
    let mut steps = steps.to_vec();
    let now: u32 = steps.iter().map(|step| step.0).sum();
    if rows > now {
        steps.push((rows - now, 0));
    }
    let mut over = now.saturating_sub(rows);
    for step in steps.iter_mut().filter(|step| step.1 == 0) {
        let less = over.min(step.0);
        (step.0, over) = (step.0 - less, over - less);
    }
    steps.retain(|step| *step != (0, 0));
    (over == 0 && !steps.is_empty()).then_some(steps)
}

/// Every offer is made, by hand, and checked; what is not offered cannot be done.
#[test]
fn every_mend_offered_can_be_knitted_and_holds() {
    let gauges: [Gauge; 3] =
        ["28x40/10cm", "20x20/10cm", "17.5x31/10cm"].map(|g| g.parse().unwrap());
    let exact = |n, d| Exact::new(n, d).unwrap();
    let mm = |n| Length::mm(n).unwrap();
    let eased = [
        Tolerance::gathered(exact(3, 2), exact(2, 1)).unwrap(),
        Tolerance::eased(mm(0), mm(25)).unwrap(),
        Tolerance::eased(mm(-3), mm(-1)).unwrap(),
        Tolerance::counts(1),
    ];
    let asked = eased
        .map(|tolerance| (Join::Eased, tolerance))
        .into_iter()
        .chain([(Join::RowSeam, Tolerance::counts(1)), (Join::RowSeam, Tolerance::none())]);
    let (mut offered, mut refused) = (0, 0);
    for ((join, tolerance), (ga, gb)) in
        asked.flat_map(|ask| gauges.iter().zip(gauges.iter().rev()).map(move |pair| (ask, pair)))
    {
        for (a, b) in SLANTED.iter().flat_map(|a| SLANTED.iter().map(move |b| (a, b))) {
            let check = |a: &[(u32, u32)], b: &[(u32, u32)]| {
                check(join, &written(a, *ga), &written(b, *gb), tolerance).unwrap()
            };
            let verdict = check(a, b);
            let Some(mend) = verdict.mend else { continue };
            let mends = [(a, mend.a), (b, mend.b)];
            for (first, (steps, change)) in [true, false].into_iter().zip(mends) {
                let holds = |rows: u32| {
                    reknitted(steps, rows).is_some_and(|steps| {
                        if first { check(&steps, b).matches } else { check(a, &steps).matches }
                    })
                };
                let now: u32 = steps.iter().map(|step| step.0).sum();
                let to = change.map(|change| change.to.get());
                assert_eq!(to, Edges::nearest(now, 700, holds), "{join} {tolerance:?} {a:?} {b:?}");
                if to.is_some() { offered += 1 } else { refused += 1 }
            }
        }
    }
    assert!(offered > 250 && refused > 100, "{offered} offered, {refused} not");
}

/// A mend of stitches joined of several edges, made by the library's own door.
#[test]
fn a_joined_edge_is_mended_where_it_has_most() {
    let live = |name: &str, n| Edge::live(name, stitches(n), super::gauge()).unwrap();
    let both = Edge::joined("both fronts", vec![live("left", 20), live("right", 23)]).unwrap();
    let back = live("back", 50);
    let verdict = check(Join::Graft, &both, &back, Tolerance::none()).unwrap();
    let change = verdict.mend.unwrap().a.unwrap();
    let mended = change.apply(&both).unwrap();
    assert_eq!(change.to_string(), "50 stitches instead of 43 for the both fronts");
    assert!(check(Join::Graft, &mended, &back, Tolerance::none()).unwrap().matches);
    // Each part keeps a stitch.
    assert!(both.recounted(stitches(2)).is_ok());
    assert!(both.recounted(stitches(1)).is_err());
}

/// A join that does not hold is mended by the nearest count at which it does.
#[test]
fn a_mend_is_the_smallest_that_mends() {
    let input = ((joins(), tolerances(), 0_u32..9), (gauges(), gauges()), 1_u32..160, 1_u32..160);
    tried(&input, 60, 1, |((join, tolerance, overlap), gauges, a, b)| {
        let edges = Edges { join, gauges, tolerance, overlap: stitches(overlap) };
        let verdict = edges.check(a, b);
        prop_assert_eq!(verdict.matches, verdict.mend.is_none());
        let Some(mend) = verdict.mend else { return Ok(false) };
        let first = Edges::nearest(a, 4_000, |n| edges.check(n, b).matches);
        let second = Edges::nearest(b, 4_000, |n| edges.check(a, n).matches);
        prop_assert_eq!(mend.a.map(|change| change.to.get()), first);
        prop_assert_eq!(mend.b.map(|change| change.to.get()), second);
        Ok(true)
    });
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(150))]

    #[test]
    fn a_join_that_pairs_is_the_same_from_both_sides(a in 1_u32..300, b in 1_u32..300, most in 0_u32..4) {
        let gauge = super::gauge();
        let edges = Edges { join: Join::RowSeam, gauges: (gauge, gauge), tolerance: Tolerance::counts(most), overlap: stitches(0) };
        let (one, other) = (edges.check(a, b), edges.check(b, a));
        prop_assert_eq!(one.matches, a.abs_diff(b) <= most);
        prop_assert_eq!(one.matches, other.matches);
        prop_assert_eq!(one.difference, other.difference.negated());
    }
}
