//! Whether stitches are picked up along edges that are there.

use crate::{About, CastOn, Error, Knitted, KnittedEdge, PickUp, Step, Stretch};
use alloc::string::{String, ToString};
use alloc::vec::Vec;
use loopwright_seams::PickUpGroup;

/// Why stitches cannot be picked up as a piece says.
#[derive(Clone, Debug, Eq, PartialEq, thiserror::Error)]
pub(crate) enum Fault {
    #[error("two pieces are called {piece:?}; give each a name of its own")]
    TwoPieces { piece: String },
    #[error("the {piece} picks up along the {of}, but there is no such piece")]
    NoPiece { piece: String, of: String },
    #[error("the {piece} picks up along the {of}, which is not finished by then; knit that first")]
    NotFinished { piece: String, of: String },
    #[error("the {piece} picks up along the edge {edge:?} of the {of}, which has only {there}")]
    NoEdge { piece: String, of: String, edge: String, there: String },
    #[error("the {piece} measures from the marker {marker:?} of the {edge}, and there is none")]
    NoMarker { piece: String, edge: String, marker: String },
    #[error(
        "the {piece} picks up along {before} places before and {after} after a point of the {edge}, which has {there_before} before it and {there_after} after it"
    )]
    Outside {
        piece: String,
        edge: String,
        before: u32,
        after: u32,
        there_before: u64,
        there_after: u64,
    },
    #[error(
        "the {piece} picks up {told} stitches along the {edge} in {told_places} places, but {wanted} stitches in {places} places are meant"
    )]
    Places { piece: String, edge: String, told: u64, told_places: u64, wanted: u64, places: u64 },
    #[error(
        "the {edge} of the {of} is there {there} times and is picked up along {uses} times; copies and uses must agree"
    )]
    Twice { piece: String, of: String, edge: String, there: u32, uses: u64 },
}

impl Fault {
    pub(crate) fn piece(&self) -> &str {
        match self {
            Self::TwoPieces { piece }
            | Self::NoPiece { piece, .. }
            | Self::NotFinished { piece, .. }
            | Self::NoEdge { piece, .. }
            | Self::NoMarker { piece, .. }
            | Self::Outside { piece, .. }
            | Self::Places { piece, .. }
            | Self::Twice { piece, .. } => piece,
        }
    }
}

/// A piece and how many of it are made.
type Made<'a> = (&'a Knitted, u32);

/// One use of a stretch of an edge.
struct Use {
    owner: usize,
    edge: usize,
    begin: u64,
    end: u64,
    times: u32,
}

/// Checks every pick-up of pieces given in the order they are knitted: the piece and
/// the edge are there and finished, the places are those the edge has, and no place is
/// used more often than there are copies of it.
///
/// # Errors
/// When one of that does not hold, or two pieces have one name.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Rows, Stitches};
/// use loopwright_pattern::{
///     CastOn, Craft, Fabric, LEFT_EDGE, PickUp, Piece, Side, Step, check_pick_ups,
/// };
/// let mut side = Piece::new("side", Craft::Hand)?;
/// side.extend([
///     Step::cast_on(Stitches::new(20)?, Fabric::Plain, Side::Right),
///     Step::Knit(Rows::new(30)?),
///     Step::bind_off_all("top"),
/// ]);
/// let mut band = Piece::new("band", Craft::Hand)?;
/// band.extend([
///     Step::CastOn {
///         stitches: Stitches::new(77)?,
///         how: CastOn::PickedUp {
///             from: vec![PickUp::one_for_one("side", LEFT_EDGE, Stitches::new(77)?)],
///         },
///         fabric: Fabric::Garter,
///         carriage: Side::Left,
///         edge: "inner edge".into(),
///         needle: None,
///     },
///     Step::bind_off_all("outer edge"),
/// ]);
/// let (side, band) = (side.replay()?, band.replay()?);
/// assert_eq!(
///     check_pick_ups(&[(&side, 1), (&band, 1)]).unwrap_err().to_string(),
///     "the band picks up 77 stitches along the left edge in 77 places, \
///      but 77 stitches in 30 places are meant",
/// );
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn check_pick_ups(pieces: &[(&Knitted, u32)]) -> Result<(), Error> {
    one_name_each(pieces)?;
    let mut uses: Vec<Use> = Vec::new();
    for (index, (knitted, copies)) in pieces.iter().enumerate() {
        for picked in knitted.log.iter().flat_map(|entry| picked_in(&entry.step)) {
            let one = use_of(pieces, index, *copies, picked)?;
            not_too_often(pieces, index, &uses, &one)?;
            uses.push(one);
        }
    }
    Ok(())
}

