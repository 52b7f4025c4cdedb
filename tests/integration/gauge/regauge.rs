//! Published counts at another gauge.

use loopwright::gauge::{
    EdgeStitches, Exact, Gauge, Length, Numbers, PerLength, Regauge, Repeat, Round, Rows, Stitches,
    Warning,
};
use loopwright_tests::assertions::assert_error;
use loopwright_tests::gauge::{allowed, big, gauges, repeats};
use loopwright_tests::golden::cases;
use loopwright_tests::laws::tried;
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
        let fitted = regauge.fit(stitches, repeat, fields.round).unwrap();
        assert_eq!(fitted.count.get(), fields.becomes, "golden case {name:?}");
        if let Some(ideal) = fields.ideal {
            assert_eq!(fitted.ideal, ideal, "golden case {name:?}");
        }
        if let Some(printed) = fields.printed_ideal {
            assert!(prints_as(fitted.ideal, &printed), "golden case {name:?}: {}", fitted.ideal);
        }
        if let Some(plain) = fields.plain {
            let fitted = regauge.fit(stitches, Repeat::any(), Round::HalfUp).unwrap();
            assert_eq!(fitted.count.get(), plain, "golden case {name:?}");
            assert_ne!(plain, fields.becomes, "golden case {name:?}");
        }
        let rows = Rows::new(fields.count).unwrap();
        let fitted = regauge.fit(rows, repeat, fields.round).unwrap();
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
    let regauged = regauge.fit_all(&pattern, Round::HalfUp).unwrap();
    let counts: Vec<u32> = regauged.counts.iter().map(|fitted| fitted.count.get()).collect();
    assert_eq!(counts, [29, 34, 93, 40]);
    let told: Vec<String> = regauged.warnings.iter().map(ToString::to_string).collect();
    assert_eq!(
        told,
        [
            "neck: 27 is odd, but 34 would be even; 35 keeps it odd",
            "band: 30 does not fit its repeat, multiple of 4",
            "shoulder + neck + shoulder would be 1 short of back",
        ]
    );
}

#[test]
fn rows_follow_the_row_gauge() {
    let regauge = Regauge::new("20x30/10cm".parse().unwrap(), "40x30/10cm".parse().unwrap());
    let rows = Rows::new(88).unwrap();
    assert_eq!(regauge.fit(rows, Repeat::any(), Round::Exact).unwrap().count, rows);
    let length = Numbers::new([("body".to_owned(), (rows, Repeat::even()))]).unwrap();
    let regauged = regauge.fit_all(&length, Round::Exact).unwrap();
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
        let regauged = Regauge::new(gauge, gauge).fit_all(&pattern, Round::Exact).unwrap();
        let same: Vec<u32> = regauged.counts.iter().map(|fitted| fitted.count.get()).collect();
        prop_assert_eq!(same, counts);
        prop_assert!(regauged.warnings.is_empty());
    }

    #[test]
    fn a_count_keeps_its_length(from in gauges(), to in gauges(), count in 0..500_u32, repeat in repeats()) {
        let published = Stitches::new(count).unwrap();
        let fitted = Regauge::new(from, to).fit(published, repeat, Round::HalfUp).unwrap();
        let width = from.length_of(published).unwrap();
        prop_assert_eq!(fitted, to.fit::<Stitches>(width, repeat, Round::HalfUp).unwrap());
        let ratio = big(to.per_mm::<Stitches>().unwrap()) / big(from.per_mm::<Stitches>().unwrap());
        prop_assert_eq!(big(fitted.ideal), big(count.into()) * ratio);
    }
}

#[test]
fn a_kept_parity_is_kept_by_the_nearest_count() {
    tried(&(gauges(), gauges(), 1..300_u32, repeats()), 20, 20, |(from, to, count, repeat)| {
        let pattern = numbers(&[("it", count, repeat)]);
        let regauged = Regauge::new(from, to).fit_all(&pattern, Round::HalfUp).unwrap();
        let fitted = regauged.counts[0];
        let told = regauged.warnings.iter().find_map(|warning| match warning {
            Warning::Parity { keeps, .. } => Some(*keeps),
            _ => None,
        });
        prop_assert_eq!(told.is_some(), fitted.count.get() % 2 != count % 2);
        let Some(keeps) = told else { return Ok(false) };
        let ideal = big(fitted.ideal);
        let most = fitted.count.get() + 4 * repeat.multiple() + repeat.smallest();
        let off = |&n: &u32| {
            let off = big(n.into()) - &ideal;
            if off < big(Exact::ZERO) { -off } else { off }
        };
        let same = allowed(repeat, most).into_iter().rev().filter(|n| n % 2 == count % 2);
        prop_assert_eq!(keeps.map(Stitches::get), same.min_by_key(off));
        Ok(true)
    });
}

#[test]
fn kept_edge_stitches_are_not_scaled() {
    let scaled = Regauge::new("20x30/10cm".parse().unwrap(), "30x40/10cm".parse().unwrap());
    let kept = scaled.edge_stitches(EdgeStitches::Kept);
    // 62 stitches are 60 between a seam stitch at each side: half as many again is 90 and 2.
    let (published, seamed) = (Stitches::new(62).unwrap(), Repeat::new(1, 0, 1).unwrap());
    let ideal = |regauge: Regauge| regauge.fit(published, seamed, Round::HalfUp).unwrap().ideal;
    assert_eq!(ideal(kept), Exact::whole(92));
    assert_eq!(ideal(scaled), Exact::whole(93));
    assert_error(
        kept.fit(Stitches::ONE, seamed, Round::HalfUp),
        "the count of stitches is 1, but must be at least the 2 of its edges",
    );
}

#[test]
fn edge_stitches_kept_are_the_middle_scaled() {
    tried(
        &(gauges(), gauges(), prop_oneof![0..6_u32, 0..300_u32], repeats()),
        50,
        2,
        |(from, to, count, repeat)| {
            let kept = Regauge::new(from, to).edge_stitches(EdgeStitches::Kept);
            let got = kept.fit(Stitches::new(count).unwrap(), repeat, Round::HalfUp);
            let edges = 2 * repeat.edge();
            let Some(middle) = count.checked_sub(edges) else {
                prop_assert!(got.unwrap_err().is_range());
                return Ok(false);
            };
            let ratio =
                big(to.per_mm::<Stitches>().unwrap()) / big(from.per_mm::<Stitches>().unwrap());
            let wanted = big(middle.into()) * ratio + big(edges.into());
            prop_assert_eq!(big(got.unwrap().ideal), wanted);
            Ok(true)
        },
    );
}

#[test]
fn a_length_asked_for_is_the_published_one() {
    let regauge = Regauge::new("5.5x8/1in".parse().unwrap(), "6.5x9/1in".parse().unwrap());
    let stitches = Stitches::new(110).unwrap();
    let fitted = regauge.fit(stitches, Repeat::any(), Round::HalfUp).unwrap();
    assert_eq!(fitted.asked(), Length::inches(20));
}
