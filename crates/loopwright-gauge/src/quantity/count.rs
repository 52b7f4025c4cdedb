use crate::english::counted;
use crate::error::Kind;
use crate::number::text;
use crate::{Error, Exact, ReadingDirection, bounds};
use alloc::format;
use alloc::string::ToString;
use core::fmt;
use core::hash::Hash;
use core::iter::Sum;
use core::str::FromStr;

mod sealed {
    #[expect(unnameable_types, reason = "the seal: no other crate may count")]
    pub trait Sealed {}
}

/// A count that a length can be fitted to: [`Stitches`] or [`Rows`].
///
/// Whatever can be asked of both is asked once, by the type of count.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Count, Gauge, Length, Repeat, Round, Rows, Stitches};
/// fn knit<C: Count>(gauge: Gauge, length: Length) -> Result<String, loopwright_gauge::Error> {
///     let count = gauge.fit::<C>(length, Repeat::any(), Round::HalfUp)?.count;
///     Ok(count.counted().to_string())
/// }
/// let gauge: Gauge = "28x40/10cm".parse()?;
/// assert_eq!(knit::<Stitches>(gauge, Length::cm(20)?)?, "56 stitches");
/// assert_eq!(knit::<Rows>(gauge, Length::cm(20)?)?, "80 rows");
/// # Ok::<(), loopwright_gauge::Error>(())
/// ```
pub trait Count:
    sealed::Sealed
    + Copy
    + fmt::Debug
    + Default
    + Eq
    + Hash
    + Ord
    + fmt::Display
    + FromStr<Err = Error>
    + TryFrom<u32, Error = Error>
    + TryFrom<Exact, Error = Error>
    + Into<u32>
    + Into<Exact>
    + Send
    + Sync
    + 'static
{
    /// What is counted, in the singular.
    const ONE: &'static str;

    /// What is counted, in the plural.
    const NAME: &'static str;

    /// How an error names it, such as "the count of stitches".
    const OF: &'static str;

    /// Which way of the fabric is counted.
    const DIRECTION: ReadingDirection;

    /// A count of `n`.
    ///
    /// # Errors
    /// When `n` is above [`bounds::COUNT`].
    fn new(n: u32) -> Result<Self, Error>;

    /// The plain number.
    fn get(self) -> u32;

    /// The sum.
    ///
    /// # Errors
    /// When the sum is above [`bounds::COUNT`].
    fn checked_add(self, rhs: Self) -> Result<Self, Error>;

    /// The difference.
    ///
    /// # Errors
    /// When `rhs` is the larger.
    fn checked_sub(self, rhs: Self) -> Result<Self, Error>;

    /// With what is counted: `1 row`, `24 stitches`.
    fn counted(self) -> impl fmt::Display {
        counted(self.get(), Self::ONE)
    }
}

pub(crate) fn check(what: &'static str, n: i128) -> Result<u32, Error> {
    u32::try_from(n).ok().filter(|&n| n <= bounds::COUNT).ok_or_else(|| {
        let allowed = format!("in 0..={}", bounds::COUNT);
        Kind::Range { what, given: n.to_string(), allowed }.into()
    })
}

