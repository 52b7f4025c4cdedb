use super::{bound_off, gauge, live, rows, selvedge, stitches};
use loopwright::gauge::Length;
use loopwright::seams::{Edge, EdgeStep, OutlinePoint, PickUpSpacing, Placement, Rate, Tolerance};
use loopwright_tests::assertions::assert_error;
use serde::{Serialize, de::DeserializeOwned};
use std::fmt::Debug;

fn round_trip<T: Serialize + DeserializeOwned + Debug + PartialEq>(value: &T) {
    let text = serde_json::to_string(value).unwrap();
    assert_eq!(serde_json::from_str::<T>(&text).unwrap(), *value, "{text}");
}

#[test]
fn values_come_back_as_they_went() {
    let steps = vec![EdgeStep { rows: rows(2), stitches: stitches(3) }; 4];
    let point =
        |mm| OutlinePoint { across: Length::mm(mm).unwrap(), up: Length::mm(2 * mm).unwrap() };
    let cap = Edge::stepped("cap", steps, gauge()).unwrap();
    let cap = cap.with_outline(vec![point(0), point(10)]).unwrap();
    let edges = [live("a", 3), bound_off("b", 4), selvedge("c", 5), cap];
    for edge in &edges {
        round_trip(edge);
    }
    round_trip(&Edge::joined("all", edges.to_vec()).unwrap());
    round_trip(&Rate::new(3, 4).unwrap());
    round_trip(&Placement::new(rows(88), stitches(71), PickUpSpacing::Full).unwrap());
    round_trip(&Tolerance::near(2, 30));
    round_trip(&Tolerance::eased(Length::ZERO, Length::cm(3).unwrap()).unwrap());
}

#[test]
fn nothing_comes_in_by_another_door() {
    let refused = |text| serde_json::from_str::<Rate>(text).map_err(|e| e.to_string());
    assert_error(
        refused(r#"{"pick":0,"of":4}"#),
        "the stitches of a rate is 0, but must be in 1..=10000",
    );
    let placement = r#"{"places":{"rows":3},"stitches":7,"spacing":"half"}"#;
    assert!(serde_json::from_str::<Placement>(placement).is_err());
    let edge = r#"{"name":"a","parts":[{"name":"a","kind":"live","gauge":"28x40/10cm"}]}"#;
    assert!(serde_json::from_str::<Edge>(edge).is_err());
    let tolerance = r#"{"counts":0,"ease":{"by":{"least":"2 cm","most":"1 cm"}}}"#;
    assert!(serde_json::from_str::<Tolerance>(tolerance).is_err());
}
