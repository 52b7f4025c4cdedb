use loopwright::gauge::{Exact, Gauge, Length, Repeat, Round};
use loopwright::yardage::{
    Growth, LinearDensity, LoopLength, Mass, Plan, Remainder, Section, Spread, Stripe,
    circle_increase, deal_stripes, deepest_stripes, widest,
};
use loopwright_tests::yardage as oracle;
use proptest::prelude::*;

fn whole(n: i64) -> Exact {
    Exact::literal(n, 1)
}

#[test]
fn a_centre_out_piece_uses_its_yarn_late() {
    // cromulentknitter.blogspot.com, 2006: 8·(1,1,2,2 … 8,8) stitches are 576; after 8 of
    // the 16 rounds 160 (28 %), after 11 rounds 288 (50 %).
    let rounds = Growth::even(8, 8, 2).unwrap();
    assert_eq!([16, 8, 11].map(|r| rounds.total(r)), [576, 160, 288]);
    assert_eq!(Plan::new(rounds).rows_from(whole(288)).unwrap().rows, 11);
}

#[test]
fn half_the_rows_are_a_quarter_of_a_triangle() {
    // The same source and qtpi.net: half the rows about 25 %, 70.7 % of the rows about half.
    let shawl = Growth::even(1, 1, 1).unwrap();
    let all = shawl.total(1_000);
    let per_mille = |rows| shawl.total(rows) * 1_000 / all;
    assert_eq!(per_mille(500), 250);
    assert!((499..=501).contains(&per_mille(707)), "{}", per_mille(707));
}

#[test]
fn a_shawl_of_growing_blocks_stops_at_its_root() {
    // blog.trueelena.org, 2023: w0 = wr = 2 and wT = 200 solve N² + 3N - 200 = 0, N = 12.72.
    let blocks = Growth::even(4, 2, 1).unwrap(); // w0 + wr, w0 + 2wr …
    let stop = Plan::new(blocks.clone()).rows_from(whole(200)).unwrap();
    assert_eq!((stop.rows, stop.spare), (12, whole(20)));
    // The page's root, with - w0/wr under it, is 12.65 and does not solve the equation.
    let equation = |n: &str| {
        let n: Exact = n.parse().unwrap();
        let square = n.checked_mul(n).unwrap();
        square.checked_add(n.checked_mul(whole(3)).unwrap()).unwrap().checked_sub(whole(200))
    };
    assert!(equation("12.72").unwrap().abs() < "0.05".parse().unwrap());
    assert!(equation("12.65").unwrap().abs() > whole(1));
    // Counting N + 1 terms as N would promise a block that the yarn does not reach.
    assert!(blocks.total(13) > 200);
}

#[test]
fn a_pi_shawl_doubles_and_doubles() {
    // Elizabeth Zimmermann, Knitter's Almanac: 9 → 18 → 36 → 72 → 144 → 288 → 576, with 1, 3,
    // 6, 12, 24 and 48 plain rounds; here each section with its increase round.
    let rounds = [1, 3, 6, 12, 24, 48];
    let sections: Vec<Section> = rounds
        .iter()
        .zip(0..)
        .map(|(&rows, doubling)| Section { stitches: 9 << (doubling + 1), rows: rows + 1 })
        .collect();
    let shawl = Growth::sections(&sections).unwrap();
    assert_eq!(shawl.row(shawl.most_rows()), 576);
    let all = shawl.total(shawl.most_rows());
    // Yarn for all of it goes all the way; a stitch less stops a round before the end.
    let plan = Plan::new(shawl.clone());
    let enough = plan.rows_from(whole(i64::try_from(all).unwrap())).unwrap();
    assert_eq!((enough.rows, enough.spare), (100, Exact::ZERO));
    let short = plan.rows_from(whole(i64::try_from(all).unwrap() - 1)).unwrap();
    assert_eq!((short.rows, short.spare), (99, whole(575)));
}

#[test]
fn a_flat_circle_grows_by_two_pi_times_the_gauges() {
    // craftythreadsnyarns forum, 2008: 8 stitches and 10 rows to the inch: 5 a round, 5.03.
    let gauge: Gauge = "8x10/1in".parse().unwrap();
    let increase = circle_increase(gauge).unwrap();
    assert!(
        increase.checked_sub("5.03".parse().unwrap()).unwrap().abs() <= "0.005".parse().unwrap()
    );
    assert_eq!(increase.to_whole(Round::HalfUp), Ok(5));
}

#[test]
fn a_weighed_remainder_keeps_its_reserve() {
    let yarn: LinearDensity = "250 m/50 g".parse().unwrap(); // 200 tex
    let loops = LoopLength::stated(
        Spread::new(Length::mm(14).unwrap(), Length::mm(15).unwrap(), Length::mm(16).unwrap())
            .unwrap(),
    )
    .unwrap();
    let ball = Remainder::weighed(Mass::g(31).unwrap(), Mass::g(2).unwrap())
        .reserve("5 g".parse().unwrap());
    let stitches = ball.stitches(&loops, yarn).unwrap();
    // 25, 26 and 27 g are 125, 130 and 135 m; in 16, 15 and 14 mm.
    let metres = |m: i64, mm: i64| Exact::new(m * 1_000, mm).unwrap();
    assert_eq!(stitches.parts(), [metres(125, 16), metres(130, 15), metres(135, 14)]);
    let rows = Plan::new(Growth::straight(120).unwrap()).rows_from_spread(&stitches).unwrap();
    assert_eq!(rows.parts(), [65, 72, 80]);
}

