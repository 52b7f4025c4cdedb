use super::{rw, st};
use loopwright::gauge::{Exact, Gauge, Length, Repeat, Round};
use loopwright::yardage::{
    Growth, LinearDensity, LoopLength, Mass, Plan, Remainder, Section, Spread, Worked,
    YarnQuantity, circle_increase, deepest_stripes, widest,
};
use loopwright_tests::assertions::assert_error;
use loopwright_tests::laws::tried;
use loopwright_tests::yardage as oracle;
use proptest::prelude::*;

fn whole(n: i64) -> Exact {
    Exact::literal(n, 1)
}

#[test]
fn a_centre_out_piece_uses_its_yarn_late() {
    // cromulentknitter.blogspot.com, 2006: 8·(1,1,2,2 … 8,8) stitches are 576; after 8 of
    // the 16 rounds 160 (28 %), after 11 rounds 288 (50 %).
    let rounds = Growth::even(st(8), st(8), rw(2)).unwrap();
    assert_eq!([16, 8, 11].map(|r| rounds.total(rw(r))), [576, 160, 288]);
    assert_eq!(Plan::new(rounds).rows_from(whole(288)).unwrap().rows, rw(11));
}

#[test]
fn half_the_rows_are_a_quarter_of_a_triangle() {
    // The same source and qtpi.net: half the rows about 25 %, 70.7 % of the rows about half.
    let shawl = Growth::even(st(1), st(1), rw(1)).unwrap();
    let all = shawl.total(rw(1_000));
    let per_mille = |rows| shawl.total(rw(rows)) * 1_000 / all;
    assert_eq!(per_mille(500), 250);
    assert!((499..=501).contains(&per_mille(707)), "{}", per_mille(707));
}

#[test]
fn a_shawl_of_growing_blocks_stops_at_its_root() {
    // blog.trueelena.org, 2023: w0 = wr = 2 and wT = 200 solve N² + 3N - 200 = 0, N = 12.72.
    let blocks = Growth::even(st(4), st(2), rw(1)).unwrap(); // w0 + wr, w0 + 2wr …
    let stop = Plan::new(blocks.clone()).rows_from(whole(200)).unwrap();
    assert_eq!((stop.rows, stop.spare), (rw(12), whole(20)));
    // The page's root, with - w0/wr under it, is 12.65 and does not solve the equation.
    let equation = |n: &str| {
        let n: Exact = n.parse().unwrap();
        let square = n.checked_mul(n).unwrap();
        square.checked_add(n.checked_mul(whole(3)).unwrap()).unwrap().checked_sub(whole(200))
    };
    assert!(equation("12.72").unwrap().abs() < "0.05".parse().unwrap());
    assert!(equation("12.65").unwrap().abs() > whole(1));
    // Counting N + 1 terms as N would promise a block that the yarn does not reach.
    assert!(blocks.total(rw(13)) > 200);
}

#[test]
fn a_pi_shawl_doubles_and_doubles() {
    // Elizabeth Zimmermann, Knitter's Almanac: 9 → 18 → 36 → 72 → 144 → 288 → 576, with 1, 3,
    // 6, 12, 24 and 48 plain rounds; here each section with its increase round.
    let rounds = [1, 3, 6, 12, 24, 48];
    let sections: Vec<Section> = rounds
        .iter()
        .zip(0..)
        .map(|(&rows, doubling)| Section { stitches: st(9 << (doubling + 1)), rows: rw(rows + 1) })
        .collect();
    let shawl = Growth::sections(&sections).unwrap();
    assert_eq!(shawl.row(shawl.most_rows()), st(576));
    let all = shawl.total(shawl.most_rows());
    // Yarn for all of it goes all the way; a stitch less stops a round before the end.
    let plan = Plan::new(shawl.clone());
    let enough = plan.rows_from(whole(i64::try_from(all).unwrap())).unwrap();
    assert_eq!((enough.rows, enough.spare), (rw(100), Exact::ZERO));
    let short = plan.rows_from(whole(i64::try_from(all).unwrap() - 1)).unwrap();
    assert_eq!((short.rows, short.spare), (rw(99), whole(575)));
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
    let rows = Plan::new(Growth::straight(st(120)).unwrap()).rows_from_spread(&stitches).unwrap();
    assert_eq!(rows.parts(), [65, 72, 80].map(rw));
}

#[test]
fn two_sleeves_share_one_remainder() {
    // From 60 stitches, two more every sixth row, bound off: 12,000 stitches of yarn.
    let sleeve =
        || Plan::new(Growth::even(st(60), st(2), rw(6)).unwrap()).edging(whole(1)).unwrap();
    let both = sleeve().copies(2).unwrap().rows_from(whole(12_000)).unwrap();
    let one = sleeve().rows_from(whole(6_000)).unwrap();
    assert_eq!((both.rows, both.spare), (one.rows, one.spare.checked_mul(whole(2)).unwrap()));
    assert!(sleeve().cost(rw(both.rows.get() + 1)).unwrap() > whole(6_000));
}

