use loopwright_gauge::{Exact, Length, choices};
use loopwright_pattern::Craft;
use loopwright_shaping::Order;

/// What a drop-shoulder pullover leaves open; [`DropShoulder::draft`] checks them.
///
/// In JSON a width or depth of the neck that is left out, or is `null`, is found from
/// the body.
///
/// [`DropShoulder::draft`]: crate::DropShoulder::draft
///
/// # Examples
/// ```
/// use loopwright_garment::{DropShoulderChoices, Shoulders};
/// use loopwright_pattern::Craft;
/// let mut choices = DropShoulderChoices::usual(Craft::Hand);
/// assert_eq!(choices.shoulders, Shoulders::BindOff);
/// choices.hem = "5 cm".parse()?;
/// choices.neck_width = Some("18 cm".parse()?);
/// # Ok::<(), loopwright_gauge::Error>(())
/// ```
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct DropShoulderChoices {
    /// Width beyond the body.
    pub ease: DropShoulderEase,
    /// Height of the ribbed hem.
    pub hem: Length,
    /// Height of the ribbed cuffs.
    pub cuff: Length,
    /// Height of the neckband.
    pub neckband: Length,
    /// Width of the neck; without one, a third of the body or what the head needs,
    /// whichever is more.
    #[cfg_attr(feature = "serde", serde(default))]
    pub neck_width: Option<Length>,
    /// Depth of the front neck below the highest point of the back; without one, two
    /// fifths of the neck's width.
    #[cfg_attr(feature = "serde", serde(default))]
    pub neck_depth: Option<Length>,
    /// How much the shoulder ends below the neck; zero for a straight shoulder.
    pub shoulder_drop: Length,
    /// How a sloped shoulder is knitted.
    pub shoulders: Shoulders,
    /// How far the finished neckband stretches: 2/5 is two fifths wider.
    pub neck_stretch: Exact,
    /// The order of rates along the sleeve.
    #[cfg_attr(feature = "schema", schemars(with = "String"))]
    pub sleeve_order: Order,
    /// Rows at the top of the sleeve that stay plain.
    pub sleeve_plain: Length,
}

/// Width beyond the body; below zero for a close fit.
///
/// # Examples
/// ```
/// use loopwright_garment::DropShoulderChoices;
/// use loopwright_pattern::Craft;
/// let ease = DropShoulderChoices::usual(Craft::Hand).ease;
/// assert_eq!(ease.chest, "10 cm".parse()?);
/// # Ok::<(), loopwright_gauge::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct DropShoulderEase {
    /// Round the chest.
    pub chest: Length,
    /// Round the upper arm.
    pub upper_arm: Length,
    /// Round the wrist.
    pub wrist: Length,
}

choices! {
    /// How a sloped shoulder is knitted.
    ///
    /// # Examples
    /// ```
    /// use loopwright_garment::Shoulders;
    /// assert_eq!("short rows".parse::<Shoulders>()?, Shoulders::ShortRows);
    /// # Ok::<(), loopwright_gauge::Error>(())
    /// ```
    pub enum Shoulders: "the shoulders" {
        /// By short rows; the stitches stay live and the shoulders are bound off together.
        ShortRows = "short rows",
        /// By bind-offs in steps; the shoulders are sewn.
        BindOff = "bind off",
    }
}

impl DropShoulderChoices {
    /// The usual choices: 10 cm of ease at the chest, 5 cm at the upper arm and 4 cm at
    /// the wrist, 6 cm hems and cuffs, a 2.5 cm neckband and straight shoulders.
    ///
    /// The chest is within the published "standard" range of 5 to 10 cm, the wrist about
    /// the published inch and a half (trade figures; see the tests). A 1x1 rib relaxes by
    /// about 30 % of its width (D. J. Spencer, *Knitting Technology*), so a neckband
    /// stretches back by about two fifths.
    #[must_use]
    pub fn usual(craft: Craft) -> Self {
        let mm = Length::literal_mm;
        Self {
            ease: DropShoulderEase { chest: mm(100), upper_arm: mm(50), wrist: mm(40) },
            hem: mm(60),
            cuff: mm(60),
            neckband: mm(25),
            neck_width: None,
            neck_depth: None,
            shoulder_drop: Length::ZERO,
            shoulders: if craft.is_machine() { Shoulders::ShortRows } else { Shoulders::BindOff },
            neck_stretch: Exact::literal(2, 5),
            sleeve_order: Order::SlowFirst,
            sleeve_plain: mm(20),
        }
    }
}
