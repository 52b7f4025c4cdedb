//! Pieces worked out with pencil and paper.

use super::replay::{cast_on, knit, machine, piece, shape, stitches};
use loopwright::gauge::{Rows, Side};
use loopwright::pattern::{
    About, CAST_ON_EDGE, CastOn, Craft, Direction, EdgeKind, Fabric, Facing, Hang, Hanging,
    Knitted, LEFT_EDGE, Needle, PickUp, ShapeRow, Sides, Step, Stretch, Technique, check_pick_ups,
};
use loopwright_tests::assertions::assert_error;
use loopwright_tests::pattern::{knits_from_its_words, told};

fn texts(knitted: &Knitted) -> Vec<String> {
    told(knitted).into_iter().map(|line| line.text).collect()
}

fn take_off(side: Side, n: u32, edge: &'static str) -> Step {
    Step::TakeOff { side, stitches: stitches(n), edge: edge.into() }
}

fn hold(side: Side, n: u32) -> Step {
    Step::Hold { side, stitches: stitches(n) }
}

/// 24 stitches and 10 rows; the carriage is at the right, so the left 10 wait, the middle 4
/// go off, and the right 10 are knitted first. 24 x 10, then 10 x 4 twice: 320 loops.
fn divided() -> Vec<Step> {
    vec![
        cast_on(24),
        knit(10),
        Step::SetAside {
            side: Side::Left,
            stitches: stitches(10),
            part: "left half".into(),
            its_edge: "left neck edge".into(),
            edge: "right neck edge".into(),
        },
        take_off(Side::Left, 4, "centre"),
        knit(4),
        Step::Cut,
        take_off(Side::Right, 10, "right shoulder"),
        Step::Resume { part: "left half".into() },
        Step::Join { side: Side::Right },
        knit(4),
        Step::bind_off_all("left shoulder"),
    ]
}

#[test]
fn a_divided_front_at_the_machine() {
    let knitted = machine(100, &divided()).replay().unwrap();
    assert_eq!((knitted.all_loops(), knitted.ends, knitted.live.get()), (320, 4, 14));
    assert_eq!(
        texts(&knitted)[2..],
        [
            "Put the 10 stitches at the left, needles L12 to L3, on hold: they wait as the left half.",
            "For the 4 stitches at the left, needles L2 to R2, hold the others and with the row counter off knit 8 rows of waste yarn over them and take them off the machine (centre).",
            "Knit 4 rows.",
            "Cut the yarn with a tail to darn in.",
            "For all 10 stitches: with the row counter off knit 8 rows of waste yarn over them and take them off the machine (right shoulder).",
            "Put the left half back to work, 10 stitches on L12 to L3, and set the row counter to 010.",
            "Bring the carriage to the right and join the yarn there, at needle L3.",
            "Knit 4 rows.",
            "Bind off all stitches (left shoulder). Cut the yarn and draw it through the last stitch.",
        ]
    );
    knits_from_its_words(&knitted);
}

#[test]
fn a_divided_front_by_hand() {
    let knitted = piece(Craft::Hand, &divided()).replay().unwrap();
    assert_eq!((knitted.all_loops(), knitted.waste), (320, 0));
    assert_eq!(
        texts(&knitted)[7..9],
        [
            "Put the 10 stitches of the left half back on the needle; the last row worked on them was row 10.",
            "Join the yarn at the right edge, ready for a right-side row.",
        ]
    );
    knits_from_its_words(&knitted);
}

/// The far half first: the yarn hangs at R12 and the row would begin at L3, 14 needles away.
#[test]
fn a_front_divided_on_the_wrong_side() {
    let mut steps = divided();
    steps[2] = Step::SetAside {
        side: Side::Right,
        stitches: stitches(10),
        part: "right half".into(),
        its_edge: "right neck edge".into(),
        edge: "left neck edge".into(),
    };
    steps[3] = take_off(Side::Right, 4, "centre");
    let error = machine(100, &steps).replay().unwrap_err();
    assert!(error.is_float());
    assert_eq!(error.needles(), Some((Needle::at(11), Needle::at(-3))));
    assert_error(
        Err::<(), _>(error),
        "piece, step 5, row 10: the yarn hangs at R12, but the row would begin at L3, a float over 14 needles; work first the side where the yarn hangs, or cut the yarn and join it there",
    );
}

