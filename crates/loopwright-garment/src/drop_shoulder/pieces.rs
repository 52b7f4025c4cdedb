//! The steps of each piece; nothing here adds up stitches.

use super::Choices;
use super::counts::Counts;
use super::neck::{NeckCurve, Opening};
use super::shoulder::Shoulder;
use crate::draft::Made;
use crate::error::Kind;
use crate::{Error, Fabrics};
use loopwright_gauge::{Rows, Stitches};
use loopwright_pattern::{CastOn, Change, Craft, Fabric, Piece, Shape, Side, Sides, Step};
use loopwright_shaping::{Edges, Taper};

pub(super) const BACK: &str = "back";
pub(super) const FRONT: &str = "front";
pub(super) const SLEEVE: &str = "sleeve";
pub(super) const NECKBAND: &str = "neckband";

/// Edge stitches that are moved whole when one is gained or lost (a tool with two or
/// three prongs; common practice, no source).
const INSET: u32 = 2;

/// What gives a sleeve more rows to shape in, or less to shape.
const SLEEVE_ADVICE: &str = "give a shorter cuff, fewer plain rows at the top, less ease at the chest, or ease that brings the upper arm nearer to the wrist";

pub(super) struct Maker<'a> {
    pub(super) craft: Craft,
    pub(super) fabrics: &'a Fabrics,
    pub(super) counts: &'a Counts,
    pub(super) choices: &'a Choices,
}

impl Maker<'_> {
    pub(super) fn back(&self) -> Result<Made, Error> {
        let mut piece = self.body(BACK)?;
        piece.push(knit(self.counts.armhole_rows)?);
        self.shoulder()?.pair(&mut piece, self.counts.neck)?;
        Ok(Made { piece, copies: 1 })
    }

    /// The neck is divided: one side is knitted while the other waits.
    pub(super) fn front(&self, curve: &NeckCurve) -> Result<Made, Error> {
        let counts = self.counts;
        let mut piece = self.body(FRONT)?;
        let below_neck = counts.rows_to_shoulder() + counts.slope_rows - counts.neck_rows;
        knit_on(&mut piece, below_neck - counts.side_rows)?;
        piece.push(Step::SetAside {
            side: Side::Right,
            stitches: Stitches::new(counts.shoulder + curve.each_side())?,
            part: "right shoulder".into(),
            its_edge: neck_edge(Side::Right),
            edge: neck_edge(Side::Left),
        });
        let centre = Stitches::new(curve.centre)?;
        piece.push(Step::TakeOff { side: Side::Right, stitches: centre, edge: CENTRE_NECK.into() });
        self.side_of_neck(&mut piece, curve, Side::Left)?;
        piece.push(Step::Resume { part: "right shoulder".into(), carriage: Side::Left });
        self.side_of_neck(&mut piece, curve, Side::Right)?;
        Ok(Made { piece, copies: 1 })
    }

    pub(super) fn sleeve(&self) -> Result<Made, Error> {
        let counts = self.counts;
        let mut piece = self.ribbed(SLEEVE, counts.wrist, counts.cuff_rows)?;
        let (from, to) = (Stitches::new(counts.wrist)?, Stitches::new(counts.sleeve_top)?);
        // By hand shaping is worked in right-side rows.
        let every = if self.craft.is_machine() { 1 } else { 2 };
        let taper = Taper::builder(from, to, Rows::new(counts.sleeve_rows)?)
            .edges(Edges::Both)
            .legal_rows(1, every)
            .plain_after(Rows::new(counts.sleeve_plain_rows.min(counts.sleeve_rows))?)
            .order(self.choices.sleeve_order)
            .build()
            .map_err(|why| Kind::NoShape { what: "sleeve", why, advice: SLEEVE_ADVICE })?;
        let change = if from < to { Change::Increase } else { Change::Decrease };
        let mut row = 0;
        for event in taper.events() {
            piece.push(knit(event.row - row)?);
            piece.push(Step::Shape(Shape {
                change,
                sides: Sides::Both,
                stitches: event.stitches,
                inset: INSET,
            }));
            row = event.row;
        }
        knit_on(&mut piece, counts.sleeve_rows - row)?;
        piece.push(Step::bind_off_all("top"));
        Ok(Made { piece, copies: 2 })
    }

    pub(super) fn neckband(&self, opening: &Opening) -> Result<Made, Error> {
        let from = opening.picked_up(self.fabrics)?;
        let stitches = from.iter().map(|edge| edge.stitches).sum();
        let mut piece = Piece::new(NECKBAND, self.craft)?;
        piece.push(Step::CastOn {
            stitches: Stitches::new(stitches)?,
            how: CastOn::PickedUp { from },
            fabric: self.fabrics.rib_fabric(),
            carriage: Side::Right,
            edge: "neck".into(),
        });
        piece.push(knit(self.counts.band_rows)?);
        piece.push(Step::bind_off_all("upper edge"));
        Ok(Made { piece, copies: 1 })
    }

    /// Hem and side, up to the armhole marks.
    fn body(&self, name: &str) -> Result<Piece, Error> {
        let mut piece = self.ribbed(name, self.counts.body, self.counts.hem_rows)?;
        piece.push(knit(self.counts.side_rows)?);
        for side in [Side::Left, Side::Right] {
            piece.push(Step::NameEdge { side, edge: armhole(side) });
        }
        Ok(piece)
    }

    /// A rib, and the change to stocking stitch after it.
    fn ribbed(&self, name: &str, stitches: u32, rows: u32) -> Result<Piece, Error> {
        let mut piece = Piece::new(name, self.craft)?;
        let rib = self.fabrics.rib_fabric();
        piece.push(Step::cast_on(Stitches::new(stitches)?, rib, Side::Right));
        piece.push(knit(rows)?);
        piece.push(Step::ChangeFabric(Fabric::Plain));
        piece.push(Step::ResetCounter);
        Ok(piece)
    }

    fn shoulder(&self) -> Result<Shoulder, Error> {
        Shoulder::new(self.counts, self.choices)
    }

    /// One side of the front: the curve of the neck, then the shoulder.
    fn side_of_neck(&self, piece: &mut Piece, curve: &NeckCurve, side: Side) -> Result<(), Error> {
        let straight = self.counts.neck_rows - self.counts.slope_rows;
        let mut row = 0;
        for &(at, stitches) in &curve.steps {
            knit_on(piece, at - row)?;
            row = at;
            piece.push(match stitches {
                1 => Step::Shape(Shape {
                    change: Change::Decrease,
                    sides: Sides::One(side.opposite()),
                    stitches: 1,
                    inset: INSET,
                }),
                _ => Step::BindOff { stitches: Stitches::new(stitches)?, edge: None },
            });
        }
        self.shoulder()?.alone(piece, side, straight - row)
    }
}

pub(super) const CENTRE_NECK: &str = "centre neck stitches";

pub(super) fn neck_edge(side: Side) -> String {
    format!("{side} neck edge")
}

pub(super) fn armhole(side: Side) -> String {
    format!("{side} armhole edge")
}

pub(super) fn shoulder_edge(side: Side) -> String {
    format!("{side} shoulder")
}

pub(super) fn knit(rows: u32) -> Result<Step, Error> {
    Ok(Step::Knit(Rows::new(rows)?))
}

/// Rows, if there are any.
pub(super) fn knit_on(piece: &mut Piece, rows: u32) -> Result<(), Error> {
    if rows > 0 {
        piece.push(knit(rows)?);
    }
    Ok(())
}
