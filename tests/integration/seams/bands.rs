use super::{gauge, selvedge, stitches};
use loopwright::gauge::{Length, Repeat, Round, Stitches};
use loopwright::seams::{
    Buttonholes, Edge, FrontBands, Gaps, Leftover, Pairing, Passes, PickUpLine, knitted_band,
};
use loopwright_tests::laws::tried;
use proptest::prelude::*;

#[test]
fn holes_and_gaps_fill_the_band() {
    let margins = prop::option::of((0_u32..9, 0_u32..9));
    let input =
        (1_u32..300, 1_u32..12, 0_u32..6, margins, prop::sample::select(&Leftover::ALL[..]));
    tried(&input, 60, 5, |(total, holes, width, margins, leftover)| {
        let gaps = margins.map_or(Gaps::Equal, |(first, last)| Gaps::Margins {
            first: stitches(first),
            last: stitches(last),
        });
        let taken = holes * width + margins.map_or(0, |(first, last)| first + last);
        let placed = Buttonholes::new(stitches(total), holes, stitches(width))
            .and_then(|band| band.place(gaps, leftover));
        let Ok(placed) = placed else {
            // More than there is, or one hole that leaves some over.
            let one = holes == 1 && margins.is_some() && taken != total;
            prop_assert!(taken > total || holes > total || one);
            return Ok(false);
        };
        let gap_sizes: Vec<u32> = placed.gaps().iter().map(|gap| gap.get()).collect();
        prop_assert_eq!(gap_sizes.iter().sum::<u32>() + holes * width, total);
        let starts: Vec<u32> = placed.starts().map(Stitches::get).collect();
        // Walked along the band: a gap, then a hole.
        let mut at = 0;
        for (gap, start) in gap_sizes.iter().zip(&starts) {
            prop_assert_eq!(at + gap + 1, *start);
            at += gap + width;
        }
        prop_assert_eq!(starts.len(), holes as usize);
        // Between the holes, and at the ends when they are gaps too, by at most one.
        let equal = match (gaps, leftover) {
            (Gaps::Equal, Leftover::Spread | Leftover::First) => &gap_sizes[..],
            _ => &gap_sizes[1..gap_sizes.len() - 1],
        };
        if let (Some(most), Some(least)) = (equal.iter().max(), equal.iter().min()) {
            prop_assert!(most - least <= u32::from(leftover != Leftover::Ends));
        }
        // From the other end each hole ends where it started.
        let mut turned: Vec<u32> =
            placed.from_other_end().starts().map(|start| total + 2 - start.get() - width).collect();
        turned.reverse();
        prop_assert_eq!(turned, starts);
        Ok(true)
    });
}

#[test]
fn pairing_takes_every_row() {
    tried(&(1_u32..400, 1_u32..400), 40, 10, |(first, second)| {
        let Ok(pairing) = Pairing::new(stitches(first), super::rows(second)) else {
            prop_assert!(first.max(second) > 2 * first.min(second));
            return Ok(false);
        };
        prop_assert_eq!(pairing.each().map(u32::from).sum::<u32>(), first.max(second));
        prop_assert_eq!(pairing.each().count(), first.min(second) as usize);
        prop_assert_eq!(pairing.doubles(), first.abs_diff(second));
        Ok(true)
    });
}

/// Sewn in turns, first side first, both edges are used up together.
#[test]
fn passes_pair_to_the_end() {
    tried(&(1_u32..400, 1_u32..400), 40, 10, |(first, second)| {
        let Ok((one, two)) = Passes::pair(super::rows(first), super::rows(second)) else {
            prop_assert!(first.max(second) > 2 * first.min(second));
            return Ok(false);
        };
        let each = |passes: &Passes| -> Vec<u32> {
            let runs = passes.runs().iter();
            runs.flat_map(|run| vec![run.bars.get(); run.times as usize]).collect()
        };
        let (one, two) = (each(&one), each(&two));
        prop_assert_eq!(one.iter().sum::<u32>(), first);
        prop_assert_eq!(two.iter().sum::<u32>(), second);
        prop_assert!(one.iter().chain(&two).all(|bars| (1..=2).contains(bars)));
        prop_assert!(one.len() == two.len() || one.len() == two.len() + 1);
        prop_assert_eq!(one[0], 1);
        // The longer side is taken in twos; the other's single bars are nowhere more than
        // a bar from an even share.
        let sides = if first >= second { (&one[1..], &two[..]) } else { (&two[..], &one[1..]) };
        prop_assert!(sides.0.iter().rev().skip(1).all(|&bars| bars == 2));
        let (all, passes): (u32, u32) = (sides.1.iter().sum(), sides.1.len().try_into().unwrap());
        let mut sum = 0;
        for (nth, bars) in (1..).zip(sides.1) {
            sum += bars;
            prop_assert!((sum * passes).abs_diff(nth * all) <= passes);
        }
        Ok(true)
    });
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
    assert_eq!(two, "[2 bars 6 times, then 1 bar, (2 bars 5 times, then 1 bar) twice] 4 times");
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
