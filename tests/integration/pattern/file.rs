//! Steps as JSON: read, proved, printed, and written as they were read.

use loopwright::pattern::PieceFile;
use std::path::{Path, PathBuf};

fn pouch() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../examples/pieces/pouch.json")
}

fn knit(text: &str, name: &str) -> (i32, String, String) {
    let path = std::env::temp_dir().join(format!("loopwright-{}-{name}.json", std::process::id()));
    std::fs::write(&path, text).unwrap();
    let outcome = loopwright_demo::run(["loopwright", "knit", path.to_str().unwrap()]);
    std::fs::remove_file(&path).unwrap();
    (outcome.code.into(), outcome.stdout, outcome.stderr)
}

#[test]
fn a_file_is_written_as_it_was_read() {
    let text = std::fs::read_to_string(pouch()).unwrap();
    let file: PieceFile = serde_json::from_str(&text).unwrap();
    let again = serde_json::to_string(&file).unwrap();
    assert_eq!(serde_json::from_str::<PieceFile>(&again).unwrap(), file);
    // 40 x 20 + 40 x 60 rows, and 38 x 4 after one decrease at each edge.
    assert_eq!(file.replay().unwrap()[0].all_loops(), 800 + 2400 + 152);
}

#[test]
fn a_file_is_knitted_and_printed() {
    let outcome = loopwright_demo::run(["loopwright", "knit", pouch().to_str().unwrap()]);
    assert_eq!((outcome.code, outcome.stderr.as_str()), (0, ""));
    assert!(
        outcome.stdout.starts_with("pouch (make 2): 84 rows, 3352 loops"),
        "{}",
        outcome.stdout
    );
    assert!(outcome.stdout.contains("The hem is folded"));
    let rows = loopwright_demo::run(["loopwright", "knit", pouch().to_str().unwrap(), "--rows"]);
    assert_eq!(rows.stdout.lines().count(), 2 + 84, "{}", rows.stdout);
}

#[test]
fn a_file_that_cannot_be_knitted() {
    let text = std::fs::read_to_string(pouch()).unwrap();
    let (code, _, told) = knit(&text.replace("{ \"knit\": 4 }", "\"cut\", { \"knit\": 4 }"), "cut");
    assert_eq!(code, 1);
    assert!(told.contains("pouch, step 8, row 80: the yarn \"main\" is cut"), "{told}");
    let (code, _, told) = knit(&text.replace("\"version\": 1", "\"version\": 2"), "version");
    assert_eq!(code, 2);
    assert!(
        told.contains("version 2 of a file of steps is not known; this is version 1"),
        "{told}"
    );
    let (code, _, told) = knit(&text.replace("\"overlap\"", "\"over\""), "key");
    assert_eq!(code, 2, "{told}");
}
