use super::{rw, st};
use loopwright::gauge::{Exact, Length};
use loopwright::yardage::{
    Amount, EdgeFacts, EdgeRule, Estimator, LinearDensity, LoopLength, Mass, Rules, SeamRule,
    Spread, Supply, Tally, Weighed, Yarn, estimate, weighed,
};

fn mm(text: &str) -> Length {
    text.parse().unwrap()
}

/// 100 tex, loops of 9, 10 and 12 mm: a milligram in a centimetre.
fn supply() -> Supply {
    let loops = LoopLength::stated(Spread::new(mm("9 mm"), mm("10 mm"), mm("12 mm")).unwrap());
    Supply::new("main", LinearDensity::from_tex(Exact::whole(100)).unwrap())
        .fabric("plain", loops.unwrap())
}

#[test]
fn every_part_of_a_tally_is_counted_once() {
    let rules = Rules::new().end(mm("20 cm")).edge(EdgeFacts::new().stitch_width(mm("4 mm")));
    let tally = Tally::new("back")
        .cast_on(st(100)) // two rows: 2 m
        .stitches("plain", st(5_000)) // 50 m
        .bound_off(st(50)) // 0.5 m
        .grafted(st(50)) // 0.5 m
        .seam(mm("70 cm")) // 1 m
        .ends(5) // 1 m
        .floats(st(1_000)) // 4.4 m
        .waste(st(600));
    let answer = estimate(&[tally], &[supply().rules(rules)]).unwrap();
    let total = answer.total("main").unwrap();
    assert_eq!(total.length.likely(), mm("59.4 m"));
    assert_eq!(total.mass.likely().grams(), "5.94".parse().unwrap());
    // 9 mm loops, 4 mm floats: 1.8 + 45 + 0.45 + 0.45 + 1 + 1 + 4.
    assert_eq!(total.length.low(), mm("53.7 m"));
    // 12 mm loops, four widths of graft, 5 mm floats: 2.4 + 60 + 0.6 + 0.8 + 1 + 1 + 5.
    assert_eq!(total.length.high(), mm("70.8 m"));
    assert_eq!(answer.waste.length.likely(), mm("6 m"));
    assert_eq!(&answer.pieces[0].amount, total);
}

#[test]
fn the_total_is_the_sum_of_the_pieces() {
    let pieces = [
        Tally::new("back").cast_on(st(121)).stitches("plain", st(19_007)).seam(mm("1000/28 mm")),
        Tally::new("front").cast_on(st(121)).stitches("plain", st(17_011)).ends(7),
        Tally::rectangle("sleeve", "plain", st(77), rw(140)),
    ];
    let answer = estimate(&pieces, &[supply()]).unwrap();
    let sum = answer
        .pieces
        .iter()
        .try_fold(Amount::ZERO, |sum, piece| sum.checked_add(&piece.amount))
        .unwrap();
    assert_eq!(Some(&sum), answer.total("main"));
}

#[test]
fn each_colour_has_its_own_total() {
    let white = supply();
    let blue = Supply::new("blue", "50 tex".parse().unwrap())
        .fabric("plain", *white.loops("plain").unwrap());
    let estimator = Estimator::new(&[white, blue]).unwrap();
    let tallies = [
        Tally::new("front").stitches("plain", st(1_000)),
        Tally::new("front").in_yarn("blue").stitches("plain", st(500)),
        Tally::new("back").in_yarn("blue").stitches("plain", st(500)),
    ];
    let answer = estimator.estimate(&tallies).unwrap();
    assert_eq!(answer.total("main").unwrap().mass.likely(), Mass::g(1).unwrap());
    let blue = answer.total("blue").unwrap();
    assert_eq!(blue.length.likely(), mm("10 m"));
    assert_eq!(blue.mass.likely().grams(), Exact::new(1, 2).unwrap());
}

