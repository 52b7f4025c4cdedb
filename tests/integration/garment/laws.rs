//! Whatever the body, the gauge and the choices: a pullover that fits together and can be
//! knitted from its words, or one sentence why not.

use loopwright::garment::{
    Body, BodyMeasure, Draft, DropShoulder, DropShoulderChoices, Error, Fabrics, Garment, Shoulders,
};
use loopwright::gauge::{Exact, Gauge, Length, Rows, Stitches};
use loopwright::pattern::{Bed, Craft};
use loopwright::shaping::Order;
use loopwright_tests::pattern::{knits_from_its_words, stumble};
use proptest::prelude::*;
use proptest::test_runner::{TestCaseError, TestRunner};
use std::cell::RefCell;
use std::collections::BTreeMap;

fn mm(n: i64) -> Length {
    Length::mm(n).unwrap()
}

fn bodies() -> impl Strategy<Value = Body> {
    let girths = (450..1500_i64, 130..520_i64, 100..260_i64, 400..640_i64);
    let lengths = (260..1000_i64, 230..900_i64);
    (girths, lengths).prop_map(|((chest, arm, wrist, head), (reach, length))| {
        let measures = [
            (BodyMeasure::Chest, chest),
            (BodyMeasure::UpperArm, arm),
            (BodyMeasure::Wrist, wrist),
            (BodyMeasure::Head, head),
            (BodyMeasure::NeckToWrist, reach),
            (BodyMeasure::BodyLength, length),
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

fn choices(craft: Craft) -> impl Strategy<Value = DropShoulderChoices> {
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
            let mut choices = DropShoulderChoices::usual(craft);
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
    choices: DropShoulderChoices,
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

/// How a refusal begins, and what of the request makes it true, by sums of the test's own.
fn refused_rightly(asked: &Asked, why: &Error) -> Result<&'static str, String> {
    let text = why.to_string();
    let choices = &asked.choices;
    let of = |measure| asked.body.get(measure).unwrap();
    let add = |one: Length, other: Length| one.checked_add(other).unwrap();
    let half = |length: Length| length.scaled("1/2".parse().unwrap()).unwrap();
    let armhole = half(add(of(BodyMeasure::UpperArm), choices.ease.upper_arm));
    let width = half(add(of(BodyMeasure::Chest), choices.ease.chest));
    let above = add(armhole, choices.shoulder_drop);
    let without = |change: &dyn Fn(&mut Asked)| {
        let mut other = asked.clone();
        change(&mut other);
        other.finish()
    };
    let (kind, true_) = if text.contains("are wanted,") && text.contains("more than the bed of") {
        let wide = without(&|other| other.craft = Craft::Machine(Bed::of_needles(10_000).unwrap()));
        let narrow = |why: &Error| why.to_string().contains("more than the bed of");
        ("the bed is too narrow", wide.map_or_else(|why| !narrow(&why), |_| true))
    } else if text.starts_with("the body length of") {
        let taken = add(above, choices.hem);
        ("the body is too short", of(BodyMeasure::BodyLength) <= taken)
    } else if text.starts_with("the sleeve would be") {
        let left = of(BodyMeasure::NeckToWrist).checked_sub(half(width)).unwrap();
        ("no room for a sleeve", left <= choices.cuff)
    } else if text.starts_with("the neck opening of") {
        let smaller = without(&|other| {
            other.body = other.body.clone().with(BodyMeasure::Head, mm(250)).unwrap();
        });
        let head = |why: &Error| why.to_string().starts_with("the neck opening of");
        ("the head does not pass", smaller.map_or_else(|why| !head(&why), |_| true))
    } else if text.starts_with("a front neck") {
        ("the neck is too deep or too shallow", true)
    } else if text.starts_with("a neck") {
        ("the neck leaves no shoulder", true)
    } else if text.starts_with("the sleeve cannot be shaped") {
        // One stitch a side takes a row of its own, by hand every second one.
        let gauge = asked.fabrics.plain;
        let more = add(of(BodyMeasure::UpperArm), choices.ease.upper_arm)
            .checked_sub(add(of(BodyMeasure::Wrist), choices.ease.wrist))
            .unwrap();
        let pairs = half(more).abs();
        let left = of(BodyMeasure::NeckToWrist).checked_sub(half(width)).unwrap();
        let rows = left.checked_sub(add(choices.cuff, choices.sleeve_plain)).unwrap();
        let (pairs, rows) = (
            gauge.count_in::<Stitches>(pairs).unwrap(),
            gauge.count_in::<Rows>(rows.max(Length::ZERO)).unwrap(),
        );
        // The counts were rounded, so allow what rounding moves.
        let slack = Exact::whole(4);
        let rows = if asked.craft.is_machine() {
            rows
        } else {
            rows.checked_div(Exact::whole(2)).unwrap()
        };
        ("no rows to shape the sleeve", pairs.checked_add(slack).unwrap() >= rows)
    } else if text.starts_with("the neckband does not fit the neck") {
        // With the rib at the plain gauge the band fits, or something else is wrong.
        let plain = without(&|other| {
            other.fabrics = other.fabrics.ribbed(other.fabrics.rib_repeat, other.fabrics.plain);
        });
        let band = |why: &Error| why.to_string().starts_with("the neckband does not fit");
        (
            "the ribs' gauge is too far from the plain one",
            plain.map_or_else(|why| !band(&why), |_| true),
        )
    } else if text.starts_with("a shoulder of") {
        ("the shoulder is too narrow for its slope", choices.shoulder_drop.is_positive())
    } else if text.starts_with("the neck cannot be shaped")
        || text.starts_with("the counts cannot be rounded together")
    {
        ("the counts do not go together", true)
    } else {
        return Err(format!("not a reason: {text}"));
    };
    let sentence = text.len() > 40 && !text.contains('\n') && stumble(&text).is_none();
    if true_ && sentence && why.is_impossible() {
        return Ok(kind);
    }
    Err(format!("{kind}, it says, but that is not so, or not well said: {text} for {asked:?}"))
}

/// How often each outcome came.
fn outcomes(cases: u32, asked: impl Strategy<Value = Asked>) -> BTreeMap<&'static str, u32> {
    let tally = RefCell::new(BTreeMap::new());
    let config = ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(cases) };
    let run = TestRunner::new(config).run(&asked, |asked| {
        let outcome = match asked.finish() {
            Ok(garment) => {
                prop_assert!(garment.seams.holds());
                garment.pieces.iter().for_each(|piece| knits_from_its_words(&piece.knitted));
                "drafted"
            }
            Err(why) => refused_rightly(&asked, &why).map_err(TestCaseError::fail)?,
        };
        *tally.borrow_mut().entry(outcome).or_insert(0) += 1;
        Ok(())
    });
    run.unwrap_or_else(|why| panic!("{why}"));
    tally.into_inner()
}

/// Any body with any choices: a garment, or a reason that is true.
#[test]
fn a_pullover_or_a_reason() {
    let tally = outcomes(400, asked());
    assert_eq!(tally.values().sum::<u32>(), 400);
    // The two gauges are drawn apart, so many ribs cannot be picked up two in a place.
    assert!(tally["drafted"] >= 85, "{tally:?}");
    assert!(tally.len() >= 5, "reasons of several kinds: {tally:?}");
}

/// Bodies as people have them, ribs a little tighter than the plain knitting: nearly all
/// get their pullover.
#[test]
fn a_likely_pullover() {
    let likely = (700..1400_i64, -40..40_i64, 30..60_i64, 40..100_i64, any::<bool>(), 90..115_i64);
    let asked = likely.prop_map(|(chest, more, stitches, rows, machine, rib)| {
        let body = [
            (BodyMeasure::Chest, chest),
            (BodyMeasure::UpperArm, 170 + chest / 8 + more),
            (BodyMeasure::Wrist, 120 + chest / 25),
            (BodyMeasure::Head, 540 + chest / 40 + more / 4),
            (BodyMeasure::NeckToWrist, 700 + chest / 8 + more),
            (BodyMeasure::BodyLength, 560 + chest / 20 + more),
        ];
        let body =
            body.iter().fold(Body::new(), |body, &(which, n)| body.with(which, mm(n)).unwrap());
        let gauge = |share: i64| {
            let part = |n: i64| Exact::new(n * share, 200).unwrap();
            Gauge::new(part(stitches), part(stitches * (100 + rows) / 100), Length::cm(10).unwrap())
                .unwrap()
        };
        let fabrics = Fabrics::plain(gauge(100)).ribbed((2, 2), gauge(rib));
        let craft =
            if machine { Craft::Machine(Bed::of_needles(360).unwrap()) } else { Craft::Hand };
        Asked { body, fabrics, craft, choices: DropShoulderChoices::usual(craft) }
    });
    let tally = outcomes(200, asked);
    assert!(tally["drafted"] >= 180, "{tally:?}");
}
