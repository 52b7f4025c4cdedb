//! The `fit` verb: a file of counts and demands.

use core::sync::atomic::{AtomicU32, Ordering};
use loopwright_demo::Outcome;
use serde_json::{Value, json};

static FILES: AtomicU32 = AtomicU32::new(0);

/// Runs `fit` on a file of this text.
pub(super) fn fit(text: &str, options: &[&str]) -> Outcome {
    let number = FILES.fetch_add(1, Ordering::Relaxed);
    let name = format!("loopwright-fit-{}-{number}.toml", std::process::id());
    let path = std::env::temp_dir().join(name);
    std::fs::write(&path, text).unwrap();
    let mut args = vec!["loopwright", "fit", path.to_str().unwrap()];
    args.extend(options);
    let outcome = loopwright_demo::run(args);
    std::fs::remove_file(&path).unwrap();
    outcome
}

const BACK: &str = r#"
[[count]]
name = "back"
length = "52 cm"
gauge = "28x40/10cm"
multiple = 2

[[count]]
name = "shoulder"
ideal = 50.4

[[count]]
name = "neck"
ideal = "443/10"

[[demand]]
name = "across the back"
sum = { shoulder = 2, neck = 1, back = -1 }
"#;

#[test]
fn counts_are_told_with_what_each_is_off() {
    let outcome = fit(BACK, &[]);
    assert_eq!(outcome.stderr, "");
    assert_eq!(outcome.code, 0);
    // The back misses 0.4 stitches of 100/28 mm, the others 0.6 and 0.3 counts: 2.33 in
    // all; 146, 50 and 46 would miss 3.53, and 144, 50 and 44 6.41.
    assert_eq!(
        outcome.stdout,
        "back      146  0.40 more than asked\n\
         shoulder   51  0.60 more than asked\n\
         neck       44  0.30 fewer than asked\n\
         In all 2.33 mm away from what was asked, by weight; 1.43 mm at most in one.\n",
    );
}

#[test]
fn the_object_has_counts_and_exact_deviations() {
    let outcome = fit(BACK, &["--json"]);
    let told: Value = serde_json::from_str(&outcome.stdout).unwrap();
    assert_eq!(told["counts"], json!({ "back": 146, "shoulder": 51, "neck": 44 }));
    assert_eq!(told["deviation"]["neck"], json!({ "value": -0.3, "exact": "-3/10" }));
    // 0.4 x 25/7 + 0.6 + 0.3.
    assert_eq!(told["total"]["exact"], "163/70");
    assert_eq!(told["largest"]["exact"], "10/7");
    assert_eq!(told["least_total"]["exact"], "163/70");
    assert_eq!(told["proved"], true);
}

#[test]
fn json_files_are_read_too() {
    let text = r#"{"count": [{"name": "cuff", "ideal": 47.5}, {"name": "top", "ideal": 88}],
        "demand": [{"same_parity": ["cuff", "top"]}]}"#;
    let told: Value = serde_json::from_str(&fit(text, &["--json"]).stdout).unwrap();
    assert_eq!(told["counts"], json!({ "cuff": 48, "top": 88 }));
}

#[test]
fn a_conflict_is_told_by_names_with_the_least_that_would_free_it() {
    let text = BACK.to_owned()
        + r#"
[[demand]]
name = "narrow neck"
sum = { neck = 1 }
total = [0, 41]
[[demand]]
name = "narrow shoulder"
sum = { shoulder = 1 }
total = [0, 48]
[[demand]]
name = "wide back"
sum = { back = 1 }
total = [140, 160]
"#;
    let outcome = fit(&text, &["--json"]);
    assert_eq!(outcome.code, 1);
    // 140 needs 2 * 48 + 44, or 2 * 50 + 40; the back is even.
    assert_eq!(
        outcome.stderr,
        "These 4 demands cannot all hold, but any 3 of them can: \
         \"across the back\" (would need to be missed by 3); \
         \"narrow neck\" (44 would do); \
         \"narrow shoulder\" (50 would do); \
         \"wide back\" (136 would do).\n",
    );
    let told: Value = serde_json::from_str(&outcome.stdout).unwrap();
    assert_eq!(
        told["conflict"][1],
        json!({ "demand": "narrow neck", "relax_by": 3, "would_be": 44 })
    );
    assert_eq!(told["smallest"], true);
    assert_eq!(fit(&text, &[]).stdout, "", "text tells it on standard error alone");
}

