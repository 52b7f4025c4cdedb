//! The log of a replay, grouped into what a knitter does in one go: the tree that both
//! voices speak from.

use crate::{Entry, Fabric, Knitted, Name, Shape, Side, Step};
use alloc::vec::Vec;

/// Something a knitter is told in one line, with the log entries before it, at its
/// beginning and at its end.
pub(super) struct Act<'a> {
    pub(super) kind: ActKind<'a>,
    pub(super) before: Option<&'a Entry>,
    pub(super) begin: &'a Entry,
    pub(super) end: &'a Entry,
}

pub(super) enum ActKind<'a> {
    /// One step that stands alone.
    Single,
    /// The same shaping again and again, or several of them at the same time.
    Rhythms(Vec<Rhythm>),
    /// Bind-offs where the yarn hangs, rows knitted after each.
    BindOffs { stitches: Vec<u32>, rows: u32, edges: Vec<&'a Name> },
    /// Stitches put on hold or brought back, rows knitted after each.
    ShortRows { back: bool, stitches: Vec<u32>, rows: u32, sides: Vec<Side> },
    /// Held stitches back at one side or at both, and rows over them.
    ReturnAndKnit { side: Option<Side>, stitches: u32, rows: u32 },
    /// Another fabric, and the counter set to zero.
    NewSection { fabric: Fabric },
    /// Both edges marked.
    MarkBoth,
}

/// A shaping, and the rows it is done at.
pub(super) struct Rhythm {
    pub(super) shape: Shape,
    pub(super) rows: Vec<u32>,
    /// The row counter before the first stretch.
    pub(super) start: u32,
}

impl Rhythm {
    /// Rows from each shaping to the next, the first from the row before.
    pub(super) fn gaps(&self) -> Vec<u32> {
        let before = core::iter::once(&self.start).chain(&self.rows);
        self.rows.iter().zip(before).map(|(row, before)| row - before).collect()
    }
}

pub(super) fn acts(knitted: &Knitted) -> Vec<Act<'_>> {
    let mut rest = knitted.log.as_slice();
    let mut acts = Vec::new();
    let mut before = None;
    while let Some((begin, after)) = rest.split_first() {
        let grouped = rhythms(rest)
            .or_else(|| bind_offs(rest))
            .or_else(|| short_rows(rest))
            .or_else(|| pair(rest));
        let (kind, used) = grouped.unwrap_or((ActKind::Single, 1));
        let end = rest.get(used - 1).unwrap_or(begin);
        acts.push(Act { kind, before, begin, end });
        before = Some(end);
        rest = rest.get(used..).unwrap_or(after);
    }
    acts
}

/// Two steps that are one thing to do.
fn pair(log: &[Entry]) -> Option<(ActKind<'_>, usize)> {
    let [first, second, ..] = log else { return None };
    let kind = match (&first.step, &second.step) {
        (Step::Return, Step::Knit(rows)) => {
            let side = None;
            ActKind::ReturnAndKnit { side, stitches: 0, rows: rows.get() }
        }
        (Step::ReturnSome { side, stitches }, Step::Knit(rows)) => {
            ActKind::ReturnAndKnit { side: Some(*side), stitches: stitches.get(), rows: rows.get() }
        }
        (Step::ChangeFabric(fabric), Step::ResetCounter) => ActKind::NewSection { fabric: *fabric },
        (Step::NameEdge { side: one, .. }, Step::NameEdge { side: other, .. }) if one != other => {
            ActKind::MarkBoth
        }
        _ => return None,
    };
    Some((kind, 2))
}

/// A plain stretch so much longer than what follows is told by itself.
const PLAIN: u32 = 12;

/// Knit and shape, again and again; the first shaping may come at once.
fn rhythms(log: &[Entry]) -> Option<(ActKind<'_>, usize)> {
    let first = log.first()?;
    let mut events = Vec::new();
    for (index, entry) in log.iter().enumerate() {
        match &entry.step {
            Step::Knit(_) => {}
            Step::Shape(shape) => events.push((index, entry.row.get(), *shape)),
            _ => break,
        }
    }
    let start = first.row_before.get();
    let count = together(&events)?;
    let count = plain_stretch(start, events.get(..count)?)?;
    let events = events.get(..count)?;
    let (last, _, _) = events.last()?;
    let mut rhythms: Vec<Rhythm> = Vec::new();
    for &(_, row, shape) in events {
        match rhythms.iter_mut().find(|rhythm| rhythm.shape == shape) {
            Some(rhythm) => rhythm.rows.push(row),
            None => rhythms.push(Rhythm { shape, rows: [row].into(), start }),
        }
    }
    Some((ActKind::Rhythms(rhythms), last + 1))
}

