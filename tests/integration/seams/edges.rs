#![expect(clippy::float_arithmetic, reason = "lengths are compared with the standard library's")]

use super::{gauge, rows, selvedge, stitches};
use loopwright::gauge::{Choice as _, Exact, Length, Rows, Stitches};
use loopwright::seams::{Edge, EdgeKind, EdgeStep, Join, OutlinePoint, Span};
use loopwright_tests::seams::gauges;
use proptest::prelude::*;

fn step(up: u32, across: u32) -> EdgeStep {
    EdgeStep { rows: rows(up), stitches: stitches(across) }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    /// `low^2 <= x^2 + y^2 <= high^2`, in whole nanometres, and the two are close.
    #[test]
    fn a_slant_lies_within_its_span(x in 0_i64..5_000_000, y in 0_i64..5_000_000, d in 1_i64..997) {
        let length = |n| Length::from_millimetres(Exact::new(n, d * 1_000).unwrap()).unwrap();
        let span = Span::hypotenuse(length(x), length(y)).unwrap();
        let square = |l: Length| {
            let (n, d) = (i128::from(l.millimetres().numer()), i128::from(l.millimetres().denom()));
            (n * n, d * d)
        };
        let sum = (i128::from(x).pow(2) + i128::from(y).pow(2), i128::from(d * 1_000).pow(2));
        let at_most = |(a, b): (i128, i128), (c, d): (i128, i128)| a * d <= c * b;
        prop_assert!(at_most(square(span.low()), sum) && at_most(sum, square(span.high())));
        let width = span.high().checked_sub(span.low()).unwrap().millimetres();
        prop_assert!(width <= Exact::new(4, 1_000_000).unwrap(), "{}", width);
    }

    /// Sums keep the true length inside, stay narrow, and can be held whatever the
    /// gauges' denominators.
    #[test]
    fn sums_of_spans_hold_the_sum(
        parts in prop::collection::vec((0_i64..2_000_000_000, 1_i64..1_000_000_007, any::<bool>()), 1..12),
    ) {
        let (mut sum, mut low, mut high) = (Span::ZERO, 0.0, 0.0);
        for &(n, d, slanted) in &parts {
            let length = Length::from_millimetres(Exact::new(n, d).unwrap()).unwrap_or(Length::ZERO);
            let up = if slanted { Length::mm(1).unwrap() } else { Length::ZERO };
            let part = Span::hypotenuse(length, up).unwrap();
            sum = sum.checked_add(part).unwrap();
            low += part.low().millimetres().to_f64_lossy();
            high += part.high().millimetres().to_f64_lossy();
        }
        let nanometres = 1e-6 * f64::from(u32::try_from(2 * parts.len()).unwrap()) + 1e-9 * high;
        let within = |l: Length, near: f64| (l.millimetres().to_f64_lossy() - near).abs() <= nanometres;
        prop_assert!(within(sum.low(), low) && within(sum.high(), high));
        prop_assert!(sum.low() <= sum.high() && sum.middle().is_ok());
        let back = sum.checked_sub(sum).unwrap();
        prop_assert!(back.low() <= Length::ZERO && back.high() >= Length::ZERO);
    }

    #[test]
    fn a_staircase_is_as_long_as_its_steps(
        steps in prop::collection::vec((0_u32..9, 0_u32..9).prop_filter("moves", |s| *s != (0, 0)), 1..20),
        gauge in gauges(),
    ) {
        let stair: Vec<EdgeStep> = steps.iter().map(|&(up, across)| step(up, across)).collect();
        let edge = Edge::stepped("edge", stair, gauge).unwrap();
        let metres = |density: Exact, n: u32| f64::from(n) / density.to_f64_lossy();
        let length: f64 = steps
            .iter()
            .map(|&(up, across)| metres(gauge.per_mm::<Rows>().unwrap(), up).hypot(metres(gauge.per_mm::<Stitches>().unwrap(), across)))
            .sum();
        let near = |l: Length| (l.millimetres().to_f64_lossy() - length).abs() < 1e-3;
        prop_assert!(near(edge.length().low()) && near(edge.length().high()));
        prop_assert!(edge.length().low() <= edge.length().high());
        prop_assert_eq!(edge.rows().get(), steps.iter().map(|s| s.0).sum::<u32>());
        prop_assert_eq!(edge.stitches().get(), steps.iter().map(|s| s.1).sum::<u32>());
    }
}

