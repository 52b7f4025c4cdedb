//! Invented bodies of every size, and measured adults where a table of them is at hand.

use loopwright::garment::{Body, BodyMeasure, Draft, DropShoulder, Fabrics};
use loopwright::gauge::Length;
use loopwright::pattern::{Bed, Craft};

const COLUMNS: [(&str, BodyMeasure); 5] = [
    ("chest_circumference_mm", BodyMeasure::Chest),
    ("sleeve_length_spine_wrist_mm", BodyMeasure::NeckToWrist),
    ("biceps_circumference_flexed_mm", BodyMeasure::UpperArm),
    ("wrist_circumference_mm", BodyMeasure::Wrist),
    ("head_circumference_mm", BodyMeasure::Head),
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

fn body(millimetres: impl IntoIterator<Item = (BodyMeasure, i64)>) -> Body {
    millimetres.into_iter().fold(Body::new(), |body, (measure, mm)| {
        body.with(measure, Length::mm(mm).unwrap()).unwrap()
    })
}

#[test]
fn invented_bodies_of_every_size() {
    let mut drafted = 0;
    for chest in (760..=1400).step_by(40) {
        let arm = 700 + (chest - 760) / 4;
        let measures = [
            (BodyMeasure::Chest, chest),
            (BodyMeasure::NeckToWrist, arm + 90),
            (BodyMeasure::UpperArm, 180 + chest / 8),
            (BodyMeasure::Wrist, 120 + chest / 25),
            (BodyMeasure::Head, 540 + chest / 40),
            (BodyMeasure::BodyLength, 560 + chest / 20),
        ];
        fits(&body(measures)).unwrap_or_else(|why| panic!("chest {chest} mm: {why}"));
        drafted += 1;
    }
    assert_eq!(drafted, 17);
}

/// `LOOPWRIGHT_BODIES` names a CSV file with columns in millimetres; every tenth body of
/// it is drafted, or all of them with `LOOPWRIGHT_BODIES_EACH=1`.
#[test]
#[ignore = "needs a table of measured bodies, named by LOOPWRIGHT_BODIES"]
fn measured_bodies() {
    let path = std::env::var("LOOPWRIGHT_BODIES").expect("LOOPWRIGHT_BODIES names the table");
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
        let body = body(measures.chain([(BodyMeasure::BodyLength, length)]));
        fits(&body).unwrap_or_else(|why| panic!("line {} of {path}: {why}", at + 2));
        drafted += 1;
    }
    assert!(drafted > 0, "the table has bodies");
    println!("{drafted} measured bodies were drafted, replayed and checked");
}