/// 30 stitches, two turns of 4 at each side, one row apart; then the side the carriage
/// travels to comes back, and the other after it: 26 + 22 + 18 + 14 + 22 + 30 loops.
#[test]
fn a_two_sided_shoulder() {
    let steps = |closing: &[Step]| {
        let mut steps = vec![cast_on(30)];
        for _ in 0..2 {
            steps.extend([hold(Side::Left, 4), knit(1), hold(Side::Right, 4), knit(1)]);
        }
        steps.extend(closing.iter().cloned());
        steps.extend([Step::Cut, take_off(Side::Left, 30, "top")]);
        steps
    };
    let back = |side| Step::ReturnSome { side, stitches: stitches(8) };
    let two_rows = [back(Side::Left), knit(1), back(Side::Right), knit(1)];
    for knitted in [
        machine(100, &steps(&two_rows)).replay().unwrap(),
        piece(Craft::Hand, &steps(&two_rows)).replay().unwrap(),
    ] {
        assert_eq!(knitted.all_loops(), 26 + 22 + 18 + 14 + 22 + 30);
        knits_from_its_words(&knitted);
    }
    // One row over all cannot be knitted: the yarn hangs at R7, inside the held stitches.
    assert_error(
        machine(100, &steps(&[Step::Return, knit(1)])).replay(),
        "piece, step 11, row 4: the yarn hangs at R7, but the row would begin at R15, a float over 8 needles; return first the side that the carriage travels to, or cut the yarn and join it there",
    );
}

/// 20 stitches from R11 on, cast on in waste yarn, one more at the right after rows 2 and
/// 4: 2 x 20 + 2 x 21 + 2 x 22 loops; the 20 live loops can be grafted to its twin's.
#[test]
fn a_panel_off_the_centre_on_waste_yarn() {
    let wider = shape(Direction::Increase, Sides::One(Side::Right), 1);
    let begin = Step::CastOn {
        stitches: stitches(20),
        how: CastOn::WasteYarn,
        fabric: Fabric::Plain,
        carriage: Side::Left,
        edge: "begin".into(),
        needle: Some("R11".parse().unwrap()),
    };
    let steps = [begin, knit(2), wider.clone(), knit(2), wider, knit(2), Step::bind_off_all("top")];
    let knitted = machine(64, &steps).replay().unwrap();
    assert_eq!(knitted.all_loops(), 40 + 42 + 44);
    assert_eq!(knitted.log[4].needles, Some((Needle::at(10), Needle::at(31))));
    let begin = knitted.edge("begin").unwrap();
    assert_eq!((begin.kind, begin.stitches()), (EdgeKind::Live, 20));
    // Eight rows of waste yarn; no stitch was cast on in the main yarn.
    assert_eq!((knitted.waste, knitted.cast_on.get(), knitted.begun_live.get()), (160, 0, 20));
}

/// A sleeve hung over 30 places each way from the middle of an 80-row side, one stitch of
/// the 60 for each place; and one stitch of a second edge overlapping it.
#[test]
fn a_sleeve_over_the_middle_of_a_side() {
    let side = [cast_on(20), knit(80), Step::bind_off_all("top")];
    let side = machine(100, &side).replay().unwrap();
    let sleeve = |before| {
        let mut along = PickUp::one_for_one("piece", LEFT_EDGE, stitches(60));
        along.stretch = Some(Stretch { about: About::Middle, before, after: 60 - before });
        let begin = Step::CastOn {
            stitches: stitches(60),
            how: CastOn::PickedUp { from: vec![along] },
            fabric: Fabric::Plain,
            carriage: Side::Right,
            edge: "top".into(),
            needle: None,
        };
        let more = PickUp::one_for_one("piece", "top", stitches(20));
        let hung = Hang { from: vec![more], side: Side::Right, overlap: stitches(1) };
        let mut sleeve = loopwright::pattern::Piece::new("sleeve", side.craft).unwrap();
        sleeve.extend([begin, Step::Hang(hung), knit(2), Step::bind_off_all("cuff")]);
        sleeve
    };
    let knitted = sleeve(30).replay();
    // The yarn hangs at the right of the first 60, and 19 more needles lie beyond it.
    assert!(knitted.unwrap_err().is_float());
    let mut steps = sleeve(30).steps().to_vec();
    steps.insert(2, Step::Cut);
    steps.insert(3, Step::Join { side: Side::Right });
    let mut good = loopwright::pattern::Piece::new("sleeve", side.craft).unwrap();
    good.extend(steps);
    let knitted = good.replay().unwrap();
    assert_eq!(knitted.all_loops(), 2 * (60 + 20 - 1));
    assert_eq!(check_pick_ups(&[(&side, 1), (&knitted, 1)]), Ok(()));
    assert_error(
        check_pick_ups(&[(&side, 1), (&knitted, 2)]),
        "the left edge of the piece is there 1 times and is picked up along 2 times; copies and uses must agree",
    );
}

