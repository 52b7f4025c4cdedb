use crate::Error;
use crate::error::Kind;
use core::fmt;

/// A side of the work, as it faces the knitter at the machine; for hand knitting, as
/// seen from the right side.
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(rename_all = "snake_case")
)]
pub enum Side {
    /// Left of the needle bed's centre.
    Left,
    /// Right of the needle bed's centre.
    Right,
}

impl Side {
    /// The other side.
    #[must_use]
    pub const fn opposite(self) -> Self {
        match self {
            Self::Left => Self::Right,
            Self::Right => Self::Left,
        }
    }
}

impl fmt::Display for Side {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Left => "left",
            Self::Right => "right",
        })
    }
}

/// One side or both.
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
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, Ord, PartialEq, PartialOrd)]
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

impl fmt::Display for Needle {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.0 < 0 { write!(f, "L{}", -self.0) } else { write!(f, "R{}", self.0 + 1) }
    }
}

/// A needle bed: so many needles left and right of its centre.
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
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

    pub(crate) fn holds(self, first: i64, last: i64) -> bool {
        -first <= i64::from(self.left) && last < i64::from(self.right)
    }
}

/// What the piece is knitted on.
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
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
