use loopwright::gauge::{Direction, Exact, Length, Reading, Swatch, Treatment};

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
    let pooled = swatch(&["30 st = 10 cm", "56 st = 20 cm"]).pooled(Direction::Stitches).unwrap();
    assert_eq!(pooled.value(), "86 / 30 cm".parse().unwrap());
    // The readings themselves lie further out than their reading errors.
    assert_eq!(pooled.low(), "28 / 10 cm".parse().unwrap());
    assert_eq!(pooled.high(), "30 / 10 cm".parse().unwrap());
}

#[test]
fn marked_stitches_leave_only_the_ruler() {
    let marked = swatch(&["40 st = 13.3 cm"]).counted_to(Exact::ZERO).unwrap();
    let pooled = marked.pooled(Direction::Stitches).unwrap();
    assert_eq!(pooled.low(), "40 / 13.4 cm".parse().unwrap());
    assert_eq!(pooled.high(), "40 / 13.2 cm".parse().unwrap());
}

#[test]
fn the_span_needed_keeps_its_promise() {
    let chest = Length::cm(100).unwrap();
    let within = Length::cm(1).unwrap();
    let rough = swatch(&["25 st = 10 cm"]);
    let span = rough.span_needed(Direction::Stitches, chest, within).unwrap();
    // Read again over that span, the chest of 250 stitches is known to 1 cm.
    let count = Exact::new(1, 4).unwrap().checked_mul(span.millimetres()).unwrap();
    let again = Reading::new(count, Direction::Stitches, span).unwrap();
    let pooled =
        Swatch::new([again], Treatment::Washed).unwrap().pooled(Direction::Stitches).unwrap();
    let width = pooled.length_of(250).unwrap();
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
