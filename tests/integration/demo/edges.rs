//! The program's edges: what it prints to, what it reads from, what it echoes.

use super::{folder, run};
use loopwright_demo::Outcome;
use std::io::{self, ErrorKind, Write};
use std::path::Path;

const PLAN: &str = include_str!("../../../examples/plans/puddle.toml");

/// A writer that fails in one way.
struct Failing(ErrorKind);

impl Write for Failing {
    fn write(&mut self, _: &[u8]) -> io::Result<usize> {
        Err(io::Error::new(self.0, "no room"))
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

fn told(code: u8, stdout: &str) -> Outcome {
    Outcome { code, stdout: stdout.into(), stderr: String::new() }
}

#[test]
fn an_answer_that_cannot_be_written_fails() {
    let mut stderr = Vec::new();
    let code = told(0, "88\n").write(&mut Failing(ErrorKind::StorageFull), &mut stderr);
    assert_eq!(code, 1);
    assert_eq!(String::from_utf8(stderr).unwrap(), "the answer cannot be written: no room\n");
}

#[test]
fn a_closed_pipe_is_quiet() {
    let mut stderr = Vec::new();
    let code = told(0, "88\n").write(&mut Failing(ErrorKind::BrokenPipe), &mut stderr);
    assert_eq!((code, stderr.len()), (0, 0));
}

#[test]
fn a_refusal_keeps_its_code_when_it_cannot_be_written() {
    let code = told(2, "{}\n").write(&mut Failing(ErrorKind::StorageFull), &mut Vec::new());
    assert_eq!(code, 2);
}

/// What would steer a terminal or turn the direction of reading.
const STEERING: [char; 8] =
    ['\u{1b}', '\u{7}', '\u{9b}', '\u{202e}', '\u{2066}', '\u{200f}', '\u{2028}', '\u{feff}'];

#[track_caller]
fn harmless(text: &str) {
    let steers = |character: char| character != '\n' && STEERING.contains(&character);
    assert!(!text.contains(steers), "{text:?}");
}

#[test]
fn a_title_is_shown_escaped() {
    let folder = folder("steering");
    let (path, out) = (folder.join("plan.toml"), folder.join("sheet.txt"));
    let title = r#"title = "A\u001b[31m \u202e\u2066\u200f\u2028\u009b\u0007\ufeff\nBuy 99 balls""#;
    let line = PLAN.lines().find(|line| line.starts_with("title")).unwrap();
    std::fs::write(&path, PLAN.replace(line, title)).unwrap();
    let (plan, out) = (path.to_str().unwrap(), out.to_str().unwrap());
    let sheet = run(&["draft", plan]);
    assert_eq!(sheet.code, 0, "{}", sheet.stderr);
    harmless(&sheet.stdout);
    assert!(!sheet.stdout.contains("\nBuy 99 balls"), "a title is one line");
    assert!(sheet.stdout.contains("A\\u{1b}[31m"), "{}", sheet.stdout.lines().next().unwrap());
    for arguments in [&["draft", plan, "--json"][..], &["draft", plan, "--as", "json"]] {
        let json = run(arguments).stdout;
        harmless(&json);
        let json: serde_json::Value = serde_json::from_str(&json).unwrap();
        assert!(json["title"].as_str().unwrap().contains('\u{202e}'), "the value is kept");
    }
    assert_eq!(run(&["draft", plan, "--out", out]).code, 0);
    harmless(&std::fs::read_to_string(out).unwrap());
}

#[test]
fn names_keys_values_and_paths_are_shown_escaped() {
    let folder = folder("echoes");
    let file = folder.join("coun\u{202e}ts.toml");
    let count = "count = [{ name = \"ba\\u001b[2J\\nck\", ideal = 3 }]";
    std::fs::write(&file, count).unwrap();
    let told = run(&["fit", file.to_str().unwrap()]);
    assert_eq!(told.code, 0, "{}", told.stderr);
    harmless(&told.stdout);
    assert_eq!(told.stdout.lines().count(), 2, "a name is on one line: {}", told.stdout);
    for text in ["\"ke\\u202ey\" = 1", "count = [{ name = \"a\\u009b\", ideal = \"\\u202e\" }]"] {
        std::fs::write(&file, text).unwrap();
        let refused = run(&["fit", file.to_str().unwrap()]);
        assert_eq!(refused.code, 2);
        assert_eq!(refused.stderr.lines().count(), 1, "{}", refused.stderr);
        harmless(&refused.stderr);
    }
    let typed = run(&["count", "5\u{1b}[2J cm", "--gauge", "22x30/10cm"]);
    assert_eq!(typed.code, 2);
    harmless(&typed.stderr);
}

#[test]
fn echoes_are_cut_short() {
    let long = "9".repeat(100_000);
    let folder = folder("long");
    let plan = folder.join("plan.toml");
    let plan_path = plan.to_str().unwrap();
    let unknown = format!("{PLAN}\n[{long}]\n");
    let garment = PLAN.replace("drop-shoulder", &long);
    let unit = PLAN.replace("chest = \"58 cm\"", &format!("chest = \"{long} cm\""));
    for text in [unknown, garment, unit] {
        std::fs::write(&plan, text).unwrap();
        let refused = run(&["draft", plan_path]);
        assert_eq!(refused.code, 2, "{}", refused.stderr);
        assert!(refused.stderr.len() < 1_000, "{} bytes", refused.stderr.len());
    }
    for arguments in [
        &["count", &long, "--gauge", "22x30/10cm"][..],
        &["count", "40 cm", "--gauge", &long],
        &["space", "60", "--change", &long],
        &["seam", &long, &long, "--join", "graft"],
        &["yarn", &long],
        &["yarn", "2/28 Nm", "--to", &long],
        &[&long],
    ] {
        let refused = run(arguments);
        assert_eq!(refused.code, 2);
        assert!(refused.stderr.len() < 1_500, "{:?}: {} bytes", arguments[0], refused.stderr.len());
    }
}

const COUNTS: &str = r#"{"count": [{"name": "cuff", "ideal": 47.5}]}"#;

#[track_caller]
fn fit(name: &str, text: &[u8]) -> Outcome {
    let path = folder(name).join("counts.json");
    std::fs::write(&path, text).unwrap();
    let outcome = run(&["fit", path.to_str().unwrap()]);
    Outcome { stderr: outcome.stderr.replace(path.to_str().unwrap(), "counts.json"), ..outcome }
}

#[test]
fn a_byte_order_mark_is_left_off() {
    let plain = fit("plain", COUNTS.as_bytes());
    let marked = fit("marked", format!("\u{feff}{COUNTS}").as_bytes());
    assert_eq!(marked.stderr, "");
    assert_eq!((marked.code, marked.stdout), (0, plain.stdout));
    let path = folder("marked_plan").join("plan.toml");
    std::fs::write(&path, format!("\u{feff}{PLAN}")).unwrap();
    assert_eq!(run(&["draft", path.to_str().unwrap()]).code, 0);
}

#[test]
fn a_key_given_twice_is_refused() {
    for (text, key) in [
        (r#"{"count": [], "count": []}"#, "count"),
        (
            "{\"count\": [{\"name\": \"a\", \"ideal\": 1}],\n\"demand\": [{\"sum\": {\"a\": 1, \"a\": 2}}]}",
            "a",
        ),
    ] {
        let refused = fit("twice", text.as_bytes());
        assert_eq!(refused.code, 2);
        let why = format!("the key {key:?} is given twice; leave one of them out\n");
        assert!(refused.stderr.ends_with(&why), "{}", refused.stderr);
    }
}

/// 0.1000000000000000055 as a float is 0.1: what was written is what is read.
#[test]
fn decimals_are_read_as_they_were_written() {
    for (text, ideal) in [
        (r#"{"count": [{"name": "a", "ideal": 7.12345678901}]}"#, "-12345678901/100000000000"),
        (r#"{"count": [{"name": "a", "ideal": 0.25}]}"#, "-1/4"),
        ("count = [{ name = \"a\", ideal = 7.12345678901 }]", "-12345678901/100000000000"),
        (
            r#"{"count": [{"name": "a", "ideal": 7.10000000000000001}]}"#,
            "-10000000000000001/100000000000000000",
        ),
    ] {
        let path = folder("written").join("counts");
        std::fs::write(&path, text).unwrap();
        let outcome = run(&["fit", path.to_str().unwrap(), "--json"]);
        assert_eq!(outcome.stderr, "", "{text}");
        let told: serde_json::Value = serde_json::from_str(&outcome.stdout).unwrap();
        assert_eq!(told["deviation"]["a"]["exact"], ideal, "{text}");
    }
}

#[test]
fn what_does_not_belong_is_told_with_its_line_and_key() {
    for (text, why) in [
        ("{\n\"count\": 3}", "counts.json, line 2, count: must be a sequence, not integer `3`\n"),
        (
            "{\"count\": [\n{\"name\": \"a\", \"ideall\": 3}]}",
            "counts.json, line 2, count: has no key \"ideall\"; the keys are name, rows, ideal, length, gauge, \
             hidden, weight, multiple, extra, edge, least_repeats, least, most\n",
        ),
        (
            "{\"count\": [{\"name\": \"a\",\n\n\"length\": \"5 km\"}]}",
            "counts.json, line 3, count.length: the length \"5 km\" cannot be read: write a number and its unit (mm, \
             cm, m, in, ft, yd), such as 52 cm, 20 1/2 in or 5 ft 4 in\n",
        ),
    ] {
        let refused = fit("belongs", text.as_bytes());
        assert_eq!((refused.code, refused.stderr.as_str()), (2, why));
    }
}

#[test]
fn files_are_bounded_before_they_are_parsed() {
    let refused = fit("brackets", "[".repeat(2 << 20).as_bytes());
    assert_eq!(refused.code, 2);
    assert!(refused.stderr.contains("is larger than 1048576 bytes"), "{}", refused.stderr);
    for text in ["[".repeat(1 << 19), format!("{}{}", "[".repeat(1 << 18), "]".repeat(1 << 18))] {
        assert_eq!(fit("deep", text.as_bytes()).code, 2);
        assert_eq!(fit("deep_toml", format!("count = {text}").as_bytes()).code, 2);
    }
    let folder = folder("large_plan");
    let path = folder.join("plan.toml");
    std::fs::write(&path, "#".repeat(2 << 20)).unwrap();
    let refused = run(&["draft", path.to_str().unwrap()]);
    assert_eq!(refused.code, 2);
    assert!(refused.stderr.contains("is larger than"), "{}", refused.stderr);
}

/// A folder with a plan, and what `--out` says there.
fn drafted(folder: &Path, out: &Path) -> Outcome {
    let plan = folder.join("plan.toml");
    if !plan.exists() {
        std::fs::write(&plan, PLAN).unwrap();
    }
    run(&["draft", plan.to_str().unwrap(), "--out", out.to_str().unwrap()])
}

#[test]
fn a_plan_is_never_overwritten_by_its_sheet() {
    let folder = folder("itself");
    let same = drafted(&folder, &folder.join("plan.toml"));
    assert_eq!(same.code, 2);
    assert!(same.stderr.contains("it is the plan itself"), "{}", same.stderr);
    std::fs::hard_link(folder.join("plan.toml"), folder.join("other.toml")).unwrap();
    assert_eq!(drafted(&folder, &folder.join("other.toml")).code, 2);
    assert_eq!(std::fs::read_to_string(folder.join("plan.toml")).unwrap(), PLAN);
}

#[test]
fn a_folder_or_a_file_to_be_read_alone_is_refused() {
    let folder = folder("refused");
    let out = folder.join("sheet.txt");
    std::fs::create_dir(&out).unwrap();
    let refused = drafted(&folder, &out);
    assert_eq!(refused.code, 2);
    assert!(refused.stderr.contains("it is a folder"), "{}", refused.stderr);
    let out = folder.join("kept.txt");
    std::fs::write(&out, "kept").unwrap();
    let mut permissions = std::fs::metadata(&out).unwrap().permissions();
    permissions.set_readonly(true);
    std::fs::set_permissions(&out, permissions).unwrap();
    let refused = drafted(&folder, &out);
    assert_eq!(refused.code, 2);
    assert!(refused.stderr.contains("it may only be read"), "{}", refused.stderr);
    assert_eq!(std::fs::read_to_string(&out).unwrap(), "kept");
}

#[cfg(unix)]
mod unix {
    use super::{PLAN, drafted, folder, run};
    use std::os::unix::fs::{MetadataExt as _, PermissionsExt as _, symlink};

    #[test]
    fn what_a_link_points_to_is_replaced_and_the_link_stays() {
        let folder = folder("link");
        std::fs::create_dir(folder.join("far")).unwrap();
        for name in ["old.txt", "new.txt"] {
            let (link, target) = (folder.join(name), folder.join("far").join(name));
            symlink(std::path::Path::new("far").join(name), &link).unwrap();
            if name == "old.txt" {
                std::fs::write(&target, "an older sheet").unwrap();
            }
            assert_eq!(drafted(&folder, &link).code, 0);
            assert!(std::fs::symlink_metadata(&link).unwrap().is_symlink());
            assert!(std::fs::read_to_string(&target).unwrap().len() > 1_000);
        }
        symlink("round.txt", folder.join("round.txt")).unwrap();
        let round = drafted(&folder, &folder.join("round.txt"));
        assert_eq!(round.code, 2);
        assert!(round.stderr.contains("links go round"), "{}", round.stderr);
    }

    #[test]
    fn a_link_to_the_plan_is_the_plan() {
        let folder = folder("link_to_plan");
        symlink("plan.toml", folder.join("sheet.txt")).unwrap();
        let _ = drafted(&folder, &folder.join("first.txt"));
        assert_eq!(drafted(&folder, &folder.join("sheet.txt")).code, 2);
        assert_eq!(std::fs::read_to_string(folder.join("plan.toml")).unwrap(), PLAN);
    }

    #[test]
    fn the_mode_is_kept_and_nothing_is_left_behind() {
        let folder = folder("mode");
        for mode in [0o600, 0o640, 0o755] {
            let out = folder.join("sheet.txt");
            std::fs::write(&out, "an older sheet").unwrap();
            std::fs::set_permissions(&out, std::fs::Permissions::from_mode(mode)).unwrap();
            let before = std::fs::metadata(&out).unwrap().ino();
            assert_eq!(drafted(&folder, &out).code, 0);
            let after = std::fs::metadata(&out).unwrap();
            assert_eq!(after.mode() & 0o7777, mode);
            assert_ne!(after.ino(), before, "a whole new file takes the place of the old one");
        }
        let fresh = folder.join("fresh.txt");
        assert_eq!(drafted(&folder, &fresh).code, 0);
        std::fs::write(folder.join("like.txt"), "").unwrap();
        let mode = |name: &str| std::fs::metadata(folder.join(name)).unwrap().mode();
        assert_eq!(mode("fresh.txt"), mode("like.txt"), "a new file is as the system makes them");
        let mut left: Vec<String> = std::fs::read_dir(&folder)
            .unwrap()
            .map(|entry| entry.unwrap().file_name().into_string().unwrap())
            .collect();
        left.sort();
        assert_eq!(left, ["fresh.txt", "like.txt", "plan.toml", "sheet.txt"]);
    }

    #[test]
    fn a_device_is_written_to_as_it_is() {
        let folder = folder("device");
        let null = std::path::Path::new("/dev/null");
        assert_eq!(drafted(&folder, null).code, 0);
        assert!(!std::fs::metadata(null).unwrap().is_file());
        let full = std::path::Path::new("/dev/full");
        if full.exists() {
            let refused = drafted(&folder, full);
            assert_eq!(refused.code, 1);
            assert!(
                refused.stderr.starts_with("/dev/full cannot be written"),
                "{}",
                refused.stderr
            );
        }
    }

    #[test]
    fn a_file_that_is_not_utf_8_in_its_name_is_told() {
        use std::os::unix::ffi::OsStrExt as _;
        let name = std::ffi::OsStr::from_bytes(b"no\xff.toml").to_owned();
        let outcome = loopwright_demo::run(["loopwright".into(), "draft".into(), name]);
        assert_eq!(outcome.code, 2);
        assert!(run(&["draft", "no.toml"]).stderr.contains("cannot be read"));
    }
}