#[test]
fn straight_steps_are_exact() {
    let edge = Edge::stepped("neck", vec![step(0, 28), step(40, 0)], gauge()).unwrap();
    assert_eq!(edge.length(), Span::exact(Length::cm(20).unwrap()));
    assert!(edge.length().is_exact());
}

/// The length of a right-angled triangle per segment: knitty.com, Ravellings on the
/// knitted sleeve III, 2005.
#[test]
fn staircase_and_outline_are_both_given() {
    let square = "20x20/10cm".parse().unwrap();
    let stair = Edge::stepped("cap", vec![step(0, 4), step(3, 0)], square).unwrap();
    assert_eq!(stair.outline_length(), Ok(None));
    let point = |x, y| OutlinePoint { across: Length::mm(x).unwrap(), up: Length::mm(y).unwrap() };
    let cap = stair.with_outline(vec![point(0, 0), point(-20, 15)]).unwrap();
    assert_eq!(cap.length(), Span::exact(Length::mm(35).unwrap()));
    assert_eq!(cap.outline_length(), Ok(Some(Span::exact(Length::mm(25).unwrap()))));
}

#[test]
fn joined_edges_are_one_line() {
    let cap = Edge::stepped("cap", vec![step(4, 3)], gauge()).unwrap();
    let both = Edge::joined("both", vec![selvedge("one", 40), cap.clone()]).unwrap();
    assert_eq!(both.kind(), EdgeKind::Mixed);
    assert_eq!((both.rows().get(), both.stitches().get()), (44, 3));
    assert_eq!(both.part_names().collect::<Vec<_>>(), ["one", "cap"]);
    let whole = Span::exact(Length::cm(10).unwrap()).checked_add(cap.length()).unwrap();
    assert_eq!(both.length(), whole);
    let alike = Edge::joined("sides", vec![selvedge("one", 40), selvedge("two", 40)]).unwrap();
    assert_eq!(alike.kind(), EdgeKind::Selvedge);
}

/// Stitches in two goes are as many at once, and rows in two goes run straight: it takes
/// both to slant.
#[test]
fn steps_of_one_kind_are_no_slant() {
    let kind = |text| Edge::read("edge", text, gauge()).unwrap().kind();
    assert_eq!((kind("13 st"), kind("9 st, 4 st")), (EdgeKind::Live, EdgeKind::Live));
    assert_eq!(
        (kind("50 rows"), kind("20 rows, 30 rows")),
        (EdgeKind::Selvedge, EdgeKind::Selvedge)
    );
    assert_eq!(Edge::read("edge", "9 st, 2 st x2", gauge()), Edge::read("edge", "13 st", gauge()));
    let all = |steps| Edge::stepped("neck", steps, gauge()).unwrap();
    assert_eq!(all(vec![step(0, 9), step(0, 4)]), super::bound_off("neck", 13));
    assert_eq!(all(vec![step(20, 0), step(30, 0)]), selvedge("neck", 50));
}

#[test]
fn steps_read_back_as_written() {
    for (text, up, across) in [("2 rows 3 stitches", 2, 3), ("1 row", 1, 0), ("1 stitch", 0, 1)] {
        let read: EdgeStep = text.parse().unwrap();
        assert_eq!((read, read.to_string().as_str()), (step(up, across), text));
    }
    assert!("3 stitches 2 rows".parse::<EdgeStep>().is_ok_and(|read| read == step(2, 3)));
    for wrong in ["", "3", "rows", "3 rows 3 rows", "0 rows", "0 st 0 rows", "-1 st", "3 ells"] {
        assert!(wrong.parse::<EdgeStep>().is_err_and(|e| e.is_parse()), "{wrong}");
    }
}

/// Whatever a join is also called is read, hyphens or not.
#[test]
fn every_word_for_a_join_is_read() {
    for join in Join::ALL {
        for word in join.also().iter().chain([&join.name()]) {
            for text in [(*word).to_owned(), word.replace(' ', "-"), word.to_uppercase()] {
                assert_eq!(text.parse(), Ok(join), "{text}");
            }
        }
    }
}
