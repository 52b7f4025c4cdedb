//! What the replay counts, against sums done by hand.

use loopwright::gauge::{Rows, Stitches};
use loopwright::pattern::{
    Bed, BindOff, Craft, Direction, EdgeKind, Fabric, Heading, Knitted, Leg, Piece, Shape, Side,
    Sides, Step,
};

pub(super) fn stitches(n: u32) -> Stitches {
    Stitches::new(n).unwrap()
}

pub(super) fn knit(n: u32) -> Step {
    Step::Knit(Rows::new(n).unwrap())
}

pub(super) fn machine(needles: u32, steps: &[Step]) -> Piece {
    piece(Craft::Machine(Bed::of_needles(needles).unwrap()), steps)
}

pub(super) fn piece(craft: Craft, steps: &[Step]) -> Piece {
    let mut piece = Piece::new("piece", craft).unwrap();
    piece.extend(steps.iter().cloned());
    piece
}

pub(super) fn cast_on(n: u32) -> Step {
    Step::cast_on(stitches(n), Fabric::Plain, Side::Right)
}

pub(super) fn shape(change: Direction, sides: Sides, n: u32) -> Step {
    Step::Shape(Shape::new(change, sides, stitches(n)).inset(stitches(1)))
}

pub(super) fn bind_off(n: u32, edge: Option<&'static str>) -> Step {
    Step::BindOff { stitches: stitches(n), how: BindOff::Plain, edge: edge.map(Into::into) }
}

pub(super) fn leg(heading: Heading, rows: u32, across: u32) -> Leg {
    let rows = Rows::new(rows).unwrap();
    Leg { fabric: Fabric::Plain, heading, rows, stitches: stitches(across) }
}

fn replayed(steps: &[Step]) -> Knitted {
    machine(200, steps).replay().unwrap()
}

#[test]
fn a_rectangle_is_stitches_times_rows() {
    let knitted = replayed(&[cast_on(40), knit(60), Step::bind_off_all("top")]);
    assert_eq!(knitted.stitches_in(Fabric::Plain), 40 * 60);
    let counts = [knitted.cast_on, knitted.bound_off, knitted.widest].map(Stitches::get);
    assert_eq!(counts, [40, 40, 40]);
    let left = knitted.edge("left edge").unwrap();
    assert_eq!((left.rows(), left.stitches()), (60, 0));
    assert_eq!(knitted.edge("top").unwrap().stitches(), 40);
}

/// Needles are numbered outwards from a centre 0 (common practice, no source), so 40
/// stitches about the centre are L20 to R20 and 41 have one more at the left.
#[test]
fn needles_are_numbered_from_the_centre() {
    for (n, first, last) in [(40, "L20", "R20"), (41, "L21", "R20"), (1, "L1", "L1")] {
        let knitted = replayed(&[cast_on(n), knit(2), Step::bind_off_all("top")]);
        let needles = knitted.log[0].needles.unwrap();
        assert_eq!((needles.0.to_string().as_str(), needles.1.to_string().as_str()), (first, last));
    }
}

/// Common practice, no source: from carriage right at RC 000, even counts end at the
/// right.
#[test]
fn row_parity_and_carriage_side_stay_tied() {
    let knitted = replayed(&[cast_on(10), knit(7), knit(1), Step::bind_off_all("top")]);
    let seen: Vec<(u32, Side)> =
        knitted.log.iter().map(|entry| (entry.row.get(), entry.carriage)).collect();
    assert_eq!(seen[1], (7, Side::Left));
    assert_eq!(seen[2], (8, Side::Right));
}

/// 20 stitches, one decrease at both edges after rows 4 and 8, two rows more:
/// 4*20 + 4*18 + 2*16 = 184 loops.
#[test]
fn a_taper_by_hand() {
    let narrower = shape(Direction::Decrease, Sides::Both, 1);
    let knitted = replayed(&[
        cast_on(20),
        knit(4),
        narrower.clone(),
        knit(4),
        narrower,
        knit(2),
        Step::bind_off_all("top"),
    ]);
    assert_eq!(knitted.stitches_in(Fabric::Plain), 184);
    assert_eq!(knitted.edge("top").unwrap().stitches(), 16);
    let plain = |rows, stitches| leg(Heading::UpAndIn, rows, stitches);
    assert_eq!(knitted.edge("right edge").unwrap().legs, [plain(4, 1), plain(4, 1), plain(2, 0)]);
}

