//! Every form of a length, the units, printing.

use approx::relative_eq;
use loopwright::gauge::{Exact, Length, Precision, Stitches, Unit};
use loopwright_tests::gauge::{big, lengths};
use proptest::prelude::*;
use uom::si::f64::Length as Reference;
use uom::si::length::{centimeter, foot, inch, meter, millimeter, yard};

fn length(text: &str) -> Length {
    text.parse().unwrap_or_else(|error| panic!("{text}: {error}"))
}

const UNITS: [Unit; 6] =
    [Unit::Millimetre, Unit::Centimetre, Unit::Metre, Unit::Inch, Unit::Foot, Unit::Yard];

#[test]
fn forms_of_the_same_length_are_one_length() {
    let feet = length("5 ft 4 in");
    for text in [
        "64 in",
        "64in",
        "64 inches",
        "64\"",
        "64″",
        "5'4\"",
        "5' 4\"",
        "5′ 4″",
        "5 feet 4 inches",
        "5 1/3 ft",
        "5⅓ ft",
        "1625,6 mm",
        "1625.6 mm",
        "162.56 cm",
        "162,56cm",
        "1.6256 m",
        "1 7/9 yd",
        "1 7/9 yards",
        "16/9 yd",
        "64.0 in",
        "5 ft 4.0 in",
        "4 ft 11 in",
    ] {
        let same = text != "4 ft 11 in";
        assert_eq!(length(text) == feet, same, "{text}");
    }
}

#[test]
fn the_forms_a_designer_types_are_read() {
    for (text, mm) in [
        ("52 cm", "520"),
        ("52,5 cm", "525"),
        ("52.5 cm", "525"),
        ("20 1/2 in", "520.7"),
        ("20½\"", "520.7"),
        ("20 ½ in", "520.7"),
        ("½ in", "12.7"),
        ("1/16 in", "127/80"),
        ("5 ft 4 1/2 in", "1638.3"),
        ("5'4½\"", "1638.3"),
        ("1.2 m", "1200"),
        ("3 yd", "2743.2"),
        ("-5 cm", "-50"),
        ("-5 ft 4 in", "-1625.6"),
        ("0 cm", "0"),
    ] {
        assert_eq!(length(text).millimetres(), mm.parse().unwrap(), "{text}");
    }
}

#[test]
fn it_prints_in_any_unit_and_precision() {
    for (text, unit, precision, printed) in [
        ("52.07 cm", Unit::Centimetre, Precision::Decimals(0), "52 cm"),
        ("52.07 cm", Unit::Centimetre, Precision::Decimals(1), "52.1 cm"),
        ("52.07 cm", Unit::Centimetre, Precision::Decimals(4), "52.07 cm"),
        ("52.07 cm", Unit::Millimetre, Precision::Decimals(3), "520.7 mm"),
        ("52.07 cm", Unit::Inch, Precision::Fraction(2), "20 1/2 in"),
        ("52 cm", Unit::Inch, Precision::Fraction(1), "20 in"),
        ("52 cm", Unit::Inch, Precision::Fraction(2), "20 1/2 in"),
        ("52 cm", Unit::Inch, Precision::Fraction(4), "20 1/2 in"),
        ("52 cm", Unit::Inch, Precision::Fraction(8), "20 1/2 in"),
        ("51 cm", Unit::Inch, Precision::Fraction(8), "20 1/8 in"),
        ("51 cm", Unit::Inch, Precision::Fraction(16), "20 1/16 in"),
        ("1 cm", Unit::Inch, Precision::Fraction(8), "3/8 in"),
        ("-1 cm", Unit::Inch, Precision::Fraction(8), "-3/8 in"),
        ("-0.1 mm", Unit::Centimetre, Precision::Decimals(0), "0 cm"),
        ("-0.4 mm", Unit::Centimetre, Precision::Decimals(1), "0 cm"),
        ("-0.5 mm", Unit::Centimetre, Precision::Decimals(1), "-0.1 cm"),
        ("-1.5 mm", Unit::Centimetre, Precision::Decimals(1), "-0.2 cm"),
        ("0.04 cm", Unit::Centimetre, Precision::Decimals(2), "0.04 cm"),
        ("3 ft", Unit::Yard, Precision::Decimals(2), "1 yd"),
        ("1 m", Unit::Foot, Precision::Decimals(3), "3.281 ft"),
        ("99.99 cm", Unit::Centimetre, Precision::Decimals(1), "100 cm"),
    ] {
        assert_eq!(length(text).display(unit, precision).to_string(), printed, "{text}");
    }
}

