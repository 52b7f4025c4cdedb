//! The workspace's own files, for tests that hold one part of it against another.

use std::path::{Path, PathBuf};

/// The workspace's folder.
pub(super) fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().unwrap().to_path_buf()
}

/// The text of a file, named from the workspace's folder.
pub(super) fn text(path: &str) -> String {
    std::fs::read_to_string(root().join(path)).unwrap_or_else(|why| panic!("{path}: {why}"))
}

/// The files in a folder, in the order of their names.
pub(super) fn files(folder: &str) -> Vec<PathBuf> {
    let mut files = entries(&root().join(folder));
    files.retain(|path| path.is_file());
    files
}

/// All Rust files in a folder and below it, with their text.
pub(super) fn rust_below(folder: &str) -> Vec<(PathBuf, String)> {
    let (mut sources, mut folders) = (Vec::new(), vec![root().join(folder)]);
    while let Some(folder) = folders.pop() {
        for path in entries(&folder) {
            if path.is_dir() {
                folders.push(path);
            } else if path.extension().is_some_and(|ending| ending == "rs") {
                let text = std::fs::read_to_string(&path).unwrap();
                sources.push((path, text));
            }
        }
    }
    assert!(!sources.is_empty(), "{folder} has no sources");
    sources
}

fn entries(folder: &Path) -> Vec<PathBuf> {
    let read =
        std::fs::read_dir(folder).unwrap_or_else(|why| panic!("{}: {why}", folder.display()));
    let mut entries: Vec<PathBuf> = read.map(|entry| entry.unwrap().path()).collect();
    entries.sort();
    entries
}
