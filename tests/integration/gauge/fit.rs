//! Fitting a measure to a count: published values, every allowed count looked at, laws.

use loopwright::gauge::{
    Count as _, CountRange, Ease, Exact, Fitted, Gauge, Length, PerLength, Reading,
    ReadingDirection, Repeat, Round, Rows, Spread, Stitches, SwatchGauge,
};
use loopwright_tests::gauge::{
    allowed, big, brute_fit, gauges, lengths, per_lengths, repeats, rounds,
};
use loopwright_tests::golden::cases;
use loopwright_tests::laws::tried;
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
        let fitted = both(gauge).fit::<Stitches>(length, repeat(multiple, extra), round).unwrap();
        assert_eq!(fitted.count.get(), count, "golden case {:?}", case.name);
        if let Some(ideal) = ideal {
            assert_eq!(fitted.ideal, ideal, "golden case {:?}", case.name);
        }
        let rows = both(gauge).fit::<Rows>(length, repeat(multiple, extra), round).unwrap();
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
            .fit_within::<Stitches>("52 cm".parse().unwrap(), six, bed(least, most), Round::HalfUp)
            .unwrap();
        assert_eq!(fitted.count.get(), count, "in {least}..={most}");
        assert!(six.allows(count));
    }
}

#[test]
fn candidates_stop_at_the_smallest_count() {
    let gauge: Gauge = "28x40/10cm".parse().unwrap();
    let near = gauge.nearest::<Stitches>("2 cm".parse().unwrap(), Repeat::even(), 3).unwrap();
    let counts: Vec<u32> = near.iter().map(|fitted| fitted.count.get()).collect();
    assert_eq!(counts, [2, 4, 6, 8, 10]); // 5.6 stitches: two below it, three above
}

/// Only exact rounding and rounding down may refuse; what they refuse has no count.
fn refused_or<C: loopwright::gauge::Count>(
    fitted: Result<Fitted<C>, loopwright::gauge::Error>,
    ideal: Exact,
    repeat: Repeat,
    round: Round,
) -> Option<Fitted<C>> {
    match fitted {
        Ok(fitted) => Some(fitted),
        Err(error) => {
            assert!(error.is_unmet(), "{error}");
            match round {
                Round::Exact => assert!(brute_fit(ideal, repeat, Round::Exact).is_none()),
                Round::Floor => assert!(allowed(repeat, most(ideal)).is_empty(), "{error}"),
                round => panic!("{round} was refused: {error}"),
            }
            None
        }
    }
}

/// The largest whole number not above an ideal.
fn most(ideal: Exact) -> u32 {
    u32::try_from(ideal.to_whole(Round::Floor).unwrap()).unwrap()
}

#[test]
fn fits_agree_with_looking_at_every_count() {
    // Exact rounding refuses most lengths; so does rounding down the very short ones.
    tried(&(gauges(), lengths(), repeats(), rounds()), 50, 3, |(gauge, length, repeat, round)| {
        // Looking at every count takes its time: no blanket is this wide.
        let length = length.scaled(Exact::new(1, 10).unwrap()).unwrap();
        let ideal = gauge.count_in::<Stitches>(length).unwrap();
        let fitted = refused_or(gauge.fit::<Stitches>(length, repeat, round), ideal, repeat, round);
        prop_assert_eq!(fitted.map(|fitted| fitted.count.get()), brute_fit(ideal, repeat, round));
        let ideal = gauge.count_in::<Rows>(length).unwrap();
        let rows = refused_or(gauge.fit::<Rows>(length, repeat, round), ideal, repeat, round);
        prop_assert_eq!(rows.map(|fitted| fitted.count.get()), brute_fit(ideal, repeat, round));
        Ok(fitted.is_some())
    });
}

