use crate::error::Kind;
use crate::number::text;
use crate::{Error, Exact, Parity, bounds};
use alloc::format;
use alloc::string::ToString;
use core::fmt;
use core::str::FromStr;

/// Which counts a stitch pattern allows: a multiple, plus an extra, plus edge
/// stitches at each side.
///
/// The allowed counts are `multiple * k + extra + 2 * edge` for every `k` from a
/// least number of repeats upwards. Parity is a repeat too: [`Repeat::even`] and
/// [`Repeat::odd`].
///
/// # Examples
/// ```
/// use loopwright_gauge::Repeat;
/// let six_plus_two = Repeat::multiple_of(6)?.plus(2)?;
/// assert!(six_plus_two.allows(14) && !six_plus_two.allows(2));
/// # Ok::<(), loopwright_gauge::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(try_from = "Raw", into = "Raw"))]
pub struct Repeat {
    multiple: u32,
    extra: u32,
    edge: u32,
    least: u32,
}

impl Repeat {
    /// Any count at all.
    #[must_use]
    pub const fn any() -> Self {
        Self { multiple: 1, extra: 0, edge: 0, least: 0 }
    }

    /// Even counts, from two.
    #[must_use]
    pub const fn even() -> Self {
        Self { multiple: 2, extra: 0, edge: 0, least: 1 }
    }

    /// Odd counts, from one.
    #[must_use]
    pub const fn odd() -> Self {
        Self { multiple: 2, extra: 1, edge: 0, least: 0 }
    }

    /// Whole repeats of `multiple`, at least one of them.
    ///
    /// # Errors
    /// When `multiple` is zero or above [`bounds::REPEAT`].
    pub fn multiple_of(multiple: u32) -> Result<Self, Error> {
        Self::new(multiple, 0, 0)
    }

    /// Whole repeats of `multiple`, at least one, with `extra` once and `edge` at
    /// each side.
    ///
    /// # Errors
    /// When `multiple` is zero or any number is above [`bounds::REPEAT`].
    pub fn new(multiple: u32, extra: u32, edge: u32) -> Result<Self, Error> {
        check("the multiple of the repeat", multiple, 1)?;
        check("the extra of the repeat", extra, 0)?;
        check("the edge of the repeat", edge, 0)?;
        Ok(Self { multiple, extra, edge, least: 1 })
    }

    /// The same repeat with `extra` added once.
    ///
    /// # Errors
    /// When `extra` is above [`bounds::REPEAT`].
    pub fn plus(self, extra: u32) -> Result<Self, Error> {
        Self::new(self.multiple, extra, self.edge)
            .map(|checked| Self { least: self.least, ..checked })
    }

    /// The same repeat with at least `least` whole repeats; 0 allows none.
    ///
    /// # Errors
    /// When `least` is above [`bounds::REPEAT`].
    pub fn at_least(self, least: u32) -> Result<Self, Error> {
        check("the least number of repeats", least, 0)?;
        Ok(Self { least, ..self })
    }

    /// The multiple.
    #[must_use]
    pub const fn multiple(self) -> u32 {
        self.multiple
    }

    /// What is added once.
    #[must_use]
    pub const fn extra(self) -> u32 {
        self.extra
    }

    /// What is added at each side.
    #[must_use]
    pub const fn edge(self) -> u32 {
        self.edge
    }

    /// The least number of whole repeats.
    #[must_use]
    pub const fn least(self) -> u32 {
        self.least
    }

    /// What a count has beyond its whole repeats.
    #[must_use]
    pub const fn offset(self) -> u32 {
        self.extra + 2 * self.edge
    }

    /// Only its counts of one parity; `None` when it has none of them, or they would be a
    /// multiple beyond [`bounds::REPEAT`].
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::{Parity, Repeat};
    /// let threes = Repeat::multiple_of(3)?;
    /// let odd = threes.with_parity(Parity::Odd).unwrap();
    /// assert!(odd.allows(3) && odd.allows(9) && !odd.allows(6));
    /// assert_eq!(Repeat::multiple_of(4)?.with_parity(Parity::Odd), None);
    /// # Ok::<(), loopwright_gauge::Error>(())
    /// ```
    #[must_use]
    pub fn with_parity(self, parity: Parity) -> Option<Self> {
        let smallest = Parity::of(self.smallest());
        let first = if smallest == parity { self.least } else { self.least + 1 };
        let fits = Parity::of(self.offset() + self.multiple * first) == parity;
        let step = if self.multiple.is_multiple_of(2) { 1 } else { 2 };
        if fits { self.every(step, first).ok() } else { None }
    }

    /// Every `step`th count from the one with `least` repeats on.
    fn every(self, step: u32, least: u32) -> Result<Self, Error> {
        let extra = self.extra + self.multiple * (least % step);
        Self::new(self.multiple * step, extra, self.edge)?.at_least(least / step)
    }

    /// The smallest count allowed.
    #[must_use]
    pub const fn smallest(self) -> u32 {
        self.multiple * self.least + self.offset()
    }

