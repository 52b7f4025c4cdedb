use crate::Error;
use crate::error::Kind;
use core::fmt;
use loopwright_gauge::Side;

/// One side or both.
///
/// # Examples
/// ```
/// use loopwright_pattern::{Side, Sides};
/// assert_ne!(Sides::One(Side::Left), Sides::Both);
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(rename_all = "snake_case")
)]
pub enum Sides {
    /// This side only.
    One(Side),
    /// Both sides.
    Both,
}

impl Sides {
    /// The sides meant, left first.
    pub(crate) const fn each(self) -> &'static [Side] {
        match self {
            Self::One(Side::Left) => &[Side::Left],
            Self::One(Side::Right) => &[Side::Right],
            Self::Both => &[Side::Left, Side::Right],
        }
    }
}

/// A needle, numbered from the centre outwards: `L1`, `L2`, ... and `R1`, `R2`, ...
///
/// # Examples
/// ```
/// use loopwright_pattern::Needle;
/// assert_eq!(Needle::at(-40).to_string(), "L40");
/// assert_eq!(Needle::at(0).to_string(), "R1");
/// assert_eq!("L40".parse(), Ok(Needle::at(-40)));
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, Ord, PartialEq, PartialOrd)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(try_from = "alloc::string::String", into = "alloc::string::String")
)]
pub struct Needle(i64);

impl Needle {
    /// The needle at a place along the bed: -1 is `L1`, 0 is `R1`, 1 is `R2`.
    #[must_use]
    pub const fn at(place: i64) -> Self {
        Self(place)
    }

    /// Its place along the bed.
    #[must_use]
    pub const fn place(self) -> i64 {
        self.0
    }
}

impl core::str::FromStr for Needle {
    type Err = Error;

    fn from_str(text: &str) -> Result<Self, Error> {
        let wrong = || Kind::NeedleName { given: text.chars().take(20).collect() };
        let number = |digits: &str| {
            let digits = Some(digits).filter(|digits| digits.bytes().all(|c| c.is_ascii_digit()));
            digits.and_then(|digits| digits.parse::<u32>().ok()).filter(|&n| n > 0)
        };
        let place = match text.split_at_checked(1) {
            Some(("L" | "l", digits)) => number(digits).map(|n| -i64::from(n)),
            Some(("R" | "r", digits)) => number(digits).map(|n| i64::from(n) - 1),
            _ => None,
        };
        Ok(Self(place.ok_or_else(wrong)?))
    }
}

impl TryFrom<alloc::string::String> for Needle {
    type Error = Error;

    fn try_from(text: alloc::string::String) -> Result<Self, Error> {
        text.parse()
    }
}

impl From<Needle> for alloc::string::String {
    fn from(needle: Needle) -> Self {
        alloc::format!("{needle}")
    }
}

impl fmt::Display for Needle {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.0 {
            ..0 => write!(f, "L{}", self.0.unsigned_abs()),
            _ => write!(f, "R{}", self.0.unsigned_abs() + 1),
        }
    }
}

/// A needle bed: so many needles left and right of its centre.
///
/// # Examples
/// ```
/// use loopwright_pattern::Bed;
/// assert_eq!(Bed::of_needles(201)?.left(), 101);
/// assert!(Bed::of_needles(0).is_err());
/// # Ok::<(), loopwright_pattern::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(try_from = "u32", into = "u32")
)]
pub struct Bed {
    left: u32,
    right: u32,
}

impl Bed {
    /// The largest bed, in needles.
    pub const MOST: u32 = 10_000;

    /// A bed of `needles`; an odd one out is at the left.
    ///
    /// # Errors
    /// When there are no needles or more than [`Bed::MOST`].
    pub fn of_needles(needles: u32) -> Result<Self, Error> {
        if !(1..=Self::MOST).contains(&needles) {
            return Err(Kind::BedSize { given: needles, most: Self::MOST }.into());
        }
        Ok(Self { left: needles - needles / 2, right: needles / 2 })
    }

    /// How many needles the bed has.
    #[must_use]
    pub const fn needles(self) -> u32 {
        self.left + self.right
    }

    /// How many needles are left of its centre.
    #[must_use]
    pub const fn left(self) -> u32 {
        self.left
    }

    /// How many needles are right of its centre.
    #[must_use]
    pub const fn right(self) -> u32 {
        self.right
    }

    pub(crate) fn holds(self, first: i64, last: i64) -> bool {
        first >= -i64::from(self.left) && last < i64::from(self.right)
    }
}

impl TryFrom<u32> for Bed {
    type Error = Error;

    fn try_from(needles: u32) -> Result<Self, Error> {
        Self::of_needles(needles)
    }
}

impl From<Bed> for u32 {
    fn from(bed: Bed) -> Self {
        bed.needles()
    }
}

/// What the piece is knitted on.
///
/// # Examples
/// ```
/// use loopwright_pattern::{Bed, Craft};
/// assert!(Craft::Machine(Bed::of_needles(200)?).is_machine());
/// assert!(!Craft::Hand.is_machine());
/// # Ok::<(), loopwright_pattern::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(rename_all = "snake_case")
)]
pub enum Craft {
    /// A machine with this bed.
    Machine(Bed),
    /// Two needles, knitted back and forth, as wide as wanted.
    Hand,
}

impl Craft {
    /// Whether the knitter has a needle bed, a carriage and a row counter.
    #[must_use]
    pub const fn is_machine(self) -> bool {
        matches!(self, Self::Machine(_))
    }
}
