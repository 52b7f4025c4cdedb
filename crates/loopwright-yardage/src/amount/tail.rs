//! How much yarn an edge or a seam takes: each published rule by name.

use crate::grid::{self, outwards};
use crate::loops::length_times;
use crate::{Error, LoopLength, Spread};
use core::fmt;
use core::str::FromStr;
use loopwright_gauge::{Count as _, Exact, Length, Round, Rows, Stitches, Unit, choices};

/// A rule for the yarn in an edge: a cast-on, a bind-off or a graft.
///
/// The rules rival one another in print, so the choice is always visible. Every rule
/// is a length for each stitch of the edge.
///
/// | rule | yarn | source |
/// |---|---|---|
/// | `Nothing` | none: live stitches, or worked in another yarn | |
/// | `Rows(n)` | n knitted rows; a cast-on counts as two, a bind-off as one | tossingthestash.blogspot.com |
/// | `ThreeWidthsAndTenth` | long-tail cast-on: three widths and a tenth more | credited to Lily Chin |
/// | `FourWidths` | long-tail cast-on, or tubular (grafted) bind-off: four widths | section "disputed"; pattern note at amy-wentley.squarespace.com |
/// | `EighthInch` | long-tail cast-on: needle in mm over 8, in inches, a stitch | just-a-lucky-dog.blogspot.com, 2016 |
/// | `Wrap` | long-tail cast-on: once round the needle a stitch (needle times π) | knitting.about.com |
/// | `InchOrTwo` | long-tail cast-on: 1 to 2 in a stitch by needle size | knitting.about.com |
/// | `Measured` | what was measured in some stitches, ten for example | holliyeoh.com |
/// | `SewnThreeWidths` | sewn bind-off: three widths | knittingdaily.com glossary; common practice |
/// | `SewnTwoWidths` | sewn bind-off: two widths | a tutorial, disputed with the last |
/// | `Graft` | a graft: a knitted row, or three to four widths | a yarn maker's page; from memory |
///
/// It reads and prints `nothing`, `2 rows`, `three widths and a tenth`, `four widths`,
/// `eighth inch`, `wrap`, `inch or two`, `7 in in 10 stitches`, `sewn three widths`,
/// `sewn two widths` and `graft`; hyphens are read as spaces.
///
/// # Examples
/// ```
/// use loopwright_gauge::Rows;
/// use loopwright_yardage::EdgeRule;
/// assert_eq!("2 rows".parse(), Ok(EdgeRule::Rows(Rows::literal(2))));
/// assert_eq!("sewn-two-widths".parse(), Ok(EdgeRule::SewnTwoWidths));
/// assert_eq!(EdgeRule::ThreeWidthsAndTenth.to_string(), "three widths and a tenth");
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
#[non_exhaustive]
pub enum EdgeRule {
    /// None.
    Nothing,
    /// As much as this many knitted rows.
    Rows(Rows),
    /// Three widths and a tenth of that.
    ThreeWidthsAndTenth,
    /// Four widths.
    FourWidths,
    /// An eighth of an inch for each millimetre of needle, a stitch.
    EighthInch,
    /// Once round the needle a stitch.
    Wrap,
    /// One to two inches a stitch.
    InchOrTwo,
    /// This length in this many stitches.
    Measured(Length, Stitches),
    /// Three widths.
    SewnThreeWidths,
    /// Two widths.
    SewnTwoWidths,
    /// A knitted row, up to four widths.
    Graft,
}

/// The rules that are a name alone.
const NAMED: [(&str, EdgeRule); 9] = [
    ("nothing", EdgeRule::Nothing),
    ("three widths and a tenth", EdgeRule::ThreeWidthsAndTenth),
    ("four widths", EdgeRule::FourWidths),
    ("eighth inch", EdgeRule::EighthInch),
    ("wrap", EdgeRule::Wrap),
    ("inch or two", EdgeRule::InchOrTwo),
    ("sewn three widths", EdgeRule::SewnThreeWidths),
    ("sewn two widths", EdgeRule::SewnTwoWidths),
    ("graft", EdgeRule::Graft),
];

