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
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
pub enum Round {
    /// The next whole number at or below.
    Floor,
    /// The next whole number at or above.
    Ceil,
    /// The nearest; halfway goes up.
    HalfUp,
    /// The nearest; halfway goes down.
    HalfDown,
    /// The nearest; halfway goes to the even one.
    HalfEven,
    /// No rounding: a number that is not whole is refused.
    Exact,
}

impl Round {
    /// `numer / denom` made whole, for a positive `denom`; `None` when
    /// [`Round::Exact`] meets a remainder.
    pub(crate) const fn divide(self, numer: i64, denom: i64) -> Option<i64> {
        let floor = numer.div_euclid(denom);
        let rest = numer.rem_euclid(denom);
        if rest == 0 {
            return Some(floor);
        }
        // Compared without doubling, which could overflow.
        let other = denom - rest;
        let up = match self {
            Self::Floor => false,
            Self::Ceil => true,
            Self::HalfUp => rest >= other,
            Self::HalfDown => rest > other,
            Self::HalfEven => rest > other || (rest == other && floor % 2 != 0),
            Self::Exact => return None,
        };
        Some(if up { floor + 1 } else { floor })
    }
}
