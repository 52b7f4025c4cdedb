//! Every type that is written as JSON and read again: the same value, through the same
//! checks, unknown keys refused.

use super::{EVERYDAY, body, pullover};
use loopwright::garment::{
    Body, BodyMeasure, DropShoulderChoices, DropShoulderEase, EdgeRef, Nearness, Outcome, Shoulders,
};
use loopwright::pattern::Craft;
use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_json::{Value, json};

/// Written and read again it is the same; with a key more it is refused.
#[track_caller]
fn there_and_back<T: Serialize + DeserializeOwned + PartialEq + core::fmt::Debug>(
    value: &T,
) -> Value {
    let written = serde_json::to_value(value).unwrap();
    assert_eq!(&serde_json::from_value::<T>(written.clone()).unwrap(), value);
    if let Value::Object(mut keys) = written.clone() {
        keys.insert("colour".into(), json!("red"));
        let refused = serde_json::from_value::<T>(Value::Object(keys)).unwrap_err().to_string();
        assert!(refused.contains("unknown field `colour`"), "{refused}");
    }
    written
}

#[test]
fn every_type() {
    let written = there_and_back(&body(&EVERYDAY).aged(12));
    assert_eq!(written["neck_to_wrist"], "730 mm");
    assert_eq!(written["age_years"], 12);
    assert!(written.get("cross_back").is_none(), "what was not measured is left out");
    for measure in BodyMeasure::ALL {
        assert_eq!(there_and_back(&measure), measure.name());
        assert_eq!(measure.key().parse(), Ok(measure), "the key is read as the name is");
    }
    for shoulders in Shoulders::ALL {
        assert_eq!(there_and_back(&shoulders), shoulders.name());
    }
    let choices = DropShoulderChoices::usual(Craft::Hand);
    let written = there_and_back(&choices);
    assert_eq!(written["shoulders"], "bind off");
    assert_eq!(written["neck_width"], Value::Null);
    let _: Value = there_and_back::<DropShoulderEase>(&choices.ease);
    there_and_back(&EdgeRef::new("back", "left shoulder").less(2));
    let draft = pullover(&EVERYDAY, 200).draft().unwrap();
    for outcome in &draft.outcomes {
        there_and_back::<Outcome>(outcome);
    }
    there_and_back::<Nearness>(&draft.curves[0]);
}

#[test]
fn a_body_out_of_bounds_is_refused_as_new_refuses_it() {
    let read = |text: &str| serde_json::from_str::<Body>(text).unwrap_err().to_string();
    assert_eq!(read(r#"{ "chest": "9.4 m" }"#), "the chest is 940 cm, but must be in 20..=250 cm");
    assert!(read(r#"{ "chest": "94" }"#).starts_with("the length"));
    assert_eq!(
        serde_json::from_str::<Shoulders>("\"stepped\"").unwrap_err().to_string(),
        "the shoulders \"stepped\" cannot be read: write short rows or bind off"
    );
}
