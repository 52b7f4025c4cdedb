//! Bad input is refused by name, in words.

use loopwright::gauge::{Exact, Length, Repeat};
use loopwright::joint::{Demand, Error, Problem, TapeMeasure, Unknown};
use loopwright_tests::assertions::assert_error;

fn whole(n: i64) -> Exact {
    Exact::literal(n, 1)
}

/// Back, neck and cuff.
fn problem() -> Problem {
    let mut problem = Problem::new();
    for name in ["back", "neck", "cuff"] {
        problem.stitches(name, Unknown::near(whole(40))).unwrap();
    }
    problem
}

fn unknown(unknown: Unknown) -> Result<(), Error> {
    problem().stitches("hem", unknown).map(|_| ())
}

fn demand(demand: Demand) -> Result<(), Error> {
    problem().demand("graft", demand)
}

#[test]
fn names_are_refused() {
    assert_error(problem().stitches("", Unknown::near(whole(1))), "an unknown has no name");
    assert_error(
        problem().stitches("back", Unknown::near(whole(1))),
        "an unknown \"back\" is given twice, but each name may stand once",
    );
    assert_error(problem().demand("", Demand::equal("back", "neck")), "a demand has no name");
    let mut twice = problem();
    twice.demand("graft", Demand::equal("back", "neck")).unwrap();
    assert_error(
        twice.demand("graft", Demand::equal("back", "cuff")),
        "a demand \"graft\" is given twice, but each name may stand once",
    );
    assert_error(
        demand(Demand::equal("back", "sleeve")),
        "demand \"graft\" speaks of \"sleeve\", which is no unknown of this problem",
    );
    assert_error(demand(Demand::equal("back", "back")), "demand \"graft\" names \"back\" twice");
    assert_error(
        demand(Demand::sum([(1, "back"), (2, "neck"), (1, "back")], 0)),
        "demand \"graft\" names \"back\" twice",
    );
    assert!(demand(Demand::equal("back", "sleeve")).unwrap_err().is_name());
}

#[test]
fn a_refused_name_is_free_again() {
    let mut problem = problem();
    problem.stitches("hem", Unknown::near(whole(-1))).unwrap_err();
    problem.stitches("hem", Unknown::near(whole(1))).unwrap();
    problem.demand("graft", Demand::equal("hem", "sleeve")).unwrap_err();
    problem.demand("graft", Demand::equal("hem", "cuff")).unwrap();
}

#[test]
fn too_few_names_are_refused() {
    assert_error(
        demand(Demand::sum::<String>([], 0)),
        "demand \"graft\" names too few counts: 0, but at least 1 are needed",
    );
    assert_error(
        demand(Demand::ordered(["back"])),
        "demand \"graft\" names too few counts: 1, but at least 2 are needed",
    );
    assert_error(
        demand(Demand::same_parity(["cuff"])),
        "demand \"graft\" names too few counts: 1, but at least 2 are needed",
    );
}

#[test]
fn unknowns_outside_their_bounds_are_refused() {
    assert_error(
        unknown(Unknown::near(whole(-3))),
        "the ideal of \"hem\" is -3, but must be in 0..=10000000",
    );
    assert_error(
        unknown(Unknown::near(Exact::new(20_000_001, 2).unwrap())),
        "the ideal of \"hem\" is 20000001/2, but must be in 0..=10000000",
    );
    for weight in [0, -1, 10_000_001] {
        assert_error(
            unknown(Unknown::near(whole(40)).weight(whole(weight))),
            &format!("the weight of \"hem\" is {weight}, but must be above 0 and at most 10000000"),
        );
    }
    #[expect(clippy::reversed_empty_ranges, reason = "an empty range is what is refused")]
    let empty = 50_u32..=40;
    assert_error(
        unknown(Unknown::near(whole(40)).range(empty)),
        "the range of \"hem\" is 50..=40, but must be a rising range within 0..=10000000",
    );
    assert_error(
        unknown(Unknown::near(whole(40)).range(0_u32..=10_000_001)),
        "the range of \"hem\" is 0..=10000001, but must be a rising range within 0..=10000000",
    );
}

#[test]
fn a_range_without_a_whole_repeat_is_refused() {
    let repeat = Repeat::multiple_of(12).unwrap().plus(1).unwrap();
    assert_error(
        unknown(Unknown::near(whole(40)).repeat(repeat).range(38_u32..=48)),
        "\"hem\" has no count it may take: no multiple of 12 plus 1 lies in 38..=48",
    );
    assert_error(
        unknown(Unknown::near(whole(2)).repeat(repeat).range(0_u32..=12)),
        "\"hem\" has no count it may take: no multiple of 12 plus 1 lies in 0..=12",
    );
    unknown(Unknown::near(whole(40)).repeat(repeat).range(37_u32..=37)).unwrap();
}

