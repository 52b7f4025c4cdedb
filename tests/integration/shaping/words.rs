use super::{rows, st};
use loopwright::shaping::{Edges, Interval, Order, Phrase, Taper, shortest};
use loopwright_tests::assertions::assert_error;
use loopwright_tests::laws::tried_on;
use loopwright_tests::shaping::phrases;
use proptest::prelude::*;

fn repeats(phrases: &[Phrase<u8>]) -> u32 {
    phrases
        .iter()
        .map(|phrase| match phrase {
            Phrase::Item { .. } => 0,
            Phrase::Repeat { body, .. } => 1 + repeats(body),
        })
        .sum()
}

#[test]
fn phrases_are_the_shortest_there_are() {
    for (kinds, longest) in [(2, 8), (3, 6)] {
        let told = phrases::shortest(kinds, longest);
        assert!(told.len() >= 500, "only {} lists", told.len());
        for (list, cost) in told {
            let phrase = shortest(&list);
            assert_eq!(Phrase::expand(&phrase).unwrap(), list);
            let got = (u32::try_from(Phrase::length(&phrase)).unwrap(), repeats(&phrase));
            assert_eq!(got, cost, "{list:?}: {phrase:?}");
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    #[test]
    fn phrases_expand_to_their_list(list in prop::collection::vec(0..3_u8, 0..80)) {
        prop_assert_eq!(Phrase::expand(&shortest(&list)).unwrap(), list);
    }

    #[test]
    fn long_lists_are_told_too(times in 200..2_000_u32, tail in 0..5_u32) {
        let list: Vec<u32> = (0..times).map(|i| i % 2).chain(0..tail).collect();
        prop_assert_eq!(Phrase::expand(&shortest(&list)).unwrap(), list.clone());
        let list: Vec<u32> = list.into_iter().flat_map(|i| [i; 40]).collect();
        prop_assert_eq!(Phrase::expand(&shortest(&list)).unwrap(), list);
    }
}

#[test]
fn words_expand_to_the_shapings() {
    let order = prop::sample::select(
        [Order::Spread, Order::SlowFirst, Order::QuickFirst, Order::Alternating].as_slice(),
    );
    let asked = (0..60_u32, 0..200_u32, order, 0..10_u32);
    tried_on(300, &asked, 60, 1, |(change, all, order, before)| {
        let taper = Taper::builder(st(10), st(10 + change), rows(all + before))
            .plain_before(rows(before))
            .order(order)
            .build();
        let Ok(taper) = taper else { return Ok(false) };
        let mut last = before;
        let want: Vec<Interval> = taper
            .events()
            .map(|event| {
                let every = event.row.get() - last;
                last = event.row.get();
                Interval { every: rows(every), stitches: event.stitches }
            })
            .collect();
        prop_assert_eq!(taper.words().expand().unwrap(), want);
        Ok(true)
    });
}

#[test]
fn a_list_that_comes_again_is_told_by_what_comes() {
    // 900 runs, 3 of them again and again, and the first of them once more.
    let list: Vec<u8> = (0..900_u32).flat_map(|i| [7, 8, 9].repeat(1 + i as usize % 2)).collect();
    let list = [list.as_slice(), &[7]].concat();
    let told = shortest(&list);
    assert_eq!(Phrase::expand(&told).unwrap(), list);
    assert!(Phrase::length(&told) <= 5, "{told:?}");
    // So is a rhythm of 300,000 shapings: 5 in every 17 rows.
    let taper = Taper::builder(st(0), st(300_000), rows(1_020_000)).order(Order::Spread);
    let words = taper.build().unwrap().words();
    assert!(words.to_string().len() < 250, "{words}");
    assert_eq!(Phrase::count(&words.phrase) + 1, 300_000);
}

#[test]
fn a_phrase_that_stands_for_too_much_is_refused() {
    let item = |times| Phrase::Item { item: 4_u8, times };
    let repeat = |body, times| Phrase::Repeat { body, times };
    assert_error(
        Phrase::expand(&[item(u32::MAX)]),
        "the number of items of a phrase is 4294967295, but must be at most 10000000",
    );
    let deep = (0..4).fold(item(u32::MAX), |phrase, _| repeat(vec![phrase], u32::MAX));
    assert_error(
        Phrase::expand(&[deep]),
        "the number of items of a phrase is 18446744073709551615, but must be at most 10000000",
    );
    // Nothing, however often, is nothing, and takes no time.
    let nothing = (0..9).fold(repeat(vec![], u32::MAX), |phrase, _| repeat(vec![phrase], u32::MAX));
    assert_eq!(Phrase::expand(&[nothing, item(2)]).unwrap(), [4, 4]);
}

fn words(from: u32, to: u32, all: u32, order: Order) -> String {
    let taper = Taper::builder(st(from), st(to), rows(all)).edges(Edges::Both).order(order);
    taper.build().unwrap().words().to_string()
}

#[test]
fn tapers_in_words() {
    assert_eq!(
        words(72, 156, 176, Order::SlowFirst),
        "increase 1 stitch at each edge every 5th row 8 times, then every 4th row 34 times"
    );
    assert_eq!(
        words(60, 40, 50, Order::Alternating),
        "decrease 1 stitch at each edge every 5th row 10 times"
    );
    assert_eq!(
        words(60, 40, 50, Order::Spread),
        "decrease 1 stitch at each edge on row 3, then every 5th row 9 times, then work 2 rows plain"
    );
    assert_eq!(
        words(60, 58, 9, Order::Spread),
        "decrease 1 stitch at each edge on row 5, then work 4 rows plain"
    );
    let sleeve = Taper::builder(st(34), st(56), rows(62))
        .edges(Edges::Both)
        .legal_rows(rows(9), rows(4))
        .plain_after(rows(13));
    assert_eq!(
        sleeve.build().unwrap().words().to_string(),
        "increase 1 stitch at each edge on row 9, then every 4th row 10 times, \
         then work 13 rows plain"
    );
    let edge = Taper::builder(st(30), st(23), rows(4)).most(st(2)).build().unwrap();
    assert_eq!(
        edge.words().to_string(),
        "decrease 2 stitches every row twice, then 1 stitch every row once, \
         then 2 stitches every row once"
    );
}
