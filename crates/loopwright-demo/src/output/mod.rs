//! The one place through which all that the program prints passes.

mod save;

use crate::Outcome;
use core::fmt::Write as _;
use std::io::{ErrorKind, Write};

pub(crate) use save::save;

/// Longer echoes of what was typed are cut to this many characters.
const ECHO: usize = 80;
/// A sentence on standard error is cut in its middle beyond this many.
const SENTENCE: usize = 4_000;

/// The text with every character escaped that would steer a terminal or turn the
/// direction of reading; lines stay lines.
pub(crate) fn shown(text: &str) -> String {
    escaped(
        text,
        |character| character != '\n',
        |out, character| {
            let _ = write!(out, "{}", character.escape_unicode());
        },
    )
}

/// The same on one line: a line break in a name or title is escaped too.
pub(crate) fn one_line(text: &str) -> String {
    escaped(
        text,
        |_| true,
        |out, character| {
            let _ = write!(out, "{}", character.escape_default());
        },
    )
}

/// A JSON document with the same characters escaped as JSON escapes them; they can
/// stand in its strings alone.
pub(crate) fn shown_json(text: &str) -> String {
    escaped(
        text,
        |character| character != '\n',
        |out, character| {
            for unit in character.encode_utf16(&mut [0; 2]) {
                let _ = write!(out, "\\u{unit:04x}");
            }
        },
    )
}

fn escaped(text: &str, also: fn(char) -> bool, escape: fn(&mut String, char)) -> String {
    let mut out = String::with_capacity(text.len());
    for character in text.chars() {
        if steers(character) && also(character) {
            escape(&mut out, character);
        } else {
            out.push(character);
        }
    }
    out
}

/// Controls, line and paragraph separators, and the format characters that turn the
/// direction of reading or cannot be seen (Unicode 16, `Bidi_Control` and
/// `Default_Ignorable_Code_Point`, but for the joiners that scripts need).
const fn steers(character: char) -> bool {
    matches!(character,
        '\0'..='\u{1f}' | '\u{7f}'..='\u{9f}' | '\u{ad}' | '\u{61c}' | '\u{180e}'
        | '\u{200b}' | '\u{200e}' | '\u{200f}' | '\u{2028}'..='\u{202e}'
        | '\u{2060}'..='\u{206f}' | '\u{feff}' | '\u{fff9}'..='\u{fffb}'
        | '\u{e0000}'..='\u{e007f}')
}

/// An echo of what was typed, cut short.
pub(crate) fn short(text: &str) -> String {
    if text.chars().count() <= ECHO {
        return text.to_owned();
    }
    let start: String = text.chars().take(ECHO - 20).collect();
    format!("{start}... ({} characters)", text.chars().count())
}

/// One sentence for standard error: on one line, its quoted echoes cut short.
pub(crate) fn sentence(text: &str) -> String {
    let parts = text.split('"').enumerate().map(|(at, part)| {
        // Every second part stands between quotation marks.
        if at % 2 == 1 { short(part) } else { part.to_owned() }
    });
    let text = one_line(&parts.collect::<Vec<_>>().join("\""));
    let count = text.chars().count();
    if count <= SENTENCE {
        return text;
    }
    let start: String = text.chars().take(SENTENCE / 2).collect();
    let end: String = text.chars().skip(count - SENTENCE / 2).collect();
    format!("{start} ... {end}")
}

impl Outcome {
    /// Writes what the run says, and gives the code to exit with: its own, or 1 where the
    /// answer could not be written. A closed pipe is the reader's choice, and stays quiet.
    pub fn write(&self, stdout: &mut impl Write, stderr: &mut impl Write) -> u8 {
        let told = stdout.write_all(self.stdout.as_bytes()).and_then(|()| stdout.flush());
        let _ = stderr.write_all(self.stderr.as_bytes()).and_then(|()| stderr.flush());
        match told {
            Err(error) if error.kind() != ErrorKind::BrokenPipe => {
                let _ = writeln!(stderr, "the answer cannot be written: {error}");
                self.code.max(1)
            }
            _ => self.code,
        }
    }
}
