//! Whatever the body, the gauge and the choices: a pullover that fits together and can be
//! knitted from its words, or one sentence why not.

use loopwright::garment::{
    Body, Choices, Draft, DropShoulder, Error, Fabrics, Garment, Measure, Shoulders,
};
use loopwright::gauge::{Exact, Gauge, Length};
use loopwright::pattern::{Bed, Craft};
use loopwright::shaping::Order;
use loopwright_tests::pattern::knits_from_its_words;
use proptest::prelude::*;
use proptest::test_runner::TestRunner;

fn mm(n: i64) -> Length {
    Length::mm(n).unwrap()
}

fn bodies() -> impl Strategy<Value = Body> {
    let girths = (450..1500_i64, 130..520_i64, 100..260_i64, 400..640_i64);
    let lengths = (260..1000_i64, 230..900_i64);
    (girths, lengths).prop_map(|((chest, arm, wrist, head), (reach, length))| {
        let measures = [
            (Measure::Chest, chest),
            (Measure::UpperArm, arm),
            (Measure::Wrist, wrist),
            (Measure::Head, head),
            (Measure::NeckToWrist, reach),
            (Measure::BodyLength, length),
        ];
        measures.iter().fold(Body::new(), |body, &(measure, n)| body.with(measure, mm(n)).unwrap())
    })
}

fn gauges() -> impl Strategy<Value = Gauge> {
    (12..80_i64, 12..110_i64).prop_map(|(stitches, rows)| {
        let half = |n| Exact::new(n, 2).unwrap();
        Gauge::new(half(stitches), half(rows), Length::cm(10).unwrap()).unwrap()
    })
}

fn choices(craft: Craft) -> impl Strategy<Value = Choices> {
    let order = prop_oneof![
        Just(Order::Spread),
        Just(Order::SlowFirst),
        Just(Order::QuickFirst),
        Just(Order::Alternating)
    ];
    let shoulders = prop_oneof![Just(Shoulders::ShortRows), Just(Shoulders::BindOff)];
    (
        -60..250_i64,
        20..120_i64,
        10..60_i64,
        prop_oneof![Just(0), 5..60_i64],
        0..80_i64,
        order,
        shoulders,
    )
        .prop_map(move |(ease, hem, band, drop, plain, order, shoulders)| {
            let mut choices = Choices::usual(craft);
            choices.ease.chest = mm(ease);
            (choices.hem, choices.cuff, choices.neckband) = (mm(hem), mm(hem), mm(band));
            (choices.shoulder_drop, choices.sleeve_plain) = (mm(drop), mm(plain));
            (choices.sleeve_order, choices.shoulders) = (order, shoulders);
            choices
        })
}

fn crafts() -> impl Strategy<Value = Craft> {
    prop_oneof![
        Just(Craft::Hand),
        (100..400_u32).prop_map(|n| Craft::Machine(Bed::of_needles(n).unwrap()))
    ]
}

/// What a pullover is asked for.
#[derive(Clone, Debug)]
struct Asked {
    body: Body,
    fabrics: Fabrics,
    craft: Craft,
    choices: Choices,
}

impl Asked {
    fn finish(&self) -> Result<Garment, Error> {
        DropShoulder::new(self.body.clone(), self.fabrics, self.craft)
            .choose(self.choices.clone())
            .draft()
            .and_then(Draft::finish)
    }
}

fn asked() -> impl Strategy<Value = Asked> {
    let ribs = prop_oneof![Just((1, 1)), Just((2, 2)), Just((2, 1)), Just((3, 2))];
    let chosen = crafts().prop_flat_map(|craft| (Just(craft), choices(craft)));
    (bodies(), gauges(), gauges(), ribs, chosen).prop_map(
        |(body, plain, rib, ribs, (craft, choices))| {
            let fabrics = Fabrics::plain(plain).ribbed(ribs, rib);
            Asked { body, fabrics, craft, choices }
        },
    )
}

#[test]
fn census() {
    let mut runner = TestRunner::new(ProptestConfig::with_cases(4000));
    let tally = std::cell::RefCell::new(std::collections::BTreeMap::<String, (u32, String)>::new());
    runner
        .run(&asked(), |asked| {
            let (kind, text) = match asked.finish() {
                Ok(_) => ("drafted".to_owned(), String::new()),
                Err(why) => {
                    let why = why.to_string();
                    let kind: String = why.chars().filter(|c| !c.is_ascii_digit()).take(40).collect();
                    (kind, why)
                }
            };
            let mut tally = tally.borrow_mut();
            let place = tally.entry(kind).or_insert((0, text));
            place.0 += 1;
            Ok(())
        })
        .unwrap();
    for (kind, (count, example)) in tally.borrow().iter() {
        eprintln!("CENSUS {count} {kind}\n     {example}");
    }
}
