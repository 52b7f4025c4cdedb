use crate::error::Kind;
use crate::{Error, Fabrics};
use loopwright_gauge::{Length, Spread, Stitches};
use loopwright_joint::RoundedCount;
use loopwright_pattern::{Knitted, KnittedEdge, Name, Piece, check_pick_ups};
use loopwright_seams::{Edge, Join, Seam, SeamReport, Tolerance, check_all};
use std::borrow::Cow;

/// A piece, and how many of it are to be made.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct Made {
    /// The piece.
    pub piece: Piece,
    /// How many.
    pub copies: u32,
}

/// An edge by the names of its piece and itself.
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct EdgeRef {
    /// The piece.
    #[cfg_attr(feature = "schema", schemars(with = "String"))]
    pub piece: Name,
    /// The edge.
    #[cfg_attr(feature = "schema", schemars(with = "String"))]
    pub edge: Name,
    /// Stitches of it that lie hidden in another seam.
    #[cfg_attr(feature = "serde", serde(default))]
    pub hidden: u32,
}

impl EdgeRef {
    /// The edge `edge` of the piece `piece`.
    #[must_use]
    pub fn new(piece: impl Into<Name>, edge: impl Into<Name>) -> Self {
        Self { piece: piece.into(), edge: edge.into(), hidden: 0 }
    }

    /// The same edge less `stitches` at its ends, hidden in another seam.
    #[must_use]
    pub fn less(self, stitches: u32) -> Self {
        Self { hidden: stitches, ..self }
    }

    fn name(&self) -> String {
        format!("{} of the {}", self.edge, self.piece)
    }
}

/// A seam to be made: what it is called, how, and between which edges, each side a line
/// of one edge or more.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct SeamPlan {
    /// What the seam is called.
    pub name: String,
    /// How it is joined.
    pub join: Join,
    /// One side.
    pub a: Vec<EdgeRef>,
    /// The other side.
    pub b: Vec<EdgeRef>,
    /// How it is done, in words.
    pub words: String,
    /// How often: a seam that both sleeves have is made twice.
    pub times: u32,
    /// How far the sides may differ.
    pub tolerance: Tolerance,
}

impl SeamPlan {
    /// A seam made once, within the usual tolerance of its join.
    #[must_use]
    pub fn new(name: &str, join: Join, a: Vec<EdgeRef>, b: Vec<EdgeRef>, words: &str) -> Self {
        let (name, words) = (name.into(), words.into());
        Self { name, join, a, b, words, times: 1, tolerance: join.tolerance() }
    }

    /// The same seam, so many times.
    #[must_use]
    pub fn times(self, times: u32) -> Self {
        Self { times, ..self }
    }

    /// The same seam within another tolerance.
    #[must_use]
    pub fn within(self, tolerance: Tolerance) -> Self {
        Self { tolerance, ..self }
    }
}

/// What a choice or a measure came to.
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct Outcome {
    /// Which measure.
    pub what: Cow<'static, str>,
    /// What was wanted.
    pub wanted: Length,
    /// What the counts give, and the least and the most that is, for all the swatch
    /// tells.
    pub given: Spread<Length>,
}

/// How near a staircase of stitches and rows comes to the line it stands for.
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct Nearness {
    /// Which line.
    pub what: Cow<'static, str>,
    /// The largest distance from it in any row, across the piece.
    pub most: Length,
}

/// Pieces and seams as drafted, before anything is knitted.
#[derive(Clone, Debug, Eq, PartialEq)]
#[non_exhaustive]
pub struct Draft {
    /// The gauges they were drafted for.
    pub fabrics: Fabrics,
    /// The pieces in the order they are made.
    pub pieces: Vec<Made>,
    /// The seams in the order they are made.
    pub seams: Vec<SeamPlan>,
    /// What each measure comes to.
    pub outcomes: Vec<Outcome>,
    /// Every count that was rounded, with its ideal and what the rounding cost.
    pub counts: Vec<RoundedCount>,
    /// Whether that rounding is proved to be the best there is.
    pub proved: bool,
    /// How near the curves are to their outlines.
    pub curves: Vec<Nearness>,
    /// Cautions to print with the instructions.
    pub cautions: Vec<&'static str>,
}

/// A piece as the replay knitted it.
#[derive(Clone, Debug, Eq, PartialEq)]
#[non_exhaustive]
pub struct FinishedPiece {
    /// What the replay found.
    pub knitted: Knitted,
    /// How many of it are made.
    pub copies: u32,
}

/// A garment whose every piece was replayed and whose every seam was checked.
#[derive(Clone, Debug, Eq, PartialEq)]
#[non_exhaustive]
pub struct Garment {
    /// The gauges it was drafted for.
    pub fabrics: Fabrics,
    /// The pieces in the order they are made.
    pub pieces: Vec<FinishedPiece>,
    /// The seams as planned, in the order they are made.
    pub plans: Vec<SeamPlan>,
    /// What the check of the seams found, in the same order.
    pub seams: SeamReport,
    /// What each measure comes to.
    pub outcomes: Vec<Outcome>,
    /// Every count that was rounded, with its ideal and what the rounding cost.
    pub counts: Vec<RoundedCount>,
    /// Whether that rounding is proved to be the best there is.
    pub proved: bool,
    /// How near the curves are to their outlines.
    pub curves: Vec<Nearness>,
    /// Cautions to print with the instructions.
    pub cautions: Vec<&'static str>,
}

