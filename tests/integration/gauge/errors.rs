//! Bad input: what was wrong, with which value, and what was allowed.

use loopwright::gauge::{
    CountRange, Ease, Exact, Gauge, Length, PerLength, Reading, Repeat, Round, Rows, Spread,
    Stitches, Swatch, Treatment, Unit, bounds,
};
use loopwright_tests::assertions::assert_error;

const LENGTHS: &str = "write a number and its unit (mm, cm, m, in, ft, yd), such as 52 cm, \
                       20 1/2 in or 5 ft 4 in";

#[test]
fn lengths_that_cannot_be_read() {
    for text in [
        "",
        "cm",
        "52",
        " 52 cm",
        "52  cm",
        "52 cm ",
        "12..5 cm",
        "12.5.3 cm",
        "1/0 in",
        "1/2/3 in",
        "20 3/2 in",
        "1.000,5 cm",
        "1 000 mm",
        "twelve cm",
        "NaN cm",
        "inf cm",
        "1e3 mm",
        "12. cm",
        ".5 cm",
        "12½½ in",
        "--5 cm",
        "+5 cm",
        "52 km",
        "52 millimetres",
        "0x10 cm",
        "٣ cm",
        "5 cm\0",
        "½½ in",
        "- 5 cm",
        "5 /2 in",
    ] {
        assert_error(
            text.parse::<Length>(),
            &format!("the length {text:?} cannot be read: {LENGTHS}"),
        );
    }
}

#[test]
fn thousands_are_not_guessed_at() {
    let why = "a comma before three digits may mean thousands or a decimal; write 1250, or 1.25";
    for text in ["1,000 cm", "1,250 m", "12,125 in", "-1,000 mm", "1,000,000 mm", "5 ft 1,000 in"] {
        assert_error(text.parse::<Length>(), &format!("the length {text:?} cannot be read: {why}"));
    }
    assert_error("1,000".parse::<Exact>(), &format!("the number \"1,000\" cannot be read: {why}"));
    assert_error(
        "1,000x40/10cm".parse::<Gauge>(),
        &format!("the gauge \"1,000x40/10cm\" cannot be read: {why}"),
    );
    assert_error(
        "1,000 st = 1 m".parse::<Reading>(),
        &format!("the reading \"1,000 st = 1 m\" cannot be read: {why}"),
    );
    for (text, mm) in
        [("0,125 in", "3.175"), ("1,25 m", "1250"), ("1.250 m", "1250"), ("1250,5 mm", "1250.5")]
    {
        let length: Length = text.parse().unwrap();
        assert_eq!(length.millimetres(), mm.parse().unwrap(), "{text}");
    }
}

#[test]
fn mixed_units_that_do_not_mix() {
    let why = "only feet may be followed by another length, in inches";
    for text in [
        "1 m 20 cm",
        "5 in 3 in",
        "5 ft 10 cm",
        "1 yd 2 ft",
        "5 ft 4 ft",
        "1'000 mm",
        "5 ft 4 cm",
        "5 ft 4",
    ] {
        assert_error(text.parse::<Length>(), &format!("the length {text:?} cannot be read: {why}"));
    }
    for text in ["5 ft 12 in", "5 ft 12.5 in", "5 ft -1 in"] {
        assert_error(
            text.parse::<Length>(),
            &format!(
                "the length {text:?} cannot be read: the inches after the feet must be at least \
                 0 and below 12"
            ),
        );
    }
}

#[test]
fn a_long_text_is_not_repeated_whole() {
    let text = "9".repeat(500);
    let told = text.parse::<Length>().unwrap_err().to_string();
    assert!(told.contains(&format!("{:?}", "9".repeat(60))), "{told}");
    assert!(told.len() < 250, "{told}");
}

