use crate::choices;

choices! {
    /// Whether a count is even or odd.
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::{Parity, Stitches};
    /// assert_eq!(Parity::of(Stitches::new(73)?), Parity::Odd);
    /// # Ok::<(), loopwright_gauge::Error>(())
    /// ```
    pub enum Parity: "the parity" {
        /// In pairs.
        Even = "even",
        /// In pairs, and one more.
        Odd = "odd",
    }
}

impl Parity {
    /// That of a count.
    pub fn of(count: impl Into<u32>) -> Self {
        if count.into().is_multiple_of(2) { Self::Even } else { Self::Odd }
    }
}
