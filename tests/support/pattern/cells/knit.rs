//! What each step does to the cells.

use super::strip::{Cell, Strip, index, inward};
use super::{Bench, Border, Stop};
use loopwright::pattern::{CastOn, Craft, Hang, Name, Needle, Side, Step};
use std::collections::BTreeMap;

impl Bench {
    pub(super) fn act(&mut self, step: &Step) -> Result<(), Stop> {
        match step {
            Step::CastOn { .. } => self.cast_on(step),
            Step::Knit(rows) => self.rows(rows.get()),
            Step::ChangeFabric(_) => self.stitches().map(drop),
            Step::ResetCounter => {
                self.stitches()?.row = 0;
                Ok(())
            }
            Step::Shape(shape) => self.shape(*shape),
            Step::ShapeRow(row) => self.shape_row(row),
            Step::BindOff { stitches, edge, .. } => self.bind_off(stitches.get(), edge.as_ref()),
            Step::BindOffAll { edge, .. } => self.bind_off_all(edge),
            Step::Extend(stitches) => self.extend(stitches.get()),
            Step::Hold { side, stitches } => self.hold(*side, stitches.get()),
            Step::Return => {
                self.stitches()?.cells.values_mut().for_each(|cell| cell.held = None);
                Ok(())
            }
            Step::ReturnSome { side, stitches } => self.bring_back(*side, stitches.get()),
            Step::NameEdge { side, edge } => {
                self.flat()?;
                self.border(edge)?;
                self.stitches()?.edges[index(*side)] = edge.to_string();
                Ok(())
            }
            Step::SetAside { .. } => self.set_aside(step),
            Step::Resume { part } => {
                if self.strip.as_ref().is_some_and(|strip| !strip.cells.is_empty()) {
                    return Err(Stop::LeftOver);
                }
                self.strip = Some(self.waiting(part)?);
                Ok(())
            }
            Step::Rejoin { part, side } => self.rejoin(part, *side),
            Step::TakeOff { side, stitches, edge } => self.take_off(*side, stitches.get(), edge),
            Step::Hang(hang) => self.hung(hang),
            Step::Cut => {
                self.hangs().ok_or(Stop::CutAlready)?;
                self.cut();
                Ok(())
            }
            Step::Join { side } => self.join(*side),
            Step::ChangeYarn(name) => {
                if self.yarn == name.as_str() {
                    return Err(Stop::SameYarn);
                }
                self.yarn = name.to_string();
                self.carriage = self.hangs().map_or(self.carriage, |(_, side)| side);
                Ok(())
            }
            Step::JoinRound => self.join_round(),
            Step::Divide { left, right } => {
                if !self.stitches()?.round {
                    return Err(Stop::NotRound);
                }
                self.border(left)?;
                self.border(right)?;
                let strip = self.stitches()?;
                strip.round = false;
                strip.edges = [left.to_string(), right.to_string()];
                Ok(())
            }
            other => panic!("the second knitter does not know {other:?}"),
        }
    }

    fn cast_on(&mut self, step: &Step) -> Result<(), Stop> {
        let Step::CastOn { stitches, how, carriage, edge, needle, .. } = step else {
            unreachable!("a cast-on");
        };
        let count = i64::from(stitches.get());
        if self.begun {
            return Err(Stop::AlreadyOn);
        }
        if count == 0 {
            return Err(Stop::Zero);
        }
        let by_hand = matches!(self.craft, Craft::Hand);
        if matches!(how, CastOn::PickedUp { .. }) && by_hand && *carriage == Side::Right {
            return Err(Stop::PickedUpAtRight);
        }
        self.border(edge)?;
        self.borders.insert(
            edge.to_string(),
            Border { stitches: count.unsigned_abs(), ..Border::default() },
        );
        self.border(&"left edge".into())?;
        self.border(&"right edge".into())?;
        let first = needle.map_or(-(count + 1) / 2, Needle::place);
        let strip = Strip {
            cells: (first..first + count).map(|place| (place, Cell::default())).collect(),
            edges: ["left edge".into(), "right edge".into()],
            ..Strip::default()
        };
        self.hang(strip.outermost(*carriage).expect("stitches"), *carriage);
        self.ends += 1;
        self.strip = Some(strip);
        self.carriage = *carriage;
        self.begun = true;
        self.on += count.unsigned_abs();
        Ok(())
    }

    fn rows(&mut self, rows: u32) -> Result<(), Stop> {
        self.stitches()?;
        if rows == 0 {
            return Err(Stop::NoRows);
        }
        self.reach()?;
        for _ in 0..rows {
            self.row()?;
        }
        Ok(())
    }

