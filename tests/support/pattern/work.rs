//! The needles, the yarn and the counter, as a reader keeps track of them.

use std::collections::BTreeMap;

/// What a reader of the words has knitted.
#[derive(Clone, Debug, Default, Eq, PartialEq)]
pub struct Read {
    /// Rows, waste yarn not counted.
    pub rows: u64,
    /// Loops knitted in those rows.
    pub loops: u64,
    /// Stitches cast on, picked up or begun on waste yarn.
    pub cast_on: u64,
    /// Stitches bound off.
    pub bound_off: u64,
    /// Stitches taken off on waste yarn or a holder at the end.
    pub live: u64,
    /// Stitches left on the needles; none in a finished piece.
    pub left: u64,
    /// The most stitches on the needles at once, waiting ones included.
    pub widest: u64,
    /// Every edge that the words name.
    pub edges: BTreeMap<String, EdgeRead>,
    /// Edge stitches moved whole at each shaping, in order.
    pub insets: Vec<u64>,
    /// Where stitches are picked up, in order.
    pub picked: Vec<Picked>,
}

/// Stitches picked up along an edge of another piece.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct Picked {
    /// The edge.
    pub edge: String,
    /// Its piece.
    pub piece: String,
    /// How many stitches.
    pub stitches: u64,
    /// How many places of the edge they are spread over, where not every stitch of it is
    /// picked up once.
    pub over: Option<u64>,
    /// Whether it is gone along from above, where the words say so.
    pub above: bool,
}

/// What the words tell of an edge.
#[derive(Clone, Copy, Debug, Default, Eq, PartialEq)]
pub struct EdgeRead {
    /// Rows along it; not known of stitches that wait.
    pub rows: Option<u64>,
    /// Stitches across it, gained, lost or bound off.
    pub stitches: u64,
    /// Those of them that were bound off.
    pub bound: u64,
}

/// A side of the work.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub(super) enum End {
    Left,
    Right,
}

impl End {
    pub(super) fn named(word: &str) -> Self {
        match word {
            "left" | "COL" | "wrong" => Self::Left,
            "right" | "COR" => Self::Right,
            other => panic!("{other:?} is no side"),
        }
    }

    pub(super) const fn other(self) -> Self {
        match self {
            Self::Left => Self::Right,
            Self::Right => Self::Left,
        }
    }

    pub(super) const fn word(self) -> &'static str {
        match self {
            Self::Left => "left",
            Self::Right => "right",
        }
    }

    const fn place(self) -> usize {
        self as usize
    }
}

/// The edge being knitted at one end of a part.
#[derive(Clone, Debug, Default)]
struct Edge {
    /// Nothing until the words name it.
    name: Option<String>,
    rows: u64,
    stitches: u64,
    bound: u64,
}

/// Neighbouring stitches that are worked together.
#[derive(Clone, Debug, Default)]
struct Part {
    /// The needle of the first stitch: -1 is L1, 0 is R1.
    first: i64,
    stitches: u64,
    held: [u64; 2],
    edges: [Edge; 2],
    counter: u64,
}

impl Part {
    fn held(&self) -> u64 {
        self.held[0] + self.held[1]
    }

    fn past(&self) -> i64 {
        self.first + i64::try_from(self.stitches).unwrap()
    }
}

/// The work on the needles.
#[derive(Debug)]
pub(super) struct Work {
    pub(super) read: Read,
    /// Where the carriage or the working yarn is.
    pub(super) at: End,
    /// The needle the yarn hangs at, unless it is cut.
    yarn: Option<i64>,
    part: Part,
    aside: BTreeMap<String, Part>,
}

impl Work {
    pub(super) fn new() -> Self {
        Self {
            read: Read::default(),
            at: End::Right,
            yarn: None,
            part: Part::default(),
            aside: BTreeMap::new(),
        }
    }

    pub(super) const fn counter(&self) -> u64 {
        self.part.counter
    }

    pub(super) const fn stitches(&self) -> u64 {
        self.part.stitches
    }

    pub(super) fn held(&self) -> u64 {
        self.part.held()
    }

    /// First and last needle in use.
    pub(super) fn needles(&self) -> (String, String) {
        (needle(self.part.first), needle(self.part.past() - 1))
    }

    /// Stitches on both sides of the middle of the bed, an odd one at the left.
    pub(super) fn cast_on(&mut self, stitches: u64) {
        assert_eq!(self.part.stitches, 0, "nothing is on the needles before a cast-on");
        let half = i64::try_from(stitches / 2).unwrap();
        self.part = Part { first: half - i64::try_from(stitches).unwrap(), ..Part::default() };
        self.part.stitches = stitches;
        for (edge, name) in self.part.edges.iter_mut().zip(["left edge", "right edge"]) {
            edge.name = Some(name.into());
        }
        self.read.cast_on += stitches;
        self.measure();
    }

