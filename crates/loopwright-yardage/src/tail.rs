//! How much yarn an edge or a seam takes: each published rule by name.

use crate::grid::{self, outwards};
use crate::loops::length_times;
use crate::{Error, LoopLength, Spread};
use loopwright_gauge::{Exact, Length, Round, Unit};

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
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
#[non_exhaustive]
pub enum EdgeRule {
    /// None.
    Nothing,
    /// As much as this many knitted rows.
    Rows(u8),
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
    Measured(Length, u32),
    /// Three widths.
    SewnThreeWidths,
    /// Two widths.
    SewnTwoWidths,
    /// A knitted row, up to four widths.
    Graft,
}

/// What an edge rule may need to know of the work; leave out what the rule does not
/// ask for.
#[derive(Clone, Copy, Debug, Default, Eq, PartialEq)]
#[non_exhaustive]
pub struct Edge {
    /// How wide one stitch of the edge lies.
    pub stitch_width: Option<Length>,
    /// The needle's diameter.
    pub needle: Option<Length>,
}

impl Edge {
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
    pub fn per_stitch(self, loops: &LoopLength, edge: &Edge) -> Result<Spread<Length>, Error> {
        let widths = |numer, denom| times(edge.width()?, Exact::new(numer, denom)?);
        match self {
            Self::Nothing => Ok(Spread::exactly(Length::ZERO)),
            Self::Rows(rows) => {
                let rows = Exact::whole(rows.into());
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
    /// use loopwright_gauge::Length;
    /// use loopwright_yardage::{Edge, EdgeRule, LoopLength, Spread};
    /// let loops = LoopLength::stated(Spread::exactly(Length::mm(15)?))?;
    /// let edge = Edge::new().stitch_width("1/5 in".parse()?);
    /// let tail = EdgeRule::ThreeWidthsAndTenth.tail(60, &loops, &edge)?;
    /// assert_eq!(tail.likely(), "39.6 in".parse()?);
    /// # Ok::<(), loopwright_yardage::Error>(())
    /// ```
    pub fn tail(
        self,
        stitches: u32,
        loops: &LoopLength,
        edge: &Edge,
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
    /// use loopwright_gauge::Length;
    /// use loopwright_yardage::{Edge, EdgeRule, LoopLength, Spread};
    /// let loops = LoopLength::stated(Spread::exactly(Length::mm(15)?))?;
    /// let edge = Edge::new().needle(Length::mm(4)?);
    /// let tail = EdgeRule::EighthInch.tail_and(240, &loops, &edge, Length::inches(6)?)?;
    /// assert_eq!(tail.likely(), Length::inches(126)?);
    /// # Ok::<(), loopwright_yardage::Error>(())
    /// ```
    pub fn tail_and(
        self,
        stitches: u32,
        loops: &LoopLength,
        edge: &Edge,
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

fn measured(length: Length, stitches: u32) -> Result<Spread<Length>, Error> {
    if stitches == 0 || !length.is_positive() {
        let given = alloc::format!("{length} in {stitches} stitches");
        return Err(Error::range("the measured edge", given, "some yarn in some stitches"));
    }
    times(length, Exact::ONE.checked_div(stitches.into())?)
}

/// Low is the knitted row or three widths, whichever is less; high the row or four.
fn graft(loops: &LoopLength, edge: &Edge) -> Result<Spread<Length>, Error> {
    let row = loops.length();
    let Some(width) = edge.stitch_width else { return Ok(row) };
    let three = length_times(width, Exact::whole(3), Round::Floor)?;
    let four = length_times(width, Exact::whole(4), Round::Ceil)?;
    grid::between(row.low().min(three), row.likely(), row.high().max(four))
}

/// The shortest tail to graft a toe with: 25 cm (L. A. Bestor, *Cast On, Bind Off*).
pub const GRAFT_TAIL_LEAST_CM: i64 = 25;

/// A rule for the yarn in a sewn seam.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
#[non_exhaustive]
pub enum SeamRule {
    /// None: sewn in another yarn.
    Nothing,
    /// The seam and 30 cm more (andrearangel.com).
    SeamAnd30Cm,
    /// One and a half to two seams (common practice, no source).
    OneAndHalfToTwo,
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
pub fn seaming_strands(yarn: Length) -> Result<u32, Error> {
    if yarn < Length::ZERO {
        return Err(Error::range("the yarn of a seam", yarn, "zero or more"));
    }
    let strands = yarn.ratio(Length::inches(20)?)?;
    u32::try_from(strands.to_whole(Round::Ceil)?).map_err(|_| Error::overflow("the strands"))
}