    /// One row, stitch by stitch from where the yarn hangs.
    fn row(&mut self) -> Result<(), Stop> {
        let (_, side) = self.reach()?;
        let strip = self.stitches()?;
        let places = strip.in_work(side);
        for place in &places {
            strip.cells.get_mut(place).expect("a cell").height += 1;
        }
        strip.row += 1;
        let round = strip.round;
        let sides = [Side::Left, Side::Right].map(|side| {
            let grows =
                strip.outermost(side).is_some_and(|place| strip.cells[&place].held.is_none());
            (strip.edges[index(side)].clone(), grows && !round)
        });
        for (name, grows) in sides {
            self.borders.get_mut(&name).expect("an edge").rows += u64::from(grows);
        }
        self.rows += 1;
        let (first, last) = (places[0], places[places.len() - 1]);
        self.yarns.entry(self.yarn.clone()).or_default().path.extend(places);
        // A round ends beside the stitch it began with.
        let (place, side) = if round { (first, side) } else { (last, side.other()) };
        self.hang(place, side);
        self.carriage = side;
        Ok(())
    }

    fn bind_off(&mut self, count: u32, edge: Option<&Name>) -> Result<(), Stop> {
        let strip = self.flat()?;
        let (all, working) = (strip.cells.len(), strip.in_work(Side::Left).len());
        if count == 0 {
            return Err(Stop::Zero);
        }
        let (_, side) = self.reach()?;
        let most = if edge.is_some() { working } else { working.min(all - 1) };
        if count as usize > most {
            return Err(Stop::TooFew);
        }
        self.not_held(side)?;
        if let Some(name) = edge {
            let known = self.borders.contains_key(name.as_str());
            if known && !self.borders[name.as_str()].bound {
                return Err(Stop::EdgeName);
            }
            self.borders.entry(name.to_string()).or_default().bound = true;
            self.stitches()?.edges[index(side)] = name.to_string();
        }
        for _ in 0..count {
            let strip = self.stitches()?;
            let place = strip.outermost(side).expect("a cell");
            strip.remove(place);
            let (left, edge) = (strip.cells.len(), strip.edges[index(side)].clone());
            self.borders.get_mut(&edge).expect("an edge").stitches += 1;
            self.off += 1;
            if left == 0 {
                self.cut();
            } else {
                self.hang(place + inward(side), side);
            }
        }
        Ok(())
    }

    fn bind_off_all(&mut self, edge: &Name) -> Result<(), Stop> {
        self.stitches()?;
        let (_, side) = self.reach()?;
        self.not_held(side)?;
        self.not_held(side.other())?;
        let known = self.borders.contains_key(edge.as_str());
        if known && !self.borders[edge.as_str()].bound {
            return Err(Stop::EdgeName);
        }
        let strip = self.stitches()?;
        let count = std::mem::take(&mut strip.cells).len() as u64;
        let border = self.borders.entry(edge.to_string()).or_default();
        border.bound = true;
        border.stitches += count;
        self.off += count;
        self.cut();
        Ok(())
    }

    fn extend(&mut self, count: u32) -> Result<(), Stop> {
        self.flat()?;
        if count == 0 {
            return Err(Stop::Zero);
        }
        let (_, side) = self.reach()?;
        self.not_held(side)?;
        for _ in 0..count {
            let place = self.beside(side)?;
            self.hang(place, side);
        }
        self.on += u64::from(count);
        Ok(())
    }

    /// One more cell outside the outermost, as high as that.
    pub(super) fn beside(&mut self, side: Side) -> Result<i64, Stop> {
        let strip = self.stitches()?;
        let outer = strip.outermost(side).expect("a cell");
        let height = strip.first_in_work(side).map_or(0, |place| strip.cells[&place].height);
        let place = outer - inward(side);
        strip.cells.insert(place, Cell { height, held: None });
        let edge = strip.edges[index(side)].clone();
        self.borders.get_mut(&edge).expect("an edge").stitches += 1;
        Ok(place)
    }

    pub(super) fn not_held(&self, side: Side) -> Result<(), Stop> {
        let strip = self.strip.as_ref().expect("stitches");
        let outer = strip.outermost(side).expect("a cell");
        if strip.cells[&outer].held == Some(side) { Err(Stop::Held) } else { Ok(()) }
    }

    fn hold(&mut self, side: Side, count: u32) -> Result<(), Stop> {
        let yarn = self.hangs();
        let strip = self.flat()?;
        let places = strip.in_work(side);
        match count as usize {
            0 => Err(Stop::Zero),
            2.. if yarn.is_some_and(|(_, at)| at == side) => Err(Stop::HoldAtCarriage),
            count if count >= places.len() => Err(Stop::TooFew),
            count => {
                for place in places.iter().take(count) {
                    strip.cells.get_mut(place).expect("a cell").held = Some(side);
                }
                Ok(())
            }
        }
    }

    fn bring_back(&mut self, side: Side, count: u32) -> Result<(), Stop> {
        let strip = self.stitches()?;
        let held: Vec<i64> = strip.from(side).into_iter().take(strip.held(side)).collect();
        if count == 0 {
            return Err(Stop::Zero);
        }
        if count as usize > held.len() {
            return Err(Stop::NotHeld);
        }
        for place in held.iter().rev().take(count as usize) {
            strip.cells.get_mut(place).expect("a cell").held = None;
        }
        Ok(())
    }

