use super::plan::{Plan, Shape, Slots};
use super::{Edges, Ends, Taper};
use crate::Order;
use crate::bounds::{COUNT, range};
use crate::error::{Error, Remedy};
use crate::split::{Mix, Split};
use crate::words::rows;
use alloc::format;
use loopwright_gauge::{Rows, Stitches};

/// What a [`Taper`] is asked to be.
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[must_use]
pub struct TaperBuilder {
    pub(super) from: Stitches,
    pub(super) to: Stitches,
    pub(super) rows: Rows,
    #[cfg_attr(feature = "serde", serde(default))]
    pub(super) edges: Edges,
    #[cfg_attr(feature = "serde", serde(default = "one_row"))]
    pub(super) first: Rows,
    #[cfg_attr(feature = "serde", serde(default = "one_row"))]
    pub(super) every: Rows,
    #[cfg_attr(feature = "serde", serde(default))]
    pub(super) plain_before: Rows,
    #[cfg_attr(feature = "serde", serde(default))]
    pub(super) plain_after: Rows,
    #[cfg_attr(feature = "serde", serde(default = "one_stitch"))]
    pub(super) most: Stitches,
    #[cfg_attr(feature = "serde", serde(default = "one_stitch", rename = "at_once"))]
    pub(super) unit: Stitches,
    #[cfg_attr(feature = "serde", serde(default))]
    pub(super) order: Order,
    #[cfg_attr(feature = "serde", serde(default))]
    pub(super) ends: Option<Ends>,
    #[cfg_attr(feature = "serde", serde(default))]
    pub(super) after: Rows,
    #[cfg_attr(feature = "serde", serde(default))]
    pub(super) mirrored: bool,
}

#[cfg(feature = "serde")]
const fn one_row() -> Rows {
    Rows::ONE
}

#[cfg(feature = "serde")]
const fn one_stitch() -> Stitches {
    Stitches::ONE
}

impl TaperBuilder {
    pub(super) const fn new(from: Stitches, to: Stitches, rows: Rows) -> Self {
        Self {
            from,
            to,
            rows,
            edges: Edges::One,
            first: Rows::ONE,
            every: Rows::ONE,
            plain_before: Rows::ZERO,
            plain_after: Rows::ZERO,
            most: Stitches::ONE,
            unit: Stitches::ONE,
            order: Order::Spread,
            ends: None,
            after: Rows::ZERO,
            mirrored: false,
        }
    }

    /// Which edges are shaped; one, if nothing is said.
    pub const fn edges(self, edges: Edges) -> Self {
        Self { edges, ..self }
    }

    /// Rows that may shape: `first`, and every `every`th row after it.
    ///
    /// Right-side rows of flat knitting are the first and every second; every row, if
    /// nothing is said.
    pub const fn legal_rows(self, first: Rows, every: Rows) -> Self {
        Self { first, every, ..self }
    }

    /// So many rows at the start do not shape.
    pub const fn plain_before(self, rows: Rows) -> Self {
        Self { plain_before: rows, ..self }
    }

    /// So many rows at the end do not shape.
    pub const fn plain_after(self, rows: Rows) -> Self {
        Self { plain_after: rows, ..self }
    }

    /// The most stitches one edge may gain or lose in one row; 1, if nothing is said.
    pub const fn most(self, stitches: Stitches) -> Self {
        Self { most: stitches, ..self }
    }

    /// Every shaping takes so many stitches at once, or a multiple of it; 1, if
    /// nothing is said.
    pub const fn at_once(self, stitches: Stitches) -> Self {
        let most = if self.most.get() < stitches.get() { stitches } else { self.most };
        Self { unit: stitches, most, ..self }
    }

    /// In which order wide and narrow gaps come.
    pub const fn order(self, order: Order) -> Self {
        Self { order, ..self }
    }

    /// Where the first and the last shaping fall: [`Ends::Half`] for
    /// [`Order::Spread`] and [`Ends::Closing`] for the others, if nothing is said.
    pub const fn ends(self, ends: Ends) -> Self {
        Self { ends: Some(ends), ..self }
    }

    /// Row numbers go on after `row`: the first row of this taper is `row + 1`.
    pub const fn after(self, row: Rows) -> Self {
        Self { after: row, ..self }
    }

    /// Reads legal rows, order and ends from the last row back, as for a piece that is
    /// knitted from its other end; said twice, it is taken back.
    ///
    /// The last row counts as the first there: where the first row is legal and every
    /// second, it is then the last row and every other before it. Plain rows before and after stay what they are.
    pub const fn mirrored(self) -> Self {
        Self { mirrored: !self.mirrored, ..self }
    }

    /// Plans the taper.
    ///
    /// # Errors
    /// When a number is out of range; when the change is not an even number for two
    /// edges, or not a multiple of the stitches at once; when the plain rows take
    /// all rows; or when there are too few legal rows. The last comes with the
    /// smallest number of rows more, or stitches fewer, that would do.
    pub fn build(self) -> Result<Taper, Error> {
        let units = self.units()?;
        if self.mirrored {
            let (plain_before, plain_after) = (self.plain_after, self.plain_before);
            let turned = Self { plain_before, plain_after, ..self };
            let plan = turned.plan(units, turned.slots()?)?;
            let rows = (self.after.get() + 1, self.after.get() + self.rows.get());
            return Ok(Taper { asked: self, plan: plan.mirrored(rows) });
        }
        let plan = self.plan(units, self.slots()?)?;
        Ok(Taper { asked: self, plan })
    }

