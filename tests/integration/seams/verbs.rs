use serde_json::{Value, json};

fn text(args: &[&str]) -> String {
    let outcome = loopwright_demo::run([&["loopwright"], args].concat());
    assert_eq!((outcome.code, outcome.stderr.as_str()), (0, ""), "{args:?}");
    outcome.stdout
}

fn object(args: &[&str]) -> Value {
    serde_json::from_str(&text(&[args, &["--json"]].concat())).unwrap()
}

#[track_caller]
fn refused(args: &[&str], why: &str) {
    let outcome = loopwright_demo::run([&["loopwright"], args].concat());
    assert_eq!((outcome.code, outcome.stdout.as_str()), (2, ""), "{args:?}");
    assert_eq!(outcome.stderr, format!("{why}\n"));
}

/// forum.knittinghelp.com/t/124191.
#[test]
fn pickup_of_71_along_88() {
    let args = ["pickup", "--rows", "88", "--stitches", "71"];
    assert_eq!(
        text(&args),
        "pick up 71 stitches along 88 rows, about 4 of every 5 rows:\n\
         (pick up 4, miss 1) 17 times, then pick up 3\n\
         a rate kept to all along would be out: 3 of every 4 (5 too few), \
         4 of every 5 (0.6 too few), 13 of every 16 (0.5 too many)\n"
    );
    let answer = object(&args);
    assert_eq!((&answer["stitches"], &answer["rows"]), (&json!(71), &json!(88)));
    assert_eq!(answer["ratio"], json!([4, 5]));
    assert_eq!(
        answer["groups"],
        json!([{"pick": 4, "miss": 1, "times": 17}, {"pick": 3, "miss": 0, "times": 1}])
    );
}

/// Yarn company tutorial, 2015 (address withheld): 10 of 13.
#[test]
fn pickup_by_gauge() {
    let answer = object(&["pickup", "50 cm", "--gauge", "20x26/10cm"]);
    assert_eq!((&answer["stitches"], &answer["rows"]), (&json!(100), &json!(130)));
    assert_eq!(answer["ratio"], json!([10, 13]));
    assert_eq!(answer["length"], json!({"mm": 500.0, "exact_mm": "500/1"}));
    let sum: u64 = answer["groups"]
        .as_array()
        .unwrap()
        .iter()
        .map(|g| g["pick"].as_u64().unwrap() * g["times"].as_u64().unwrap())
        .sum();
    assert_eq!(sum, 100);
    let rib = object(&[
        "pickup",
        "50 cm",
        "--gauge",
        "20x26/10cm",
        "--band-gauge",
        "24x30/10cm",
        "--multiple",
        "4",
        "--extra",
        "2",
    ]);
    assert_eq!((&rib["stitches"], &rib["ideal"]), (&json!(122), &json!("120/1")));
}

#[test]
fn pickup_with_buttons_shows_the_caution() {
    let args = [
        "pickup",
        "--rows",
        "100",
        "--stitches",
        "100",
        "--buttons",
        "7",
        "--hole",
        "4",
        "--margin",
        "3",
    ];
    assert_eq!(
        text(&args),
        "pick up 100 stitches along 100 rows, one for one:\n\
         pick up 100\n\
         buttonholes of 4 stitches, starting at stitches 4, 19, 34, 49, 64, 79 and 94\n\
         buttons are small parts: for a child under three leave them off, \
         or follow your local rules\n"
    );
    assert_eq!(object(&args)["buttonholes"]["gaps"], json!([3, 11, 11, 11, 11, 11, 11, 3]));
}

/// Six holes of two on 100, five before the first and eight after the last: 100 - 12 - 13
/// are 75 in five gaps of 15.
#[test]
fn pickup_with_a_margin_of_its_own_at_each_end() {
    let band = ["pickup", "--rows", "100", "--stitches", "100", "--buttons", "6", "--hole", "2"];
    let gaps = |more: &[&str]| object(&[&band[..], more].concat())["buttonholes"]["gaps"].clone();
    let own = ["--first-margin", "5", "--last-margin", "8"];
    assert_eq!(gaps(&own), json!([5, 15, 15, 15, 15, 15, 8]));
    // One of its own beside that of both ends.
    assert_eq!(gaps(&["--margin", "8", "--first-margin", "5"]), gaps(&own));
    let alone = [&band[..], &["--first-margin", "5"]].concat();
    refused(&alone, "--first-margin is given alone: give --last-margin too, which may be 0");
}

