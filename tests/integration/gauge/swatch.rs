use loopwright::gauge::{
    DimensionalChange, Exact, Length, Reading, ReadingDirection, Rows, Spread, Stitches, Swatch,
    SwatchGauge, Treatment,
};
use loopwright_tests::assertions::assert_error;
use loopwright_tests::gauge::{big, gauges};
use proptest::prelude::*;

fn swatch(readings: &[&str]) -> Swatch {
    let readings = readings.iter().map(|text| text.parse::<Reading>().unwrap());
    Swatch::new(readings, Treatment::Washed).unwrap()
}

#[test]
fn both_habits_of_reading_agree() {
    let fixed_length = swatch(&["28 st = 10 cm", "40 rows = 10 cm"]).gauge().unwrap();
    let fixed_count = swatch(&["40 st = 14 2/7 cm", "60 rows = 15 cm"]).gauge().unwrap();
    assert_eq!(fixed_length.gauge(), fixed_count.gauge());
    assert_eq!(fixed_length.gauge(), "28x40/10cm".parse().unwrap());
}

#[test]
fn a_longer_reading_weighs_more() {
    let pooled =
        swatch(&["30 st = 10 cm", "56 st = 20 cm"]).pooled(ReadingDirection::Stitches).unwrap();
    assert_eq!(pooled.likely(), "86 / 30 cm".parse().unwrap());
    // The readings themselves lie further out than their reading errors.
    assert_eq!(pooled.low(), "28 / 10 cm".parse().unwrap());
    assert_eq!(pooled.high(), "30 / 10 cm".parse().unwrap());
}

#[test]
fn marked_stitches_leave_only_the_ruler() {
    let marked = swatch(&["40 st = 13.3 cm"]).counted_to(Exact::ZERO).unwrap();
    let pooled = marked.pooled(ReadingDirection::Stitches).unwrap();
    assert_eq!(pooled.low(), "40 / 13.4 cm".parse().unwrap());
    assert_eq!(pooled.high(), "40 / 13.2 cm".parse().unwrap());
}

#[test]
fn the_span_needed_keeps_its_promise() {
    let chest = Length::cm(100).unwrap();
    let within = Length::cm(1).unwrap();
    let rough = swatch(&["25 st = 10 cm"]);
    let span = rough.span_needed(ReadingDirection::Stitches, chest, within).unwrap();
    // Read again over that span, the chest of 250 stitches is known to 1 cm.
    let count = Exact::new(1, 4).unwrap().checked_mul(span.millimetres()).unwrap();
    let again = Reading::new(count, ReadingDirection::Stitches, span).unwrap();
    let pooled = Swatch::new([again], Treatment::Washed)
        .unwrap()
        .pooled(ReadingDirection::Stitches)
        .unwrap();
    let width = pooled.length_of(Exact::whole(250)).unwrap();
    assert_eq!(width.high(), Length::cm(101).unwrap());
    assert!(width.low() > Length::cm(99).unwrap());
}

#[test]
fn a_swatch_reads_from_a_plan() {
    let text = r#"
        readings = ["40 st = 13.3 cm", "60 rows = 15.4 cm"]
        treatment = "washed"
        measured_to = "0.5 mm"
    "#;
    let read: Swatch = toml::from_str(text).unwrap();
    let made = swatch(&["40 st = 13.3 cm", "60 rows = 15.4 cm"]);
    assert_eq!(read, made.measured_to("0.5 mm".parse().unwrap()).unwrap());
}

#[test]
fn treatments_read_as_they_are_said() {
    for (said, treatment) in [
        ("off the needles", Treatment::OffNeedles),
        ("rested", Treatment::Rested),
        ("washed", Treatment::Washed),
    ] {
        assert_eq!(said.parse(), Ok(treatment));
        assert_eq!(treatment.to_string(), said);
    }
    assert_eq!("washed and dried".parse(), Ok(Treatment::Washed));
    assert_error(
        "boiled".parse::<Treatment>(),
        "the treatment \"boiled\" cannot be read: write off the needles, rested or washed",
    );
}

#[test]
fn shrinkage_is_below_zero_as_in_iso_5077() {
    let cm = |n| Length::cm(n).unwrap();
    let washed = DimensionalChange::measured((cm(50), cm(50)), (cm(50), cm(48))).unwrap();
    assert_eq!(washed.width_percent, Exact::ZERO);
    assert_eq!(washed.length_percent, Exact::whole(-4)); // hobby texts print +4
    let before = swatch(&["25 st = 10 cm", "48 rows = 10 cm"]);
    let after = swatch(&["25 st = 10 cm", "50 rows = 10 cm"]);
    assert_eq!(before.change_to(&after).unwrap(), washed);
}

