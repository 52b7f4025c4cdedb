use core::fmt;

/// A system in which a yarn's fineness is numbered.
///
/// Direct systems give mass for a fixed length, so a higher number is a thicker
/// yarn; indirect systems give length for a fixed mass, so a higher number is a
/// finer one. Every factor is exact: the hank is a definition, and the yard and
/// the pound are 0.9144 m and 453.59237 g by the agreement of 1959.
///
/// | system | definition | source |
/// |---|---|---|
/// | tex, dtex, denier | grams in 1,000, 10,000 and 9,000 m | ISO 1144; default definitions of the units library pint 0.25.3 |
/// | jute | pounds in a spyndle of 14,400 yd | pint 0.25.3 |
/// | metric (Nm) | hanks of 1,000 m in a kilogram | pint 0.25.3 |
/// | cotton (Ne) | hanks of 840 yd in a pound | pint 0.25.3; ASTM D2260, table 1 |
/// | worsted (`NeK`) | hanks of 560 yd in a pound | ASTM D2260, table 1 |
/// | Yorkshire skein | skeins of 256 yd in a pound | textilecalculations.com, yarn count systems |
/// | American run | runs of 1,600 yd in a pound | ASTM D2260, table 1 |
/// | American cut | cuts of 300 yd in a pound | textilecalculations.com, yarn count systems |
/// | linen lea | leas of 300 yd in a pound | ASTM D2260, table 1 |
/// | Galashiels cut | cuts of 300 yd in 24 oz | from memory; no published table was found |
/// | French cotton | hanks of 1,000 m in 500 g | C. P. Brooks, *Cotton Manufacturing* |
/// | spun silk | as cotton, but of the finished folded yarn | J. T. Taylor, *Cotton Weaving and Designing* |
/// | yield | yards in a pound | ASTM D2260, table 1 |
/// | metres per 100 g | metres in 100 g | the same definition as Nm |
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum Numbering {
    /// Grams in 1,000 m.
    Tex,
    /// Grams in 10,000 m.
    Decitex,
    /// Grams in 9,000 m.
    Denier,
    /// Pounds in 14,400 yd.
    Jute,
    /// Hanks of 1,000 m in a kilogram: Nm.
    Metric,
    /// Hanks of 840 yd in a pound: Ne.
    Cotton,
    /// Hanks of 560 yd in a pound: `NeK`.
    Worsted,
    /// Woollen skeins of 256 yd in a pound.
    YorkshireSkein,
    /// Woollen runs of 1,600 yd in a pound.
    AmericanRun,
    /// Woollen cuts of 300 yd in a pound.
    AmericanCut,
    /// Leas of 300 yd in a pound: `NeL`.
    LinenLea,
    /// Woollen cuts of 300 yd in 24 oz.
    GalashielsCut,
    /// Hanks of 1,000 m in 500 g.
    FrenchCotton,
    /// Hanks of 840 yd in a pound of the finished, folded yarn.
    SpunSilk,
    /// Yards in a pound.
    YardsPerPound,
    /// Metres in 100 g.
    MetresPer100g,
}

/// One pound per yard is this many tex: 453.59237 g over 0.0009144 km.
const POUND_PER_YARD: (i64, i64) = (4_535_923_700, 9_144);

impl Numbering {
    /// Every system, in the order of the table above.
    pub const ALL: [Self; 16] = [
        Self::Tex,
        Self::Decitex,
        Self::Denier,
        Self::Jute,
        Self::Metric,
        Self::Cotton,
        Self::Worsted,
        Self::YorkshireSkein,
        Self::AmericanRun,
        Self::AmericanCut,
        Self::LinenLea,
        Self::GalashielsCut,
        Self::FrenchCotton,
        Self::SpunSilk,
        Self::YardsPerPound,
        Self::MetresPer100g,
    ];

