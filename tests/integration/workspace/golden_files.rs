//! Every file of golden cases is read by a test.

use super::sources;

#[test]
fn each_golden_file_is_read() {
    let tests = sources::rust_below("tests/integration");
    let files = sources::files("tests/golden");
    assert!(files.len() >= 28, "{} golden files", files.len());
    for file in files {
        let name = file.file_name().unwrap().to_str().unwrap();
        let read = format!("golden/{name}\"");
        assert!(tests.iter().any(|(_, text)| text.contains(&read)), "nothing reads {name}");
    }
}