const LENGTH: &str = r#"
[[count]]
name = "hem"
rows = true
length = "6 cm"
gauge = "24x36/10cm"
multiple = 2

[[count]]
name = "side"
rows = true
length = "34 cm"
gauge = "12x15/10cm"
multiple = 2

[[count]]
name = "armhole"
rows = true
length = "22 cm"
gauge = "12x15/10cm"
multiple = 2

[[measure]]
name = "body length"
sum = { hem = 1, side = 1, armhole = 1 }
length = "62 cm"
weight = 4
"#;

#[test]
fn measures_are_told_wanted_given_and_missed() {
    // By themselves: 22, 50 or 52, and 32 or 34 rows. 22, 52 and 32 come to 61.1 + 346.7
    // + 213.3 = 621.1 mm; the greater count goes to the side, which stands first.
    let outcome = fit(LENGTH, &[]);
    assert_eq!(outcome.stderr, "");
    assert_eq!(
        outcome.stdout,
        "hem      22  0.40 more than asked\n\
         side     52  1.00 more than asked\n\
         armhole  32  1.00 fewer than asked\n\
         body length  62.1 cm  0.1 cm longer than the 62 cm asked\n\
         In all 18.89 mm away from what was asked, by weight; 6.67 mm at most in one.\n",
    );
    let told: Value = serde_json::from_str(&fit(LENGTH, &["--json"]).stdout).unwrap();
    let measure = &told["measures"]["body length"];
    assert_eq!(measure["wanted"]["exact_mm"], "620/1");
    // 22 x 25/9 + 84 x 20/3 = 5,590/9.
    assert_eq!(measure["given"]["exact_mm"], "5590/9");
    assert_eq!(measure["missed"]["exact_mm"], "10/9");
}

#[test]
fn limits_of_lengths_refuse_with_a_length_that_would_do() {
    let text = LENGTH.to_owned()
        + r#"
[[demand]]
name = "the yarn there is"
sum = { side = 1, armhole = 1 }
at_most = 80
[[demand]]
name = "no crop top"
sum = { side = 1, armhole = 1 }
at_least = "55 cm"
"#;
    let outcome = fit(&text, &[]);
    assert_eq!(outcome.code, 1);
    // 55 cm are 82.5 rows, so 84 of even counts; 80 rows are 53.3 cm.
    assert_eq!(
        outcome.stderr,
        "These 2 demands cannot all hold, but any 1 of them can: \
         \"the yarn there is\" (84 would do); \
         \"no crop top\" (53.3 cm would do).\n",
    );
}

#[test]
fn a_tolerance_is_a_demand_of_the_measure_s_name() {
    let text = LENGTH.replace("24x36", "12x15").replace("weight = 4", "tolerance = \"1 mm\"");
    let outcome = fit(&text, &["--json"]);
    assert_eq!(outcome.code, 1);
    // Two rows are 13.3 mm: 92 rows come to 613.3 mm and 94 to 626.7, 6.7 mm off.
    assert_eq!(
        outcome.stderr,
        "This demand cannot hold with the counts as allowed: \
         \"body length\" (would need 0.6 cm more room).\n",
    );
}

