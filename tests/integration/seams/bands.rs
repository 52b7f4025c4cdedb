use super::{gauge, selvedge, stitches};
use loopwright::gauge::{Length, Repeat, Round};
use loopwright::seams::{
    Buttonholes, Edge, FrontBands, Gaps, Leftover, Pairing, Passes, PickUpLine, knitted_band,
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
        let gaps = margins.map_or(Gaps::Equal, |(first, last)| Gaps::Margins { first: stitches(first), last: stitches(last) });
        let Ok(placed) = Buttonholes::new(stitches(total), holes, stitches(width)).and_then(|b| b.place(gaps, leftover))
        else { return Ok(()) };
        prop_assert_eq!(placed.gaps().iter().map(|gap| gap.get()).sum::<u32>() + holes * width, total);
        let starts: Vec<u32> = placed.starts().map(|start| start.get()).collect();
        prop_assert_eq!(starts.len(), holes as usize);
        // Between the holes, and at the ends when they are gaps too, by at most one.
        let equal = match (gaps, leftover) {
            (Gaps::Equal, Leftover::Spread | Leftover::First) => placed.gaps(),
            _ => &placed.gaps()[1..placed.gaps().len() - 1],
        };
        if let (Some(most), Some(least)) = (equal.iter().max(), equal.iter().min()) {
            prop_assert!(most.get() - least.get() <= u32::from(leftover != Leftover::Ends));
        }
        // From the other end each hole ends where it started.
        let mut turned: Vec<u32> =
            placed.from_other_end().starts().map(|start| total + 2 - start.get() - width).collect();
        turned.reverse();
        prop_assert_eq!(turned, starts);
    }

    #[test]
    fn pairing_takes_every_row(first in 1_u32..400, second in 1_u32..400) {
        let Ok(pairing) = Pairing::new(stitches(first), super::rows(second)) else {
            prop_assert!(first.max(second) > 2 * first.min(second));
            return Ok(());
        };
        prop_assert_eq!(pairing.each().map(u32::from).sum::<u32>(), first.max(second));
        prop_assert_eq!(pairing.each().count(), first.min(second) as usize);
        prop_assert_eq!(pairing.doubles(), first.abs_diff(second));
    }

    /// Sewn in turns, first side first, both edges are used up together.
    #[test]
    fn passes_pair_to_the_end(first in 1_u32..400, second in 1_u32..400) {
        let Ok((one, two)) = Passes::pair(super::rows(first), super::rows(second)) else {
            prop_assert!(first.max(second) > 2 * first.min(second));
            return Ok(());
        };
        let each = |passes: &Passes| -> Vec<u32> {
            passes.runs().iter().flat_map(|run| vec![run.bars.get(); run.times as usize]).collect()
        };
        let (one, two) = (each(&one), each(&two));
        prop_assert_eq!(one.iter().sum::<u32>(), first);
        prop_assert_eq!(two.iter().sum::<u32>(), second);
        prop_assert!(one.iter().chain(&two).all(|bars| (1..=2).contains(bars)));
        prop_assert!(one.len() == two.len() || one.len() == two.len() + 1);
        prop_assert_eq!(one[0], 1);
        // The longer side is taken in twos; the other's single bars are nowhere more than
        // a bar from an even share.
        let (long, short) = if first >= second { (&one[1..], &two[..]) } else { (&two[..], &one[1..]) };
        prop_assert!(long.iter().rev().skip(1).all(|&bars| bars == 2));
        let all: u32 = short.iter().sum();
        let mut sum = 0;
        for (at, bars) in short.iter().enumerate() {
            sum += bars;
            let due = i64::try_from(at + 1).unwrap() * i64::from(all);
            let apart = i64::from(sum) * i64::try_from(short.len()).unwrap() - due;
            prop_assert!(apart.unsigned_abs() <= short.len() as u64);
        }
    }
}

/// knittingrobin.blogspot.com, 2013: the half-row offset. Equal sides end in step, one
/// of them on a single bar.
#[test]
fn a_half_row_offset_ends_in_a_single_bar() {
    let words = |first, second| {
        let (one, two) = Passes::pair(super::rows(first), super::rows(second)).unwrap();
        (one.to_string(), two.to_string())
    };
    let (one, two) = words(100, 100);
    assert_eq!(one, "1 bar, then 2 bars 49 times, then 1 bar");
    assert_eq!(two, "2 bars 50 times");
    // With a row more on the side that starts single, both end on whole passes.
    assert_eq!(words(101, 100).0, "1 bar, then 2 bars 50 times");
    // Twelve rows more: twelve single bars on the other side.
    let (one, two) = words(152, 140);
    assert_eq!(one, "1 bar, then 2 bars 75 times, then 1 bar");
    assert_eq!(two.matches("1 bar").count(), 3, "{two}");
}

#[test]
fn front_bands_agree() {
    let front = |n| PickUpLine::new("24x32/10cm".parse().unwrap()).along(selvedge("front", n));
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
