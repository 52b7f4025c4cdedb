use crate::choices;

choices! {
    /// What the swatch has been through before it was measured.
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::Treatment;
    /// assert_eq!("washed and dried".parse(), Ok(Treatment::Washed));
    /// assert_eq!(Treatment::OffNeedles.to_string(), "off the needles");
    /// ```
    #[non_exhaustive]
    pub enum Treatment: "the treatment" {
        /// Just taken off the needles.
        OffNeedles = "off the needles" | "off needles",
        /// Laid flat and left to relax, not washed.
        Rested = "rested",
        /// Washed and dried as the garment will be.
        Washed = "washed" | "washed and dried",
    }
}
