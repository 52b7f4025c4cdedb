//! Plans with slips of the pen: the exit code, one sentence, no half-written file.

use super::{folder, run};

const PLAN: &str = include_str!("../../../examples/plans/puddle.toml");

#[track_caller]
fn refused(name: &str, plan: &[u8], code: u8, text: &str) {
    let folder = folder(name);
    let (path, out) = (folder.join("plan.toml"), folder.join("sheet.txt"));
    std::fs::write(&path, plan).unwrap();
    let outcome = run(&["draft", path.to_str().unwrap(), "--out", out.to_str().unwrap()]);
    let said = outcome.stderr.replace(path.to_str().unwrap(), "plan.toml");
    assert_eq!((outcome.code, said.as_str()), (code, format!("{text}\n").as_str()));
    assert_eq!(outcome.stdout, "");
    let left: Vec<_> =
        std::fs::read_dir(&folder).unwrap().map(|entry| entry.unwrap().file_name()).collect();
    assert_eq!(left, ["plan.toml"], "no half-written file is left");
}

/// The plan with one line changed.
fn changed(from: &str, to: &str) -> Vec<u8> {
    assert!(PLAN.contains(from), "{from:?} is in the plan");
    PLAN.replacen(from, to, 1).into_bytes()
}

#[test]
fn an_unknown_key() {
    refused(
        "unknown_key",
        &changed("chest = \"58 cm\"", "cheest = \"58 cm\""),
        2,
        "plan.toml, line 8, wearer.cheest: is not a key of a plan here; the keys are name, age_years, chest, \
         neck_to_wrist, arm_length, upper_arm, wrist, body_length, cross_back, head",
    );
}

#[test]
fn a_negative_length() {
    refused(
        "negative",
        &changed("chest = \"58 cm\"", "chest = \"-58 cm\""),
        2,
        "plan.toml, line 8, wearer.chest: the chest is -58 cm, but must be in 20..=250 cm",
    );
}

#[test]
fn a_chest_of_three_kilometres() {
    refused(
        "kilometres",
        &changed("chest = \"58 cm\"", "chest = \"3000 m\""),
        2,
        "plan.toml, line 8, wearer.chest: the chest is 300000 cm, but must be in 20..=250 cm",
    );
}

#[test]
fn a_unit_that_is_not_known() {
    refused(
        "km",
        &changed("chest = \"58 cm\"", "chest = \"3 km\""),
        2,
        "plan.toml, line 8, wearer.chest: the length \"3 km\" cannot be read: write a number and its unit (mm, cm, m, \
         in, ft, yd), such as 52 cm, 20 1/2 in or 5 ft 4 in",
    );
}

#[test]
fn a_length_without_a_unit() {
    refused(
        "no_unit",
        &changed("chest = \"58 cm\"", "chest = 58"),
        2,
        "plan.toml, line 8, wearer.chest: the length \"58\" cannot be read: write a number and its unit (mm, cm, m, \
         in, ft, yd), such as 52 cm, 20 1/2 in or 5 ft 4 in",
    );
}

#[test]
fn a_gauge_of_zero() {
    refused(
        "gauge_zero",
        &changed("plain = \"20 x 28 / 10 cm\"", "plain = \"0 x 28 / 10 cm\""),
        2,
        "plan.toml, line 25, gauge.plain: the stitch gauge is 0 per 10 cm, but must be in 1/10..=1000 per 10 cm",
    );
}

#[test]
fn a_missing_measure() {
    refused(
        "missing",
        &changed("wrist = \"12.5 cm\"\n", ""),
        2,
        "plan.toml, line 5, wearer.wrist: is missing; add a line such as wrist = \"16 cm\"",
    );
}

#[test]
fn text_that_is_not_utf_8() {
    let mut plan = PLAN.as_bytes().to_vec();
    plan.insert(0, 0xff);
    refused(
        "not_utf_8",
        &plan,
        2,
        "plan.toml is not a text file in UTF-8 (byte 0 does not belong); save it as UTF-8",
    );
}

#[test]
fn text_that_is_not_toml() {
    let folder = folder("not_toml");
    let path = folder.join("plan.toml");
    std::fs::write(&path, "title = \"unfinished\nwearer").unwrap();
    let outcome = run(&["draft", path.to_str().unwrap()]);
    assert_eq!(outcome.code, 2);
    assert!(outcome.stderr.contains("plan.toml, line 2: "), "{}", outcome.stderr);
    assert_eq!(outcome.stderr.lines().count(), 1, "{}", outcome.stderr);
}

#[test]
fn a_bed_too_narrow() {
    refused(
        "narrow",
        &changed("bed = 150", "bed = 60"),
        1,
        "plan.toml: back, step 1, row 0: needles L35 to R35 are wanted, 70 stitches, 10 more than the bed of 60 \
         needles takes there; look at knitting.bed",
    );
}

#[test]
fn a_bed_of_no_needles() {
    refused(
        "no_bed",
        &changed("bed = 150", "bed = 0"),
        2,
        "plan.toml, line 22, knitting.bed: a needle bed of 0 needles is outside 1..=10000",
    );
}

#[test]
fn an_unknown_craft() {
    refused(
        "craft",
        &changed("craft = \"machine\"", "craft = \"loom\""),
        2,
        "plan.toml, line 21, knitting.craft: \"loom\" is not known; write \"machine\" or \"hand\"",
    );
}

