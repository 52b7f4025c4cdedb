use crate::{Exact, Length, OpenRange, choices};

choices! {
    /// Which version of the Craft Yarn Council's chart of fits is meant: "close" is 1 to
    /// 2 in of ease in the older one, and none in the newer.
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::{EaseChart, EaseClass, Length};
    /// assert_eq!(EaseChart::Newer.inches(EaseClass::Close).high, Some(Length::ZERO));
    /// ```
    #[non_exhaustive]
    pub enum EaseChart: "the chart of fits" {
        /// The older chart, in which "very close" is the body's measure or less.
        Older = "older",
        /// The newer chart, in which "very close" is 2 to 4 in less and "close" none.
        Newer = "newer",
    }
}

choices! {
    /// The trade's classes of fit at the chest.
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::EaseClass;
    /// assert_eq!("Very close".parse(), Ok(EaseClass::VeryClose));
    /// assert!(EaseClass::VeryClose < EaseClass::Oversized);
    /// ```
    #[derive(Ord, PartialOrd)]
    #[non_exhaustive]
    pub enum EaseClass: "the class of fit" {
        /// Stretched over the body.
        VeryClose = "very close",
        /// Skimming the body.
        Close = "close",
        /// Also called classic.
        Standard = "standard" | "classic",
        /// Roomy.
        Loose = "loose",
        /// Roomier than loose.
        Oversized = "oversized",
    }
}

impl EaseChart {
    /// The ease of a class as the chart prints it in inches.
    #[must_use]
    pub fn inches(self, class: EaseClass) -> OpenRange<Length> {
        self.ends(class).map(|(inches, _)| Length::literal(Exact::literal(inches * 254, 10)))
    }

    /// The ease of a class as the chart prints it in centimetres, which are rounded.
    #[must_use]
    pub fn centimetres(self, class: EaseClass) -> OpenRange<Length> {
        self.ends(class).map(|(_, millimetres)| Length::literal(Exact::literal(millimetres, 1)))
    }

    /// The classes that `ease` belongs to, in inches or in centimetres as printed: two
    /// where ranges meet, none in a gap between them.
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::{EaseChart, EaseClass, Length};
    /// let classes: Vec<EaseClass> = EaseChart::Older.classes(Length::inches(2)?).collect();
    /// assert_eq!(classes, [EaseClass::Close, EaseClass::Standard]);
    /// # Ok::<(), loopwright_gauge::Error>(())
    /// ```
    pub fn classes(self, ease: Length) -> impl Iterator<Item = EaseClass> {
        EaseClass::ALL.into_iter().filter(move |&class| {
            self.inches(class).contains(&ease) || self.centimetres(class).contains(&ease)
        })
    }

    /// Each end in inches, and in millimetres from the centimetres printed.
    const fn ends(self, class: EaseClass) -> OpenRange<(i64, i64)> {
        const fn range(low: Option<(i64, i64)>, high: Option<(i64, i64)>) -> OpenRange<(i64, i64)> {
            OpenRange { low, high }
        }
        match (self, class) {
            (Self::Older, EaseClass::VeryClose) => range(None, Some((0, 0))),
            (Self::Older, EaseClass::Close) => range(Some((1, 25)), Some((2, 50))),
            (Self::Newer, EaseClass::VeryClose) => range(Some((-4, -100)), Some((-2, -50))),
            (Self::Newer, EaseClass::Close) => range(Some((0, 0)), Some((0, 0))),
            (_, EaseClass::Standard) => range(Some((2, 50)), Some((4, 100))),
            (_, EaseClass::Loose) => range(Some((4, 100)), Some((6, 150))),
            (_, EaseClass::Oversized) => range(Some((6, 150)), None),
        }
    }
}