/// Everything small is told in the singular, and nothing of every one.
#[test]
fn small_numbers_are_told_as_people_do() {
    let mut told = 0;
    let mut read = |args: &[&str]| {
        let outcome = loopwright_demo::run([&["loopwright"], args].concat());
        let text = format!("\n{}{}", outcome.stdout, outcome.stderr);
        for wrong in ["1 stitches", "1 rows", "1 times", "1 bars", "every 1 ", "every 1,"] {
            let found = text.match_indices(wrong).any(|(at, _)| {
                !text[..at].ends_with(|before: char| before.is_ascii_digit() || before == '.')
            });
            assert!(!found, "{wrong:?} in {args:?}: {text}");
        }
        told += u32::from(outcome.code == 0);
    };
    let number = |n: u32| n.to_string();
    for (a, b) in (1..=5).flat_map(|a| (1..=10).map(move |b| (number(a), number(b)))) {
        read(&["pickup", "--rows", &a, "--stitches", &b]);
        read(&["pickup", "--rows", &a, "--stitches", &b, "--ends", "half", "--buttons", "1"]);
        let (one, two) = (format!("{a} rows"), format!("{b} rows"));
        read(&["pickup", "--along", &one, "--along", &two, "--gauge", "10x10/10cm"]);
        for join in ["row-seam", "eased", "pick-up"] {
            read(&["seam", &one, &two, "--join", join, "--gauge", "10x10/10cm", "--within", "9"]);
            read(&["seam", &one, &two, "--join", join, "--gauge", "10x10/10cm"]);
        }
        let (one, two) = (format!("{a} st"), format!("{b} st"));
        for join in ["graft", "stitch-seam", "hang-back", "pick-up"] {
            let args = ["seam", &one, &two, "--join", join, "--gauge", "10x10/10cm"];
            read(&[&args[..], &["--overlap", "1", "--within", "1"]].concat());
            read(&args);
        }
    }
    assert!(told > 500, "{told} told");
}

/// A neck: the back, and two curves that meet at a corner stitch.
#[test]
fn pickup_along_several_edges() {
    let curve = (
        "4 st, 2 rows 3 st x2, 2 rows 1 st x3, 30 rows",
        "30 rows, 2 rows 1 st x3, 2 rows 3 st x2, 4 st",
    );
    let args = [
        "pickup",
        "--along",
        curve.0,
        "--corner-after",
        "1",
        "--along",
        curve.1,
        "--along",
        "40 st",
        "--gauge",
        "28x40/10cm",
        "--stitches",
        "119",
    ];
    let answer = object(&args);
    let counts: Vec<u64> = answer["edges"]
        .as_array()
        .unwrap()
        .iter()
        .map(|e| e["stitches"].as_u64().unwrap())
        .collect();
    // A curve is 14.3 + 2 x 11.8 + 3 x 6.1 + 75 = 131.4 mm, or 36.8 stitches less half a
    // corner; the back is 40: of 118 that is 38.0 twice and 41.9.
    assert_eq!(counts, [38, 38, 42]);
    assert_eq!(answer["edges"][0]["corner"], json!(true));
    assert!(text(&args).starts_with("pick up 119 stitches in all:\nedge 1, 38 stitches: "));
    refused(
        &["pickup", "--along", "40 st", "--corner-after", "2", "--gauge", "28x40/10cm"],
        "--corner-after is 2, but must be in 1..=1, the edges given with --along",
    );
}

#[test]
fn pickup_refuses() {
    let give = "give --rows and --stitches, or --gauge with a length, --rows or --along";
    refused(&["pickup"], give);
    refused(&["pickup", "--rows", "10"], give);
    refused(
        &["pickup", "--rows", "10", "--stitches", "30"],
        "the count of stitches to pick up is 30, but must be in 1..=20, at most two for each of 10",
    );
    refused(
        &["pickup", "--rows", "0", "--stitches", "3"],
        "the count of rows to pick up along is 0, but must be in 1..=100000",
    );
}

#[test]
fn seam_of_rows() {
    let args = ["seam", "152 rows", "148 rows", "--join", "row-seam", "--gauge", "28x40/10cm"];
    assert_eq!(
        text(&args),
        "first edge: 152 rows, 38 cm\n\
         second edge: 148 rows, 37 cm\n\
         they do not fit in a row-to-row seam: the first edge has 4 rows more (1 cm)\n\
         to mend it, knit 149 rows instead of 152 for the first edge, \
         or 151 rows instead of 148 for the second edge\n"
    );
    let answer = object(&args);
    assert_eq!((&answer["matches"], &answer["difference"]), (&json!(false), &json!(4)));
    assert_eq!(answer["mend"]["first"], json!({"counted": "rows", "from": 152, "to": 149}));
    let wide = object(&[&args[..], &["--within", "4"]].concat());
    assert_eq!((&wide["matches"], &wide["mend"]), (&json!(true), &Value::Null));
}

/// knittingrobin.blogspot.com, 2013: edges lie half a row apart, and a row is eased in.
#[test]
fn seam_of_rows_is_told_bar_by_bar() {
    let args = ["seam", "99 rows", "98 rows", "--join", "row-seam", "--gauge", "28x40/10cm"];
    let told = text(&args);
    let last = told.lines().last().unwrap();
    assert_eq!(
        last,
        "or two bars at a time, the edges lying half a row apart: \
         on the first 1 bar, then 2 bars 49 times; on the second 2 bars 49 times"
    );
    assert!(told.contains("sew one to one, with 1 row more of the first edge after 98"));
}