#[test]
fn what_must_be_left_is_the_edging_and_the_spare() {
    let plan = Plan::new(Growth::even(st(10), st(4), rw(2)).unwrap()).edging(whole(6)).unwrap();
    let stop = plan.rows_from(whole(4_000)).unwrap();
    let edging = whole(i64::from(stop.last_row) * 6);
    assert_eq!(stop.keep, edging.checked_add(stop.spare).unwrap());
    assert_eq!(stop.used.checked_add(stop.spare), Ok(whole(4_000)));
}

/// A growth, and the stitches of each of its first rows by its definition.
fn growths() -> impl Strategy<Value = (Growth, Vec<u64>)> {
    let even = (1_u32..40, 0_u32..9, 1_u32..9).prop_map(|(first, add, every)| {
        (
            Growth::even(st(first), st(add), rw(every)).unwrap(),
            oracle::even_rows(first, add, every, 6_001),
        )
    });
    let sections =
        prop::collection::vec((0_u32..20, 0_u32..12), 1..6).prop_filter_map("some rows", |steps| {
            let (mut stitches, mut rows) = (1, Vec::new());
            let mut sections = Vec::new();
            for (more, count) in steps {
                stitches += more;
                sections.push(Section { stitches: st(stitches), rows: rw(count) });
                rows.extend((0..count).map(|_| u64::from(stitches)));
            }
            Growth::sections(&sections).ok().map(|growth| (growth, rows))
        });
    prop_oneof![even, sections]
}

/// Yarn for some stitches: as often hardly any as plenty.
fn yarns() -> impl Strategy<Value = i64> {
    prop_oneof![0_i64..200, 0_i64..6_000]
}

#[test]
fn rows_from_a_remainder_are_what_walking_finds() {
    let all = (growths(), 0_i64..7, 0_i64..50, 1_u32..4, yarns());
    tried(&all, 60, 3, |((growth, rows), edging, fixed, copies, yarn)| {
        let plan = Plan::new(growth)
            .edging(whole(edging))
            .unwrap()
            .fixed(whole(fixed))
            .unwrap()
            .copies(copies)
            .unwrap();
        let walked = oracle::rows_by_walking(&rows, edging, fixed, copies, yarn);
        let found = plan.rows_from(whole(yarn));
        match &found {
            Ok(stop) => {
                prop_assert_eq!(Some(stop.rows.get()), walked);
                prop_assert!(stop.used <= whole(yarn));
            }
            Err(refused) => {
                prop_assert!(refused.is_short());
                prop_assert_eq!(walked, None);
            }
        }
        Ok(found.is_ok())
    });
}

/// From row `done` on, what is left carries the piece as far as walking on from there does.
#[test]
fn rows_after_those_done_are_what_walking_on_finds() {
    let all = (growths(), 0_i64..7, 1_u32..4, yarns(), 0_usize..60);
    tried(&all, 50, 3, |((growth, rows), edging, copies, yarn, done)| {
        let done = done.min(rows.len() - 1);
        let plan = Plan::new(growth).edging(whole(edging)).unwrap().copies(copies).unwrap();
        let (mut walked, mut knitted) = (None, 0);
        for more in 0..=rows.len() - done {
            let at = done + more;
            if more > 0 {
                knitted += i64::try_from(rows[at - 1]).unwrap();
            }
            // Before any row the edging lies along the edge that row 1 is worked on.
            let edge = i64::try_from(rows[at.saturating_sub(1)]).unwrap() * edging;
            if i64::from(copies) * (knitted + edge) > yarn {
                break;
            }
            walked = Some(u32::try_from(more).unwrap());
        }
        let found = plan.rows_after(rw(u32::try_from(done).unwrap()), whole(yarn));
        prop_assert_eq!(found.as_ref().ok().map(|stop| stop.rows.get()), walked);
        Ok(found.is_ok())
    });
}

#[test]
fn the_widest_piece_is_what_trying_finds() {
    let all = (0_i64..1_000, 1_u32..40, 0_i64..4, 1_u32..9, 0_u32..4);
    tried(&all, 60, 3, |(yarn, rows, edge, multiple, extra)| {
        // One whole repeat and the extra at least.
        let tried = (1..=4_000_u32)
            .map(|repeats| repeats * multiple + extra)
            .take_while(|&n| i64::from(n) * (i64::from(rows) + edge) <= yarn)
            .last();
        let repeat = Repeat::new(multiple, extra, 0).unwrap();
        let found = widest(whole(yarn), rw(rows), whole(edge), repeat);
        prop_assert_eq!(found.ok(), tried.map(st));
        Ok(tried.is_some())
    });
}

/// Against counting the rows of the second yarn for every depth there is.
#[test]
fn the_deepest_stripes_are_what_counting_finds() {
    let rows = prop::collection::vec(1_u32..30, 0..40);
    tried(&(rows, 0_u32..12, 0_i64..600), 40, 5, |(rows, between, yarn)| {
        let room = u32::try_from(rows.len()).unwrap().saturating_sub(between);
        let deepest = (1..=room)
            .filter(|&depth| oracle::second_yarn(&rows, between, depth) <= yarn.unsigned_abs())
            .max();
        let rows: Vec<_> = rows.into_iter().map(st).collect();
        let found = deepest_stripes(&rows, rw(between), whole(yarn));
        prop_assert_eq!(found, deepest.map(rw));
        Ok(deepest.is_some())
    });
}

