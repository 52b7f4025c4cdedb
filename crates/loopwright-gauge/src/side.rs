use crate::choices;

choices! {
    /// A side of the knitting, as the knitter at work sees it.
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::Side;
    /// assert_eq!("Left".parse::<Side>()?.other(), Side::Right);
    /// # Ok::<(), loopwright_gauge::Error>(())
    /// ```
    #[derive(Ord, PartialOrd)]
    pub enum Side: "the side" {
        /// The left side.
        Left = "left",
        /// The right side.
        Right = "right",
    }
}

impl Side {
    /// The other side.
    #[must_use]
    pub const fn other(self) -> Self {
        match self {
            Self::Left => Self::Right,
            Self::Right => Self::Left,
        }
    }
}
