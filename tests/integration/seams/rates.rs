use super::rows;
use loopwright::gauge::{Exact, Gauge, Stitches};
use loopwright::seams::{Edge, EdgeStep, Rate, RateKind, pick_up_ratio, rates};
use loopwright_tests::seams::{convergents, mediants, nearest_fraction};
use proptest::prelude::*;

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn rates_are_the_convergents_and_mediants(numer in 1_i64..3_000, denom in 1_i64..3_000, most in 1_u32..120) {
        let ratio = Exact::new(numer, denom).unwrap();
        let found = rates(ratio, most).unwrap();
        let told = |keep: fn(&loopwright::seams::RateCandidate) -> bool| -> Vec<(i64, i64)> {
            let kept = found.iter().filter(|c| keep(c));
            kept.map(|c| (c.rate.pick().into(), c.rate.of().into())).collect()
        };
        // Whole numbers below the ratio's own whole part are no rates of use.
        let useful = |&(pick, of): &(i64, i64)| of > 1 || pick >= numer / denom;
        let all: Vec<_> = mediants(numer, denom, most.into()).into_iter().filter(useful).collect();
        prop_assert_eq!(told(|_| true), all);
        let short: Vec<_> = convergents(numer, denom)
            .into_iter()
            .filter(|&(pick, of)| pick > 0 && of <= i64::from(most))
            .collect();
        prop_assert_eq!(told(|c| c.kind == RateKind::Convergent), short);
    }

    #[test]
    fn the_nearest_rate_is_the_nearest_of_all(numer in 1_i64..600, denom in 1_i64..600, most in 1_u32..60) {
        let ratio = Exact::new(numer, denom).unwrap();
        let rate = Rate::nearest(ratio, most).unwrap();
        let best = nearest_fraction(numer, denom, most.into());
        prop_assert_eq!((i64::from(rate.pick()), i64::from(rate.of())), best);
        for candidate in rates(ratio, most).unwrap() {
            let own = (i64::from(candidate.rate.pick()), i64::from(candidate.rate.of()));
            // As near as the nearest of all fractions of no more rows, in whole numbers.
            let best = nearest_fraction(numer, denom, own.1);
            let apart = |(p, q): (i64, i64)| (p * denom - numer * q).abs();
            prop_assert_eq!(candidate.nearest, apart(own) * best.1 == apart(best) * own.1);
        }
    }

    #[test]
    fn an_error_is_told_over_the_whole_edge(numer in 1_i64..600, denom in 1_i64..600, edge in 1_u32..500) {
        let ratio = Exact::new(numer, denom).unwrap();
        for candidate in rates(ratio, 30).unwrap() {
            let due = ratio.checked_mul(edge.into()).unwrap();
            let picked = candidate.rate.exact().unwrap().checked_mul(edge.into()).unwrap();
            prop_assert_eq!(candidate.error_over(rows(edge)).unwrap(), picked.checked_sub(due).unwrap());
        }
    }
}

/// Stitches a row along a slant that moves a stitch every `every` rows, where a straight
/// edge takes 3 of 4.
fn slant(every: u32) -> Exact {
    let plain: Gauge = "21x28/10cm".parse().unwrap();
    assert_eq!(Rate::nearest(pick_up_ratio(plain, plain).unwrap(), 6), Rate::new(3, 4));
    let step = EdgeStep { rows: rows(every), stitches: super::stitches(1) };
    let slant = Edge::stepped("slant", vec![step], plain).unwrap();
    let stitches = plain.count_in::<Stitches>(slant.length().middle().unwrap()).unwrap();
    stitches.checked_div(every.into()).unwrap()
}

/// studioknits.com, chapter 23: a slant of every fourth row takes 4 of 5 and a steeper
/// one 5 of 6. Both follow from the lengths.
#[test]
fn published_slants() {
    assert_eq!(Rate::nearest(slant(4), 5), Rate::new(4, 5));
    assert_eq!(Rate::nearest(slant(3), 6), Rate::new(5, 6));
}

/// Another page's "2 of 3 on diagonals" (disputed) leaves such a slant a stitch short in
/// every nine rows.
#[test]
fn two_of_three_is_too_few_on_a_slant() {
    let rival = Rate::new(2, 3).unwrap().exact().unwrap();
    let short = slant(4).checked_sub(rival).unwrap().checked_mul(Exact::whole(9)).unwrap();
    assert!(short > Exact::ONE);
}

#[test]
fn the_simplest_rate_is_out_by_less_than_asked() {
    let ratio = Exact::new(71, 88).unwrap();
    let told = |within| Rate::simplest(ratio, 100, rows(88), Exact::whole(within)).unwrap();
    assert_eq!(told(1).to_string(), "4 of every 5"); // 70.4: out by 0.6
    assert_eq!(told(18).to_string(), "1 of each"); // 88: out by 17
    assert_eq!(told(0).to_string(), "71 of every 88");
}

/// Half way between two whole numbers, neither is nearer than the other.
#[test]
fn two_equally_near_are_both_nearest() {
    let nearest = |n, d, most| -> Vec<String> {
        let found = rates(Exact::new(n, d).unwrap(), most).unwrap();
        found.iter().filter(|c| c.nearest).map(|c| c.rate.to_string()).collect()
    };
    assert_eq!(nearest(3, 2, 1), ["1 of each", "2 of each"]);
    assert_eq!(nearest(3, 4, 2), ["1 of each", "1 of every 2"]);
    assert_eq!(Rate::nearest(Exact::new(3, 2).unwrap(), 1), Rate::new(1, 1));
    assert_eq!(Rate::nearest(Exact::new(3, 4).unwrap(), 2), Rate::new(1, 1));
}
