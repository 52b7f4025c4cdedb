//! serde through the same doors as `new`: exact numbers and lengths as text, and a plain
//! number where it is exact.

use crate::{Choice, Ease, Exact, Gauge, Length, PerLength, Reading};
use alloc::borrow::Cow;
use alloc::format;
use alloc::string::ToString;
use core::fmt;
use serde::de::{Error as _, Visitor};
use serde::{Deserialize, Deserializer, Serialize, Serializer};

macro_rules! as_text {
    ($($name:ty),*) => {$(
        impl Serialize for $name {
            fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                serializer.serialize_str(&self.to_string())
            }
        }

        impl<'de> Deserialize<'de> for $name {
            fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
                let text: Cow<'_, str> = Cow::deserialize(deserializer)?;
                text.parse().map_err(D::Error::custom)
            }
        }
    )*};
}

as_text!(Ease, Length, Gauge, PerLength, Reading);

impl Serialize for Exact {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(&self.to_string())
    }
}

impl<'de> Deserialize<'de> for Exact {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(Number)
    }
}

/// An exact number from text, or from a number that is exact as it stands: a whole one,
/// or one with a binary fraction such as 12.5.
struct Number;

impl Visitor<'_> for Number {
    type Value = Exact;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a whole number, or a number as text such as \"12.5\" or \"3/4\"")
    }

    fn visit_str<E: serde::de::Error>(self, text: &str) -> Result<Exact, E> {
        text.parse().map_err(E::custom)
    }

    fn visit_i64<E: serde::de::Error>(self, n: i64) -> Result<Exact, E> {
        n.try_into().map_err(E::custom)
    }

    fn visit_u64<E: serde::de::Error>(self, n: u64) -> Result<Exact, E> {
        n.try_into().map_err(E::custom)
    }

    fn visit_f64<E: serde::de::Error>(self, n: f64) -> Result<Exact, E> {
        let refuse =
            || E::custom(format!("{n} is not exact as a number: write it as text, \"{n}\""));
        from_float(n).ok_or_else(refuse)
    }
}

/// What a float stands for where a decimal of at most ten places says the same: 12.5, but
/// not 0.1, whose nearest float is another number.
fn from_float(n: f64) -> Option<Exact> {
    let bits = n.to_bits();
    let power = i32::try_from(bits >> 52 & 0x7ff).ok()? - 1_075;
    if n == 0.0 {
        return Some(Exact::ZERO);
    }
    let whole = i64::try_from(bits & ((1 << 52) - 1) | 1 << 52).ok()?;
    let twos = i32::try_from(whole.trailing_zeros()).ok()?;
    let (whole, power) = (whole >> twos, power + twos);
    let whole = if n.is_sign_negative() { -whole } else { whole };
    match power {
        0..63 => Exact::try_from(whole.checked_mul(1 << power)?).ok(),
        -10..0 => Exact::new(whole, 1 << -power).ok(),
        _ => None,
    }
}

/// A choice from its name, or from any other word it is read from: what
/// [`choices!`](crate::choices) reads by.
///
/// # Errors
/// When there is no such choice.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Round, serial::read_choice};
/// use serde::de::{IntoDeserializer, value::{Error, StrDeserializer}};
/// let text: StrDeserializer<'_, Error> = "half-even".into_deserializer();
/// assert_eq!(read_choice::<Round, _>(text)?, Round::HalfEven);
/// # Ok::<(), Error>(())
/// ```
pub fn read_choice<'de, C: Choice, D: Deserializer<'de>>(deserializer: D) -> Result<C, D::Error> {
    let text: Cow<'_, str> = Cow::deserialize(deserializer)?;
    C::read(&text).map_err(D::Error::custom)
}
