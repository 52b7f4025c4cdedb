use super::{rows, st};
use loopwright::gauge::{Choice, Length, Round};
use loopwright::shaping::{
    AtOnce, Bend, Circle, Convention, Crown, Curve, Direction, Doubling, Edges, Ends, Event,
    Interval, Larger, LastStep, Neck, Order, Outline, Phrase, Remedy, RowGroup, RowGrowth, Segment,
    ShortRow, ShortRows, Side, Slices, Slope, SlopeMethod, SlopeStep, SpacedGroup, Spacing,
    Surplus, Taper, Technique, Turn, WedgeReach,
};
use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_json::{Value, json};
use std::fmt::Debug;

/// What is written is read back the same, and with a key too many refused.
#[track_caller]
fn back<T: Serialize + DeserializeOwned + PartialEq + Debug>(value: &T) {
    let json = serde_json::to_value(value).unwrap();
    assert_eq!(&serde_json::from_value::<T>(json.clone()).unwrap(), value, "{json}");
    if let Value::Object(mut keys) = json {
        keys.insert("unheard_of".into(), 1.into());
        assert!(serde_json::from_value::<T>(Value::Object(keys)).is_err());
    }
}

/// Every choice, in one spelling, however its words are parted.
#[track_caller]
fn choices<C: Choice + Serialize + DeserializeOwned + Debug>() {
    for choice in C::ALL {
        back(choice);
        assert_eq!(serde_json::to_value(choice).unwrap(), json!(choice.name()));
        let parted = choice.name().replace(' ', "_");
        assert_eq!(&serde_json::from_value::<C>(json!(parted)).unwrap(), choice);
        assert_eq!(&C::read(&choice.name().to_uppercase().replace(' ', "-")).unwrap(), choice);
    }
}

#[test]
fn choices_come_back() {
    choices::<Bend>();
    choices::<Convention>();
    choices::<Direction>();
    choices::<Edges>();
    choices::<Ends>();
    choices::<Larger>();
    choices::<LastStep>();
    choices::<Order>();
    choices::<Side>();
    choices::<SlopeMethod>();
    choices::<Surplus>();
    choices::<Technique>();
    choices::<WedgeReach>();
}

#[test]
fn answers_come_back() {
    let taper = Taper::builder(st(72), st(156), rows(196)).edges(Edges::Both).build().unwrap();
    taper.events().take(2).for_each(|event: Event| back(&event));
    taper.segments().take(2).for_each(|segment: Segment| back(&segment));
    back(&taper.words());
    back(&Interval { every: rows(4), stitches: st(1) });
    let slope = Slope::builder(st(16), 3, Larger::Last).last_step(LastStep::Free).build().unwrap();
    back(&slope);
    slope.steps().for_each(|step: SlopeStep| back(&step));
    let row = Spacing::increase(7, st(60)).unwrap();
    back(&row);
    row.groups().for_each(|group: SpacedGroup| back(&group));
    back(&row.words());
    back(&RowGroup { plain: st(3) });
    back(&Phrase::Repeat { body: vec![Phrase::Item { item: 4, times: 3 }], times: 2 });
    let remedy: Remedy = Taper::between(st(40), st(80), rows(10)).unwrap_err().remedy().unwrap();
    back(&remedy);
    for text in ["nothing", "nearest", "12", "at least 12"] {
        back(&text.parse::<AtOnce>().unwrap());
    }
    let neck = Neck::round(st(33), rows(22)).unwrap();
    back(&neck);
    let curve: &Curve = neck.side();
    back(curve);
    back(&curve.words(Direction::Decrease));
    let short = ShortRows::raised(st(60), st(20), rows(8), Side::Left).unwrap();
    back(&short);
    back(&short.clone().without_wraps());
    short.turns().for_each(|turn: Turn| back(&turn));
    short.rows().iter().for_each(|row: &ShortRow| back(row));
    let gauge = "28x40/10cm".parse().unwrap();
    back(&Circle::flat(gauge).unwrap());
    back(&Slices::new(Length::cm(80).unwrap(), gauge, 6, Round::HalfUp).unwrap());
    back(&Crown::new(st(88), 8, rows(2), st(8)).unwrap());
    back(&Doubling::new(st(9)).unwrap());
    back(&RowGrowth::new(st(8), st(8), rows(2)).unwrap());
}

