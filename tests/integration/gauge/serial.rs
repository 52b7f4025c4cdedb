//! JSON: the same door as `new`, for every public type; and its schema.

use loopwright::gauge::{
    Choice, CountRange, DimensionalChange, Ease, EaseChart, EaseClass, EdgeStitches, Exact, Fitted,
    Gauge, Length, Numbers, OpenRange, Outlier, Parity, PerLength, Precision, Reading,
    ReadingDirection, Regauge, Regauged, Repeat, Round, Rows, Side, Spread, Stitches, Swatch,
    SwatchGauge, Treatment, Unit, YarnClass,
};
use loopwright_tests::gauge::{gauges, lengths, repeats, rounds};
use proptest::prelude::*;
use serde::{Serialize, de::DeserializeOwned};

/// Writes, reads back and compares; gives what was written.
fn round_trip<T: Serialize + DeserializeOwned + PartialEq + core::fmt::Debug>(value: &T) -> String {
    let written = serde_json::to_string(value).unwrap();
    assert_eq!(&serde_json::from_str::<T>(&written).unwrap(), value, "{written}");
    written
}

fn swatch() -> Swatch {
    let texts =
        ["28 st = 10 cm", "28.5 st = 10 cm", "28 st = 10 cm", "33 st = 10 cm", "40 rows = 10 cm"];
    Swatch::new(texts.map(|text| text.parse().unwrap()), Treatment::Rested).unwrap()
}

