//! The sums before the shaping: published counts, lengths, shares and rates.

use super::{rows, st};
use loopwright::gauge::{Exact, Gauge, Length, PerLength, Repeat, Round, Rows, Stitches};
use loopwright::shaping::{Edges, Order, RowGrowth, Taper};
use loopwright_tests::golden::cases;
use serde::Deserialize;

fn half_up() -> Round {
    Round::HalfUp
}

fn one() -> Exact {
    Exact::whole(1)
}

fn single() -> u32 {
    1
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Fit {
    length: Length,
    #[serde(default = "one")]
    share: Exact,
    per: PerLength,
    #[serde(default = "single")]
    multiple: u32,
    #[serde(default = "half_up")]
    round: Round,
    exact: Option<Exact>,
    count: Option<u32>,
    misprinted_exact: Option<Exact>,
    misprinted_count: Option<u32>,
}

#[test]
fn counts_as_published() {
    for case in cases::<Fit>(include_str!("../../golden/shaping_counts.toml")) {
        let (name, want) = (&case.name, &case.fields);
        let length = want.length.scaled(want.share).unwrap();
        let repeat = Repeat::multiple_of(want.multiple).unwrap();
        let gauge = Gauge::from_parts(want.per, want.per);
        let stitches = gauge.fit::<Stitches>(length, repeat, want.round).unwrap();
        let rows = gauge.fit::<Rows>(length, repeat, want.round).unwrap();
        assert!(want.exact.is_some() || want.count.is_some(), "{name} wants nothing");
        assert_eq!((rows.count.get(), rows.ideal), (stitches.count.get(), stitches.ideal));
        want.exact.iter().for_each(|exact| assert_eq!(stitches.ideal, *exact, "{name}"));
        want.count.iter().for_each(|count| assert_eq!(stitches.count.get(), *count, "{name}"));
        want.misprinted_exact.iter().for_each(|bad| assert_ne!(stitches.ideal, *bad, "{name}"));
        want.misprinted_count.iter().for_each(|bad| assert!(!repeat.allows(*bad), "{name}"));
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Lengths {
    parts: Vec<(Length, Exact)>,
    length: Length,
    #[serde(default = "nothing")]
    within: Length,
}

fn nothing() -> Length {
    Length::ZERO
}

#[test]
fn lengths_as_published() {
    for case in cases::<Lengths>(include_str!("../../golden/shaping_lengths.toml")) {
        let want = &case.fields;
        let sum = want.parts.iter().fold(Length::ZERO, |sum, (length, times)| {
            sum.checked_add(length.scaled(*times).unwrap()).unwrap()
        });
        let off = sum.checked_sub(want.length).unwrap().abs();
        assert!(off <= want.within, "{}: {sum}, not {}", case.name, want.length);
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Sum {
    parts: Vec<(Exact, Exact)>,
    #[serde(default = "exactly")]
    round: Round,
    whole: i64,
}

fn exactly() -> Round {
    Round::Exact
}

#[test]
fn sums_as_published() {
    for case in cases::<Sum>(include_str!("../../golden/shaping_sums.toml")) {
        let want = &case.fields;
        let sum = want.parts.iter().fold(Exact::ZERO, |sum, (count, times)| {
            sum.checked_add(count.checked_mul(*times).unwrap()).unwrap()
        });
        assert_eq!(sum.to_whole(want.round).unwrap(), want.whole, "{}", case.name);
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Grown {
    start: u32,
    by: u32,
    every: u32,
    rows: u32,
    total: Option<u64>,
    of: Option<u32>,
    share: Option<Exact>,
    #[serde(default = "zero")]
    within: Exact,
}

fn zero() -> Exact {
    Exact::ZERO
}

#[test]
fn growth_as_published() {
    for case in cases::<Grown>(include_str!("../../golden/shaping_growth.toml")) {
        let (name, want) = (&case.name, &case.fields);
        let piece = RowGrowth::new(st(want.start), st(want.by), rows(want.every)).unwrap();
        let total = piece.total(rows(want.rows));
        assert!(want.total.is_some() || want.share.is_some(), "{name} wants nothing");
        want.total.iter().for_each(|published| assert_eq!(total, (*published).into(), "{name}"));
        if let (Some(of), Some(share)) = (want.of, want.share) {
            let [part, whole] = [total, piece.total(rows(of))].map(|n| i64::try_from(n).unwrap());
            let off = Exact::new(part, whole).unwrap().checked_sub(share).unwrap().abs();
            assert!(off <= want.within, "{name}: {part} of {whole}");
        }
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Rate {
    count: i64,
    length: Length,
    per_inch: i64,
}

#[test]
fn rates_as_published() {
    let inch = Length::inches(1).unwrap();
    for case in cases::<Rate>(include_str!("../../golden/shaping_rates.toml")) {
        let want = &case.fields;
        let rate = PerLength::new(want.count.try_into().unwrap(), want.length).unwrap();
        let whole = rate.per(inch).unwrap().to_whole(Round::HalfUp).unwrap();
        assert_eq!(whole, want.per_inch, "{}", case.name);
    }
}

#[test]
fn a_sleeve_of_every_tenth_row_goes_by_rows_not_inches() {
    // moderndailyknitting.com, Basic sleeve alterations: every 10th row 12 times, again
    // for another row gauge. By arithmetic: 120 rows at 30 are 132 at 33 and 108 at 27.
    let sleeve = Taper::builder(st(48), st(72), rows(120))
        .edges(Edges::Both)
        .order(Order::QuickFirst)
        .build()
        .unwrap();
    let segments = |taper: &Taper| -> Vec<(u32, u32)> {
        taper.segments().map(|run| (run.every.get(), run.times)).collect()
    };
    assert_eq!(segments(&sleeve), [(10, 12)]);
    for (reached, every) in [(33, 11), (27, 9)] {
        let (planned, reached) = (Exact::whole(30), Exact::whole(reached));
        let again =
            sleeve.replan_at_gauge(rows(0), st(48), planned, reached, Round::Exact).unwrap();
        assert_eq!(segments(&again), [(every, 12)]);
    }
}