#[test]
fn numbers_and_lengths_out_of_bounds() {
    assert_error(
        "1000001 km".parse::<Length>(),
        &format!("the length \"1000001 km\" cannot be read: {LENGTHS}"),
    );
    assert_error(
        "1000001 m".parse::<Length>(),
        "the length is 1000001000 mm, but must be within 1000 km either side of zero",
    );
    assert_error(
        Length::mm(-1_000_000_001),
        "the length is -1000000001 mm, but must be within 1000 km either side of zero",
    );
    assert_error(
        Length::new(Exact::literal(i64::MAX, 1), Unit::Yard),
        "the length is too large to be held exactly",
    );
    assert_error(Exact::new(1, 0), "the number cannot be divided by zero");
    assert_error(Exact::ONE.checked_div(Exact::ZERO), "the number cannot be divided by zero");
    assert_error(Exact::new(i64::MIN, 1), "the number is too large to be held exactly");
    let huge = Exact::literal(i64::MAX, 1);
    assert_error(huge.checked_add(Exact::ONE), "the number is too large to be held exactly");
    let low = huge.negated();
    assert_error(low.checked_sub(Exact::ONE), "the number is too large to be held exactly");
    let half = Exact::literal(-(1 << 62), 1);
    assert_error(half.checked_mul(Exact::whole(2)), "the number is too large to be held exactly");
    assert_error(huge.checked_mul(huge), "the number is too large to be held exactly");
    assert_error(
        "9223372036854775808".parse::<Exact>(),
        "the number \"9223372036854775808\" cannot be read: write a number such as 12, 12.5, \
         12,5, 3/4, 20 1/2 or 20½",
    );
    assert_error(
        "0.1234567890123456789".parse::<Exact>(),
        "the number \"0.1234567890123456789\" cannot be read: write a number such as 12, 12.5, \
         12,5, 3/4, 20 1/2 or 20½",
    );
    assert_error(
        Stitches::new(bounds::COUNT + 1),
        "the count of stitches is 10000001, but must be in 0..=10000000",
    );
    assert_error(
        Rows::ZERO.checked_sub(Rows::new(1).unwrap()),
        "the count of rows is -1, but must be in 0..=10000000",
    );
}

#[test]
fn gauges_that_are_none() {
    let forms = "write stitches x rows / length, such as 28 x 40 / 10 cm or 5.5x8/1in";
    for text in
        ["", "28", "28 / / 10 cm", "28 x / 10 cm", "x 40 / 10 cm", "28 x 40", "28 y 40 / 10 cm"]
    {
        assert_error(text.parse::<Gauge>(), &format!("the gauge {text:?} cannot be read: {forms}"));
    }
    assert_error(
        "28x40/10".parse::<Gauge>(),
        &format!("the length \"10\" cannot be read: {LENGTHS}"),
    );
    assert_error(
        "28x40/0cm".parse::<Gauge>(),
        "the length of the gauge is 0 mm, but must be above zero",
    );
    assert_error(
        "-28x40/10cm".parse::<Gauge>(),
        "the stitch gauge is -28 per 10 cm, but must be in 1/10..=1000 per 10 cm",
    );
    assert_error(
        "28x4000/10cm".parse::<Gauge>(),
        "the row gauge is 4000 per 10 cm, but must be in 1/10..=1000 per 10 cm",
    );
    assert_error(
        "28".parse::<PerLength>(),
        "the gauge \"28\" cannot be read: write a count / length, such as 28 / 10 cm or 5.5/1in",
    );
}

#[test]
fn repeats_and_ranges_that_are_none() {
    assert_error(
        Repeat::multiple_of(0),
        "the multiple of the repeat is 0, but must be in 1..=10000",
    );
    assert_error(
        Repeat::new(10_001, 0, 0),
        "the multiple of the repeat is 10001, but must be in 1..=10000",
    );
    assert_error(
        Repeat::new(6, 10_001, 0),
        "the extra of the repeat is 10001, but must be in 0..=10000",
    );
    assert_error(
        Repeat::any().at_least(10_001),
        "the least number of repeats is 10001, but must be in 0..=10000",
    );
    assert_error(
        Spread::new(Length::cm(2).unwrap(), Length::cm(2).unwrap(), Length::cm(1).unwrap()),
        "the likely value is 20 mm, but must be between its low, 20 mm, and its high, 10 mm",
    );
    assert_error(
        CountRange::new(Rows::new(9).unwrap(), Rows::new(8).unwrap()),
        "the most of the range is 8, but must be the least, 9, or more",
    );
}

#[test]
fn measures_that_fit_no_count() {
    let gauge: Gauge = "28x40/10cm".parse().unwrap();
    let six = Repeat::multiple_of(6).unwrap().plus(2).unwrap();
    let width = Length::cm(52).unwrap();
    assert_error(
        gauge.fit::<Stitches>(Length::cm(-5).unwrap(), Repeat::any(), Round::HalfUp),
        "the length to fit is -50 mm, but must be zero or more",
    );
    assert_error(
        gauge.fit::<Stitches>(width, Repeat::any(), Round::Exact),
        "the count of stitches is 728/5, which is not a whole number, and exact rounding was \
         asked for",
    );
    assert_error(
        gauge.fit::<Rows>(width, six, Round::Exact),
        "the number of repeats is 103/3, which is not a whole number, and exact rounding was \
         asked for",
    );
    // Two stitches are no repeat and two: exact rounding does not make them eight.
    assert_error(
        "2x2/1cm".parse::<Gauge>().unwrap().fit::<Stitches>(
            Length::cm(1).unwrap(),
            six,
            Round::Exact,
        ),
        "the count of stitches is 2, but must be at least 8",
    );
    let range = |least, most| {
        CountRange::new(Stitches::new(least).unwrap(), Stitches::new(most).unwrap()).unwrap()
    };
    assert_error(
        gauge.fit_within::<Stitches>(width, six, range(141, 145), Round::HalfUp),
        "no count of stitches in 141..=145 fits the repeat (multiple of 6 plus 2)",
    );
    assert_error(
        gauge.fit_within::<Stitches>(width, six, range(0, 1), Round::HalfUp),
        "no count of stitches in 0..=1 fits the repeat (multiple of 6 plus 2)",
    );
    assert_error(
        gauge.nearest::<Rows>(width, six, 0),
        "the number of candidates at each side is 0, but must be in 1..=100",
    );
    assert_error(
        gauge.fit::<Stitches>(Length::mm(1_000_000_000).unwrap(), Repeat::any(), Round::Floor),
        "the count of stitches is 280000000, but must be in 0..=10000000",
    );
}