#[test]
fn every_type_is_written_as_it_is_read() {
    let gauge: Gauge = "28x40/10cm".parse().unwrap();
    let width: Length = "52 cm".parse().unwrap();
    assert_eq!(round_trip(&Exact::new(1, 3).unwrap()), r#""1/3""#);
    assert_eq!(round_trip(&width), r#""520 mm""#);
    assert_eq!(round_trip(&gauge), r#""28 x 40 / 10 cm""#);
    assert_eq!(round_trip(&gauge.stitches()), r#""28 / 10 cm""#);
    assert_eq!(round_trip(&Stitches::new(146).unwrap()), "146");
    assert_eq!(round_trip(&Rows::new(88).unwrap()), "88");
    assert_eq!(round_trip(&Round::HalfUp), r#""nearest""#);
    assert_eq!(round_trip(&Unit::Inch), r#""in""#);
    assert_eq!(round_trip(&Treatment::OffNeedles), r#""off the needles""#);
    assert_eq!(round_trip(&ReadingDirection::Rows), r#""rows""#);
    assert_eq!(round_trip(&EaseChart::Newer), r#""newer""#);
    assert_eq!(round_trip(&EaseClass::VeryClose), r#""very close""#);
    assert_eq!(round_trip(&YarnClass::SuperFine), r#""super fine""#);
    assert_eq!(round_trip(&"-10 %".parse::<Ease>().unwrap()), r#""-10 %""#);
    assert_eq!(round_trip(&"40 st = 13.3 cm".parse::<Reading>().unwrap()), r#""40 st = 133 mm""#);
    assert_eq!(
        round_trip(&Repeat::new(6, 2, 1).unwrap()),
        r#"{"multiple":6,"extra":2,"edge":1,"least":1}"#
    );
    assert_eq!(round_trip(&Precision::Fraction(8)), r#"{"fraction":8}"#);
    round_trip(&Repeat::any());
    round_trip(&Spread::exactly(width));
    round_trip(&CountRange::new(Rows::ZERO, Rows::new(9).unwrap()).unwrap());
    round_trip(&YarnClass::Jumbo.stitches_per_4_in());
    round_trip(&DimensionalChange::between(gauge, "28x44/10cm".parse().unwrap()).unwrap());
    round_trip(&Regauge::new(gauge, gauge));
}

#[test]
fn swatches_and_what_they_give_are_written_as_they_are_read() {
    let swatch = swatch();
    assert_eq!(
        round_trip(&swatch),
        r#"{"readings":["28 st = 100 mm","57/2 st = 100 mm","28 st = 100 mm","33 st = 100 mm","40 rows = 100 mm"],"treatment":"rested","counted_to":"1/2","measured_to":"1 mm"}"#
    );
    let gauge = swatch.gauge().unwrap();
    round_trip(&gauge);
    round_trip(&gauge.stitches());
    let odd = swatch.outliers().unwrap();
    assert_eq!(odd.len(), 1);
    round_trip::<Vec<Outlier>>(&odd);
    let width: Length = "52 cm".parse().unwrap();
    round_trip(&gauge.fit::<Stitches>(width, Repeat::even(), Round::Ceil).unwrap());
}

#[test]
fn numbers_of_a_pattern_are_written_as_they_are_read() {
    let number = |n| (Stitches::new(n).unwrap(), Repeat::any());
    let numbers =
        Numbers::new([("half".to_owned(), number(63)), ("back".to_owned(), number(126))]).unwrap();
    let numbers = numbers.sum(&["half", "half"], "back").unwrap();
    round_trip(&numbers);
    let regauge = Regauge::new("22x30/10cm".parse().unwrap(), "28x40/10cm".parse().unwrap());
    round_trip::<Regauged<Stitches>>(&regauge.fit_all(&numbers, Round::Floor).unwrap());
}

proptest! {
    #[test]
    fn fits_round_trip(gauge in gauges(), length in lengths(), repeat in repeats(), round in rounds()) {
        if let Ok(fitted) = gauge.fit::<Stitches>(length, repeat, round) {
            round_trip(&fitted);
        }
        round_trip(&repeat);
        round_trip(&SwatchGauge::from(gauge));
    }
}

#[test]
fn a_number_is_read_where_it_is_exact() {
    let read = |json: &str| serde_json::from_str::<Exact>(json);
    for (json, text) in [
        ("12", "12"),
        ("-7", "-7"),
        ("12.5", "12.5"),
        ("-0.375", "-3/8"),
        ("0.0", "0"),
        ("1024.0", "1024"),
        (r#""0.1""#, "1/10"),
    ] {
        assert_eq!(read(json).unwrap(), text.parse().unwrap(), "{json}");
    }
    for json in ["0.1", "1e300", "5e-324", "-0.3", "9223372036854775808", "-9223372036854775808"] {
        assert!(read(json).is_err(), "{json}");
    }
    refused::<Exact>("0.1", r#"0.1 is not exact as a number: write it as text, "0.1""#);
    refused::<Exact>(
        "true",
        "invalid type: boolean `true`, expected a whole number, or a number as text",
    );
}

/// Every choice is read from what it prints, with hyphens, underscores or capitals too.
fn choices<C: Choice + Serialize + DeserializeOwned + core::fmt::Debug>() -> usize {
    for &choice in C::ALL {
        let name = choice.name();
        for text in
            [name.to_owned(), name.replace(' ', "-"), name.replace(' ', "_"), name.to_uppercase()]
        {
            assert_eq!(C::read(&text), Ok(choice), "{text}");
        }
        for also in choice.also() {
            assert_eq!(C::read(also), Ok(choice), "{also}");
        }
        assert_eq!(round_trip(&choice), format!("{name:?}"));
        assert!(!choice.about().is_empty() && name == name.to_lowercase());
    }
    let listed = C::read("no such thing").unwrap_err().to_string();
    assert!(C::ALL.iter().all(|choice| listed.contains(choice.name())), "{listed}");
    C::ALL.len()
}

#[test]
fn choices_have_one_spelling() {
    let all = choices::<Round>()
        + choices::<Unit>()
        + choices::<Treatment>()
        + choices::<ReadingDirection>()
        + choices::<EaseChart>()
        + choices::<EaseClass>()
        + choices::<YarnClass>()
        + choices::<Parity>()
        + choices::<EdgeStitches>()
        + choices::<Side>();
    assert_eq!(all, 6 + 6 + 3 + 2 + 2 + 5 + 8 + 2 + 2 + 2);
}

#[test]
fn a_gauge_keeps_the_form_it_was_written_in() {
    for (written, kept) in [
        ("5.5x8/1in", "5.5 x 8 / 1 in"),
        ("22 X 30 / 4 in", "22 x 30 / 4 in"),
        ("28,5x40/10cm", "28.5 x 40 / 10 cm"),
        ("40x60/13.3 cm", "40 x 60 / 13.3 cm"),
        ("7 / in", "7 / 1 in"),
        ("2/3 x 40 / 1 ft 2 in", "2/3 x 40 / 14 in"),
    ] {
        let gauge: Gauge = written.parse().unwrap();
        assert_eq!(gauge.to_string(), kept);
        assert_eq!(gauge.to_string().parse(), Ok(gauge), "{written}");
        assert_eq!(serde_json::from_str::<Gauge>(&round_trip(&gauge)).unwrap(), gauge);
    }
}

#[track_caller]
fn refused<T: DeserializeOwned + core::fmt::Debug>(json: &str, because: &str) {
    let error = serde_json::from_str::<T>(json).expect_err("it is refused").to_string();
    assert!(error.starts_with(because), "{json} was refused for {error:?}");
}

#[test]
fn what_new_refuses_is_refused_in_json() {
    refused::<Exact>(r#""1/0""#, r#"the number "1/0" cannot be read"#);
    refused::<Length>(r#""52""#, r#"the length "52" cannot be read"#);
    refused::<Length>("NaN", "expected value");
    refused::<Length>("52.0", "invalid type: floating point `52.0`");
    refused::<Stitches>("-1", "invalid value: integer `-1`");
    refused::<Stitches>(
        "10000001",
        "the count of stitches is 10000001, but must be in 0..=10000000",
    );
    refused::<Rows>("1.5", "invalid type: floating point `1.5`");
    refused::<Gauge>(r#""0x40/10cm""#, "the stitch gauge is 0 per 10 cm, but must be in");
    refused::<PerLength>(
        r#""28 / 0 cm""#,
        "the length of the gauge is 0 mm, but must be above zero",
    );
    refused::<Reading>(r#""0 st = 10 cm""#, "the count of stitches read is 0, but must be above 0");
    refused::<Repeat>(
        r#"{"multiple":0}"#,
        "the multiple of the repeat is 0, but must be in 1..=10000",
    );
    refused::<Repeat>(r#"{"multiple":2,"edge":10001}"#, "the edge of the repeat is 10001");
    refused::<Repeat>(r#"{"multiple":2,"least":10001}"#, "the least number of repeats is 10001");
    refused::<Repeat>(r#"{"multiple":2,"extras":1}"#, "unknown field `extras`");
    refused::<Spread<Length>>(
        r#"{"low":"2 cm","likely":"2 cm","high":"1 cm"}"#,
        "the likely value is 20 mm, but must be between its low, 20 mm, and its high, 10 mm",
    );
    refused::<CountRange<Rows>>(r#"{"least":2,"most":1}"#, "the most of the range is 1");
    refused::<Spread<PerLength>>(
        r#"{"likely":"28/10cm","low":"29/10cm","high":"30/10cm"}"#,
        "the likely value is 28 / 10 cm, but must be between its low, 29 / 10 cm",
    );
    refused::<Ease>(r#""-95 %""#, "the ease is -95 %, but must be in -90..=300 %");
    refused::<Swatch>(
        r#"{"readings":[],"treatment":"washed"}"#,
        "a reading of the swatch is missing",
    );
    refused::<Swatch>(
        r#"{"readings":["40 st = 13.3 cm"],"treatment":"washed","counted_to":"2"}"#,
        "the step counts are read to is 2, but must be in 0..=1",
    );
    refused::<Swatch>(
        r#"{"readings":["40 st = 13.3 cm"],"treatment":"boiled"}"#,
        "the treatment \"boiled\" cannot be read: write off the needles, rested or washed",
    );
    refused::<Round>(
        r#""closest""#,
        "the rounding \"closest\" cannot be read: write down, up, nearest, half down, half even or exact",
    );
    refused::<Numbers<Rows>>(
        r#"{"numbers":[{"name":"a","count":1},{"name":"a","count":2}]}"#,
        r#"the name of a count is "a" twice, but must be given once"#,
    );
    refused::<Numbers<Rows>>(
        r#"{"numbers":[{"name":"a","count":1}],"sums":[{"parts":["a","a"],"whole":"a"}]}"#,
        "the sum a + a = a is 2, but must be 1, as published",
    );
    refused::<OpenRange<u32>>(r#"{"low":1,"height":2}"#, "unknown field `height`");
}

#[test]
fn a_tampered_fit_is_refused() {
    let gauge: Gauge = "28x40/10cm".parse().unwrap();
    let fitted =
        gauge.fit::<Stitches>("52 cm".parse().unwrap(), Repeat::any(), Round::HalfUp).unwrap();
    let written = serde_json::to_string(&fitted).unwrap();
    for (from, to) in [
        (r#""count":146"#, r#""count":147"#),
        (r#""ideal":"728/5""#, r#""ideal":"729/5""#),
        (r#""likely":"3650/7 mm""#, r#""likely":"3651/7 mm""#),
        (r#""residual":"10/7 mm""#, r#""residual":"-10/7 mm""#),
        (r#""low":"3650/7 mm""#, r#""low":"3651/7 mm""#),
        (r#""high":"3650/7 mm""#, r#""high":"3649/7 mm""#),
    ] {
        let tampered = written.replace(from, to);
        assert_ne!(tampered, written, "{from} is in {written}");
        let because = if from.contains("count") || from.contains("ideal") || from.contains("resid")
        {
            "the fitted count is 14"
        } else {
            "the likely value is 365"
        };
        refused::<Fitted<Stitches>>(&tampered, because);
    }
}

#[test]
fn the_schema_tells_a_program_what_is_read() {
    let schema = serde_json::to_value(schemars::schema_for!(Swatch)).unwrap();
    let properties = &schema["properties"];
    assert_eq!(properties["readings"]["type"], "array");
    assert_eq!(schema["additionalProperties"], false);
    assert_eq!(schema["required"], serde_json::json!(["readings", "treatment"]));
    let schema = serde_json::to_value(schemars::schema_for!(Repeat)).unwrap();
    assert_eq!(schema["properties"]["multiple"]["minimum"], 1);
    assert_eq!(schema["properties"]["multiple"]["maximum"], 10_000);
    let schema = serde_json::to_value(schemars::schema_for!(Fitted<Stitches>)).unwrap();
    assert_eq!(schema["$defs"]["Stitches"]["maximum"], 10_000_000);
    for example in schema["$defs"]["Length"]["examples"].as_array().unwrap() {
        assert!(example.as_str().unwrap().parse::<Length>().is_ok(), "{example}");
    }
}

/// The pattern of a schema fits its own examples and what is written, and no rubbish.
fn patterned<T: schemars::JsonSchema>(written: &[String]) {
    let schema = serde_json::to_value(schemars::schema_for!(T)).unwrap();
    let pattern = regex::Regex::new(schema["pattern"].as_str().unwrap()).unwrap();
    let examples = schema["examples"].as_array().unwrap().iter();
    let examples = examples.map(|example| example.as_str().unwrap().to_owned());
    for text in examples.chain(written.iter().cloned()) {
        assert!(pattern.is_match(&text), "{text} does not fit {pattern}");
    }
    for rubbish in ["", "cm", "twelve", "12..5", "x 40 / 10 cm"] {
        assert!(!pattern.is_match(rubbish), "{rubbish:?} fits {pattern}");
    }
}

#[test]
fn patterns_fit_what_is_written() {
    let text = |texts: &[&str]| texts.iter().map(ToString::to_string).collect::<Vec<_>>();
    patterned::<Exact>(&text(&["-3/4", "20½", "20 ½", "12,5"]));
    patterned::<Length>(&text(&["520 mm", "-1/3 mm", "20½\"", "5' 4\"", "52,5 CM"]));
    patterned::<Gauge>(&text(&["28 x 40 / 10 cm", "5.5 x 8 / 1 in", "7/in", "57/2 × 40 / 10 cm"]));
    patterned::<PerLength>(&text(&["28.5 / 10 cm", "40/in", "100/3 / 10 cm"]));
    patterned::<Reading>(&text(&["57/2 st = 100 mm", "60 courses = 15.4 cm"]));
    patterned::<Ease>(&text(&["-2 in", "7.5 %", "10%"]));
}

#[test]
fn every_type_has_a_schema() {
    let schema = |schema: schemars::Schema| serde_json::to_value(schema).unwrap();
    for written in [
        schema(schemars::schema_for!(Exact)),
        schema(schemars::schema_for!(Gauge)),
        schema(schemars::schema_for!(PerLength)),
        schema(schemars::schema_for!(Reading)),
        schema(schemars::schema_for!(Ease)),
        schema(schemars::schema_for!(Treatment)),
        schema(schemars::schema_for!(Round)),
        schema(schemars::schema_for!(Unit)),
        schema(schemars::schema_for!(YarnClass)),
        schema(schemars::schema_for!(EaseChart)),
        schema(schemars::schema_for!(EaseClass)),
        schema(schemars::schema_for!(ReadingDirection)),
    ] {
        // An enum is one of several texts, each with what it means.
        let one_of = written["oneOf"].as_array().cloned().unwrap_or_else(|| vec![written.clone()]);
        let text = |one: &serde_json::Value| match &one["type"] {
            serde_json::Value::Array(types) => types.contains(&"string".into()),
            single => single == "string",
        };
        assert!(one_of.iter().all(text), "{written}");
    }
    for written in [
        schema(schemars::schema_for!(DimensionalChange)),
        schema(schemars::schema_for!(CountRange<Rows>)),
        schema(schemars::schema_for!(Spread<Length>)),
        schema(schemars::schema_for!(Spread<PerLength>)),
        schema(schemars::schema_for!(SwatchGauge)),
        schema(schemars::schema_for!(Outlier)),
        schema(schemars::schema_for!(OpenRange<u32>)),
        schema(schemars::schema_for!(Regauge)),
        schema(schemars::schema_for!(Regauged<Stitches>)),
        schema(schemars::schema_for!(Numbers<Rows>)),
    ] {
        assert_eq!(written["type"], "object", "{written}");
    }
}
