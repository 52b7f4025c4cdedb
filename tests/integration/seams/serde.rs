//! JSON: the same door as `new`, for every public type; and its schema.

use super::{bound_off, gauge, live, rows, selvedge, stitches};
use loopwright::gauge::{Exact, Length, Repeat, Round, Rows, Stitches};
use loopwright::seams::{
    Buttonholes, ChangedAt, Compared, Edge, EdgeChange, EdgeCount, EdgeKind, EdgeStep, FrontBands,
    Gaps, Holes, Join, Leftover, Mend, OutlinePoint, Pairing, PassRun, Passes, PickUpGroup,
    PickUpLine, PickUpSpacing, Picked, Placement, Rate, RateCandidate, RateKind, Seam, SeamEase,
    SeamReport, SeamSide, Span, Tolerance, Verdict, check_all, rates,
};
use loopwright_tests::assertions::assert_error;
use serde::{Serialize, de::DeserializeOwned};
use serde_json::Value;
use std::fmt::Debug;

/// Writes, reads back and compares, then once more with a key that nobody knows; and the
/// schema names every key that was written, and no other.
fn round_trip<T>(value: &T) -> String
where
    T: Serialize + DeserializeOwned + Debug + PartialEq + schemars::JsonSchema,
{
    let text = serde_json::to_string(value).unwrap();
    let schema = serde_json::to_value(schemars::schema_for!(T)).unwrap();
    if let Value::Object(written) = serde_json::from_str(&text).unwrap()
        && schema["oneOf"].is_null()
        && schema["anyOf"].is_null()
    {
        assert_eq!(schema["additionalProperties"], false, "{schema}");
        assert!(written.keys().all(|key| schema["properties"][key].is_object()), "{schema}");
    }
    assert_eq!(serde_json::from_str::<T>(&text).unwrap(), *value, "{text}");
    if let Some(keys) = text.strip_prefix('{') {
        let more = format!("{{\"unheard of\":1,{keys}");
        assert!(serde_json::from_str::<T>(&more).is_err(), "{more}");
    }
    text
}

fn cap() -> Edge {
    let steps = vec![EdgeStep { rows: rows(2), stitches: stitches(3) }; 4];
    let point =
        |mm| OutlinePoint { across: Length::mm(mm).unwrap(), up: Length::mm(2 * mm).unwrap() };
    Edge::stepped("cap", steps, gauge()).unwrap().with_outline(vec![point(0), point(10)]).unwrap()
}

