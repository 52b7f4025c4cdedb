//! The golden runner: named cases with their sources, read from TOML.
//!
//! A file says how many cases it has (`cases = 12`), and then has so many `[[case]]`
//! tables: a case lost on the way fails. Each has a `name`, a `source` (a published
//! source, "common practice, no source", or "from memory" beside another witness) and
//! the fields of its own `Fields` type: a field that this type does not read fails.

use serde::de::DeserializeOwned;
use std::collections::BTreeSet;

/// One case: its name and source, and the fields of its kind.
#[derive(Debug)]
pub struct Case<Fields> {
    /// Which case this is, unique in its file.
    pub name: String,
    /// Where the expected value comes from.
    pub source: String,
    /// What goes in and what must come out.
    pub fields: Fields,
}

#[derive(serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    cases: usize,
    case: Vec<toml::Table>,
}

/// The cases of `text`: as many as it says, each with its own name and a source, and
/// every field read.
///
/// # Panics
/// When the text cannot be read, cases are missing, two share a name, or a case has no
/// source or a field that nothing reads.
#[must_use]
pub fn cases<Fields: DeserializeOwned>(text: &str) -> Vec<Case<Fields>> {
    let file: File = toml::from_str(text).expect("golden cases can be read");
    let cases: Vec<Case<Fields>> = file.case.into_iter().map(case).collect();
    assert!(!cases.is_empty(), "there are no golden cases");
    assert_eq!(cases.len(), file.cases, "the file says another number of cases");
    let names: BTreeSet<&str> = cases.iter().map(|case| case.name.as_str()).collect();
    assert_eq!(names.len(), cases.len(), "two golden cases share a name");
    cases
}

fn case<Fields: DeserializeOwned>(mut table: toml::Table) -> Case<Fields> {
    let mut said = |key: &str| match table.remove(key) {
        Some(toml::Value::String(text)) if !text.trim().is_empty() => text,
        other => panic!("a golden case has {key} = {other:?}"),
    };
    let (name, source) = (said("name"), said("source"));
    let mut unread = Vec::new();
    let fields = serde_ignored::deserialize(table, |path| unread.push(path.to_string()))
        .unwrap_or_else(|why| panic!("golden case {name:?}: {why}"));
    assert!(unread.is_empty(), "golden case {name:?}: nothing reads {unread:?}");
    Case { name, source, fields }
}

#[cfg(test)]
mod tests {
    use super::{Case, cases};

    #[derive(Debug, serde::Deserialize)]
    struct Width {
        stitches: u32,
        rows: Option<u32>,
    }

    const ONE: &str = "[[case]]\nname = 'a'\nsource = 'worked by hand'\nstitches = 4\n";

    fn read(text: &str) -> Vec<Case<Width>> {
        cases(text)
    }

    #[test]
    fn as_many_as_it_says() {
        let two = ONE.replace("'a'", "'b'") + "rows = 2\n";
        let read = read(&format!("cases = 2\n{ONE}{two}"));
        assert_eq!(read.iter().map(|case| case.fields.stitches).sum::<u32>(), 8);
        assert_eq!((read[1].name.as_str(), read[1].fields.rows), ("b", Some(2)));
        assert_eq!(read[0].source, "worked by hand");
    }

    #[test]
    #[should_panic(expected = "another number of cases")]
    fn a_case_is_lost() {
        read(&format!("cases = 2\n{ONE}"));
    }

    #[test]
    #[should_panic(expected = "nothing reads [\"row\"]")]
    fn a_field_is_not_read() {
        read(&format!("cases = 1\n{ONE}row = 2\n"));
    }

    #[test]
    #[should_panic(expected = "share a name")]
    fn two_of_one_name() {
        read(&format!("cases = 2\n{ONE}{ONE}"));
    }

    #[test]
    #[should_panic(expected = "a golden case has source")]
    fn no_source() {
        read(&format!("cases = 1\n{}", ONE.replace("worked by hand", " ")));
    }
}
