//! Whatever the body, the gauge and the choices: a pullover that fits together and can be
//! knitted from its words, or one sentence why not.

use loopwright::garment::{Body, Choices, Draft, DropShoulder, Fabrics, Measure, Shoulders};
use loopwright::gauge::{Exact, Gauge, Length};
use loopwright::pattern::{Bed, Craft};
use loopwright::shaping::Order;
use loopwright_tests::pattern::knits_from_its_words;
use proptest::prelude::*;

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

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    #[test]
    fn a_pullover_or_a_reason(
        body in bodies(),
        (plain, rib) in (gauges(), gauges()),
        ribs in prop_oneof![Just((1, 1)), Just((2, 2)), Just((2, 1)), Just((3, 2))],
        (craft, choices) in crafts().prop_flat_map(|craft| (Just(craft), choices(craft))),
    ) {
        let fabrics = Fabrics::plain(plain).ribbed(ribs, rib);
        match DropShoulder::new(body, fabrics, craft).choose(choices).draft().and_then(Draft::finish) {
            Ok(garment) => {
                prop_assert!(garment.seams.holds());
                garment.pieces.iter().for_each(|piece| knits_from_its_words(&piece.knitted));
            }
            Err(why) => {
                let why = why.to_string();
                prop_assert!(why.len() > 20 && !why.contains('\n'), "{why}");
                prop_assert!(!why.contains("there is no edge") && !why.contains("no count for"), "{why}");
            }
        }
    }
}
