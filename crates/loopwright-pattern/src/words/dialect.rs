//! American or British words: one table, never mixed.

use loopwright_gauge::choices;

choices! {
    /// Whose words are used.
    ///
    /// # Examples
    /// ```
    /// use loopwright_pattern::words::Dialect;
    /// assert_eq!(Dialect::American.bind_off(), "bind off");
    /// assert_eq!(Dialect::British.bind_off(), "cast off");
    /// ```
    pub enum Dialect: "the words" {
        /// Bind off, stockinette, gauge.
        American = "american",
        /// Cast off, stocking stitch, tension.
        British = "british",
    }
}

#[expect(clippy::derivable_impls, reason = "the macro takes no attributes of variants")]
impl Default for Dialect {
    fn default() -> Self {
        Self::American
    }
}

impl Dialect {
    /// "bind off" or "cast off".
    #[must_use]
    pub const fn bind_off(self) -> &'static str {
        match self {
            Self::American => "bind off",
            Self::British => "cast off",
        }
    }

    /// "stockinette" or "stocking stitch".
    #[must_use]
    pub const fn plain(self) -> &'static str {
        match self {
            Self::American => "stockinette",
            Self::British => "stocking stitch",
        }
    }

    /// "gauge" or "tension".
    #[must_use]
    pub const fn gauge(self) -> &'static str {
        match self {
            Self::American => "gauge",
            Self::British => "tension",
        }
    }
}
