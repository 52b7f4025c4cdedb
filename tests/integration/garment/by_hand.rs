//! One pullover worked out with pencil and paper.
//!
//! Gauge 20 stitches and 30 rows to 10 cm. Chest 82 and 10 cm of ease: 46 cm across, 92
//! stitches and 2 for the seams, 94 = 23 x 4 + 2. Neck 16 cm: 32 stitches, so shoulders of
//! (94 - 32) / 2 = 31. Upper arm 30 and 6 cm: 72 stitches and 2, the armhole 18 cm, 54 rows.
//! Wrist 16 and 4 cm: 40 stitches and 2, 42 = 10 x 4 + 2. Hem and cuff 6 cm: 18 rows. The
//! side is 60 less 6 less 18, 36 cm: 108 rows. The sleeve is 73 less 23, 50 cm, less the
//! cuff 44 cm: 132 rows, of which 2 cm, 6 rows, stay plain at the top; 16 increases a side
//! in 126 rows, and 126 = 16 x 7 + 14: every 8th row 14 times, every 7th row twice.

use super::{EVERYDAY, body, pullover};
use loopwright::garment::{DropShoulder, DropShoulderChoices, Fabrics, Garment};
use loopwright::gauge::Stitches;
use loopwright::pattern::{Bed, Craft, Fabric, words};

fn worked_out() -> Garment {
    let craft = Craft::Machine(Bed::of_needles(100).unwrap());
    let mut choices = DropShoulderChoices::usual(craft);
    choices.ease.upper_arm = "6 cm".parse().unwrap();
    choices.neck_width = Some("16 cm".parse().unwrap());
    choices.neck_depth = Some("7.4 cm".parse().unwrap());
    let fabrics = Fabrics::plain("20 x 30 / 10 cm".parse().unwrap());
    DropShoulder::new(body(&EVERYDAY), fabrics, craft)
        .choose(choices)
        .draft()
        .unwrap()
        .finish()
        .unwrap()
}

fn lines(garment: &Garment, piece: &str) -> Vec<String> {
    let found = garment.pieces.iter().find(|made| made.knitted.name == piece).unwrap();
    words::instructions(&found.knitted).lines.into_iter().map(|line| line.text).collect()
}

/// Back: 94 x 18 rows of rib, 94 x (108 + 54) rows plain.
#[test]
fn the_back() {
    let garment = worked_out();
    let back = &garment.pieces[0].knitted;
    assert_eq!(back.stitches_in(Fabric::Rib { knit: 2, purl: 2 }), 1_692);
    assert_eq!(back.stitches_in(Fabric::Plain), 15_228);
    let counts = [back.cast_on, back.live, back.bound_off].map(Stitches::get);
    assert_eq!(counts, [94, 94, 0]);
    for (edge, stitches) in [("left shoulder", 31), ("neck stitches", 32), ("right shoulder", 31)] {
        assert_eq!(back.edge(edge).unwrap().stitches(), stitches, "{edge}");
    }
    for (edge, rows) in
        [("left edge", 18 + 108), ("left armhole edge", 54), ("right armhole edge", 54)]
    {
        assert_eq!(back.edge(edge).unwrap().rows(), rows, "{edge}");
    }
}

/// Sleeve: 42 x 18 rows of rib. Plain: 8 rows each at 42, 44 ... 68 (14 terms, mean 55)
/// is 8 x 770 = 6160, 7 rows at 70 and at 72 is 994, the last 6 rows at 74 are 444.
#[test]
fn the_sleeve() {
    let garment = worked_out();
    let sleeve = &garment.pieces[2].knitted;
    assert_eq!(sleeve.stitches_in(Fabric::Rib { knit: 2, purl: 2 }), 756);
    assert_eq!(sleeve.stitches_in(Fabric::Plain), 6_160 + 994 + 444);
    assert_eq!(sleeve.edge("top").unwrap().stitches(), 74);
    assert_eq!(
        lines(&garment, "sleeve")[3..],
        [
            "Increase 1 stitch at both edges, 2 stitches in from the edge: every 8th row 14 times, then every 7th \
             row twice, the first at RC 008, the last at RC 126.",
            "Knit 6 rows.",
            "Bind off all stitches (top). Cut the yarn and draw it through the last stitch.",
        ]
    );
}

/// Front: the neck is 7.4 cm deep, 22.2 rows, so 22; it begins at row 108 + 54 - 22 = 140.
/// Of its 32 stitches at least a third, 11, wait at the centre; an even neck has an even
/// centre, and the rest is the same at both sides.
#[test]
fn the_front() {
    let garment = worked_out();
    let front = &garment.pieces[1].knitted;
    let centre = front.edge("centre neck stitches").unwrap().stitches();
    let sides = [front.edge("left neck edge").unwrap(), front.edge("right neck edge").unwrap()];
    assert!(centre >= 12 && centre.is_multiple_of(2), "{centre}");
    for side in sides {
        assert_eq!((side.rows(), 2 * side.stitches() + centre), (22, 32));
    }
    assert_eq!(lines(&garment, "front")[5], "Knit 32 rows.", "108 + 32 = 140");
    for edge in ["left shoulder", "right shoulder"] {
        assert_eq!(front.edge(edge).unwrap().stitches(), 31);
    }
    assert_eq!(front.edge("left armhole edge").unwrap().rows(), 54);
}

/// Finished measures: 92 stitches twice round are 92 cm, 162 + 18 rows are 60 cm, the
/// sleeve is (132 + 18) / 3 = 50 cm.
#[test]
fn the_finished_measures() {
    let garment = worked_out();
    let given = |what: &str| {
        garment
            .outcomes
            .iter()
            .find(|outcome| outcome.what == what)
            .unwrap()
            .given
            .likely()
            .to_string()
    };
    assert_eq!(given("chest, all round"), "920 mm");
    assert_eq!(given("body, hem to neck"), "600 mm");
    assert_eq!(given("sleeve, cuff to shoulder seam"), "500 mm");
    assert_eq!(given("armhole depth"), "180 mm");
    assert_eq!(given("sleeve top, all round"), "360 mm");
}

/// 94 needles are needed: a bed of 94 takes them, one of 92 is 2 short.
#[test]
fn the_bed() {
    let on =
        |needles| pullover(&EVERYDAY, needles).draft().and_then(loopwright::garment::Draft::finish);
    assert!(on(94).is_ok());
    assert_eq!(
        on(92).unwrap_err().to_string(),
        "back, step 1, row 0: needles L47 to R47 are wanted, 94 stitches, 2 more than the bed of 92 needles takes there"
    );
}
