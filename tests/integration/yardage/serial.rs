//! Every value of the room reads what it writes, through the same doors as `new`.

use super::{rw, st};
use loopwright::gauge::{Exact, Length, Spread};
use loopwright::yardage::{
    Agreement, Amount, Area, ArealMass, EdgeFacts, EdgeRule, Estimate, Factor, Fits, Growth,
    Handle, LinearDensity, LoopConstants, LoopLength, LoopsPerArea, Margin, Mass, MassUnit,
    Numbering, Package, PieceAmount, Plan, Purchase, RelaxationState, RelaxedFabric, Remainder,
    Rough, Rules, SeamRule, Section, Source, StitchKind, Stop, Stripe, Structure, Supply, Tally,
    Tightness, Unravelled, Weighed, Worked, Yarn, YarnQuantity, buy, estimate, largest_size,
    unravelled, weighed,
};
use serde::Serialize;
use serde::de::DeserializeOwned;

fn parse<T: core::str::FromStr<Err: core::fmt::Debug>>(text: &str) -> T {
    text.parse().unwrap()
}

/// The text a value writes; it reads as the value again, and one key more is refused.
#[track_caller]
fn round<T>(value: &T) -> String
where
    T: Serialize + DeserializeOwned + PartialEq + core::fmt::Debug + schemars::JsonSchema,
{
    let text = serde_json::to_string(value).unwrap();
    assert_eq!(&serde_json::from_str::<T>(&text).unwrap(), value, "{text}");
    if let Some(open) = text.strip_prefix('{') {
        let more = format!("{{\"nothing_of_the_kind\":1,{open}").replace(",}", "}");
        assert!(serde_json::from_str::<T>(&more).is_err(), "{more}");
    }
    let schema = serde_json::to_string(&schemars::schema_for!(T)).unwrap();
    assert!(schema.contains("type") || schema.contains("oneOf"), "{schema}");
    text
}

#[test]
fn quantities_are_their_text() {
    assert_eq!(round(&parse::<Yarn>("2/28 Nm")), "\"35 5/7 tex x 2\"");
    assert_eq!(round(&parse::<LinearDensity>("10 tex")), "\"10 tex\"");
    assert_eq!(round(&Mass::g(50).unwrap()), "\"50 g\"");
    assert_eq!(round(&parse::<YarnQuantity>("12 m")), "\"12000 mm\"");
    assert_eq!(round(&parse::<Area>("300 cm2")), "\"30000 mm²\"");
    assert_eq!(round(&parse::<ArealMass>("160 g/m2")), "\"160 g/m²\"");
    assert_eq!(round(&parse::<LoopsPerArea>("233 loops/cm2")), "\"233/100 loops/mm²\"");
    assert_eq!(round(&parse::<RelaxedFabric>("1x1 rib, wet")), "\"1x1 rib, wet\"");
    for rule in ["nothing", "2 rows", "wrap", "graft", "7 mm in 10 stitches", "eighth inch"] {
        assert_eq!(round(&parse::<EdgeRule>(rule)), format!("{rule:?}"));
    }
    for margin in ["nothing", "10 %", "7.5 %", "1 package more", "3 packages more"] {
        assert_eq!(round(&parse::<Margin>(margin)), format!("{margin:?}"));
    }
    for (margin, printed) in [("100/3 %", "100/3 %"), ("2 packages", "2 packages more")] {
        assert_eq!(parse::<Margin>(margin).to_string(), printed);
    }
}

#[test]
fn choices_are_their_names() {
    for (system, name) in
        [(Numbering::Cotton, "cotton"), (Numbering::YardsPerPound, "yards per pound")]
    {
        assert_eq!(round(&system), format!("{name:?}"));
    }
    assert_eq!(round(&MassUnit::Ounce), "\"oz\"");
    assert_eq!(round(&Structure::Rib2x1), "\"2x1 rib\"");
    assert_eq!(round(&RelaxationState::Full), "\"full\"");
    assert_eq!(round(&StitchKind::Cable), "\"cable\"");
    assert_eq!(round(&Source::Weighed), "\"a weighed swatch\"");
    assert_eq!(round(&SeamRule::SeamAnd30Cm), "\"seam and 30 cm\"");
    assert_eq!(round(&Handle::Tight), "\"tight\"");
}

fn loops() -> LoopLength {
    LoopLength::stated(Spread::new(parse("9 mm"), parse("10 mm"), parse("12 mm")).unwrap()).unwrap()
}

