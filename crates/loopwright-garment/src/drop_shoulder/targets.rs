//! From a body and choices to the lengths that the garment shall have.

use super::DropShoulderChoices;
use crate::error::Kind;
use crate::{Body, BodyMeasure, Error, half};
use loopwright_gauge::{Exact, Length, Precision, Unit};

pub(super) struct Targets {
    /// Across the back, flat.
    pub(super) width: Length,
    pub(super) neck_width: Length,
    pub(super) neck_depth: Length,
    /// From the hem's lower edge to the highest point of the back.
    pub(super) body_length: Length,
    pub(super) hem: Length,
    pub(super) armhole: Length,
    pub(super) shoulder_drop: Length,
    pub(super) sleeve_top: Length,
    pub(super) wrist: Length,
    pub(super) sleeve_length: Length,
    pub(super) cuff: Length,
    pub(super) neckband: Length,
    pub(super) head: Length,
    pub(super) stretch: Exact,
}

impl Targets {
    pub(super) fn new(body: &Body, choices: &DropShoulderChoices) -> Result<Self, Error> {
        check(choices)?;
        let eased = |key, measure, ease: Length| -> Result<Length, Error> {
            let length = body.get(measure)?.checked_add(ease)?;
            positive(key, "a measure with its ease", length)
        };
        let width = eased("ease.chest", BodyMeasure::Chest, choices.ease.chest)?.scaled(half()?)?;
        let sleeve_top = eased("ease.upper_arm", BodyMeasure::UpperArm, choices.ease.upper_arm)?;
        let wrist = eased("ease.wrist", BodyMeasure::Wrist, choices.ease.wrist)?;
        let head = body.get(BodyMeasure::Head)?;
        let neck_width = neck_width(choices, width, head)?;
        let neck_depth = match choices.neck_depth {
            Some(depth) => depth,
            None => neck_width.scaled(Exact::new(2, 5)?)?,
        };
        let targets = Self {
            width,
            neck_width,
            neck_depth,
            body_length: body.get(BodyMeasure::BodyLength)?,
            hem: choices.hem,
            armhole: sleeve_top.scaled(half()?)?,
            shoulder_drop: choices.shoulder_drop,
            sleeve_top,
            wrist,
            sleeve_length: body.neck_to_wrist()?.checked_sub(width.scaled(half()?)?)?,
            cuff: choices.cuff,
            neckband: choices.neckband,
            head,
            stretch: choices.neck_stretch,
        };
        targets.leave_room(body)?;
        Ok(targets)
    }

    /// The straight part of the side, from the hem to the armhole.
    pub(super) fn side(&self) -> Result<Length, Error> {
        let above = self.armhole.checked_add(self.shoulder_drop)?.checked_add(self.hem)?;
        Ok(self.body_length.checked_sub(above)?)
    }

    /// The sleeve above its cuff.
    pub(super) fn sleeve(&self) -> Result<Length, Error> {
        Ok(self.sleeve_length.checked_sub(self.cuff)?)
    }

    fn leave_room(&self, body: &Body) -> Result<(), Error> {
        if !self.side()?.is_positive() {
            return Err(cannot(
                &["body_length", "hem", "ease.upper_arm", "shoulder_drop"],
                format!(
                    "the body length of {} has no room for a hem of {}, an armhole of {} and a shoulder drop of {}; lengthen the body or shorten one of them",
                    cm(self.body_length),
                    cm(self.hem),
                    cm(self.armhole),
                    cm(self.shoulder_drop)
                ),
            ));
        }
        if !self.sleeve()?.is_positive() {
            return Err(cannot(
                &["neck_to_wrist", "ease.chest", "cuff"],
                format!(
                    "the sleeve would be {} long with its cuff of {}: half the body's width is more than the neck-to-wrist length leaves; give less ease at the chest or a shorter cuff",
                    cm(self.sleeve_length),
                    cm(self.cuff)
                ),
            ));
        }
        let above_armhole = self.armhole.checked_add(self.shoulder_drop)?;
        if self.neck_depth >= above_armhole || self.neck_depth <= self.shoulder_drop {
            return Err(cannot(
                &["neck_depth", "shoulder_drop", "neck_width"],
                format!(
                    "a front neck {} deep must be deeper than the shoulder drop of {} and end above the armhole mark at {}",
                    cm(self.neck_depth),
                    cm(self.shoulder_drop),
                    cm(above_armhole)
                ),
            ));
        }
        match body.find(BodyMeasure::CrossBack) {
            Some(cross_back) if self.width < cross_back => Err(cannot(
                &["ease.chest", "cross_back"],
                format!(
                    "the body would be {} wide, but the cross back is {}: the shoulders would not drop; give more ease at the chest",
                    cm(self.width),
                    cm(cross_back)
                ),
            )),
            _ => Ok(()),
        }
    }
}

/// A third of the body's width is the handbook's neck (zanotowane.pl/713/7786); the
/// opening of a neck two fifths as deep as it is wide is about 7/3 of its width (a half
/// ellipse and the straight back), and that, stretched, must pass the head.
fn neck_width(choices: &DropShoulderChoices, width: Length, head: Length) -> Result<Length, Error> {
    if let Some(given) = choices.neck_width {
        return Ok(given);
    }
    let third = width.scaled(Exact::new(1, 3)?)?;
    let stretched = Exact::ONE.checked_add(choices.neck_stretch)?;
    let for_head = head.scaled(Exact::new(3, 7)?.checked_div(stretched)?)?;
    Ok(third.max(for_head))
}

fn check(choices: &DropShoulderChoices) -> Result<(), Error> {
    let positive_ones = [
        ("hem", "the hem", Some(choices.hem)),
        ("cuff", "the cuff", Some(choices.cuff)),
        ("neckband", "the neckband", Some(choices.neckband)),
        ("neck_width", "the neck's width", choices.neck_width),
        ("neck_depth", "the neck's depth", choices.neck_depth),
    ];
    for (key, what, length) in positive_ones {
        length.map(|length| positive(key, what, length)).transpose()?;
    }
    let others = [
        ("shoulder_drop", "the shoulder drop", choices.shoulder_drop),
        ("sleeve_plain", "the plain top of the sleeve", choices.sleeve_plain),
    ];
    for (key, what, length) in others {
        within(key, what, length, Length::ZERO, "zero or more and at most 300 cm")?;
    }
    if choices.neck_stretch < Exact::ZERO || choices.neck_stretch > Exact::whole(2) {
        let (key, what) = ("neck_stretch", "the stretch of the neck");
        let (given, allowed) = (choices.neck_stretch.to_string(), "in 0..=2".into());
        return Err(Kind::Choice { key, what, given, allowed }.into());
    }
    Ok(())
}

fn positive(key: &'static str, what: &'static str, length: Length) -> Result<Length, Error> {
    let least = Length::from_millimetres(Exact::literal(1, 1_000))?;
    within(key, what, length, least, "above zero and at most 300 cm")
}

fn within(
    key: &'static str,
    what: &'static str,
    length: Length,
    least: Length,
    allowed: &str,
) -> Result<Length, Error> {
    if (least..=Length::literal_mm(3_000)).contains(&length) {
        return Ok(length);
    }
    Err(Kind::Choice { key, what, given: cm(length), allowed: allowed.into() }.into())
}

fn cannot(keys: &'static [&'static str], why: String) -> Error {
    Kind::CannotBe { keys, why }.into()
}

pub(super) fn cm(length: Length) -> String {
    length.display(Unit::Centimetre, Precision::Decimals(1)).to_string()
}