#[test]
fn answers_that_could_not_have_been_given_are_refused() {
    fn refused<T: DeserializeOwned + Debug>(value: &impl Serialize, key: &str, changed: Value) {
        let mut json = serde_json::to_value(value).unwrap();
        json[key] = changed;
        assert!(serde_json::from_value::<T>(json.clone()).is_err(), "{json}");
    }
    let neck = Neck::round(st(33), rows(22)).unwrap();
    refused::<Curve>(neck.side(), "stitches", json!(99));
    refused::<Curve>(neck.side(), "rows", json!(1));
    refused::<Curve>(neck.side(), "deviation", json!("-1"));
    refused::<Neck>(&neck, "side", json!(1));
    let short = ShortRows::raised(st(60), st(20), rows(8), Side::Left).unwrap();
    refused::<ShortRows>(&short, "width", json!(30));
    refused::<ShortRows>(&short, "rows", json!([{"row": 2, "from": 0, "to": 9, "ends": "right"}]));
    refused::<ShortRows>(&short, "rows", json!([{"row": 1, "from": 2, "to": 9, "ends": "right"}]));
    let crown = Crown::new(st(88), 8, rows(2), st(8)).unwrap();
    refused::<Crown>(&crown, "lines", json!(7));
    refused::<Crown>(&crown, "shapings", json!(12));
    refused::<RowGrowth>(&RowGrowth::new(st(8), st(8), rows(2)).unwrap(), "every", json!(0));
    let circle = Circle::flat("28x40/10cm".parse().unwrap()).unwrap();
    refused::<Circle>(&circle, "growth", json!("0"));
}

#[test]
fn what_was_planned_comes_back() {
    let taper = Taper::builder(st(72), st(156), rows(196))
        .edges(Edges::Both)
        .plain_after(rows(20))
        .order(Order::QuickFirst)
        .build()
        .unwrap();
    let json = serde_json::to_string(&taper).unwrap();
    assert_eq!(serde_json::from_str::<Taper>(&json).unwrap(), taper);

    let slope = Slope::builder(st(16), 3, Larger::Last).build().unwrap();
    let json = serde_json::to_string(&slope).unwrap();
    assert_eq!(serde_json::from_str::<Slope>(&json).unwrap(), slope);

    let row = Spacing::builder(st(80), Technique::TwoTogether, 10, Convention::HalfGaps)
        .mirrored()
        .avoid(st(40), st(44))
        .build();
    let row = row.unwrap_or_else(|_| {
        Spacing::builder(st(80), Technique::TwoTogether, 10, Convention::HalfGaps).build().unwrap()
    });
    let json = serde_json::to_string(&row).unwrap();
    assert_eq!(serde_json::from_str::<Spacing>(&json).unwrap(), row);

    let (across, up) = (Length::cm(9).unwrap(), Length::cm(8).unwrap());
    let outline = Outline::start().line(across, up).unwrap();
    let outline = outline.quarter(across, up, Bend::Slowing).unwrap();
    let json = serde_json::to_string(&outline).unwrap();
    assert_eq!(serde_json::from_str::<Outline>(&json).unwrap(), outline);
}

#[test]
fn what_new_refuses_serde_refuses() {
    let refused = |json: Value| serde_json::from_value::<Taper>(json).unwrap_err();
    let odd = json!({ "from": 40, "to": 43, "rows": 20, "edges": "both" });
    assert_eq!(
        refused(odd).to_string(),
        "the change of stitches is 3, but must be an even number, half at each edge"
    );
    let unknown = json!({ "from": 40, "to": 44, "rows": 20, "edge": "both" });
    assert!(refused(unknown).to_string().starts_with("unknown field `edge`"));

    let slope = json!({
        "stitches": 3, "turns": 5, "larger": "last", "method": "bind_off", "last_step": "costs rows"
    });
    assert_eq!(
        serde_json::from_value::<Slope>(slope).unwrap_err().to_string(),
        "a slope of 3 stitches has at most 3 steps, not 5"
    );
    let outline = json!([{ "line": { "across": "-2 cm", "up": "1 cm" } }]);
    assert_eq!(
        serde_json::from_value::<Outline>(outline).unwrap_err().to_string(),
        "the way across of an outline is -20 mm, but must be zero or more: an outline never \
         turns back"
    );
}

#[test]
fn defaults_may_be_left_out() {
    let taper: Taper = serde_json::from_value(json!({ "from": 24, "to": 20, "rows": 20 })).unwrap();
    assert_eq!(taper, Taper::builder(st(24), st(20), rows(20)).build().unwrap());
}
