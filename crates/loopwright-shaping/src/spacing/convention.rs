use loopwright_gauge::choices;

choices! {
    /// What happens at the ends of an evenly spaced row; rival conventions are all in
    /// print, so the choice is always visible.
    ///
    /// `s` is the number of stitches between the borders and `n` the number of events. The
    /// first four keep every event less than one stitch from a straight line, or half the
    /// stitches it uses (1½ for three together) where the events leave no other room; the
    /// rounding is [`SpacingBuilder::round`](super::SpacingBuilder::round)'s. The others are
    /// divisions with remainder, as print has them, and may be farther off.
    ///
    /// Full gaps, half gaps, events on both ends and halved blocks are for flat rows: an
    /// increase between two stitches has one at either side of it there.
    ///
    /// # Examples
    /// ```
    /// use loopwright_shaping::Convention;
    /// assert_eq!("half gaps".parse::<Convention>()?, Convention::HalfGaps);
    /// # Ok::<(), loopwright_shaping::Error>(())
    /// ```
    #[non_exhaustive]
    pub enum Convention: "the ends of a spaced row" {
        /// In the round: `n` groups of `s / n`, an event closes each.
        Round = "round",
        /// Flat, a full gap at both ends: groups of `s / (n + 1)`, an event closes each
        /// but the last.
        FullGaps = "full gaps" | "full",
        /// Flat, half a gap at both ends: groups of `s / n`, the first one halved.
        HalfGaps = "half gaps" | "half",
        /// The first event on the first stitches, the last on the last: increases between
        /// stitches after the first and before the last.
        BothEnds = "both ends" | "both",
        /// Division with remainder: two sizes of group in two blocks, an event closes
        /// each; [`Larger`](crate::Larger) says which come first.
        Blocks = "blocks",
        /// As [`Blocks`](Self::Blocks), with the first group halved and its rest at the
        /// other end; less than half, where its event needs more.
        BlocksHalved = "blocks halved",
        /// Groups of `s / n` rounded down, an event closes each; what is left over is
        /// worked plain at the ends.
        Leftover = "leftover",
        /// Groups of `s / n` rounded down to a whole or half number (6 and 7 by turns for
        /// 6.5), what is left over at the end.
        HalfNumbers = "half numbers",
    }
}

choices! {
    /// Where the stitches left over by [`Convention::Leftover`] go.
    pub enum Surplus: "where the surplus goes" {
        /// All of them before the first group.
        Start = "start",
        /// All of them after the last group.
        End = "end",
        /// Half at each end; an odd one goes to the end.
        Split = "split",
    }
}

#[expect(clippy::derivable_impls, reason = "a choice's variants are declared by name")]
impl Default for Surplus {
    fn default() -> Self {
        Self::End
    }
}
