//! The files the program reads: bounded before they are parsed, text in UTF-8, a
//! byte-order mark left off; "-" is standard input.

mod place;
mod tree;

use crate::answer::Failure;
use crate::output::{one_line, short};
use core::fmt::Display;
use core::ops::Range;
use place::Place;
use serde::de::DeserializeOwned;
use std::io::Read;
use std::path::Path;

/// The largest file read, in bytes. A plan has some 2,000, a file of 10,000 counts
/// about a million; a parser takes up to fifty times as much memory as its text.
const LARGEST: u64 = 1 << 20;

/// A file's text with the name it is called by in complaints.
pub(crate) struct Source {
    name: String,
    text: String,
}

impl Source {
    /// Reads the file at `path`, or standard input for "-".
    pub(crate) fn open(path: &Path) -> Result<Self, Failure> {
        if path == Path::new("-") {
            return Self::read("standard input".to_owned(), std::io::stdin().lock());
        }
        let name = path.display().to_string();
        match std::fs::File::open(path) {
            Ok(file) => Self::read(name, file),
            Err(error) => Err(cannot_be_read(&name, &error)),
        }
    }

    fn read(name: String, from: impl Read) -> Result<Self, Failure> {
        let mut bytes = Vec::new();
        let read = from.take(LARGEST + 1).read_to_end(&mut bytes);
        read.map_err(|error| cannot_be_read(&name, &error))?;
        if bytes.len() as u64 > LARGEST {
            return Err(Failure::Input(format!(
                "{name} is larger than {LARGEST} bytes, the most that is read; leave out what is not needed"
            )));
        }
        let text = String::from_utf8(bytes).map_err(|error| {
            let at = error.utf8_error().valid_up_to();
            Failure::Input(format!(
                "{name} is not a text file in UTF-8 (byte {at} does not belong); save it as UTF-8"
            ))
        })?;
        Ok(Self { name, text: text.strip_prefix('\u{feff}').map(str::to_owned).unwrap_or(text) })
    }

    /// The text, without a byte-order mark.
    pub(crate) fn text(&self) -> &str {
        &self.text
    }

    /// The file as a `T`: JSON where it starts with a brace, TOML otherwise.
    /// Numbers with a fraction are handed over as the text that was written, never as
    /// floats, and a key given twice is refused in both.
    pub(crate) fn parse<T: DeserializeOwned>(&self) -> Result<T, Failure> {
        let json = self.text.trim_start().starts_with('{');
        let tree = if json { tree::json(&self.text) } else { tree::toml(&self.text) };
        tree.and_then(|tree: Place| T::deserialize(&tree))
            .map_err(|wrong| self.refuse(wrong.span, &wrong.keys.join("."), wrong.why))
    }

    /// A complaint about a place in the file.
    pub(crate) fn refuse(
        &self,
        span: Option<Range<usize>>,
        key: &str,
        why: impl Display,
    ) -> Failure {
        let before = span.map_or(0, |span| span.start);
        let line = 1 + self.text.bytes().take(before).filter(|&byte| byte == b'\n').count();
        let key = if key.is_empty() { String::new() } else { format!(", {}", short(key)) };
        Failure::Input(format!("{}, line {line}{key}: {}", self.name, one_line(&why.to_string())))
    }
}

fn cannot_be_read(name: &str, error: &std::io::Error) -> Failure {
    Failure::Input(format!("{name} cannot be read: {error}; check the path"))
}
