use super::{rows, st};
use loopwright::gauge::Length;
use loopwright::shaping::{
    Bend, Convention, Edges, Larger, Order, Outline, Slope, Spacing, Taper, Technique,
};
use serde_json::json;

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
    let refused = |json: serde_json::Value| serde_json::from_value::<Taper>(json).unwrap_err();
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
