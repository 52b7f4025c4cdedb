//! Oracles and generators of the yardage room.

/// The stitches of each row of a piece that starts with `first` and has `add` more each
/// time `every` rows are done: knitted row by row, at most `most` of them.
#[must_use]
pub fn even_rows(first: u32, add: u32, every: u32, most: usize) -> Vec<u64> {
    let (mut stitches, mut since) = (u64::from(first), 0);
    let mut rows = Vec::with_capacity(most);
    while rows.len() < most {
        rows.push(stitches);
        since += 1;
        if since == every {
            (stitches, since) = (stitches + u64::from(add), 0);
        }
    }
    rows
}

/// The most rows of `copies` pieces out of `yarn` stitches of yarn, by knitting them row by
/// row: each row of each piece, the edging along the last row (`edging` rows of it), and
/// `fixed` stitches a piece. `None` when not even the edging is covered.
///
/// An edging before any row is worked along the edge that row 1 is worked on, as wide as it.
#[must_use]
pub fn rows_by_walking(
    rows: &[u64],
    edging: i64,
    fixed: i64,
    copies: u32,
    yarn: i64,
) -> Option<u32> {
    let signed = |n: u64| i64::try_from(n).unwrap();
    let mut edge = signed(rows[0]);
    let (mut reached, mut knitted, mut done) = (None, 0, 0);
    loop {
        if i64::from(copies) * (knitted + edge * edging + fixed) > yarn {
            return reached;
        }
        reached = Some(done);
        let Some(&next) = rows.get(done as usize) else { return reached };
        knitted += signed(next);
        edge = signed(next);
        done += 1;
    }
}

/// The stitches that a second yarn knits in stripes `depth` deep, each after `between` rows
/// of the first: the rows counted one by one.
#[must_use]
pub fn second_yarn(rows: &[u32], between: u32, depth: u32) -> u64 {
    let mut stitches = 0;
    let mut place = 0;
    for &row in rows {
        if place >= between {
            stitches += u64::from(row);
        }
        place = if place + 1 == between + depth { 0 } else { place + 1 };
    }
    stitches
}
