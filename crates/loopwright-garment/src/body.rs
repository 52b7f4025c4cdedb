use crate::Error;
use crate::error::Kind;
use loopwright_gauge::{Exact, Length, choices};

choices! {
    /// A body dimension, named as the standards for clothing sizes name it.
    ///
    /// Girths and lengths follow ISO 8559-1 where it has them; the cross back and the
    /// body length are the knitting trade's own.
    ///
    /// # Examples
    /// ```
    /// use loopwright_garment::BodyMeasure;
    /// assert_eq!("upper-arm".parse::<BodyMeasure>()?, BodyMeasure::UpperArm);
    /// assert_eq!(BodyMeasure::NeckToWrist.to_string(), "neck to wrist length");
    /// assert_eq!(BodyMeasure::Head.bounds_cm(), (25, 75));
    /// # Ok::<(), loopwright_gauge::Error>(())
    /// ```
    #[derive(Ord, PartialOrd)]
    #[non_exhaustive]
    pub enum BodyMeasure: "the body measure" {
        /// Largest girth of the chest or bust, under the arms.
        Chest = "chest" | "bust",
        /// From the 7th neck vertebra over the shoulder and the bent elbow to the wrist.
        NeckToWrist = "neck to wrist length" | "neck to wrist",
        /// From the shoulder point over the bent elbow to the wrist bone.
        ArmLength = "arm length",
        /// Largest girth of the upper arm.
        UpperArm = "upper arm",
        /// Girth over the wrist bones.
        Wrist = "wrist",
        /// From the 7th neck vertebra down to where the garment shall end.
        BodyLength = "body length",
        /// From armhole to armhole across the back.
        CrossBack = "cross back",
        /// Largest girth of the head, above the ears.
        Head = "head",
    }
}

impl BodyMeasure {
    /// The one word that a plan, and a body in JSON, calls it by.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Chest => "chest",
            Self::NeckToWrist => "neck_to_wrist",
            Self::ArmLength => "arm_length",
            Self::UpperArm => "upper_arm",
            Self::Wrist => "wrist",
            Self::BodyLength => "body_length",
            Self::CrossBack => "cross_back",
            Self::Head => "head",
        }
    }

    /// The least and the most it may be, in whole centimetres: wide enough for a
    /// newborn and for the largest adult, narrow enough to catch a slip of the pen.
    #[must_use]
    pub const fn bounds_cm(self) -> (i64, i64) {
        match self {
            Self::Chest => (20, 250),
            Self::NeckToWrist => (15, 130),
            Self::ArmLength => (8, 100),
            Self::UpperArm => (8, 80),
            Self::Wrist => (6, 40),
            Self::BodyLength => (12, 150),
            Self::CrossBack => (10, 80),
            Self::Head => (25, 75),
        }
    }

    /// Checks a length against the bounds.
    ///
    /// # Errors
    /// When it lies outside them.
    pub fn check(self, length: Length) -> Result<Length, Error> {
        let (least, most) = self.bounds_cm();
        if (Length::cm(least)?..=Length::cm(most)?).contains(&length) {
            return Ok(length);
        }
        Err(Kind::Measure { measure: self, given: length, least, most }.into())
    }
}

/// The dimensions of one wearer, each checked, any of them left out.
///
/// # Examples
/// ```
/// use loopwright_garment::{Body, BodyMeasure};
/// let body = Body::new().with(BodyMeasure::Chest, "94 cm".parse()?)?;
/// assert_eq!(body.get(BodyMeasure::Chest)?, "940 mm".parse()?);
/// assert!(body.get(BodyMeasure::Head).is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, Default, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(try_from = "Raw", into = "Raw"))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Body {
    lengths: [Option<Length>; BodyMeasure::ALL.len()],
    age: Option<u32>,
}

impl Body {
    /// Under this age in years the cautions for children's clothes are shown (the
    /// scope of EN 14682 ends at the 14th birthday).
    pub const CHILD_UNDER: u32 = 14;

    /// Without an age, a chest below this many centimetres may be a child's (the Craft
    /// Yarn Council's youth sizes end at 82.5 cm and its women's begin at 71 cm).
    pub const CHILD_CHEST_CM: i64 = 83;

