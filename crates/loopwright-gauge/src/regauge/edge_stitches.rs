use crate::{Repeat, choices};

choices! {
    /// What becomes of a repeat's edge stitches at another gauge.
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::EdgeStitches;
    /// assert_eq!(EdgeStitches::default(), EdgeStitches::Scaled);
    /// ```
    #[derive(Default)]
    pub enum EdgeStitches: "what becomes of the edge stitches" {
        /// They are part of the width and change with it.
        #[default]
        Scaled = "scaled",
        /// Seam and selvedge stitches stay as many as they are; only the stitches between
        /// them change.
        Kept = "kept",
    }
}

impl EdgeStitches {
    /// How many stitches of `repeat` stay out of the scaling.
    pub(super) const fn kept(self, repeat: Repeat) -> u32 {
        match self {
            Self::Scaled => 0,
            Self::Kept => 2 * repeat.edge(),
        }
    }
}