#[test]
fn a_head_that_does_not_pass() {
    let mut plan = changed(
        "neckband = \"2 cm\"",
        "neckband = \"2 cm\"\nneck_width = \"9 cm\"\nneck_depth = \"4 cm\"",
    );
    plan.push(b'\n');
    let folder = folder("head");
    let path = folder.join("plan.toml");
    std::fs::write(&path, plan).unwrap();
    let outcome = run(&["draft", path.to_str().unwrap()]);
    assert_eq!(outcome.code, 1);
    assert!(outcome.stderr.contains("but the head is 51 cm"), "{}", outcome.stderr);
}

#[test]
fn a_file_that_is_not_there() {
    let outcome = run(&["draft", "no/such/plan.toml"]);
    assert_eq!(outcome.code, 2);
    assert!(outcome.stderr.starts_with("no/such/plan.toml cannot be read: "), "{}", outcome.stderr);
}

#[test]
fn a_folder_that_cannot_be_written() {
    let folder = folder("unwritable");
    let path = folder.join("plan.toml");
    std::fs::write(&path, PLAN).unwrap();
    let out = folder.join("no/such/sheet.txt");
    let outcome = run(&["draft", path.to_str().unwrap(), "--out", out.to_str().unwrap()]);
    assert_eq!(outcome.code, 2);
    assert!(outcome.stderr.contains("cannot be written"), "{}", outcome.stderr);
    assert!(!out.exists());
}

#[test]
fn a_sheet_is_written_whole() {
    let folder = folder("written");
    let (path, out) = (folder.join("plan.toml"), folder.join("sheet.txt"));
    std::fs::write(&path, PLAN).unwrap();
    std::fs::write(&out, "an older sheet").unwrap();
    let printed = run(&["draft", path.to_str().unwrap()]);
    let written = run(&["draft", path.to_str().unwrap(), "--out", out.to_str().unwrap()]);
    assert_eq!(written.code, 0);
    assert_eq!(std::fs::read_to_string(&out).unwrap(), printed.stdout);
}

#[test]
fn options_that_do_not_exist() {
    for arguments in [&["draft"][..], &["draft", "plan.toml", "--as", "pdf"], &["drfat"], &[]] {
        let outcome = run(arguments);
        assert_eq!(outcome.code, 2, "{arguments:?}");
        assert_eq!(outcome.stderr.lines().count(), 1, "{}", outcome.stderr);
        assert_eq!(outcome.stdout, "");
    }
}

/// 52 cm at 28 stitches to 10 cm are 145.6: the published pair 22 stitches x 40 cm = 88
/// (studioknits.com, Tension) beside it.
#[test]
fn a_quick_count() {
    assert_eq!(
        run(&["count", "40 cm", "--gauge", "22x30/10cm", "--json"])
            .stdout
            .matches("\"count\":88,")
            .count(),
        1
    );
    assert_eq!(run(&["count", "40 cm"]).code, 2);
    assert_eq!(run(&["count", "-4 cm", "--gauge", "22x30/10cm"]).code, 2);
}

/// The verb for yarn says of a plan what the plan's sheet says.
#[test]
fn the_yarn_of_a_plan() {
    let folder = folder("yarn_of_a_plan");
    let path = folder.join("plan.toml");
    std::fs::write(&path, PLAN).unwrap();
    let plan = path.to_str().unwrap();
    let sheet = run(&["draft", plan]).stdout;
    let yarn = run(&["yarn", "--plan", plan]).stdout;
    assert!(yarn.starts_with("Yarn\n") && sheet.contains(&yarn), "{yarn}");
    let json: serde_json::Value =
        serde_json::from_str(&run(&["yarn", "--plan", plan, "--json"]).stdout).unwrap();
    let drafted: serde_json::Value =
        serde_json::from_str(&run(&["draft", plan, "--json"]).stdout).unwrap();
    assert_eq!(json["metres"], drafted["yarn"]["total"]["likely"]["metres"]);
    assert_eq!(json["packages"], drafted["yarn"]["packages"]["high"]);
    std::fs::write(&path, PLAN.split("[yarn]").next().unwrap()).unwrap();
    let without = run(&["yarn", "--plan", plan]);
    assert_eq!(without.code, 2);
    assert!(
        without
            .stderr
            .ends_with("has no [yarn]; add one with a line such as count = \"2/28 Nm\"\n")
    );
}

/// One reading of five is off by a third: the sheet says which.
#[test]
fn a_doubtful_reading() {
    let swatch = "[swatch]\ntreatment = \"washed\"\nreadings = [\"40 st = 20 cm\", \"40 st = 20.1 cm\", \"40 st = \
                  19.9 cm\", \"40 st = 15 cm\", \"60 rows = 21.4 cm\"]\n\n[gauge]";
    let plan = String::from_utf8(changed("[gauge]\nplain = \"20 x 28 / 10 cm\"", swatch)).unwrap();
    let folder = folder("doubtful");
    let path = folder.join("plan.toml");
    std::fs::write(&path, plan).unwrap();
    let sheet = run(&["draft", path.to_str().unwrap()]).stdout;
    assert_eq!(sheet.matches("is far from the others").count(), 1, "{sheet}");
    assert!(sheet.contains("Note: the reading 40 st = 150 mm is far from the others."), "{sheet}");
}