/// The steps of a published 15-stitch machine shoulder (trade methods 4.12, a machine
/// maker's help page): from carriage left hold 1-5, knit to the right and back; hold
/// 6-10, knit to the right and back; all back, 1 row. The held stitches are those
/// opposite the carriage, so 15 stitches at 5 held are 10 knitted for two rows, then 5
/// for two rows, then 15 for one: 45 loops.
#[test]
fn a_published_shoulder_by_short_rows() {
    let right = Step::Hold { side: Side::Right, stitches: stitches(5) };
    let mut cast_on_left = cast_on(15);
    if let Step::CastOn { carriage, .. } = &mut cast_on_left {
        *carriage = Side::Left;
    }
    let all_off =
        Step::TakeOff { side: Side::Left, stitches: stitches(15), edge: "shoulder".into() };
    let knitted = replayed(&[
        cast_on_left,
        right.clone(),
        knit(2),
        right,
        knit(2),
        Step::Return,
        knit(1),
        Step::Cut,
        all_off,
    ]);
    assert_eq!(knitted.stitches_in(Fabric::Plain), 10 * 2 + 5 * 2 + 15);
    let shoulder = knitted.edge("shoulder").unwrap();
    assert_eq!(shoulder.kind, EdgeKind::Live);
    let legs = [leg(Heading::UpAndIn, 0, 5), leg(Heading::Down, 2, 5), leg(Heading::Down, 2, 5)];
    assert_eq!(shoulder.legs, legs);
    assert_eq!(knitted.edge("left edge").unwrap().rows(), 5);
    assert_eq!(knitted.edge("right edge").unwrap().rows(), 1);
}

/// A neck divided: 30 stitches, 10 rows, the carriage at the right; the left 10 wait, the
/// middle 10 go on waste yarn, each side of 10 is knitted 4 rows: 300 + 40 + 40 loops.
#[test]
fn parts_are_knitted_one_after_the_other() {
    let aside = Step::SetAside {
        side: Side::Left,
        stitches: stitches(10),
        part: "left shoulder".into(),
        its_edge: "left neck".into(),
        edge: "right neck".into(),
    };
    let middle = Step::TakeOff { side: Side::Left, stitches: stitches(10), edge: "neck".into() };
    let knitted = replayed(&[
        cast_on(30),
        knit(10),
        aside,
        middle,
        knit(4),
        Step::bind_off_all("right shoulder"),
        Step::Resume { part: "left shoulder".into() },
        Step::Join { side: Side::Right },
        knit(4),
        Step::bind_off_all("left shoulder"),
    ]);
    assert_eq!(knitted.stitches_in(Fabric::Plain), 380);
    for (edge, rows) in [("left edge", 14), ("right edge", 14), ("left neck", 4), ("right neck", 4)]
    {
        assert_eq!(knitted.edge(edge).unwrap().rows(), rows, "{edge}");
    }
    assert_eq!(knitted.log.last().unwrap().row.get(), 14, "the second side goes on from row 10");
    assert_eq!(knitted.ends, 4, "two yarns, two ends each");
}

/// Steps of a published 16-stitch shoulder (`TECHknitting`, January 2012, trade methods
/// 4.01): bind off 5, 5, 6 on alternate rows.
#[test]
fn a_published_shoulder_by_bind_offs() {
    let off = |n| bind_off(n, Some("shoulder"));
    let knitted =
        piece(Craft::Hand, &[cast_on(16), knit(2), off(5), knit(2), off(5), knit(2), off(6)])
            .replay()
            .unwrap();
    let shoulder = knitted.edge("shoulder").unwrap();
    assert_eq!(shoulder.stitches(), 16);
    let steps: Vec<_> =
        shoulder.legs.iter().map(|leg| (leg.rows.get(), leg.stitches.get())).collect();
    assert_eq!(steps, [(0, 5), (2, 5), (2, 6)]);
    assert_eq!(
        knitted.edge("right edge").unwrap().rows(),
        2,
        "the shoulder begins where the side ends"
    );
    assert_eq!(knitted.stitches_in(Fabric::Plain), 2 * (16 + 11 + 6));
}
