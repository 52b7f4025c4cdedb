use alloc::vec::Vec;
use loopwright_gauge::Exact;

/// One stripe of a sequence: its yarn and its rows.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub struct Stripe<'a> {
    /// The yarn.
    pub yarn: &'a str,
    /// The rows knitted in it.
    pub rows: u32,
}

/// Deals the rows of a piece out over a repeating sequence of stripes: the stitches
/// that each yarn knits, yarns in the order they first appear.
///
/// `row_stitches` is the count of each row from the first. An empty sequence, or one
/// without rows, deals nothing.
///
/// # Examples
/// ```
/// use loopwright_yardage::{Stripe, deal_stripes};
/// let sequence = [Stripe { yarn: "blue", rows: 2 }, Stripe { yarn: "white", rows: 1 }];
/// let dealt = deal_stripes(&sequence, [10, 10, 10, 8, 8]);
/// assert_eq!(dealt, [("blue", 36), ("white", 10)]);
/// ```
#[must_use]
pub fn deal_stripes<'a>(
    sequence: &[Stripe<'a>],
    row_stitches: impl IntoIterator<Item = u32>,
) -> Vec<(&'a str, u64)> {
    let mut dealt: Vec<(&'a str, u64)> = Vec::new();
    if sequence.iter().all(|stripe| stripe.rows == 0) {
        return dealt;
    }
    let yarns = sequence
        .iter()
        .cycle()
        .flat_map(|stripe| core::iter::repeat_n(stripe.yarn, stripe.rows as usize));
    for (yarn, stitches) in yarns.zip(row_stitches) {
        match dealt.iter_mut().find(|(known, _)| *known == yarn) {
            Some((_, total)) => *total = total.saturating_add(stitches.into()),
            None => dealt.push((yarn, stitches.into())),
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
/// use loopwright_gauge::Exact;
/// use loopwright_yardage::deepest_stripes;
/// assert_eq!(deepest_stripes(&[20; 30], 4, Exact::whole(20 * 13)), Some(3));
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
#[must_use]
pub fn deepest_stripes(row_stitches: &[u32], between: u32, stitches: Exact) -> Option<u32> {
    let mut knitted = Vec::with_capacity(row_stitches.len() + 1);
    let mut sum = 0_u64;
    knitted.push(sum);
    for &row in row_stitches {
        sum = sum.saturating_add(row.into());
        knitted.push(sum);
    }
    let room = u32::try_from(row_stitches.len()).ok()?.checked_sub(between)?;
    (1..=room).rev().find(|&depth| {
        let taken = Exact::try_from(taken(&knitted, between, depth));
        taken.is_ok_and(|taken| taken <= stitches)
    })
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
