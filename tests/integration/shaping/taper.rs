use super::{rows, st};
use loopwright::gauge::{Exact, Round};
use loopwright::shaping::{Edges, Ends, Event, Order, Taper, TaperBuilder};
use loopwright_tests::laws::tried_on;
use loopwright_tests::shaping::edge::knit;
use loopwright_tests::shaping::evenly::best_sizes;
use proptest::prelude::*;

fn events(taper: &Taper) -> Vec<Event> {
    taper.events().collect()
}

#[test]
fn a_spread_taper_is_the_best_of_all_placements() {
    for slots in 1..=9_u32 {
        for most in 1..=3 {
            for total in 1..=(slots * most).min(11) {
                let best = best_sizes(total.into(), slots as usize, most.into()).unwrap();
                let taper = Taper::builder(st(20), st(20 + total), rows(slots)).most(st(most));
                let mut sizes = vec![0_u64; slots as usize];
                for event in taper.build().unwrap().events() {
                    sizes[event.row.get() as usize - 1] += u64::from(event.stitches.get());
                }
                assert_eq!(sizes, best, "{total} in {slots}, at most {most}");
            }
        }
    }
}

#[test]
fn a_straight_taper_is_the_line_of_a_drawing_crate() {
    for rows_in_all in [7, 40, 88, 89, 176, 1200_u32] {
        for total in [1, 3, 7, 22, 42] {
            if 2 * total > rows_in_all {
                continue;
            }
            let taper =
                Taper::builder(st(100), st(100 + total), rows(rows_in_all)).build().unwrap();
            // The crate draws a line rounded down; one of twice the height, rounded down and
            // halved up, is the line rounded half up.
            let end = (i64::from(rows_in_all), i64::from(2 * total));
            for (row, twice) in line_drawing::Bresenham::new((0, 0), end) {
                let ours = taper.count_at(rows(u32::try_from(row).unwrap())).get();
                let drawn = 100 + (twice + 1) / 2;
                assert_eq!(i64::from(ours), drawn, "{total} in {rows_in_all}, row {row}");
            }
        }
    }
}

#[test]
fn righettis_two_rates() {
    // Maggie Righetti, Sweater Design in Plain English, p. 179, as reported: with rates
    // a and a + 2 the slower comes (R - a N) / twice.
    for (all_rows, shapings) in [(120, 28), (96, 18), (100, 30), (176, 42)] {
        let taper = Taper::builder(st(0), st(shapings), rows(all_rows))
            .legal_rows(rows(2), rows(2))
            .order(Order::SlowFirst)
            .build()
            .unwrap();
        let quick = all_rows / 2 / shapings * 2;
        let slower: u32 =
            taper.segments().filter(|run| run.every.get() == quick + 2).map(|run| run.times).sum();
        assert_eq!(slower, (all_rows - quick * shapings) / 2, "{shapings} in {all_rows}");
    }
}

const ORDERS: [Order; 5] = [
    Order::Spread,
    Order::SlowFirst,
    Order::QuickFirst,
    Order::Alternating,
    Order::AlternatingLast,
];

fn order() -> impl Strategy<Value = Order> {
    prop::sample::select(ORDERS.as_slice())
}

fn ends() -> impl Strategy<Value = Ends> {
    prop_oneof![
        Just(Ends::Half),
        Just(Ends::Closing),
        Just(Ends::Opening),
        Just(Ends::Full),
        Just(Ends::Both),
    ]
}

prop_compose! {
    fn asked()(
        (from, to) in (0..60_u32, 0..60_u32),
        all in 0..90_u32,
        (first, every) in (1..9_u32, 1..5_u32),
        (before, after) in (0..12_u32, 0..12_u32),
        (most, unit) in (1..4_u32, 1..3_u32),
        (order, ends) in (order(), ends()),
        (both, mirrored) in (any::<bool>(), any::<bool>()),
        start in 0..30_u32,
    ) -> TaperBuilder {
        let taper = Taper::builder(st(from * unit), st(to * unit), rows(all))
            .edges(if both { Edges::Both } else { Edges::One })
            .legal_rows(rows(first), rows(every))
            .plain_before(rows(before.min(all / 2)))
            .plain_after(rows(after.min(all / 2)))
            .most(st(most * unit))
            .at_once(st(unit))
            .order(order)
            .ends(ends)
            .after(rows(start));
        if mirrored { taper.mirrored() } else { taper }
    }
}

