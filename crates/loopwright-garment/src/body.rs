use crate::Error;
use crate::error::Kind;
use core::fmt;
use loopwright_gauge::{Length, Precision, Unit};

/// A body dimension, named as the standards for clothing sizes name it.
///
/// Girths and lengths follow ISO 8559-1 where it has them; the cross back and the
/// body length are the knitting trade's own.
#[derive(Clone, Copy, Debug, Eq, Hash, Ord, PartialEq, PartialOrd)]
#[non_exhaustive]
pub enum Measure {
    /// Largest girth of the chest or bust, under the arms.
    Chest,
    /// From the 7th neck vertebra over the shoulder and the bent elbow to the wrist.
    NeckToWrist,
    /// From the shoulder point over the bent elbow to the wrist bone.
    ArmLength,
    /// Largest girth of the upper arm.
    UpperArm,
    /// Girth over the wrist bones.
    Wrist,
    /// From the 7th neck vertebra down to where the garment shall end.
    BodyLength,
    /// From armhole to armhole across the back.
    CrossBack,
    /// Largest girth of the head, above the ears.
    Head,
}

impl Measure {
    /// Every dimension.
    pub const ALL: [Self; 8] = [
        Self::Chest,
        Self::NeckToWrist,
        Self::ArmLength,
        Self::UpperArm,
        Self::Wrist,
        Self::BodyLength,
        Self::CrossBack,
        Self::Head,
    ];

    /// The name in words.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Chest => "chest",
            Self::NeckToWrist => "neck-to-wrist length",
            Self::ArmLength => "arm length",
            Self::UpperArm => "upper arm",
            Self::Wrist => "wrist",
            Self::BodyLength => "body length",
            Self::CrossBack => "cross back",
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
        let given = length.display(Unit::Centimetre, Precision::Decimals(2)).to_string();
        Err(Kind::Measure { measure: self, given, least, most }.into())
    }
}

impl fmt::Display for Measure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

/// The dimensions of one wearer, each checked, any of them left out.
///
/// # Examples
/// ```
/// use loopwright_garment::{Body, Measure};
/// let body = Body::new().with(Measure::Chest, "94 cm".parse()?)?;
/// assert_eq!(body.get(Measure::Chest)?, "940 mm".parse()?);
/// assert!(body.get(Measure::Head).is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, Default, Eq, PartialEq)]
pub struct Body {
    lengths: [Option<Length>; Measure::ALL.len()],
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
    pub fn with(mut self, measure: Measure, length: Length) -> Result<Self, Error> {
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

    /// One dimension.
    ///
    /// # Errors
    /// When it was not measured.
    pub fn get(&self, measure: Measure) -> Result<Length, Error> {
        self.find(measure).ok_or_else(|| Kind::NotMeasured { measure }.into())
    }

    /// One dimension, if it was measured.
    #[must_use]
    pub fn find(&self, measure: Measure) -> Option<Length> {
        self.lengths.get(measure as usize).copied().flatten()
    }

    /// From the neck to the wrist: as measured, or half the cross back and the arm.
    ///
    /// # Errors
    /// When neither can be had.
    pub fn neck_to_wrist(&self) -> Result<Length, Error> {
        if let Some(length) = self.find(Measure::NeckToWrist) {
            return Ok(length);
        }
        let arm = self.find(Measure::ArmLength);
        let arm = arm.ok_or(Error::from(Kind::NotMeasured { measure: Measure::NeckToWrist }))?;
        let half_back = self.get(Measure::CrossBack)?.scaled(crate::half()?)?;
        Ok(arm.checked_add(half_back)?)
    }

    /// Whether the wearer is, or may be, a child.
    #[must_use]
    pub fn may_be_child(&self) -> bool {
        match (self.age, self.find(Measure::Chest)) {
            (Some(age), _) => age < Self::CHILD_UNDER,
            (None, Some(chest)) => {
                Length::cm(Self::CHILD_CHEST_CM).is_ok_and(|limit| chest < limit)
            }
            (None, None) => false,
        }
    }
}
