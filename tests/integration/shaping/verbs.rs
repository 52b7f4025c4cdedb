use serde_json::{Value, json};

fn text(args: &[&str]) -> String {
    let outcome = loopwright_demo::run([&["loopwright"], args].concat());
    assert_eq!((outcome.code, outcome.stderr.as_str()), (0, ""), "{args:?}");
    outcome.stdout
}

fn answer(args: &[&str]) -> Value {
    serde_json::from_str(&text(&[args, &["--json"]].concat())).unwrap()
}

#[track_caller]
fn refused(args: &[&str], code: u8, why: &str) {
    let outcome = loopwright_demo::run([&["loopwright"], args].concat());
    assert_eq!(outcome.stdout, "");
    assert_eq!((outcome.code, outcome.stderr.as_str()), (code, format!("{why}\n").as_str()));
}

#[test]
fn space() {
    assert_eq!(
        text(&["space", "124", "--change", "+14", "--ends", "blocks"]),
        "124 stitches become 138, in 14 places:\n(k8, M1) x 2, (k9, M1) x 12\n"
    );
    let got = answer(&["space", "80", "--change", "-10", "--mirror"]);
    assert_eq!(got["groups"], json!([{ "size": 5, "times": 1 }, { "size": 8, "times": 9 }]));
    assert_eq!(got["result"], 70);
    assert_eq!(got["positions"][9], 77);
    assert_eq!(got["tail"], 3);
    assert_eq!(got["words"], "k3, k2tog, (k6, k2tog) x 9, k3");
    let got = answer(&["space", "136", "--to", "82", "--ends", "blocks", "--border", "4"]);
    assert_eq!(got["positions"][0], 6);
    assert_eq!(got["border"], 4);
    assert_eq!(got["groups"], json!([{ "size": 2, "times": 34 }, { "size": 3, "times": 20 }]));
    let got = answer(&["space", "93", "--multiple", "12", "--extra", "2"]);
    assert_eq!(got["result"], 98);
    let got = answer(&["space", "60", "--change", "5", "--in-stitch", "--ends", "full"]);
    assert_eq!(got["words"], "(k9, kfb) x 5, k10");
    let got = answer(&["space", "30", "--change", "-4", "--together", "3", "--ends", "round"]);
    assert_eq!(got["words"], "(k12, k3tog) x 2");
    assert_eq!(
        text(&["space", "60", "--change", "0"]),
        "60 stitches stay 60: knit the row plain\n"
    );
    let got = answer(&["space", "40", "--change", "2", "--ends", "half", "--avoid", "8-14"]);
    assert_eq!(got["positions"], json!([7, 30]));
}

#[test]
fn space_onto_a_repeat() {
    // 7 * 12 + 2 is below 93, 8 * 12 + 2 above and nearer.
    let onto = ["space", "93", "--multiple", "12", "--extra", "2"];
    assert_eq!(answer(&onto)["result"], 98);
    let down = [onto.as_slice(), &["--multiple-round", "down"]].concat();
    assert_eq!(answer(&down)["result"], 86);
    assert!(text(&down).starts_with("93 stitches become 86, in 7 places:\n"));
    let exact = [onto.as_slice(), &["--multiple-round", "exact"]].concat();
    refused(
        &exact,
        1,
        "the number is 91/12, which is not a whole number, and exact rounding was asked for",
    );
    // Half gaps would put the events after 10 and 30; repeats end at 2, 14, 26 and 38.
    let kept = ["space", "40", "--change", "2", "--between-repeats", "12", "--edge", "2"];
    assert_eq!(answer(&kept)["positions"], json!([14, 26]));
    assert_eq!(text(&kept), "40 stitches become 42, in 2 places:\nk14, M1, k12, M1, k14\n");
    refused(
        &["space", "40", "--change", "2", "--between-repeats", "0"],
        2,
        "the repeat to keep whole is 0, but must be in 1..=10000000",
    );
    refused(
        &["space", "40", "--change", "9", "--between-repeats", "12"],
        1,
        "the repeats to keep whole leave no room for 9 increases between stitches",
    );
}

#[test]
fn space_refuses() {
    refused(
        &["space", "20", "--change", "-11"],
        1,
        "11 decreases of two together need 22 stitches, but there are only 20",
    );
    refused(
        &["space", "20", "--change", "-3", "--together", "3"],
        2,
        "three together loses two stitches each time, so 3 fewer cannot be reached: give an even \
         change",
    );
    refused(
        &["space", "20", "--change", "-21"],
        2,
        "the count after the row must be zero or more, and at most 10000000",
    );
    refused(
        &["space", "20", "--change", "2", "--avoid", "x"],
        2,
        "invalid value 'x' for '--avoid <AVOID>': write the first and the last stitch, such as \
         20-27; see `loopwright --help`",
    );
}