#[test]
fn edges_come_back_as_they_went() {
    let edges = [live("a", 3), bound_off("b", 4), selvedge("c", 5), cap()];
    for edge in &edges {
        round_trip(edge);
    }
    round_trip(&Edge::joined("all", edges.to_vec()).unwrap());
    round_trip(&Edge::joined("alone", vec![edges[0].clone()]).unwrap());
    round_trip(&EdgeStep { rows: rows(2), stitches: stitches(3) });
    round_trip(&OutlinePoint { across: Length::ZERO, up: Length::mm(-3).unwrap() });
    assert_eq!(round_trip(&EdgeCount::Rows(rows(149))), r#"{"rows":149}"#);
    round_trip(&edges[3].length());
}

#[test]
fn choices_are_written_as_they_are_said() {
    for kind in EdgeKind::ALL {
        assert_eq!(round_trip(&kind), format!("{:?}", kind.to_string()));
    }
    for join in Join::ALL {
        assert_eq!(round_trip(&join), format!("{:?}", join.to_string()));
    }
    for spacing in PickUpSpacing::ALL {
        assert_eq!(round_trip(&spacing), format!("{:?}", spacing.to_string()));
    }
    assert_eq!(round_trip(&Join::BindOffTogether), r#""bind off together""#);
    assert_eq!(round_trip(&RateKind::Convergent), r#""convergent""#);
    assert_eq!(round_trip(&Leftover::Ends), r#""ends""#);
    assert_eq!(round_trip(&ChangedAt::Straight), r#""straight""#);
    assert_eq!(round_trip(&Compared::Lengths), r#""lengths""#);
}

#[test]
fn seams_and_what_is_found_come_back_as_they_went() {
    let cm = |n| Length::cm(n).unwrap();
    for tolerance in [
        Tolerance::near(2, 30),
        Tolerance::eased(Length::ZERO, cm(3)).unwrap(),
        Tolerance::gathered(Exact::ONE, Exact::new(3, 2).unwrap()).unwrap(),
        Join::Eased.tolerance(),
    ] {
        round_trip(&tolerance);
        round_trip::<SeamEase>(&tolerance.ease());
    }
    let hung = Seam::new(Join::HangBack, live("a", 90), live("b", 60)).overlap(stitches(4));
    let sewn = Seam::new(Join::Eased, cap(), selvedge("side", 90));
    round_trip(&hung);
    let report = check_all(&[hung, sewn], &[live("c", 9), live("a", 9)]).unwrap();
    assert!(report.verdicts.iter().all(|verdict| verdict.mend.is_some()));
    for verdict in &report.verdicts {
        round_trip::<Verdict>(verdict);
        round_trip::<SeamSide>(&verdict.a);
        round_trip::<Mend>(verdict.mend.as_ref().unwrap());
    }
    round_trip::<EdgeChange>(report.verdicts[0].mend.as_ref().unwrap().a.as_ref().unwrap());
    round_trip::<SeamReport>(&report);
    let (first, second) = Passes::pair(rows(30), rows(28)).unwrap();
    round_trip::<PassRun>(&first.runs()[0]);
    round_trip(&first);
    round_trip(&second);
    assert_eq!(
        round_trip(&Pairing::new(stitches(60), rows(84)).unwrap()),
        r#"{"first":{"stitches":60},"second":{"rows":84}}"#
    );
}

#[test]
fn picking_up_comes_back_as_it_went() {
    assert_eq!(round_trip(&Rate::new(3, 4).unwrap()), r#"{"pick":3,"of":4}"#);
    for candidate in rates(Exact::new(71, 88).unwrap(), 90).unwrap() {
        round_trip::<RateCandidate>(&candidate);
    }
    let placement = Placement::new(rows(88), stitches(71), PickUpSpacing::Full).unwrap();
    round_trip(&placement);
    round_trip(&placement.groups());
    let line = PickUpLine::new(gauge())
        .along(selvedge("left", 90))
        .corner()
        .along_at(bound_off("back", 40), Rate::new(1, 1).unwrap())
        .along(cap());
    round_trip(&line);
    let alike = PickUpLine::new(gauge()).along(selvedge("one", 9)).along(selvedge("two", 9));
    round_trip(&alike.clone().mirrored());
    round_trip::<Vec<Picked>>(&line.place(stitches(90), PickUpSpacing::Half).unwrap());
    round_trip(&FrontBands::new(&line, &alike, Repeat::even(), Round::HalfUp).unwrap());
    let group: PickUpGroup = serde_json::from_str(r#"{"pick":4,"miss":1}"#).unwrap();
    assert_eq!(group, PickUpGroup::pick(stitches(4)).miss(1));
}

#[test]
fn buttonholes_come_back_as_they_went() {
    let (in_stitches, in_rows) = (
        Buttonholes::new(stitches(100), 7, stitches(4)).unwrap(),
        Buttonholes::new(rows(60), 3, rows(2)).unwrap(),
    );
    assert_eq!(round_trip(&in_stitches), r#"{"total":100,"holes":7,"width":4}"#);
    round_trip(&in_rows);
    let margins = Gaps::Margins { first: stitches(3), last: stitches(5) };
    assert_eq!(round_trip(&margins), r#"{"margins":{"first":3,"last":5}}"#);
    round_trip(&Gaps::<Rows>::Equal);
    round_trip::<Holes<Stitches>>(&in_stitches.place(margins, Leftover::Ends).unwrap());
    round_trip::<Holes<Rows>>(&in_rows.place(Gaps::Equal, Leftover::First).unwrap());
}

#[test]
fn nothing_comes_in_by_another_door() {
    fn refused<T: DeserializeOwned + Debug>(text: &str) {
        assert!(serde_json::from_str::<T>(text).is_err(), "{text}");
    }
    assert_error(
        serde_json::from_str::<Rate>(r#"{"pick":0,"of":4}"#).map_err(|e| e.to_string()),
        "the count of stitches of a rate is 0, but must be in 1..=10000",
    );
    refused::<Placement>(r#"{"places":{"rows":3},"stitches":7,"spacing":"half"}"#);
    refused::<Placement>(r#"{"places":{"rows":3,"stitches":3},"stitches":2,"spacing":"half"}"#);
    refused::<Edge>(r#"{"name":"a","parts":[{"name":"a","kind":"live","gauge":"28x40/10cm"}]}"#);
    refused::<Edge>(r#"{"name":"a","parts":[]}"#);
    refused::<Tolerance>(r#"{"counts":0,"ease":{"by":{"least":"2 cm","most":"1 cm"}}}"#);
    refused::<Span>(r#"{"low":"2 cm","high":"1 cm"}"#);
    refused::<Pairing>(r#"{"first":{"rows":3},"second":{"rows":7}}"#);
    refused::<Passes>(r#"{"runs":[{"bars":3,"times":1}]}"#);
    refused::<Passes>(r#"{"runs":[{"bars":1,"times":0}]}"#);
    refused::<Passes>(r#"{"runs":[]}"#);
    refused::<Buttonholes>(r#"{"total":10,"holes":4,"width":3}"#);
    refused::<Holes>(r#"{"gaps":[10],"width":3}"#);
    refused::<Holes>(r#"{"gaps":[9000000,9000000],"width":3}"#);
    refused::<Join>(r#""glue""#);
}
