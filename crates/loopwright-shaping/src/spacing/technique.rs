use alloc::format;
use alloc::string::String;
use loopwright_gauge::{Stitches, choices};

choices! {
    /// How a stitch is gained or lost within a row.
    #[non_exhaustive]
    pub enum Technique: "the technique" {
        /// An increase between two stitches (M1): uses no stitch and makes one.
        IncreaseBetween = "increase between" | "m1",
        /// An increase in a stitch (kfb): uses one and makes two.
        IncreaseIn = "increase in" | "kfb",
        /// Two stitches together (k2tog).
        TwoTogether = "two together" | "k2tog",
        /// Three stitches together (k3tog).
        ThreeTogether = "three together" | "k3tog",
    }
}

impl Technique {
    /// Stitches of the old row it uses.
    #[must_use]
    pub const fn uses(self) -> Stitches {
        Stitches::literal(match self {
            Self::IncreaseBetween => 0,
            Self::IncreaseIn => 1,
            Self::TwoTogether => 2,
            Self::ThreeTogether => 3,
        })
    }

    /// Stitches of the new row it makes.
    #[must_use]
    pub const fn makes(self) -> Stitches {
        Stitches::literal(match self {
            Self::IncreaseBetween | Self::TwoTogether | Self::ThreeTogether => 1,
            Self::IncreaseIn => 2,
        })
    }

    /// The fewest stitches of the old row from one event to the next.
    pub(super) const fn room(self) -> u32 {
        if self.uses().is_zero() { 1 } else { self.uses().get() }
    }

    /// So many of them, in English.
    pub(super) fn told(self, times: u32) -> String {
        let (what, where_) = match self {
            Self::IncreaseBetween => ("increase", "between stitches"),
            Self::IncreaseIn => ("increase", "in a stitch"),
            Self::TwoTogether => ("decrease", "of two together"),
            Self::ThreeTogether => ("decrease", "of three together"),
        };
        format!("{times} {what}{} {where_}", if times == 1 { "" } else { "s" })
    }

    /// The trade's abbreviation.
    #[must_use]
    pub const fn abbreviation(self) -> &'static str {
        match self {
            Self::IncreaseBetween => "M1",
            Self::IncreaseIn => "kfb",
            Self::TwoTogether => "k2tog",
            Self::ThreeTogether => "k3tog",
        }
    }
}