#[test]
fn taper() {
    let asked = ["taper", "72", "156", "--rows", "176", "--edges", "2", "--every", "1"];
    let slow = [asked.as_slice(), &["--order", "slow-first"]].concat();
    assert_eq!(
        text(&slow),
        "72 to 156 stitches over 176 rows:\nincrease 1 stitch at each edge every 5th row 8 \
         times, then every 4th row 34 times\n"
    );
    let got = answer(&slow);
    assert_eq!(
        got["segments"],
        json!([{ "every": 5, "times": 8, "stitches": 1 }, { "every": 4, "times": 34, "stitches": 1 }])
    );
    assert_eq!(got["events"][0], 5);
    assert_eq!(got["events"].as_array().unwrap().len(), 42);
    assert_eq!((&got["plain_before"], &got["plain_after"]), (&json!(0), &json!(0)));
    let got = answer(&["taper", "24", "20", "--rows", "20", "--ends", "full"]);
    assert_eq!(got["events"], json!([4, 8, 12, 16]));
    assert_eq!(got["direction"], "decrease");
    assert_eq!(got["plain_after"], 4);
    let got = answer(&["taper", "24", "20", "--rows", "14", "--after", "10"]);
    assert_eq!(got["events"], json!([12, 16, 19, 23]));
    let got =
        answer(&["taper", "40", "46", "--rows", "12", "--every", "2", "--order", "quick-first"]);
    assert_eq!(got["events"], json!([2, 4, 6, 8, 10, 12]));
}

#[test]
fn taper_from_the_row_worked() {
    // Every 10th row 12 times over 120 rows at 30, so 60 stitches on row 60. At 33 it is
    // 132 rows: 6 pairs in the 72 left are every 12th row.
    let plan = ["taper", "48", "72", "--rows", "120", "--edges", "2", "--order", "quick-first"];
    let gauges = ["--worked", "60", "--planned", "30/10cm", "--reached", "33/10cm"];
    let rest = [plan.as_slice(), &gauges].concat();
    assert_eq!(
        text(&rest),
        "60 to 72 stitches over the 72 rows after row 60:\nincrease 1 stitch at each edge \
         every 12th row 6 times\n"
    );
    let got = answer(&rest);
    assert_eq!(got["events"], json!([72, 84, 96, 108, 120, 132]));
    assert_eq!((&got["from"], &got["to"], &got["rows"]), (&json!(60), &json!(72), &json!(72)));
    // One pair behind: 7 pairs in 72 rows are 5 * 10 + 2 * 11.
    let behind = [rest.as_slice(), &["--now", "58"]].concat();
    assert_eq!(answer(&behind)["events"], json!([70, 80, 90, 100, 110, 121, 132]));
    // At the planned gauge the rows stay: 7 pairs in 60 rows are 3 * 8 + 4 * 9.
    let behind = [plan.as_slice(), &["--worked", "60", "--now", "58"]].concat();
    assert_eq!(answer(&behind)["events"], json!([68, 76, 84, 93, 102, 111, 120]));
}

