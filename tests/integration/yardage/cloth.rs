//! The verb's answers about cloth, lengths of yarn and tails, with published figures.

use super::verbs::{json, text};
use loopwright::gauge::{Exact, Gauge, Length};
use loopwright::yardage::{
    ArealMass, LinearDensity, LoopLength, LoopsPerArea, RelaxationState, RelaxedFabric, Spread,
    Structure,
};

fn exact(text: &str) -> Exact {
    text.parse().unwrap()
}

fn near(got: f64, printed: f64, within: f64) -> bool {
    approx(got, printed, within)
}

#[expect(clippy::float_arithmetic, reason = "compares JSON numbers")]
fn approx(got: f64, printed: f64, within: f64) -> bool {
    (got - printed).abs() <= within
}

/// Chart A (textileclothinginfo.blogspot.com, 2015): loops per square centimetre, courses
/// and mass worked out in textile-values section 2.4 from needles and finished width.
#[test]
fn chart_a_has_its_loops_and_mass() {
    for (ne, loop_mm, wales, courses, loops, gsm) in [
        ("18", "2.94", "12.86", "18.13", 233.3, 225.0),
        ("20", "2.98", "13.29", "17.53", 233.0, 205.0),
        ("24", "2.68", "13.91", "19.62", 273.0, 180.0),
    ] {
        let (yarn, gauge) = (format!("{ne} Ne"), format!("{wales}x{courses}/1cm"));
        let long = format!("{loop_mm} mm");
        let answer = json(&[&yarn, "--cloth", "--gauge", &gauge, "--loop", &long]);
        let cloth = &answer["cloth"];
        let got = cloth["loops_per_cm2"]["likely"].as_f64().unwrap();
        assert!(near(got, loops, 0.2), "{ne}: {got} loops");
        let got = cloth["grams_per_m2"]["likely"].as_f64().unwrap();
        assert!(near(got, gsm, 1.0), "{ne}: {got} g/m²");
        assert_eq!(cloth["handle"], "tight", "section 2.4: 1.95, 1.82 and 1.85");
    }
}

/// textilecalculation.blogspot.com, 2015: 18 by 21 to the inch, 3.4 mm, Ne 20: 58.82 g/m².
/// The root of 29.527 tex over 3.4 mm is 1.598.
#[test]
fn cloth_is_told_in_either_unit() {
    let asked = ["20 Ne", "--cloth", "--gauge", "18x21/1in", "--loop", "3.4 mm"];
    let told = text(&[&asked[..], &["--units", "both"]].concat());
    assert_eq!(
        told.lines().skip(1).collect::<Vec<_>>()[..2],
        [
            "The fabric has 58.6 loops to the square centimetre, 378 loops to the square inch and \
             weighs 59 g to the square metre, 1.7 oz to the square yard.",
            "Its tightness factor is 1.6 √tex/mm, tighter than the 1.3 to 1.5 that are usual for \
             plain knitting.",
        ]
    );
    let slack = text(&["20 Ne", "--cloth", "--gauge", "18x21/1in", "--loop", "4.3 mm"]);
    assert!(slack.contains("1.26 √tex/mm, slacker than the 1.3 to 1.5"), "{slack}");
    let usual = text(&["20 Ne", "--cloth", "--gauge", "18x21/1in", "--loop", "3.9 mm"]);
    assert!(usual.contains("1.39 √tex/mm, within the 1.3 to 1.5"), "{usual}");
    let rib = text(&["20 Ne", "--cloth", "--fabric", "rib-1x1", "--loop", "3.9 mm"]);
    assert!(rib.contains("1.39 √tex/mm.\n"), "no published range for ribs: {rib}");
}

/// K1 (GATE 2015 question 54): kc 5.5 and kw 4.2, so ks 23.1, for fully relaxed plain.
#[test]
fn loops_per_area_and_loop_length_lead_to_one_another() {
    let jersey = RelaxedFabric::new(Structure::Plain, RelaxationState::Full);
    let loops = LoopLength::stated(Spread::exactly("3 mm".parse().unwrap())).unwrap();
    let area = LoopsPerArea::modelled(&loops, jersey).unwrap();
    assert_eq!(area.likely().in_cm2(), Ok(exact("256 2/3")));
    // 1400/9 are √(23.1·100/(1400/9))² … l² = 23.1·100·9/1400 = 14.85: 3.8536 mm.
    let answer = json(&["40 tex", "--cloth", "--relaxation", "full", "--loops-per-cm2", "1400/9"]);
    let mm = answer["loop"]["likely"]["mm"].as_f64().unwrap();
    assert!(near(mm, 3.8536, 0.0001), "{mm}");
    assert_eq!(answer["loop"]["source"], "the loop model on the gauge");
    let back = answer["cloth"]["loops_per_cm2"]["likely"].as_f64().unwrap();
    assert!(near(back, 155.5556, 0.0001), "{back}");
    // 155.56 loops of 3.8536 mm of 40 tex: 155.56 · 3.8536 · 40/100 = 239.78 g/m².
    let grams = answer["cloth"]["grams_per_m2"]["likely"].as_f64().unwrap();
    assert!(near(grams, 239.78, 0.01), "{grams}");
}

/// Of a counted gauge, a loop length and a yarn the mass is loops times length times tex; a
/// weighed loop carries its own weight.
#[test]
fn cloth_by_its_loops_is_cloth_by_its_gauge() {
    let gauge: Gauge = "18x21/1in".parse().unwrap();
    let yarn: LinearDensity = "20 Ne".parse().unwrap();
    let mm: Length = "3.4 mm".parse().unwrap();
    let loops = LoopLength::stated(Spread::exactly(mm)).unwrap();
    let by_loops = LoopsPerArea::counted(gauge).unwrap().mass(&loops, yarn).unwrap();
    assert_eq!(by_loops, Spread::exactly(ArealMass::counted(gauge, mm, yarn).unwrap()));
}

