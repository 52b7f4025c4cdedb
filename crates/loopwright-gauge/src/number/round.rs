use crate::choices;
use num_integer::Integer;

choices! {
    /// How a number becomes whole: always an argument, never a default.
    ///
    /// | number | `Floor` | `Ceil` | `HalfUp` | `HalfDown` | `HalfEven` | `Exact` |
    /// |---|---|---|---|---|---|---|
    /// | 2.4 | 2 | 3 | 2 | 2 | 2 | refused |
    /// | 2.5 | 2 | 3 | 3 | 2 | 2 | refused |
    /// | 3.5 | 3 | 4 | 4 | 3 | 4 | refused |
    /// | -2.5 | -3 | -2 | -2 | -3 | -2 | refused |
    /// | 3 | 3 | 3 | 3 | 3 | 3 | 3 |
    ///
    /// "Up" is towards plus infinity and "down" towards minus infinity.
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::{Exact, Round};
    /// let half: Exact = "2.5".parse()?;
    /// assert_eq!(half.to_whole("nearest".parse()?)?, 3);
    /// assert_eq!(half.to_whole(Round::HalfEven)?, 2);
    /// # Ok::<(), loopwright_gauge::Error>(())
    /// ```
    pub enum Round: "the rounding" {
        /// The next whole number at or below.
        Floor = "down" | "floor",
        /// The next whole number at or above.
        Ceil = "up" | "ceil",
        /// The nearest; halfway goes up.
        HalfUp = "nearest" | "half up",
        /// The nearest; halfway goes down.
        HalfDown = "half down",
        /// The nearest; halfway goes to the even one.
        HalfEven = "half even",
        /// No rounding: a number that is not whole is refused.
        Exact = "exact",
    }
}

impl Round {
    /// `numer / denom` made whole, for a positive `denom`; `None` when
    /// [`Round::Exact`] meets a remainder.
    #[inline]
    pub(crate) fn divide<I: Integer + Copy>(self, numer: I, denom: I) -> Option<I> {
        let (floor, rest) = numer.div_mod_floor(&denom);
        if rest.is_zero() {
            return Some(floor);
        }
        // Compared without doubling, which could overflow.
        let other = denom - rest;
        let up = match self {
            Self::Floor => false,
            Self::Ceil => true,
            Self::HalfUp => rest >= other,
            Self::HalfDown => rest > other,
            Self::HalfEven => rest > other || (rest == other && floor.is_odd()),
            Self::Exact => return None,
        };
        Some(if up { floor + I::one() } else { floor })
    }
}