#[test]
fn taper_from_the_row_worked_refuses() {
    let plan = ["taper", "48", "72", "--rows", "120", "--edges", "2"];
    let gauges = ["--planned", "30/10cm", "--reached", "33/10cm"];
    let asked = |more: &[&'static str]| [plan.as_slice(), &gauges, more].concat();
    refused(
        &asked(&["--worked", "140"]),
        2,
        "the number of rows worked is 140, but must be at most 132, the rows of the whole taper \
         now",
    );
    refused(
        &asked(&["--worked", "128", "--now", "60"]),
        1,
        "6 shaping rows are needed, but there are only 4 rows: 2 more rows would do, or a change \
         smaller by 4 stitches",
    );
    refused(
        &asked(&["--worked", "5", "--after", "10"]),
        2,
        "row 5 is worked before the taper, which starts after row 10",
    );
    let outcome =
        loopwright_demo::run([&["loopwright"], plan.as_slice(), &["--reached", "9/1in"]].concat());
    assert_eq!((outcome.code, outcome.stdout.as_str()), (2, ""));
    assert!(outcome.stderr.contains("--planned"), "{}", outcome.stderr);
}

#[test]
fn taper_refuses() {
    refused(
        &["taper", "40", "80", "--rows", "10", "--edges", "2"],
        1,
        "20 shaping rows are needed, but there are only 10 rows: 10 more rows would do, or a \
         change smaller by 20 stitches",
    );
    refused(
        &["taper", "40", "43", "--rows", "10", "--edges", "2"],
        2,
        "the change of stitches is 3, but must be an even number, half at each edge",
    );
}

#[test]
fn slope() {
    assert_eq!(
        text(&["slope", "23", "--turns", "3"]),
        "23 stitches in 3 steps over 6 rows:\nbind off 8 stitches twice, then 7 stitches once, \
         on every other row\n"
    );
    let got = answer(&["slope", "16", "--turns", "3", "--larger", "last"]);
    assert_eq!(got["steps"], json!([5, 5, 6]));
    assert_eq!(got["done"], json!([5, 10, 16]));
    assert_eq!(got["rows"], 6);
    let got = answer(&["slope", "24", "--rows", "6", "--last-free", "--method", "short-rows"]);
    assert_eq!(got["steps"], json!([6, 6, 6, 6]));
    refused(&["slope", "3", "--turns", "5"], 1, "a slope of 3 stitches has at most 3 steps, not 5");
    refused(
        &["slope", "12", "--rows", "5"],
        2,
        "the rows of the slope is 5, but must be an even number",
    );
}

#[test]
fn curve() {
    let got = answer(&["curve", "slowing 16cm 8cm", "--neck", "--stitches", "32", "--rows", "20"]);
    assert_eq!(got["opening"], 8);
    let sizes: Vec<u64> = got["steps"]
        .as_array()
        .unwrap()
        .iter()
        .map(|step| step["stitches"].as_u64().unwrap())
        .collect();
    assert_eq!(sizes, [3, 3, 2, 1, 1, 1, 1]);
    let told = text(&["curve", "slowing 9cm 8cm", "--neck", "--gauge", "20x28/10cm"]);
    assert!(told.starts_with("bind off the middle "), "{told}");
    assert!(told.ends_with("mm from the outline.\n"), "{told}");
    let cap = [
        "curve",
        "line 2cm 0cm",
        "slowing 5cm 6cm",
        "quickening 5cm 6cm",
        "--gauge",
        "28x40/10cm",
        "--opening",
        "nearest",
        "--closing",
        "nearest",
    ];
    let got = answer(&cap);
    assert_eq!(got["rows"], 48);
    assert!(got["deviation"]["mm"].as_f64().unwrap() < 6.0);
    refused(
        &["curve", "round 9cm 8cm", "--gauge", "20x28/10cm"],
        2,
        "the part \"round 9cm 8cm\" of the outline cannot be read: write line, slowing or \
         quickening and two lengths, or cubic and six, each without a space, such as \"slowing \
         5cm 6cm\"",
    );
    refused(
        &["curve", "slowing 9cm 8cm", "--stitches", "80", "--rows", "8"],
        1,
        "no staircase of 80 stitches in 8 rows has steps of at most 4",
    );
}

#[test]
fn curve_of_a_cubic() {
    // Control points on the chord, at its thirds, make a straight line: 12 stitches in 24
    // rows.
    let straight = ["cubic 2cm 2cm 4cm 4cm 6cm 6cm", "line 6cm 6cm"].map(|part| {
        answer(&["curve", part, "--gauge", "20x40/10cm", "--opening", "0", "--closing", "0"])
    });
    assert_eq!(straight[0]["steps"], straight[1]["steps"]);
    assert_eq!(straight[0]["rows"], 24);
    let armhole = ["curve", "cubic 4cm 0cm 6cm 3cm 6cm 8cm", "--gauge", "20x40/10cm"];
    let got = answer(&armhole);
    let steps = got["steps"].as_array().unwrap();
    let shaped: u64 = steps.iter().map(|step| step["stitches"].as_u64().unwrap()).sum();
    // 6 cm at 20 to 10 cm are 12 stitches, 8 cm at 40 are 32 rows.
    assert_eq!(got["rows"], 32);
    assert_eq!(shaped + got["opening"].as_u64().unwrap() + got["closing"].as_u64().unwrap(), 12);
    assert!(text(&armhole).ends_with(" from the outline.\n"));
    let short = ["curve", "cubic 4cm 0cm 6cm 3cm", "--gauge", "20x40/10cm"];
    refused(
        &short,
        2,
        "the part \"cubic 4cm 0cm 6cm 3cm\" of the outline cannot be read: write line, slowing \
         or quickening and two lengths, or cubic and six, each without a space, such as \
         \"slowing 5cm 6cm\"",
    );
    let back = ["curve", "cubic 8cm 0cm 8cm 3cm 2cm 8cm", "--gauge", "20x40/10cm"];
    let outcome = loopwright_demo::run([&["loopwright"], back.as_slice()].concat());
    assert_eq!((outcome.code, outcome.stdout.as_str()), (2, ""));
    let why = "an outline never turns back\n";
    assert!(outcome.stderr.ends_with(why), "{}", outcome.stderr);
}

#[test]
fn turn() {
    let got = answer(&["turn", "60", "--rows", "6"]);
    assert_eq!(
        got["turns"][0],
        json!({ "row": 1, "side": "left", "worked": 50, "left": 10, "wrap": true })
    );
    assert_eq!(got["rows"], 6);
    let got = answer(&["turn", "28", "--shape", "heel", "--core", "10"]);
    assert_eq!(got["rows"], 36);
    let got = answer(&["turn", "60", "--height", "1.6 cm", "--gauge", "28x40/10cm"]);
    assert_eq!(got["rows"], 6);
    let told =
        text(&["turn", "80", "--shape", "raised", "--core", "40", "--rows", "2", "--no-wraps"]);
    assert_eq!(
        told,
        "3 short rows over 80 stitches:\n\
         row 1: knit 70 stitches towards the left, leave 10, turn\n\
         row 2: knit 60 stitches towards the right, leave 10, turn\n\
         row 3: knit 70 stitches towards the left to the edge\n"
    );
    refused(&["turn", "60"], 2, "give --rows, or --height with --gauge");
    refused(&["turn", "60", "--shape", "heel"], 2, "give --core, the stitches in the middle");
    refused(
        &["turn", "3", "--rows", "8"],
        1,
        "4 turns need 5 stitches, since each leaves one more, but there are 3: at most 4 \
         rows would do",
    );
}

#[test]
fn one_of_a_thing_is_told_as_one() {
    let told = |args: &[&str], want: &str| assert_eq!(text(args), want);
    told(
        &["space", "1", "--change", "1", "--ends", "round"],
        "1 stitch becomes 2, in 1 place:\nk1, M1\n",
    );
    told(&["space", "1", "--change", "0"], "1 stitch stays 1: knit the row plain\n");
    told(&["slope", "1", "--turns", "1"], "1 stitch in 1 step over 2 rows:\nbind off 1 stitch\n");
    told(
        &["taper", "2", "1", "--rows", "1"],
        "2 to 1 stitch over 1 row:\ndecrease 1 stitch on row 1\n",
    );
    refused(
        &["taper", "2", "1", "--rows", "1", "--every", "2"],
        1,
        "1 shaping row is needed, but none of the 1 row may shape: 1 more row would do, or a \
         change smaller by 1 stitch",
    );
    refused(
        &["taper", "3", "1", "--rows", "1"],
        1,
        "2 shaping rows are needed, but there is only 1 row: 1 more row would do, or a change \
         smaller by 1 stitch",
    );
}

#[test]
fn no_increase_touches_what_is_to_be_avoided_at_the_border() {
    let got = answer(&[
        "space", "6", "--change", "+1", "--ends", "both", "--border", "2", "--avoid", "2-3",
    ]);
    assert_eq!(got["positions"], json!([3]));
}

#[test]
fn a_straight_piece_is_told_with_its_plain_rows() {
    let plain = ["taper", "50", "50", "--rows", "10", "--plain-before", "3"];
    assert_eq!(text(&plain), "50 to 50 stitches over 10 rows:\nwork 10 rows plain\n");
}

#[test]
fn what_would_list_too_much_is_refused() {
    refused(
        &["taper", "0", "3333333", "--rows", "10000000"],
        2,
        "the number of shapings is 3333333, but must be at most 100000, to be listed",
    );
    refused(
        &["slope", "10000000", "--turns", "5000000"],
        2,
        "the number of steps is 5000000, but must be at most 100000, to be listed",
    );
    refused(
        &["space", "10000000", "--change", "-4000000"],
        2,
        "the number of events is 4000000, but must be at most 100000, to be listed",
    );
    refused(
        &["turn", "9999999", "--rows", "1000000"],
        2,
        "the number of short rows is 1000000, but must be in 0..=100000",
    );
}
