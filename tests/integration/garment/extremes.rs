//! The largest and smallest numbers that fit the types: an answer or a refusal, at once.

use super::{EVERYDAY, body, pullover};
use loopwright::garment::{
    Body, BodyMeasure, Draft, DropShoulder, DropShoulderChoices, Fabrics, Shoulders, YarnFacts,
};
use loopwright::gauge::{Exact, Gauge, Length};
use loopwright::pattern::Craft;
use loopwright_tests::assertions::assert_error;

fn everyday() -> Draft {
    pullover(&EVERYDAY, 200).draft().unwrap()
}

#[test]
fn copies_and_times() {
    for times in [0, 1_001, u32::MAX] {
        let mut draft = everyday();
        draft.seams[3].times = times;
        let text = format!(
            "the ends of the neckband is to be made {times} times, but must be made in 1..=1000"
        );
        assert_error(draft.finish(), &text);
        let mut draft = everyday();
        draft.pieces[0].copies = times;
        assert!(draft.finish().unwrap_err().is_range());
    }
    let mut draft = everyday();
    let last = draft.seams.len() - 1;
    draft.seams[last].times = Draft::MOST_TIMES;
    let garment = draft.finish();
    if let Ok(garment) = garment {
        let yarn = garment.yarn(&YarnFacts::new("2/17 Nm".parse().unwrap())).unwrap();
        assert!(yarn.total().length.likely() > Length::ZERO);
    }
}

#[test]
fn hidden_stitches() {
    let mut draft = everyday();
    draft.seams[4].a[0].hidden = u32::MAX;
    assert!(draft.finish().is_err());
}

#[test]
fn lengths_at_their_bounds() {
    let (most, least) = ("1000000 m", "-1000000 m");
    for length in [most, least, "0 mm", "0.001 mm"] {
        let Ok(length) = length.parse::<Length>() else { continue };
        for choose in 0..9 {
            let mut choices = DropShoulderChoices::usual(Craft::Hand);
            let fields = [
                &mut choices.hem,
                &mut choices.cuff,
                &mut choices.neckband,
                &mut choices.shoulder_drop,
                &mut choices.sleeve_plain,
                &mut choices.ease.chest,
                &mut choices.ease.upper_arm,
                &mut choices.ease.wrist,
            ];
            match fields.into_iter().nth(choose) {
                Some(field) => *field = length,
                None => choices.neck_width = Some(length),
            }
            for shoulders in Shoulders::ALL {
                choices.shoulders = shoulders;
                let fabrics = Fabrics::plain("20 x 30 / 10 cm".parse().unwrap());
                let drafted = DropShoulder::new(body(&EVERYDAY), fabrics, Craft::Hand)
                    .choose(choices.clone())
                    .draft()
                    .and_then(Draft::finish);
                if let Err(why) = drafted {
                    assert!(why.to_string().len() > 20, "{why}");
                }
            }
        }
    }
}

#[test]
fn gauges_beyond_all_yarns() {
    let span = Length::cm(10).unwrap();
    let ends = [Exact::new(1, 10).unwrap(), Exact::whole(150)];
    for (stitches, rows) in
        [(ends[0], ends[0]), (ends[0], ends[1]), (ends[1], ends[0]), (ends[1], ends[1])]
    {
        let gauge = Gauge::new(stitches, rows, span).unwrap();
        let drafted =
            DropShoulder::new(body(&EVERYDAY), Fabrics::plain(gauge), Craft::Hand).draft();
        if let Err(why) = drafted.and_then(Draft::finish) {
            assert!(why.to_string().len() > 20, "{why}");
        }
    }
}

#[test]
fn ages() {
    for (years, child) in [(0, true), (13, true), (14, false), (u32::MAX, false)] {
        assert_eq!(Body::new().aged(years).may_be_child(), child);
        assert_eq!(Body::new().aged(years).age(), Some(years));
    }
    assert!(Body::new().get(BodyMeasure::Head).unwrap_err().is_missing());
}