macro_rules! counts {
    ($($(#[$doc:meta])* $name:ident, $one:literal, $plural:literal, $of:literal;)*) => {$(
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, Default, Eq, Hash, Ord, PartialEq, PartialOrd)]
        #[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
        #[cfg_attr(feature = "serde", serde(try_from = "u32", into = "u32"))]
        pub struct $name(u32);

        impl $name {
            /// None.
            pub const ZERO: Self = Self(0);

            /// One.
            pub const ONE: Self = Self(1);

            /// The most there may be.
            pub const MAX: Self = Self(bounds::COUNT);

            /// A count of `n`.
            ///
            /// # Errors
            /// When `n` is above [`bounds::COUNT`].
            pub fn new(n: u32) -> Result<Self, Error> {
                check($of, n.into()).map(Self)
            }

            /// A count of `n`, for tables and constants.
            ///
            /// # Panics
            /// When `n` is above [`bounds::COUNT`]. In a `const` the compiler says so.
            #[must_use]
            pub const fn literal(n: u32) -> Self {
                assert!(n <= bounds::COUNT, "a count within bounds");
                Self(n)
            }

            /// A count of `n`, or the most there may be where `n` is more: for numbers that
            /// are known to be within bounds.
            #[inline]
            #[must_use]
            pub const fn clamped(n: u32) -> Self {
                Self(if n < bounds::COUNT { n } else { bounds::COUNT })
            }

            /// The plain number.
            #[inline]
            #[must_use]
            pub const fn get(self) -> u32 {
                self.0
            }

            /// Whether there are none.
            #[must_use]
            pub const fn is_zero(self) -> bool {
                self.0 == 0
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

            /// So many times this count.
            ///
            /// # Errors
            /// When the product is above [`bounds::COUNT`].
            pub fn checked_mul(self, times: u32) -> Result<Self, Error> {
                check($of, i128::from(self.0) * i128::from(times)).map(Self)
            }

            /// The difference, but never below none.
            #[must_use]
            pub const fn saturating_sub(self, rhs: Self) -> Self {
                Self(self.0.saturating_sub(rhs.0))
            }

            /// All of them together.
            ///
            /// # Errors
            /// When the sum is above [`bounds::COUNT`].
            pub fn total(counts: impl IntoIterator<Item = Self>) -> Result<Self, Error> {
                counts.into_iter().try_fold(Self::ZERO, Self::checked_add)
            }
        }

        impl sealed::Sealed for $name {}

        impl Count for $name {
            const ONE: &'static str = $one;
            const NAME: &'static str = $plural;
            const OF: &'static str = $of;
            const DIRECTION: ReadingDirection = ReadingDirection::$name;

            fn new(n: u32) -> Result<Self, Error> {
                Self::new(n)
            }

            fn get(self) -> u32 {
                self.0
            }

            fn checked_add(self, rhs: Self) -> Result<Self, Error> {
                self.checked_add(rhs)
            }

            fn checked_sub(self, rhs: Self) -> Result<Self, Error> {
                self.checked_sub(rhs)
            }
        }

        impl TryFrom<u32> for $name {
            type Error = Error;
            fn try_from(n: u32) -> Result<Self, Error> {
                Self::new(n)
            }
        }

        impl TryFrom<u64> for $name {
            type Error = Error;
            fn try_from(n: u64) -> Result<Self, Error> {
                check($of, n.into()).map(Self)
            }
        }

        impl TryFrom<i64> for $name {
            type Error = Error;
            fn try_from(n: i64) -> Result<Self, Error> {
                check($of, n.into()).map(Self)
            }
        }

        impl TryFrom<usize> for $name {
            type Error = Error;
            fn try_from(n: usize) -> Result<Self, Error> {
                check($of, i128::try_from(n).unwrap_or(i128::MAX)).map(Self)
            }
        }

        /// A number that is not whole is refused: rounding is asked for elsewhere.
        impl TryFrom<Exact> for $name {
            type Error = Error;
            fn try_from(n: Exact) -> Result<Self, Error> {
                if n.is_whole() {
                    return check($of, n.numer().into()).map(Self);
                }
                Err(Kind::NotWhole { what: $of, given: n.to_string() }.into())
            }
        }

        impl From<$name> for u32 {
            fn from(count: $name) -> Self {
                count.0
            }
        }

        impl From<$name> for i64 {
            fn from(count: $name) -> Self {
                count.0.into()
            }
        }

        impl From<$name> for Exact {
            fn from(count: $name) -> Self {
                count.0.into()
            }
        }

        /// The sum of several; an `Err` when it is above [`bounds::COUNT`].
        impl Sum<$name> for Result<$name, Error> {
            fn sum<I: Iterator<Item = $name>>(counts: I) -> Self {
                $name::total(counts)
            }
        }

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                fmt::Display::fmt(&self.0, f)
            }
        }

        /// A plain number, or one with what is counted: `24`, `24 stitches`.
        impl FromStr for $name {
            type Err = Error;

            fn from_str(given: &str) -> Result<Self, Error> {
                read::<Self>(given)
            }
        }
    )*};
}

fn read<C: Count>(given: &str) -> Result<C, Error> {
    let forms = || format!("write a whole number such as 24, or 24 {}", C::NAME);
    let refuse = || Error::parse(C::OF, given, forms());
    let (number, rest) = text::leading(given.trim())
        .map_err(|fault| Error::parse(C::OF, given, fault.or_else(forms)))?;
    if !rest.is_empty() && rest.trim_start().parse() != Ok(C::DIRECTION) {
        return Err(refuse());
    }
    C::try_from(number).map_err(|why| if why.is_not_whole() { refuse() } else { why })
}

counts! {
    /// A count of stitches, which on a machine is a count of needles.
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::Stitches;
    /// const BED: Stitches = Stitches::literal(200);
    /// let body: Stitches = "146 stitches".parse()?;
    /// assert_eq!(BED.checked_sub(body)?, Stitches::new(54)?);
    /// # Ok::<(), loopwright_gauge::Error>(())
    /// ```
    Stitches, "stitch", "stitches", "the count of stitches";
    /// A count of rows, as the row counter shows it: the cast-on is no row.
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::{Error, Rows};
    /// let parts = [Rows::new(24)?, Rows::new(88)?];
    /// let whole = parts.into_iter().sum::<Result<Rows, Error>>()?;
    /// assert_eq!(whole, Rows::literal(112));
    /// # Ok::<(), loopwright_gauge::Error>(())
    /// ```
    Rows, "row", "rows", "the count of rows";
}