/// A folded hem: 40 stitches, 20 rows, the cast-on edge hung back on all 40 needles, 10
/// rows more. No stitch is gained, and 40 x 30 loops are knitted.
#[test]
fn a_folded_hem() {
    let edge = PickUp::one_for_one("piece", CAST_ON_EDGE, stitches(40));
    let hem = Hang { from: vec![edge], side: Side::Left, overlap: stitches(40) };
    let steps = [cast_on(40), knit(20), Step::Hang(hem), knit(10), Step::bind_off_all("top")];
    let knitted = machine(60, &steps).replay().unwrap();
    assert_eq!((knitted.all_loops(), knitted.bound_off.get()), (1200, 40));
    assert_eq!(check_pick_ups(&[(&knitted, 1)]), Ok(()));
    assert_eq!(
        texts(&knitted)[2],
        "Hang 40 stitches on top of the 40 stitches at the left, from left to right: 40 along the cast-on edge of the piece [one for one]; all on L20 to R20."
    );
}

/// One decrease at the end of the row just worked, counted from where it began.
fn two_together(width: u32, at: u32, from: Side) -> Step {
    let positions = vec![stitches(at)];
    let technique = Technique::TwoTogether;
    Step::ShapeRow(ShapeRow { technique, stitches: stitches(width), positions, from })
}

/// The turn of a published heel (trade methods 4.62, forum.knittinghelp.com/t/52340): over 32
/// stitches work half and 2 more, two together, 1; turn, slip 1, work 5, two together, 1;
/// and so on across the gap until 18 are left.
fn heel_turn() -> Vec<Step> {
    let mut steps = vec![hold(Side::Left, 11), knit(1), two_together(21, 20, Side::Right)];
    steps.extend([hold(Side::Right, 11), knit(1), two_together(9, 8, Side::Left)]);
    let (mut width, mut left) = (8, [11, 11]);
    let mut side = 0;
    while left != [0, 0] {
        let (far, from) = [(Side::Left, Side::Right), (Side::Right, Side::Left)][side];
        let back = left[side].min(2);
        left[side] -= back;
        width += back;
        steps.push(Step::ReturnSome { side: far, stitches: stitches(back) });
        // The last turn at each side has no stitch after its decrease.
        let at = if back == 2 { width - 1 } else { width };
        steps.extend([knit(1), two_together(width, at, from)]);
        width -= 1;
        side = 1 - side;
    }
    steps
}

#[test]
fn a_turned_heel() {
    let mut steps = vec![cast_on(32), knit(28)];
    steps.extend(heel_turn());
    steps.push(Step::bind_off_all("heel"));
    let knitted = piece(Craft::Hand, &steps).replay().unwrap();
    assert_eq!(knitted.bound_off.get(), 18, "32 stitches are 18 after the turn");
}

/// The sock of trade methods 4.63 (craicnyarn.com 2016): 64 stitches; a flap of 28 rows over
/// half of them is 14 loops a side; 18 + 14 + 14 + 32 are 78 stitches for the gusset.
#[test]
fn a_heel_with_its_gusset() {
    let mut steps = vec![cast_on(64), Step::JoinRound, knit(20)];
    steps.push(Step::Divide { left: "left side".into(), right: "right flap".into() });
    steps.push(Step::SetAside {
        side: Side::Left,
        stitches: stitches(32),
        part: "instep".into(),
        its_edge: "instep edge".into(),
        edge: "left flap".into(),
    });
    steps.push(knit(28));
    steps.extend(heel_turn());
    let flap = |edge: &'static str, side| {
        let from = vec![PickUp::one_for_one("piece", edge, stitches(14))];
        Step::Hang(Hang { from, side, overlap: stitches(0) })
    };
    steps.extend([
        knit(1),
        flap("left flap", Side::Left),
        knit(1),
        flap("right flap", Side::Right),
    ]);
    steps.extend([Step::Rejoin { part: "instep".into(), side: Side::Left }, Step::JoinRound]);
    steps.extend([knit(10), Step::bind_off_all("foot")]);
    let knitted = piece(Craft::Hand, &steps).replay().unwrap();
    assert_eq!((knitted.bound_off.get(), knitted.picked_up.get()), (78, 28));
    let flap = knitted.edge("left flap").unwrap();
    assert!(flap.rows() >= 28, "28 rows of the flap, and those of the turn that reach it");
}