/// How many of the events belong to the first shaping and to those at the same time.
fn together(events: &[(usize, u32, Shape)]) -> Option<usize> {
    let (_, _, first) = events.first()?;
    let last_of = |shape: &Shape| events.iter().rposition(|(_, _, other)| other == shape);
    let mut end = last_of(first)?;
    let mut at = 0;
    while at <= end {
        let (_, row, shape) = events.get(at)?;
        let (_, until, _) = events.get(end)?;
        // A shaping that begins as another ends follows it.
        if shape != first && row < until {
            end = end.max(last_of(shape)?);
        }
        at += 1;
    }
    Some(end + 1)
}

/// Stops before a long plain stretch among shapings that come quickly.
fn plain_stretch(start: u32, events: &[(usize, u32, Shape)]) -> Option<usize> {
    let rows: Vec<u32> = events.iter().map(|(_, row, _)| *row).collect();
    let gap = |index: usize| {
        let before = index.checked_sub(1).and_then(|index| rows.get(index)).copied();
        rows.get(index).map(|row| row - before.unwrap_or(start))
    };
    let long = |index: usize| {
        let near = [index.checked_sub(1).and_then(gap), gap(index + 1)];
        let near = near.into_iter().flatten().filter(|&gap| gap > 0).min();
        gap(index).zip(near).is_some_and(|(gap, near)| gap >= PLAIN && gap > 3 * near)
    };
    if events.len() > 1 && long(0) {
        return None;
    }
    let cut = (1..rows.len()).find(|&index| long(index));
    Some(cut.unwrap_or(rows.len()))
}

fn bind_offs(log: &[Entry]) -> Option<(ActKind<'_>, usize)> {
    let (mut stitches, mut edges) = (Vec::new(), Vec::new());
    let mut common: Option<u32> = None;
    for pair in log.chunks_exact(2) {
        let [
            Entry { step: Step::BindOff { stitches: count, edge, .. }, .. },
            Entry { step: Step::Knit(rows), .. },
        ] = pair
        else {
            break;
        };
        let rows_each = *common.get_or_insert(rows.get());
        // Two edges bound off by turns, one row apart.
        let turns = rows_each == 1 && edges.len() == 1 && stitches.len() == 1;
        let known = stitches.is_empty() || edges.contains(&edge);
        if rows_each != rows.get() || !(known || (turns && edge.is_some())) {
            break;
        }
        stitches.push(count.get());
        if !edges.contains(&edge) {
            edges.push(edge);
        }
    }
    // Rows that lead to a decrease are told with the decrease.
    if matches!(log.get(2 * stitches.len()), Some(Entry { step: Step::Shape(_), .. })) {
        stitches.pop();
    }
    let used = 2 * stitches.len();
    let edges = edges.into_iter().flatten().collect();
    common.filter(|_| used > 0).map(|rows| (ActKind::BindOffs { stitches, rows, edges }, used))
}

fn short_rows(log: &[Entry]) -> Option<(ActKind<'_>, usize)> {
    let (mut stitches, mut sides) = (Vec::new(), Vec::new());
    let mut common: Option<(u32, bool)> = None;
    for pair in log.chunks_exact(2) {
        let [turn, Entry { step: Step::Knit(rows), .. }] = pair else { break };
        let (back, side, count) = match &turn.step {
            Step::Hold { side, stitches } => (false, *side, stitches.get()),
            Step::ReturnSome { side, stitches } if turn.held() > 0 => (true, *side, stitches.get()),
            _ => break,
        };
        if *common.get_or_insert((rows.get(), back)) != (rows.get(), back) {
            break;
        }
        stitches.push(count);
        sides.push(side);
    }
    let used = 2 * stitches.len();
    let (rows, back) = common.filter(|&(_, back)| !back || used > 2)?;
    Some((ActKind::ShortRows { back, stitches, rows, sides }, used))
}
