//! Shapings that were computed, as the steps that knit them.

use crate::error::Kind;
use crate::{BindOff, Direction, Error, Name, Piece, Shape, ShapeRow, Side, Sides, Step};
use loopwright_gauge::{Rows, Stitches};
use loopwright_shaping::{Curve, Edges, ShortRows, Slope, Spacing, Taper};

/// A count as a number, whatever counts it.
fn n(count: impl Into<u32>) -> u32 {
    count.into()
}

impl Piece {
    /// Where the yarn hangs after the steps so far, by the rows knitted; nothing before
    /// the cast-on.
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::{Rows, Stitches};
    /// use loopwright_pattern::{Craft, Fabric, Piece, Side, Step};
    /// let mut piece = Piece::new("swatch", Craft::Hand)?;
    /// piece.push(Step::cast_on(Stitches::new(30)?, Fabric::Plain, Side::Right));
    /// piece.push(Step::Knit(Rows::new(7)?));
    /// assert_eq!(piece.carriage(), Some(Side::Left));
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn carriage(&self) -> Option<Side> {
        let (mut carriage, mut round) = (None, false);
        for step in self.steps() {
            match step {
                Step::CastOn { carriage: side, .. } | Step::Join { side } => carriage = Some(*side),
                Step::Knit(rows) if !round && rows.get() % 2 == 1 => {
                    carriage = carriage.map(Side::other);
                }
                Step::JoinRound => (carriage, round) = (Some(Side::Right), true),
                Step::Divide { .. } => round = false,
                _ => {}
            }
        }
        carriage
    }

