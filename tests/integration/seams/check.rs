use super::{bound_off, live, rows, selvedge, stitches};
use loopwright::gauge::{Exact, Gauge, Length};
use loopwright::seams::{Edge, EdgeStep, Join, OutlinePoint, Seam, Tolerance, check, check_all};

fn verdict(join: Join, a: u32, b: u32) -> loopwright::seams::Verdict {
    check(join, &live("one", a), &live("other one", b), join.tolerance()).unwrap()
}

/// L. A. Bestor, *Cast On, Bind Off*: a graft needs equal counts.
#[test]
fn a_graft_needs_equal_counts() {
    for join in [Join::Graft, Join::BindOffTogether] {
        assert!(verdict(join, 44, 44).matches);
        let out = verdict(join, 44, 43);
        assert!(!out.matches);
        assert_eq!(out.difference, Exact::ONE);
        assert_eq!(
            out.mend.unwrap().to_string(),
            "knit 43 stitches instead of 44 for the one, or 44 stitches instead of 43 for the other one"
        );
    }
}

/// knittingrobin.blogspot.com, 2013: a row of difference is eased near the top.
#[test]
fn a_row_seam_eases_one_row() {
    let seam = |a, b| {
        let (a, b) = (selvedge("back", a), selvedge("front", b));
        check(Join::RowSeam, &a, &b, Join::RowSeam.tolerance()).unwrap()
    };
    assert!(seam(150, 150).matches && seam(151, 150).matches && seam(150, 151).matches);
    let out = seam(150, 154);
    assert_eq!(out.length_difference.low(), Length::cm(-1).unwrap());
    assert_eq!(
        out.to_string(),
        "the back and the front meet in a row-to-row seam: 150 rows (37.5 cm) against 154 rows (38.5 cm); \
         the first has 4 rows fewer (1 cm), too far apart: \
         knit 153 rows instead of 150 for the back, or 151 rows instead of 154 for the front"
    );
}

#[test]
fn overlapped_stitches_hang_two_to_a_needle() {
    let (armhole, sleeve) = (live("armhole", 132), live("sleeve", 128));
    let check = |overlap| {
        let seam = Seam::new(Join::HangBack, armhole.clone(), sleeve.clone());
        seam.overlap(stitches(overlap)).check().unwrap().matches
    };
    assert!(check(4));
    assert!(!check(0) && !check(3) && !check(5));
}

#[test]
fn the_whole_garment_finds_loose_stitches() {
    let edges = [live("a", 20), live("b", 20), live("c", 9), bound_off("d", 30)];
    let seam = Seam::new(Join::Graft, edges[0].clone(), edges[1].clone());
    let report = check_all(std::slice::from_ref(&seam), &edges).unwrap();
    assert_eq!(report.loose, ["c"]);
    assert!(!report.holds() && report.failures().next().is_none());
    let report = check_all(&[seam.clone(), seam], &edges[..2]).unwrap();
    assert_eq!(report.taken_twice, ["a", "b"]);
}

/// 3.20, studioknits.com: 40 cm at 22 stitches are 88, and two more for the seams.
#[test]
fn a_seam_of_rows_hides_a_stitch_at_each_side() {
    let both_sides = 2 * Join::RowSeam.hidden().get();
    assert_eq!(88 + both_sides, 90);
    assert!(Join::Graft.hidden().is_zero());
}

#[test]
fn a_verdict_tells_both_lengths_of_a_curve() {
    let step = |up, across| EdgeStep { rows: rows(up), stitches: stitches(across) };
    let point = |x, y| OutlinePoint { across: Length::mm(x).unwrap(), up: Length::mm(y).unwrap() };
    let square = "20x20/10cm".parse().unwrap();
    let cap = Edge::stepped("cap", vec![step(0, 4), step(3, 0)], square).unwrap();
    let cap = cap.with_outline(vec![point(0, 0), point(20, 15)]).unwrap();
    let armhole = Edge::selvedge("armhole", rows(6), square).unwrap();
    let verdict = check(Join::Eased, &cap, &armhole, Join::Eased.tolerance()).unwrap();
    assert_eq!(verdict.a.length.low(), Length::mm(35).unwrap());
    assert_eq!(verdict.a.outline.unwrap().low(), Length::mm(25).unwrap());
    assert_eq!(verdict.b.outline, None);
    assert_eq!(
        verdict.to_string(),
        "the cap and the armhole meet in an eased seam: 3 rows and 4 stitches (3.5 cm) \
         against 6 rows (3 cm); the first is 0.5 cm longer (1 row), within the tolerance"
    );
}

/// Sewn by length, an edge may be longer only by what its ease says.
#[test]
fn a_gathered_edge_is_so_many_times_as_long() {
    let (skirt, band) = (bound_off("skirt", 180), bound_off("band", 100));
    let gathered = |least: &str, most: &str| {
        let tolerance = Tolerance::gathered(least.parse().unwrap(), most.parse().unwrap());
        check(Join::Eased, &skirt, &band, tolerance.unwrap()).unwrap()
    };
    assert!(gathered("1.5", "2").matches);
    // Twice as long takes 200, or a band of 90.
    let mend = gathered("2", "3").mend.unwrap();
    assert_eq!((mend.a.unwrap().to.get(), mend.b.unwrap().to.get()), (200, 90));
}

/// Gauges whose denominators have nothing in common leave no sum that cannot be held.
#[test]
fn any_two_gauges_can_be_compared_and_told() {
    let gauge = |n, d| {
        let density = Exact::new(n, d).unwrap();
        Gauge::new(density, density, Length::cm(10).unwrap()).unwrap()
    };
    let steps = |up, across| vec![EdgeStep { rows: rows(up), stitches: stitches(across) }; 3];
    let cap = Edge::stepped("cap", steps(7, 2), gauge(1_000_000, 39_373)).unwrap();
    let slant = Edge::stepped("side", steps(9, 1), gauge(999_983, 999_979)).unwrap();
    let flat = Edge::bound_off("top", stitches(17), gauge(2_731, 100)).unwrap();
    let armhole = Edge::joined("armhole", vec![slant, flat]).unwrap();
    let verdict = check(Join::Eased, &cap, &armhole, Join::Eased.tolerance()).unwrap();
    assert!(!verdict.matches);
    assert!(verdict.to_string().starts_with("the cap and the armhole meet in an eased seam: "));
}
