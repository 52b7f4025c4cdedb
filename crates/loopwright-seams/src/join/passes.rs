use crate::pickup::tell;
use crate::{Error, Pairing};
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;
use core::fmt;
use loopwright_gauge::Rows;
use loopwright_gauge::english::{counted, times};
use loopwright_shaping::even::EvenWalk;
use loopwright_shaping::shortest_of_runs;

const TWO: Rows = Rows::literal(2);

/// Passes alike, one after another.
///
/// # Examples
/// ```
/// use loopwright_gauge::Rows;
/// use loopwright_seams::Passes;
/// let (first, _) = Passes::pair(Rows::new(6)?, Rows::new(6)?)?;
/// let told: Vec<String> = first.runs().iter().map(|run| run.to_string()).collect();
/// assert_eq!(told, ["1 bar", "2 bars twice", "1 bar"]);
/// # Ok::<(), loopwright_seams::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct PassRun {
    /// Bars taken at once, each between two rows: one or two.
    pub bars: Rows,
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
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(try_from = "Raw", into = "Raw"))]
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
        Pairing::new(first, second)?;
        let (a, b) = (first.get(), second.get());
        // After the single bar, as many passes as the longer side has bars in twos.
        let (rest, other) = if a > b {
            (a / 2, a / 2)
        } else {
            (b.div_ceil(2) - u32::from(a < b || b % 2 == 1), b.div_ceil(2))
        };
        let (mut one, mut two) = (Vec::from([PassRun { bars: Rows::ONE, times: 1 }]), Vec::new());
        extend(&mut one, rest, a - 1);
        extend(&mut two, other, b);
        Ok((Self { runs: one }, Self { runs: two }))
    }

    /// One side's passes.
    ///
    /// # Errors
    /// When there are none, or one takes other than one or two bars, or never comes.
    pub fn new(runs: Vec<PassRun>) -> Result<Self, Error> {
        let wrong = |run: &&PassRun| run.bars.is_zero() || run.bars > TWO || run.times == 0;
        if let Some(PassRun { bars, times }) = runs.iter().find(wrong) {
            let given = format!("{bars} bars {times} times");
            return Err(Error::range("a run of passes", given, "1 or 2 bars at least once"));
        }
        if runs.is_empty() {
            return Err(Error::range("the count of passes", 0, "at least 1"));
        }
        Ok(Self { runs })
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
    let mut until = EvenWalk::new(0, singles, u64::from(passes)).into_iter().flatten();
    let mut before = until.next().unwrap_or(0);
    for _ in 0..passes {
        let now = until.next().unwrap_or(before);
        let bars = if now > before { Rows::ONE } else { TWO };
        before = now;
        match runs.last_mut() {
            Some(last) if last.bars == bars => last.times += 1,
            _ => runs.push(PassRun { bars, times: 1 }),
        }
    }
}

impl fmt::Display for PassRun {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", counted(self.bars.get(), "bar"))?;
        if self.times == 1 { Ok(()) } else { write!(f, " {}", times(self.times)) }
    }
}

/// "1 bar, then 2 bars 49 times"; single bars close what comes again.
impl fmt::Display for Passes {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mut groups: Vec<(Vec<PassRun>, u32)> = Vec::new();
        for group in self.runs.split_inclusive(|run| run.bars == Rows::ONE) {
            match groups.last_mut() {
                Some((last, times)) if *last == group => *times += 1,
                _ => groups.push((group.to_vec(), 1)),
            }
        }
        f.write_str(&tell(
            &shortest_of_runs(&groups),
            &|group, often| said(group, often),
            ", then ",
        ))
    }
}

fn said(group: &[PassRun], often: u32) -> String {
    let runs: Vec<String> = group.iter().map(PassRun::to_string).collect();
    let once = runs.join(", then ");
    if often == 1 { once } else { format!("({once}) {}", times(often)) }
}

/// Passes as they are written.
#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
struct Raw {
    runs: Vec<PassRun>,
}

#[cfg(feature = "serde")]
impl TryFrom<Raw> for Passes {
    type Error = Error;

    fn try_from(raw: Raw) -> Result<Self, Error> {
        Self::new(raw.runs)
    }
}

#[cfg(feature = "serde")]
impl From<Passes> for Raw {
    fn from(passes: Passes) -> Self {
        Self { runs: passes.runs }
    }
}
