//! The trade's tables: readings, ease, yarn classes, needles.

use super::regauge::prints_as;
use loopwright::gauge::{
    Ease, EaseChart, EaseClass, Exact, Length, OpenRange, PerLength, Reading, YarnClass,
    us_needle_diameters, us_needle_numbers,
};
use loopwright_tests::golden::cases;

#[derive(serde::Deserialize)]
struct Read {
    reading: Reading,
    per: Length,
    printed: String,
}

#[test]
fn published_readings_give_the_published_gauges() {
    for case in cases::<Read>(include_str!("../../golden/gauge_reading.toml")) {
        let Read { reading, per, printed } = case.fields;
        let gauge = reading.gauge().per(per).unwrap();
        assert!(prints_as(gauge, &printed), "golden case {:?}: {gauge}", case.name);
    }
}

#[derive(serde::Deserialize)]
struct Class {
    number: u8,
    stitches: OpenRange<u32>,
    needles: Vec<Length>,
    us: Vec<String>,
    misprinted_us: Option<Vec<String>>,
    wraps: OpenRange<u32>,
    yards_per_pound: Option<OpenRange<u32>>,
    spinners: Option<OpenRange<u32>>,
}

fn ends<T>(range: OpenRange<T>) -> Vec<T> {
    range.low.into_iter().chain(range.high).collect()
}

#[test]
fn yarn_classes_are_as_published() {
    let listed = cases::<Class>(include_str!("../../golden/gauge_yarn.toml"));
    for (case, class) in listed.into_iter().zip(YarnClass::ALL) {
        let (name, fields) = (case.name, case.fields);
        assert_eq!((class.name(), class.number()), (name.as_str(), fields.number));
        assert_eq!(class.stitches_per_4_in(), fields.stitches, "{name}");
        assert_eq!(ends(class.needles()), fields.needles, "{name}");
        assert_eq!(ends(class.needles_us()), fields.us, "{name}");
        assert_ne!(Some(fields.us), fields.misprinted_us, "{name}");
        assert_eq!(class.wraps_per_inch(), fields.wraps, "{name}");
        assert_eq!(class.yards_per_pound(), fields.yards_per_pound, "{name}");
        assert_eq!(class.spinners_wraps_per_inch(), fields.spinners, "{name}");
    }
}

#[test]
fn a_misprinted_needle_number_contradicts_its_diameters() {
    // The Craft Yarn Council's page prints US 3 to 5 for class 3 beside 3.75 to 4.5 mm.
    let made = |number| us_needle_diameters(number).next().unwrap();
    let light = YarnClass::Light.needles();
    assert!(!light.contains(&made("3")));
    assert!(light.contains(&made("5")) && light.contains(&made("7")));
}

fn classes(per_4_in: &str) -> Vec<u8> {
    let gauge = PerLength::new(per_4_in.parse().unwrap(), Length::inches(4).unwrap()).unwrap();
    YarnClass::of_gauge(gauge).map(YarnClass::number).collect()
}

#[test]
fn overlaps_and_gaps_of_the_table_are_answered() {
    assert_eq!(classes("22"), [3]);
    assert_eq!(classes("23"), [2, 3]);
    assert_eq!(classes("24"), [2, 3]);
    assert_eq!(classes("25"), [2]);
    assert_eq!(classes("20.5"), [3, 4]); // between two whole ranges
    assert_eq!(classes("20.4"), [4]);
    assert_eq!(classes("3"), [7]);
    assert_eq!(classes("6.5"), [6, 7]);
    assert_eq!(classes("45"), [] as [u8; 0]);
}

#[test]
fn neighbouring_ranges_meet_as_the_table_says() {
    // 6|7, 11|12, 15|16, 20|21, 26|27 and 32|33 meet; only 2 and 3 overlap.
    for per_4_in in 1..=40_u32 {
        let found = classes(&per_4_in.to_string());
        let expected = if (23..=24).contains(&per_4_in) { 2 } else { 1 };
        assert_eq!(found.len(), expected, "{per_4_in} in 4 in");
    }
    for wraps in 1..=40_u32 {
        let found = YarnClass::of_wraps(wraps).count();
        assert!(found >= 1, "{wraps} wraps");
    }
    assert_eq!(YarnClass::of_needle("8 mm".parse().unwrap()).count(), 2);
}

#[derive(serde::Deserialize)]
struct Needle {
    made: Vec<Length>,
}

#[test]
fn needle_numbers_are_as_published() {
    for case in cases::<Needle>(include_str!("../../golden/gauge_needle.toml")) {
        let made: Vec<Length> = us_needle_diameters(&case.name).collect();
        assert_eq!(made, case.fields.made, "US {}", case.name);
        for diameter in made {
            assert!(us_needle_numbers(diameter).any(|number| number == case.name));
        }
    }
    let both: Vec<&str> = us_needle_numbers("2.5 mm".parse().unwrap()).collect();
    assert_eq!(both, ["1", "1.5"]);
    assert_eq!(us_needle_numbers("2.4 mm".parse().unwrap()).count(), 0);
}

#[derive(serde::Deserialize)]
struct Fit {
    chart: EaseChart,
    ease: Length,
    classes: Vec<EaseClass>,
}

#[test]
fn ease_classes_are_as_published_in_each_version() {
    for case in cases::<Fit>(include_str!("../../golden/gauge_ease.toml")) {
        let Fit { chart, ease, classes } = case.fields;
        let found: Vec<EaseClass> = chart.classes(ease).collect();
        assert_eq!(found, classes, "golden case {:?}", case.name);
    }
}

#[test]
fn ease_is_a_length_or_a_percentage() {
    let apply = |ease: &str, body: &str| {
        ease.parse::<Ease>().unwrap().apply(body.parse().unwrap()).map(|length| length.to_string())
    };
    // catharticink.com, Nov 2006: a tenth less than 8 in at 9 stitches an inch is 64.8.
    assert_eq!(apply("-10 %", "8 in").unwrap(), "4572/25 mm"); // 7.2 in
    assert_eq!(apply("-10%", "8 in").unwrap(), "4572/25 mm");
    assert_eq!(apply("5 cm", "100 cm").unwrap(), "1050 mm");
    assert_eq!(apply("-2 in", "20 in").unwrap(), "2286/5 mm");
    assert_eq!(apply("2.5 %", "100 cm").unwrap(), "1025 mm");
    let body = Length::cm(96).unwrap();
    let garment = Length::cm(106).unwrap();
    assert_eq!(Ease::between(body, garment).unwrap().apply(body), Ok(garment));
    assert_eq!(Ease::NONE.apply(body), Ok(body));
    for text in ["50 mm", "-10 %", "5/2 %"] {
        assert_eq!(text.parse::<Ease>().unwrap().to_string(), text);
    }
    assert_eq!(Ease::percent(Exact::whole(5)), "5 %".parse());
}
