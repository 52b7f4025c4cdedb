use core::fmt;

/// A kind of fabric, as far as counts and yarn depend on it.
#[derive(Clone, Copy, Debug, Eq, Hash, Ord, PartialEq, PartialOrd)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(rename_all = "snake_case")
)]
#[non_exhaustive]
pub enum Fabric {
    /// Plain knitting: stocking stitch.
    Plain,
    /// Rib of so many knit and so many purl stitches.
    Rib {
        /// Knit stitches in one repeat.
        knit: u8,
        /// Purl stitches in one repeat.
        purl: u8,
    },
    /// Garter stitch.
    Garter,
}

impl fmt::Display for Fabric {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Plain => f.write_str("stocking stitch"),
            Self::Rib { knit, purl } => write!(f, "{knit}x{purl} rib"),
            Self::Garter => f.write_str("garter stitch"),
        }
    }
}