proptest! {
    #[test]
    fn totals_are_the_sum_of_the_rows((growth, knitted) in growths(), rows in 0_usize..80) {
        let rows = rows.min(knitted.len());
        let walked: u128 = knitted[..rows].iter().map(|&row| u128::from(row)).sum();
        let count = rw(u32::try_from(rows).unwrap());
        prop_assert_eq!(u128::from(growth.total(count)), walked);
        let all: u128 = knitted.iter().take(200).map(|&row| u128::from(row)).sum();
        let of = rw(u32::try_from(knitted.len().min(200)).unwrap());
        let share = growth.share_done(count, of).unwrap();
        prop_assert_eq!(
            u128::try_from(share.numer()).unwrap() * all,
            u128::try_from(share.denom()).unwrap() * walked
        );
        let percent = growth.percent_done(count, of).unwrap();
        prop_assert_eq!(Ok(percent), share.checked_mul(whole(100)));
    }

    /// Backwards is the inverse of forwards: yarn for R rows gives R rows back.
    #[test]
    fn backwards_undoes_forwards((growth, _) in growths(), edging in 0_i64..7, rows in 0_u32..60) {
        let rows = rw(rows).min(growth.most_rows());
        let plan = Plan::new(growth).edging(whole(edging)).unwrap();
        let cost = plan.cost(rows).unwrap();
        let stop = plan.rows_from(cost).unwrap();
        prop_assert_eq!((stop.rows, stop.spare), (rows, Exact::ZERO));
    }

    /// At the yarn that the first rows took, the rest takes the rest.
    #[test]
    fn the_rest_takes_what_its_stitches_take(
        (growth, rows) in growths(), grams in 1_i64..500, done in 1_usize..60, more in 0_usize..60,
    ) {
        let of = (done + more).min(rows.len());
        let done = done.min(of);
        let sum = |rows: &[u64]| i64::try_from(rows.iter().sum::<u64>()).unwrap();
        let took = YarnQuantity::Mass(Mass::g(grams).unwrap());
        let worked = Worked::new(rw(u32::try_from(done).unwrap()), took).unwrap();
        let rest = worked.rest(&growth, rw(u32::try_from(of).unwrap())).unwrap();
        let each = Exact::new(grams, sum(&rows[..done])).unwrap();
        let exact = each.checked_mul(whole(sum(&rows[done..of]))).unwrap();
        prop_assert_eq!(rest, YarnQuantity::Mass(Mass::from_grams(exact).unwrap()));
        // Yarn for the rest knits exactly the stitches of the rest.
        let left = Remainder::new(rest);
        let stitches = worked.stitches(&growth, &left, None).unwrap();
        prop_assert_eq!(stitches, Spread::exactly(whole(sum(&rows[done..of]))));
    }
}

#[test]
fn what_rows_took_says_how_many_are_left() {
    // 1,920 stitches took 24 g, weighed to a gram: between 23.5 and 24.5; 10 g left are
    // between 9.5 and 10.5: 9.5 · 1920/24.5 is 744.48…, 10.5 · 1920/23.5 is 857.87….
    let shawl = Growth::even(st(3), st(2), rw(2)).unwrap();
    let worked: Worked = "60 rows = 24 g".parse().unwrap();
    let gram = Mass::g(1).unwrap();
    let left = Remainder::weighed(Mass::g(10).unwrap(), gram);
    let stitches = worked.read_to(gram).unwrap().stitches(&shawl, &left, None).unwrap();
    let exact = |n, d| Exact::new(n, d).unwrap();
    assert_eq!(stitches.parts(), [exact(36_480, 49), whole(800), exact(40_320, 47)]);
    assert_eq!(worked.to_string().parse(), Ok(worked));
    // A length beside a weight needs the yarn.
    let ball = Remainder::new("25 m".parse().unwrap());
    assert_error(
        worked.stitches(&shawl, &ball, None),
        "a weight beside a length of yarn needs the yarn's number, but none was given",
    );
    let yarn: LinearDensity = "400 tex".parse().unwrap(); // 25 m weigh 10 g
    assert_eq!(worked.stitches(&shawl, &ball, Some(yarn)).unwrap().likely(), whole(800));
    assert_error(
        "60 = 24 g".parse::<Worked>(),
        "the work so far \"60 = 24 g\" cannot be read: write rows and the yarn they took, such \
         as 120 rows = 35 g",
    );
    assert_error(
        Worked::new(rw(0), "24 g".parse().unwrap()),
        "the count of rows knitted is 0, but must be in 1..=1000000",
    );
    assert_error(
        worked.read_to(Mass::g(48).unwrap()),
        "the yarn that the rows took is 24 g, but must be above half a reading, 24 g",
    );
}