fn one_name_each(pieces: &[Made<'_>]) -> Result<(), Fault> {
    for (index, (knitted, _)) in pieces.iter().enumerate() {
        if pieces.iter().take(index).any(|(other, _)| other.name == knitted.name) {
            return Err(Fault::TwoPieces { piece: knitted.name.to_string() });
        }
    }
    Ok(())
}

/// The edges a step picks up along.
fn picked_in(step: &Step) -> &[PickUp] {
    match step {
        Step::CastOn { how: CastOn::PickedUp { from }, .. } => from,
        Step::Hang(hang) => &hang.from,
        _ => &[],
    }
}

fn use_of(pieces: &[Made<'_>], index: usize, times: u32, picked: &PickUp) -> Result<Use, Fault> {
    let piece = name_at(pieces, index);
    let of = picked.piece.to_string();
    let owner = pieces.iter().position(|(other, _)| other.name == picked.piece);
    let owner = owner.ok_or_else(|| Fault::NoPiece { piece: piece.clone(), of: of.clone() })?;
    if owner > index {
        return Err(Fault::NotFinished { piece, of });
    }
    let edges = pieces.get(owner).map_or(&[][..], |(knitted, _)| knitted.edges.as_slice());
    let found = edges.iter().enumerate().find(|(_, edge)| edge.name == picked.edge);
    let Some((edge, made)) = found else {
        let (edge, there) = (picked.edge.to_string(), crate::edge::names(edges));
        return Err(Fault::NoEdge { piece, of, edge, there });
    };
    let (begin, end) = stretch(&piece, made, picked.stretch.as_ref())?;
    places(piece, picked, end - begin)?;
    Ok(Use { owner, edge, begin, end, times })
}

fn name_at(pieces: &[Made<'_>], index: usize) -> String {
    pieces.get(index).map_or_else(String::new, |(knitted, _)| knitted.name.to_string())
}

/// The places of the edge that are meant.
fn stretch(
    piece: &str,
    edge: &KnittedEdge,
    stretch: Option<&Stretch>,
) -> Result<(u64, u64), Fault> {
    let all = edge.places();
    let Some(Stretch { about, before, after }) = stretch else { return Ok((0, all)) };
    let at = match about {
        About::Start => 0,
        About::End => all,
        About::Middle => all / 2,
        About::Marker(name) => {
            let marker = edge.markers.iter().find(|marker| marker.name == *name);
            let marker = marker.ok_or_else(|| Fault::NoMarker {
                piece: piece.into(),
                edge: edge.name.to_string(),
                marker: name.to_string(),
            })?;
            marker.places.into()
        }
    };
    let (there_before, there_after) = (at, all.saturating_sub(at));
    if u64::from(*before) > there_before || u64::from(*after) > there_after {
        return Err(Fault::Outside {
            piece: piece.into(),
            edge: edge.name.to_string(),
            before: *before,
            after: *after,
            there_before,
            there_after,
        });
    }
    Ok((at - u64::from(*before), at + u64::from(*after)))
}

/// The groups tell the stitches, and go over the places that are there.
fn places(piece: String, picked: &PickUp, places: u64) -> Result<(), Fault> {
    let wanted = u64::from(picked.stitches.get());
    let sum = |count: fn(PickUpGroup) -> u64| {
        picked.groups.iter().map(|&group| count(group)).fold(0, u64::saturating_add)
    };
    let (told, told_places) = if picked.groups.is_empty() {
        (wanted, wanted)
    } else {
        (sum(PickUpGroup::stitches), sum(PickUpGroup::places))
    };
    if told == wanted && told_places == places {
        return Ok(());
    }
    let edge = picked.edge.to_string();
    Err(Fault::Places { piece, edge, told, told_places, wanted, places })
}

/// A place may be picked up along once for each copy of its piece.
fn not_too_often(pieces: &[Made<'_>], index: usize, uses: &[Use], one: &Use) -> Result<(), Fault> {
    let Some((knitted, there)) = pieces.get(one.owner) else { return Ok(()) };
    let same = |other: &&Use| {
        (other.owner, other.edge) == (one.owner, one.edge)
            && other.begin < one.end
            && one.begin < other.end
    };
    let before: u64 = uses.iter().filter(same).map(|other| u64::from(other.times)).sum();
    let uses = before + u64::from(one.times);
    // Within its own piece an edge is there as often as it is used.
    let there = if one.owner == index { u64::from(one.times) } else { u64::from(*there) };
    if uses <= there {
        return Ok(());
    }
    Err(Fault::Twice {
        piece: name_at(pieces, index),
        of: knitted.name.to_string(),
        edge: knitted.edges.get(one.edge).map_or_else(String::new, |edge| edge.name.to_string()),
        there: u32::try_from(there).unwrap_or(u32::MAX),
        uses,
    })
}
