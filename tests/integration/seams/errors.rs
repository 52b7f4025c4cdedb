//! The text of every refusal.

use super::{bound_off, gauge, live, rows, selvedge, stitches};
use loopwright::gauge::{Exact, Length, Rows, Stitches};
use loopwright::seams::{
    Buttonholes, Edge, EdgeStep, Error, Gaps, Holes, Join, Leftover, Pairing, PickUpLine,
    PickUpSpacing, Placement, Rate, Tolerance, check, knitted_band, rates,
};
use loopwright_tests::assertions::assert_error;

#[test]
fn edges_must_be_something() {
    let none = Edge::live("neck", Stitches::ZERO, gauge());
    assert_error(none, "the count of stitches of the neck is 0, but must be at least 1");
    let none = Edge::selvedge("side", Rows::ZERO, gauge());
    assert_error(none, "the count of rows of the side is 0, but must be at least 1");
    let none = Edge::bound_off(" ", stitches(1), gauge());
    assert_error(none, "the name of an edge is empty, but must be a name");
    let long = Edge::cast_on("n".repeat(201), stitches(1), gauge());
    assert_error(long, "the name of an edge is 201 characters long, but must be at most 200");
    let none = Edge::stepped("cap", Vec::new(), gauge());
    assert_error(none, "the count of steps of the cap is 0, but must be in 1..=100000");
    let still = EdgeStep { rows: Rows::ZERO, stitches: Stitches::ZERO };
    assert_error(
        Edge::stepped("cap", vec![still], gauge()),
        "step 1 of the cap is 0 rows and 0 stitches, but must be at least one row or stitch",
    );
    assert_error(
        Edge::joined("all", Vec::new()),
        "the count of edges joined into the all is 0, but must be in 1..=1000",
    );
    assert_error(
        selvedge("side", 3).with_outline(Vec::new()),
        "the count of outline points of the side is 0, but must be in 2..=100000",
    );
}

#[test]
fn joins_must_suit_their_edges() {
    let with = |join: Join, a: &Edge, b: &Edge| check(join, a, b, join.tolerance());
    let (open, closed, side) = (live("top", 9), bound_off("shoulder", 9), selvedge("side", 9));
    let refused = with(Join::Graft, &open, &closed);
    assert!(refused.as_ref().is_err_and(Error::is_wrong_edge));
    assert_error(refused, "a graft needs live stitches, but the shoulder is a bound-off edge");
    assert_error(
        with(Join::BindOffTogether, &side, &open),
        "a bind-off together needs live stitches, but the side is a selvedge",
    );
    assert_error(
        with(Join::RowSeam, &side, &open),
        "a row-to-row seam needs row ends, but the top is live stitches",
    );
    assert_error(
        with(Join::StitchSeam, &side, &open),
        "a stitch-to-stitch seam needs stitches, but the side is a selvedge",
    );
    assert_error(
        with(Join::PickUp, &open, &side),
        "a pick-up needs stitches, but the side is a selvedge",
    );
    assert_error(
        with(Join::HangBack, &open, &closed),
        "a hanging back needs live stitches, but the shoulder is a bound-off edge",
    );
}

#[test]
fn tolerances_must_be_ranges() {
    let mm = |n| Length::mm(n).unwrap();
    assert_error(
        Tolerance::eased(mm(20), mm(10)),
        "the least ease is 20 mm, but must be at most 10 mm",
    );
    assert_error(
        Tolerance::gathered(Exact::ZERO, Exact::ONE),
        "the least gathering is 0, but must be above zero",
    );
    assert_error(
        Tolerance::gathered(Exact::whole(2), Exact::ONE),
        "the least gathering is 2, but must be at most 1",
    );
}

#[test]
fn rates_must_be_of_use() {
    assert_error(Rate::new(3, 0), "the count of rows of a rate is 0, but must be in 1..=10000");
    assert_error(
        rates(Exact::ZERO, 8),
        "the ratio of stitches to rows is 0, but must be above 0 and at most 10000",
    );
    assert_error(
        rates(Exact::ONE, 0),
        "the largest count of rows of a rate is 0, but must be in 1..=10000",
    );
}

#[test]
fn placements_must_fit() {
    let place = |places, n| Placement::new(rows(places), stitches(n), PickUpSpacing::Half);
    assert_error(place(0, 1), "the count of rows to pick up along is 0, but must be in 1..=100000");
    assert_error(
        place(10, 21),
        "the count of stitches to pick up is 21, but must be in 1..=20, at most two for each of 10",
    );
    assert_error(
        place(10, 0),
        "the count of stitches to pick up is 0, but must be in 1..=20, at most two for each of 10",
    );
    assert_error(
        Pairing::new(rows(10), rows(21)),
        "the longer side of a seam is 21, but must be at most 20, twice the other side",
    );
}

#[test]
fn lines_must_hold_their_corners() {
    let place = |line: PickUpLine, n| line.place(stitches(n), PickUpSpacing::Half);
    assert_error(
        place(PickUpLine::new(gauge()), 4),
        "the count of edges to pick up along is 0, but must be at least 1",
    );
    let cornered =
        || PickUpLine::new(gauge()).along(selvedge("one", 20)).corner().along(selvedge("two", 1));
    assert_error(
        place(cornered().corner(), 9),
        "the length of the two is 5/2 mm, but must be more than its corners take",
    );
    assert_error(
        place(cornered(), 1),
        "the count of stitches to pick up is 1, but must be at least 2: one, and one for each corner",
    );
    assert_error(
        place(cornered().mirrored(), 9),
        "the line to be mirrored is not the same from both ends, but must be alike on both sides",
    );
    let even = PickUpLine::new(gauge()).along(selvedge("one", 20)).along(selvedge("two", 20));
    assert_error(
        place(even.mirrored(), 9),
        "the line to be mirrored is an odd count without an edge in the middle, \
         but must be alike on both sides",
    );
}

#[test]
fn bands_must_have_room() {
    assert_error(
        Buttonholes::new(stitches(0), 1, stitches(1)),
        "the count of stitches of the band is 0, but must be in 1..=100000",
    );
    assert_error(
        Buttonholes::new(stitches(20), 0, stitches(1)),
        "the count of buttonholes is 0, but must be in 1..=20",
    );
    assert_error(
        Buttonholes::new(stitches(20), 5, stitches(5)),
        "the width of a buttonhole is 5, but must be at most 4, for 5 in 20",
    );
    let margins = Gaps::Margins { first: stitches(6), last: stitches(6) };
    assert_error(
        Buttonholes::new(stitches(20), 5, stitches(2)).unwrap().place(margins, Leftover::Spread),
        "the sum of the margins is 12, but must be at most 10, what 5 holes leave",
    );
    let one =
        Buttonholes::new(stitches(20), 1, stitches(2)).unwrap().place(margins, Leftover::Spread);
    assert_error(
        one,
        "the sum of the margins is 12, but must be 18, all that one buttonhole leaves",
    );
    assert_error(
        Holes::start_at_marker(stitches(1), stitches(3)),
        "the marked stitch of a buttonhole is 1, but must be above 1",
    );
    let edge = Edge::selvedge("front", rows(100), gauge()).unwrap();
    let band = knitted_band(
        &edge,
        gauge(),
        501,
        loopwright::gauge::Repeat::any(),
        loopwright::gauge::Round::HalfUp,
    );
    assert_error(
        band,
        "how much shorter the band is, in thousandths, is 501, but must be in 0..=500",
    );
}