#[test]
fn parity_in_a_conflict_can_only_be_let_go() {
    let text = r#"
count = [
  { name = "from", ideal = 151, least = 151, most = 151 },
  { name = "to", ideal = 132, least = 132, most = 132 },
]
demand = [{ name = "two sides", same_parity = ["from", "to"] }]
"#;
    let outcome = fit(text, &["--json"]);
    assert_eq!(
        outcome.stderr,
        "This demand cannot hold with the counts as allowed: \
         \"two sides\" (would need to be let go).\n",
    );
    let told: Value = serde_json::from_str(&outcome.stdout).unwrap();
    assert_eq!(
        told["conflict"],
        json!([{ "demand": "two sides", "relax_by": null, "would_be": null }])
    );
}

#[test]
fn a_limit_that_is_met_is_told() {
    let outcome = fit(BACK, &["--steps", "10"]);
    assert_eq!(outcome.code, 1);
    assert_eq!(
        outcome.stderr,
        "within 10 steps of work no counts were found that hold every demand, nor was it \
         proved that there are none; narrower ranges, fewer demands or more steps may help\n",
    );
}

#[track_caller]
fn assert_wrong(text: &str, why: &str) {
    let outcome = fit(text, &[]);
    assert_eq!(outcome.code, 2, "{}", outcome.stderr);
    assert_eq!(outcome.stdout, "");
    let (_, told) = outcome.stderr.split_once(".toml").expect("the file is named");
    let told = told.strip_prefix(": ").unwrap_or(told);
    assert_eq!(told, format!("{why}\n"));
}

#[test]
fn wrong_files_are_refused_in_one_sentence() {
    assert_wrong("", "there is no [[count]] in the file");
    assert_wrong(
        "count = [{ name = \"cuff\" }]",
        "count \"cuff\" needs an ideal, or a length and a gauge",
    );
    assert_wrong(
        "count = [{ name = \"cuff\", ideal = 48 }]\ndemand = [{ name = \"none\" }]",
        "demand \"none\" needs one of sum, equal, ratio, ordered, same_parity",
    );
    assert_wrong(
        "count = [{ name = \"cuff\", ideal = 48 }]\n\
         demand = [{ sum = { cuff = 1 }, total = 48, offset = 2 }]",
        "demand \"demand 1\" mixes kinds: total, at_least and at_most go with sum, offset with \
         equal, is and tolerance with ratio",
    );
    assert_wrong(
        "count = [{ name = \"cuff\", ideal = 48 }, { name = \"top\", ideal = 88 }]\n\
         demand = [{ ratio = [\"cuff\", \"top\"] }]",
        "demand \"demand 1\" needs \"is\", the ratio wanted, such as \"3/4\"",
    );
    assert_wrong(
        "count = [{ name = \"cuff\", ideal = 48 }]\ndemand = [{ equal = [\"cuff\", \"top\"] }]",
        "demand \"demand 1\" speaks of \"top\", which is no unknown of this problem",
    );
    assert_wrong(
        "count = [{ name = \"cuff\", ideal = 48, weight = 0 }]",
        "the weight of \"cuff\" is 0, but must be above 0 and at most 10000000",
    );
    assert_wrong(
        "\n[[count]]\nname = \"cuff\"\nideal = 48\nleats = 3\n",
        ", line 5, count: has no key \"leats\"; the keys are name, rows, ideal, length, \
         gauge, hidden, weight, multiple, extra, edge, least_repeats, least, most",
    );
    assert_wrong(
        "\n[[count]]\nname = \"cuff\"\nideal = \"many\"\n",
        ", line 4, count.ideal: the number \"many\" cannot be read: write a number such as 12, \
         12.5, 12,5, 3/4, 20 1/2 or 20½",
    );
    assert_wrong(
        "[[count]]\nname = \"cuff\"\nideal = true\n",
        ", line 3, count.ideal: must be a whole number, or a number as text such as \"12.5\" or \
         \"3/4\", not boolean `true`",
    );
}

#[test]
fn a_missing_file_is_named() {
    let outcome = loopwright_demo::run(["loopwright", "fit", "no-such-file.toml"]);
    assert_eq!(outcome.code, 2);
    assert!(outcome.stderr.starts_with("no-such-file.toml cannot be read: "), "{}", outcome.stderr);
}
