//! Published counts at another gauge.

use loopwright::gauge::{
    Exact, Gauge, Length, Numbers, PerLength, Regauge, Repeat, Round, Rows, Stitches, Warning,
};
use loopwright_tests::gauge::{big, gauges, repeats};
use loopwright_tests::golden::cases;
use proptest::prelude::*;

#[derive(serde::Deserialize)]
struct Published {
    from: PerLength,
    to: PerLength,
    count: u32,
    #[serde(default)]
    multiple: Option<u32>,
    #[serde(default)]
    odd: bool,
    #[serde(default = "half_up")]
    round: Round,
    ideal: Option<Exact>,
    printed_ideal: Option<String>,
    becomes: u32,
    plain: Option<u32>,
}

fn half_up() -> Round {
    Round::HalfUp
}

fn both(gauge: PerLength) -> Gauge {
    Gauge::from_parts(gauge, gauge)
}

/// Whether `exact` prints as `printed` does, to its places.
pub(super) fn prints_as(exact: Exact, printed: &str) -> bool {
    let places = printed.split_once('.').map_or(0, |(_, places)| places.len());
    let half_step = Exact::new(1, 2 * 10_i64.pow(u32::try_from(places).unwrap())).unwrap();
    let off = exact.checked_sub(printed.parse().unwrap()).unwrap();
    off.abs() <= half_step
}

#[test]
fn published_counts_become_the_published_counts() {
    for case in cases::<Published>(include_str!("../../golden/gauge_regauge.toml")) {
        let (name, fields) = (case.name, case.fields);
        let regauge = Regauge::new(both(fields.from), both(fields.to));
        let repeat = match fields.multiple {
            Some(multiple) => Repeat::multiple_of(multiple).unwrap(),
            None if fields.odd => Repeat::odd(),
            None => Repeat::any(),
        };
        let stitches = Stitches::new(fields.count).unwrap();
        let fitted = regauge.stitches(stitches, repeat, fields.round).unwrap();
        assert_eq!(fitted.count.get(), fields.becomes, "golden case {name:?}");
        if let Some(ideal) = fields.ideal {
            assert_eq!(fitted.ideal, ideal, "golden case {name:?}");
        }
        if let Some(printed) = fields.printed_ideal {
            assert!(prints_as(fitted.ideal, &printed), "golden case {name:?}: {}", fitted.ideal);
        }
        if let Some(plain) = fields.plain {
            let fitted = regauge.stitches(stitches, Repeat::any(), Round::HalfUp).unwrap();
            assert_eq!(fitted.count.get(), plain, "golden case {name:?}");
            assert_ne!(plain, fields.becomes, "golden case {name:?}");
        }
        let rows = Rows::new(fields.count).unwrap();
        let fitted = regauge.rows(rows, repeat, fields.round).unwrap();
        assert_eq!(fitted.count.get(), fields.becomes, "golden case {name:?}");
    }
}

fn numbers(counts: &[(&str, u32, Repeat)]) -> Numbers<Stitches> {
    let number = |&(name, count, repeat): &(&str, u32, Repeat)| {
        (name.to_owned(), (Stitches::new(count).unwrap(), repeat))
    };
    Numbers::new(counts.iter().map(number)).unwrap()
}

#[test]
fn what_would_break_is_told() {
    let regauge = Regauge::new("22x30/10cm".parse().unwrap(), "28x40/10cm".parse().unwrap());
    let four = Repeat::multiple_of(4).unwrap();
    let pattern = numbers(&[
        ("shoulder", 23, Repeat::any()),
        ("neck", 27, Repeat::any()),
        ("back", 73, Repeat::any()),
        ("band", 30, four),
    ]);
    let pattern = pattern.sum(&["shoulder", "neck", "shoulder"], "back").unwrap();
    let regauged = regauge.all_stitches(&pattern, Round::HalfUp).unwrap();
    let counts: Vec<u32> = regauged.counts.iter().map(|fitted| fitted.count.get()).collect();
    assert_eq!(counts, [29, 34, 93, 40]);
    let told: Vec<String> = regauged.warnings.iter().map(ToString::to_string).collect();
    assert_eq!(
        told,
        [
            "neck: 27 is odd, but 34 would be even; 35 keeps it odd",
            "band: 30 is not a multiple of 4",
            "shoulder + neck + shoulder would be 1 short of back",
        ]
    );
}

