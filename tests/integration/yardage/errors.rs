//! At least twenty bad inputs, each refused in its own words.

use super::{rw, st};
use loopwright::gauge::{Exact, Length, Stitches};
use loopwright::yardage::{
    Area, ArealMass, EdgeFacts, EdgeRule, Estimator, Factor, Growth, LinearDensity, LoopLength,
    Mass, Numbering, Plan, Remainder, Rules, SeamRule, Section, Spread, Supply, Tally, Tightness,
    Unravelled, Weighed, Yarn, YarnQuantity, diameter, estimate, unravelled,
};
use loopwright_tests::assertions::assert_error;

const FORMS: &str = "write a number and its system, such as 2/28 Nm, 30/2 Ne, 10 tex x 3, or a \
                     length per mass, such as 450 m/100 g";

fn mm(n: i64) -> Length {
    Length::mm(n).unwrap()
}

fn loops() -> LoopLength {
    LoopLength::stated(Spread::exactly(mm(10))).unwrap()
}

fn supply() -> Supply {
    Supply::new("main", "100 tex".parse().unwrap()).fabric("plain", loops())
}

#[test]
fn notations_that_say_nothing_are_refused() {
    for text in [
        "",
        "yarn",
        "28",
        "Nm",
        "2//28 Nm",
        "28 Nq",
        " 28 Nm",
        "28 Nm x",
        "two/28 Nm",
        "3 strands of",
        "28 Nm, take-up much",
    ] {
        let expected = format!("the yarn {text:?} cannot be read: {FORMS}");
        assert_error(text.parse::<Yarn>(), &expected);
    }
}

#[test]
fn a_slash_without_its_system_is_refused() {
    assert_error(
        "2/28".parse::<Yarn>(),
        "the yarn \"2/28\" cannot be read: a slash means plies in one order or the other, so \
         name the system after it, such as 2/28 Nm, 30/2 Ne or 2/40 cotton",
    );
}

#[test]
fn a_slash_that_could_mean_either_is_refused() {
    let why = "either number could be the plies: write the count first and the plies after an \
               x, such as 3 Ne x 2";
    for text in ["3/2 Ne", "2/3 cotton", "4/3 worsted"] {
        assert_error(text.parse::<Yarn>(), &format!("the yarn {text:?} cannot be read: {why}"));
    }
}

#[test]
fn a_slash_without_plies_is_refused() {
    let why = "a slash stands between two numbers, one of them the count of plies";
    for text in ["28/30 Nm", "0/28 Nm", "1.5/28 Nm"] {
        assert_error(text.parse::<Yarn>(), &format!("the yarn {text:?} cannot be read: {why}"));
    }
}

#[test]
fn direct_systems_take_no_slash() {
    assert_error(
        "110/2 dtex".parse::<Yarn>(),
        "the yarn \"110/2 dtex\" cannot be read: tex, dtex, denier and jute take no slash: write \
         the plies as in 110 dtex x 2",
    );
}

#[test]
fn yarns_out_of_bounds_are_refused() {
    let tex = |n| LinearDensity::from_tex(Exact::whole(n));
    assert_error(tex(0), "the linear density is 0 tex, but must be in 1/1000..=1000000 tex");
    assert_error(
        tex(1_000_001),
        "the linear density is 1000001 tex, but must be in 1/1000..=1000000 tex",
    );
    assert_error(
        LinearDensity::new(Exact::whole(-3), Numbering::Metric),
        "the yarn number is -3 Nm, but must be above zero",
    );
    assert_error("28 Nm x 0".parse::<Yarn>(), "the count of plies is 0, but must be in 1..=100");
    assert_error(
        "101 strands of 28 Nm".parse::<Yarn>(),
        "the count of strands is 101, but must be in 1..=100",
    );
    assert_error(
        "28 Nm x 2, take-up 0.6".parse::<Yarn>(),
        "the twist take-up is 3/5, but must be in 0..=1/2",
    );
    assert_error(
        LinearDensity::of(Length::ZERO, Mass::g(50).unwrap()),
        "the length of yarn is 0 mm, but must be above zero",
    );
    assert_error(
        "20 tex".parse::<LinearDensity>().unwrap().partner("15 tex".parse().unwrap()),
        "the yarn wanted is 15 tex, but must be above the 20 tex of the yarn held",
    );
}