    /// The outermost needle that knits.
    fn outermost(&self, end: End) -> i64 {
        let held = i64::try_from(self.part.held[end.place()]).unwrap();
        match end {
            End::Left => self.part.first + held,
            End::Right => self.part.past() - 1 - held,
        }
    }

    /// The yarn is joined at an end, where the carriage is brought.
    pub(super) fn join(&mut self, end: End) -> i64 {
        assert_eq!(self.yarn, None, "a yarn is cut before it is joined");
        self.at = end;
        let needle = self.outermost(end);
        self.yarn = Some(needle);
        needle
    }

    pub(super) fn cut(&mut self) {
        assert!(self.yarn.take().is_some(), "there is a yarn to cut");
    }

    /// Work begins where the yarn hangs: at that needle or the next.
    fn begin(&self, what: &str) {
        let yarn = self.yarn.unwrap_or_else(|| panic!("{what} where no yarn is"));
        let first = self.outermost(self.at);
        assert!(first.abs_diff(yarn) <= 1, "{what} floats from needle {yarn} to {first}");
    }

    fn yarn_to(&mut self, end: End) {
        self.at = end;
        self.yarn = Some(self.outermost(end));
    }

    pub(super) fn knit(&mut self, rows: u64) {
        assert!(rows > 0 && self.part.stitches > 0, "rows over stitches");
        self.begin("a row");
        let part = &mut self.part;
        self.read.rows += rows;
        self.read.loops += rows * (part.stitches - part.held());
        part.counter += rows;
        for (edge, held) in part.edges.iter_mut().zip(part.held) {
            edge.rows += if held == 0 { rows } else { 0 };
        }
        let end = if rows % 2 == 1 { self.at.other() } else { self.at };
        self.yarn_to(end);
    }

    pub(super) const fn set_counter(&mut self, row: u64) {
        self.part.counter = row;
    }

    /// More stitches at an end, or fewer.
    pub(super) fn shape(&mut self, end: End, more: bool, stitches: u64) {
        let here = self.yarn == Some(self.outermost(end));
        if more {
            self.widen(end, stitches);
        } else {
            self.narrow(end, stitches);
        }
        self.part.edges[end.place()].stitches += stitches;
        if here {
            self.yarn = Some(self.outermost(end));
        }
    }

    /// New stitches cast on where the yarn is.
    pub(super) fn extend(&mut self, stitches: u64) {
        self.begin("a cast-on");
        self.read.cast_on += stitches;
        self.shape(self.at, true, stitches);
        self.yarn_to(self.at);
    }

    /// Bound off where the yarn is, onto an edge of that name or the one being knitted.
    pub(super) fn bind_off(&mut self, stitches: u64, onto: Option<&str>) {
        let end = self.at;
        self.begin("a bind-off");
        if let Some(name) = onto {
            says_no(name, end.other());
        }
        self.narrow(end, stitches);
        self.read.bound_off += stitches;
        if let Some(name) = onto.filter(|name| self.name(end) != Some(name)) {
            self.close(end);
            self.part.edges[end.place()] = Edge { name: Some(name.into()), ..Edge::default() };
        }
        self.part.edges[end.place()].stitches += stitches;
        self.part.edges[end.place()].bound += stitches;
        if self.part.stitches == 0 {
            self.yarn = None;
            self.finish();
        } else {
            self.yarn_to(end);
        }
    }

    pub(super) fn bind_off_all(&mut self, name: &str) {
        self.begin("a bind-off");
        self.yarn = None;
        assert_eq!(self.held(), 0, "no stitches are on hold when all are bound off");
        let stitches = self.part.stitches;
        self.read.bound_off += stitches;
        self.narrow(End::Left, stitches);
        self.finish();
        let edge = self.read.edges.entry(name.into()).or_default();
        edge.rows = edge.rows.or(Some(0));
        edge.stitches += stitches;
        edge.bound += stitches;
    }

    /// Off on waste yarn or a holder.
    pub(super) fn off(&mut self, end: End, stitches: u64, name: &str) {
        self.narrow(end, stitches);
        self.read.live += stitches;
        self.record(name, EdgeRead { stitches, ..EdgeRead::default() });
        if self.part.stitches == 0 {
            self.finish();
        }
    }

    pub(super) fn hold(&mut self, end: End, stitches: u64) {
        assert!(
            end != self.at || stitches == 1,
            "a row begins where the yarn is, so nothing is held there"
        );
        let part = &mut self.part;
        part.held[end.place()] += stitches;
        assert!(part.held() < part.stitches, "some stitches are left to knit");
    }

    pub(super) const fn all_back(&mut self) {
        self.part.held = [0, 0];
    }

