use crate::{EdgeCount, Error, PickUpGroup, PickUpSpacing, Placement, bounds};
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;
use loopwright_gauge::Stitches;
use loopwright_gauge::english::{counted, plural, times};

/// Two unequal counts sewn together: one to one, but now and then two of the longer
/// side to one of the shorter.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Rows, Stitches};
/// use loopwright_seams::Pairing;
/// // 60 stitches sewn to 84 rows: of every 5 stitches two take two rows.
/// let pairing = Pairing::new(Stitches::new(60)?, Rows::new(84)?)?;
/// assert_eq!(pairing.each().take(5).collect::<Vec<_>>(), [1, 2, 1, 1, 2]);
/// assert_eq!(
///     pairing.words("armhole"),
///     "one to one, with 1 row more of the armhole after every 2 or 3, 24 in all",
/// );
/// # Ok::<(), loopwright_seams::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(try_from = "Raw", into = "Raw"))]
pub struct Pairing {
    first: EdgeCount,
    second: EdgeCount,
    placement: Placement,
}

impl Pairing {
    /// Sews the `first` rows or stitches to the `second`.
    ///
    /// # Errors
    /// When either is zero or above [`bounds::PLACES`], or one is more than twice the
    /// other: that is gathering, and is eased by length.
    pub fn new(first: impl Into<EdgeCount>, second: impl Into<EdgeCount>) -> Result<Self, Error> {
        let (first, second) = (first.into(), second.into());
        for (what, given) in [("the first count", first.get()), ("the second count", second.get())]
        {
            if !(1..=bounds::PLACES).contains(&given) {
                return Err(Error::range(what, given, format!("in 1..={}", bounds::PLACES)));
            }
        }
        let longer = first.get() > second.get();
        let (more, fewer) = if longer { (first, second) } else { (second, first) };
        if more.get() > 2 * fewer.get() {
            let allowed = format!("at most {}, twice the other side", 2 * fewer.get());
            return Err(Error::range("the longer side of a seam", more.get(), allowed));
        }
        // Groups each closed by its double: a seam that starts with a double puckers.
        let more = Stitches::new(more.get())?;
        let placement = Placement::new(fewer, more, PickUpSpacing::Round)?;
        Ok(Self { first, second, placement })
    }

    /// The rows or stitches of the first side.
    #[must_use]
    pub const fn first(self) -> EdgeCount {
        self.first
    }

    /// The rows or stitches of the second side.
    #[must_use]
    pub const fn second(self) -> EdgeCount {
        self.second
    }

    /// Whether the first side is the longer.
    #[must_use]
    pub const fn first_is_longer(self) -> bool {
        self.first.get() > self.second.get()
    }

    /// How often two are taken at once of the longer side.
    #[must_use]
    pub const fn doubles(self) -> u32 {
        self.first.get().abs_diff(self.second.get())
    }

    /// How many of the longer side are taken for each one of the shorter: 1 or 2.
    pub fn each(self) -> impl Iterator<Item = u8> {
        self.placement.each()
    }

    /// Runs of one to one, each closed by `extra` more of the longer side.
    #[must_use]
    pub fn groups(self) -> Vec<PickUpGroup> {
        self.placement.groups()
    }

    /// The seam in words: "one to one, with 1 row more of the back after every 12, 4 in
    /// all".
    #[must_use]
    pub fn words(self, longer: &str) -> String {
        let doubles = self.doubles();
        if doubles == 0 {
            return format!("one to one, {}", times(self.first.get()));
        }
        let counts = if self.first_is_longer() { self.first } else { self.second };
        let one = crate::edge::one(counts.direction());
        let (least, most) = self
            .groups()
            .iter()
            .filter(|run| !run.extra.is_zero())
            .fold((u32::MAX, 0), |(least, most), run| {
                (least.min(run.pick.get()), most.max(run.pick.get()))
            });
        if most == 1 && doubles == 1 && self.groups().len() == 1 {
            return format!("two {} of the {longer} to the one", plural(one));
        }
        if most == 1 {
            return format!("two {} of the {longer} to every one, {}", plural(one), times(doubles));
        }
        let after = match doubles {
            1 => format!("{most}, near the end"),
            _ if least == most => format!("every {most}, {doubles} in all"),
            _ if least == 1 => format!("every one or two, {doubles} in all"),
            _ => format!("every {least} or {most}, {doubles} in all"),
        };
        format!("one to one, with {} more of the {longer} after {after}", counted(1, one))
    }
}

/// A pairing as it is written.
#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
struct Raw {
    first: EdgeCount,
    second: EdgeCount,
}

#[cfg(feature = "serde")]
impl TryFrom<Raw> for Pairing {
    type Error = Error;

    fn try_from(raw: Raw) -> Result<Self, Error> {
        Self::new(raw.first, raw.second)
    }
}

#[cfg(feature = "serde")]
impl From<Pairing> for Raw {
    fn from(Pairing { first, second, .. }: Pairing) -> Self {
        Self { first, second }
    }
}
