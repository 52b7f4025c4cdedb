use crate::error::Error;
#[cfg(feature = "serde")]
use alloc::string::ToString;
use core::fmt;
use core::str::FromStr;
use loopwright_gauge::Stitches;

/// How much may be shaped at once, outside the rows of a curve.
///
/// It is written `nothing`, `nearest`, `12`, or `at least 12`.
///
/// # Examples
/// ```
/// use loopwright_gauge::Stitches;
/// use loopwright_shaping::AtOnce;
/// let centre: AtOnce = "at least 11".parse()?;
/// assert_eq!(centre, AtOnce::AtLeast(Stitches::new(11)?));
/// assert_eq!("At-Least-11".parse::<AtOnce>()?.to_string(), "at least 11");
/// # Ok::<(), loopwright_shaping::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Default, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(
    feature = "serde",
    serde(try_from = "alloc::string::String", into = "alloc::string::String")
)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub enum AtOnce {
    /// Nothing.
    #[default]
    Nothing,
    /// As many stitches as bring the staircase nearest to its outline.
    Nearest,
    /// Exactly so many stitches.
    Exactly(Stitches),
    /// As many as are nearest, but at least so many.
    AtLeast(Stitches),
}

impl fmt::Display for AtOnce {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Nothing => f.write_str("nothing"),
            Self::Nearest => f.write_str("nearest"),
            Self::Exactly(n) => n.fmt(f),
            Self::AtLeast(n) => write!(f, "at least {n}"),
        }
    }
}

impl FromStr for AtOnce {
    type Err = Error;

    fn from_str(text: &str) -> Result<Self, Error> {
        let plain = text.trim().to_ascii_lowercase().replace(['-', '_'], " ");
        match plain.as_str() {
            "nothing" => return Ok(Self::Nothing),
            "nearest" => return Ok(Self::Nearest),
            _ => {}
        }
        let (least, count) = match plain.strip_prefix("at least ") {
            Some(count) => (true, count),
            None => (false, plain.as_str()),
        };
        if !count.starts_with(|c: char| c.is_ascii_digit()) {
            let given = text.chars().take(40).collect::<alloc::string::String>();
            let allowed = "nothing, nearest, a count of stitches, or at least and a count";
            return Err(Error::range("what is shaped at once", &given, allowed));
        }
        let count = count.parse()?;
        Ok(if least { Self::AtLeast(count) } else { Self::Exactly(count) })
    }
}

#[cfg(feature = "serde")]
impl TryFrom<alloc::string::String> for AtOnce {
    type Error = Error;

    fn try_from(text: alloc::string::String) -> Result<Self, Error> {
        text.parse()
    }
}

#[cfg(feature = "serde")]
impl From<AtOnce> for alloc::string::String {
    fn from(at_once: AtOnce) -> Self {
        at_once.to_string()
    }
}