impl fmt::Display for EdgeRule {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Rows(rows) => write!(f, "{}", rows.counted()),
            Self::Measured(length, stitches) => write!(f, "{length} in {}", stitches.counted()),
            rule => {
                let name = NAMED.iter().find(|(_, named)| named == rule);
                f.write_str(name.map_or("", |(name, _)| name))
            }
        }
    }
}

impl FromStr for EdgeRule {
    type Err = Error;

    fn from_str(text: &str) -> Result<Self, Error> {
        const FORMS: &str = "write nothing, a count of rows such as 2 rows, a measured edge such \
                             as 7 in in 10 stitches, three widths and a tenth, four widths, \
                             eighth inch, wrap, inch or two, sewn three widths, sewn two widths \
                             or graft";
        let said = text.trim().replace('-', " ").to_ascii_lowercase();
        if let Some(&(_, rule)) = NAMED.iter().find(|(name, _)| *name == said) {
            return Ok(rule);
        }
        let refuse = || Error::parse("the rule of an edge", text, FORMS);
        match said.rsplit_once(" in ") {
            Some((length, stitches)) => {
                let length = length.parse().map_err(|_| refuse())?;
                Ok(Self::Measured(length, stitches.parse().map_err(|_| refuse())?))
            }
            None if said == "one row" => Ok(Self::Rows(Rows::ONE)),
            None if said == "two rows" => Ok(Self::Rows(Rows::literal(2))),
            None if said.contains("row") => Ok(Self::Rows(said.parse().map_err(|_| refuse())?)),
            None => Err(refuse()),
        }
    }
}

/// What an edge rule may need to know of the work; leave out what the rule does not
/// ask for.
///
/// # Examples
/// ```
/// use loopwright_gauge::Length;
/// use loopwright_yardage::EdgeFacts;
/// let edge = EdgeFacts::new().stitch_width(Length::mm(5)?).needle(Length::mm(4)?);
/// assert_eq!(edge.needle, Some(Length::mm(4)?));
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Default, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(default, deny_unknown_fields))]
#[non_exhaustive]
pub struct EdgeFacts {
    /// How wide one stitch of the edge lies.
    pub stitch_width: Option<Length>,
    /// The needle's diameter.
    pub needle: Option<Length>,
}

impl EdgeFacts {
    /// Nothing known.
    #[must_use]
    pub const fn new() -> Self {
        Self { stitch_width: None, needle: None }
    }

    /// The same edge, its stitches lying this wide.
    #[must_use]
    pub const fn stitch_width(self, width: Length) -> Self {
        Self { stitch_width: Some(width), ..self }
    }

    /// The same edge, worked on a needle of this diameter.
    #[must_use]
    pub const fn needle(self, diameter: Length) -> Self {
        Self { needle: Some(diameter), ..self }
    }

    fn width(&self) -> Result<Length, Error> {
        known("the width of a stitch", self.stitch_width)
    }

    fn diameter(&self) -> Result<Length, Error> {
        known("the needle's diameter", self.needle)
    }
}

fn known(what: &'static str, length: Option<Length>) -> Result<Length, Error> {
    match length {
        None => Err(Error::missing("the edge rule", what)),
        Some(length) if !length.is_positive() => Err(Error::range(what, length, "above zero")),
        Some(length) => Ok(length),
    }
}

