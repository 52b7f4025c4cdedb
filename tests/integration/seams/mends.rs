//! The smallest mend, against trying every change.

use super::{rows, stitches};
use loopwright::gauge::{Exact, Gauge, Length};
use loopwright::seams::{Edge, Join, Tolerance, Verdict, check};
use loopwright_tests::seams::gauges;
use proptest::prelude::*;

#[derive(Clone, Copy, Debug)]
struct Edges {
    join: Join,
    gauges: (Gauge, Gauge),
    tolerance: Tolerance,
}

impl Edges {
    fn check(self, a: u32, b: u32) -> Verdict {
        let by_rows = |n, gauge| Edge::selvedge("a", rows(n), gauge).unwrap();
        let by_stitches = |n, gauge| Edge::live("b", stitches(n), gauge).unwrap();
        let (ga, gb) = self.gauges;
        let (first, second) = match self.join {
            Join::RowSeam => (by_rows(a, ga), by_rows(b, gb)),
            Join::PickUp | Join::HangBack { .. } => (by_rows(a, ga), by_stitches(b, gb)),
            Join::StitchToRowSeam => (by_stitches(a, ga), by_rows(b, gb)),
            _ => (by_stitches(a, ga), by_stitches(b, gb)),
        };
        check(self.join, &first, &second, self.tolerance).unwrap()
    }

    /// The nearest count at which the join holds, by trying them all outwards.
    fn nearest(count: u32, holds: impl Fn(u32) -> bool) -> Option<u32> {
        (1..4_000_u32).find_map(|by| {
            let less = count.checked_sub(by).filter(|&n| n > 0 && holds(n));
            less.or_else(|| Some(count + by).filter(|&n| holds(n)))
        })
    }
}

fn joins() -> impl Strategy<Value = Join> {
    let overlap = (0_u32..9).prop_map(|n| Join::HangBack { overlap: stitches(n) });
    prop_oneof![
        Just(Join::Graft),
        Just(Join::RowSeam),
        Just(Join::StitchSeam),
        Just(Join::StitchToRowSeam),
        Just(Join::PickUp),
        Just(Join::Eased),
        overlap,
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

proptest! {
    #![proptest_config(ProptestConfig::with_cases(150))]

    #[test]
    fn a_mend_is_the_smallest_that_mends(
        join in joins(), ga in gauges(), gb in gauges(), tolerance in tolerances(),
        a in 1_u32..160, b in 1_u32..160,
    ) {
        let edges = Edges { join, gauges: (ga, gb), tolerance };
        let verdict = edges.check(a, b);
        prop_assert_eq!(verdict.matches, verdict.mend.is_none());
        if let Some(mend) = verdict.mend {
            let first = Edges::nearest(a, |n| edges.check(n, b).matches);
            let second = Edges::nearest(b, |n| edges.check(a, n).matches);
            prop_assert_eq!(mend.a.map(|change| change.to), first);
            prop_assert_eq!(mend.b.map(|change| change.to), second);
        }
    }

    #[test]
    fn a_join_that_pairs_is_the_same_from_both_sides(a in 1_u32..300, b in 1_u32..300, most in 0_u32..4) {
        let gauge = super::gauge();
        let edges = Edges { join: Join::RowSeam, gauges: (gauge, gauge), tolerance: Tolerance::counts(most) };
        let (one, other) = (edges.check(a, b), edges.check(b, a));
        prop_assert_eq!(one.matches, a.abs_diff(b) <= most);
        prop_assert_eq!(one.matches, other.matches);
        prop_assert_eq!(one.difference, other.difference.negated());
    }
}
