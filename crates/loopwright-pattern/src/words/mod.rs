//! Instructions in words, made from what the replay knitted.
//!
//! Two voices from the same log: at the machine (needles, carriage side, row counter)
//! and by hand (right-side and wrong-side rows). Every line closes with what the
//! knitter can check: the row, the side, and the stitches on the needles.

mod acts;
mod dialect;
mod hand;
mod machine;
mod phrase;
mod rib;

pub use dialect::Dialect;

use crate::{Entry, Knitted, Side};
use acts::acts;
use alloc::string::{String, ToString};
use alloc::vec::Vec;
use core::fmt;
use loopwright_gauge::{Rows, Stitches};

/// A piece in words.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Rows, Stitches};
/// use loopwright_pattern::{Craft, Fabric, Piece, Side, Step, words};
/// let mut piece = Piece::new("swatch", Craft::Hand)?;
/// piece.push(Step::cast_on(Stitches::new(30)?, Fabric::Garter, Side::Right));
/// piece.push(Step::bind_off_all("top"));
/// let told = words::instructions(&piece.replay()?);
/// assert_eq!((told.title.as_str(), told.lines.len()), ("swatch", 2));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(deny_unknown_fields)
)]
#[non_exhaustive]
pub struct Instructions {
    /// What the piece is called.
    pub title: String,
    /// What to do, in order.
    pub lines: Vec<Line>,
}

/// One thing to do, and what to check when it is done.
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(deny_unknown_fields)
)]
#[non_exhaustive]
pub struct Line {
    /// What to do.
    pub text: String,
    /// The row counter when it is done.
    pub row: Rows,
    /// Where the carriage, or the working yarn, is then.
    pub carriage: Side,
    /// How many stitches of the part are on the needles then.
    pub stitches: Stitches,
    /// What to check, in words.
    pub check: String,
}

/// Writes the instructions for a piece in the voice of its craft, in American words.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Rows, Stitches};
/// use loopwright_pattern::{Craft, Fabric, Piece, Side, Step, words};
///
/// let mut piece = Piece::new("swatch", Craft::Hand)?;
/// piece.push(Step::cast_on(Stitches::new(30)?, Fabric::Garter, Side::Right));
/// piece.push(Step::Knit(Rows::new(60)?));
/// piece.push(Step::bind_off_all("top"));
/// let instructions = words::instructions(&piece.replay()?);
/// assert_eq!(instructions.lines[1].text, "Work 60 rows.");
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[must_use]
pub fn instructions(knitted: &Knitted) -> Instructions {
    instructions_in(knitted, Dialect::American)
}

/// The same in American or British words.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Rows, Stitches};
/// use loopwright_pattern::words::{Dialect, instructions_in};
/// use loopwright_pattern::{Craft, Fabric, Piece, Side, Step};
/// let mut piece = Piece::new("swatch", Craft::Hand)?;
/// piece.push(Step::cast_on(Stitches::new(30)?, Fabric::Garter, Side::Right));
/// piece.push(Step::bind_off_all("top"));
/// let told = instructions_in(&piece.replay()?, Dialect::British);
/// assert!(told.lines[1].text.starts_with("Cast off all stitches (top)."));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[must_use]
pub fn instructions_in(knitted: &Knitted, dialect: Dialect) -> Instructions {
    let machine = knitted.craft.is_machine();
    let lines = acts(knitted)
        .iter()
        .map(|act| {
            let (text, check) = if machine {
                (machine::say(knitted, act, dialect), machine::check(act.end))
            } else {
                (hand::say(knitted, act, dialect), hand::check(act.end))
            };
            line(text, check, act.end)
        })
        .collect();
    Instructions { title: knitted.name.to_string(), lines }
}

/// Each of some entries in words, one after the other.
pub(crate) fn told(knitted: &Knitted, entries: &[Entry], dialect: Dialect) -> String {
    let mut before = None;
    let mut text = String::new();
    for entry in entries {
        let act = acts::Act { kind: acts::ActKind::Single, before, begin: entry, end: entry };
        if !text.is_empty() {
            text.push(' ');
        }
        text.push_str(&if knitted.craft.is_machine() {
            machine::say(knitted, &act, dialect)
        } else {
            hand::say(knitted, &act, dialect)
        });
        before = Some(entry);
    }
    text
}

fn line(text: String, check: String, end: &Entry) -> Line {
    Line { text, row: end.row, carriage: end.carriage, stitches: end.stitches, check }
}

impl fmt::Display for Instructions {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        writeln!(f, "{}", self.title.to_uppercase())?;
        for (number, line) in self.lines.iter().enumerate() {
            writeln!(f, "{:>3}. {}", number + 1, line.text)?;
            if !line.check.is_empty() {
                writeln!(f, "     [{}]", line.check)?;
            }
        }
        Ok(())
    }
}