    /// A body not measured yet.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// The same body with one dimension more.
    ///
    /// # Errors
    /// When the length is outside the bounds of the measure.
    pub fn with(mut self, measure: BodyMeasure, length: Length) -> Result<Self, Error> {
        let length = measure.check(length)?;
        if let Some(place) = self.lengths.get_mut(measure as usize) {
            *place = Some(length);
        }
        Ok(self)
    }

    /// The same body with the wearer's age in years.
    #[must_use]
    pub const fn aged(mut self, years: u32) -> Self {
        self.age = Some(years);
        self
    }

    /// The wearer's age in years, if it is known.
    #[must_use]
    pub const fn age(&self) -> Option<u32> {
        self.age
    }

    /// One dimension.
    ///
    /// # Errors
    /// When it was not measured.
    pub fn get(&self, measure: BodyMeasure) -> Result<Length, Error> {
        self.find(measure).ok_or_else(|| Kind::NotMeasured { measure }.into())
    }

    /// One dimension, if it was measured.
    #[must_use]
    pub fn find(&self, measure: BodyMeasure) -> Option<Length> {
        self.lengths.get(measure as usize).copied().flatten()
    }

    /// From the neck to the wrist: as measured, or half the cross back and the arm.
    ///
    /// # Errors
    /// When neither can be had.
    pub fn neck_to_wrist(&self) -> Result<Length, Error> {
        if let Some(length) = self.find(BodyMeasure::NeckToWrist) {
            return Ok(length);
        }
        let arm = self.find(BodyMeasure::ArmLength);
        let arm =
            arm.ok_or(Error::from(Kind::NotMeasured { measure: BodyMeasure::NeckToWrist }))?;
        let half_back = self.get(BodyMeasure::CrossBack)?.scaled(Exact::literal(1, 2))?;
        Ok(arm.checked_add(half_back)?)
    }

    /// Whether the wearer is, or may be, a child.
    #[must_use]
    pub fn may_be_child(&self) -> bool {
        match (self.age, self.find(BodyMeasure::Chest)) {
            (Some(age), _) => age < Self::CHILD_UNDER,
            (None, Some(chest)) => {
                Length::cm(Self::CHILD_CHEST_CM).is_ok_and(|limit| chest < limit)
            }
            (None, None) => false,
        }
    }
}

/// A body as it is written: lengths by the keys of a plan, what was not measured left
/// out.
#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
struct Raw {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    chest: Option<Length>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    neck_to_wrist: Option<Length>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    arm_length: Option<Length>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    upper_arm: Option<Length>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    wrist: Option<Length>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    body_length: Option<Length>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    cross_back: Option<Length>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    head: Option<Length>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    age_years: Option<u32>,
}

#[cfg(feature = "serde")]
impl TryFrom<Raw> for Body {
    type Error = Error;

    fn try_from(raw: Raw) -> Result<Self, Error> {
        let lengths = [
            (BodyMeasure::Chest, raw.chest),
            (BodyMeasure::NeckToWrist, raw.neck_to_wrist),
            (BodyMeasure::ArmLength, raw.arm_length),
            (BodyMeasure::UpperArm, raw.upper_arm),
            (BodyMeasure::Wrist, raw.wrist),
            (BodyMeasure::BodyLength, raw.body_length),
            (BodyMeasure::CrossBack, raw.cross_back),
            (BodyMeasure::Head, raw.head),
        ];
        let mut body = Self { age: raw.age_years, ..Self::new() };
        for (measure, length) in lengths {
            if let Some(length) = length {
                body = body.with(measure, length)?;
            }
        }
        Ok(body)
    }
}

#[cfg(feature = "serde")]
impl From<Body> for Raw {
    fn from(body: Body) -> Self {
        let find = |measure| body.find(measure);
        Self {
            chest: find(BodyMeasure::Chest),
            neck_to_wrist: find(BodyMeasure::NeckToWrist),
            arm_length: find(BodyMeasure::ArmLength),
            upper_arm: find(BodyMeasure::UpperArm),
            wrist: find(BodyMeasure::Wrist),
            body_length: find(BodyMeasure::BodyLength),
            cross_back: find(BodyMeasure::CrossBack),
            head: find(BodyMeasure::Head),
            age_years: body.age,
        }
    }
}
