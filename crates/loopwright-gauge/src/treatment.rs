use crate::Error;
use core::fmt;
use core::str::FromStr;

/// What the swatch has been through before it was measured.
///
/// It reads `off the needles`, `rested` and `washed`, and in JSON `off_needles`.
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum Treatment {
    /// Just taken off the needles.
    OffNeedles,
    /// Laid flat and left to relax, not washed.
    Rested,
    /// Washed and dried as the garment will be.
    Washed,
}

impl fmt::Display for Treatment {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::OffNeedles => "off the needles",
            Self::Rested => "rested",
            Self::Washed => "washed and dried",
        })
    }
}

impl FromStr for Treatment {
    type Err = Error;

    fn from_str(text: &str) -> Result<Self, Error> {
        match text {
            "off the needles" | "off_needles" => Ok(Self::OffNeedles),
            "rested" => Ok(Self::Rested),
            "washed" | "washed and dried" => Ok(Self::Washed),
            _ => {
                Err(Error::parse("the treatment", text, "write off the needles, rested or washed"))
            }
        }
    }
}
