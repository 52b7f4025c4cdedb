use alloc::vec::Vec;
use loopwright_gauge::{Exact, Rows, Stitches};

/// One stripe of a sequence: its yarn and its rows; see [`deal_stripes`].
///
/// # Examples
/// ```
/// use loopwright_gauge::Rows;
/// use loopwright_yardage::Stripe;
/// let stripe = Stripe { yarn: "blue", rows: Rows::new(2)? };
/// assert_eq!(stripe.rows.get(), 2);
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
pub struct Stripe<'a> {
    /// The yarn.
    pub yarn: &'a str,
    /// The rows knitted in it.
    pub rows: Rows,
}

/// Deals the rows of a piece out over a repeating sequence of stripes: the stitches
/// that each yarn knits, yarns in the order they first appear.
///
/// `row_stitches` is the count of each row from the first. An empty sequence, or one
/// without rows, deals nothing.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Rows, Stitches};
/// use loopwright_yardage::{Stripe, deal_stripes};
/// let stripe = |yarn, rows| Stripe { yarn, rows: Rows::literal(rows) };
/// let sequence = [stripe("blue", 2), stripe("white", 1)];
/// let dealt = deal_stripes(&sequence, [10, 10, 10, 8, 8].map(Stitches::literal));
/// assert_eq!(dealt, [("blue", 36), ("white", 10)]);
/// ```
#[must_use]
pub fn deal_stripes<'a>(
    sequence: &[Stripe<'a>],
    row_stitches: impl IntoIterator<Item = Stitches>,
) -> Vec<(&'a str, u64)> {
    let mut dealt: Vec<(&'a str, u64)> = Vec::new();
    if sequence.iter().all(|stripe| stripe.rows.is_zero()) {
        return dealt;
    }
    let yarns = sequence
        .iter()
        .cycle()
        .flat_map(|stripe| core::iter::repeat_n(stripe.yarn, stripe.rows.get() as usize));
    for (yarn, stitches) in yarns.zip(row_stitches) {
        match dealt.iter_mut().find(|(known, _)| *known == yarn) {
            Some((_, total)) => *total = total.saturating_add(stitches.get().into()),
            None => dealt.push((yarn, stitches.get().into())),
        }
    }
    dealt
}

/// The deepest stripes of a second yarn that yarn for `stitches` stitches knits.
///
/// Each stripe follows `between` rows of the first yarn, all stripes but the last are
/// equally deep, and `row_stitches` is the count of each row of the piece from the first.
/// The greatest depth whose stripes together take no more than the yarn; `None` when one
/// row a stripe is already too much, or there is no room for a stripe. A deeper stripe
/// may meet narrower rows and take less, so every depth is tried: with running sums of the
/// rows that is about R ln R steps for R rows.
///
/// # Examples
/// A scarf of 20 stitches and 30 rows, four rows between: stripes of three take 12 rows, of
/// four 14.
/// ```
/// use loopwright_gauge::{Exact, Rows, Stitches};
/// use loopwright_yardage::deepest_stripes;
/// let scarf = [Stitches::literal(20); 30];
/// let depth = deepest_stripes(&scarf, Rows::literal(4), Exact::whole(20 * 13));
/// assert_eq!(depth, Some(Rows::literal(3)));
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
#[must_use]
pub fn deepest_stripes(row_stitches: &[Stitches], between: Rows, stitches: Exact) -> Option<Rows> {
    let mut knitted = Vec::with_capacity(row_stitches.len() + 1);
    let mut sum = 0_u64;
    knitted.push(sum);
    for &row in row_stitches {
        sum = sum.saturating_add(row.get().into());
        knitted.push(sum);
    }
    let room = u32::try_from(row_stitches.len()).ok()?.checked_sub(between.get())?;
    let deepest = (1..=room).rev().find(|&depth| {
        let taken = Exact::try_from(taken(&knitted, between.get(), depth));
        taken.is_ok_and(|taken| taken <= stitches)
    })?;
    Rows::new(deepest).ok()
}

/// The stitches in stripes of `depth`, from the running sums of the rows.
fn taken(knitted: &[u64], between: u32, depth: u32) -> u64 {
    let (between, depth) = (between as usize, depth as usize);
    let last = knitted.len().saturating_sub(1);
    let at = |row: usize| knitted.get(row.min(last)).copied().unwrap_or(0);
    let starts = (between..last).step_by(between.saturating_add(depth).max(1));
    starts
        .fold(0, |sum: u64, start| sum.saturating_add(at(start.saturating_add(depth)) - at(start)))
}