#[test]
fn a_fit_says_what_it_cost() {
    tried(&(gauges(), lengths(), repeats(), rounds()), 50, 3, |(gauge, length, repeat, round)| {
        let ideal = gauge.count_in::<Stitches>(length).unwrap();
        let fitted = gauge.fit::<Stitches>(length, repeat, round);
        let Some(fitted) = refused_or(fitted, ideal, repeat, round) else { return Ok(false) };
        let per_mm = big(gauge.per_mm::<Stitches>().unwrap());
        let mm = big(length.millimetres());
        let given = big(fitted.count.get().into()) / &per_mm;
        prop_assert_eq!(big(fitted.ideal), &mm * &per_mm);
        prop_assert_eq!(big(fitted.length.likely().millimetres()), given.clone());
        prop_assert_eq!(big(fitted.residual.millimetres()), given - &mm);
        prop_assert_eq!(fitted.asked(), Ok(length));
        prop_assert!(fitted.length.is_exact());
        // Down never gives more than was asked, up never less.
        prop_assert!(round != Round::Floor || fitted.residual <= Length::ZERO);
        prop_assert!(round != Round::Ceil || fitted.residual >= Length::ZERO);
        // Nearest is never off by more than half a step, but for the smallest count.
        let smallest = allowed(repeat, fitted.count.get()).len() == 1;
        if matches!(round, Round::HalfUp | Round::HalfDown | Round::HalfEven) && !smallest {
            let off = big(fitted.residual.abs().millimetres()) * &per_mm;
            prop_assert!(off <= big(Exact::new(repeat.multiple().into(), 2).unwrap()));
        }
        Ok(true)
    });
}

#[test]
fn a_longer_measure_never_gives_fewer() {
    let rounds = rounds().prop_filter("rounds", |&round| round != Round::Exact);
    let all = (gauges(), (lengths(), lengths()), repeats(), rounds);
    tried(&all, 80, 1, |(gauge, (one, other), repeat, round)| {
        let (short, long) = (one.min(other), one.max(other));
        let fewer = gauge.fit::<Stitches>(short, repeat, round);
        let more = gauge.fit::<Stitches>(long, repeat, round);
        let Ok(fewer) = fewer else {
            prop_assert_eq!(round, Round::Floor);
            return Ok(false);
        };
        prop_assert!(fewer.count <= more.unwrap().count);
        Ok(true)
    });
}

proptest! {
    #[test]
    fn a_count_comes_back_from_its_length(
        gauge in gauges(), length in lengths(), repeat in repeats(), round in rounds(),
    ) {
        let fitted = gauge.fit::<Stitches>(length, repeat, Round::HalfUp).unwrap();
        prop_assert_eq!(gauge.length_of(fitted.count), Ok(fitted.length.likely()));
        // Exact when the ideal is an allowed count, however it is rounded; so, idempotent.
        let again = gauge.fit::<Stitches>(fitted.length.likely(), repeat, round).unwrap();
        prop_assert_eq!(again.count, fitted.count);
        prop_assert_eq!(again.residual, Length::ZERO);
        prop_assert_eq!(again.ideal, Exact::from(fitted.count.get()));
        let rows = Rows::new(fitted.count.get()).unwrap();
        let height = gauge.length_of(rows).unwrap();
        prop_assert_eq!(gauge.fit::<Rows>(height, Repeat::any(), round).unwrap().count, rows);
    }

    #[test]
    fn a_gauge_is_the_same_over_any_length(gauge in gauges(), span in 0..4_usize) {
        let spans = ["10 cm", "4 in", "1 in", "1 cm"];
        let span: Length = spans[span].parse().unwrap();
        let stitches = gauge.stitches().per(span).unwrap();
        let rows = gauge.rows().unwrap().per(span).unwrap();
        prop_assert_eq!(Gauge::new(stitches, rows, span), Ok(gauge));
        prop_assert_eq!(PerLength::new(stitches, span), Ok(gauge.stitches()));
        // The width of 40 stitches is as good a reading as the stitches in 10 cm.
        let forty = Exact::whole(40);
        let width = gauge.stitches().length_of(forty).unwrap();
        prop_assert_eq!(PerLength::new(forty, width), Ok(gauge.stitches()));
    }

    #[test]
    fn repeats_round_trip(repeat in repeats()) {
        prop_assert_eq!(repeat.to_string().parse(), Ok(repeat));
    }

    #[test]
    fn gauges_and_readings_round_trip(gauge in gauges(), length in lengths(), count in 1..500_u32) {
        let stitches = Gauge::of_stitches(gauge.stitches());
        prop_assert_eq!(stitches.to_string().parse(), Ok(stitches));
        prop_assert_eq!(gauge.to_string().parse(), Ok(gauge));
        prop_assert_eq!(gauge.stitches().to_string().parse(), Ok(gauge.stitches()));
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
        let fitted = gauge.fit::<Stitches>(inches, repeat, Round::HalfEven);
        prop_assert_eq!(fitted, gauge.fit::<Stitches>(metric, repeat, Round::HalfEven));
    }

    #[test]
    fn candidates_are_the_nearest_allowed_counts(
        gauge in gauges(), length in lengths(), repeat in repeats(), each in 1..6_u32,
    ) {
        let length = length.scaled(Exact::new(1, 10).unwrap()).unwrap();
        let ideal = gauge.count_in::<Stitches>(length).unwrap();
        let most = u32::try_from(ideal.to_whole(Round::Ceil).unwrap()).unwrap()
            + repeat.smallest() + 7 * repeat.multiple();
        let allowed = allowed(repeat, most);
        let at_or_below = allowed.iter().filter(|&&n| Exact::from(n) <= ideal).count();
        let from = at_or_below.saturating_sub(each as usize);
        // Where the smallest count is above the ideal, the repeats below it are not there.
        let expected = &allowed[from..];
        let near = gauge.nearest::<Stitches>(length, repeat, each).unwrap();
        let counts: Vec<u32> = near.iter().map(|fitted| fitted.count.get()).collect();
        prop_assert!(expected.starts_with(&counts), "{counts:?} in {expected:?}");
        if at_or_below > 0 {
            prop_assert_eq!(counts.len(), at_or_below - from + each as usize);
        }
        for fitted in near {
            prop_assert_eq!(gauge.length_of(fitted.count), Ok(fitted.length.likely()));
        }
    }

    #[test]
    fn the_true_gauge_gives_a_width_in_the_interval(
        parts in (per_lengths(), per_lengths(), per_lengths()), length in lengths(), repeat in repeats(),
    ) {
        let mut sides = [parts.0, parts.1, parts.2];
        sides.sort_unstable();
        let [low, value, high] = sides;
        let stitches = Spread::new(low, value, high).unwrap();
        let gauge = SwatchGauge::new(stitches, Spread::exactly(value));
        let fitted = gauge.fit::<Stitches>(length, repeat, Round::HalfUp).unwrap();
        prop_assert_eq!(
            fitted.count,
            gauge.gauge().fit::<Stitches>(length, repeat, Round::HalfUp).unwrap().count
        );
        prop_assert_eq!(low.length_of(fitted.count.get().into()), Ok(fitted.length.high()));
        prop_assert_eq!(high.length_of(fitted.count.get().into()), Ok(fitted.length.low()));
    }
}