    /// Held stitches back at one end; all of them by the words.
    pub(super) fn back(&mut self, end: End, stitches: u64) {
        let held = &mut self.part.held[end.place()];
        *held = held.checked_sub(stitches).expect("as many are held as come back");
    }

    /// Stitches at an end wait as a part of their own; the words do not name yet the two
    /// edges between the part and the rest.
    pub(super) fn set_aside(&mut self, end: End, stitches: u64, name: &str) {
        let mut waiting = self.part.clone();
        self.narrow(end, stitches);
        waiting.first = match end {
            End::Left => waiting.first,
            End::Right => self.part.past(),
        };
        waiting.stitches = stitches;
        waiting.edges[end.other().place()] = Edge::default();
        self.part.edges[end.place()] = Edge::default();
        assert!(self.aside.insert(name.into(), waiting).is_none(), "two parts called {name}");
    }

    pub(super) fn resume(&mut self, name: &str) {
        assert_eq!(self.part.stitches, 0, "a side is finished before the other is taken up");
        self.part = self.aside.remove(name).unwrap_or_else(|| panic!("no {name} is waiting"));
    }

    /// The needles of so many stitches at an end.
    pub(super) fn outer(&self, end: End, stitches: u64) -> (String, String) {
        let more = i64::try_from(stitches).unwrap() - 1;
        let (from, to) = match end {
            End::Left => (self.part.first, self.part.first + more),
            End::Right => (self.part.past() - 1 - more, self.part.past() - 1),
        };
        (needle(from), needle(to))
    }

    pub(super) const fn is_cut(&self) -> bool {
        self.yarn.is_none()
    }

    /// The name at an end is another from here on.
    pub(super) fn rename(&mut self, end: End, name: &str) {
        self.close(end);
        self.part.edges[end.place()] = Edge { name: Some(name.into()), ..Edge::default() };
        says_no(name, end.other());
    }

    /// The end that the words call `name`. An edge not named before gets its name when it
    /// is first spoken of; "left" and "right" in it must be true.
    pub(super) fn end(&mut self, name: &str) -> End {
        let ends = [End::Left, End::Right];
        if let Some(end) = ends.into_iter().find(|&end| self.name(end) == Some(name)) {
            return end;
        }
        let mut nameless = ends.into_iter().filter(|&end| self.name(end).is_none());
        let end = nameless.next().unwrap_or_else(|| panic!("{name} is neither edge"));
        assert_eq!(nameless.next(), None, "which edge is {name}?");
        let needle = if end == End::Left { self.part.first } else { self.part.past() - 1 };
        let told = name.split(' ').find(|word| matches!(*word, "left" | "right"));
        if let Some(told) = told {
            assert_eq!(told, if needle < 0 { "left" } else { "right" }, "{name} is elsewhere");
        }
        self.part.edges[end.place()].name = Some(name.into());
        end
    }

    fn name(&self, end: End) -> Option<&str> {
        self.part.edges[end.place()].name.as_deref()
    }

    fn widen(&mut self, end: End, stitches: u64) {
        assert_eq!(self.part.held[end.place()], 0, "held stitches stay as they are");
        self.part.stitches += stitches;
        if end == End::Left {
            self.part.first -= i64::try_from(stitches).unwrap();
        }
        self.measure();
    }

    fn narrow(&mut self, end: End, stitches: u64) {
        let part = &mut self.part;
        part.stitches = part.stitches.checked_sub(stitches).expect("as many stitches as go");
        if end == End::Left {
            part.first += i64::try_from(stitches).unwrap();
        }
    }

    fn measure(&mut self) {
        let waiting: u64 = self.aside.values().map(|part| part.stitches).sum();
        self.read.widest = self.read.widest.max(self.part.stitches + waiting);
    }

    /// The part is done: its edges are known.
    fn finish(&mut self) {
        self.close(End::Left);
        self.close(End::Right);
    }

    fn close(&mut self, end: End) {
        let edge = std::mem::take(&mut self.part.edges[end.place()]);
        if let Some(name) = edge.name {
            let (rows, stitches, bound) = (Some(edge.rows), edge.stitches, edge.bound);
            self.record(&name, EdgeRead { rows, stitches, bound });
        }
    }

    fn record(&mut self, name: &str, edge: EdgeRead) {
        let before = self.read.edges.insert(name.into(), edge);
        assert_eq!(before, None, "two edges are called {name}");
    }
}

/// A name with a side in it says the true one.
fn says_no(name: &str, end: End) {
    assert!(!name.split(' ').any(|word| word == end.word()), "{name} is not at the {}", end.word());
}

pub(super) fn needle(at: i64) -> String {
    if at < 0 { format!("L{}", -at) } else { format!("R{}", at + 1) }
}
