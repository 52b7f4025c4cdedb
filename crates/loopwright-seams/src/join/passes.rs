use crate::pickup::say;
use crate::{Error, words};
use alloc::vec::Vec;
use core::fmt;
use loopwright_gauge::Rows;

/// Passes alike, one after another.
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct PassRun {
    /// Bars taken at once: one or two.
    pub bars: u32,
    /// How many passes.
    pub times: u32,
}

/// The passes of one side of a row-to-row seam sewn two bars at a time.
///
/// The loops of two pieces side by side lie half a row apart, so the first pass takes
/// one bar on the first side and two on the second; a single bar may be left at the end
/// (knittingrobin.blogspot.com, 2013). Where one side has more rows, the other takes a
/// single bar now and then, evenly, so that both come to their ends together.
///
/// # Examples
/// ```
/// use loopwright_gauge::Rows;
/// use loopwright_seams::Passes;
/// let (first, second) = Passes::pair(Rows::new(99)?, Rows::new(98)?)?;
/// assert_eq!(first.to_string(), "1 bar, then 2 bars 49 times");
/// assert_eq!(second.to_string(), "2 bars 49 times");
/// # Ok::<(), loopwright_seams::Error>(())
/// ```
#[derive(Clone, Debug, Eq, Hash, PartialEq)]
pub struct Passes {
    runs: Vec<PassRun>,
}

impl Passes {
    /// The passes of both sides, taken in turns and begun on the first: it has as many as
    /// the second, or one more.
    ///
    /// # Errors
    /// When a side has no rows, or more than twice as many as the other.
    pub fn pair(first: Rows, second: Rows) -> Result<(Self, Self), Error> {
        crate::Pairing::new(first.get(), second.get())?;
        let (a, b) = (first.get(), second.get());
        // After the single bar, as many passes as the longer side has bars in twos.
        let (rest, other) = if a > b {
            (a / 2, a / 2)
        } else {
            (b.div_ceil(2) - u32::from(a < b || b % 2 == 1), b.div_ceil(2))
        };
        let (mut one, mut two) = (Vec::from([PassRun { bars: 1, times: 1 }]), Vec::new());
        extend(&mut one, rest, a - 1);
        extend(&mut two, other, b);
        Ok((Self { runs: one }, Self { runs: two }))
    }

    /// The passes in order, equal neighbours told together.
    #[must_use]
    pub fn runs(&self) -> &[PassRun] {
        &self.runs
    }

    /// How many passes there are in all.
    #[must_use]
    pub fn count(&self) -> u32 {
        self.runs.iter().fold(0, |sum, run| sum.saturating_add(run.times))
    }
}

/// Adds `passes` of one or two bars each, `bars` in all. The single ones are spread
/// evenly and close their groups, so that the odd bar of an edge in twos comes last.
fn extend(runs: &mut Vec<PassRun>, passes: u32, bars: u32) {
    let singles = u64::from(2 * passes - bars);
    let until = |nth: u32| u64::from(nth) * singles / u64::from(passes.max(1));
    for nth in 0..passes {
        let bars = if until(nth + 1) > until(nth) { 1 } else { 2 };
        match runs.last_mut() {
            Some(last) if last.bars == bars => last.times += 1,
            _ => runs.push(PassRun { bars, times: 1 }),
        }
    }
}

impl fmt::Display for PassRun {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let bars = if self.bars == 1 { "1 bar" } else { "2 bars" };
        match self.times {
            1 => f.write_str(bars),
            times => write!(f, "{bars} {}", words::times(times)),
        }
    }
}

/// "1 bar, then 2 bars 49 times".
impl fmt::Display for Passes {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&say(&self.runs))
    }
}