#[test]
fn masses_are_read_strictly() {
    let forms = "write a number and its unit (mg, gr, g, kg, oz, lb), such as 50 g or 3 1/2 oz";
    for text in ["50", "g", "50 stone", "50  g", "5O g", "50 g "] {
        assert_error(text.parse::<Mass>(), &format!("the mass {text:?} cannot be read: {forms}"));
    }
    assert_error("-1 g".parse::<Mass>(), "the mass is -1 g, but must be in 0..=1000000000 g");
    assert_error(
        "50 of them".parse::<YarnQuantity>(),
        "the amount of yarn \"50 of them\" cannot be read: write a weight such as 63 g, or a \
         length such as 120 m",
    );
}

#[test]
fn spreads_keep_their_order() {
    assert_error(
        Spread::new(mm(3), mm(2), mm(4)),
        "the likely value is 2 mm, but must be between its low, 3 mm, and its high, 4 mm",
    );
}

#[test]
fn loops_that_cannot_be_are_refused() {
    assert_error(
        LoopLength::stated(Spread::exactly(Length::ZERO)),
        "the loop length is 0 mm, but must be above zero and at most 1000 mm",
    );
    assert_error(
        Unravelled::new(st(0), mm(10), Length::ZERO),
        "the count of unravelled stitches is 0, but must be above zero",
    );
    assert_error(
        Unravelled::new(st(10), mm(1), mm(2)),
        "the unravelled length is 1 mm, but must be above half a reading, 1 mm",
    );
    assert_error(
        Unravelled::new(st(10), mm(1), mm(-2)),
        "the reading of the ruler is -2 mm, but must be zero or more",
    );
    assert_error(
        unravelled(&[]),
        "the unravelled yarn needs at least one reading, but none was given",
    );
    assert_error(
        Weighed::new(st(0), Mass::g(1).unwrap(), Mass::ZERO),
        "the count of weighed stitches is 0, but must be above zero",
    );
    assert_error(
        Weighed::new(st(400), Mass::g(1).unwrap(), Mass::g(2).unwrap()),
        "the weight of the swatch is 1 g, but must be above half a reading, 1 g",
    );
    assert_error(
        Factor::measured(Spread::exactly(Exact::whole(11))),
        "the factor is 11, but must be above zero and at most 10",
    );
    assert_error(
        LoopLength::best(&[]),
        "the fabric needs a loop length to choose from, but none was given",
    );
}

#[test]
fn tallies_must_be_known_to_their_supply() {
    assert_error(
        estimate(&[Tally::new("back").in_yarn("blue")], &[supply()]),
        "the piece \"back\" needs the yarn \"blue\", but none was given",
    );
    assert_error(
        estimate(&[Tally::new("back").stitches("lace", st(9))], &[supply()]),
        "the fabric \"lace\" of the piece \"back\" needs a loop length in the yarn \"main\", but \
         none was given",
    );
    assert_error(
        Estimator::new(&[Supply::new("main", "100 tex".parse().unwrap())]),
        "the yarn \"main\" needs a fabric with a loop length, but none was given",
    );
    assert_error(
        Estimator::new(&[supply(), supply()]),
        "the yarn of two supplies is main, but must be one supply a yarn",
    );
}

#[test]
fn tallies_out_of_bounds_are_refused() {
    let refuse = |tally: Tally, text: &str| assert_error(estimate(&[tally], &[supply()]), text);
    let back = || Tally::new("back");
    // A single count is refused by its own type, a sum by the estimate.
    let most = Stitches::MAX;
    let bounds = "is 10000001, but must be in 0..=10000000";
    let one = st(1);
    refuse(
        back().stitches("plain", most).stitches("plain", one),
        &format!("the count of stitches {bounds}"),
    );
    refuse(back().cast_on(most).cast_on(one), &format!("the count of stitches cast on {bounds}"));
    refuse(
        back().bound_off(most).bound_off(one),
        &format!("the count of stitches bound off {bounds}"),
    );
    refuse(back().grafted(most).grafted(one), &format!("the count of grafted stitches {bounds}"));
    refuse(back().waste(most).waste(one), &format!("the count of waste stitches {bounds}"));
    refuse(
        back().stitches("plain", most).times(u32::MAX).times(u32::MAX),
        "the count of stitches is 18446744073709551615, but must be in 0..=10000000",
    );
    refuse(back().seam(mm(-1)), "the length of the seam is -1 mm, but must be zero or more");
    refuse(
        back().floats(st(3)),
        "a float needs the width of a stitch in the yarn's rules, but none was given",
    );
}

