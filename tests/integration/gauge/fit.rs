//! Fitting a measure to a count: published values, every allowed count looked at, laws.

use loopwright::gauge::{
    Count as _, CountRange, Ease, Exact, Fitted, Gauge, Length, Measured, PerLength, Reading,
    ReadingDirection, Repeat, Round, Rows, Stitches, SwatchGauge,
};
use loopwright_tests::gauge::{big, brute_fit, gauges, lengths, per_lengths, repeats, rounds};
use loopwright_tests::golden::cases;
use proptest::prelude::*;

#[derive(serde::Deserialize)]
struct Fit {
    gauge: PerLength,
    length: Length,
    #[serde(default = "one")]
    multiple: u32,
    #[serde(default)]
    extra: u32,
    #[serde(default = "half_up")]
    round: Round,
    ideal: Option<Exact>,
    count: u32,
}

fn one() -> u32 {
    1
}

fn half_up() -> Round {
    Round::HalfUp
}

/// The same gauge both ways, so that a case may be either.
fn both(gauge: PerLength) -> Gauge {
    Gauge::from_parts(gauge, gauge)
}

fn repeat(multiple: u32, extra: u32) -> Repeat {
    if (multiple, extra) == (1, 0) {
        return Repeat::any();
    }
    Repeat::new(multiple, extra, 0).unwrap()
}

#[test]
fn published_measures_give_the_published_counts() {
    for case in cases::<Fit>(include_str!("../../golden/gauge_fit.toml")) {
        let Fit { gauge, length, multiple, extra, round, ideal, count } = case.fields;
        let fitted = both(gauge).fit_stitches(length, repeat(multiple, extra), round).unwrap();
        assert_eq!(fitted.count.get(), count, "golden case {:?}", case.name);
        if let Some(ideal) = ideal {
            assert_eq!(fitted.ideal, ideal, "golden case {:?}", case.name);
        }
        let rows = both(gauge).fit_rows(length, repeat(multiple, extra), round).unwrap();
        assert_eq!(rows.count.get(), count, "golden case {:?}", case.name);
    }
}

#[derive(serde::Deserialize)]
struct Allowed {
    multiple: u32,
    #[serde(default)]
    extra: u32,
    #[serde(default)]
    first: Vec<u32>,
    #[serde(default)]
    among: Vec<u32>,
    #[serde(default)]
    not_among: Vec<u32>,
}

#[test]
fn published_repeats_allow_the_published_counts() {
    for case in cases::<Allowed>(include_str!("../../golden/gauge_repeat.toml")) {
        let Allowed { multiple, extra, first, among, not_among } = case.fields;
        let repeat = Repeat::new(multiple, extra, 0).unwrap();
        let allowed: Vec<u32> = (0..200).filter(|&n| repeat.allows(n)).collect();
        assert_eq!(allowed[..first.len()], first, "golden case {:?}", case.name);
        assert!(among.iter().all(|n| allowed.contains(n)), "golden case {:?}", case.name);
        assert!(!not_among.iter().any(|n| allowed.contains(n)), "golden case {:?}", case.name);
    }
}

#[test]
fn a_published_error_of_width_fails_as_printed() {
    // A yarn seller's note: at 6 stitches a centimetre over 50 cm, an error of 0.3 a
    // centimetre "gives 2 cm".
    let knitted: PerLength = "5.7 / 1 cm".parse().unwrap();
    let width = knitted.length_of(Exact::whole(300)).unwrap();
    assert_ne!(width, Length::cm(52).unwrap());
    assert_eq!(width.millimetres(), Exact::new(10_000, 19).unwrap()); // 52.63 cm
}

#[test]
fn the_parity_of_a_published_difference_fails_as_printed() {
    // projectknitway.blogspot.com, Dec 2010: from 151 to 132 at both sides alike.
    assert!(!Repeat::even().allows(151 - 132));
    assert!(Repeat::even().allows(151 - 133));
}

#[test]
fn a_range_brings_the_count_inside() {
    let gauge: Gauge = "28x40/10cm".parse().unwrap();
    let bed = |least, most| {
        CountRange::new(Stitches::new(least).unwrap(), Stitches::new(most).unwrap()).unwrap()
    };
    let six = Repeat::multiple_of(6).unwrap().plus(2).unwrap();
    for (least, most, count) in [(0, 200, 146), (147, 200, 152), (0, 140, 140), (0, 139, 134)] {
        let fitted = gauge
            .fit_stitches_within("52 cm".parse().unwrap(), six, bed(least, most), Round::HalfUp)
            .unwrap();
        assert_eq!(fitted.count.get(), count, "in {least}..={most}");
        assert!(six.allows(count));
    }
}

#[test]
fn candidates_stop_at_the_smallest_count() {
    let gauge: Gauge = "28x40/10cm".parse().unwrap();
    let near = gauge.nearest_stitches("2 cm".parse().unwrap(), Repeat::even(), 3).unwrap();
    let counts: Vec<u32> = near.iter().map(|fitted| fitted.count.get()).collect();
    assert_eq!(counts, [2, 4, 6, 8, 10]); // 5.6 stitches: two below it, three above
}

