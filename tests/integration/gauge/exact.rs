//! Exact sums against a rational library without bounds, and rounding.

use loopwright::gauge::{Exact, Round};
use loopwright_tests::gauge::{big, exacts, rounds};
use num_rational::BigRational;
use proptest::prelude::*;

fn exact(text: &str) -> Exact {
    text.parse().unwrap()
}

#[test]
fn every_form_reads_as_one_number() {
    for text in ["20 1/2", "20½", "20 ½", "20.5", "20,5", "41/2", "20.50"] {
        assert_eq!(text.parse(), Exact::new(41, 2), "{text}");
    }
    for (text, numer, denom) in
        [("⅓", 1, 3), ("⅞", 7, 8), ("-3/4", -3, 4), ("-1 ⅔", -5, 3), ("007", 7, 1), ("0.125", 1, 8)]
    {
        assert_eq!(text.parse(), Exact::new(numer, denom), "{text}");
    }
}

#[test]
fn rounding_is_as_its_table_says() {
    let rounds =
        [Round::Floor, Round::Ceil, Round::HalfUp, Round::HalfDown, Round::HalfEven, Round::Exact];
    let table: [(&str, [Option<i64>; 6]); 8] = [
        ("2.4", [Some(2), Some(3), Some(2), Some(2), Some(2), None]),
        ("2.5", [Some(2), Some(3), Some(3), Some(2), Some(2), None]),
        ("3.5", [Some(3), Some(4), Some(4), Some(3), Some(4), None]),
        ("-2.5", [Some(-3), Some(-2), Some(-2), Some(-3), Some(-2), None]),
        ("-3.5", [Some(-4), Some(-3), Some(-3), Some(-4), Some(-4), None]),
        ("-2.6", [Some(-3), Some(-2), Some(-3), Some(-3), Some(-3), None]),
        ("3", [Some(3); 6]),
        ("0", [Some(0); 6]),
    ];
    for (text, expected) in table {
        let got = rounds.map(|round| exact(text).to_whole(round).ok());
        assert_eq!(got, expected, "{text}");
    }
}

#[test]
fn a_half_or_more_rounds_up_as_published() {
    // modenook.com: 16.65 becomes 17 and 16.27 becomes 16.
    assert_eq!(exact("16.65").to_whole(Round::HalfUp), Ok(17));
    assert_eq!(exact("16.27").to_whole(Round::HalfUp), Ok(16));
}

/// What `wanted` is where it can be held, else that it is refused.
fn agrees(got: Result<Exact, loopwright::gauge::Error>, wanted: &BigRational) {
    let fits = |text: String| text.trim_start_matches('-').parse::<i64>().is_ok();
    let held = fits(wanted.numer().to_string()) && fits(wanted.denom().to_string());
    match got {
        // In lowest terms over a positive denominator, or equal numbers would differ.
        Ok(got) => assert_eq!(
            (got.numer().to_string(), got.denom().to_string()),
            (wanted.numer().to_string(), wanted.denom().to_string())
        ),
        Err(error) => assert!(!held && error.is_range(), "{wanted} refused: {error}"),
    }
}

proptest! {
    #[test]
    fn sums_agree_with_unbounded_rationals(a in exacts(), b in exacts()) {
        agrees(a.checked_add(b), &(big(a) + big(b)));
        agrees(a.checked_sub(b), &(big(a) - big(b)));
        agrees(a.checked_mul(b), &(big(a) * big(b)));
        if !b.is_zero() {
            agrees(a.checked_div(b), &(big(a) / big(b)));
        }
        prop_assert_eq!(a.cmp(&b), big(a).cmp(&big(b)));
    }

    #[test]
    fn rounding_agrees_with_its_definition(a in exacts(), round in rounds()) {
        let (floor, ceil) = (big(a).floor(), big(a).ceil());
        let half = BigRational::new(1.into(), 2.into());
        let wanted = match round {
            Round::Floor => floor,
            Round::Ceil => ceil,
            Round::HalfUp => (big(a) + half).floor(),
            Round::HalfDown => (big(a) - half).ceil(),
            Round::HalfEven => {
                let up = (big(a) + &half).floor();
                let tie = &up - big(a) == half;
                let odd = (&up / BigRational::from_integer(2.into())).is_integer();
                if tie && !odd { up - BigRational::from_integer(1.into()) } else { up }
            }
            Round::Exact if floor == ceil => floor,
            Round::Exact => {
                prop_assert!(a.to_whole(round).unwrap_err().is_not_whole());
                return Ok(());
            }
        };
        let whole = a.to_whole(round).unwrap();
        prop_assert_eq!(BigRational::from_integer(whole.into()), wanted);
    }

    #[test]
    fn numbers_round_trip(a in exacts()) {
        prop_assert_eq!(a.to_string().parse::<Exact>(), Ok(a));
    }
}
