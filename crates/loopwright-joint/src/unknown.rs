use crate::bounds;
use crate::error::{Error, Kind};
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::{String, ToString};
use core::ops::RangeInclusive;
use loopwright_gauge::{Exact, Repeat};

/// A whole number to be found: near which ideal, how much that matters, and which
/// counts are allowed.
///
/// Without more it weighs one, and may be any count.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Exact, Repeat};
/// use loopwright_joint::Unknown;
/// let hem = Unknown::near(Exact::new(1456, 10)?)
///     .weight(Exact::whole(2))
///     .repeat(Repeat::multiple_of(4)?.plus(2)?)
///     .range(120..=180);
/// # Ok::<(), loopwright_gauge::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
#[must_use = "an unknown is nothing until a problem has it"]
pub struct Unknown {
    pub(crate) ideal: Exact,
    pub(crate) weight: Exact,
    pub(crate) repeat: Repeat,
    pub(crate) low: u32,
    pub(crate) high: u32,
}

impl Unknown {
    /// An unknown whose ideal, unrounded count is `ideal`.
    pub const fn near(ideal: Exact) -> Self {
        Self { ideal, weight: Exact::ONE, repeat: Repeat::any(), low: 0, high: bounds::COUNT }
    }

    /// How much one stitch or row of deviation costs.
    pub const fn weight(self, weight: Exact) -> Self {
        Self { weight, ..self }
    }

    /// Which counts the stitch pattern allows.
    pub const fn repeat(self, repeat: Repeat) -> Self {
        Self { repeat, ..self }
    }

    /// The least and the greatest count allowed.
    pub const fn range(self, range: RangeInclusive<u32>) -> Self {
        let (low, high) = (*range.start(), *range.end());
        Self { low, high, ..self }
    }

    /// Refuses values that no answer could use; `name` is for the text.
    pub(crate) fn check(&self, name: &str) -> Result<(), Error> {
        let most = Exact::from(bounds::COUNT);
        let refuse = |what, given: String, allowed: String| {
            Err(Error::from(Kind::Range { what, name: name.to_owned(), given, allowed }))
        };
        if self.ideal < Exact::ZERO || self.ideal > most {
            return refuse("the ideal", self.ideal.to_string(), format!("in 0..={most}"));
        }
        if !self.weight.is_positive() || self.weight > most {
            let allowed = format!("above 0 and at most {most}");
            return refuse("the weight", self.weight.to_string(), allowed);
        }
        if self.low > self.high || self.high > bounds::COUNT {
            let allowed = format!("a rising range within 0..={most}");
            return refuse("the range", format!("{}..={}", self.low, self.high), allowed);
        }
        self.steps().map(|_| ()).ok_or_else(|| {
            let repeat = self.repeat.to_string();
            Kind::NoCount { name: name.to_owned(), repeat, low: self.low, high: self.high }.into()
        })
    }

    /// The smallest allowed count, the step to the next, and how many steps there
    /// are; `None` when no count is allowed.
    pub(crate) fn steps(&self) -> Option<(u32, u32, u32)> {
        let (multiple, smallest) = (self.repeat.multiple(), self.repeat.smallest());
        let short = self.low.saturating_sub(smallest).div_ceil(multiple);
        let first = multiple.checked_mul(short)?.checked_add(smallest)?;
        let room = self.high.checked_sub(first)?;
        Some((first, multiple, room / multiple))
    }
}
