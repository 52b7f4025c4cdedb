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
         (pick up 4, miss 1) 17 times, then pick up 3\n"
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
        "pick up 100 stitches along 100 rows, about 1 of every 1 rows:\n\
         pick up 100\n\
         buttonholes of 4 stitches, starting at stitches 4, 19, 34, 49, 64, 79, 94\n\
         buttons are small parts: for a child under three leave them off, \
         or follow your local rules\n"
    );
    assert_eq!(object(&args)["buttonholes"]["gaps"], json!([3, 11, 11, 11, 11, 11, 11, 3]));
}

#[test]
fn pickup_refuses() {
    let give = "give --rows and --stitches, or --gauge with a length or --rows";
    refused(&["pickup"], give);
    refused(&["pickup", "--rows", "10"], give);
    refused(
        &["pickup", "--rows", "10", "--stitches", "30"],
        "the count of stitches to pick up is 30, but must be in 1..=20, at most two for each of 10",
    );
    refused(
        &["pickup", "--rows", "0", "--stitches", "3"],
        "the count of rows to pick up along is 0, but must be in 1..=5000000",
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

#[test]
fn seam_refuses() {
    let forms = "cannot be read: write rows and stitches, such as \"152 rows\", \"44 stitches\" \
                 or \"6 st, 2 rows 3 st x4, 40 rows\"";
    for wrong in ["84 rowz", "", "rows 3", "3 rows 4 rows", "3 rows x0", "3 rows x2 x3", "0 st"] {
        let args = ["seam", "60 st", wrong, "--join", "stitch-to-row", "--gauge", "5x7/1in"];
        refused(&args, &format!("the second edge {wrong:?} {forms}"));
    }
    refused(
        &["seam", "60 st", "50 rows", "--join", "graft", "--gauge", "5x7/1in"],
        "a graft needs live stitches, but the second edge is a selvedge",
    );
    refused(
        &["seam", "1 rows 1 st x100001", "50 rows", "--join", "eased", "--gauge", "5x7/1in"],
        &format!("the first edge \"1 rows 1 st x100001\" {forms}"),
    );
}
