//! Oracles and generators of the yardage room.

/// The most rows of `copies` pieces out of `yarn` stitches of yarn, by knitting them row by
/// row: each row of each piece, the edging along the last row (`edging` rows of it), and
/// `fixed` stitches a piece. `None` when not even the edging is covered.
///
/// `row(r)` is the stitches of row r, row 0 being the edge that row 1 is worked on.
pub fn rows_by_walking(
    row: impl Fn(u32) -> u64,
    most: u32,
    edging: i64,
    fixed: i64,
    copies: u32,
    yarn: i64,
) -> Option<u32> {
    let mut reached = None;
    let mut knitted = 0;
    for rows in 0..=most {
        if rows > 0 {
            knitted += i64::try_from(row(rows)).unwrap();
        }
        let edge = i64::try_from(row(rows)).unwrap() * edging;
        if i64::from(copies) * (knitted + edge + fixed) > yarn {
            break;
        }
        reached = Some(rows);
    }
    reached
}
