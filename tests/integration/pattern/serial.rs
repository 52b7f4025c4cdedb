//! Pieces, what the replay makes of them, and their words, written and read again.

use loopwright::gauge::{Choice, Side};
use loopwright::pattern::words::{Dialect, Instructions, Line, instructions};
use loopwright::pattern::{
    Along, Bed, BindOff, Copies, Craft, EdgeKind, Entry, Fabric, Facing, Heading, Knitted,
    KnittedEdge, Leg, Loops, Name, Needle, Piece, PieceFile, ShapeMethod, Sides, Step,
};
use serde::Serialize;
use serde::de::DeserializeOwned;
use std::fmt::Debug;

/// Reads what was written.
#[track_caller]
fn again<T: Serialize + DeserializeOwned + Debug + PartialEq>(value: &T) {
    let written = serde_json::to_string(value).unwrap();
    assert_eq!(&serde_json::from_str::<T>(&written).unwrap(), value, "{written}");
}

#[track_caller]
fn each<C: Choice + Serialize + DeserializeOwned + Debug + PartialEq + 'static>() {
    assert!(!C::ALL.is_empty());
    C::ALL.iter().for_each(again);
}

#[test]
fn choices_are_read_again() {
    each::<Along>();
    each::<BindOff>();
    each::<Dialect>();
    each::<EdgeKind>();
    each::<Facing>();
    each::<Heading>();
    each::<ShapeMethod>();
    for sides in [Sides::One(Side::Left), Sides::One(Side::Right), Sides::Both] {
        again::<Sides>(&sides);
    }
    for fabric in [Fabric::Plain, Fabric::Garter, Fabric::Rib { knit: 2, purl: 1 }] {
        again::<Fabric>(&fabric);
    }
    again::<Bed>(&Bed::of_needles(200).unwrap());
    for craft in [Craft::Hand, Craft::Machine(Bed::of_needles(180).unwrap())] {
        again::<Craft>(&craft);
    }
    for place in [-90, -1, 0, 89] {
        again::<Needle>(&Needle::at(place));
    }
}

#[test]
fn a_file_and_what_is_knitted_from_it() {
    let text = include_str!("../../../examples/pieces/pouch.json");
    let file: PieceFile = serde_json::from_str(text).unwrap();
    again::<PieceFile>(&file);
    for copies in &file.pieces {
        again::<Copies>(copies);
        let piece: &Piece = &copies.piece;
        again::<Piece>(piece);
        piece.steps().iter().for_each(again::<Step>);
    }
    for knitted in file.replay().unwrap() {
        again::<Knitted>(&knitted);
        again::<Name>(&knitted.name);
        knitted.log.iter().for_each(again::<Entry>);
        knitted.loops.iter().for_each(again::<Loops>);
        for edge in &knitted.edges {
            again::<KnittedEdge>(edge);
            edge.legs.iter().for_each(again::<Leg>);
        }
        let told: Instructions = instructions(&knitted);
        again::<Instructions>(&told);
        told.lines.iter().for_each(again::<Line>);
    }
}
