use crate::{EdgeFacts, EdgeRule, LinearDensity, LoopLength, SeamRule};
use alloc::string::String;
use alloc::vec::Vec;
use loopwright_gauge::{Length, Rows};

/// A yarn, the loop length of each fabric knitted in it, and the rules for its edges.
///
/// The first fabric is also the one that cast-ons, bind-offs, grafts and waste yarn are
/// reckoned by.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Length, Spread};
/// use loopwright_yardage::{LoopLength, Supply};
/// let loops = LoopLength::stated(Spread::exactly(Length::mm(10)?))?;
/// let supply = Supply::new("main", "100 tex".parse()?).fabric("plain", loops);
/// assert_eq!(supply.loops("plain"), Some(&loops));
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(from = "Raw", into = "Raw"))]
pub struct Supply {
    pub(crate) name: String,
    pub(crate) density: LinearDensity,
    pub(crate) fabrics: Vec<(String, LoopLength)>,
    pub(crate) rules: Rules,
}

impl Supply {
    /// A yarn without any fabric yet, under the usual [`Rules`].
    ///
    /// `density` is the resultant of all plies and strands, taken as exact.
    #[must_use]
    pub fn new(name: &str, density: LinearDensity) -> Self {
        Self { name: name.into(), density, fabrics: Vec::new(), rules: Rules::new() }
    }

    /// The same yarn with the loop length of `fabric`; a name given twice keeps the
    /// later.
    #[must_use]
    pub fn fabric(mut self, fabric: &str, loops: LoopLength) -> Self {
        match self.fabrics.iter_mut().find(|(name, _)| name == fabric) {
            Some((_, known)) => *known = loops,
            None => self.fabrics.push((fabric.into(), loops)),
        }
        self
    }

    /// The same yarn under other rules.
    #[must_use]
    pub fn rules(self, rules: Rules) -> Self {
        Self { rules, ..self }
    }

    /// The yarn's name, as tallies call it.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }

    /// The yarn's linear density.
    #[must_use]
    pub const fn density(&self) -> LinearDensity {
        self.density
    }

    /// The loop length of `fabric`.
    #[must_use]
    pub fn loops(&self, fabric: &str) -> Option<&LoopLength> {
        self.fabrics.iter().find(|(name, _)| name == fabric).map(|(_, loops)| loops)
    }
}

/// How the yarn of edges, seams, ends and floats is reckoned.
///
/// The usual rules: a cast-on is two rows and a bind-off one, a graft is a row, a seam
/// its length and 30 cm, an end 15 cm (10 to 20; common practice, no source), and no
/// floats.
///
/// # Examples
/// ```
/// use loopwright_gauge::Length;
/// use loopwright_yardage::{EdgeFacts, EdgeRule, Rules};
/// let long_tails = Rules::new()
///     .cast_on(EdgeRule::Wrap)
///     .edge(EdgeFacts::new().needle(Length::mm(4)?))
///     .tail(Length::cm(15)?);
/// assert_ne!(long_tails, Rules::new());
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(default, deny_unknown_fields))]
pub struct Rules {
    pub(crate) cast_on: EdgeRule,
    pub(crate) bind_off: EdgeRule,
    pub(crate) graft: EdgeRule,
    pub(crate) seam: SeamRule,
    pub(crate) end: Option<Length>,
    pub(crate) tail: Length,
    pub(crate) edge: EdgeFacts,
}

impl Rules {
    /// The usual rules.
    #[must_use]
    pub const fn new() -> Self {
        Self {
            cast_on: EdgeRule::Rows(Rows::literal(2)),
            bind_off: EdgeRule::Rows(Rows::ONE),
            graft: EdgeRule::Graft,
            seam: SeamRule::SeamAnd30Cm,
            end: None,
            tail: Length::ZERO,
            edge: EdgeFacts::new(),
        }
    }

    /// Another rule for cast-ons.
    #[must_use]
    pub const fn cast_on(self, rule: EdgeRule) -> Self {
        Self { cast_on: rule, ..self }
    }

    /// Another rule for bind-offs.
    #[must_use]
    pub const fn bind_off(self, rule: EdgeRule) -> Self {
        Self { bind_off: rule, ..self }
    }

    /// Another rule for grafts.
    #[must_use]
    pub const fn graft(self, rule: EdgeRule) -> Self {
        Self { graft: rule, ..self }
    }

    /// Another rule for seams.
    #[must_use]
    pub const fn seam(self, rule: SeamRule) -> Self {
        Self { seam: rule, ..self }
    }

    /// Ends cut to exactly this length.
    #[must_use]
    pub const fn end(self, length: Length) -> Self {
        Self { end: Some(length), ..self }
    }

    /// Each tail of a tally has this fixed length beyond its edge: "a few inches", the
    /// published rules for long tails say.
    #[must_use]
    pub const fn tail(self, more: Length) -> Self {
        Self { tail: more, ..self }
    }

    /// How wide a stitch lies and how thick the needle is, for the rules that ask;
    /// floats need the width.
    #[must_use]
    pub const fn edge(self, edge: EdgeFacts) -> Self {
        Self { edge, ..self }
    }
}

impl Default for Rules {
    fn default() -> Self {
        Self::new()
    }
}

/// A supply as it is written.
#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
struct Raw {
    name: String,
    density: LinearDensity,
    fabrics: Vec<(String, LoopLength)>,
    #[serde(default)]
    rules: Rules,
}

#[cfg(feature = "serde")]
impl From<Raw> for Supply {
    fn from(raw: Raw) -> Self {
        let begun = Self::new(&raw.name, raw.density).rules(raw.rules);
        raw.fabrics.iter().fold(begun, |supply, (fabric, loops)| supply.fabric(fabric, *loops))
    }
}

#[cfg(feature = "serde")]
impl From<Supply> for Raw {
    fn from(value: Supply) -> Self {
        let Supply { name, density, fabrics, rules } = value;
        Self { name, density, fabrics, rules }
    }
}
