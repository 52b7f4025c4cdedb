//! The walk of a straight line with remainder: whatever is shared out evenly along
//! something, place after place, without a division for each.
//!
//! Tapers, spacings and pick-ups are such walks, and so is anything else that is to be
//! as even as whole numbers allow.

mod sealed {
    #[expect(unnameable_types, reason = "the seal: no other numbers carry remainders")]
    pub trait Sealed {}
}

/// Numbers wide enough for the remainders of a walk: `u32`, `u64` or `u128`.
pub trait Remainder: sealed::Sealed + Copy + Ord {
    /// The sum, which the caller knows to fit.
    #[must_use]
    fn plus(self, other: Self) -> Self;

    /// The difference, which is never below zero.
    #[must_use]
    fn less(self, other: Self) -> Self;

    /// Quotient, at most `u64::MAX`, and remainder of a division; `None` by zero.
    fn divided(self, by: Self) -> Option<(u64, Self)>;

    /// Whether twice the number can be held.
    fn can_double(self) -> bool;
}

macro_rules! remainders {
    ($($int:ty),*) => {$(
        impl sealed::Sealed for $int {}

        impl Remainder for $int {
            #[inline]
            fn plus(self, other: Self) -> Self {
                self.wrapping_add(other)
            }

            #[inline]
            fn less(self, other: Self) -> Self {
                self.wrapping_sub(other)
            }

            fn divided(self, by: Self) -> Option<(u64, Self)> {
                let quotient = self.checked_div(by)?;
                Some((u64::try_from(quotient).unwrap_or(u64::MAX), self - quotient * by))
            }

            fn can_double(self) -> bool {
                self <= <$int>::MAX / 2
            }
        }
    )*};
}

remainders!(u32, u64, u128);

/// What a division leaves over, carried along until it makes a whole.
#[derive(Clone, Copy, Debug, Default, Eq, Hash, PartialEq)]
pub(crate) struct Carry<R> {
    pub(crate) rest: R,
    pub(crate) gain: R,
    /// More than `rest` and than `gain`, and at most half of what `R` holds.
    pub(crate) modulus: R,
}

impl<R: Remainder> Carry<R> {
    /// Whether the next step is one longer.
    #[inline]
    pub(crate) fn next(&mut self) -> bool {
        // Below twice the modulus, so it fits; nothing need be checked in this loop.
        let rest = self.rest.plus(self.gain);
        let over = rest >= self.modulus;
        self.rest = if over { rest.less(self.modulus) } else { rest };
        over
    }
}

/// The values of a rising straight line, each rounded down: `floor((start + k * step) /
/// over)` for `k` = 0, 1, 2 and so on.
///
/// A rounding to the nearest is half of `over` more at the start. A step costs two
/// additions and a comparison. Values stop at `u64::MAX`.
///
/// # Examples
/// Ten stitches picked up along 14 rows, after every row the number nearest to its share,
/// `floor((2 * 10 * row + 14) / (2 * 14))`:
/// ```
/// use loopwright_shaping::even::EvenWalk;
/// let walk = EvenWalk::new(20 + 14, 20, 28_u64).unwrap();
/// let picked: Vec<u64> = walk.take(14).collect();
/// assert_eq!(picked, [1, 1, 2, 3, 4, 4, 5, 6, 6, 7, 8, 9, 9, 10]);
/// ```
#[derive(Clone, Debug)]
pub struct EvenWalk<R> {
    next: u64,
    step: u64,
    carry: Carry<R>,
}

impl<R: Remainder> EvenWalk<R> {
    /// A walk that starts at `start / over` and goes on by `step / over`.
    ///
    /// `None`, when `over` is zero or more than half of what its type holds.
    #[must_use]
    pub fn new(start: R, step: R, over: R) -> Option<Self> {
        let (next, rest) = start.divided(over)?;
        let (step, gain) = step.divided(over)?;
        let carry = Carry { rest, gain, modulus: over };
        over.can_double().then_some(Self { next, step, carry })
    }
}

impl<R: Remainder> Iterator for EvenWalk<R> {
    type Item = u64;

    #[inline]
    fn next(&mut self) -> Option<u64> {
        let value = self.next;
        let step = self.step.saturating_add(self.carry.next().into());
        self.next = value.saturating_add(step);
        Some(value)
    }

    fn size_hint(&self) -> (usize, Option<usize>) {
        (usize::MAX, None)
    }
}
