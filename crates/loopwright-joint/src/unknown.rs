use crate::bounds;
use crate::error::{Error, Kind, short};
use crate::objective::Said;
use alloc::format;
use alloc::string::{String, ToString};
use core::ops::RangeInclusive;
use loopwright_gauge::{Count, Exact, Gauge, Length, Repeat, Rows, Stitches};

/// A count to be found: near which ideal, how much that matters, and which counts are
/// allowed.
///
/// Without more it weighs one, may be any count, and its miss is a count: one stitch
/// or row of it matters as much as a millimetre. With a gauge its miss is a length.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Exact, Gauge, Length, Repeat, Stitches};
/// use loopwright_joint::Unknown;
/// let gauge: Gauge = "28x40/10cm".parse()?;
/// // 52 cm wide, and a stitch at each edge that the seams hide.
/// let back = Unknown::near_length(Length::cm(52)?, gauge)
///     .hidden(Stitches::new(2)?)
///     .weight(Exact::whole(2))
///     .repeat(Repeat::multiple_of(4)?.plus(2)?)
///     .range(120_u32..=180);
/// let bobble = Unknown::near(Exact::new(15, 2)?);
/// # Ok::<(), loopwright_gauge::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(
    feature = "serde",
    serde(try_from = "crate::form::CountForm", into = "crate::form::CountForm")
)]
#[must_use = "an unknown is nothing until a problem has it"]
pub struct Unknown {
    pub(crate) ideal: Ideal,
    pub(crate) gauge: Option<Gauge>,
    pub(crate) hidden: u32,
    pub(crate) weight: Exact,
    pub(crate) repeat: Repeat,
    pub(crate) least: u32,
    pub(crate) most: u32,
}

#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub(crate) enum Ideal {
    Count(Exact),
    Length(Length),
}

/// Which of the two a count counts.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub(crate) enum What {
    Stitches,
    Rows,
}

impl What {
    /// What counts of this kind count.
    pub(crate) fn of<C: Count>() -> Self {
        if C::NAME == Rows::NAME { Self::Rows } else { Self::Stitches }
    }
}

/// An unknown as the search needs it: with its ideal count, and how long one is.
#[derive(Clone, Debug)]
pub(crate) struct Entry {
    pub(crate) what: What,
    pub(crate) said: Unknown,
    pub(crate) ideal: Exact,
    /// Millimetres to one stitch or row.
    pub(crate) size: Option<Exact>,
    pub(crate) steps: Steps,
}

/// The counts allowed: `first`, and `each` more, up to `more` times.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Steps {
    pub(crate) first: u32,
    pub(crate) each: u32,
    pub(crate) more: u32,
}

impl Unknown {
    /// An unknown whose ideal, unrounded count is `ideal`.
    pub const fn near(ideal: Exact) -> Self {
        Self::new(Ideal::Count(ideal), None)
    }

    /// An unknown that should be as long or as wide as `length` over `gauge`: its
    /// stitches if it counts stitches, its rows if it counts rows.
    pub const fn near_length(length: Length, gauge: Gauge) -> Self {
        Self::new(Ideal::Length(length), Some(gauge))
    }

    const fn new(ideal: Ideal, gauge: Option<Gauge>) -> Self {
        let (weight, repeat) = (Exact::ONE, Repeat::any());
        Self { ideal, gauge, hidden: 0, weight, repeat, least: 0, most: bounds::COUNT }
    }

    /// The gauge it is knitted at, so that its miss is a length, and measures and
    /// demands can speak of its length.
    pub const fn gauge(self, gauge: Gauge) -> Self {
        Self { gauge: Some(gauge), ..self }
    }

    /// How many of its stitches or rows add no length: those that seams hide.
    pub fn hidden(self, count: impl Into<u32>) -> Self {
        Self { hidden: count.into(), ..self }
    }

    /// How much its miss matters: one, unless said.
    pub const fn weight(self, weight: Exact) -> Self {
        Self { weight, ..self }
    }

    /// Which counts the stitch pattern allows.
    pub const fn repeat(self, repeat: Repeat) -> Self {
        Self { repeat, ..self }
    }

    /// The least and the greatest count allowed.
    pub fn range<C: Copy + Into<u32>>(self, range: RangeInclusive<C>) -> Self {
        let (least, most) = ((*range.start()).into(), (*range.end()).into());
        Self { least, most, ..self }
    }

    /// Refuses values that no answer could use; `name` is for the text.
    pub(crate) fn entry(self, name: &str, what: What) -> Result<Entry, Error> {
        let refuse = |what, given: String, allowed: String| {
            Err(Error::from(Kind::Range { what, name: short(name), given, allowed }))
        };
        let most = Exact::from(bounds::COUNT);
        if self.hidden > bounds::COUNT {
            return refuse("the hidden count", self.hidden.to_string(), format!("in 0..={most}"));
        }
        let size = match self.gauge {
            Some(gauge) => {
                let density = match what {
                    What::Stitches => gauge.of::<Stitches>()?,
                    What::Rows => gauge.of::<Rows>()?,
                };
                Some(Exact::ONE.checked_div(density.per_mm())?)
            }
            None => None,
        };
        let ideal = match (self.ideal, size) {
            (Ideal::Length(length), Some(size)) => {
                length.millimetres().checked_div(size)?.checked_add(self.hidden.into())?
            }
            (Ideal::Count(ideal), _) => ideal,
            (Ideal::Length(_), None) => return Err(Kind::Gaugeless { name: short(name) }.into()),
        };
        if ideal < Exact::ZERO || ideal > most {
            return refuse("the ideal", ideal.to_string(), format!("in 0..={most}"));
        }
        if !self.weight.is_positive() || self.weight > most {
            let allowed = format!("above 0 and at most {most}");
            return refuse("the weight", self.weight.to_string(), allowed);
        }
        if self.least > self.most || self.most > bounds::COUNT {
            let allowed = format!("a rising range within 0..={most}");
            return refuse("the range", format!("{}..={}", self.least, self.most), allowed);
        }
        let steps = self.steps().ok_or_else(|| {
            let (name, repeat) = (short(name), self.repeat.to_string());
            Error::from(Kind::NoCount { name, repeat, low: self.least, high: self.most })
        })?;
        Ok(Entry { what, said: self, ideal, size, steps })
    }

    /// The counts allowed; `None` when there are none.
    fn steps(&self) -> Option<Steps> {
        let (each, smallest) = (self.repeat.multiple(), self.repeat.smallest());
        let short = self.least.saturating_sub(smallest).div_ceil(each);
        let first = each.checked_mul(short)?.checked_add(smallest)?;
        let room = self.most.checked_sub(first)?;
        Some(Steps { first, each, more: room / each })
    }
}

impl Entry {
    /// The miss of the wish, as a length where the count has a gauge.
    pub(crate) fn wish(&self, place: usize) -> Result<Said, Error> {
        let size = self.size.unwrap_or(Exact::ONE);
        let wanted = self.ideal.checked_mul(size)?;
        Ok(Said { weight: self.said.weight, counts: [(place, size)].into(), wanted })
    }
}
