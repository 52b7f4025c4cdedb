use crate::error::Kind;
use crate::{Error, bounds};
use alloc::format;
use alloc::string::ToString;
use core::fmt;

mod sealed {
    #[expect(unnameable_types, reason = "the seal: no other crate may count")]
    pub trait Sealed {}
}

/// A count that a length can be fitted to: [`Stitches`] or [`Rows`].
pub trait Count: sealed::Sealed + Copy + fmt::Debug + Eq + Ord + fmt::Display {
    /// What is counted, in the plural.
    const NAME: &'static str;

    /// How an error names it, such as "the count of stitches".
    const OF: &'static str;

    /// A count of `n`.
    ///
    /// # Errors
    /// When `n` is above [`bounds::COUNT`].
    fn new(n: u32) -> Result<Self, Error>;

    /// The plain number.
    fn get(self) -> u32;
}

pub(crate) fn check(what: &'static str, n: i128) -> Result<u32, Error> {
    u32::try_from(n).ok().filter(|&n| n <= bounds::COUNT).ok_or_else(|| {
        let allowed = format!("in 0..={}", bounds::COUNT);
        Kind::Range { what, given: n.to_string(), allowed }.into()
    })
}

macro_rules! counts {
    ($($(#[$doc:meta])* $name:ident, $plural:literal, $of:literal;)*) => {$(
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, Default, Eq, Hash, Ord, PartialEq, PartialOrd)]
        #[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
        #[cfg_attr(feature = "serde", serde(try_from = "u32", into = "u32"))]
        pub struct $name(u32);

        impl $name {
            /// None.
            pub const ZERO: Self = Self(0);

            /// A count of `n`.
            ///
            /// # Errors
            /// When `n` is above [`bounds::COUNT`].
            pub fn new(n: u32) -> Result<Self, Error> {
                check($of, n.into()).map(Self)
            }

            /// The plain number.
            #[must_use]
            pub const fn get(self) -> u32 {
                self.0
            }

            /// The sum.
            ///
            /// # Errors
            /// When the sum is above [`bounds::COUNT`].
            pub fn checked_add(self, rhs: Self) -> Result<Self, Error> {
                check($of, i128::from(self.0) + i128::from(rhs.0)).map(Self)
            }

            /// The difference.
            ///
            /// # Errors
            /// When `rhs` is the larger.
            pub fn checked_sub(self, rhs: Self) -> Result<Self, Error> {
                check($of, i128::from(self.0) - i128::from(rhs.0)).map(Self)
            }
        }

        impl sealed::Sealed for $name {}

        impl Count for $name {
            const NAME: &'static str = $plural;
            const OF: &'static str = $of;

            fn new(n: u32) -> Result<Self, Error> {
                Self::new(n)
            }

            fn get(self) -> u32 {
                self.0
            }
        }

        impl TryFrom<u32> for $name {
            type Error = Error;
            fn try_from(n: u32) -> Result<Self, Error> {
                Self::new(n)
            }
        }

        impl From<$name> for u32 {
            fn from(count: $name) -> Self {
                count.0
            }
        }

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                fmt::Display::fmt(&self.0, f)
            }
        }
    )*};
}

counts! {
    /// A count of stitches, which on a machine is a count of needles.
    Stitches, "stitches", "the count of stitches";
    /// A count of rows, as the row counter shows it: the cast-on is no row.
    Rows, "rows", "the count of rows";
}
