//! American or British words: one table, never mixed.

use core::fmt;

/// Whose words are used.
///
/// # Examples
/// ```
/// use loopwright_pattern::words::Dialect;
/// assert_eq!(Dialect::American.bind_off(), "bind off");
/// assert_eq!(Dialect::British.bind_off(), "cast off");
/// ```
#[derive(Clone, Copy, Debug, Default, Eq, Hash, PartialEq)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(rename_all = "snake_case")
)]
pub enum Dialect {
    /// Bind off, stockinette, gauge.
    #[default]
    American,
    /// Cast off, stocking stitch, tension.
    British,
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

impl fmt::Display for Dialect {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(match self {
            Self::American => "american",
            Self::British => "british",
        })
    }
}