#[test]
fn taper_laws() {
    tried_on(1500, &asked(), 30, 1, |asked| {
        let Ok(taper) = asked.build() else { return Ok(false) };
        let list = events(&taper);
        let edges = taper.edges().count();
        let change = taper.to().get().abs_diff(taper.from().get());
        prop_assert_eq!(list.iter().map(|event| event.stitches.get() * edges).sum::<u32>(), change);
        prop_assert_eq!(list.len(), taper.events().len());
        prop_assert!(list.windows(2).all(|pair| pair[0].row < pair[1].row));
        prop_assert!(list.iter().all(|event| event.stitches.get() > 0));
        let backwards: Vec<Event> = taper.events().rev().collect();
        prop_assert!(backwards.iter().rev().eq(&list));

        let mut count = i64::from(taper.from().get());
        let sign = if taper.to() > taper.from() { 1 } else { -1 };
        let mut ahead = list.iter().peekable();
        for row in taper.start().get()..=taper.start().get() + taper.rows().get() + 2 {
            while let Some(event) = ahead.next_if(|event| event.row.get() <= row) {
                count += sign * i64::from(event.stitches.get() * edges);
            }
            prop_assert_eq!(i64::from(taper.count_at(rows(row)).get()), count, "row {}", row);
        }
        let told: u32 = taper.segments().map(|run| run.every.get() * run.times).sum();
        let all = taper.plain_before().get() + told + taper.plain_after().get();
        prop_assert_eq!(all, taper.rows().get());
        Ok(true)
    });
}

#[test]
fn skipping_and_meeting_in_the_middle() {
    tried_on(1000, &(asked(), 0..20_usize), 30, 1, |(asked, skip)| {
        let Ok(taper) = asked.build() else { return Ok(false) };
        let list = events(&taper);
        prop_assert_eq!(taper.events().nth(skip), list.get(skip).copied());
        let mut both = taper.events();
        let mut met = Vec::new();
        while let Some(event) = both.next() {
            met.push(event);
            met.extend(both.next_back());
        }
        met.sort_unstable();
        prop_assert_eq!(met, list);
        Ok(true)
    });
}

#[test]
fn rows_keep_their_rules() {
    tried_on(1500, &asked(), 30, 1, |asked| {
        let Ok(taper) = asked.build() else { return Ok(false) };
        // The rules as they were asked for, read back from what serde writes.
        let rules = serde_json::to_value(taper.asked()).unwrap();
        let rule = |name: &str| u32::try_from(rules[name].as_u64().unwrap()).unwrap();
        let from = taper.start().get() + rule("plain_before");
        let until = taper.start().get() + taper.rows().get() - rule("plain_after");
        // A mirrored taper counts its legal rows from the last row back.
        let mirrored = rules["mirrored"].as_bool().unwrap();
        for event in taper.events() {
            prop_assert!(event.row.get() > from && event.row.get() <= until);
            let ends = 2 * taper.start().get() + taper.rows().get() + 1;
            let row = if mirrored { ends - event.row.get() } else { event.row.get() };
            prop_assert!(row >= rule("first"));
            prop_assert!((row - rule("first")).is_multiple_of(rule("every")));
            prop_assert!(event.stitches.get() <= rule("most"));
            prop_assert!(event.stitches.get().is_multiple_of(rule("at_once")));
        }
        Ok(true)
    });
}

#[test]
fn a_spread_taper_stays_within_half_a_shaping() {
    tried_on(400, &(0..500_u32, 0..200_u32, 1..2_000_u32), 60, 1, |(from, change, all)| {
        let Ok(taper) = Taper::builder(st(from), st(from + change), rows(all)).build() else {
            return Ok(false);
        };
        for row in 0..=all {
            let done = u64::from(taper.count_at(rows(row)).get() - from);
            let off = (u64::from(row) * u64::from(change)).abs_diff(done * u64::from(all));
            prop_assert!(2 * off <= u64::from(all), "row {}", row);
        }
        Ok(true)
    });
}

