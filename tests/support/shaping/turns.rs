//! Short rows replayed: a carriage, a row of needles, and how often each was knitted.

/// Which end of the needles.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub enum End {
    /// The left end.
    Left,
    /// The right end.
    Right,
}

/// Knits rows given as the stitches left unworked at the end of each, the carriage
/// starting at `start`, where the stitches left at a side stay left until a row reaches
/// past them; gives how often every needle was knitted.
///
/// # Panics
/// When a turn leaves all the needles.
#[must_use]
pub fn replay(width: usize, start: End, left_at_ends: &[usize]) -> Vec<usize> {
    let mut knitted = vec![0; width];
    let mut at = match start {
        End::Left => 0,
        End::Right => width,
    };
    let mut towards_right = start == End::Left;
    for &left in left_at_ends {
        let to = if towards_right { width - left } else { left };
        let (low, high) = if towards_right { (at, to) } else { (to, at) };
        assert!(low < high, "a row from {at} to {to} knits nothing");
        for needle in &mut knitted[low..high] {
            *needle += 1;
        }
        at = to;
        towards_right = !towards_right;
    }
    knitted
}
