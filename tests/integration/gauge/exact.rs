//! Exact sums against a rational library without bounds, and rounding.

use loopwright::gauge::{Exact, Round};
use loopwright_tests::gauge::{big, exacts, rounds};
use num_bigint::BigInt;
use num_rational::{BigRational, Ratio};
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

#[test]
fn the_least_of_64_bits_is_refused_everywhere() {
    let most = Exact::literal(i64::MAX, 1);
    let least = most.negated();
    assert!(Exact::try_from(i64::MIN).unwrap_err().is_range());
    assert!(Exact::new(i64::MIN, 1).unwrap_err().is_range());
    assert!(Exact::new(1, i64::MIN).unwrap_err().is_range());
    assert!(Exact::try_from(Ratio::new_raw(i64::MIN, 1)).unwrap_err().is_range());
    assert!("-9223372036854775808".parse::<Exact>().is_err());
    assert!(least.checked_sub(Exact::ONE).unwrap_err().is_range());
    assert_eq!(least.abs(), most);
    assert_eq!(Exact::ONE.checked_sub(least), Err(most.checked_add(Exact::ONE).unwrap_err()));
    let seventh = Exact::whole(7).checked_div(least).unwrap();
    assert!(!seventh.is_positive() && seventh.denom() > 0);
    // Half of it can be held, whichever way it is said.
    assert_eq!(Exact::new(i64::MIN, 2), Exact::try_from(i64::MIN / 2));
    assert_eq!(least.snapped(most, Round::HalfUp), Ok(least));
}

#[test]
fn ratios_come_and_go() {
    assert_eq!(Ratio::from(exact("-3/4")), Ratio::new(-3, 4));
    assert_eq!(Exact::try_from(Ratio::new_raw(6, -8)), Exact::new(-3, 4));
    assert_eq!(
        Exact::try_from(Ratio::new_raw(1, 0)).unwrap_err().to_string(),
        "the number cannot be divided by zero"
    );
}

#[test]
fn decimals_round_half_away_from_zero() {
    for (text, printed) in [
        ("3.175", "3.18"),
        ("-3.175", "-3.18"),
        ("3.174", "3.17"),
        ("0.005", "0.01"),
        ("-0.004", "0.00"),
        ("9.995", "10.00"),
        ("28", "28.00"),
    ] {
        assert_eq!(format!("{:.2}", exact(text)), printed, "{text}");
    }
    assert_eq!(format!("{:>7.1}|{:<5}|", exact("2.25"), exact("1/2")), "    2.3|1/2  |");
}

proptest! {
    #[test]
    fn printing_agrees_with_its_definition(a in exacts(), places in 0..25_usize) {
        let scale = BigRational::from_integer(BigInt::from(10).pow(u32::try_from(places).unwrap()));
        let half = BigRational::new(1.into(), 2.into());
        let size = (big(a.abs()) * &scale + half).floor() / scale;
        let printed = format!("{a:.places$}");
        let (sign, digits) = printed.strip_prefix('-').map_or((1, printed.as_str()), |rest| (-1, rest));
        prop_assert_eq!(digits.split_once('.').map_or(0, |(_, part)| part.len()), places);
        let whole: BigInt = digits.replace('.', "").parse().unwrap();
        let read = BigRational::new(whole, BigInt::from(10).pow(u32::try_from(places).unwrap()));
        prop_assert_eq!(&read, &size);
        prop_assert_eq!(sign < 0, a.numer() < 0 && size != big(Exact::ZERO));
    }

    #[test]
    fn snapping_agrees_with_its_definition(a in exacts(), step in exacts(), round in rounds()) {
        let got = a.snapped(step, round);
        if !step.is_positive() {
            prop_assert!(got.unwrap_err().is_range());
            return Ok(());
        }
        let steps = big(a) / big(step);
        match got {
            Ok(got) => {
                let (floor, ceil) = (steps.floor() * big(step), steps.ceil() * big(step));
                let (down, up) = (big(a) - &floor, &ceil - big(a));
                let nearer = if down < up { &floor } else { &ceil };
                match round {
                    Round::Floor => prop_assert_eq!(big(got), floor),
                    Round::Ceil => prop_assert_eq!(big(got), ceil),
                    Round::Exact => prop_assert_eq!(got, a),
                    _ if down != up => prop_assert_eq!(&big(got), nearer),
                    _ => prop_assert!(big(got) == floor || big(got) == ceil),
                }
            }
            Err(error) if round == Round::Exact => {
                prop_assert!(error.is_not_whole() && !steps.is_integer());
            }
            // The multiple has too many digits: it is above 63 bits either way.
            Err(error) => prop_assert!(error.is_range()),
        }
    }

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