impl EdgeRule {
    /// The yarn in one stitch of the edge; `loops` is the loop length of its fabric.
    ///
    /// π enters `Wrap` as 22/7, which is 0.04 % too much.
    ///
    /// # Errors
    /// When the rule needs a width or a needle that `edge` does not give, or a length
    /// cannot be held.
    pub fn per_stitch(self, loops: &LoopLength, edge: &EdgeFacts) -> Result<Spread<Length>, Error> {
        let widths = |numer, denom| times(edge.width()?, Exact::new(numer, denom)?);
        match self {
            Self::Nothing => Ok(Spread::exactly(Length::ZERO)),
            Self::Rows(rows) => {
                let rows = Exact::from(rows);
                outwards(loops.length(), |length, round| length_times(length, rows, round))
            }
            Self::ThreeWidthsAndTenth => widths(33, 10),
            Self::FourWidths => widths(4, 1),
            Self::SewnThreeWidths => widths(3, 1),
            Self::SewnTwoWidths => widths(2, 1),
            // An eighth of 25.4 for each millimetre.
            Self::EighthInch => times(edge.diameter()?, Exact::new(254, 80)?),
            Self::Wrap => times(edge.diameter()?, Exact::new(22, 7)?),
            Self::InchOrTwo => {
                let likely = Length::new(Exact::new(3, 2)?, Unit::Inch)?;
                Ok(Spread::new(Length::inches(1)?, likely, Length::inches(2)?)?)
            }
            Self::Measured(length, stitches) => measured(length, stitches),
            Self::Graft => graft(loops, edge),
        }
    }

    /// The whole tail for an edge of `stitches`, without any end to weave in.
    ///
    /// # Errors
    /// As [`EdgeRule::per_stitch`].
    ///
    /// # Examples
    /// A long tail for 12 in of edge, three widths and a tenth: 39.6 in.
    /// ```
    /// use loopwright_gauge::{Length, Stitches};
    /// use loopwright_yardage::{EdgeFacts, EdgeRule, LoopLength, Spread};
    /// let loops = LoopLength::stated(Spread::exactly(Length::mm(15)?))?;
    /// let edge = EdgeFacts::new().stitch_width("1/5 in".parse()?);
    /// let tail = EdgeRule::ThreeWidthsAndTenth.tail(Stitches::new(60)?, &loops, &edge)?;
    /// assert_eq!(tail.likely(), "39.6 in".parse()?);
    /// # Ok::<(), loopwright_yardage::Error>(())
    /// ```
    pub fn tail(
        self,
        stitches: Stitches,
        loops: &LoopLength,
        edge: &EdgeFacts,
    ) -> Result<Spread<Length>, Error> {
        let count = Exact::from(stitches);
        outwards(self.per_stitch(loops, edge)?, |length, round| length_times(length, count, round))
    }

    /// The whole tail with a fixed length more, as the published rules have it: "and an
    /// end" (just-a-lucky-dog.blogspot.com, 2016), "plus a few inches" (knitting.about.com).
    ///
    /// # Errors
    /// As [`EdgeRule::per_stitch`], or when `more` is below zero.
    ///
    /// # Examples
    /// 240 stitches on 4 mm take 120 in, and 6 in to hold on to.
    /// ```
    /// use loopwright_gauge::{Length, Stitches};
    /// use loopwright_yardage::{EdgeFacts, EdgeRule, LoopLength, Spread};
    /// let loops = LoopLength::stated(Spread::exactly(Length::mm(15)?))?;
    /// let edge = EdgeFacts::new().needle(Length::mm(4)?);
    /// let tail = EdgeRule::EighthInch.tail_and(Stitches::new(240)?, &loops, &edge, Length::inches(6)?)?;
    /// assert_eq!(tail.likely(), Length::inches(126)?);
    /// # Ok::<(), loopwright_yardage::Error>(())
    /// ```
    pub fn tail_and(
        self,
        stitches: Stitches,
        loops: &LoopLength,
        edge: &EdgeFacts,
        more: Length,
    ) -> Result<Spread<Length>, Error> {
        if more < Length::ZERO {
            return Err(Error::range("the fixed length of a tail", more, "zero or more"));
        }
        outwards(self.tail(stitches, loops, edge)?, |tail, round| {
            let mm = grid::LENGTH.sum(tail.millimetres(), more.millimetres(), round)?;
            Ok(Length::from_millimetres(mm)?)
        })
    }
}