impl Draft {
    /// Knits every piece in the replay and checks every seam.
    ///
    /// # Errors
    /// When a piece cannot be knitted, a seam speaks of an edge that does not exist, or
    /// two edges that are to be joined do not match.
    pub fn finish(self) -> Result<Garment, Error> {
        self.check_times()?;
        let pieces = knit(&self.pieces)?;
        let made: Vec<_> = pieces.iter().map(|piece| (&piece.knitted, piece.copies)).collect();
        check_pick_ups(&made)?;
        let seams = check(&pieces, &self.seams, &self.fabrics)?;
        if let Some(failure) = seams.failures().next() {
            return Err(Kind::CannotBe {
                keys: &[],
                why: format!("a seam does not match: {failure}"),
            }
            .into());
        }
        if let Some(loose) = seams.loose.first().or(seams.taken_twice.first()) {
            return Err(Kind::CannotBe {
                keys: &[],
                why: format!("live stitches are not joined once: {loose}"),
            }
            .into());
        }
        let Self { fabrics, seams: plans, outcomes, counts, proved, curves, cautions, .. } = self;
        Ok(Garment { fabrics, pieces, plans, seams, outcomes, counts, proved, curves, cautions })
    }
}

impl Draft {
    /// The most often a piece or a seam may be made.
    pub const MOST_TIMES: u32 = 1_000;

    fn check_times(&self) -> Result<(), Error> {
        let pieces = self.pieces.iter().map(|made| (made.piece.name().as_str(), made.copies));
        let mut all = pieces.chain(self.seams.iter().map(|seam| (seam.name.as_str(), seam.times)));
        match all.find(|(_, times)| !(1..=Self::MOST_TIMES).contains(times)) {
            Some((what, given)) => {
                Err(Kind::Times { what: what.into(), given, most: Self::MOST_TIMES }.into())
            }
            None => Ok(()),
        }
    }
}

pub(crate) fn knit(pieces: &[Made]) -> Result<Vec<FinishedPiece>, Error> {
    pieces
        .iter()
        .map(|made| Ok(FinishedPiece { knitted: made.piece.replay()?, copies: made.copies }))
        .collect()
}

/// Whether the edges of these seams match.
pub(crate) fn fit(
    pieces: &[FinishedPiece],
    plans: &[SeamPlan],
    fabrics: &Fabrics,
) -> Result<bool, Error> {
    for plan in plans {
        let (a, b) = (line(pieces, &plan.a, fabrics)?, line(pieces, &plan.b, fabrics)?);
        if !loopwright_seams::check(plan.join, &a, &b, plan.tolerance)?.matches {
            return Ok(false);
        }
    }
    Ok(true)
}

fn seam(pieces: &[FinishedPiece], plan: &SeamPlan, fabrics: &Fabrics) -> Result<Seam, Error> {
    let (a, b) = (line(pieces, &plan.a, fabrics)?, line(pieces, &plan.b, fabrics)?);
    Ok(Seam::new(plan.join, a, b).within(plan.tolerance))
}

fn check(
    pieces: &[FinishedPiece],
    plans: &[SeamPlan],
    fabrics: &Fabrics,
) -> Result<SeamReport, Error> {
    let seams = plans.iter().map(|plan| seam(pieces, plan, fabrics));
    let seams: Vec<Seam> = seams.collect::<Result<_, Error>>()?;
    Ok(check_all(&seams, &edges(pieces, fabrics)?)?)
}

/// Every edge that was knitted, under the name of its piece and its own.
fn edges(pieces: &[FinishedPiece], fabrics: &Fabrics) -> Result<Vec<Edge>, Error> {
    let mut edges = Vec::new();
    for piece in pieces {
        for knitted in piece.knitted.edges.iter().filter(|edge| !edge.legs.is_empty()) {
            let name = EdgeRef::new(piece.knitted.name.clone(), knitted.name.clone()).name();
            edges.push(knitted.to_edge(&name, Stitches::ZERO, |fabric| fabrics.of(fabric))?);
        }
    }
    Ok(edges)
}

/// The edges of one side of a seam, as one line.
pub(crate) fn line(
    pieces: &[FinishedPiece],
    refs: &[EdgeRef],
    fabrics: &Fabrics,
) -> Result<Edge, Error> {
    let mut parts = Vec::new();
    for wanted in refs {
        let (knitted, hidden) = (find(pieces, wanted)?, Stitches::new(wanted.hidden)?);
        parts.push(knitted.to_edge(&wanted.name(), hidden, |fabric| fabrics.of(fabric))?);
    }
    match <[Edge; 1]>::try_from(parts) {
        Ok([only]) => Ok(only),
        Err(parts) => {
            let names: Vec<String> = refs.iter().map(EdgeRef::name).collect();
            Ok(Edge::joined(names.join(" and "), parts)?)
        }
    }
}

fn find<'a>(pieces: &'a [FinishedPiece], wanted: &EdgeRef) -> Result<&'a KnittedEdge, Error> {
    let piece = pieces.iter().find(|piece| piece.knitted.name == wanted.piece);
    piece.and_then(|piece| piece.knitted.edge(wanted.edge.as_str())).ok_or_else(|| {
        Kind::CannotBe { keys: &[], why: format!("there is no edge called {}", wanted.name()) }
            .into()
    })
}
