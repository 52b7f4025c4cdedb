//! The trade's yarn weight classes, as published.

use crate::{Exact, Length, OpenRange, PerLength, choices};

choices! {
    /// A yarn weight class of the Craft Yarn Council's standard: advice, never a rule.
    ///
    /// Neighbouring classes overlap, and a gauge may lie in two of them or in none, so
    /// every question is answered with all the classes that fit.
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::YarnClass;
    /// let fitting: Vec<YarnClass> = YarnClass::of_gauge("23/4in".parse()?).collect();
    /// assert_eq!(fitting, [YarnClass::Fine, YarnClass::Light]);
    /// # Ok::<(), loopwright_gauge::Error>(())
    /// ```
    #[derive(Ord, PartialOrd)]
    #[non_exhaustive]
    pub enum YarnClass: "the yarn class" {
        /// 0: fingering, 10-count crochet thread.
        Lace = "lace",
        /// 1: sock, fingering, baby.
        SuperFine = "super fine",
        /// 2: sport, baby.
        Fine = "fine",
        /// 3: double knitting, light worsted.
        Light = "light",
        /// 4: worsted, afghan, aran.
        Medium = "medium",
        /// 5: chunky, craft, rug.
        Bulky = "bulky",
        /// 6: super bulky, roving.
        SuperBulky = "super bulky",
        /// 7: jumbo, roving.
        Jumbo = "jumbo",
    }
}

/// One line of the tables; an end of 0 is open.
struct Row {
    stitches: (u32, u32),
    needle_hundredths: (i64, i64),
    needle_us: (&'static str, &'static str),
    wraps: (u32, u32),
    yards_per_pound: (u32, u32),
    spinners_wraps: (u32, u32),
}

#[rustfmt::skip]
const ROWS: [Row; 8] = [
    Row { stitches: (33, 40), needle_hundredths: (150, 225), needle_us: ("000", "1"), wraps: (30, 0), yards_per_pound: (2401, 0), spinners_wraps: (18, 0) },
    Row { stitches: (27, 32), needle_hundredths: (225, 325), needle_us: ("1", "3"), wraps: (14, 30), yards_per_pound: (1901, 2400), spinners_wraps: (16, 18) },
    Row { stitches: (23, 26), needle_hundredths: (325, 375), needle_us: ("3", "5"), wraps: (12, 18), yards_per_pound: (1201, 1900), spinners_wraps: (14, 15) },
    Row { stitches: (21, 24), needle_hundredths: (375, 450), needle_us: ("5", "7"), wraps: (11, 15), yards_per_pound: (901, 1200), spinners_wraps: (12, 13) },
    Row { stitches: (16, 20), needle_hundredths: (450, 550), needle_us: ("7", "9"), wraps: (9, 12), yards_per_pound: (601, 900), spinners_wraps: (10, 11) },
    Row { stitches: (12, 15), needle_hundredths: (550, 800), needle_us: ("9", "11"), wraps: (6, 9), yards_per_pound: (401, 600), spinners_wraps: (8, 9) },
    Row { stitches: (7, 11), needle_hundredths: (800, 1275), needle_us: ("11", "17"), wraps: (5, 6), yards_per_pound: (0, 400), spinners_wraps: (0, 7) },
    Row { stitches: (0, 6), needle_hundredths: (1275, 0), needle_us: ("17", ""), wraps: (1, 4), yards_per_pound: (0, 0), spinners_wraps: (0, 0) },
];

impl YarnClass {
    const fn row(self) -> &'static Row {
        let [lace, super_fine, fine, light, medium, bulky, super_bulky, jumbo] = &ROWS;
        match self {
            Self::Lace => lace,
            Self::SuperFine => super_fine,
            Self::Fine => fine,
            Self::Light => light,
            Self::Medium => medium,
            Self::Bulky => bulky,
            Self::SuperBulky => super_bulky,
            Self::Jumbo => jumbo,
        }
    }

    /// The number of the class, 0 to 7.
    #[must_use]
    pub const fn number(self) -> u8 {
        self as u8
    }

    /// Knitted stitches in 4 in of stockinette, as the table has it ("4 in (10 cm)").
    ///
    /// Class 6 was 6 to 11 before class 7 existed; this is the newer table.
    #[must_use]
    pub fn stitches_per_4_in(self) -> OpenRange<u32> {
        open(self.row().stitches)
    }

    /// Diameters of the needles.
    #[must_use]
    pub fn needles(self) -> OpenRange<Length> {
        let (low, high) = self.row().needle_hundredths;
        let end = |n| (n > 0).then(|| Length::literal(Exact::literal(n, 100)));
        OpenRange { low: end(low), high: end(high) }
    }

    /// US numbers of the needles; they run from thin to thick, but `000` is below `0`.
    #[must_use]
    pub fn needles_us(self) -> OpenRange<&'static str> {
        let (low, high) = self.row().needle_us;
        OpenRange { low: Some(low), high: Some(high).filter(|label| !label.is_empty()) }
    }

    /// Wraps of the yarn in one inch, as charted for this standard.
    #[must_use]
    pub fn wraps_per_inch(self) -> OpenRange<u32> {
        open(self.row().wraps)
    }

    /// Yards in a pound, as a spinning magazine extended the standard to class 6; other
    /// tables disagree.
    #[must_use]
    pub fn yards_per_pound(self) -> Option<OpenRange<u32>> {
        (self != Self::Jumbo).then(|| open(self.row().yards_per_pound))
    }

    /// Wraps in one inch as spinners count them, from the same extension.
    #[must_use]
    pub fn spinners_wraps_per_inch(self) -> Option<OpenRange<u32>> {
        (self != Self::Jumbo).then(|| open(self.row().spinners_wraps))
    }

    /// The classes `gauge` may belong to, the thinnest first.
    ///
    /// The table has whole stitches, so a class fits a gauge within half a stitch of
    /// its range: 20.5 stitches in 4 in may be medium or light.
    pub fn of_gauge(gauge: PerLength) -> impl Iterator<Item = Self> {
        let stitches = gauge.per(Length::literal(Exact::literal(1016, 10)));
        Self::ALL.into_iter().filter(move |class| {
            let OpenRange { low, high } = class.stitches_per_4_in();
            let low = low.map(|n| Exact::literal(2 * i64::from(n) - 1, 2));
            let high = high.map(|n| Exact::literal(2 * i64::from(n) + 1, 2));
            stitches.as_ref().is_ok_and(|stitches| OpenRange { low, high }.contains(stitches))
        })
    }

    /// The classes whose wraps per inch `wraps` may be, the thinnest first.
    pub fn of_wraps(wraps: u32) -> impl Iterator<Item = Self> {
        Self::ALL.into_iter().filter(move |class| class.wraps_per_inch().contains(&wraps))
    }

    /// The classes that needles of this diameter are advised for, the thinnest first.
    pub fn of_needle(diameter: Length) -> impl Iterator<Item = Self> {
        Self::ALL.into_iter().filter(move |class| class.needles().contains(&diameter))
    }
}

fn open((low, high): (u32, u32)) -> OpenRange<u32> {
    let end = |n| (n > 0).then_some(n);
    OpenRange { low: end(low), high: end(high) }
}