#[test]
fn one_reading_far_from_the_others_is_found_and_two_halves_are_not() {
    let odd = |readings: &[&str]| {
        let found = swatch(readings).outliers().unwrap();
        found.iter().map(|outlier| outlier.index).collect::<Vec<_>>()
    };
    assert_eq!(odd(&["28 st = 10 cm", "28 st = 10 cm", "31 st = 10 cm"]), [2]);
    assert_eq!(odd(&["25 st = 10 cm", "28.5 st = 10 cm", "28 st = 10 cm"]), [0]);
    // Rows are judged among rows.
    assert_eq!(odd(&["28 st = 10 cm", "28 st = 10 cm", "40 rows = 10 cm"]), [0; 0]);
    // Readings spread evenly, readings within their own error, and a tie of two.
    assert_eq!(odd(&["26 st = 10 cm", "28 st = 10 cm", "30 st = 10 cm"]), [0; 0]);
    assert_eq!(odd(&["28 st = 10 cm", "28 st = 10 cm", "28.5 st = 10 cm"]), [0; 0]);
    assert_eq!(odd(&["26 st = 10 cm", "30 st = 10 cm"]), [0; 0]);
}

fn readings() -> impl Strategy<Value = Vec<Reading>> {
    let reading = (40..160_i64, 100..300_i64, any::<bool>()).prop_map(|(quarters, mm, rows)| {
        let direction = if rows { ReadingDirection::Rows } else { ReadingDirection::Stitches };
        let count = Exact::new(quarters, 4).unwrap();
        Reading::new(count, direction, Length::mm(mm).unwrap()).unwrap()
    });
    proptest::collection::vec(reading, 1..8)
}

proptest! {
    #[test]
    fn a_pooled_gauge_lies_among_its_readings(readings in readings()) {
        let swatch = Swatch::new(readings.clone(), Treatment::Washed).unwrap();
        for direction in [ReadingDirection::Stitches, ReadingDirection::Rows] {
            let along: Vec<Reading> =
                readings.iter().copied().filter(|reading| reading.direction() == direction).collect();
            let Ok(pooled) = swatch.pooled(direction) else {
                prop_assert!(along.is_empty());
                continue;
            };
            let all = along.iter().map(|reading| reading.gauge());
            let (least, most) = (all.clone().min().unwrap(), all.max().unwrap());
            prop_assert!(least <= pooled.likely() && pooled.likely() <= most);
            prop_assert!(pooled.low() <= least && most <= pooled.high());
            let counts = along.iter().map(|reading| big(reading.count())).sum::<num_rational::BigRational>();
            let spans = along.iter().map(|reading| big(reading.span().millimetres()));
            prop_assert_eq!(big(pooled.likely().per_mm()), counts / spans.sum::<num_rational::BigRational>());
        }
    }

    #[test]
    fn the_order_of_readings_does_not_matter(readings in readings()) {
        let gauge = |readings: Vec<Reading>| {
            let swatch = Swatch::new(readings, Treatment::Washed).unwrap();
            (swatch.pooled(ReadingDirection::Stitches), swatch.pooled(ReadingDirection::Rows))
        };
        let backwards = readings.iter().rev().copied().collect();
        prop_assert_eq!(gauge(readings), gauge(backwards));
    }

    #[test]
    fn finer_reading_never_widens_the_interval(readings in readings(), eighths in 0..4_i64) {
        let swatch = Swatch::new(readings, Treatment::Washed).unwrap();
        let finer = swatch.clone().counted_to(Exact::new(eighths, 8).unwrap()).unwrap();
        for direction in [ReadingDirection::Stitches, ReadingDirection::Rows] {
            if let (Ok(rough), Ok(fine)) = (swatch.pooled(direction), finer.pooled(direction)) {
                prop_assert!(rough.low() <= fine.low() && fine.high() <= rough.high());
                prop_assert_eq!(rough.likely(), fine.likely());
            }
        }
    }

    #[test]
    fn a_change_turned_round_gives_the_first_gauge_back(before in gauges(), after in gauges()) {
        let change = DimensionalChange::between(before, after).unwrap();
        let hundred = big(Exact::whole(100));
        let factor = |percent| (big(percent) + &hundred) / &hundred;
        prop_assert_eq!(
            factor(change.width_percent) * big(after.per_mm::<Stitches>().unwrap()),
            big(before.per_mm::<Stitches>().unwrap())
        );
        prop_assert_eq!(
            factor(change.length_percent) * big(after.per_mm::<Rows>().unwrap()),
            big(before.per_mm::<Rows>().unwrap())
        );
    }

    #[test]
    fn a_gauge_without_error_has_no_interval(gauge in gauges(), count in 1..500_u32) {
        let exact = SwatchGauge::from(gauge);
        prop_assert_eq!(exact.gauge(), gauge);
        let stitches = Stitches::new(count).unwrap();
        let width = exact.length_of(stitches).unwrap();
        prop_assert_eq!(Ok(width.low()), gauge.length_of(stitches));
        prop_assert_eq!(width.low(), width.high());
        prop_assert_eq!(Spread::exactly(gauge.rows().unwrap()), exact.rows().unwrap());
    }
}