    /// Whether `count` is one of the allowed counts.
    #[must_use]
    pub const fn allows(self, count: u32) -> bool {
        count >= self.smallest() && (count - self.offset()).is_multiple_of(self.multiple)
    }
}

fn check(what: &'static str, given: u32, least: u32) -> Result<(), Error> {
    if (least..=bounds::REPEAT).contains(&given) {
        return Ok(());
    }
    let allowed = format!("in {least}..={}", bounds::REPEAT);
    Err(Kind::Range { what, given: given.to_string(), allowed }.into())
}

/// In the trade's words: `multiple of 6 plus 2, with 1 at each edge`. What does not have
/// at least one repeat says so; any, even and odd counts have names of their own.
impl fmt::Display for Repeat {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if let Some((name, _)) = NAMED.iter().find(|(_, repeat)| repeat == self) {
            return f.write_str(name);
        }
        write!(f, "multiple of {}", self.multiple)?;
        if self.extra > 0 {
            write!(f, " plus {}", self.extra)?;
        }
        if self.edge > 0 {
            write!(f, ", with {} at each edge", self.edge)?;
        }
        match self.least {
            1 => Ok(()),
            least => write!(f, ", from {least} repeats up"),
        }
    }
}

const NAMED: [(&str, Repeat); 3] =
    [("any count", Repeat::any()), ("even count", Repeat::even()), ("odd count", Repeat::odd())];
const WHAT: &str = "the repeat";
const FORMS: &str = "write one such as 6, 6+2, multiple of 6 plus 2, with 1 at each edge, \
                     or any, even or odd";

/// It reads what it prints, and `6`, `6+2`, `6 plus 2`, `any`, `even` and `odd`.
impl FromStr for Repeat {
    type Err = Error;

    fn from_str(given: &str) -> Result<Self, Error> {
        let refuse = || Error::parse(WHAT, given, FORMS);
        let plain = given.trim().to_ascii_lowercase();
        let named = |(name, _): &&(&str, Self)| {
            plain == *name || Some(plain.as_str()) == name.strip_suffix(" count")
        };
        if let Some((_, repeat)) = NAMED.iter().find(named) {
            return Ok(*repeat);
        }
        let mut parts = plain.split(',').map(str::trim);
        let multiple = parts.next().unwrap_or_default();
        let (multiple, extra) =
            sum(multiple.trim_start_matches("multiple of ")).ok_or_else(refuse)?;
        let mut repeat = Self::new(multiple, extra, 0)?;
        for part in parts {
            repeat = repeat.qualified(part).ok_or_else(refuse)??;
        }
        Ok(repeat)
    }
}

impl Repeat {
    /// The same with what follows a comma.
    fn qualified(self, part: &str) -> Option<Result<Self, Error>> {
        if let Some(edge) = part.strip_prefix("with ").and_then(|p| p.strip_suffix(" at each edge"))
        {
            let edge = whole(edge)?;
            let least = self.least;
            return Some(Self::new(self.multiple, self.extra, edge).map(|r| Self { least, ..r }));
        }
        let least = part.strip_prefix("from ")?.strip_suffix(" repeats up")?;
        Some(self.at_least(whole(least)?))
    }
}

/// `6`, `6+2` and `6 plus 2`.
fn sum(part: &str) -> Option<(u32, u32)> {
    let (multiple, extra) = match part.split_once('+').or_else(|| part.split_once(" plus ")) {
        Some((multiple, extra)) => (multiple.trim_end(), whole(extra.trim_start())?),
        None => (part, 0),
    };
    Some((whole(multiple)?, extra))
}

fn whole(part: &str) -> Option<u32> {
    match text::leading(part) {
        Ok((number, "")) if number.is_whole() => u32::try_from(Exact::numer(number)).ok(),
        _ => None,
    }
}

/// A repeat as it is written.
#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
struct Raw {
    #[cfg_attr(feature = "schema", schemars(range(min = 1, max = 10_000)))]
    multiple: u32,
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(range(max = 10_000)))]
    extra: u32,
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(range(max = 10_000)))]
    edge: u32,
    #[serde(default = "one")]
    #[cfg_attr(feature = "schema", schemars(range(max = 10_000)))]
    least: u32,
}

#[cfg(feature = "schema")]
const _: () = assert!(bounds::REPEAT == 10_000, "the schema above says so");

#[cfg(feature = "serde")]
const fn one() -> u32 {
    1
}

#[cfg(feature = "serde")]
impl TryFrom<Raw> for Repeat {
    type Error = Error;

    fn try_from(raw: Raw) -> Result<Self, Error> {
        Self::new(raw.multiple, raw.extra, raw.edge)?.at_least(raw.least)
    }
}

#[cfg(feature = "serde")]
impl From<Repeat> for Raw {
    fn from(repeat: Repeat) -> Self {
        let Repeat { multiple, extra, edge, least } = repeat;
        Self { multiple, extra, edge, least }
    }
}