#[test]
fn rules_say_what_they_lack() {
    let per_stitch = |rule: EdgeRule| rule.per_stitch(&loops(), &EdgeFacts::new());
    assert_error(
        per_stitch(EdgeRule::SewnThreeWidths),
        "the edge rule needs the width of a stitch, but none was given",
    );
    assert_error(
        per_stitch(EdgeRule::Wrap),
        "the edge rule needs the needle's diameter, but none was given",
    );
    assert_error(
        per_stitch(EdgeRule::Measured(mm(10), st(0))),
        "the measured edge is 10 mm in 0 stitches, but must be some yarn in some stitches",
    );
    assert_error(
        SeamRule::OneAndHalfToTwo.yarn(mm(-1), 1),
        "the length of the seam is -1 mm, but must be zero or more",
    );
    assert_error(
        Estimator::new(&[supply().rules(Rules::new().end(mm(-1)))]),
        "the length of an end is -1 mm, but must be zero or more",
    );
}

#[test]
fn cloth_needs_sides_and_loops() {
    let yarn: LinearDensity = "20 tex".parse().unwrap();
    assert_error(
        ArealMass::of(Mass::g(1).unwrap(), Length::ZERO, mm(1)),
        "the side of the weighed piece is 0 mm, but must be above zero",
    );
    assert_error(
        ArealMass::modelled(Exact::whole(20), Length::ZERO, yarn),
        "the loop length is 0 mm, but must be above zero",
    );
    assert_error(Tightness::new(yarn, mm(-1)), "the loop length is -1 mm, but must be above zero");
    assert_error(
        diameter(yarn, Exact::ZERO, Exact::ONE),
        "the fibre density is 0, but must be above zero and at most 25 g/cm³",
    );
    assert_error(
        diameter(yarn, Exact::ONE, Exact::whole(2)),
        "the packing is 2, but must be above zero and at most 1",
    );
    assert_error(
        Area::rectangle(mm(-1), mm(1)),
        "the side of an area is -1 mm, but must be zero or more",
    );
    assert_error(
        Area::rectangle(mm(1), mm(1))
            .unwrap()
            .mass_from(Area::rectangle(mm(0), mm(1)).unwrap(), Mass::ZERO),
        "the area of the swatch is 0 mm², but must be above zero",
    );
}

#[test]
fn remainders_that_do_not_reach_say_so() {
    let yarn: LinearDensity = "100 tex".parse().unwrap();
    let ball = Remainder::new("3 g".parse().unwrap()).reserve("4 g".parse().unwrap());
    let refused = ball.stitches(&loops(), yarn).unwrap_err();
    assert!(refused.is_short());
    assert_eq!(refused.to_string(), "the yarn left is 3 g, but 4 g of it is reserved");
    let plan = Plan::new(Growth::straight(st(100)).unwrap()).edging(Exact::ONE).unwrap();
    let refused = plan.rows_from(Exact::whole(99)).unwrap_err();
    assert!(refused.is_short());
    assert_eq!(
        refused.to_string(),
        "the yarn is enough for 99 stitches, but the edging alone takes 100"
    );
    assert_error(
        loopwright::yardage::widest(
            Exact::whole(50),
            rw(10),
            Exact::ZERO,
            loopwright::gauge::Repeat::multiple_of(6).unwrap(),
        ),
        "the yarn is enough for 50 stitches, but the narrowest piece takes 60",
    );
}

#[test]
fn growths_that_cannot_be_are_refused() {
    assert_error(
        Growth::even(st(0), st(2), rw(2)),
        "the count of stitches in the first row is 0, but must be in 1..=10000000",
    );
    assert_error(
        Growth::even(st(3), st(2), rw(0)),
        "the count of rows between increases is 0, but must be in 1..=10000000",
    );
    let sections = |stitches: [u32; 2]| {
        Growth::sections(&stitches.map(|stitches| Section { stitches: st(stitches), rows: rw(1) }))
    };
    assert_error(
        sections([8, 7]),
        "the count of stitches in a section is 7, but must be in 8..=10000000",
    );
    assert_error(
        Growth::sections(&[]),
        "the count of rows in all sections is 0, but must be in 1..=1000000",
    );
    let plan = || Plan::new(Growth::straight(st(100)).unwrap());
    assert_error(
        plan().edging(Exact::whole(-1)),
        "the count of rows of the edging is -1, but must be in 0..=1000000",
    );
    assert_error(
        plan().fixed(Exact::whole(-1)),
        "the count of fixed stitches is -1, but must be in 0..=10000000",
    );
    assert_error(plan().copies(0), "the count of pieces is 0, but must be in 1..=10000");
}