#[test]
fn evidence_and_loops_are_their_fields() {
    let reading = Unravelled::new(st(20), parse("31 cm"), parse("1 mm")).unwrap();
    assert_eq!(round(&reading), r#"{"stitches":20,"length":"310 mm","read_to":"1 mm"}"#);
    let swatch = Weighed::rectangle(st(20), rw(20), Mass::g(2).unwrap(), Mass::ZERO).unwrap();
    assert_eq!(round(&swatch), r#"{"stitches":460,"mass":"2 g","read_to":"0 g"}"#);
    round(&loops());
    let by_weight = weighed(&swatch, parse("400 m/100 g")).unwrap();
    assert!(round(&by_weight).contains("weighed"));
    round::<Agreement>(&loops().compare(&unravelled(&[reading]).unwrap()).unwrap());
    round(&Factor::tabled(StitchKind::Tuck).unwrap());
    let row = LoopConstants::find(Structure::Plain, RelaxationState::Wet).unwrap();
    assert_eq!(round(row), "\"plain, wet\"");
    round(&Tightness::new(parse("20 tex"), parse("3 mm")).unwrap());
}

#[test]
fn amounts_are_their_fields() {
    let supply = Supply::new("main", parse("100 tex"))
        .fabric("plain", loops())
        .rules(Rules::new().cast_on(EdgeRule::Wrap).edge(EdgeFacts::new().needle(parse("4 mm"))));
    round(&supply);
    round(&Rules::new());
    assert_eq!(serde_json::from_str::<Rules>("{}").unwrap(), Rules::new());
    round(&EdgeFacts::new());
    let tally = Tally::new("back").cast_on(st(9)).stitches("plain", st(90)).seam(parse("50 cm"));
    round(&tally);
    let short: Tally = serde_json::from_str(r#"{"piece":"back","cast_on":9}"#).unwrap();
    assert_eq!(short, Tally::new("back").cast_on(st(9)));
    let answer = estimate(&[tally], &[supply]).unwrap();
    round::<Estimate>(&answer);
    round::<PieceAmount>(&answer.pieces[0]);
    let back = answer.pieces[0].amount;
    assert!(round(&Rough::FourBacks { back }).starts_with(r#"{"four_backs":"#));
    let amount = *answer.total("main").unwrap();
    round::<Amount>(&amount);
    let stripe = Stripe { yarn: "blue", rows: rw(2) };
    let text = serde_json::to_string(&stripe).unwrap();
    assert_eq!(serde_json::from_str::<Stripe<'_>>(&text).unwrap(), stripe);
    let ball = Package::balls("50 g").unwrap().price(450);
    assert_eq!(round(&ball), r#"{"content":"50 g","price":450}"#);
    round::<Purchase>(
        &buy(&amount, parse("100 tex"), &ball, Margin::percent(10).unwrap(), &[]).unwrap(),
    );
    round::<Fits>(&largest_size(&[amount], parse("9 kg")));
}

#[test]
fn growing_pieces_are_their_fields() {
    let even = Growth::even(st(3), st(2), rw(2)).unwrap();
    assert_eq!(round(&even), r#"{"even":{"first":3,"add":2,"every":2}}"#);
    let section = Section { stitches: st(9), rows: rw(4) };
    round(&section);
    round(&Growth::sections(&[section]).unwrap());
    let plan = Plan::new(even).edging(Exact::ONE).unwrap().copies(2).unwrap();
    round(&plan);
    round::<Stop>(&plan.rows_from(Exact::whole(5_000)).unwrap());
    let worked: Worked = parse("60 rows = 24 g");
    round(&worked.read_to(Mass::g(1).unwrap()).unwrap());
    round(&Remainder::weighed(Mass::g(9).unwrap(), Mass::g(1).unwrap()).reserve(parse("2 g")));
}

#[test]
fn what_new_refuses_is_refused() {
    fn refused<T: DeserializeOwned + core::fmt::Debug>(text: &str) {
        assert!(serde_json::from_str::<T>(text).is_err(), "{text}");
    }
    refused::<Mass>("\"-1 g\"");
    refused::<LinearDensity>("\"0 tex\"");
    refused::<Spread<Length>>(r#"{"low":"3 mm","likely":"2 mm","high":"4 mm"}"#);
    refused::<LoopLength>(
        r#"{"length":{"low":"0 mm","likely":"2 mm","high":"4 mm"},"source":"a stated loop length"}"#,
    );
    refused::<Unravelled>(r#"{"stitches":0,"length":"310 mm"}"#);
    refused::<Weighed>(r#"{"stitches":460,"mass":"0 g"}"#);
    refused::<Factor>(r#"{"spread":{"low":"1","likely":"2","high":"11"},"measured":false}"#);
    refused::<Tightness>(r#"{"square":"-1"}"#);
    refused::<Package>(r#"{"content":"0 g"}"#);
    refused::<Growth>(r#"{"even":{"first":0,"every":1}}"#);
    refused::<Growth>(r#"{"sections":[]}"#);
    refused::<Plan>(r#"{"growth":{"even":{"first":1,"every":1}},"copies":0}"#);
    refused::<Worked>(r#"{"rows":0,"took":"24 g"}"#);
    refused::<LoopConstants>("\"1x1 rib, wet\"");
    refused::<Area>("\"-1 mm²\"");
    refused::<ArealMass>("\"-1 g/m²\"");
    refused::<LoopsPerArea>("\"0 loops/cm²\"");
    refused::<Margin>("\"-1 %\"");
    refused::<Margin>("\"1 ball\"");
    refused::<EdgeRule>("\"five widths\"");
}
