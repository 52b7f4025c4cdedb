//! Every example plan, drafted, replayed, and knitted again from its words.

use loopwright_tests::pattern::{Told, read};
use serde_json::Value;
use std::path::{Path, PathBuf};

pub(crate) fn plans() -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../examples/plans");
    let mut plans: Vec<PathBuf> =
        std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    plans.sort();
    assert!(plans.len() >= 3, "the example plans are there");
    plans
}

pub(crate) fn drafted(plan: &Path) -> Value {
    let outcome = loopwright_demo::run(["loopwright", "draft", plan.to_str().unwrap(), "--json"]);
    assert_eq!((outcome.code, outcome.stderr.as_str()), (0, ""), "{}", plan.display());
    serde_json::from_str(&outcome.stdout).unwrap()
}

fn number(value: &Value) -> u64 {
    value.as_u64().unwrap()
}

/// The lines of a piece of the JSON.
pub(crate) fn lines(piece: &Value) -> Vec<Told> {
    let text = |line: &Value, key: &str| line[key].as_str().unwrap().to_owned();
    let lines = piece["instructions"].as_array().unwrap();
    lines.iter().map(|line| Told { text: text(line, "text"), check: text(line, "check") }).collect()
}

/// The words say all that was knitted, in their checks too: rows, loops, stitches on and
/// off, and the edges they name.
#[test]
fn the_words_knit_what_the_replay_knitted() {
    for plan in plans() {
        for piece in drafted(&plan)["pieces"].as_array().unwrap() {
            let read = read(&lines(piece));
            let loops: u64 =
                piece["loops"].as_array().unwrap().iter().map(|of| number(&of["stitches"])).sum();
            let knitted = [
                ("rows", number(&piece["rows"]), read.rows),
                ("loops", loops, read.loops),
                ("on", number(&piece["cast_on"]) + number(&piece["picked_up"]), read.cast_on),
                ("bound off", number(&piece["bound_off"]), read.bound_off),
                ("live", number(&piece["live"]), read.live),
                ("widest", number(&piece["widest"]), read.widest),
                ("left over", 0, read.left),
            ];
            for (what, replayed, read) in knitted {
                assert_eq!(replayed, read, "{what} of the {} in {}", piece["name"], plan.display());
            }
        }
    }
}

/// What a line is said to come to is what its check says.
#[test]
fn every_line_is_where_its_check_is() {
    for plan in plans() {
        for piece in drafted(&plan)["pieces"].as_array().unwrap() {
            for line in piece["instructions"].as_array().unwrap() {
                let check = line["check"].as_str().unwrap();
                let stitches = number(&line["stitches"]);
                assert!(if stitches == 0 {
                    check.is_empty()
                } else {
                    check.contains(&format!(" {stitches} stitch"))
                });
                let row = number(&line["row"]);
                let told = [format!("RC {row:03},"), format!("after row {row},")];
                assert!(check.is_empty() || told.iter().any(|told| check.contains(told)), "{line}");
            }
        }
    }
}

#[test]
fn every_seam_of_every_plan_matches() {
    for plan in plans() {
        let drafted = drafted(&plan);
        let joins = drafted["joins"].as_array().unwrap();
        assert_eq!(
            joins.len(),
            9,
            "two shoulders, band, its ends, two armholes, two sides, sleeves"
        );
        for join in joins {
            assert_eq!(join["check"]["matches"], true, "{join}");
        }
    }
}

/// The needle at each end of a line is inside the bed, and they are as many as the
/// stitches.
#[test]
fn needles_are_as_many_as_stitches() {
    let place = |needle: &str| -> i64 {
        let (side, n) = needle.split_at(1);
        let n: i64 = n.parse().unwrap();
        if side == "L" { -n } else { n - 1 }
    };
    for plan in plans() {
        for piece in drafted(&plan)["pieces"].as_array().unwrap() {
            for line in piece["instructions"].as_array().unwrap() {
                let check = line["check"].as_str().unwrap();
                let Some((_, needles)) =
                    check.split_once(" on ").filter(|_| check.starts_with("RC"))
                else {
                    continue;
                };
                let mut words =
                    needles.trim_end_matches(|c: char| !c.is_ascii_digit()).split([' ', ',']);
                let (first, last) = (place(words.next().unwrap()), place(words.nth(1).unwrap()));
                assert_eq!(last - first + 1, line["stitches"].as_i64().unwrap(), "{check}");
            }
        }
    }
}

/// The child's sheet shows the cautions; the adults' do not.
#[test]
fn cautions_for_children() {
    for plan in plans() {
        let outcome = loopwright_demo::run(["loopwright", "draft", plan.to_str().unwrap()]);
        let child = std::fs::read_to_string(&plan).unwrap().contains("age_years = 4\n");
        assert_eq!(outcome.stdout.contains("cords"), child, "{}", plan.display());
        assert_eq!(outcome.stdout.contains("local rules"), child, "{}", plan.display());
    }
}

/// Yarn of the pieces and seams adds up to the total, and low <= likely <= high.
#[test]
fn yarn_adds_up() {
    for plan in plans() {
        let yarn = &drafted(&plan)["yarn"];
        for part in ["low", "likely", "high"] {
            let metres = |amount: &Value| amount[part]["metres"].as_f64().unwrap();
            let sum: f64 = yarn["pieces"]
                .as_array()
                .unwrap()
                .iter()
                .map(|piece| metres(&piece["amount"]))
                .sum();
            assert!((sum - metres(&yarn["total"])).abs() < 1e-6, "{part} of {}", plan.display());
        }
        let grams = |part: &str| yarn["total"][part]["grams"].as_f64().unwrap();
        assert!(grams("low") <= grams("likely") && grams("likely") <= grams("high"));
    }
}
