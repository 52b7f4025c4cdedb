//! The row table: the replay's own account of every row, for ticking off.

use crate::words::{Dialect, told};
use crate::{Entry, Facing, Knitted, MAIN_YARN, Name, Needle, Step};
use alloc::string::String;
use alloc::vec::Vec;
use loopwright_gauge::{Rows, Side, Stitches};

/// One row of a piece, as it was knitted.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Rows, Stitches};
/// use loopwright_pattern::words::Dialect;
/// use loopwright_pattern::{Direction, Craft, Fabric, Piece, Shape, Side, Sides, Step};
/// let mut piece = Piece::new("swatch", Craft::Hand)?;
/// let narrower = Shape::new(Direction::Decrease, Sides::Both, Stitches::new(1)?);
/// piece.extend([
///     Step::cast_on(Stitches::new(30)?, Fabric::Plain, Side::Right),
///     Step::Knit(Rows::new(4)?),
///     Step::Shape(narrower),
///     Step::Knit(Rows::new(2)?),
///     Step::bind_off_all("top"),
/// ]);
/// let knitted = piece.replay()?;
/// let fourth = knitted.row(Rows::new(4)?).ok_or("no row 4")?;
/// assert_eq!((fourth.begins, fourth.stitches.get()), (Side::Left, 28));
/// assert_eq!(
///     fourth.told(Dialect::American),
///     "Decrease 1 stitch at each end in the row just worked."
/// );
/// assert_eq!(knitted.stitches_after(Rows::new(3)?).map(Stitches::get), Some(30));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct TableRow<'a> {
    /// Its number in the piece, all parts and sections together; the first row is 1.
    pub number: Rows,
    /// What the row counter shows when it is done.
    pub counter: Rows,
    /// Where it begins.
    pub begins: Side,
    /// Where it ends.
    pub ends: Side,
    /// Which side of the fabric faces a knitter by hand in it.
    pub facing: Facing,
    /// The first and last needle in work, from left to right.
    pub needles: Option<(Needle, Needle)>,
    /// Stitches on hold at the left in it.
    pub held_left: Stitches,
    /// Stitches on hold at the right in it.
    pub held_right: Stitches,
    /// Stitches of the part after it and its shaping.
    pub stitches: Stitches,
    /// The yarn it is knitted with.
    pub yarn: Name,
    /// What is done before it.
    pub before: &'a [Entry],
    /// The shaping in it or after it.
    pub after: &'a [Entry],
    knitted: &'a Knitted,
}

impl TableRow<'_> {
    /// What to do before and after the row, in words; nothing for a plain one.
    #[must_use]
    pub fn told(&self, dialect: Dialect) -> String {
        let mut text = told(self.knitted, self.before, dialect);
        let after = told(self.knitted, self.after, dialect);
        if !text.is_empty() && !after.is_empty() {
            text.push(' ');
        }
        text + &after
    }
}

impl Knitted {
    /// Every row, in the order they were knitted.
    #[must_use]
    pub fn row_table(&self) -> Vec<TableRow<'_>> {
        let mut rows = Vec::with_capacity(self.rows.get() as usize);
        let (mut since, mut number, mut yarn) = (0, 0, MAIN_YARN);
        for (at, entry) in self.log.iter().enumerate() {
            let Step::Knit(count) = entry.step else {
                if let Step::ChangeYarn(name) = &entry.step {
                    yarn = name.clone();
                }
                continue;
            };
            let Some(start) = at.checked_sub(1).and_then(|before| self.log.get(before)) else {
                continue;
            };
            let shapings = self.log.iter().skip(at + 1).take_while(|next| is_shaping(next)).count();
            let before = self.log.get(since..at).unwrap_or_default();
            let after = self.log.get(at + 1..=at + shapings).unwrap_or_default();
            since = at + 1 + shapings;
            for nth in 1..=count.get() {
                number += 1;
                let mut row = self.table_row(start, nth, number, yarn.clone());
                row.before = if nth == 1 { before } else { &[] };
                if nth == count.get() {
                    row.after = after;
                    row.stitches = after.last().map_or(row.stitches, |last| last.stitches);
                }
                rows.push(row);
            }
        }
        rows
    }

    /// The `nth` of rows that follow an entry.
    fn table_row<'a>(
        &'a self,
        start: &'a Entry,
        nth: u32,
        number: u32,
        yarn: Name,
    ) -> TableRow<'a> {
        let of = |rows: u32| Rows::new(rows).unwrap_or(Rows::ZERO);
        let turned = |rows: u32| {
            if start.round || rows.is_multiple_of(2) {
                start.carriage
            } else {
                start.carriage.other()
            }
        };
        let facing = match (start.round, turned(nth - 1)) {
            (false, Side::Left) => Facing::WrongSide,
            _ => Facing::RightSide,
        };
        let needles = start.needles.map(|(first, last)| {
            let (left, right) = (start.held_left.get(), start.held_right.get());
            let first = Needle::at(first.place() + i64::from(left));
            (first, Needle::at(last.place() - i64::from(right)))
        });
        TableRow {
            number: of(number),
            counter: of(start.row.get().saturating_add(nth)),
            begins: turned(nth - 1),
            ends: turned(nth),
            facing,
            needles,
            held_left: start.held_left,
            held_right: start.held_right,
            stitches: start.stitches,
            yarn,
            before: &[],
            after: &[],
            knitted: self,
        }
    }

    /// The row with this number in the piece, the first being 1.
    #[must_use]
    pub fn row(&self, number: Rows) -> Option<TableRow<'_>> {
        let index = number.get().checked_sub(1)?;
        self.row_table().into_iter().nth(index as usize)
    }

    /// Stitches of the part being worked after the row with this number.
    #[must_use]
    pub fn stitches_after(&self, number: Rows) -> Option<Stitches> {
        self.row(number).map(|row| row.stitches)
    }
}

const fn is_shaping(entry: &Entry) -> bool {
    matches!(entry.step, Step::Shape(_) | Step::ShapeRow(_))
}