    /// How many times `unit` stitches are shaped at each edge.
    fn units(self) -> Result<u32, Error> {
        let unit = range::count("the stitches shaped at once", self.unit.get(), 1)?;
        range::within("the most stitches shaped in one row", self.most.get(), unit, COUNT)?;
        let change = self.to.get().abs_diff(self.from.get());
        let each = self.edges.count() * unit;
        if change.is_multiple_of(each) {
            return Ok(change / each);
        }
        let allowed = match (self.edges, unit) {
            (Edges::Both, 1) => "an even number, half at each edge".into(),
            (Edges::Both, unit) => format!("a multiple of {each}, {unit} at each edge"),
            (Edges::One, unit) => format!("a multiple of {unit}"),
        };
        Err(Error::range("the change of stitches", &change, allowed))
    }

    fn slots(self) -> Result<Slots, Error> {
        let first = range::count("the first legal row", self.first.get(), 1)?;
        let every = range::count("the period of legal rows", self.every.get(), 1)?;
        let after = self.after.get();
        range::within("the row before the first", after, 0, COUNT - self.rows.get())?;
        let plain = u64::from(self.plain_before.get()) + u64::from(self.plain_after.get());
        if plain > self.rows.get().into() {
            let allowed = format!("at most {}, the rows there are", self.rows);
            return Err(Error::range("the number of plain rows", &plain, allowed));
        }
        let from = (after + self.plain_before.get()).max(first - 1);
        let until = after + self.rows.get() - self.plain_after.get();
        // The first legal row after `from`: the smallest congruent to `first`.
        let (first, period) = (i64::from(first), i64::from(every));
        let start = i64::from(from) + 1 + (first - i64::from(from) - 1).rem_euclid(period);
        let slots = ((i64::from(until) - start).div_euclid(period) + 1).max(0);
        let slots = u32::try_from(slots).unwrap_or(0);
        Ok(Slots { origin: start - period, every, count: slots })
    }

    fn default_ends(self) -> Ends {
        self.ends.unwrap_or(match self.order {
            Order::Spread => Ends::Half,
            _ => Ends::Closing,
        })
    }

    fn plan(self, units: u32, slots: Slots) -> Result<Plan, Error> {
        let plan = |slots, shape| Ok(Plan::new(slots, shape, self.unit.get()));
        if units == 0 {
            return plan(slots, Shape::Straight);
        }
        let ends = self.default_ends();
        let spare = u32::from(ends == Ends::Full);
        let most = u64::from(self.a_slot()) * u64::from(slots.count.saturating_sub(spare));
        if u64::from(units) > most {
            return Err(self.too_many(units, slots, spare));
        }
        if units + spare <= slots.count {
            return plan(slots, sparse(units, slots.count.into(), self.order, ends));
        }
        // With a full gap at the end, the last legal row stays plain.
        let used = Slots { count: slots.count - spare, ..slots };
        let split = Split::sizes(units.into(), used.count.into(), self.order);
        plan(used, Shape::Dense { split })
    }

    /// The most shapings of `unit` stitches in one row.
    const fn a_slot(self) -> u32 {
        self.most.get() / self.unit.get()
    }

    /// What was wanted, what there is, and the smallest change that would do.
    fn too_many(self, units: u32, slots: Slots, spare: u32) -> Error {
        let a_slot = self.a_slot();
        let needed = units.div_ceil(a_slot) + spare;
        let last = slots.row(needed.into());
        let end = self.after.get() + self.rows.get() - self.plain_after.get();
        let fits = u64::from(a_slot) * u64::from(slots.count.saturating_sub(spare));
        let over = u64::from(units) - fits;
        let fewer = over * u64::from(self.unit.get()) * u64::from(self.edges.count());
        let (verb, n) = (if needed == 1 { "row is" } else { "rows are" }, slots.count);
        let all = self.rows.get();
        let there = match (n, all) {
            (0, _) => format!("but none of the {all} {} may shape", rows(all)),
            (1, 1) => "but there is only 1 row".into(),
            _ if n == all => format!("but there are only {all} rows"),
            _ => format!("but only {n} of the {all} rows may shape"),
        };
        let why = format!("{needed} shaping {verb} needed, {there}");
        let remedy = Remedy {
            more_rows: last
                .checked_sub(end)
                .filter(|&rows| rows > 0 && last <= COUNT - self.plain_after.get())
                .map(Rows::clamped),
            fewer_stitches: Stitches::try_from(fewer).ok(),
        };
        Error::impossible(why, remedy)
    }
}

/// `events` shapings in `slots` legal rows, at most one in each.
fn sparse(count: u32, slots: u64, order: Order, ends: Ends) -> Shape {
    let events = u64::from(count);
    let gaps = |total, parts| Split::gaps(total, parts, order);
    let shape =
        |split, lead, base, shift| Shape::Sparse { split, events: count, lead, base, shift };
    match ends {
        // The first slot where the line has reached k - 1/2.
        Ends::Half if order == Order::Spread => {
            let mix = Mix::Line { phase: slots + 2 * events - 1 };
            shape(Split { total: slots, parts: events, mix }, 0, 0, 0)
        }
        Ends::Half => {
            let split = gaps(slots, events);
            shape(split, 1, 0, split.at(1) / 2)
        }
        Ends::Closing => shape(gaps(slots, events), 1, 0, 0),
        Ends::Full => shape(gaps(slots, events + 1), 1, 0, 0),
        Ends::Both if events > 1 => shape(gaps(slots - 1, events - 1), 0, 1, 0),
        Ends::Opening | Ends::Both => shape(gaps(slots, events), 0, 1, 0),
    }
}

impl TryFrom<TaperBuilder> for Taper {
    type Error = Error;

    fn try_from(asked: TaperBuilder) -> Result<Self, Error> {
        asked.build()
    }
}

impl From<Taper> for TaperBuilder {
    fn from(taper: Taper) -> Self {
        taper.asked
    }
}
