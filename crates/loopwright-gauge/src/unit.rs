use core::fmt;

/// A unit of length, met only where lengths are read and printed.
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub enum Unit {
    /// Millimetre.
    #[cfg_attr(feature = "serde", serde(rename = "mm"))]
    Millimetre,
    /// Centimetre.
    #[cfg_attr(feature = "serde", serde(rename = "cm"))]
    Centimetre,
    /// Metre.
    #[cfg_attr(feature = "serde", serde(rename = "m"))]
    Metre,
    /// Inch.
    #[cfg_attr(feature = "serde", serde(rename = "in"))]
    Inch,
    /// Foot.
    #[cfg_attr(feature = "serde", serde(rename = "ft"))]
    Foot,
    /// Yard.
    #[cfg_attr(feature = "serde", serde(rename = "yd"))]
    Yard,
}

const _: () = assert!(Unit::Foot.micrometres() == 304_800, "a foot is 0.3048 m");
const _: () = assert!(Unit::Yard.micrometres() == 914_400, "a yard is 0.9144 m");

impl Unit {
    /// One of this unit in micrometres; exact by definition (international
    /// yard and pound agreement, 1959).
    #[must_use]
    pub const fn micrometres(self) -> i64 {
        match self {
            Self::Millimetre => 1_000,
            Self::Centimetre => 10_000,
            Self::Metre => 1_000_000,
            Self::Inch => 25_400,
            Self::Foot => 12 * Self::Inch.micrometres(),
            Self::Yard => 3 * Self::Foot.micrometres(),
        }
    }

    /// The symbol it is printed with.
    #[must_use]
    pub const fn symbol(self) -> &'static str {
        match self {
            Self::Millimetre => "mm",
            Self::Centimetre => "cm",
            Self::Metre => "m",
            Self::Inch => "in",
            Self::Foot => "ft",
            Self::Yard => "yd",
        }
    }

    pub(crate) fn from_symbol(text: &str) -> Option<Self> {
        Some(match text {
            "mm" => Self::Millimetre,
            "cm" => Self::Centimetre,
            "m" => Self::Metre,
            "in" | "inch" | "inches" | "\"" | "″" => Self::Inch,
            "ft" | "foot" | "feet" | "'" | "′" => Self::Foot,
            "yd" | "yard" | "yards" => Self::Yard,
            _ => return None,
        })
    }
}

impl fmt::Display for Unit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.symbol())
    }
}