#[test]
fn splitting_and_planning_again_gives_the_same_total() {
    tried_on(1500, &(asked(), 0..=100_u32), 20, 1, |(asked, part)| {
        let Ok(taper) = asked.build() else { return Ok(false) };
        let row = taper.start().get() + taper.rows().get() * part / 100;
        let Ok(rest) = taper.rest_after(rows(row)) else { return Ok(false) };
        let worked = taper.count_at(rows(row));
        prop_assert_eq!(rest.from(), worked);
        prop_assert_eq!(rest.to(), taper.to());
        let total = |taper: &Taper| taper.events().map(|event| event.stitches.get()).sum::<u32>();
        let before: u32 = taper
            .events()
            .filter(|event| event.row.get() <= row)
            .map(|event| event.stitches.get())
            .sum();
        prop_assert_eq!(before + total(&rest), total(&taper));
        prop_assert!(rest.events().all(|event| event.row.get() > row));
        Ok(true)
    });
}

#[test]
fn when_it_cannot_be_done_the_remedy_is_the_smallest() {
    tried_on(1500, &asked(), 5, 1, |asked| {
        let Err(refused) = asked.build() else { return Ok(false) };
        let Some(remedy) = refused.remedy() else { return Ok(false) };
        let json = serde_json::to_value(asked).unwrap();
        let number = |name: &str| u32::try_from(json[name].as_u64().unwrap()).unwrap();
        let with = |name: &str, value: u32| {
            let mut json = json.clone();
            json[name] = value.into();
            serde_json::from_value::<TaperBuilder>(json).unwrap().build()
        };
        let more = remedy.more_rows.unwrap().get();
        prop_assert!(with("rows", number("rows") + more).is_ok());
        prop_assert!((0..more).all(|rows| with("rows", number("rows") + rows).is_err()));
        let fewer = remedy.fewer_stitches.unwrap().get();
        let (from, to) = (number("from"), number("to"));
        let nearer = |n: u32| if to > from { to - n } else { to + n };
        prop_assert!(with("to", nearer(fewer)).is_ok());
        prop_assert!((0..fewer).all(|n| with("to", nearer(n)).is_err()));
        Ok(true)
    });
}

#[test]
fn a_mirrored_taper_has_the_same_widths_from_the_last_row_back() {
    tried_on(1_500, &asked(), 30, 1, |asked| {
        let Ok(taper) = asked.build() else { return Ok(false) };
        let mirrored = taper.mirrored().unwrap();
        let (start, all) = (taper.start().get(), taper.rows().get());
        for row in 0..=all {
            let back = rows(start + all - row);
            prop_assert_eq!(taper.count_at(rows(start + row)), mirrored.count_at(back));
        }
        let turned: Vec<Event> = mirrored.events().collect();
        let last = 2 * start + all + 1;
        let from_the_end =
            taper.events().rev().map(|event| Event { row: rows(last - event.row.get()), ..event });
        prop_assert!(from_the_end.eq(turned.iter().copied()));
        prop_assert!(mirrored.events().rev().eq(turned.iter().rev().copied()));
        prop_assert_eq!(mirrored.mirrored().unwrap(), taper);
        Ok(!turned.is_empty())
    });
}

/// The gaps of `events` in `slots` by their definition: two sizes, one more and one less,
/// in the order asked for.
fn gaps(slots: u32, events: u32, order: Order) -> Vec<u32> {
    let (quick, more) = (slots / events, slots % events);
    let mut slow = vec![quick + 1; more as usize];
    let mut quick = vec![quick; (events - more) as usize];
    let mut turns = Vec::new();
    if matches!(order, Order::Alternating | Order::AlternatingLast) {
        while let (Some(a), Some(b)) = (quick.last(), slow.last()) {
            turns.extend([*a, *b]);
            quick.pop();
            slow.pop();
        }
    }
    match order {
        Order::SlowFirst => [slow, quick].concat(),
        Order::AlternatingLast => [slow, quick, turns].concat(),
        _ => [turns, quick, slow].concat(),
    }
}

