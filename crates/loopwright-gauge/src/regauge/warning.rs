use crate::{Count, Parity, Repeat};
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;
use core::fmt;

/// Something that held among the published counts and no longer would.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Stitches, Warning};
/// let warning = Warning::Sum::<Stitches> {
///     parts: vec!["front".into(), "back".into()],
///     whole: "body".into(),
///     missing: -1,
/// };
/// assert_eq!(warning.to_string(), "front + back would be 1 over body");
/// ```
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(
    feature = "serde",
    serde(
        rename_all = "snake_case",
        deny_unknown_fields,
        bound(
            serialize = "C: Count + serde::Serialize",
            deserialize = "C: Count + serde::Deserialize<'de>"
        )
    )
)]
#[non_exhaustive]
pub enum Warning<C> {
    /// The published count is no count of its own repeat.
    Repeat {
        /// The number's name.
        name: String,
        /// The published count.
        published: C,
        /// What it was said to be.
        repeat: Repeat,
    },
    /// An even count would become odd, or an odd one even.
    Parity {
        /// The number's name.
        name: String,
        /// The published count.
        published: C,
        /// The count it would become.
        count: C,
        /// The count that keeps both parity and repeat, rounded the same way, if there is
        /// one.
        keeps: Option<C>,
    },
    /// Counts that added up would not.
    Sum {
        /// The names of what is added up.
        parts: Vec<String>,
        /// The name of what it came to.
        whole: String,
        /// The whole less its parts at the new gauge: below zero the parts are too many.
        missing: i64,
    },
}

impl<C: Count> fmt::Display for Warning<C> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Repeat { name, published, repeat } => {
                write_name(f, name, *published)?;
                write!(f, "{published} does not fit its repeat, {repeat}")
            }
            Self::Parity { name, published, count, keeps } => {
                let (was, is) = (Parity::of(*published), Parity::of(*count));
                write_name(f, name, *published)?;
                write!(f, "{published} is {was}, but {count} would be {is}; ")?;
                match keeps {
                    Some(keeps) => write!(f, "{keeps} keeps it {was}"),
                    None => write!(f, "its repeat has no {was} count that would do"),
                }
            }
            Self::Sum { parts, whole, missing } => {
                let (by, side) =
                    (missing.unsigned_abs(), if *missing > 0 { "short of" } else { "over" });
                write!(f, "{} would be {by} {side} {whole}", parts.join(" + "))
            }
        }
    }
}

/// A number that is called by its count needs no name.
fn write_name<C: Count>(f: &mut fmt::Formatter<'_>, name: &str, published: C) -> fmt::Result {
    if name == format!("{published}") { Ok(()) } else { write!(f, "{name}: ") }
}