/// holliyeoh.com: 60 stitches to 84 rows are 5 to 7.
#[test]
fn seam_of_stitches_to_rows() {
    let args = [
        "seam",
        "60 st",
        "84 rows",
        "--join",
        "stitch-to-row",
        "--gauge",
        "5x7/1in",
        "--units",
        "in",
    ];
    assert_eq!(
        text(&args),
        "first edge: 60 stitches, 12 in\n\
         second edge: 84 rows, 12 in\n\
         they fit in a stitch-to-row seam: there is no difference\n\
         sew one to one, with 1 row more of the second edge after every 2 or 3, 24 in all\n"
    );
}

#[test]
fn seam_with_ease() {
    let cap = "8 st, 2 rows 2 st x12, 24 rows 10 st, 6 st";
    let args = ["seam", cap, "80 rows", "--join", "eased", "--gauge", "28x40/10cm"];
    let answer = object(&args);
    assert_eq!(answer["first"]["stitches"], json!(48));
    assert_eq!(answer["first"]["rows"], json!(48));
    assert_eq!(answer["matches"], json!(true));
    let none = [&args[..], &["--least-ease", "-1 cm", "--most-ease", "1 cm"]].concat();
    assert_eq!(object(&none)["matches"], json!(false));
    let gathered = [
        "seam",
        "160 rows",
        "80 rows",
        "--join",
        "eased",
        "--gauge",
        "28x40/10cm",
        "--least-times",
        "3/2",
        "--most-times",
        "2",
    ];
    assert_eq!(object(&gathered)["matches"], json!(true));
}

#[test]
fn seam_hung_back_with_an_overlap() {
    let args = [
        "seam",
        "132 st",
        "128 st",
        "--join",
        "hang-back",
        "--overlap",
        "4",
        "--gauge",
        "28x40/10cm",
    ];
    assert_eq!(object(&args)["matches"], json!(true));
}

/// Ten slanted steps have no straight rows to leave out, so only the other edge is
/// offered.
#[test]
fn seam_offers_no_mend_that_cannot_be_knitted() {
    let ask = |first: &str, second: &str| {
        let times = ["--least-times", "3/2", "--most-times", "2", "--gauge", "28x40/10cm"];
        object(&[&["seam", first, second, "--join", "eased"], &times[..]].concat())
    };
    let slanted = ask("20 rows 3 st x10", "60 rows");
    assert_eq!((&slanted["matches"], &slanted["mend"]["first"]), (&json!(false), &Value::Null));
    // Ten slants of 51.12 mm are twice 255.6 mm, which takes 103 rows of 2.5 mm.
    assert_eq!(slanted["mend"]["second"]["to"], json!(103));
    // With 90 straight rows, 225 mm, they are 136.2 mm longer than twice 300 mm: 55 rows.
    assert_eq!(ask("20 rows 3 st x10, 90 rows", "120 rows")["mend"]["first"]["to"], json!(235));
    let words = text(&[
        "seam",
        "2 rows 3 st x4, 40 rows",
        "40 rows",
        "--join",
        "row-seam",
        "--gauge",
        "28x40/10cm",
    ]);
    let mend = "to mend it, knit 41 rows instead of 48 for the first edge \
                (7 rows fewer where it runs straight), or 47 rows instead of 40 for the second edge\n";
    assert!(words.ends_with(mend), "{words}");
}

/// Twelve rows more on one side: both sides still come to their ends together.
#[test]
fn seam_of_rows_far_apart_pairs_its_passes() {
    let args = ["seam", "152 rows", "140 rows", "--join", "row-seam", "--within", "50"];
    let answer = object(&[&args[..], &["--gauge", "28x40/10cm"]].concat());
    let count = |side: &str, what: &str| -> u64 {
        let runs = answer["passes"][side].as_array().unwrap().iter();
        runs.map(|run| run["times"].as_u64().unwrap() * run[what].as_u64().unwrap_or(1)).sum()
    };
    assert_eq!((count("first", "bars"), count("second", "bars")), (152, 140));
    assert_eq!((count("first", "passes"), count("second", "passes")), (77, 76));
}

#[test]
fn seam_refuses() {
    let forms = "cannot be read: write rows and stitches, such as \"152 rows\", \"44 stitches\" \
                 or \"6 st, 2 rows 3 st x4, 40 rows\"";
    for wrong in ["84 rowz", "", "rows 3", "3 rows 4 rows", "3 rows x0", "3 rows x2 x3", "0 st"] {
        let args = ["seam", "60 st", wrong, "--join", "stitch-to-row", "--gauge", "5x7/1in"];
        refused(&args, &format!("the second edge {wrong:?} {forms}"));
    }
    let graft = ["seam", "60 st", "50 rows", "--join", "graft", "--gauge", "5x7/1in"];
    let outcome = loopwright_demo::run([&["loopwright"], &graft[..]].concat());
    let why = "a graft needs live stitches, but the second edge is a selvedge\n";
    assert_eq!((outcome.code, outcome.stderr.as_str()), (1, why));
    refused(
        &["seam", "1 rows 1 st x100001", "50 rows", "--join", "eased", "--gauge", "5x7/1in"],
        &format!("the first edge \"1 rows 1 st x100001\" {forms}"),
    );
}
