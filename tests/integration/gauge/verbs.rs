//! The verbs `gauge`, `count` and `regauge`, as they are called.

use approx::assert_relative_eq;
use loopwright_demo::{Outcome, run};
use serde_json::{Value, json};

fn call(words: &[&str]) -> Outcome {
    run(["loopwright"].iter().chain(words))
}

#[track_caller]
fn text(words: &[&str]) -> String {
    let outcome = call(words);
    assert_eq!((outcome.code, outcome.stderr.as_str()), (0, ""), "{words:?}");
    outcome.stdout
}

#[track_caller]
fn json(words: &[&str]) -> Value {
    let words: Vec<&str> = words.iter().copied().chain(["--json"]).collect();
    serde_json::from_str(&text(&words)).unwrap()
}

#[track_caller]
fn refused(words: &[&str], code: u8, why: &str) {
    let outcome = call(words);
    assert_eq!((outcome.code, outcome.stdout.as_str()), (code, ""), "{words:?}");
    assert_eq!(outcome.stderr, format!("{why}\n"), "{words:?}");
}

const SWATCH: [&str; 4] = ["--reading", "40 st = 13.3 cm", "--reading", "60 rows = 15.4 cm"];

fn with<'a>(first: &[&'a str], more: &[&'a str]) -> Vec<&'a str> {
    first.iter().chain(more).copied().collect()
}

#[test]
fn gauge_pools_readings() {
    let answer = json(&with(&["gauge", "--treatment", "washed"], &SWATCH));
    let stitches = &answer["stitches_per_10cm"];
    assert_eq!(stitches["exact"], "4000/133");
    let number = |value: &Value| value.as_f64().unwrap();
    // 39.75 over 13.4 cm and 40.25 over 13.2 cm.
    assert_relative_eq!(number(&stitches["value"]), 30.0752, epsilon = 1e-4);
    assert_relative_eq!(number(&stitches["low"]), 29.6642, epsilon = 1e-4);
    assert_relative_eq!(number(&stitches["high"]), 30.4924, epsilon = 1e-4);
    assert_eq!(answer["rows_per_10cm"]["exact"], "3000/77");
    assert_eq!(answer["stitches"]["length_of_40"], json!({ "mm": 133.0, "exact_mm": "133/1" }));
    assert_eq!(answer["rows"]["length_of_60"], json!({ "mm": 154.0, "exact_mm": "154/1" }));
    assert_eq!(answer["treatment"], "washed");
    assert_eq!(answer["yarn_classes"], json!(["super fine"]));
    assert_eq!(answer["outliers"], json!([]));
}

#[test]
fn gauge_is_told_in_sentences() {
    assert_eq!(
        text(&with(&["gauge", "--treatment", "rested"], &SWATCH)),
        "The swatch was rested when it was measured. Washing will change it: measure it again \
         before you trust the counts.\n\
         Stitches: 30.08 in 10 cm (between 29.66 and 30.49); 30.56 in 4 in, 7.64 in 1 in, 3.01 \
         in 1 cm; 40 stitches measure 13.3 cm.\n\
         Rows: 38.96 in 10 cm (between 38.55 and 39.38); 39.58 in 4 in, 9.90 in 1 in, 3.90 in \
         1 cm; 60 rows measure 15.4 cm.\n\
         Yarn classes knitted at such a gauge: super fine.\n"
    );
}

#[test]
fn gauge_tells_a_reading_far_from_the_others() {
    let words = [
        "gauge",
        "--reading",
        "28 st = 10 cm",
        "--reading",
        "28.5 st = 10 cm",
        "--reading",
        "28 st = 10 cm",
        "--reading",
        "32 st = 10 cm",
    ];
    let answer = json(&words);
    assert_eq!(answer["rows_per_10cm"], Value::Null);
    assert_eq!(answer["outliers"][0]["reading"], 4);
    assert_eq!(answer["outliers"][0]["others_per_10cm"]["exact"], "169/6");
    let told = "Reading 4 (32 stitches over 10 cm) is far from the others, which say 28.17 in \
                10 cm: measure it again.\n";
    assert!(text(&words).contains(told));
}

#[test]
fn gauge_tells_change_and_the_span_needed() {
    let words = [
        "gauge",
        "--reading",
        "25 st = 10 cm",
        "--reading",
        "50 rows = 10 cm",
        "--before",
        "25 st = 10 cm",
        "--before",
        "40 rows = 10 cm",
        "--size",
        "100 cm",
        "--within",
        "1 cm",
    ];
    let answer = json(&words);
    assert_eq!(answer["change_percent"]["width"], json!({ "value": 0.0, "exact": "0/1" }));
    assert_eq!(answer["change_percent"]["length"], json!({ "value": -20.0, "exact": "-20/1" }));
    assert_eq!(answer["span_needed"]["stitches"]["exact_mm"], "201/1");
    let told = text(&words);
    assert!(told.contains("the width changed by 0.00 % and the length by -20.00 %"), "{told}");
    assert!(
        told.contains("To know 100 cm within 1 cm, measure stitches over at least 20.1 cm."),
        "{told}"
    );
}

#[test]
fn gauge_refuses_what_is_no_swatch() {
    refused(
        &["gauge"],
        2,
        "a reading of the swatch is missing: give one such as 40 st = 13.3 cm or 60 rows = 15.4 cm",
    );
    refused(
        &["gauge", "--reading", "40 st = 13.3 cm", "--counted-to", "3"],
        2,
        "the step counts are read to is 3, but must be in 0..=1",
    );
    let outcome = call(&["gauge", "--reading", "40 st"]);
    assert_eq!(outcome.code, 2);
    assert!(outcome.stderr.contains("write a count = a length"), "{}", outcome.stderr);
}

#[test]
fn count_fits_and_tells_what_it_cost() {
    let words = [
        "count",
        "52 cm",
        "--gauge",
        "28x40/10cm",
        "--multiple",
        "6",
        "--extra",
        "2",
        "--edge",
        "1",
    ];
    assert_eq!(text(&words), "148 stitches: 52.9 cm, 0.9 cm more than asked\n");
    let answer = json(&words);
    assert_eq!(answer["count"], 148);
    assert_eq!(answer["ideal"], "728/5");
    assert_eq!(answer["length"]["exact_mm"], "3700/7");
    assert_eq!(answer["residual"]["exact_mm"], "60/7");
    assert_eq!(answer["low"], answer["length"]);
    let down = with(&words, &["--round", "down"]);
    assert_eq!(json(&down)["count"], 142);
    refused(
        &with(&words, &["--round", "exact"]),
        1,
        "the number of repeats is 118/5, which is not a whole number, and exact rounding was \
         asked for",
    );
}

#[test]
fn count_reads_rows_inches_and_a_count_back() {
    assert_eq!(json(&["count", "16 in", "--rows", "--gauge", "5x7/1in"])["count"], 112);
    let back = ["count", "--back", "150", "--gauge", "28x40/10cm"];
    assert_eq!(text(&back), "150 stitches measure 53.6 cm\n");
    assert_eq!(json(&back)["length"]["exact_mm"], "3750/7");
    let inches = with(&back, &["--units", "both"]);
    assert_eq!(text(&inches), "150 stitches measure 53.6 cm (21 1/8 in)\n");
}

#[test]
fn count_keeps_a_range_and_shows_what_is_near() {
    let words = ["count", "80 cm", "--gauge", "28x40/10cm", "--most", "200", "--near", "1"];
    let answer = json(&words);
    assert_eq!(answer["count"], 200);
    // No candidate lies outside the range that was asked for.
    assert_eq!(answer["candidates"].as_array().unwrap().len(), 1);
    assert_eq!(
        text(&words),
        "200 stitches: 71.4 cm, 8.6 cm less than asked\nNear it:\n  200 stitches: 71.4 cm, 8.6 cm \
         less than asked\n"
    );
    let words = ["count", "80 cm", "--gauge", "28x40/10cm", "--least", "224", "--near", "2"];
    let near = json(&words)["candidates"].as_array().unwrap().clone();
    let counts: Vec<u64> = near.iter().map(|one| one["count"].as_u64().unwrap()).collect();
    assert_eq!(counts, [224, 225, 226]);
    refused(
        &[
            "count",
            "80 cm",
            "--gauge",
            "28x40/10cm",
            "--multiple",
            "6",
            "--least",
            "199",
            "--most",
            "201",
        ],
        1,
        "no count of stitches in 199..=201 fits the repeat (multiple of 6)",
    );
    refused(
        &["count", "80 cm", "--gauge", "28x40/10cm", "--least", "9", "--most", "8"],
        2,
        "the most of the range is 8, but must be the least, 9, or more",
    );
}

#[test]
fn count_from_a_swatch_tells_what_may_come_out() {
    let words = ["count", "52 cm", "--reading", "40 st = 13.3 cm"];
    assert_eq!(
        text(&words),
        "156 stitches: 51.9 cm, 0.1 cm less than asked; it may come out between 51.2 cm and \
         52.6 cm\n"
    );
    // 156 stitches at 40.25 in 13.2 cm and at 39.75 in 13.4 cm.
    assert_eq!(json(&words)["low"]["exact_mm"], "82368/161");
    assert_eq!(json(&words)["high"]["exact_mm"], "27872/53");
}

#[test]
fn count_refuses_what_is_no_question() {
    refused(&["count", "52 cm"], 2, "give a --gauge, or at least one --reading");
    refused(
        &["count", "-5 cm", "--gauge", "28x40/10cm"],
        2,
        "the length to fit is -50 mm, but must be zero or more",
    );
    refused(
        &["count", "52 cm", "--gauge", "28x40/10cm", "--multiple", "0"],
        2,
        "the multiple of the repeat is 0, but must be in 1..=10000",
    );
    for words in
        [vec!["count", "--gauge", "28x40/10cm"], vec!["count", "12..5 cm", "--gauge", "28x40/10cm"]]
    {
        let outcome = call(&words);
        assert_eq!((outcome.code, outcome.stdout.as_str()), (2, ""), "{words:?}");
        assert_eq!(outcome.stderr.lines().count(), 1, "{}", outcome.stderr);
    }
}

#[test]
fn regauge_keeps_the_width() {
    let words = ["regauge", "126", "--from", "5.5x8/1in", "--to", "6.5x9/1in", "--edge", "1"];
    let answer = json(&words);
    assert_eq!(answer["count"], 149);
    assert_eq!(answer["ideal"], "1638/11");
    assert_eq!(answer["residual"]["exact_mm"], "254/715"); // a stitch in 11, in 6.5 an inch
    assert_eq!(answer["warnings"][0]["keeps"], 148);
    assert_eq!(answer["kept"], json!([148]));
    assert_eq!(
        text(&words),
        "126 stitches become 149: 58.2 cm, within 1 mm of what was published\n\
         Take care: 126 is even, but 149 would be odd; 148 keeps it even.\n\
         The nearest counts that keep what can be kept: 126 to 148.\n"
    );
}

#[test]
fn regauge_of_rows_without_loss_needs_no_care() {
    let words = ["regauge", "40", "--rows", "--from", "20x30/10cm", "--to", "28x45/10cm"];
    assert_eq!(text(&words), "40 rows become 60: 13.3 cm, within 1 mm of what was published\n");
    assert_eq!(json(&words)["warnings"], json!([]));
}

#[test]
fn regauge_that_cannot_keep_everything_says_so() {
    // 61 is odd, but no multiple of 4 is.
    let words = ["regauge", "61", "--from", "5.5x8/1in", "--to", "6.5x9/1in", "--multiple", "4"];
    let told = text(&words);
    assert!(told.contains("Take care: 61 does not fit its repeat, multiple of 4.\n"), "{told}");
    assert!(
        told.contains("72 would be even; its repeat has no odd count that would do.\n"),
        "{told}"
    );
    // Twice a multiple of 4 plus 1 is never a multiple of 4 plus 1.
    let words = [
        "regauge",
        "5",
        "10",
        "--from",
        "20x20/10cm",
        "--to",
        "30x30/10cm",
        "--multiple",
        "4",
        "--extra",
        "1",
        "--sum",
        "5+5=10",
    ];
    assert_eq!(json(&words)["kept"], Value::Null);
    assert!(text(&words).contains("No counts keep everything: "), "{}", text(&words));
}

#[test]
fn regauge_tells_a_sum_that_would_break() {
    let words = [
        "regauge",
        "23",
        "27",
        "73",
        "--from",
        "22x30/10cm",
        "--to",
        "28x40/10cm",
        "--sum",
        "23+27+23=73",
    ];
    let answer = json(&words);
    let counts: Vec<u64> = answer["counts"]
        .as_array()
        .unwrap()
        .iter()
        .map(|one| one["count"].as_u64().unwrap())
        .collect();
    assert_eq!(counts, [29, 34, 93]);
    assert_eq!(answer["warnings"][1]["kind"], "sum");
    assert_eq!(answer["warnings"][1]["missing"], 1);
    assert_eq!(answer["kept"], json!([29, 35, 93]));
    assert!(text(&words).contains("Take care: 23 + 27 + 23 would be 1 short of 73.\n"));
    refused(
        &["regauge", "23", "27", "--from", "22x30/10cm", "--to", "28x40/10cm", "--sum", "23+27"],
        2,
        "the sum \"23+27\" cannot be read: write it such as 23+27+23=73",
    );
    refused(
        &["regauge", "23", "27", "--from", "22x30/10cm", "--to", "28x40/10cm", "--sum", "23=27"],
        2,
        "the sum 23 = 27 is 23, but must be 27, as published",
    );
    refused(
        &["regauge", "23", "--from", "22x30/10cm", "--to", "28x40/10cm", "--sum", "23+23=46"],
        2,
        "a name in a sum is \"46\", but must be the name of one of the counts",
    );
}

#[test]
fn gauge_prints_halves_away_from_zero() {
    // 32 cm over 40 stitches are 3.175 in an inch.
    let words = ["gauge", "--reading", "40 st = 32 cm", "--counted-to", "0", "--units", "in"];
    assert!(text(&words).contains(" 3.18 in 1 in, "), "{}", text(&words));
}

#[test]
fn one_of_a_thing_is_told_in_the_singular() {
    let back = ["count", "--back", "1", "--gauge", "28x40/10cm"];
    assert_eq!(text(&back), "1 stitch measures 0.4 cm\n");
    let one = ["count", "4 mm", "--gauge", "28x40/10cm"];
    assert!(text(&one).starts_with("1 stitch: 0.4 cm, "), "{}", text(&one));
    let regauge = ["regauge", "1", "--rows", "--from", "20x30/10cm", "--to", "28x60/10cm"];
    assert!(text(&regauge).starts_with("1 row becomes 2: "), "{}", text(&regauge));
}

#[test]
fn count_needs_only_the_gauge_it_asks() {
    let words = ["count", "52 cm", "--gauge", "28/10cm"];
    assert_eq!(json(&words)["count"], 146);
    refused(
        &with(&words, &["--rows"]),
        2,
        "the row gauge is missing: give stitches x rows / length, such as 28 x 40 / 10 cm",
    );
    let rows = ["count", "13 cm", "--rows", "--reading", "60 rows = 15 cm"];
    assert_eq!(json(&rows)["count"], 52);
}

#[test]
fn count_rounded_down_never_gives_more() {
    let words = ["count", "1 cm", "--gauge", "28x40/10cm", "--multiple", "6", "--round", "down"];
    refused(
        &words,
        1,
        "no count of stitches that fits the repeat (multiple of 6) is 2.8 or fewer: its least is 6",
    );
}

const FINER: [&str; 4] = ["--from", "22x30/10cm", "--to", "28x40/10cm"];

#[test]
fn regauge_answers_a_list_as_a_list() {
    let counts = |counts: &[&str]| json(&[&["regauge"], counts, &FINER].concat())["counts"].clone();
    assert_eq!(counts(&["23"]), Value::Null); // one count answers as itself
    assert_eq!(counts(&["23", "23"]).as_array().unwrap().len(), 1);
    assert_eq!(counts(&["23", "27"]).as_array().unwrap().len(), 2);
}

#[test]
fn regauge_takes_the_same_sum_twice_as_one() {
    let once = with(&["regauge", "23", "27", "73", "--sum", "23+27+23=73"], &FINER);
    for again in ["23+27+23=73", "23 + 27 + 23 = 73"] {
        assert_eq!(json(&with(&once, &["--sum", again])), json(&once));
        assert_eq!(text(&with(&once, &["--sum", again])), text(&once));
    }
}

#[test]
fn regauge_keeps_what_can_be_kept_in_the_way_asked_for() {
    let words = with(&["regauge", "23", "27", "73", "--sum", "23+27+23=73"], &FINER);
    let ideals = [23.0, 27.0, 73.0].map(|count| count * 28.0 / 22.0);
    for (round, below) in [("down", true), ("up", false)] {
        let answer = json(&with(&words, &["--round", round]));
        let kept = answer["kept"].as_array().unwrap();
        assert_eq!(kept.len(), 3);
        for (count, ideal) in kept.iter().zip(ideals) {
            let count = count.as_f64().unwrap();
            assert!(
                if below { count <= ideal } else { count >= ideal },
                "{round}: {count}, {ideal}"
            );
        }
    }
}

#[test]
fn regauge_keeps_edge_stitches() {
    let words = ["regauge", "62", "--edge", "1", "--from", "20x30/10cm", "--to", "30x40/10cm"];
    assert_eq!(json(&words)["count"], 93);
    let kept = json(&with(&words, &["--edge-stitches", "kept"]));
    assert_eq!((kept["count"].as_u64(), kept["ideal"].as_str()), (Some(92), Some("92/1")));
}
