//! What cannot be drafted, and the sentence that says so.

use super::{EVERYDAY, body, pullover};
use loopwright::garment::{BodyMeasure, Draft, DropShoulder, DropShoulderChoices, Fabrics};
use loopwright::gauge::Length;
use loopwright::pattern::Craft;
use loopwright_tests::assertions::assert_error;

fn with(measure: BodyMeasure, length: &'static str) -> Vec<(BodyMeasure, &'static str)> {
    EVERYDAY
        .iter()
        .map(|&(which, given)| (which, if which == measure { length } else { given }))
        .collect()
}

#[track_caller]
fn refused(
    measures: &[(BodyMeasure, &str)],
    change: impl FnOnce(&mut DropShoulderChoices),
    text: &str,
) {
    let fabrics = Fabrics::plain("20 x 30 / 10 cm".parse().unwrap());
    let mut choices = DropShoulderChoices::usual(Craft::Hand);
    change(&mut choices);
    let pullover = DropShoulder::new(body(measures), fabrics, Craft::Hand).choose(choices);
    assert_error(pullover.draft().and_then(Draft::finish), text);
}

fn cm(text: &str) -> Length {
    text.parse().unwrap()
}

#[test]
fn measures_out_of_bounds() {
    for (measure, given, text) in [
        (BodyMeasure::Chest, "3000 m", "the chest is 300000 cm, but must be in 20..=250 cm"),
        (BodyMeasure::Chest, "-94 cm", "the chest is -94 cm, but must be in 20..=250 cm"),
        (BodyMeasure::Wrist, "0 cm", "the wrist is 0 cm, but must be in 6..=40 cm"),
        (BodyMeasure::Head, "22 cm", "the head is 22 cm, but must be in 25..=75 cm"),
        (
            BodyMeasure::NeckToWrist,
            "2 m",
            "the neck to wrist length is 200 cm, but must be in 15..=130 cm",
        ),
        (BodyMeasure::UpperArm, "7.9 cm", "the upper arm is 7.9 cm, but must be in 8..=80 cm"),
        (BodyMeasure::BodyLength, "11 cm", "the body length is 11 cm, but must be in 12..=150 cm"),
        (BodyMeasure::CrossBack, "81 cm", "the cross back is 81 cm, but must be in 10..=80 cm"),
        (BodyMeasure::ArmLength, "4 ft", "the arm length is 121.92 cm, but must be in 8..=100 cm"),
    ] {
        assert_error(measure.check(given.parse().unwrap()), text);
    }
}

#[test]
fn measures_that_are_missing() {
    let without =
        |measure| EVERYDAY.into_iter().filter(|&(which, _)| which != measure).collect::<Vec<_>>();
    for (measure, name) in [
        (BodyMeasure::Chest, "chest"),
        (BodyMeasure::UpperArm, "upper arm"),
        (BodyMeasure::Wrist, "wrist"),
        (BodyMeasure::BodyLength, "body length"),
        (BodyMeasure::Head, "head"),
        (BodyMeasure::NeckToWrist, "neck to wrist length"),
    ] {
        let text = format!("the {name} was not given, and this garment needs it");
        refused(&without(measure), |_| {}, &text);
    }
}

#[test]
fn a_body_too_short() {
    refused(
        &with(BodyMeasure::BodyLength, "23 cm"),
        |_| {},
        "the body length of 23 cm has no room for a hem of 6 cm, an armhole of 17.5 cm and a shoulder drop of 0 cm; \
         lengthen the body or shorten one of them",
    );
}

#[test]
fn a_sleeve_too_short() {
    refused(
        &with(BodyMeasure::NeckToWrist, "29 cm"),
        |_| {},
        "the sleeve would be 6 cm long with its cuff of 6 cm: half the body's width is more than the neck-to-wrist \
         length leaves; give less ease at the chest or a shorter cuff",
    );
}

#[test]
fn a_neck_too_small_for_the_head() {
    let text = pullover(&EVERYDAY, 200)
        .choose({
            let mut choices = DropShoulderChoices::usual(Craft::Hand);
            choices.neck_width = Some(cm("10 cm"));
            choices.neck_depth = Some(cm("4 cm"));
            choices
        })
        .draft()
        .unwrap_err()
        .to_string();
    assert!(text.contains("but the head is 54 cm; make the neck about"), "{text}");
}

#[test]
fn a_neck_too_wide() {
    refused(
        &EVERYDAY,
        |choices| {
            choices.neck_width = Some(cm("60 cm"));
            choices.neck_depth = Some(cm("10 cm"));
        },
        "a neck 60 cm wide leaves no shoulder on a body 46 cm wide",
    );
}

#[test]
fn a_neck_too_deep_or_too_shallow() {
    refused(
        &EVERYDAY,
        |choices| choices.neck_depth = Some(cm("18 cm")),
        "a front neck 18 cm deep must be deeper than the shoulder drop of 0 cm and end above the armhole mark at \
         17.5 cm",
    );
    refused(
        &EVERYDAY,
        |choices| {
            choices.shoulder_drop = cm("3 cm");
            choices.neck_depth = Some(cm("3 cm"));
        },
        "a front neck 3 cm deep must be deeper than the shoulder drop of 3 cm and end above the armhole mark at \
         20.5 cm",
    );
}

#[test]
fn shoulders_that_do_not_drop() {
    let mut measures = EVERYDAY.to_vec();
    measures.push((BodyMeasure::CrossBack, "47 cm"));
    refused(
        &measures,
        |_| {},
        "the body would be 46 cm wide, but the cross back is 47 cm: the shoulders would not drop; give more ease at \
         the chest",
    );
}

#[test]
fn choices_out_of_range() {
    refused(
        &EVERYDAY,
        |choices| choices.hem = cm("-1 cm"),
        "the hem is -1 cm, but must be above zero and at most 300 cm",
    );
    refused(
        &EVERYDAY,
        |choices| choices.shoulder_drop = cm("-1 cm"),
        "the shoulder drop is -1 cm, but must be zero or more and at most 300 cm",
    );
    refused(
        &EVERYDAY,
        |choices| choices.neck_stretch = "3".parse().unwrap(),
        "the stretch of the neck is 3, but must be in 0..=2",
    );
    refused(
        &EVERYDAY,
        |choices| choices.ease.chest = cm("-82 cm"),
        "a measure with its ease is 0 cm, but must be above zero and at most 300 cm",
    );
}