#[test]
fn inches_and_centimetres_give_the_same_everything() {
    let (inches, centimetres) = (length("20.5 in"), length("52.07 cm"));
    assert_eq!(inches, centimetres);
    assert_eq!(inches.to_string(), centimetres.to_string());
    let gauge: loopwright::gauge::Gauge = "28x40/10cm".parse().unwrap();
    assert_eq!(gauge.count_in::<Stitches>(inches), gauge.count_in::<Stitches>(centimetres));
}

/// A length in a general-purpose units library, to float precision.
fn reference(amount: f64, unit: Unit) -> Reference {
    match unit {
        Unit::Millimetre => Reference::new::<millimeter>(amount),
        Unit::Centimetre => Reference::new::<centimeter>(amount),
        Unit::Metre => Reference::new::<meter>(amount),
        Unit::Inch => Reference::new::<inch>(amount),
        Unit::Foot => Reference::new::<foot>(amount),
        Unit::Yard => Reference::new::<yard>(amount),
        _ => panic!("a unit the reference is not told of"),
    }
}

fn in_reference(length: Reference, unit: Unit) -> f64 {
    match unit {
        Unit::Millimetre => length.get::<millimeter>(),
        Unit::Centimetre => length.get::<centimeter>(),
        Unit::Metre => length.get::<meter>(),
        Unit::Inch => length.get::<inch>(),
        Unit::Foot => length.get::<foot>(),
        Unit::Yard => length.get::<yard>(),
        _ => panic!("a unit the reference is not told of"),
    }
}

proptest! {
    #[test]
    fn units_agree_with_a_units_library(sixteenths in 0..100_000_i64, from in 0..6_usize, to in 0..6_usize) {
        let (from, to) = (UNITS[from], UNITS[to]);
        let amount = Exact::new(sixteenths, 16).unwrap();
        let got = Length::new(amount, from).unwrap().in_unit(to).unwrap().to_f64_lossy();
        let wanted = in_reference(reference(amount.to_f64_lossy(), from), to);
        prop_assert!(relative_eq!(got, wanted, max_relative = 1e-12), "{got} and {wanted}");
    }

    #[test]
    fn units_go_there_and_back(at in lengths(), unit in 0..6_usize) {
        let unit = UNITS[unit];
        prop_assert_eq!(Length::new(at.in_unit(unit).unwrap(), unit), Ok(at));
        let text = format!("{} {unit}", at.in_unit(unit).unwrap());
        prop_assert_eq!(text.parse(), Ok(at));
    }

    #[test]
    fn lengths_round_trip(at in lengths()) {
        prop_assert_eq!(at.to_string().parse(), Ok(at));
        let below = at.negated();
        prop_assert_eq!(below.to_string().parse(), Ok(below));
    }

    #[test]
    fn printing_is_off_by_at_most_half_a_step(at in lengths(), unit in 0..6_usize, places in 0..5_u8, power in 0..5_u32) {
        let unit = UNITS[unit];
        let scale = 10_i64.pow(places.into());
        let printed = at.display(unit, Precision::Decimals(places)).to_string();
        near(&printed, at, unit, scale);
        let denom = 2_u8.pow(power);
        let printed = at.display(unit, Precision::Fraction(denom)).to_string();
        near(&printed, at, unit, denom.into());
    }
}

#[test]
fn printing_never_fails() {
    let tiny = Length::from_millimetres(Exact::new(1, i64::MAX).unwrap()).unwrap();
    let odd = Length::from_millimetres(Exact::new(i64::MAX, i64::MAX - 1).unwrap()).unwrap();
    let long = Length::mm(-1_000_000_000).unwrap();
    for unit in UNITS {
        for precision in
            [Precision::Decimals(9), Precision::Decimals(255), Precision::Fraction(255)]
        {
            assert_eq!(tiny.display(unit, precision).to_string(), format!("0 {unit}"));
            assert!(!odd.display(unit, precision).to_string().is_empty());
            assert!(long.display(unit, precision).to_string().starts_with('-'));
        }
    }
    assert_eq!(odd.display(Unit::Millimetre, Precision::Decimals(9)).to_string(), "1 mm");
    assert_eq!(
        Length::cm(1).unwrap().display(Unit::Centimetre, Precision::Fraction(0)).to_string(),
        "1 cm"
    );
}

/// The printed text reads back within half of `1 / scale` of a unit.
fn near(printed: &str, at: Length, unit: Unit, scale: i64) {
    let read: Length = printed.parse().unwrap();
    let off = big(read.in_unit(unit).unwrap()) - big(at.in_unit(unit).unwrap());
    let half_step = big(Exact::new(1, 2 * scale).unwrap());
    assert!(off <= half_step && -off <= half_step, "{at} printed as {printed}");
}
