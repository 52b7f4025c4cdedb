//! Measured adults, if a table of them is at hand.
//!
//! `LOOPWRIGHT_BODIES` names a CSV file with columns in millimetres. Without it the test
//! says so and checks a spread of invented bodies instead.

use loopwright::garment::{Body, Draft, DropShoulder, Fabrics, Measure};
use loopwright::gauge::Length;
use loopwright::pattern::{Bed, Craft};

const COLUMNS: [(&str, Measure); 5] = [
    ("chest_circumference_mm", Measure::Chest),
    ("sleeve_length_spine_wrist_mm", Measure::NeckToWrist),
    ("biceps_circumference_flexed_mm", Measure::UpperArm),
    ("wrist_circumference_mm", Measure::Wrist),
    ("head_circumference_mm", Measure::Head),
];

fn fits(body: &Body) -> Result<(), String> {
    for (gauge, craft) in [
        ("28 x 40 / 10 cm", Craft::Machine(Bed::of_needles(250).unwrap())),
        ("14 x 19 / 4 in", Craft::Hand),
    ] {
        let fabrics = Fabrics::plain(gauge.parse().unwrap());
        let garment =
            DropShoulder::new(body.clone(), fabrics, craft).draft().and_then(Draft::finish);
        let garment = garment.map_err(|error| format!("{gauge}: {error}"))?;
        if !garment.seams.holds() {
            return Err(format!("{gauge}: a seam does not hold"));
        }
    }
    Ok(())
}

fn body(millimetres: impl IntoIterator<Item = (Measure, i64)>) -> Body {
    millimetres.into_iter().fold(Body::new(), |body, (measure, mm)| {
        body.with(measure, Length::mm(mm).unwrap()).unwrap()
    })
}

#[test]
fn invented_bodies_of_every_size() {
    for chest in (760..=1400).step_by(40) {
        let arm = 700 + (chest - 760) / 4;
        let measures = [
            (Measure::Chest, chest),
            (Measure::NeckToWrist, arm + 90),
            (Measure::UpperArm, 180 + chest / 8),
            (Measure::Wrist, 120 + chest / 25),
            (Measure::Head, 540 + chest / 40),
            (Measure::BodyLength, 560 + chest / 20),
        ];
        fits(&body(measures)).unwrap_or_else(|why| panic!("chest {chest} mm: {why}"));
    }
}

/// Every tenth body in the ordinary run; all of them with `LOOPWRIGHT_BODIES_EACH=1`.
#[test]
fn measured_bodies() {
    let Ok(path) = std::env::var("LOOPWRIGHT_BODIES") else {
        println!("LOOPWRIGHT_BODIES is not set: no measured bodies were drafted");
        return;
    };
    let each = std::env::var("LOOPWRIGHT_BODIES_EACH").map_or(10, |each| each.parse().unwrap());
    let text = std::fs::read_to_string(&path).unwrap();
    let mut lines = text.lines();
    let header: Vec<&str> = lines.next().unwrap().split(',').collect();
    let column = |name: &str| header.iter().position(|column| *column == name).unwrap();
    let mut drafted = 0;
    for (at, line) in lines.enumerate().step_by(each) {
        let cells: Vec<&str> = line.split(',').collect();
        let mm = |name: &str| cells[column(name)].parse::<i64>().unwrap();
        // The table has no garment length: from the 7th neck vertebra to the crotch height
        // and a hand's breadth less is a hip-length pullover.
        let length = mm("cervicale_height_mm") - mm("crotch_height_mm") - 60;
        let measures = COLUMNS.iter().map(|&(name, measure)| (measure, mm(name)));
        let body = body(measures.chain([(Measure::BodyLength, length)]));
        fits(&body).unwrap_or_else(|why| panic!("line {} of {path}: {why}", at + 2));
        drafted += 1;
    }
    assert!(drafted > 0, "the table has bodies");
    println!("{drafted} measured bodies were drafted, replayed and checked");
}
