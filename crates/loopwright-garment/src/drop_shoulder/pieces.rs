//! The steps of each piece; nothing here adds up stitches.

use super::DropShoulderChoices;
use super::counts::Counts;
use super::neck::{NeckCurve, Opening};
use super::shoulder::Shoulder;
use crate::draft::Made;
use crate::error::Kind;
use crate::{Error, Fabrics};
use loopwright_gauge::{Rows, Stitches};
use loopwright_pattern::{
    BindOff, CastOn, Craft, Direction, Fabric, Name, Piece, Shape, Side, Sides, Step,
};
use loopwright_shaping::{Edges, Taper};

pub(super) const BACK: Name = Name::fixed("back");
pub(super) const FRONT: Name = Name::fixed("front");
pub(super) const SLEEVE: Name = Name::fixed("sleeve");
pub(super) const NECKBAND: Name = Name::fixed("neckband");

/// Edge stitches that are moved whole when one is gained or lost (a tool with two or
/// three prongs; common practice, no source).
fn inset() -> Result<Stitches, Error> {
    Ok(Stitches::new(2)?)
}

/// What gives a sleeve more rows to shape in, or less to shape.
const SLEEVE_ADVICE: &str = "give a shorter cuff, fewer plain rows at the top, less ease at the chest, or ease that brings the upper arm nearer to the wrist";

const SLEEVE_KEYS: &[&str] =
    &["cuff", "sleeve_plain", "ease.chest", "ease.upper_arm", "ease.wrist"];

pub(super) struct Maker<'a> {
    pub(super) craft: Craft,
    pub(super) fabrics: &'a Fabrics,
    pub(super) counts: &'a Counts,
    pub(super) choices: &'a DropShoulderChoices,
}

impl Maker<'_> {
    pub(super) fn back(&self) -> Result<Made, Error> {
        let mut piece = self.body(BACK)?;
        knit_on(&mut piece, self.counts.armhole_rows)?;
        let carriage = self.carriage(self.counts.rows_to_shoulder());
        self.shoulder()?.pair(&mut piece, self.counts.neck, carriage)?;
        Ok(Made { piece, copies: 1 })
    }

    /// The neck is divided where the carriage is at one side: the half at that side is
    /// knitted on, the other waits, and the yarn is cut and joined for it at the neck.
    pub(super) fn front(&self, curve: &NeckCurve) -> Result<Made, Error> {
        let counts = self.counts;
        let mut piece = self.body(FRONT)?;
        let below_neck = counts.rows_to_shoulder() + counts.slope_rows - counts.neck_rows;
        knit_on(&mut piece, below_neck - counts.side_rows)?;
        let near = self.carriage(below_neck);
        let far = near.other();
        piece.push(Step::SetAside {
            side: far,
            stitches: Stitches::new(counts.shoulder + curve.each_side())?,
            part: shoulder_edge(far),
            its_edge: neck_edge(far),
            edge: neck_edge(near),
        });
        let centre = Stitches::new(curve.centre)?;
        piece.push(Step::TakeOff { side: far, stitches: centre, edge: CENTRE_NECK });
        self.side_of_neck(Half { piece: &mut piece, armhole: near, carriage: near }, curve)?;
        piece.push(Step::Resume { part: shoulder_edge(far) });
        piece.push(Step::Join { side: near });
        self.side_of_neck(Half { piece: &mut piece, armhole: far, carriage: near }, curve)?;
        Ok(Made { piece, copies: 1 })
    }

    /// Where the carriage is so many rows above the hem: it begins at the right.
    pub(super) const fn carriage(&self, rows: u32) -> Side {
        if (self.counts.hem_rows + rows).is_multiple_of(2) { Side::Right } else { Side::Left }
    }

    pub(super) fn sleeve(&self) -> Result<Made, Error> {
        let counts = self.counts;
        let mut piece = self.ribbed(SLEEVE, counts.wrist, counts.cuff_rows)?;
        let (from, to) = (Stitches::new(counts.wrist)?, Stitches::new(counts.sleeve_top)?);
        // By hand shaping is worked in right-side rows.
        let every = if self.craft.is_machine() { 1 } else { 2 };
        let taper = Taper::builder(from, to, Rows::new(counts.sleeve_rows)?)
            .edges(Edges::Both)
            .legal_rows(Rows::ONE, Rows::new(every)?)
            .plain_after(Rows::new(counts.sleeve_plain_rows.min(counts.sleeve_rows))?)
            .order(self.choices.sleeve_order)
            .build()
            .map_err(|why| Kind::NoShape {
                what: "sleeve",
                why,
                advice: SLEEVE_ADVICE,
                keys: SLEEVE_KEYS,
            })?;
        let change = if from < to { Direction::Increase } else { Direction::Decrease };
        let mut row = 0;
        for event in taper.events() {
            knit_on(&mut piece, event.row.get() - row)?;
            let shape = Shape::new(change, Sides::Both, event.stitches).inset(inset()?);
            piece.push(Step::Shape(shape));
            row = event.row.get();
        }
        knit_on(&mut piece, counts.sleeve_rows - row)?;
        piece.push(Step::bind_off_all(TOP));
        Ok(Made { piece, copies: 2 })
    }

    pub(super) fn neckband(&self, opening: &Opening) -> Result<Made, Error> {
        let mut from = opening.picked_up(self.fabrics)?;
        let stitches = from.iter().map(|edge| edge.stitches.get()).sum();
        // By hand they are picked up from right to left, and the yarn ends at the left.
        let carriage = if self.craft.is_machine() { Side::Right } else { Side::Left };
        if carriage == Side::Left {
            from.reverse();
        }
        let mut piece = Piece::new(NECKBAND, self.craft)?;
        piece.push(Step::CastOn {
            stitches: Stitches::new(stitches)?,
            how: CastOn::PickedUp { from },
            fabric: self.fabrics.rib_fabric(),
            carriage,
            edge: NECK_OF_BAND,
            needle: None,
        });
        knit_on(&mut piece, self.counts.band_rows)?;
        piece.push(Step::BindOffAll { how: BindOff::InRib, edge: "upper edge".into() });
        Ok(Made { piece, copies: 1 })
    }

    /// Hem and side, up to the armhole marks.
    fn body(&self, name: Name) -> Result<Piece, Error> {
        let mut piece = self.ribbed(name, self.counts.body, self.counts.hem_rows)?;
        knit_on(&mut piece, self.counts.side_rows)?;
        for side in [Side::Left, Side::Right] {
            piece.push(Step::NameEdge { side, edge: armhole(side) });
        }
        Ok(piece)
    }

    /// A rib, and the change to stocking stitch after it.
    fn ribbed(&self, name: Name, stitches: u32, rows: u32) -> Result<Piece, Error> {
        let mut piece = Piece::new(name, self.craft)?;
        let rib = self.fabrics.rib_fabric();
        piece.push(Step::cast_on(Stitches::new(stitches)?, rib, Side::Right));
        knit_on(&mut piece, rows)?;
        piece.push(Step::ChangeFabric(Fabric::Plain));
        piece.push(Step::ResetCounter);
        Ok(piece)
    }

    fn shoulder(&self) -> Result<Shoulder, Error> {
        Shoulder::new(self.counts, self.choices)
    }

    /// One half of the front: the curve of the neck, then the shoulder.
    ///
    /// Several stitches at once are bound off where the yarn is, so the halves shape the
    /// neck one row apart. By hand single ones are decreased in right-side rows.
    fn side_of_neck(&self, mut half: Half<'_>, curve: &NeckCurve) -> Result<(), Error> {
        let straight = self.counts.neck_rows - self.counts.slope_rows;
        let mut row = 0;
        for &(at, stitches) in &curve.steps {
            let rows = at - row;
            let rows = match stitches {
                // The last leaves the carriage where the shoulder begins.
                1 if self.craft.is_machine() && at < straight => rows,
                1 if self.craft.is_machine() => half.rows_to_end_at(half.neck(), rows),
                1 => half.rows_to_end_at(Side::Left, rows),
                _ => half.rows_to_end_at(half.neck(), rows),
            };
            half.knit(rows)?;
            row += rows;
            half.narrow_neck(Stitches::new(stitches)?)?;
        }
        self.shoulder()?.alone(half, straight.saturating_sub(row))
    }
}