#[test]
fn numbers_of_demands_outside_their_bounds_are_refused() {
    assert_error(
        demand(Demand::sum([(0, "back"), (1, "neck")], 5)),
        "a coefficient of \"graft\" is 0, but must be in 1..=1000000000, either sign",
    );
    assert_error(
        demand(Demand::sum([(-1_000_000_001, "back")], 5)),
        "a coefficient of \"graft\" is -1000000001, but must be in 1..=1000000000, either sign",
    );
    assert_error(
        demand(Demand::sum([(i64::MIN, "back")], 5)),
        "a coefficient of \"graft\" is -9223372036854775808, but must be in 1..=1000000000, \
         either sign",
    );
    assert_error(
        demand(Demand::sum([(1, "back")], i64::MIN)),
        "the total of \"graft\" is -9223372036854775808, but must be in \
         -1000000000000000..=1000000000000000",
    );
    assert_error(
        demand(Demand::equal_with_offset("back", "neck", 1_000_000_000_000_001)),
        "the total of \"graft\" is 1000000000000001, but must be in \
         -1000000000000000..=1000000000000000",
    );
    #[expect(clippy::reversed_empty_ranges, reason = "an empty range is what is refused")]
    let empty = 3..=2;
    assert_error(
        demand(Demand::sum_within([(1, "back")], empty)),
        "the range of totals of \"graft\" is 3..=2, but must be a rising range",
    );
}

#[test]
fn coefficients_that_overflow_together_are_refused() {
    let mut problem = Problem::new();
    let names: Vec<String> = (0..200).map(|piece| format!("piece {piece}")).collect();
    for name in &names {
        problem.stitches(name, Unknown::near(whole(40))).unwrap();
    }
    assert_error(
        problem.demand("all", Demand::sum(names.iter().map(|name| (1_000_000_000, name)), 0)),
        "demand \"all\" is too large to be held exactly: its coefficients times the largest \
         counts overflow",
    );
}

#[test]
fn ratios_outside_their_bounds_are_refused() {
    let ratio = |ratio, tolerance| demand(Demand::ratio("back", "neck", ratio, tolerance));
    for (given, text) in [(whole(0), "0"), (Exact::new(-3, 4).unwrap(), "-3/4")] {
        assert_error(
            ratio(given, Exact::ZERO),
            &format!("the ratio of \"graft\" is {text}, but must be above 0"),
        );
    }
    assert_error(
        ratio(whole(1), Exact::new(-1, 2).unwrap()),
        "the tolerance of \"graft\" is -1/2, but must be 0 or more",
    );
    let long = Exact::new(3_000_000_019, 2_000_000_011).unwrap();
    let large = "demand \"graft\" is too large to be held exactly: the ratio with its tolerance \
                 needs too long a fraction";
    assert_error(ratio(long, Exact::ZERO), large);
    assert_error(ratio(whole(i64::MAX), whole(i64::MAX)), large);
}

#[test]
fn ideals_of_no_common_denominator_are_refused() {
    let mut problem = Problem::new();
    for (place, prime) in
        [999_999_937, 999_999_929, 999_999_893, 999_999_883, 999_999_797].into_iter().enumerate()
    {
        let ideal = Exact::new(prime * 40 + 1, prime).unwrap();
        problem.stitches(format!("piece {place}"), Unknown::near(ideal)).unwrap();
    }
    assert_error(
        problem.solve(),
        "the ideals, lengths and weights are too large to be held exactly over one denominator",
    );
    assert!(problem.solve().unwrap_err().is_range());
}

#[test]
fn lengths_without_a_gauge_are_refused() {
    let head = Length::cm(40).unwrap();
    assert_error(
        demand(Demand::at_least([(1, "neck")], head)),
        "\"neck\" is measured as a length, but has no gauge",
    );
    assert_error(
        problem().measure("opening", TapeMeasure::sum([(1, "neck")], head)),
        "\"neck\" is measured as a length, but has no gauge",
    );
}

#[test]
fn measures_are_refused_as_demands_are() {
    let gauge = "28x40/10cm".parse().unwrap();
    let mut problem = Problem::new();
    problem.stitches("neck", Unknown::near(whole(40)).gauge(gauge)).unwrap();
    let measure = || TapeMeasure::sum([(1, "neck")], Length::cm(40).unwrap());
    problem.measure("opening", measure()).unwrap();
    assert_error(
        problem.demand("opening", Demand::at_most([(1, "neck")], 200)),
        "a demand \"opening\" is given twice, but each name may stand once",
    );
    assert_error(
        problem.measure("weightless", measure().weight(whole(0))),
        "the weight of \"weightless\" is 0, but must be above 0 and at most 10000000",
    );
    assert_error(
        problem.measure("strict", measure().tolerance(Length::mm(-1).unwrap())),
        "the tolerance of \"strict\" is -1 mm, but must be 0 mm or more",
    );
}

#[test]
fn long_names_are_refused_and_cut_short() {
    let name = "n".repeat(65_536);
    let cut = "n".repeat(20);
    assert_error(
        problem().stitches(name, Unknown::near(whole(1))),
        &format!("the name \"{cut}...\" has 65536 characters, but at most 200 are allowed"),
    );
}
