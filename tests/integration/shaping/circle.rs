use super::{rows, st};
use loopwright::gauge::{Exact, Gauge, Length, Round};
use loopwright::shaping::{Circle, Crown, Doubling, RowGrowth, Slices, triangle_rows};
use loopwright_tests::assertions::assert_error;

fn gauge(text: &str) -> Gauge {
    text.parse().unwrap()
}

#[test]
fn a_flat_circle_grows_by_five() {
    // craftythreadsnyarns forum, 2008: 8 stitches and 10 rows to the inch, exactly 5.03.
    let circle = Circle::flat(gauge("8x10/1in")).unwrap();
    assert_eq!(circle.growth_by(Round::HalfUp).unwrap(), st(5));
    let hundredths = circle.growth().checked_mul(Exact::whole(100)).unwrap();
    assert_eq!(hundredths.to_whole(Round::HalfUp).unwrap(), 503);
    // From a round of 60 the next towards the centre has 55.
    assert_eq!(circle.count_at(rows(12), Round::HalfUp).unwrap().get(), 60);
    assert_eq!(circle.count_at(rows(11), Round::HalfUp).unwrap().get(), 55);
}

#[test]
fn slices_of_a_disc() {
    // alessandrina.com, June 2011: 44 in across at 4 and 6 to the inch, 5 slices.
    let disc = Slices::new(Length::inches(44).unwrap(), gauge("4x6/1in"), 5, Round::HalfUp);
    let disc = disc.unwrap();
    assert_eq!((disc.stitches.get(), disc.rows_each.get()), (88, 166));
    // joannsknittingbasket.blogspot.com, 2008: 504 rows in 10 panels, 50 each; its 40
    // stitches for a radius of 20 in at 2.25 are a misprint for 45.
    let disc = Slices::new(Length::inches(40).unwrap(), gauge("2.25x4/1in"), 10, Round::HalfUp);
    let disc = disc.unwrap();
    assert_eq!(disc.rows_each.get(), 50);
    assert_ne!(disc.stitches.get(), 40);
    assert_eq!(disc.stitches.get(), 45);
}

#[test]
fn a_crown_of_eight_lines() {
    // TECHknitting, April 2011: 93 stitches, eight lines; 88 = 8 * 11, 5 over.
    assert_error(
        Crown::new(st(93), 8, rows(2), st(8)),
        "93 stitches do not divide into 8 crown lines: 88 do",
    );
    let crown = Crown::new(st(88), 8, rows(2), st(8)).unwrap();
    let counts: Vec<(u32, u32)> =
        crown.rounds().map(|(nth, left)| (nth.get(), left.get())).collect();
    assert_eq!(counts[0], (1, 80));
    assert_eq!(counts.len(), 10);
    assert_eq!(counts[9], (19, 8));
    // Woolly Wormhead: eight every other round is four a round.
    assert_eq!(88 - crown.count_at(rows(12)).get(), 12 * 4);
}

#[test]
fn a_quick_crown() {
    // interweave.com: (k2, k2tog), (k1, k2tog), (k2tog) leaves 75, 50 and 25 per cent.
    let crown = Crown::new(st(80), 20, rows(1), st(20)).unwrap();
    assert_eq!(crown.rounds().map(|(_, count)| count.get()).collect::<Vec<_>>(), [60, 40, 20]);
}

#[test]
fn a_crown_by_tenths() {
    // Thérèse de Dillmont, Encyclopedia of Needlework, fig. 363: from (k8, k2tog) to
    // (k2, k2tog): a tenth less each time.
    let crown = Crown::new(st(100), 10, rows(1), st(30)).unwrap();
    assert_eq!(
        crown.rounds().map(|(_, count)| count.get()).collect::<Vec<_>>(),
        [90, 80, 70, 60, 50, 40, 30]
    );
}

#[test]
fn a_round_raglan_has_four_stitches_over() {
    // Krisniski, A.R.A.N. part 22: 260 to lose at 8 a round, 32 rounds and 4 stitches.
    let refused = Crown::new(st(356), 8, rows(1), st(96)).unwrap_err();
    assert_eq!(refused.remedy().unwrap().fewer_stitches, Some(st(4)));
    assert_eq!(Crown::new(st(352), 8, rows(1), st(96)).unwrap().rounds().len(), 32);
}

#[test]
fn a_doubling_shawl() {
    // Elizabeth Zimmermann, Knitter's Almanac.
    let rings = Doubling::new(st(9)).unwrap().rings().take(7);
    let rings: Vec<(u32, u32)> = rings.map(|(all, plain)| (all.get(), plain.get())).collect();
    let want = [(9, 1), (18, 3), (36, 6), (72, 12), (144, 24), (288, 48), (576, 96)];
    assert_eq!(rings, want);
    assert!(Doubling::new(st(9)).unwrap().rings().all(|(count, _)| count.get() <= 10_000_000));
}

#[test]
fn a_piece_from_its_centre_out() {
    // cromulentknitter.blogspot.com, 2006: 8 (1, 1, 2, 2, ... 8, 8) is 576; 160 after 8
    // rounds, 288 after 11.
    let piece = RowGrowth::new(st(8), st(8), rows(2)).unwrap();
    assert_eq!(
        (piece.total(rows(16)), piece.total(rows(8)), piece.total(rows(11))),
        (576, 160, 288)
    );
    for rounds in 0..40 {
        let one_by_one: u64 = (1..=rounds).map(|row| piece.count_at(rows(row))).sum();
        assert_eq!(piece.total(rows(rounds)), u128::from(one_by_one));
    }
}

#[test]
fn a_triangle_shawl() {
    // hollychayes.com, 2013: rows are half the depth times 1.4142 times the row gauge.
    for depth in [10, 24, 40, 61] {
        let depth_in = Length::inches(depth).unwrap();
        let got = triangle_rows(depth_in, gauge("5x7/1in"), Round::HalfUp).unwrap();
        let published = Exact::new(depth * 14_142 * 7, 20_000).unwrap();
        assert_eq!(i64::from(got.get()), published.to_whole(Round::HalfUp).unwrap());
        let floor = triangle_rows(depth_in, gauge("5x7/1in"), Round::Floor).unwrap().get();
        let ceil = triangle_rows(depth_in, gauge("5x7/1in"), Round::Ceil).unwrap().get();
        assert_eq!(floor + 1, ceil);
        // 2 rows^2 is the square of the depth in rows.
        let square = u64::try_from(depth * 7).unwrap().pow(2);
        assert!(2 * u64::from(floor).pow(2) < square && square < 2 * u64::from(ceil).pow(2));
    }
}
