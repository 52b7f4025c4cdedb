//! Increases and decreases, a cell at a time.

use super::strip::{Cell, index, inward};
use super::{Bench, Stop};
use loopwright::pattern::{Craft, Direction, Shape, ShapeRow, Side, Sides, Technique};

impl Bench {
    pub(super) fn shape(&mut self, shape: Shape) -> Result<(), Stop> {
        self.flat()?.first_in_work(Side::Left).ok_or(Stop::NoStitches)?;
        if shape.stitches.get() == 0 {
            return Err(Stop::Zero);
        }
        let sides = match shape.sides {
            Sides::Both => vec![Side::Left, Side::Right],
            Sides::One(side) => vec![side],
        };
        for side in sides {
            match shape.change {
                Direction::Increase => {
                    self.not_held(side)?;
                    let here = self.stitches()?.first_in_work(side);
                    let mut end = here;
                    for _ in 0..shape.stitches.get() {
                        end = Some(self.beside(side)?);
                    }
                    self.carry(here, end.expect("a cell"));
                }
                Direction::Decrease => {
                    let working = self.stitches()?.in_work(side).len();
                    let uses = shape.stitches.get() as usize + shape.inset.get() as usize;
                    if uses >= working.max(1) {
                        return Err(Stop::TooFew);
                    }
                    self.not_held(side)?;
                    for _ in 0..shape.stitches.get() {
                        self.lose(side)?;
                    }
                }
            }
        }
        Ok(())
    }

    fn lose(&mut self, side: Side) -> Result<(), Stop> {
        let strip = self.stitches()?;
        let place = strip.outermost(side).expect("a cell");
        strip.remove(place);
        let edge = strip.edges[index(side)].clone();
        self.borders.get_mut(&edge).expect("an edge").stitches += 1;
        self.carry(Some(place), place + inward(side));
        Ok(())
    }

    /// Every yarn at one needle is carried to another.
    fn carry(&mut self, from: Option<i64>, to: i64) {
        for (place, _) in self.yarns.values_mut().filter_map(|yarn| yarn.at.as_mut()) {
            if Some(*place) == from {
                *place = to;
            }
        }
    }

    pub(super) fn shape_row(&mut self, row: &ShapeRow) -> Result<(), Stop> {
        let machine = matches!(self.craft, Craft::Machine(_));
        let strip = self.stitches()?;
        let (round, old) = (strip.round, strip.in_work(row.from));
        if row.positions.is_empty() {
            return Err(Stop::Zero);
        }
        if old.len() != row.stitches.get() as usize {
            return Err(Stop::OtherWidth);
        }
        let (made, came_from) = work(row, old.len(), round)?;
        let held = [Side::Left, Side::Right].map(|side| strip.held(side));
        if machine && held != [0, 0] {
            return Err(Stop::Held);
        }
        self.replace(row, &old, &made, &came_from);
        Ok(())
    }

    /// Puts the new row where the old was, about the same middle.
    fn replace(&mut self, row: &ShapeRow, old: &[i64], made: &[usize], became: &[usize]) {
        let strip = self.strip.as_mut().expect("stitches");
        let mut cells: Vec<Cell> = made.iter().map(|&at| strip.cells[&old[at]]).collect();
        let mut became = became.to_vec();
        let mut old = old.to_vec();
        if row.from == Side::Right {
            cells.reverse();
            became = became.iter().rev().map(|&at| made.len() - 1 - at).collect();
            old.reverse();
        }
        let (first, last) = (old[0], old[old.len() - 1]);
        let (before, after) =
            (i64::try_from(old.len()).unwrap(), i64::try_from(cells.len()).unwrap());
        // Of a change by an odd number the left end moves by the smaller half.
        let left = if after < before { (before - after) / 2 } else { -((after - before) / 2) };
        let right = left + after - before;
        let all = std::mem::take(&mut strip.cells);
        for (place, cell) in all {
            if place < first {
                strip.cells.insert(place + left, cell);
            } else if place > last {
                strip.cells.insert(place + right, cell);
            }
        }
        for (place, cell) in (first + left..).zip(cells) {
            strip.cells.insert(place, cell);
        }
        for (place, _) in self.yarns.values_mut().filter_map(|yarn| yarn.at.as_mut()) {
            *place = if *place < first {
                *place + left
            } else if *place > last {
                *place + right
            } else {
                let at = usize::try_from(*place - first).unwrap();
                first + left + i64::try_from(became[at]).unwrap()
            };
        }
    }
}

/// The new row, each stitch by the old one it stands on; and where each old stitch went.
fn work(row: &ShapeRow, width: usize, round: bool) -> Result<(Vec<usize>, Vec<usize>), Stop> {
    let (mut made, mut became) = (Vec::new(), Vec::new());
    let mut worked = 0;
    for at in &row.positions {
        let at = at.get() as usize;
        let uses = row.technique.uses().get() as usize;
        let between = row.technique == Technique::IncreaseBetween;
        let last = between && at >= width && !round;
        if at > width || at < worked + uses.max(1) || last {
            return Err(Stop::NoRoom);
        }
        let plain = at - uses;
        for stitch in worked..plain {
            became.push(made.len());
            made.push(stitch);
        }
        worked = at;
        match row.technique {
            Technique::IncreaseBetween => made.push(plain - 1),
            Technique::IncreaseIn => {
                became.push(made.len());
                made.extend([plain, plain]);
            }
            _ => {
                became.extend(std::iter::repeat_n(made.len(), uses));
                made.push(plain);
            }
        }
    }
    for stitch in worked..width {
        became.push(made.len());
        made.push(stitch);
    }
    Ok((made, became))
}
