use loopwright_gauge::{Exact, Length};
use loopwright_pattern::Craft;
use loopwright_shaping::Order;

/// What a drop-shoulder pullover leaves open.
#[derive(Clone, Debug, Eq, PartialEq)]
#[non_exhaustive]
pub struct Choices {
    /// Width beyond the body.
    pub ease: Ease,
    /// Height of the ribbed hem.
    pub hem: Length,
    /// Height of the ribbed cuffs.
    pub cuff: Length,
    /// Height of the neckband.
    pub neckband: Length,
    /// Width of the neck; without one, a third of the body or what the head needs,
    /// whichever is more.
    pub neck_width: Option<Length>,
    /// Depth of the front neck below the highest point of the back; without one, two
    /// fifths of the neck's width.
    pub neck_depth: Option<Length>,
    /// How much the shoulder ends below the neck; zero for a straight shoulder.
    pub shoulder_drop: Length,
    /// How a sloped shoulder is knitted.
    pub shoulders: Shoulders,
    /// How far the finished neckband stretches: 2/5 is two fifths wider.
    pub neck_stretch: Exact,
    /// The order of rates along the sleeve.
    pub sleeve_order: Order,
    /// Rows at the top of the sleeve that stay plain.
    pub sleeve_plain: Length,
}

/// Width beyond the body; below zero for a close fit.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
#[non_exhaustive]
pub struct Ease {
    /// Round the chest.
    pub chest: Length,
    /// Round the upper arm.
    pub upper_arm: Length,
    /// Round the wrist.
    pub wrist: Length,
}

/// How a sloped shoulder is knitted.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub enum Shoulders {
    /// By short rows; the stitches stay live and the shoulders are bound off together.
    ShortRows,
    /// By bind-offs in steps; the shoulders are sewn.
    BindOff,
}

impl Choices {
    /// The usual choices: 10 cm of ease at the chest, 5 cm at the upper arm and 4 cm at
    /// the wrist, 6 cm hems and cuffs, a 2.5 cm neckband and straight shoulders.
    ///
    /// The chest is within the published "standard" range of 5 to 10 cm, the wrist about
    /// the published inch and a half (trade figures; see the tests). A 1x1 rib relaxes by
    /// about 30 % of its width (D. J. Spencer, *Knitting Technology*), so a neckband
    /// stretches back by about two fifths.
    #[must_use]
    pub fn usual(craft: Craft) -> Self {
        let mm = |n| Length::mm(n).unwrap_or(Length::ZERO);
        Self {
            ease: Ease { chest: mm(100), upper_arm: mm(50), wrist: mm(40) },
            hem: mm(60),
            cuff: mm(60),
            neckband: mm(25),
            neck_width: None,
            neck_depth: None,
            shoulder_drop: Length::ZERO,
            shoulders: if craft.is_machine() { Shoulders::ShortRows } else { Shoulders::BindOff },
            neck_stretch: Exact::new(2, 5).unwrap_or(Exact::ZERO),
            sleeve_order: Order::SlowFirst,
            sleeve_plain: mm(20),
        }
    }
}