#[test]
fn a_weighed_swatch_passes_its_weight_on_whatever_the_tex() {
    // 460 stitches weigh 2 g (tossingthestash.blogspot.com): 230 stitches a gram.
    let swatch = Weighed::rectangle(st(20), rw(20), Mass::g(2).unwrap(), Mass::ZERO).unwrap();
    assert_eq!(swatch.stitches(), st(460));
    let yarn: Yarn = "400 m/100 g".parse().unwrap();
    let density = yarn.resultant().unwrap();
    let supply = Supply::new("main", density).fabric("plain", weighed(&swatch, density).unwrap());
    let answer = estimate(&[Tally::new("piece").stitches("plain", st(2_300))], &[supply]).unwrap();
    let total = answer.total("main").unwrap();
    assert_eq!(total.mass.likely(), Mass::g(10).unwrap());
    assert_eq!(total.length.likely(), mm("40 m"));
}

#[test]
fn rules_that_ask_for_a_width_are_told_it_is_missing() {
    let rules = Rules::new().cast_on(EdgeRule::FourWidths).seam(SeamRule::Nothing);
    let refused = estimate(&[Tally::new("back")], &[supply().rules(rules)]).unwrap_err();
    assert!(refused.is_missing());
    assert_eq!(
        refused.to_string(),
        "the edge rule needs the width of a stitch, but none was given"
    );
}

#[test]
fn rules_of_thumb_are_named() {
    use loopwright::yardage::Rough;
    let amount = |m: i64| {
        let length = Spread::exactly(Length::mm(m * 1_000).unwrap());
        let yarn: LinearDensity = "100 tex".parse().unwrap();
        Amount::new(length, length.map(|length| yarn.mass_of(length)).unwrap())
    };
    let (back, sleeve) = (amount(300), amount(180));
    let total = |rule: Rough| rule.total().unwrap();
    // diananatters.blogspot.com, 2010; estherkateblog.wordpress.com, 2016;
    // knitnmore.blogspot.com, 2009.
    assert_eq!(total(Rough::FourBacks { back }), amount(1_200));
    assert_eq!(total(Rough::BackAndSleeveTwice { back, sleeve }), amount(960));
    assert_eq!(total(Rough::BodyAndThird { body: amount(600) }), amount(800));
}

/// Exotic denominators have no common one that fits: the rates are widened outwards, and the
/// truth, in unbounded fractions, lies within.
#[test]
fn exotic_rates_are_widened_outwards() {
    use num_rational::BigRational;
    let big = |exact: Exact| BigRational::new(exact.numer().into(), exact.denom().into());
    let third = |n: i64, d: i64| {
        let mm = |n| Length::from_millimetres(Exact::new(n, d).unwrap()).unwrap();
        Spread::new(mm(n), mm(n + d), mm(n + 2 * d)).unwrap()
    };
    // Two primes just below a million and two above: their product is beyond 10^12.
    let (plain, rib) = (third(9_000_011, 999_983), third(8_000_009, 1_000_003));
    let yarn = LinearDensity::from_tex(Exact::new(1_000_000_007, 7_000_003).unwrap()).unwrap();
    let supply = Supply::new("main", yarn)
        .fabric("plain", LoopLength::stated(plain).unwrap())
        .fabric("rib", LoopLength::stated(rib).unwrap())
        .rules(Rules::new().cast_on(EdgeRule::Nothing));
    let tally = Tally::new("back").stitches("plain", st(20_011)).stitches("rib", st(3_001));
    let answer = estimate(&[tally], &[supply]).unwrap();
    let amount = answer.total("main").unwrap();
    let count = |n: i64| BigRational::from_integer(n.into());
    let nanometre = BigRational::new(1.into(), 1_000_000.into());
    for at in 0..3 {
        let truth = count(20_011) * big(plain.parts()[at].millimetres())
            + count(3_001) * big(rib.parts()[at].millimetres());
        let got = big(amount.length.parts()[at].millimetres());
        let grams = big(amount.mass.parts()[at].grams());
        let true_grams = truth.clone() * big(yarn.tex()) / count(1_000_000);
        assert!(at != 0 || (got <= truth && grams <= true_grams));
        assert!(at != 2 || (got >= truth && grams >= true_grams));
        let off = if got > truth { got - truth } else { truth - got };
        assert!(off <= nanometre.clone() * count(23_012), "a nanometre a stitch");
    }
}