/// A range of counts whose ends may lie anywhere about the ideals tried.
fn ranges() -> impl Strategy<Value = CountRange<Rows>> {
    // Half of them narrow, so that a repeat may have no count there.
    let width = prop_oneof![0..12_u32, 0..300_u32];
    (0..300_u32, width).prop_map(|(one, width)| {
        let other = one + width;
        let rows = |n: u32| Rows::new(n).unwrap();
        CountRange::new(rows(one.min(other)), rows(one.max(other))).unwrap()
    })
}

/// How far each allowed count in the range is from the ideal, the nearest first; of two as
/// near, the larger first.
fn inside(range: CountRange<Rows>, repeat: Repeat, ideal: Exact) -> Vec<u32> {
    let zero = big(Exact::ZERO);
    let off = |n: u32| {
        let off = big(n.into()) - big(ideal);
        if off < zero { -off } else { off }
    };
    let mut counts = allowed(repeat, range.most().get());
    counts.retain(|&count| count >= range.least().get());
    counts.sort_by(|&a, &b| off(a).cmp(&off(b)).then(b.cmp(&a)));
    counts
}

#[test]
fn a_range_is_kept_by_the_nearest_count_inside() {
    tried(&(gauges(), lengths(), repeats(), ranges()), 50, 2, |(gauge, length, repeat, range)| {
        let length = length.scaled(Exact::new(1, 10).unwrap()).unwrap();
        let ideal = gauge.count_in::<Rows>(length).unwrap();
        let nearest = inside(range, repeat, ideal).first().copied();
        let got = gauge.fit_within::<Rows>(length, repeat, range, Round::HalfUp);
        match nearest {
            Some(nearest) => prop_assert_eq!(got.unwrap().count.get(), nearest),
            None => prop_assert!(got.unwrap_err().is_unmet()),
        }
        Ok(nearest.is_some())
    });
}