/// `length`, `factor` times, for certain.
fn times(length: Length, factor: Exact) -> Result<Spread<Length>, Error> {
    outwards(Spread::exactly(length), |length, round| length_times(length, factor, round))
}

fn measured(length: Length, stitches: Stitches) -> Result<Spread<Length>, Error> {
    if stitches.is_zero() || !length.is_positive() {
        let given = alloc::format!("{length} in {}", stitches.counted());
        return Err(Error::range("the measured edge", given, "some yarn in some stitches"));
    }
    times(length, Exact::ONE.checked_div(stitches.into())?)
}

/// Low is the knitted row or three widths, whichever is less; high the row or four.
fn graft(loops: &LoopLength, edge: &EdgeFacts) -> Result<Spread<Length>, Error> {
    let row = loops.length();
    let Some(width) = edge.stitch_width else { return Ok(row) };
    let three = length_times(width, Exact::whole(3), Round::Floor)?;
    let four = length_times(width, Exact::whole(4), Round::Ceil)?;
    grid::between(row.low().min(three), row.likely(), row.high().max(four))
}

/// The shortest tail to graft a toe with: 25 cm (L. A. Bestor, *Cast On, Bind Off*).
pub const GRAFT_TAIL_LEAST_CM: i64 = 25;

choices! {
    /// A rule for the yarn in a sewn seam.
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::Length;
    /// use loopwright_yardage::SeamRule;
    /// let yarn = SeamRule::SeamAnd30Cm.yarn(Length::cm(60)?, 1)?;
    /// assert_eq!(yarn.likely(), Length::cm(90)?);
    /// # Ok::<(), loopwright_yardage::Error>(())
    /// ```
    #[non_exhaustive]
    pub enum SeamRule: "the rule of a seam" {
        /// None: sewn in another yarn.
        Nothing = "nothing",
        /// The seam and 30 cm more (andrearangel.com).
        SeamAnd30Cm = "seam and 30 cm",
        /// One and a half to two seams (common practice, no source).
        OneAndHalfToTwo = "one and a half to two seams",
    }
}

impl SeamRule {
    /// The yarn for `seams` seams of `length` in all.
    ///
    /// # Errors
    /// When `length` is below zero, or the result cannot be held.
    pub fn yarn(self, length: Length, seams: u32) -> Result<Spread<Length>, Error> {
        if length < Length::ZERO {
            return Err(Error::range("the length of the seam", length, "zero or more"));
        }
        match self {
            Self::Nothing => Ok(Spread::exactly(Length::ZERO)),
            Self::SeamAnd30Cm => {
                let extra = Length::cm(30)?.scaled(seams.into())?.millimetres();
                outwards(Spread::exactly(length.millimetres()), |mm, round| {
                    Ok(Length::from_millimetres(grid::LENGTH.sum(mm, extra, round)?)?)
                })
            }
            Self::OneAndHalfToTwo => grid::between(
                length_times(length, Exact::new(3, 2)?, Round::Floor)?,
                length_times(length, Exact::new(7, 4)?, Round::HalfUp)?,
                length_times(length, Exact::whole(2), Round::Ceil)?,
            ),
        }
    }
}

/// How many strands a seam's yarn is cut into: at most 20 in each, as yarn wears when it
/// is drawn through (chebucto.ns.ca).
///
/// # Errors
/// When `yarn` is below zero, or takes too many strands to count.
///
/// # Examples
/// ```
/// use loopwright_gauge::Length;
/// use loopwright_yardage::seaming_strands;
/// assert_eq!(seaming_strands(Length::inches(61)?)?, 4);
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
pub fn seaming_strands(yarn: Length) -> Result<u32, Error> {
    if yarn < Length::ZERO {
        return Err(Error::range("the yarn of a seam", yarn, "zero or more"));
    }
    let inches = Length::inches(20)?.millimetres();
    let strands = grid::SHARE.quotient(yarn.millimetres(), inches, Round::Ceil)?;
    u32::try_from(strands.to_whole(Round::Ceil)?).map_err(|_| Error::overflow("the strands"))
}