#[test]
fn two_rates_come_in_the_order_asked_for() {
    let orders = [Order::SlowFirst, Order::QuickFirst, Order::Alternating, Order::AlternatingLast];
    for slots in 1..40 {
        for events in 1..=slots {
            for order in orders {
                let taper = Taper::builder(st(0), st(events), rows(slots)).order(order);
                let mut last = 0;
                let got: Vec<u32> = taper
                    .build()
                    .unwrap()
                    .events()
                    .map(|event| event.row.get() - std::mem::replace(&mut last, event.row.get()))
                    .collect();
                assert_eq!(got, gaps(slots, events, order), "{events} in {slots}, {order:?}");
            }
        }
    }
}

#[test]
fn the_words_of_a_taper_are_knitted_to_its_last_row() {
    // A knitter who has only the sentence comes to the same shapings and the same rows.
    tried_on(3_000, &asked(), 30, 1, |asked| {
        let Ok(taper) = asked.build() else { return Ok(false) };
        let words = taper.words().to_string();
        let knitted = knit(&words, taper.start().get());
        let sign = if taper.to() > taper.from() { 1 } else { -1 };
        let events: Vec<(u32, i64)> = taper
            .events()
            .map(|event| (event.row.get(), sign * i64::from(event.stitches.get())))
            .collect();
        prop_assert_eq!(&knitted.shapings, &events, "{}", words);
        prop_assert_eq!(knitted.last, taper.start().get() + taper.rows().get(), "{}", words);
        prop_assert!(events.is_empty() || knitted.edges == taper.edges().count(), "{}", words);
        Ok(true)
    });
}

#[test]
fn a_straight_taper_is_told_with_all_its_rows() {
    for (before, after) in [(0, 0), (3, 0), (0, 3), (3, 4)] {
        let taper = Taper::builder(st(50), st(50), rows(10))
            .plain_before(rows(before))
            .plain_after(rows(after))
            .build()
            .unwrap();
        assert_eq!(taper.words().to_string(), "work 10 rows plain");
    }
}

#[test]
fn long_tapers_do_not_overflow() {
    let most = 10_000_000;
    for order in ORDERS {
        for (to, every) in [(most, 1), (7_000_001, 1), (1, most), (3, 3_000_000)] {
            let taper = Taper::builder(st(0), st(to), rows(most))
                .legal_rows(rows(every), rows(every))
                .order(order)
                .build()
                .unwrap();
            assert_eq!(taper.count_at(rows(most)).get(), to);
            assert_eq!(taper.events().len(), to as usize);
            let last = taper.events().next_back().unwrap();
            assert!(last.row.get() <= most);
            assert_eq!(taper.count_at(rows(last.row.get() - 1)).get(), to - 1);
        }
    }
}

#[test]
fn a_straight_taper_has_no_events() {
    let taper = Taper::builder(st(80), st(80), rows(40)).build().unwrap();
    assert_eq!(taper.events().len(), 0);
    assert_eq!(taper.direction(), None);
    assert_eq!(taper.plain_after().get(), 40);
    assert_eq!(taper.words().to_string(), "work 40 rows plain");
}

#[test]
fn interweaves_waist_has_58_rounds_left() {
    // interweave.com, Making it fit: 6 rows/in for 12.5 in is 75; 17 are worked.
    let waist = Taper::builder(st(110), st(88), rows(75)).edges(Edges::Both).build().unwrap();
    let rest = waist.replan(rows(17), st(110), rows(75 - 17)).unwrap();
    assert_eq!(rest.rows().get(), 58);
    assert_eq!(rest.count_at(rows(75)).get(), 88);
    assert!(rest.events().all(|event| event.row.get() > 17 && event.row.get() <= 75));
}

#[test]
fn planning_again_at_the_gauge_reached_keeps_the_length() {
    let sleeve = Taper::builder(st(60), st(100), rows(160)).edges(Edges::Both).build().unwrap();
    let (planned, reached) = (Exact::whole(40), Exact::whole(36));
    let rest = sleeve
        .replan_at_gauge(rows(80), sleeve.count_at(rows(80)), planned, reached, Round::HalfUp)
        .unwrap();
    // 160 rows at 40 are 40 cm; at 36 that is 144 rows.
    assert_eq!(rest.rows().get(), 64);
    assert_eq!(rest.count_at(rows(144)).get(), 100);
}