/// The quick crown of trade methods 4.49 (interweave.com): (k2, k2tog), (k1, k2tog) and
/// (k2tog) all round leave 75, 50 and 25 percent of 64 stitches.
#[test]
fn a_crown() {
    let round = |width: u32, every: u32| {
        let positions = (1..=width / every).map(|nth| stitches(nth * every)).collect();
        let (technique, from) = (Technique::TwoTogether, Side::Right);
        Step::ShapeRow(ShapeRow { technique, stitches: stitches(width), positions, from })
    };
    let steps = [
        cast_on(64),
        Step::JoinRound,
        knit(10),
        round(64, 4),
        knit(2),
        round(48, 3),
        knit(2),
        round(32, 2),
        Step::bind_off_all("crown"),
    ];
    let knitted = piece(Craft::Hand, &steps).replay().unwrap();
    let widths: Vec<u32> = [3, 5, 7].map(|at| knitted.log[at].stitches.get()).into();
    assert_eq!(widths, [48, 32, 16]);
    assert_eq!(knitted.all_loops(), 640 + 96 + 64);
    assert!(texts(&knitted)[3].contains("(k2, k2tog) 16 times"), "{}", texts(&knitted)[3]);
}

/// Two colours by two rows each: the second yarn waits at the right, where it is needed next.
#[test]
fn stripes() {
    let change = |yarn: &'static str| Step::ChangeYarn(yarn.into());
    let steps = [
        cast_on(20),
        knit(2),
        change("blue"),
        Step::Join { side: Side::Right },
        knit(2),
        change("main"),
        knit(2),
        change("blue"),
        knit(2),
        Step::Cut,
        change("main"),
        Step::bind_off_all("top"),
    ];
    let knitted = machine(40, &steps).replay().unwrap();
    let loops: Vec<(&str, u64)> =
        knitted.loops.iter().map(|of| (of.yarn.as_str(), of.loops)).collect();
    assert_eq!(loops, [("main", 80), ("blue", 80)]);
    assert_eq!(knitted.ends, 4);
}

/// A neckband picked up by hand: the yarn ends at the left, and the wrong side faces next.
#[test]
fn a_band_picked_up_by_hand() {
    let begin = |carriage| Step::CastOn {
        stitches: stitches(30),
        how: CastOn::PickedUp { from: vec![PickUp::one_for_one("front", "neck", stitches(30))] },
        fabric: Fabric::Rib { knit: 1, purl: 1 },
        carriage,
        edge: "neck".into(),
        needle: None,
    };
    let steps = |side| [begin(side), knit(6), Step::bind_off_all("edge")];
    let knitted = piece(Craft::Hand, &steps(Side::Left)).replay().unwrap();
    assert_eq!(knitted.log[0].facing(), Facing::WrongSide);
    assert_eq!(told(&knitted)[0].check, "after row 0, wrong side facing next, 30 stitches");
    assert_error(
        piece(Craft::Hand, &steps(Side::Right)).replay(),
        "piece, step 1, row 0: stitches picked up by hand with the right side facing end at the left: the yarn is there, and the wrong side faces next",
    );
}

/// The row table of 10 rows with one decrease at each edge after the 4th and 8th.
#[test]
fn a_row_table() {
    let narrower = shape(Direction::Decrease, Sides::Both, 1);
    let steps = [
        cast_on(20),
        knit(4),
        narrower.clone(),
        knit(4),
        narrower,
        knit(2),
        Step::bind_off_all("top"),
    ];
    let knitted = machine(40, &steps).replay().unwrap();
    let after: Vec<u32> = knitted.row_table().iter().map(|row| row.stitches.get()).collect();
    assert_eq!(after, [20, 20, 20, 18, 18, 18, 18, 16, 16, 16]);
    let fifth = knitted.row(Rows::new(5).unwrap()).unwrap();
    assert_eq!(fifth.needles, Some((Needle::at(-9), Needle::at(8))));
    assert_eq!((fifth.begins, fifth.ends), (Side::Right, Side::Left));
    assert!(knitted.row(Rows::new(11).unwrap()).is_none() && knitted.row(Rows::ZERO).is_none());
    assert_eq!(knitted.log[1].yarn, Hanging::At { needle: Needle::at(9), side: Side::Right });
}
