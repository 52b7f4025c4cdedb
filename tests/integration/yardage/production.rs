//! Published sums of knitting production: loops times loop length, over the yarn count.

use loopwright::gauge::{Exact, Length};
use loopwright::yardage::{LinearDensity, Mass, MassUnit};

/// Yarn and mass of `loops` loops of `mm` each.
fn knit(loops: i64, mm: &str, yarn: &str) -> (Length, Mass) {
    let one = Length::from_millimetres(mm.parse().unwrap()).unwrap();
    let length = one.scaled(Exact::literal(loops, 1)).unwrap();
    let yarn: LinearDensity = yarn.parse().unwrap();
    (length, yarn.mass_of(length).unwrap())
}

/// Asserts `mass` times `share` within half of the last place printed.
#[track_caller]
fn assert_mass(mass: Mass, share: &str, unit: MassUnit, printed: &str, within: &str) {
    let got = mass.scaled(share.parse().unwrap()).unwrap().in_unit(unit).unwrap();
    let off = got.checked_sub(printed.parse().unwrap()).unwrap().abs();
    assert!(off <= within.parse().unwrap(), "{} against {printed}", got.to_f64_lossy());
}

#[test]
fn single_jersey_in_an_hour() {
    // apparel-merchandising.com, 2011: 2260 needles, 90 feeds, 26 rpm, 4 mm, Ne 24, 1 h.
    // One feed's yarn here, as the whole is beyond the longest length.
    let (length, mass) = knit(2_260 * 26 * 60, "4", "24 Ne");
    let metres = length.in_unit(loopwright::gauge::Unit::Metre).unwrap();
    assert_eq!(metres.checked_mul(Exact::whole(90)), Ok("1269216".parse().unwrap()));
    // The page prints 1 388 015 yd; the exact yard gives 1 388 031.
    let yards = length.in_unit(loopwright::gauge::Unit::Yard).unwrap();
    let all = yards.checked_mul(Exact::whole(90)).unwrap();
    assert!(all.checked_sub(Exact::whole(1_388_031)).unwrap().abs() < Exact::ONE);
    assert_mass(mass, "90", MassUnit::Pound, "68.85", "0.005");
    assert_mass(mass, "90", MassUnit::Kilogram, "31.23", "0.005");
    // × 85 %: the page prints 26.55, from the rounded 31.23.
    assert_mass(mass, "76.5", MassUnit::Kilogram, "26.55", "0.006");
    assert_eq!(2_260 * 90, 203_400, "loops in a revolution");
}

#[test]
fn jersey_of_seventy_tex_in_a_shift() {
    // textiletutorials.com: 30 in × 18 gauge, 38 rpm, 80 feeds, 2 mm, 70 tex, 480 min, 95 %.
    // Needles are π·30·18 with π as 3.14 there: 1695.6; here in tenths.
    let (_, mass) = knit(16_956 * 38 * 480, "2", "70 tex");
    assert_mass(mass, "7.6", MassUnit::Kilogram, "329.07", "0.005");
}

#[test]
fn jersey_in_a_shift() {
    // textilecalculations.com: 25 in × 24 gauge, 2.85 mm, 75 feeds, 25 rpm, 8 h, 80 %, Ne 26.
    // π·600 is 1884.96 needles, here in hundredths, for a minute.
    let (_, mass) = knit(188_496 * 25, "2.85", "26 Ne");
    assert_mass(mass, "288", MassUnit::Kilogram, "87.85", "0.005");
}

#[test]
fn rib_in_a_shift_on_two_beds() {
    // textilecalculations.com: 32 in × 18 gauge, 2.90 mm, 62 feeds, 15 rpm, 8 h, 80 %, Ne 24,
    // twice for two beds. The answer is worked from the page's method: 92.226 kg.
    let (_, mass) = knit(180_956 * 15, "2.9", "24 Ne");
    assert_mass(mass, "476.16", MassUnit::Kilogram, "92.226", "0.005");
}

#[test]
fn fleece_in_an_hour() {
    // apparel-merchandising.com, 2011: 1696 needles; face 60 feeds × 4.5 mm Ne 26, loop yarn
    // 30 feeds × 2.5 mm Ne 16; 28 rpm, 1 h. Worked from the page's method.
    let (length, face) = knit(1_696 * 60 * 28 * 60, "4.5", "26 Ne");
    assert_eq!(length, "769305.6 m".parse().unwrap());
    assert_mass(face, "1", MassUnit::Kilogram, "17.473", "0.0005");
    let (length, looped) = knit(1_696 * 30 * 28 * 60, "2.5", "16 Ne");
    assert_eq!(length, "213696 m".parse().unwrap());
    assert_mass(looped, "1", MassUnit::Kilogram, "7.887", "0.0005");
    assert_eq!(1_696 * 60, 101_760, "face loops in a revolution");
}

#[test]
fn the_shift_constant() {
    // textilecalculations.com: kg in 8 h = rpm·feeds·needles·l/(3527.80·Ne). Its 2.2046 lb/kg
    // gives 3527.80; the exact pound gives 3527.84.
    let (_, mass) = knit(480 * 1_000, "1", "1 Ne");
    let constant =
        Exact::whole(1_000).checked_div(mass.in_unit(MassUnit::Kilogram).unwrap()).unwrap();
    let off = |printed: &str| constant.checked_sub(printed.parse().unwrap()).unwrap().abs();
    assert!(off("3527.84") <= "0.005".parse().unwrap());
    assert!(off("3527.80") <= "0.05".parse().unwrap());
}

#[test]
fn a_roll_of_fabric_weighs_its_metres() {
    // University tutorial: 18 courses/cm, 100 feeds, 30 rpm, 90 %: 162 000 courses, 90 m and
    // at 120 g a metre 10.8 kg an hour; and textilecalculation.blogspot.com, 2014: 20
    // courses/cm, 108 feeds, 36 rpm, 87 %, 8 h: 811.82 m as printed, 811.814 exactly.
    use loopwright::gauge::{Gauge, Rows};
    let gauge = |courses: i64| {
        Gauge::new(Exact::ONE, Exact::literal(courses, 1), "1 cm".parse().unwrap()).unwrap()
    };
    let hour = gauge(18).length_of(Rows::new(162_000).unwrap()).unwrap();
    assert_eq!((100 * 30 * 60 * 9 / 10, hour), (162_000, "90 m".parse().unwrap()));
    let mass: LinearDensity = "120000 tex".parse().unwrap(); // 120 g a metre
    assert_eq!(mass.mass_of(hour), Ok("10.8 kg".parse().unwrap()));
    let courses = Rows::new(108 * 36 * 60 * 8 / 100 * 87).unwrap();
    let shift = gauge(20).length_of(courses).unwrap();
    let off = shift.checked_sub("811.82 m".parse().unwrap()).unwrap().abs();
    assert!(off <= "60 cm".parse().unwrap(), "courses cut to a hundred: {shift}");
}
