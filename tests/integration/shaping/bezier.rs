use super::{rows, st};
use loopwright::gauge::{Exact, Length, Unit};
use loopwright::shaping::{AtOnce, Bend, Curve, Outline};
use loopwright_tests::assertions::assert_error;
use proptest::prelude::*;

/// Hundredths of a millimetre.
fn length(n: i64) -> Length {
    Length::new(Exact::new(n, 100).unwrap(), Unit::Millimetre).unwrap()
}

fn steps(outline: &Outline, stitches: u32, up: u32) -> (u32, Vec<u32>, Exact) {
    let curve = Curve::builder(outline, st(stitches), rows(up))
        .opening(AtOnce::Nearest)
        .closing(AtOnce::Nearest)
        .build()
        .unwrap();
    let steps = curve.events().iter().map(|event| event.stitches.get()).collect();
    (curve.opening().get(), steps, curve.deviation())
}

#[test]
fn the_usual_bezier_of_a_quarter_circle_has_the_steps_of_a_quarter_circle() {
    // The cubic with handles 0.5523 of the radius is within 0.03 % of the circle: a fact
    // of geometry, and here the two are drawn by different code.
    let (r, handle) = (10_000, 5_523);
    let bezier = Outline::start()
        .cubic((length(handle), length(0)), (length(r), length(r - handle)), (length(r), length(r)))
        .unwrap();
    let circle = Outline::quarter_ellipse(length(r), length(r), Bend::Slowing).unwrap();
    for (stitches, up) in [(16, 20), (12, 22), (24, 30), (40, 60)] {
        let (open, sizes, off) = steps(&bezier, stitches, up);
        let (open_too, sizes_too, off_too) = steps(&circle, stitches, up);
        assert_eq!((open, sizes), (open_too, sizes_too), "{stitches} over {up}");
        let apart = off.checked_sub(off_too).unwrap().abs();
        assert!(apart < Exact::new(1, 20).unwrap(), "{apart}");
    }
}

#[test]
fn a_straight_bezier_is_the_line() {
    let bezier = Outline::start()
        .cubic(
            (length(1_000), length(3_000)),
            (length(2_000), length(6_000)),
            (length(3_000), length(9_000)),
        )
        .unwrap();
    let line = Outline::start().line(length(3_000), length(9_000)).unwrap();
    assert_eq!(steps(&bezier, 10, 60), steps(&line, 10, 60));
}

#[test]
fn a_bezier_that_turns_back_is_refused() {
    let back = Outline::start().cubic(
        (length(8_000), length(1_000)),
        (length(-4_000), length(2_000)),
        (length(3_000), length(3_000)),
    );
    assert_error(
        back,
        "the way of a Bézier curve is (80 mm, 10 mm) to (30 mm, 30 mm), but must be always on, \
         across and up: an outline never turns back",
    );
}

#[test]
fn a_bezier_that_comes_back_to_its_end_is_refused() {
    // Half way the place is 3/8 of each control point and 1/8 of the end: 62.5 of 20 mm.
    let (far, near) = (length(8_000), length(2_000));
    let across = Outline::start().cubic((far, length(0)), (far, length(300)), (near, near));
    assert_error(
        across,
        "the way of a Bézier curve is (80 mm, 0 mm) to (20 mm, 20 mm), but must be always on, \
         across and up: an outline never turns back",
    );
    let up = Outline::start().cubic((length(0), far), (length(300), far), (near, near));
    assert_error(
        up,
        "the way of a Bézier curve is (0 mm, 80 mm) to (20 mm, 20 mm), but must be always on, \
         across and up: an outline never turns back",
    );
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn a_bezier_ends_where_it_should(
        (x, y) in (1..40_000_i64, 1..40_000_i64),
        handles in ((0..=100_i64, 0..=100_i64), (0..=100_i64, 0..=100_i64)),
    ) {
        // Control points in order, across and up, so that the curve never turns back.
        let sort = |a: i64, b: i64, all: i64| (all * a.min(b) / 100, all * a.max(b) / 100);
        let (x1, x2) = sort(handles.0.0, handles.1.0, x);
        let (y1, y2) = sort(handles.0.1, handles.1.1, y);
        let curve = Outline::start()
            .cubic((length(x1), length(y1)), (length(x2), length(y2)), (length(x), length(y)))
            .unwrap();
        prop_assert_eq!(curve.width().unwrap(), length(x));
        prop_assert_eq!(curve.height().unwrap(), length(y));
    }
}