fn exact_rounding_may_refuse<C>(
    fitted: Result<Fitted<C>, loopwright::gauge::Error>,
    round: Round,
) -> Option<Fitted<C>> {
    match fitted {
        Ok(fitted) => Some(fitted),
        Err(error) => {
            assert_eq!(round, Round::Exact, "{error}");
            None
        }
    }
}

proptest! {
    #[test]
    fn fits_agree_with_looking_at_every_count(
        gauge in gauges(), length in lengths(), repeat in repeats(), round in rounds(),
    ) {
        // Looking at every count takes its time: no blanket is this wide.
        let length = length.scaled(Exact::new(1, 10).unwrap()).unwrap();
        let fitted = exact_rounding_may_refuse(gauge.fit_stitches(length, repeat, round), round);
        let ideal = gauge.stitches_in(length).unwrap();
        prop_assert_eq!(fitted.map(|fitted| fitted.count.get()), brute_fit(ideal, repeat, round));
        let rows = exact_rounding_may_refuse(gauge.fit_rows(length, repeat, round), round);
        let ideal = gauge.rows_in(length).unwrap();
        prop_assert_eq!(rows.map(|fitted| fitted.count.get()), brute_fit(ideal, repeat, round));
    }

    #[test]
    fn a_fit_says_what_it_cost(
        gauge in gauges(), length in lengths(), repeat in repeats(), round in rounds(),
    ) {
        let Some(fitted) = exact_rounding_may_refuse(gauge.fit_stitches(length, repeat, round), round)
        else { return Ok(()) };
        let per_mm = big(gauge.stitches_per_mm());
        let mm = big(length.millimetres());
        let given = big(fitted.count.get().into()) / &per_mm;
        prop_assert_eq!(big(fitted.ideal), &mm * &per_mm);
        prop_assert_eq!(big(fitted.length.millimetres()), given.clone());
        prop_assert_eq!(big(fitted.residual.millimetres()), given - &mm);
        prop_assert_eq!(fitted.asked(), Ok(length));
        prop_assert_eq!((fitted.low, fitted.high), (fitted.length, fitted.length));
        // Nearest is never off by more than half a step, but for the smallest count.
        let smallest = fitted.count.get() == repeat.smallest();
        if matches!(round, Round::HalfUp | Round::HalfDown | Round::HalfEven) && !smallest {
            let off = big(fitted.residual.abs().millimetres()) * &per_mm;
            prop_assert!(off <= big(Exact::new(repeat.multiple().into(), 2).unwrap()));
        }
    }

    #[test]
    fn a_longer_measure_never_gives_fewer(
        gauge in gauges(), one in lengths(), other in lengths(), repeat in repeats(),
        round in rounds().prop_filter("rounds", |&round| round != Round::Exact),
    ) {
        let (short, long) = (one.min(other), one.max(other));
        let fewer = gauge.fit_stitches(short, repeat, round).unwrap().count;
        let more = gauge.fit_stitches(long, repeat, round).unwrap().count;
        prop_assert!(fewer <= more);
    }

    #[test]
    fn a_count_comes_back_from_its_length(
        gauge in gauges(), length in lengths(), repeat in repeats(), round in rounds(),
    ) {
        let fitted = gauge.fit_stitches(length, repeat, Round::HalfUp).unwrap();
        prop_assert_eq!(gauge.width_of(fitted.count), Ok(fitted.length));
        // Exact when the ideal is an allowed count, however it is rounded; so, idempotent.
        let again = gauge.fit_stitches(fitted.length, repeat, round).unwrap();
        prop_assert_eq!(again.count, fitted.count);
        prop_assert_eq!(again.residual, Length::ZERO);
        prop_assert_eq!(again.ideal, Exact::from(fitted.count.get()));
        let rows = Rows::new(fitted.count.get()).unwrap();
        let height = gauge.height_of(rows).unwrap();
        prop_assert_eq!(gauge.fit_rows(height, Repeat::any(), round).unwrap().count, rows);
    }

    #[test]
    fn a_gauge_is_the_same_over_any_length(gauge in gauges(), span in 0..4_usize) {
        let spans = ["10 cm", "4 in", "1 in", "1 cm"];
        let span: Length = spans[span].parse().unwrap();
        let stitches = gauge.stitches().per(span).unwrap();
        let rows = gauge.rows().per(span).unwrap();
        prop_assert_eq!(Gauge::new(stitches, rows, span), Ok(gauge));
        prop_assert_eq!(PerLength::new(stitches, span), Ok(gauge.stitches()));
        // The width of 40 stitches is as good a reading as the stitches in 10 cm.
        let forty = Exact::whole(40);
        let width = gauge.stitches().length_of(forty).unwrap();
        prop_assert_eq!(PerLength::new(forty, width), Ok(gauge.stitches()));
    }

    #[test]
    fn gauges_and_readings_round_trip(gauge in gauges(), length in lengths(), count in 1..500_u32) {
        prop_assert_eq!(gauge.to_string().parse(), Ok(gauge));
        prop_assert_eq!(gauge.rows().to_string().parse(), Ok(gauge.rows()));
        for direction in [ReadingDirection::Stitches, ReadingDirection::Rows] {
            let Ok(reading) = Reading::new(count.into(), direction, length) else { continue };
            prop_assert_eq!(reading.to_string().parse(), Ok(reading));
        }
        let ease = Ease::length(length);
        prop_assert_eq!(ease.to_string().parse(), Ok(ease));
    }

    #[test]
    fn the_unit_a_length_was_entered_in_does_not_matter(
        gauge in gauges(), sixteenths in 1..2_000_i64, repeat in repeats(),
    ) {
        let inches: Length = format!("{sixteenths}/16 in").parse().unwrap();
        let mm = Exact::new(sixteenths * 254, 160).unwrap();
        let metric: Length = format!("{mm} mm").parse().unwrap();
        let fitted = gauge.fit_stitches(inches, repeat, Round::HalfEven);
        prop_assert_eq!(fitted, gauge.fit_stitches(metric, repeat, Round::HalfEven));
    }

    #[test]
    fn candidates_are_the_nearest_allowed_counts(
        gauge in gauges(), length in lengths(), repeat in repeats(), each in 1..6_u32,
    ) {
        let length = length.scaled(Exact::new(1, 10).unwrap()).unwrap();
        let ideal = gauge.stitches_in(length).unwrap();
        let most = u32::try_from(ideal.to_whole(Round::Ceil).unwrap()).unwrap()
            + repeat.smallest() + 7 * repeat.multiple();
        let allowed: Vec<u32> = (0..most).filter(|&n| repeat.allows(n)).collect();
        let at_or_below = allowed.iter().filter(|&&n| Exact::from(n) <= ideal).count();
        let from = at_or_below.saturating_sub(each as usize);
        // Where the smallest count is above the ideal, the repeats below it are not there.
        let expected = &allowed[from..];
        let near = gauge.nearest_stitches(length, repeat, each).unwrap();
        let counts: Vec<u32> = near.iter().map(|fitted| fitted.count.get()).collect();
        prop_assert!(expected.starts_with(&counts), "{counts:?} in {expected:?}");
        if at_or_below > 0 {
            prop_assert_eq!(counts.len(), at_or_below - from + each as usize);
        }
        for fitted in near {
            prop_assert_eq!(gauge.width_of(fitted.count), Ok(fitted.length));
        }
    }

    #[test]
    fn a_range_is_kept_by_the_nearest_count_inside(
        gauge in gauges(), length in lengths(), repeat in repeats(), ends in (0..300_u32, 0..300_u32),
    ) {
        let length = length.scaled(Exact::new(1, 10).unwrap()).unwrap();
        let (least, most) = (ends.0.min(ends.1), ends.0.max(ends.1));
        let range = CountRange::new(Rows::new(least).unwrap(), Rows::new(most).unwrap()).unwrap();
        let ideal = big(gauge.rows_in(length).unwrap());
        let distance = |&n: &u32| {
            let off = big(n.into()) - &ideal;
            if off < big(Exact::ZERO) { -off } else { off }
        };
        let inside = (least..=most).rev().filter(|&n| repeat.allows(n));
        // Of two as near, the larger: halves go up, and the first met is kept.
        let nearest = inside.min_by_key(distance);
        let got = gauge.fit_rows_within(length, repeat, range, Round::HalfUp);
        match nearest {
            Some(nearest) => prop_assert_eq!(got.unwrap().count.get(), nearest),
            None => prop_assert!(got.unwrap_err().is_unmet()),
        }
    }

    #[test]
    fn the_true_gauge_gives_a_width_in_the_interval(
        parts in (per_lengths(), per_lengths(), per_lengths()), length in lengths(), repeat in repeats(),
    ) {
        let mut sides = [parts.0, parts.1, parts.2];
        sides.sort_unstable();
        let [low, value, high] = sides;
        let stitches = Measured::new(value, low, high).unwrap();
        let gauge = SwatchGauge::new(stitches, Measured::exactly(value));
        let fitted = gauge.fit_stitches(length, repeat, Round::HalfUp).unwrap();
        prop_assert_eq!(
            fitted.count,
            gauge.gauge().fit_stitches(length, repeat, Round::HalfUp).unwrap().count
        );
        prop_assert_eq!(low.length_of(fitted.count.get().into()), Ok(fitted.high));
        prop_assert_eq!(high.length_of(fitted.count.get().into()), Ok(fitted.low));
        prop_assert!(fitted.low <= fitted.length && fitted.length <= fitted.high);
    }
}

#[test]
fn a_count_of_either_kind_names_itself() {
    assert_eq!((Stitches::NAME, Rows::NAME), ("stitches", "rows"));
}
