use loopwright::gauge::Length;
use loopwright::yardage::{Amount, LinearDensity, Mass, Spread, Yarn};

#[test]
fn quantities_go_through_their_own_doors() {
    let yarn: Yarn = serde_json::from_str("\"2/28 Nm\"").unwrap();
    let text = serde_json::to_string(&yarn).unwrap();
    assert_eq!(text, "\"35 5/7 tex x 2\"");
    assert_eq!(serde_json::from_str::<Yarn>(&text).unwrap(), yarn);
    assert!(serde_json::from_str::<Mass>("\"-1 g\"").is_err());
    assert!(serde_json::from_str::<LinearDensity>("\"0 tex\"").is_err());
    let disorder = r#"{"low":"3 mm","likely":"2 mm","high":"4 mm"}"#;
    assert!(serde_json::from_str::<Spread<Length>>(disorder).is_err());
    let unknown = r#"{"low":"1 mm","likely":"2 mm","high":"4 mm","best":"2 mm"}"#;
    assert!(serde_json::from_str::<Spread<Length>>(unknown).is_err());
}

#[test]
fn amounts_come_back_as_they_went() {
    let length =
        Spread::new("1 m".parse().unwrap(), "2 m".parse().unwrap(), "3 m".parse().unwrap());
    let yarn: LinearDensity = "30/2 Ne".parse().unwrap();
    let length = length.unwrap();
    let amount = Amount::new(length, length.map(|length| yarn.mass_of(length)).unwrap());
    let text = serde_json::to_string(&amount).unwrap();
    assert_eq!(serde_json::from_str::<Amount>(&text).unwrap(), amount);
}