#[test]
fn the_ends_of_cloth_are_told_in_their_order() {
    let answer = json(&["2/28 Nm", "--cloth", "--gauge", "28x40/10cm", "--fabric", "rib-1x1"]);
    let part = |key: &str, end: &str| answer["cloth"][key][end].as_f64().unwrap();
    assert!(part("grams_per_m2", "low") < part("grams_per_m2", "likely"));
    assert!(part("grams_per_m2", "likely") < part("grams_per_m2", "high"));
    let stitch = json(&["2/28 Nm", "--cloth", "--fabric", "rib-1x1", "--loop", "9 mm"]);
    let part = |key: &str, end: &str| stitch["cloth"][key][end].as_f64().unwrap();
    assert!(part("loops_per_cm2", "low") < part("loops_per_cm2", "likely"));
    assert!(part("loops_per_cm2", "likely") < part("loops_per_cm2", "high"));
}

/// 2/28 Nm is 14 m in a gram (textile-values, Y21): 120 m weigh 8.571 g.
#[test]
fn a_length_of_yarn_has_its_weight() {
    let told = text(&["2/28 Nm", "--weigh", "120 m"]);
    assert!(told.ends_with("120 m of it weigh 8.57 g.\n"), "{told}");
    let told = text(&["2/28 Nm", "--weigh", "63 g", "--units", "both"]);
    assert!(told.ends_with("63 g (2.22 oz) of it are 882 m (965 yd) long.\n"), "{told}");
    let answer = json(&["2/28 Nm", "--weigh", "63 g"]);
    assert_eq!(answer["weighed"]["metres"].as_f64(), Some(882.0));
}

/// just-a-lucky-dog.blogspot.com, 2016: 240 stitches on 4 mm take 120 in "and an end"; with
/// 6 in more that is 126 in, 3.5 yd.
#[test]
fn a_tail_has_a_fixed_length_more() {
    let asked = [
        "2/28 Nm",
        "--loop",
        "9 mm",
        "--stitches",
        "1",
        "--cast-on",
        "240",
        "--cast-on-rule",
        "eighth-inch",
        "--needle",
        "4 mm",
    ];
    let with = |more: &[&'static str]| -> Vec<&'static str> { [&asked[..], more].concat() };
    let told = text(&with(&["--tail", "6 in", "--units", "in"]));
    assert!(told.contains("Leave a tail of 3.5 yd for the cast-on.\n"), "{told}");
    let metres = |more: &[&'static str]| json(&with(more))["metres"].as_f64().unwrap();
    assert!(near(metres(&["--tail", "6 in"]), 0.009 + 3.2004, 1e-9), "a stitch and the tail");
    assert!(near(metres(&[]), 0.009 + 3.048, 1e-9));
    // A cast-on that is knitted on has no tail to leave.
    let plain = ["2/28 Nm", "--loop", "9 mm", "--stitches", "1", "--cast-on", "240"];
    assert!(!text(&plain).contains("tail"));
}

/// cromulentknitter.blogspot.com, 2006: of 8·(1,1,2,2 … 8,8) stitches, 576, the first 8
/// rounds are 160, 28 %, and the first 11 rounds 288, half.
#[test]
fn a_growing_piece_says_how_much_of_it_is_done() {
    let round = ["--row", "8", "--add", "8", "--every", "2", "--rows", "16", "--done"];
    let told = |done: &str| text(&[&round[..], &[done]].concat());
    assert_eq!(told("8"), "After 8 of 16 rows, 160 of 576 stitches are knitted: 27.8 %.\n");
    assert_eq!(told("11 rows"), "After 11 of 16 rows, 288 of 576 stitches are knitted: 50 %.\n");
    assert_eq!(
        told("8 rows = 20 g"),
        "After 8 of 16 rows, 160 of 576 stitches are knitted: 27.8 %.\n\
         The rest takes about 52 g, without an edging.\n"
    );
    let answer = json(&[&round[..], &["11"]].concat());
    assert_eq!(answer["done_percent"].as_f64(), Some(50.0));
}

/// 1,920 stitches took 24 g: at 80 a gram 10 g knit 800 more, and rows 61 to 69 with the
/// bind-off take 9·63 + 2·(0+0+1+1+2+2+3+3+4) + 71 = 670 or, with row 70, 741.
#[test]
fn rows_that_took_their_yarn_say_how_many_are_left() {
    let asked = [
        "--row",
        "3",
        "--add",
        "2",
        "--every",
        "2",
        "--done",
        "60 rows = 24 g",
        "--left",
        "10 g",
        "--balance",
        "0 g",
    ];
    assert_eq!(
        text(&asked),
        "Count on 10 more rows, the last of them row 70 with 71 stitches, and the bind-off.\n"
    );
    let refused = |args: &[&str]| {
        let all = ["loopwright", "yarn"].iter().chain(args);
        loopwright_demo::run(all).stderr
    };
    assert_eq!(
        refused(&["--row", "3", "--done", "60", "--left", "10 g"]),
        "give a yarn, or say what the rows so far took, such as --done \"120 rows = 35 g\"\n"
    );
    assert_eq!(
        refused(&["--row", "3", "--done", "60"]),
        "say how many rows the piece has with --rows, or how much yarn is left with --left\n"
    );
    assert_eq!(
        refused(&["--row", "3", "--done", "60", "--rows", "50"]),
        "the count of rows knitted is 60, but must be in 0..=50\n"
    );
}