    /// Shapes the row just knitted as a spacing has it, counted from a side.
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::{Rows, Stitches};
    /// use loopwright_pattern::{Craft, Fabric, Piece, Side, Step};
    /// use loopwright_shaping::{Convention, Spacing};
    /// let mut piece = Piece::new("cuff", Craft::Hand)?;
    /// piece.push(Step::cast_on(Stitches::new(40)?, Fabric::Plain, Side::Right));
    /// piece.push(Step::Knit(Rows::new(10)?));
    /// let more = Spacing::between(Stitches::new(40)?, Stitches::new(48)?, Convention::HalfGaps);
    /// piece.space(&more.build()?, Side::Right);
    /// piece.push(Step::bind_off_all("top"));
    /// assert_eq!(piece.replay()?.bound_off.get(), 48);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn space(&mut self, spacing: &Spacing, from: Side) {
        if spacing.positions().next().is_some() {
            self.push(Step::ShapeRow(ShapeRow::spaced(spacing, from)));
        }
    }

    /// Knits a taper, its plain rows before and after included, shaped so many stitches in
    /// from the edge.
    ///
    /// # Errors
    /// When the taper is for one edge and `sides` for both, or the other way.
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::{Rows, Stitches};
    /// use loopwright_pattern::{Craft, Fabric, Piece, Side, Sides, Step};
    /// use loopwright_shaping::{Edges, Taper};
    /// let (from, to) = (Stitches::new(42)?, Stitches::new(92)?);
    /// let taper = Taper::builder(from, to, Rows::new(90)?).edges(Edges::Both).build()?;
    /// let mut sleeve = Piece::new("sleeve", Craft::Hand)?;
    /// sleeve.push(Step::cast_on(from, Fabric::Plain, Side::Right));
    /// sleeve.taper(&taper, Sides::Both, Stitches::new(2)?)?;
    /// sleeve.push(Step::bind_off_all("top"));
    /// let knitted = sleeve.replay()?;
    /// assert_eq!((knitted.rows.get(), knitted.bound_off), (90, to));
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn taper(&mut self, taper: &Taper, sides: Sides, inset: Stitches) -> Result<(), Error> {
        if (taper.edges() == Edges::Both) != (sides == Sides::Both) {
            return Err(Kind::TaperEdges.into());
        }
        let change =
            if taper.from() < taper.to() { Direction::Increase } else { Direction::Decrease };
        let mut row = n(taper.start());
        let end = row.saturating_add(n(taper.rows()));
        for event in taper.events() {
            self.knit_on(n(event.row) - row)?;
            let stitches = Stitches::new(n(event.stitches))?;
            self.push(Step::Shape(Shape::new(change, sides, stitches).inset(inset)));
            row = n(event.row);
        }
        self.knit_on(end - row)
    }

    /// Knits a curve at one side, inwards or outwards.
    ///
    /// Several stitches at once are bound off, or cast on, where the yarn hangs; where a
    /// row of the curve ends at the other side they come one row before it, or after it
    /// where there is none before. By hand single ones are shaped in right-side rows.
    ///
    /// # Errors
    /// When several stitches come before the first row and the yarn is at the other side.
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::{Length, Rows, Stitches};
    /// use loopwright_pattern::{Bed, Direction, Craft, Fabric, Piece, Side, Step};
    /// use loopwright_shaping::{Bend, Curve, Outline};
    /// let quarter = Outline::quarter_ellipse(Length::cm(9)?, Length::cm(8)?, Bend::Slowing)?;
    /// let curve = Curve::builder(&quarter, Stitches::new(16)?, Rows::new(22)?).build()?;
    /// let mut piece = Piece::new("half", Craft::Machine(Bed::of_needles(100)?))?;
    /// piece.push(Step::cast_on(Stitches::new(50)?, Fabric::Plain, Side::Right));
    /// piece.curve(&curve, Side::Right, Direction::Decrease, Stitches::new(2)?)?;
    /// piece.push(Step::bind_off_all("shoulder"));
    /// let shoulder = piece.replay()?.edge("shoulder").map(|edge| edge.stitches());
    /// assert_eq!(shoulder, Some(34));
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn curve(
        &mut self,
        curve: &Curve,
        side: Side,
        change: Direction,
        inset: Stitches,
    ) -> Result<(), Error> {
        let shape = Shape::new(change, Sides::One(side), Stitches::ZERO).inset(inset);
        let mut row = 0;
        self.at_once(n(curve.opening()), side, shape)?;
        for event in curve.events() {
            let rows = n(event.row).saturating_sub(row);
            let rows = match n(event.stitches) {
                1 if self.craft().is_machine() => rows,
                1 => self.rows_to(Side::Left, rows),
                _ => self.rows_to(side, rows),
            };
            self.knit_on(rows)?;
            self.at_once(n(event.stitches), side, shape)?;
            row += rows;
        }
        let rest = n(curve.rows()).saturating_sub(row);
        let closing = n(curve.closing());
        let rest = if closing > 1 { self.rows_to(side, rest) } else { rest };
        self.knit_on(rest)?;
        self.at_once(closing, side, shape)
    }

    /// One stitch shaped, or several bound off or cast on where the yarn hangs.
    fn at_once(&mut self, stitches: u32, side: Side, shape: Shape) -> Result<(), Error> {
        let count = Stitches::new(stitches)?;
        self.push(match (stitches, shape.change) {
            (0, _) => return Ok(()),
            (1, _) => Step::Shape(Shape { stitches: count, ..shape }),
            _ if self.carriage() != Some(side) => return Err(Kind::CarriageAway { side }.into()),
            (_, Direction::Decrease) => Step::bind_off(count),
            (_, Direction::Increase) => Step::Extend(count),
        });
        Ok(())
    }

    /// So many rows, or one fewer, that end at a side; one more where there are too few.
    fn rows_to(&self, side: Side, rows: u32) -> u32 {
        let ends = self.carriage().map(|at| if rows % 2 == 1 { at.other() } else { at });
        match rows {
            rows if ends == Some(side) || ends.is_none() => rows,
            0 | 1 => rows + 1,
            rows => rows - 1,
        }
    }

    /// Binds a slope off in steps onto one edge, two rows to a step, the first at once.
    ///
    /// A slope by short rows is knitted by [`Piece::short_rows`].
    ///
    /// # Errors
    /// When the yarn is at the other side.
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::Stitches;
    /// use loopwright_pattern::{Craft, Fabric, Piece, Side, Step};
    /// use loopwright_shaping::{Larger, Slope};
    /// let slope = Slope::builder(Stitches::new(16)?, 3, Larger::Last).build()?;
    /// let mut piece = Piece::new("shoulder", Craft::Hand)?;
    /// piece.push(Step::cast_on(Stitches::new(16)?, Fabric::Plain, Side::Right));
    /// piece.slope(&slope, Side::Right, "slope")?;
    /// let edge = piece.replay()?.edge("slope").map(|edge| (edge.rows(), edge.stitches()));
    /// assert_eq!(edge, Some((4, 16)));
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn slope(&mut self, slope: &Slope, side: Side, edge: impl Into<Name>) -> Result<(), Error> {
        let edge = edge.into();
        let mut row = 1;
        for step in slope.steps() {
            self.knit_on(n(step.row) - row)?;
            row = n(step.row);
            if self.carriage() != Some(side) {
                return Err(Kind::CarriageAway { side }.into());
            }
            let (stitches, edge) = (Stitches::new(n(step.stitches))?, Some(edge.clone()));
            self.push(Step::BindOff { stitches, how: BindOff::Plain, edge });
        }
        Ok(())
    }

    /// Knits short rows: stitches go on hold and come back as each row has it, and all are
    /// back after the last.
    ///
    /// # Errors
    /// When a count is out of range.
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::Stitches;
    /// use loopwright_pattern::{Bed, Craft, Fabric, Piece, Side, Step};
    /// use loopwright_shaping::{Larger, ShortRows, Slope};
    /// let slope = Slope::builder(Stitches::new(15)?, 3, Larger::Last).build()?;
    /// let mut piece = Piece::new("shoulder", Craft::Machine(Bed::of_needles(50)?))?;
    /// piece.push(Step::cast_on(Stitches::new(15)?, Fabric::Plain, Side::Right));
    /// piece.short_rows(&ShortRows::stepped(&slope, "left".parse()?)?)?;
    /// piece.push(Step::bind_off_all("top"));
    /// assert_eq!(piece.replay()?.all_loops(), 10 * 2 + 5 * 2 + 15);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn short_rows(&mut self, rows: &ShortRows) -> Result<(), Error> {
        let width = n(rows.width());
        let (mut left, mut right, mut plain) = (0, 0, 0);
        for row in rows.rows() {
            let held = (n(row.from), width - n(row.to));
            if held != (left, right) {
                self.knit_on(plain)?;
                self.turn(Side::Left, left, held.0)?;
                self.turn(Side::Right, right, held.1)?;
                ((left, right), plain) = (held, 0);
            }
            plain += 1;
        }
        self.knit_on(plain)?;
        if (left, right) != (0, 0) {
            self.push(Step::Return);
        }
        Ok(())
    }

    /// So many stitches held at a side become so many.
    fn turn(&mut self, side: Side, from: u32, to: u32) -> Result<(), Error> {
        let stitches = Stitches::new(from.abs_diff(to))?;
        match from.cmp(&to) {
            core::cmp::Ordering::Less => self.push(Step::Hold { side, stitches }),
            core::cmp::Ordering::Greater => self.push(Step::ReturnSome { side, stitches }),
            core::cmp::Ordering::Equal => {}
        }
        Ok(())
    }

    /// Rows, if there are any.
    fn knit_on(&mut self, rows: u32) -> Result<(), Error> {
        if rows > 0 {
            self.push(Step::Knit(Rows::new(rows)?));
        }
        Ok(())
    }
}