    /// Whether a higher number is a thicker yarn.
    #[must_use]
    pub const fn is_direct(self) -> bool {
        matches!(self, Self::Tex | Self::Decitex | Self::Denier | Self::Jute)
    }

    /// The exact factor as numerator and denominator: tex for one of a direct
    /// system, tex times the number for an indirect one.
    #[must_use]
    pub const fn factor(self) -> (i64, i64) {
        match self {
            Self::Tex => (1, 1),
            Self::Decitex => (1, 10),
            Self::Denier => (1, 9),
            Self::Jute => hanks(14_400),
            Self::Metric => (1_000, 1),
            Self::FrenchCotton => (500, 1),
            Self::MetresPer100g => (100_000, 1),
            Self::Cotton | Self::SpunSilk => hanks(840),
            Self::Worsted => hanks(560),
            Self::YorkshireSkein => hanks(256),
            Self::AmericanRun => hanks(1_600),
            Self::AmericanCut | Self::LinenLea => hanks(300),
            Self::GalashielsCut => hanks(200), // 300 yd in a pound and a half
            Self::YardsPerPound => hanks(1),
        }
    }

    /// The symbol or words it is printed with, after the number.
    #[must_use]
    pub const fn symbol(self) -> &'static str {
        match self {
            Self::Tex => "tex",
            Self::Decitex => "dtex",
            Self::Denier => "den",
            Self::Jute => "jute",
            Self::Metric => "Nm",
            Self::Cotton => "Ne",
            Self::Worsted => "NeK",
            Self::YorkshireSkein => "Yorkshire skein",
            Self::AmericanRun => "run",
            Self::AmericanCut => "cut",
            Self::LinenLea => "lea",
            Self::GalashielsCut => "Galashiels cut",
            Self::FrenchCotton => "French cotton",
            Self::SpunSilk => "spun silk",
            Self::YardsPerPound => "yd/lb",
            Self::MetresPer100g => "m/100 g",
        }
    }

    /// The system of this name or symbol; capitals do not matter.
    #[must_use]
    pub fn from_name(name: &str) -> Option<Self> {
        const NAMES: [(&str, Numbering); 29] = [
            ("tex", Numbering::Tex),
            ("dtex", Numbering::Decitex),
            ("decitex", Numbering::Decitex),
            ("den", Numbering::Denier),
            ("denier", Numbering::Denier),
            ("jute", Numbering::Jute),
            ("nm", Numbering::Metric),
            ("metric", Numbering::Metric),
            ("ne", Numbering::Cotton),
            ("nec", Numbering::Cotton),
            ("cotton", Numbering::Cotton),
            ("nek", Numbering::Worsted),
            ("worsted", Numbering::Worsted),
            ("yorkshire skein", Numbering::YorkshireSkein),
            ("yorkshire", Numbering::YorkshireSkein),
            ("run", Numbering::AmericanRun),
            ("american run", Numbering::AmericanRun),
            ("cut", Numbering::AmericanCut),
            ("american cut", Numbering::AmericanCut),
            ("lea", Numbering::LinenLea),
            ("nel", Numbering::LinenLea),
            ("linen", Numbering::LinenLea),
            ("galashiels cut", Numbering::GalashielsCut),
            ("galashiels", Numbering::GalashielsCut),
            ("french cotton", Numbering::FrenchCotton),
            ("spun silk", Numbering::SpunSilk),
            ("silk", Numbering::SpunSilk),
            ("yd/lb", Numbering::YardsPerPound),
            ("m/100 g", Numbering::MetresPer100g),
        ];
        NAMES.iter().find(|(known, _)| known.eq_ignore_ascii_case(name)).map(|&(_, found)| found)
    }
}

/// Tex times the number of hanks of `yards` in a pound.
const fn hanks(yards: i64) -> (i64, i64) {
    (POUND_PER_YARD.0, POUND_PER_YARD.1 * yards)
}

impl fmt::Display for Numbering {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.symbol())
    }
}