#[test]
fn two_sleeves_share_one_remainder() {
    // From 60 stitches, two more every sixth row, bound off: 12,000 stitches of yarn.
    let sleeve = || Plan::new(Growth::even(60, 2, 6).unwrap()).edging(whole(1)).unwrap();
    let both = sleeve().copies(2).unwrap().rows_from(whole(12_000)).unwrap();
    let one = sleeve().rows_from(whole(6_000)).unwrap();
    assert_eq!((both.rows, both.spare), (one.rows, one.spare.checked_mul(whole(2)).unwrap()));
    assert!(sleeve().cost(both.rows + 1).unwrap() > whole(6_000));
}

#[test]
fn what_must_be_left_is_the_edging_and_the_spare() {
    let plan = Plan::new(Growth::even(10, 4, 2).unwrap()).edging(whole(6)).unwrap();
    let stop = plan.rows_from(whole(4_000)).unwrap();
    let edging = whole(i64::try_from(stop.last_row).unwrap() * 6);
    assert_eq!(stop.keep, edging.checked_add(stop.spare).unwrap());
    assert_eq!(stop.used.checked_add(stop.spare), Ok(whole(4_000)));
}

fn growths() -> impl Strategy<Value = Growth> {
    let even = (1_u32..40, 0_u32..9, 1_u32..9)
        .prop_map(|(first, add, every)| Growth::even(first, add, every).unwrap());
    let sections =
        prop::collection::vec((0_u32..20, 0_u32..12), 1..6).prop_filter_map("some rows", |steps| {
            let mut stitches = 1;
            let sections: Vec<Section> = steps
                .into_iter()
                .map(|(more, rows)| {
                    stitches += more;
                    Section { stitches, rows }
                })
                .collect();
            Growth::sections(&sections).ok()
        });
    prop_oneof![even, sections]
}

proptest! {
    #[test]
    fn rows_from_a_remainder_are_what_walking_finds(
        growth in growths(),
        edging in 0_i64..7,
        fixed in 0_i64..50,
        copies in 1_u32..4,
        yarn in 0_i64..6_000,
    ) {
        let plan = Plan::new(growth.clone())
            .edging(whole(edging)).unwrap()
            .fixed(whole(fixed)).unwrap()
            .copies(copies).unwrap();
        let walked = oracle::rows_by_walking(
            |row| growth.row(row), growth.most_rows(), edging, fixed, copies, yarn,
        );
        match plan.rows_from(whole(yarn)) {
            Ok(stop) => {
                prop_assert_eq!(Some(stop.rows), walked);
                prop_assert!(stop.used <= whole(yarn));
            }
            Err(refused) => {
                prop_assert!(refused.is_short());
                prop_assert_eq!(walked, None);
            }
        }
    }

    #[test]
    fn totals_are_the_sum_of_the_rows(growth in growths(), rows in 0_u32..80) {
        let rows = rows.min(growth.most_rows());
        let walked: u128 = (1..=rows).map(|row| u128::from(growth.row(row))).sum();
        prop_assert_eq!(growth.total(rows), walked);
    }

    /// Backwards is the inverse of forwards: yarn for R rows gives R rows back.
    #[test]
    fn backwards_undoes_forwards(growth in growths(), edging in 0_i64..7, rows in 0_u32..60) {
        let rows = rows.min(growth.most_rows());
        let plan = Plan::new(growth).edging(whole(edging)).unwrap();
        let cost = plan.cost(rows).unwrap();
        let stop = plan.rows_from(cost).unwrap();
        prop_assert_eq!((stop.rows, stop.spare), (rows, Exact::ZERO));
    }

    #[test]
    fn the_widest_piece_is_what_trying_finds(
        yarn in 0_i64..4_000,
        rows in 1_u32..40,
        edge in 0_i64..4,
        multiple in 1_u32..9,
        extra in 0_u32..4,
    ) {
        let repeat = Repeat::new(multiple, extra, 0).unwrap();
        let tried = (0..=4_000_u32)
            .filter(|&n| repeat.allows(n) && i64::from(n) * (i64::from(rows) + edge) <= yarn)
            .max();
        let found = widest(whole(yarn), rows, whole(edge), repeat);
        prop_assert_eq!(found.ok(), tried);
    }

    /// Against dealing the rows out for every depth there is.
    #[test]
    fn the_deepest_stripes_are_what_dealing_finds(
        rows in prop::collection::vec(1_u32..30, 0..40),
        between in 0_u32..12,
        yarn in 0_i64..600,
    ) {
        let dealt = |depth| {
            let sequence =
                [Stripe { yarn: "first", rows: between }, Stripe { yarn: "second", rows: depth }];
            let dealt = deal_stripes(&sequence, rows.iter().copied());
            dealt.into_iter().find(|(yarn, _)| *yarn == "second").map_or(0, |(_, n)| n)
        };
        let room = u32::try_from(rows.len()).unwrap().saturating_sub(between);
        let deepest = (1..=room).filter(|&depth| dealt(depth) <= yarn.unsigned_abs()).max();
        prop_assert_eq!(deepest_stripes(&rows, between, whole(yarn)), deepest);
    }
}
