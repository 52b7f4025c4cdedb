use crate::{Choice as _, Exact, choices};

choices! {
    /// A unit of length, met only where lengths are read and printed.
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::Unit;
    /// assert_eq!("inches".parse(), Ok(Unit::Inch));
    /// assert_eq!(Unit::Inch.micrometres(), 25_400);
    /// ```
    #[non_exhaustive]
    pub enum Unit: "the unit of length" {
        /// Millimetre.
        Millimetre = "mm",
        /// Centimetre.
        Centimetre = "cm",
        /// Metre.
        Metre = "m",
        /// Inch.
        Inch = "in" | "inch" | "inches" | "\"" | "″",
        /// Foot.
        Foot = "ft" | "foot" | "feet" | "'" | "′",
        /// Yard.
        Yard = "yd" | "yard" | "yards",
    }
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

    /// One of this unit in millimetres.
    pub(crate) const fn millimetres(self) -> Exact {
        const fn mm(unit: Unit) -> Exact {
            Exact::literal(unit.micrometres(), 1_000)
        }
        match self {
            Self::Millimetre => const { mm(Self::Millimetre) },
            Self::Centimetre => const { mm(Self::Centimetre) },
            Self::Metre => const { mm(Self::Metre) },
            Self::Inch => const { mm(Self::Inch) },
            Self::Foot => const { mm(Self::Foot) },
            Self::Yard => const { mm(Self::Yard) },
        }
    }

    /// The symbol it is printed with.
    #[must_use]
    pub const fn symbol(self) -> &'static str {
        self.name()
    }

    /// The unit of a symbol or name; the usual ones are found at once.
    pub(crate) fn from_symbol(text: &str) -> Option<Self> {
        match text {
            "mm" => Some(Self::Millimetre),
            "cm" => Some(Self::Centimetre),
            "m" => Some(Self::Metre),
            "in" => Some(Self::Inch),
            "ft" => Some(Self::Foot),
            "" => None,
            text => Self::read(text).ok(),
        }
    }
}
