use super::{gauge, selvedge};
use loopwright::gauge::{Length, Repeat, Round};
use loopwright::seams::{
    Buttonholes, Edge, FrontBands, Gaps, Leftover, Line, Pairing, Passes, knitted_band,
};
use proptest::prelude::*;

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn holes_and_gaps_fill_the_band(
        total in 1_u32..300, holes in 1_u32..12, width in 0_u32..6,
        margins in prop::option::of((0_u32..9, 0_u32..9)), which in 0_usize..3,
    ) {
        let leftover = [Leftover::Spread, Leftover::First, Leftover::Ends][which];
        let gaps = margins.map_or(Gaps::Equal, |(first, last)| Gaps::Margins { first, last });
        let Ok(placed) = Buttonholes::new(total, holes, width).and_then(|b| b.place(gaps, leftover))
        else { return Ok(()) };
        prop_assert_eq!(placed.gaps().iter().sum::<u32>() + holes * width, total);
        let starts: Vec<u32> = placed.starts().collect();
        prop_assert_eq!(starts.len(), holes as usize);
        // Between the holes, and at the ends when they are gaps too, by at most one.
        let equal = match (gaps, leftover) {
            (Gaps::Equal, Leftover::Spread | Leftover::First) => placed.gaps(),
            _ => &placed.gaps()[1..placed.gaps().len() - 1],
        };
        if let (Some(most), Some(least)) = (equal.iter().max(), equal.iter().min()) {
            prop_assert!(most - least <= u32::from(leftover != Leftover::Ends));
        }
        // From the other end each hole ends where it started.
        let mut turned: Vec<u32> =
            placed.from_other_end().starts().map(|start| total + 2 - start - width).collect();
        turned.reverse();
        prop_assert_eq!(turned, starts);
    }

    #[test]
    fn pairing_takes_every_row(first in 1_u32..400, second in 1_u32..400) {
        let Ok(pairing) = Pairing::new(first, second) else {
            prop_assert!(first.max(second) > 2 * first.min(second));
            return Ok(());
        };
        prop_assert_eq!(pairing.each().map(u32::from).sum::<u32>(), first.max(second));
        prop_assert_eq!(pairing.each().count(), first.min(second) as usize);
        prop_assert_eq!(pairing.doubles(), first.abs_diff(second));
    }

    #[test]
    fn passes_take_every_bar(n in 0_u32..500, single in any::<bool>()) {
        let passes = Passes::new(super::rows(n), single);
        prop_assert_eq!(passes.single_first + 2 * passes.doubles + passes.single_last, n);
        prop_assert!(passes.single_last <= 1 && passes.single_first <= 1);
    }
}

/// knittingrobin.blogspot.com, 2013: the half-row offset. Equal sides end in step, one
/// of them on a single bar.
#[test]
fn a_half_row_offset_ends_in_a_single_bar() {
    let (one, two) = (Passes::new(super::rows(100), true), Passes::new(super::rows(100), false));
    assert_eq!((one.single_first, one.doubles, one.single_last), (1, 49, 1));
    assert_eq!((two.single_first, two.doubles, two.single_last), (0, 50, 0));
    assert_eq!(one.count(), two.count() + 1);
    // With a row more on the side that starts single, both end on whole passes.
    assert_eq!(Passes::new(super::rows(101), true).single_last, 0);
}

#[test]
fn front_bands_agree() {
    let front = |n| Line::new("24x32/10cm".parse().unwrap()).along(selvedge("front", n));
    let repeat = Repeat::multiple_of(4).unwrap().plus(2).unwrap();
    let bands = FrontBands::new(&front(200), &front(198), repeat, Round::HalfUp).unwrap();
    // 50 and 49.5 cm: 49.75 cm at 2.4 are 119.4, and 118 is the nearest of 4k + 2.
    assert_eq!(bands.each.count.get(), 118);
    assert_eq!(bands.difference.low(), Length::mm(5).unwrap());
    let longer = bands.on_right.checked_sub(bands.on_left).unwrap();
    assert_eq!(longer, Length::mm(5).unwrap());
}

#[test]
fn a_band_is_knitted_shorter_than_its_edge() {
    let edge = Edge::selvedge("front", super::rows(200), gauge()).unwrap();
    let rows = |shorter| {
        knitted_band(&edge, gauge(), shorter, Repeat::any(), Round::HalfUp).unwrap().count.get()
    };
    assert_eq!((rows(0), rows(100)), (200, 180));
}
