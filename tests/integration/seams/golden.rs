use super::{rows, stitches};
use loopwright::gauge::{Gauge, Stitches};
use loopwright::seams::{
    Buttonholes, Gaps, Leftover, PickUpSpacing, Placement, Rate, pick_up_ratio,
};
use loopwright_tests::golden::cases;

#[derive(serde::Deserialize)]
struct RateCase {
    fabric: Gauge,
    most: u32,
    ratio: [u32; 2],
}

#[test]
fn published_rates() {
    for case in cases::<RateCase>(include_str!("../../golden/seams_rates.toml")) {
        let RateCase { fabric, most, ratio: [pick, of] } = case.fields;
        let ratio = pick_up_ratio(fabric, fabric).unwrap();
        assert_eq!(Rate::nearest(ratio, most), Rate::new(pick, of), "{}", case.name);
    }
}

#[derive(serde::Deserialize)]
struct PlaceCase {
    places: u32,
    stitches: u32,
    spacing: PickUpSpacing,
    groups: Vec<[u32; 4]>,
}

#[test]
fn published_placements() {
    for case in cases::<PlaceCase>(include_str!("../../golden/seams_places.toml")) {
        let PlaceCase { places, stitches: count, spacing, groups } = case.fields;
        let placed = Placement::new(rows(places), stitches(count), spacing).unwrap().groups();
        let placed: Vec<_> =
            placed.iter().map(|g| [g.pick.get(), g.miss, g.extra.get(), g.times]).collect();
        assert_eq!(placed, groups, "{}", case.name);
    }
}

/// 5.05, yarn company tutorial, 2015: 10 of 13 is 3 of 4 twice, then 4 of 5; round an
/// edge it does not matter which comes first.
#[test]
fn ten_of_thirteen_is_two_threes_and_a_four() {
    let groups = Placement::new(rows(13), stitches(10), PickUpSpacing::Round).unwrap().groups();
    let mut told: Vec<_> =
        groups.iter().flat_map(|g| vec![(g.pick.get(), g.miss); g.times as usize]).collect();
    told.sort_unstable();
    assert_eq!(told, [(3, 1), (3, 1), (4, 1)]);
}

#[derive(serde::Deserialize)]
struct ButtonCase {
    total: Stitches,
    holes: u32,
    width: Stitches,
    margins: Option<[Stitches; 2]>,
    gaps: Vec<Stitches>,
}

#[test]
fn published_buttonholes() {
    for case in cases::<ButtonCase>(include_str!("../../golden/seams_buttons.toml")) {
        let c = case.fields;
        let gaps = match c.margins {
            Some([first, last]) => Gaps::Margins { first, last },
            None => Gaps::Equal,
        };
        let placed = Buttonholes::new(c.total, c.holes, c.width).unwrap();
        let placed = placed.place(gaps, Leftover::Spread).unwrap();
        assert_eq!(placed.gaps(), c.gaps, "{}", case.name);
    }
}

/// 5.21 as printed divides 86 by 6 and stops: six equal gaps there are not.
#[test]
fn six_equal_gaps_do_not_fill_eighty_six() {
    for leftover in [Leftover::Spread, Leftover::First, Leftover::Ends] {
        let holes = Buttonholes::new(stitches(86), 5, stitches(0))
            .unwrap()
            .place(Gaps::Equal, leftover)
            .unwrap();
        assert!(holes.gaps().windows(2).any(|pair| pair[0] != pair[1]), "{leftover:?}");
        assert_eq!(Stitches::total(holes.gaps().iter().copied()), Ok(stitches(86)));
    }
}

/// 5.20, knittingmagic.biz, guide 8: a hole of three starts a stitch before its marker.
#[test]
fn a_hole_of_three_starts_before_its_marker() {
    assert_eq!(
        loopwright::seams::Holes::start_at_marker(stitches(10), stitches(3)),
        Ok(stitches(9))
    );
}

#[derive(serde::Deserialize)]
struct JoinCase {
    join: String,
    first: String,
    second: String,
    gauge: String,
    within: Option<u32>,
    matches: bool,
}

#[test]
fn published_joins() {
    for case in cases::<JoinCase>(include_str!("../../golden/seams_joins.toml")) {
        let c = case.fields;
        let mut args: Vec<String> = ["loopwright", "seam", &c.first, &c.second, "--json"]
            .into_iter()
            .chain(["--join", &c.join, "--gauge", &c.gauge])
            .map(Into::into)
            .collect();
        if let Some(within) = c.within {
            args.extend(["--within".into(), within.to_string()]);
        }
        let answer: serde_json::Value =
            serde_json::from_str(&loopwright_demo::run(args).stdout).unwrap();
        assert_eq!(answer["matches"], c.matches, "{}", case.name);
    }
}