#[test]
fn candidates_in_a_range_are_the_nearest_there() {
    tried(&(gauges(), lengths(), repeats(), ranges()), 50, 2, |(gauge, length, repeat, range)| {
        let length = length.scaled(Exact::new(1, 10).unwrap()).unwrap();
        let per = gauge.of::<Rows>().unwrap();
        let inside = inside(range, repeat, per.per(length).unwrap());
        let near = per.nearest_within(length, repeat, range, 2);
        let Some(&nearest) = inside.first() else {
            prop_assert!(near.unwrap_err().is_unmet());
            return Ok(false);
        };
        let near: Vec<u32> = near.unwrap().iter().map(|fitted| fitted.count.get()).collect();
        prop_assert!(near.contains(&nearest), "{near:?} without {nearest}");
        prop_assert!(near.iter().all(|count| inside.contains(count)), "{near:?} in {inside:?}");
        prop_assert!(near.len() >= 2.min(inside.len()) && near.is_sorted());
        Ok(true)
    });
}

#[test]
fn rounding_down_gives_nothing_rather_than_more() {
    let gauge: Gauge = "28x40/10cm".parse().unwrap();
    let (width, six) = (Length::cm(1).unwrap(), Repeat::multiple_of(6).unwrap());
    let refused = gauge.fit::<Stitches>(width, six, Round::Floor).unwrap_err();
    assert!(refused.is_unmet());
    assert_eq!(
        refused.to_string(),
        "no count of stitches that fits the repeat (multiple of 6) is 2.8 or fewer: its least is 6"
    );
    assert_eq!(gauge.fit::<Stitches>(width, six, Round::HalfUp).unwrap().count.get(), 6);
}

#[test]
fn counts_are_read_with_or_without_their_name() {
    assert_eq!("24".parse(), Rows::new(24));
    assert_eq!("24 rows".parse(), Rows::new(24));
    assert_eq!("1 st".parse(), Stitches::new(1));
    for text in ["24 rows", "2.5", "-1", "24 stitches and more", ""] {
        assert!(text.parse::<Stitches>().is_err(), "{text}");
    }
    assert_eq!(
        "2.5".parse::<Stitches>().unwrap_err().to_string(),
        "the count of stitches \"2.5\" cannot be read: write a whole number such as 24, or 24 stitches"
    );
    assert_eq!(
        "10000001".parse::<Rows>().unwrap_err().to_string(),
        "the count of rows is 10000001, but must be in 0..=10000000"
    );
    assert_eq!(Stitches::try_from(Exact::whole(7)), Stitches::new(7));
    assert!(Stitches::try_from(Exact::literal(15, 2)).unwrap_err().is_not_whole());
    assert!(Stitches::try_from(u64::MAX).unwrap_err().is_range());
    assert!(Rows::try_from(i64::MIN).unwrap_err().is_range());
    let most = Rows::new(10_000_000).unwrap();
    assert!([most, Rows::ONE].into_iter().sum::<Result<Rows, _>>().unwrap_err().is_range());
    assert!(most.checked_mul(u32::MAX).unwrap_err().is_range());
}

#[test]
fn repeats_are_read_in_the_words_of_the_trade() {
    let six_plus_two = Repeat::multiple_of(6).unwrap().plus(2).unwrap();
    for text in ["6+2", "6 + 2", "6 plus 2", "multiple of 6 plus 2", "Multiple of 6 plus 2"] {
        assert_eq!(text.parse(), Ok(six_plus_two), "{text}");
    }
    for (text, repeat) in [("any", Repeat::any()), ("even", Repeat::even()), ("odd", Repeat::odd())]
    {
        assert_eq!(text.parse(), Ok(repeat));
    }
    let edged = "6+2, with 1 at each edge, from 3 repeats up".parse::<Repeat>().unwrap();
    assert_eq!((edged.edge(), edged.least(), edged.smallest()), (1, 3, 22));
    for text in ["", "six", "6+", "6+2.5", "0.5", "6, with 1", "6 2"] {
        assert!(text.parse::<Repeat>().unwrap_err().is_parse(), "{text}");
    }
    assert!("0".parse::<Repeat>().unwrap_err().is_range());
}

#[test]
fn a_count_of_either_kind_names_itself() {
    assert_eq!((Stitches::NAME, Rows::NAME), ("stitches", "rows"));
}
