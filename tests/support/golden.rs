//! The golden runner: named cases with their sources, read from TOML.
//!
//! A file is a list of `[[case]]` tables. Each has a `name`, a `source` (a published
//! source, "common practice, no source", or "from memory" beside another witness) and
//! the fields of its own `Fields` type.

use serde::de::DeserializeOwned;

/// One case: its name and source, and the fields of its kind.
#[derive(Debug, serde::Deserialize)]
pub struct Case<Fields> {
    /// Which case this is, unique in its file.
    pub name: String,
    /// Where the expected value comes from.
    pub source: String,
    /// What goes in and what must come out.
    #[serde(flatten)]
    pub fields: Fields,
}

#[derive(serde::Deserialize)]
#[serde(bound = "Fields: DeserializeOwned")]
struct File<Fields> {
    case: Vec<Case<Fields>>,
}

/// The cases of `text`: at least `least` of them, each with its own name and a source.
///
/// # Panics
/// When the text cannot be read, holds fewer cases, or a case has no source.
#[must_use]
pub fn cases<Fields: DeserializeOwned>(text: &str, least: usize) -> Vec<Case<Fields>> {
    let file: File<Fields> = toml::from_str(text).expect("golden cases can be read");
    assert!(file.case.len() >= least, "only {} golden cases were read", file.case.len());
    let mut names: Vec<&str> = file.case.iter().map(|case| case.name.as_str()).collect();
    names.sort_unstable();
    names.dedup();
    assert_eq!(names.len(), file.case.len(), "two golden cases share a name");
    for case in &file.case {
        assert!(!case.source.trim().is_empty(), "golden case {:?} has no source", case.name);
    }
    file.case
}