#[test]
fn rows_follow_the_row_gauge() {
    let regauge = Regauge::new("20x30/10cm".parse().unwrap(), "40x30/10cm".parse().unwrap());
    let rows = Rows::new(88).unwrap();
    assert_eq!(regauge.rows(rows, Repeat::any(), Round::Exact).unwrap().count, rows);
    let length = Numbers::new([("body".to_owned(), (rows, Repeat::even()))]).unwrap();
    let regauged = regauge.all_rows(&length, Round::Exact).unwrap();
    assert_eq!(regauged.counts[0].count, rows);
    assert!(regauged.warnings.is_empty());
}

proptest! {
    #[test]
    fn a_pattern_at_its_own_gauge_stays_as_it_is(gauge in gauges(), counts in proptest::collection::vec(0..500_u32, 1..6)) {
        let named: Vec<(String, u32)> =
            counts.iter().enumerate().map(|(at, &n)| (format!("number {at}"), n)).collect();
        let listed: Vec<(&str, u32, Repeat)> =
            named.iter().map(|(name, n)| (name.as_str(), *n, Repeat::any())).collect();
        let pattern = numbers(&listed);
        let regauged = Regauge::new(gauge, gauge).all_stitches(&pattern, Round::Exact).unwrap();
        let same: Vec<u32> = regauged.counts.iter().map(|fitted| fitted.count.get()).collect();
        prop_assert_eq!(same, counts);
        prop_assert!(regauged.warnings.is_empty());
    }

    #[test]
    fn a_count_keeps_its_length(from in gauges(), to in gauges(), count in 0..500_u32, repeat in repeats()) {
        let published = Stitches::new(count).unwrap();
        let fitted = Regauge::new(from, to).stitches(published, repeat, Round::HalfUp).unwrap();
        let width = from.width_of(published).unwrap();
        prop_assert_eq!(fitted, to.fit_stitches(width, repeat, Round::HalfUp).unwrap());
        let ratio = big(to.stitches_per_mm()) / big(from.stitches_per_mm());
        prop_assert_eq!(big(fitted.ideal), big(count.into()) * ratio);
    }

    #[test]
    fn a_kept_parity_is_kept_by_the_nearest_count(
        from in gauges(), to in gauges(), count in 1..300_u32, repeat in repeats(),
    ) {
        let pattern = numbers(&[("it", count, repeat)]);
        let regauge = Regauge::new(from, to);
        let regauged = regauge.all_stitches(&pattern, Round::HalfUp).unwrap();
        let fitted = regauged.counts[0];
        let parity = |n: u32| n % 2;
        let told = regauged.warnings.iter().find_map(|warning| match warning {
            Warning::Parity { keeps, .. } => Some(*keeps),
            _ => None,
        });
        prop_assert_eq!(told.is_some(), parity(fitted.count.get()) != parity(count));
        let Some(keeps) = told else { return Ok(()) };
        let ideal = big(fitted.ideal);
        let most = fitted.count.get() + 4 * repeat.multiple() + repeat.smallest();
        let off = |&n: &u32| {
            let off = big(n.into()) - &ideal;
            if off < big(Exact::ZERO) { -off } else { off }
        };
        let nearest =
            (0..most).rev().filter(|&n| repeat.allows(n) && parity(n) == parity(count)).min_by_key(off);
        prop_assert_eq!(keeps.map(Stitches::get), nearest);
    }
}

#[test]
fn a_length_asked_for_is_the_published_one() {
    let regauge = Regauge::new("5.5x8/1in".parse().unwrap(), "6.5x9/1in".parse().unwrap());
    let stitches = Stitches::new(110).unwrap();
    let fitted = regauge.stitches(stitches, Repeat::any(), Round::HalfUp).unwrap();
    assert_eq!(fitted.asked(), Length::inches(20));
}
