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
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum Convention {
    /// In the round: `n` groups of `s / n`, an event closes each.
    Round,
    /// Flat, a full gap at both ends: groups of `s / (n + 1)`, an event closes each
    /// but the last.
    FullGaps,
    /// Flat, half a gap at both ends: groups of `s / n`, the first one halved.
    HalfGaps,
    /// The first event on the first stitches, the last on the last: increases between
    /// stitches after the first and before the last.
    BothEnds,
    /// Division with remainder: two sizes of group in two blocks, an event closes
    /// each; [`Larger`](crate::Larger) says which come first.
    Blocks,
    /// As [`Blocks`](Self::Blocks), with the first group halved and its rest at the
    /// other end; less than half, where its event needs more.
    BlocksHalved,
    /// Groups of `s / n` rounded down, an event closes each; what is left over is
    /// worked plain at the ends.
    Leftover,
    /// Groups of `s / n` rounded down to a whole or half number (6 and 7 by turns for
    /// 6.5), what is left over at the end.
    HalfNumbers,
}

/// Where the stitches left over by [`Convention::Leftover`] go.
#[derive(Clone, Copy, Debug, Default, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
pub enum Rest {
    /// All of them before the first group.
    Start,
    /// All of them after the last group.
    #[default]
    End,
    /// Half at each end; an odd one goes to the end.
    Split,
}
