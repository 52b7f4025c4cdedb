use super::{rw, st};
use loopwright::gauge::{Exact, Length, Stitches};
use loopwright::yardage::{
    EdgeFacts, EdgeRule, GRAFT_TAIL_LEAST_CM, LoopLength, SeamRule, Spread, Stripe, deal_stripes,
    seaming_strands,
};
use loopwright_tests::golden;

#[derive(serde::Deserialize)]
struct Fields {
    rule: String,
    stitches: Stitches,
    stitch_width: Option<Length>,
    needle: Option<Length>,
    #[serde(rename = "yarn")]
    printed: String,
    within: String,
    #[serde(default)]
    misprint: bool,
}

fn loops() -> LoopLength {
    LoopLength::stated(Spread::exactly(Length::mm(15).unwrap())).unwrap()
}

#[test]
fn every_published_rule_gives_its_tail() {
    for case in golden::cases::<Fields>(include_str!("../../golden/yardage_tails.toml")) {
        let fields = case.fields;
        let mut edge = EdgeFacts::new();
        (edge.stitch_width, edge.needle) = (fields.stitch_width, fields.needle);
        let tail = fields
            .rule
            .parse::<EdgeRule>()
            .unwrap()
            .tail(fields.stitches, &loops(), &edge)
            .unwrap()
            .likely();
        let printed: Length = fields.printed.parse().unwrap();
        let off = tail.checked_sub(printed).unwrap().abs();
        let agrees = off <= fields.within.parse().unwrap();
        assert_eq!(agrees, !fields.misprint, "{}: {tail}, printed {printed}", case.name);
    }
}

#[test]
fn a_border_takes_half_as_much_again_as_its_wraps() {
    // bmom-funstuff.blogspot.com, 2012: needle × π × stitches × rows × 150 %: 21.2 m for 100
    // stitches by 10 rows on 4.5 mm.
    let edge = EdgeFacts::new().needle("4.5 mm".parse().unwrap());
    let wraps = EdgeRule::Wrap.tail(st(1_000), &loops(), &edge).unwrap().likely();
    let border = wraps.scaled(Exact::new(3, 2).unwrap()).unwrap();
    assert!(
        border.checked_sub("21.2 m".parse().unwrap()).unwrap().abs() <= "5 cm".parse().unwrap()
    );
}

#[test]
fn a_graft_is_a_row_or_three_to_four_widths() {
    // A yarn company page and memory: as much as a knitted row, about 3 to 4 widths.
    let edge = EdgeFacts::new().stitch_width("4.5 mm".parse().unwrap());
    let tail = EdgeRule::Graft.tail(st(100), &loops(), &edge).unwrap();
    assert_eq!(tail.parts().map(|l| l.to_string()), ["1350 mm", "1500 mm", "1800 mm"]);
    let row = EdgeRule::Graft.tail(st(100), &loops(), &EdgeFacts::new()).unwrap();
    assert_eq!(row, Spread::exactly("150 cm".parse().unwrap()));
    // L. A. Bestor, Cast On, Bind Off: a toe's tail is at least 25 cm.
    assert_eq!(GRAFT_TAIL_LEAST_CM, 25);
}

#[test]
fn seams_take_their_length_and_more() {
    // andrearangel.com: the seam and 30 cm; common practice: one and a half to two seams.
    let seam: Length = "60 cm".parse().unwrap();
    let one = SeamRule::SeamAnd30Cm.yarn(seam, 1).unwrap();
    assert_eq!(one, Spread::exactly("90 cm".parse().unwrap()));
    let usual = SeamRule::OneAndHalfToTwo.yarn(seam, 1).unwrap();
    assert_eq!(usual.parts().map(|l| l.to_string()), ["900 mm", "1050 mm", "1200 mm"]);
    assert_eq!(SeamRule::Nothing.yarn(seam, 3), Ok(Spread::exactly(Length::ZERO)));
}

#[test]
fn stripes_are_dealt_in_order_and_none_is_lost() {
    let sequence = [Stripe { yarn: "a", rows: rw(3) }, Stripe { yarn: "b", rows: rw(1) }];
    let rows = [5, 5, 5, 4, 4, 4, 3, 3, 3].map(st);
    // a: rows 1-3, 5-7 and 9; b: rows 4 and 8.
    assert_eq!(deal_stripes(&sequence, rows), [("a", 15 + 11 + 3), ("b", 4 + 3)]);
    let empty = [Stripe { yarn: "a", rows: rw(0) }];
    assert!(deal_stripes(&empty, rows).is_empty() && deal_stripes(&[], rows).is_empty());
}

#[test]
fn seaming_yarn_is_cut_short() {
    // chebucto.ns.ca: 15 to 20 in a strand, as the yarn wears.
    let strands = |text: &str| seaming_strands(text.parse().unwrap());
    assert_eq!([strands("60 in"), strands("61 in"), strands("0 mm")], [Ok(3), Ok(4), Ok(0)]);
    assert!(strands("-1 mm").is_err_and(|refused| refused.is_range()));
}