    fn waiting(&mut self, name: &Name) -> Result<Strip, Stop> {
        let at = self.aside.iter().position(|strip| strip.name == name.as_str());
        Ok(self.aside.remove(at.ok_or(Stop::NoPart)?))
    }

    fn set_aside(&mut self, step: &Step) -> Result<(), Stop> {
        let Step::SetAside { side, stitches, part, its_edge, edge } = step else {
            unreachable!("a part");
        };
        let all = self.flat()?.cells.len();
        let count = stitches.get() as usize;
        if count == 0 {
            return Err(Stop::Zero);
        }
        if count >= all {
            return Err(Stop::TooFew);
        }
        if self.aside.iter().any(|strip| strip.name == part.as_str()) {
            return Err(Stop::PartName);
        }
        self.border(its_edge)?;
        self.border(edge)?;
        let strip = self.stitches()?;
        let mut waiting =
            Strip { name: part.to_string(), cells: BTreeMap::default(), ..strip.clone() };
        for place in strip.from(*side).into_iter().take(count) {
            let cell = strip.remove(place);
            waiting.cells.insert(place, Cell { held: None, ..cell });
        }
        waiting.edges[index(side.other())] = its_edge.to_string();
        strip.edges[index(*side)] = edge.to_string();
        self.aside.push(waiting);
        Ok(())
    }

    fn rejoin(&mut self, name: &Name, side: Side) -> Result<(), Stop> {
        self.flat()?;
        self.not_held(side)?;
        let mut back = self.waiting(name)?;
        let by_hand = matches!(self.craft, Craft::Hand);
        let strip = self.stitches()?;
        let wanted = strip.outermost(side).expect("a cell") - inward(side);
        let there = back.outermost(side.other()).expect("a cell");
        if wanted != there && !by_hand {
            return Err(Stop::NotBeside);
        }
        back.moved(wanted - there);
        strip.cells.extend(back.cells);
        strip.edges[index(side)].clone_from(&back.edges[index(side)]);
        Ok(())
    }

    fn take_off(&mut self, side: Side, count: u32, edge: &Name) -> Result<(), Stop> {
        let strip = self.stitches()?;
        let all = strip.cells.len();
        let count = count as usize;
        if count == 0 {
            return Err(Stop::Zero);
        }
        if count > all {
            return Err(Stop::TooFew);
        }
        if strip.round && count < all {
            return Err(Stop::Round);
        }
        let mut heights = Vec::new();
        for place in strip.from(side).into_iter().take(count) {
            heights.push(strip.remove(place).height);
        }
        self.border(edge)?;
        let rows = heights.windows(2).map(|pair| pair[0].abs_diff(pair[1])).sum();
        let border = Border { rows, stitches: count as u64, bound: false };
        self.borders.insert(edge.to_string(), border);
        self.live += count as u64;
        Ok(())
    }

    fn hung(&mut self, hang: &Hang) -> Result<(), Stop> {
        let working = self.flat()?.in_work(Side::Left).len() as u64;
        if working == 0 {
            return Err(Stop::NoStitches);
        }
        let total: u64 = hang.from.iter().map(|edge| u64::from(edge.stitches.get())).sum();
        let overlap = u64::from(hang.overlap.get());
        if total == 0 {
            return Err(Stop::Zero);
        }
        if overlap > total {
            return Err(Stop::Overlap);
        }
        if overlap > working {
            return Err(Stop::TooFew);
        }
        self.not_held(hang.side)?;
        let by_hand = matches!(self.craft, Craft::Hand);
        if total == overlap {
            return Ok(());
        }
        if by_hand && self.reach()?.1 != hang.side {
            return Err(Stop::PickedUpAway);
        }
        for _ in overlap..total {
            let place = self.beside(hang.side)?;
            if by_hand {
                self.hang(place, hang.side);
            }
            self.on += 1;
        }
        Ok(())
    }

    fn join(&mut self, side: Side) -> Result<(), Stop> {
        let strip = self.strip.as_ref().ok_or(Stop::NoStitches)?;
        let place = strip.first_in_work(side).ok_or(Stop::NoStitches)?;
        if self.hangs().is_some() {
            return Err(Stop::NotCut);
        }
        self.hang(place, side);
        self.ends += 1;
        self.carriage = side;
        Ok(())
    }

    fn join_round(&mut self) -> Result<(), Stop> {
        self.flat()?;
        self.not_held(Side::Left)?;
        self.not_held(Side::Right)?;
        let strip = self.stitches()?;
        strip.round = true;
        let ends = [Side::Left, Side::Right].map(|side| strip.outermost(side).expect("a cell"));
        for yarn in self.yarns.values_mut() {
            if yarn.at.is_some_and(|(place, _)| ends.contains(&place)) {
                yarn.at = Some((ends[1], Side::Right));
            }
        }
        self.carriage = self.hangs().map_or(self.carriage, |(_, side)| side);
        Ok(())
    }
}