#[test]
fn readings_and_swatches_that_are_none() {
    let forms = "write a count = a length, such as 40 st = 13.3 cm or 60 rows = 15.4 cm";
    for text in ["", "40 st", "40 = 13.3 cm", "40 loops = 13.3 cm", "st = 13.3 cm"] {
        assert_error(
            text.parse::<Reading>(),
            &format!("the reading {text:?} cannot be read: {forms}"),
        );
    }
    assert_error(
        "0 st = 10 cm".parse::<Reading>(),
        "the count of stitches read is 0, but must be above 0 and at most 10000000",
    );
    assert_error(
        "40 rows = -1 cm".parse::<Reading>(),
        "the length of the reading is -10 mm, but must be above zero",
    );
    assert_error(
        "4000 rows = 1 cm".parse::<Reading>(),
        "the gauge of the reading is 40000 per 10 cm, but must be in 1/10..=1000 per 10 cm",
    );
    assert_error(
        Swatch::new([], Treatment::Washed),
        "a reading of the swatch is missing: give one such as 40 st = 13.3 cm or 60 rows = \
         15.4 cm",
    );
    let reading: Reading = "40 st = 13.3 cm".parse().unwrap();
    assert_error(
        Swatch::new([reading; 101], Treatment::Washed),
        "the number of readings of the swatch is more than 100, but must be at most 100",
    );
    let swatch = Swatch::new([reading], Treatment::Washed).unwrap();
    assert_error(
        swatch.gauge().unwrap().rows(),
        "the row gauge is missing: give stitches x rows / length, such as 28 x 40 / 10 cm",
    );
    assert_error(
        swatch.clone().measured_to(Length::cm(-1).unwrap()),
        "the step lengths are read to is -10 mm, but must be in 0..=100 mm",
    );
    let short = Swatch::new(["1 st = 1 mm".parse().unwrap()], Treatment::Washed).unwrap();
    assert_error(
        short.pooled(loopwright::gauge::ReadingDirection::Stitches),
        "the reading is 1 st = 1 mm, but must be longer than the error of reading it, 1/4 \
         stitches and 1 mm",
    );
    assert_error(
        swatch.span_needed(
            loopwright::gauge::ReadingDirection::Stitches,
            Length::cm(100).unwrap(),
            Length::ZERO,
        ),
        "the precision wanted is 0 mm, but must be above zero",
    );
}

#[test]
fn ease_that_is_none() {
    let forms = "write a length or a percentage, such as 5 cm, -2 in or -10 %";
    for text in ["", "5", "%", "5 percent", "5 % 3"] {
        assert_error(text.parse::<Ease>(), &format!("the ease {text:?} cannot be read: {forms}"));
    }
    assert_error("400 %".parse::<Ease>(), "the ease is 400 %, but must be in -90..=300 %");
    let body = Length::cm(20).unwrap();
    assert_error(
        "-20 cm".parse::<Ease>().unwrap().apply(body),
        "the garment's measure is 0 mm, but must be above zero",
    );
    assert_error(
        Ease::NONE.apply(Length::ZERO),
        "the body's measure is 0 mm, but must be above zero",
    );
}

#[test]
fn the_kind_of_refusal_can_be_asked() {
    assert!("cm".parse::<Length>().unwrap_err().is_parse());
    assert!(Repeat::multiple_of(0).unwrap_err().is_range());
    assert!(Swatch::new([], Treatment::Rested).unwrap_err().is_missing());
    let unmet = Exact::new(1, 2).unwrap().to_whole(Round::Exact).unwrap_err();
    assert!(unmet.is_not_whole() && unmet.is_unmet() && !unmet.is_range());
}
