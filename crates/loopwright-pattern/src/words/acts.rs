//! The log of a replay, grouped into what a knitter does in one go.

use crate::{Entry, Fabric, Knitted, Shape, Side, Step};

/// Something a knitter is told in one line, with the log entry it ends at.
pub(super) struct Act<'a> {
    pub(super) kind: ActKind,
    pub(super) begin: &'a Entry,
    pub(super) end: &'a Entry,
}

pub(super) enum ActKind {
    /// One step that stands alone.
    Single,
    /// The same shaping again and again, so many rows after each other.
    Taper { shape: Shape, gaps: Vec<u32> },
    /// Bind-offs at the carriage side, rows knitted after each.
    BindOffs { stitches: Vec<u32>, rows: u32, edge: Option<String> },
    /// Stitches put on hold, rows knitted after each.
    Holds { stitches: Vec<u32>, rows: u32, sides: Vec<Side> },
    /// All held stitches back, and rows over them.
    ReturnAndKnit { rows: u32 },
    /// Another fabric, and the counter set to zero.
    NewSection { fabric: Fabric },
    /// Both edges marked.
    MarkBoth,
}

pub(super) fn acts(knitted: &Knitted) -> Vec<Act<'_>> {
    let mut rest = knitted.log.as_slice();
    let mut acts = Vec::new();
    while let Some((first, after)) = rest.split_first() {
        let grouped =
            taper(rest).or_else(|| bind_offs(rest)).or_else(|| holds(rest)).or_else(|| pair(rest));
        let (kind, used) = grouped.unwrap_or((ActKind::Single, 1));
        let end = rest.get(used - 1).unwrap_or(first);
        acts.push(Act { kind, begin: first, end });
        rest = rest.get(used..).unwrap_or(after);
    }
    acts
}

/// Two steps that are one thing to do.
fn pair(log: &[Entry]) -> Option<(ActKind, usize)> {
    let [first, second, ..] = log else { return None };
    let kind = match (&first.step, &second.step) {
        (Step::Return, Step::Knit(rows)) => ActKind::ReturnAndKnit { rows: rows.get() },
        (Step::ChangeFabric(fabric), Step::ResetCounter) => ActKind::NewSection { fabric: *fabric },
        (Step::NameEdge { side: one, .. }, Step::NameEdge { side: other, .. }) if one != other => {
            ActKind::MarkBoth
        }
        _ => return None,
    };
    Some((kind, 2))
}

/// Knit and shape, again and again; the first shaping may come at once.
fn taper(log: &[Entry]) -> Option<(ActKind, usize)> {
    let mut gaps = Vec::new();
    let mut common: Option<Shape> = None;
    let mut rest = log;
    if let [Entry { step: Step::Shape(shape), .. }, after @ ..] = log {
        common = Some(*shape);
        gaps.push(0);
        rest = after;
    }
    while let [
        Entry { step: Step::Knit(rows), .. },
        Entry { step: Step::Shape(shape), .. },
        after @ ..,
    ] = rest
    {
        if *common.get_or_insert(*shape) != *shape {
            break;
        }
        gaps.push(rows.get());
        rest = after;
    }
    let used = log.len() - rest.len();
    common.map(|shape| (ActKind::Taper { shape, gaps }, used))
}

fn bind_offs(log: &[Entry]) -> Option<(ActKind, usize)> {
    let mut stitches = Vec::new();
    let mut common: Option<(u32, Option<String>)> = None;
    for pair in log.chunks_exact(2) {
        let [
            Entry { step: Step::BindOff { stitches: count, edge }, .. },
            Entry { step: Step::Knit(rows), .. },
        ] = pair
        else {
            break;
        };
        let (rows_each, same_edge) = common.get_or_insert_with(|| (rows.get(), edge.clone()));
        // Paired shoulders alternate between two edges, one row apart.
        let paired = edge.is_some() && same_edge.is_some() && *rows_each == 1;
        if *rows_each != rows.get() || (edge != same_edge && !paired) {
            break;
        }
        stitches.push(count.get());
    }
    // Rows that lead to a decrease are told with the decrease.
    if matches!(log.get(2 * stitches.len()), Some(Entry { step: Step::Shape(_), .. })) {
        stitches.pop();
    }
    let used = 2 * stitches.len();
    common
        .filter(|_| used > 0)
        .map(|(rows, edge)| (ActKind::BindOffs { stitches, rows, edge }, used))
}

fn holds(log: &[Entry]) -> Option<(ActKind, usize)> {
    let (mut stitches, mut sides) = (Vec::new(), Vec::new());
    let mut common: Option<u32> = None;
    for pair in log.chunks_exact(2) {
        let [
            Entry { step: Step::Hold { side, stitches: count }, .. },
            Entry { step: Step::Knit(rows), .. },
        ] = pair
        else {
            break;
        };
        if *common.get_or_insert(rows.get()) != rows.get() {
            break;
        }
        stitches.push(count.get());
        sides.push(*side);
    }
    let used = 2 * stitches.len();
    common.map(|rows| (ActKind::Holds { stitches, rows, sides }, used))
}
