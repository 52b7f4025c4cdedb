use loopwright_gauge::choices;

choices! {
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
    ///
    /// # Examples
    /// ```
    /// use loopwright_yardage::Numbering;
    /// assert_eq!("Ne".parse(), Ok(Numbering::Cotton));
    /// assert_eq!((Numbering::Cotton.name(), Numbering::Cotton.symbol()), ("cotton", "Ne"));
    /// ```
    #[non_exhaustive]
    pub enum Numbering: "the yarn numbering" {
        /// Grams in 1,000 m.
        Tex = "tex",
        /// Grams in 10,000 m.
        Decitex = "decitex" | "dtex",
        /// Grams in 9,000 m.
        Denier = "denier" | "den",
        /// Pounds in 14,400 yd.
        Jute = "jute",
        /// Hanks of 1,000 m in a kilogram: Nm.
        Metric = "metric" | "nm",
        /// Hanks of 840 yd in a pound: Ne.
        Cotton = "cotton" | "ne" | "nec",
        /// Hanks of 560 yd in a pound: `NeK`.
        Worsted = "worsted" | "nek",
        /// Woollen skeins of 256 yd in a pound.
        YorkshireSkein = "yorkshire skein" | "yorkshire",
        /// Woollen runs of 1,600 yd in a pound.
        AmericanRun = "american run" | "run",
        /// Woollen cuts of 300 yd in a pound.
        AmericanCut = "american cut" | "cut",
        /// Leas of 300 yd in a pound: `NeL`.
        LinenLea = "linen lea" | "lea" | "nel" | "linen",
        /// Woollen cuts of 300 yd in 24 oz.
        GalashielsCut = "galashiels cut" | "galashiels",
        /// Hanks of 1,000 m in 500 g.
        FrenchCotton = "french cotton",
        /// Hanks of 840 yd in a pound of the finished, folded yarn.
        SpunSilk = "spun silk" | "silk",
        /// Yards in a pound.
        YardsPerPound = "yards per pound" | "yd/lb",
        /// Metres in 100 g.
        MetresPer100g = "metres per 100 g" | "m/100 g",
    }
}

/// One pound per yard is this many tex: 453.59237 g over 0.0009144 km.
const POUND_PER_YARD: (i64, i64) = (4_535_923_700, 9_144);

impl Numbering {
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
}

/// Tex times the number of hanks of `yards` in a pound.
const fn hanks(yards: i64) -> (i64, i64) {
    (POUND_PER_YARD.0, POUND_PER_YARD.1 * yards)
}