/// One half of a front, and where the carriage is.
pub(super) struct Half<'a> {
    pub(super) piece: &'a mut Piece,
    pub(super) armhole: Side,
    pub(super) carriage: Side,
}

impl Half<'_> {
    pub(super) fn knit(&mut self, rows: u32) -> Result<(), Error> {
        knit_on(self.piece, rows)?;
        if rows % 2 == 1 {
            self.carriage = self.carriage.other();
        }
        Ok(())
    }

    pub(super) const fn neck(&self) -> Side {
        self.armhole.other()
    }

    pub(super) const fn carriage_after(&self, rows: u32) -> Side {
        if rows.is_multiple_of(2) { self.carriage } else { self.carriage.other() }
    }

    /// So many rows, or one fewer, that end at a side; one more where there are too few.
    pub(super) fn rows_to_end_at(&self, side: Side, rows: u32) -> u32 {
        match rows {
            rows if self.carriage_after(rows) == side => rows,
            0 | 1 => rows + 1,
            rows => rows - 1,
        }
    }

    fn narrow_neck(&mut self, stitches: Stitches) -> Result<(), Error> {
        self.piece.push(match stitches.get() {
            1 => {
                let neck = Sides::One(self.neck());
                Step::Shape(Shape::new(Direction::Decrease, neck, stitches).inset(inset()?))
            }
            _ => Step::bind_off(stitches),
        });
        Ok(())
    }
}

pub(super) const CENTRE_NECK: Name = Name::fixed("centre neck stitches");

pub(super) const NECK_OF_BAND: Name = Name::fixed("neck");

pub(super) const TOP: Name = Name::fixed("top");

pub(super) const fn neck_edge(side: Side) -> Name {
    match side {
        Side::Left => Name::fixed("left neck edge"),
        Side::Right => Name::fixed("right neck edge"),
    }
}

pub(super) const fn armhole(side: Side) -> Name {
    match side {
        Side::Left => Name::fixed("left armhole edge"),
        Side::Right => Name::fixed("right armhole edge"),
    }
}

pub(super) const fn shoulder_edge(side: Side) -> Name {
    match side {
        Side::Left => Name::fixed("left shoulder"),
        Side::Right => Name::fixed("right shoulder"),
    }
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
