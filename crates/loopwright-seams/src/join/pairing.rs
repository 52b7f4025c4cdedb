//! How the rows or stitches of two edges are sewn to each other, bar by bar.

use crate::{Counted, Error, PickUpGroup, PickUpSpacing, Placement, bounds, words};
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;
use loopwright_gauge::Stitches;

/// Two unequal counts sewn together: one to one, but now and then two of the longer
/// side to one of the shorter.
///
/// # Examples
/// ```
/// use loopwright_seams::Pairing;
/// // 60 stitches sewn to 84 rows: of every 5 stitches two take two rows.
/// let pairing = Pairing::new(60, 84)?;
/// assert_eq!(pairing.each().take(5).collect::<Vec<_>>(), [1, 2, 1, 1, 2]);
/// # Ok::<(), loopwright_seams::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub struct Pairing {
    placement: Placement,
    first_is_longer: bool,
}

impl Pairing {
    /// Sews `first` rows or stitches to `second`.
    ///
    /// # Errors
    /// When either is zero or above [`bounds::PLACES`], or one is more than twice the
    /// other: that is gathering, and is eased by length.
    pub fn new(first: u32, second: u32) -> Result<Self, Error> {
        for (what, given) in [("the first count", first), ("the second count", second)] {
            if !(1..=bounds::PLACES).contains(&given) {
                return Err(Error::range(what, given, format!("in 1..={}", bounds::PLACES)));
            }
        }
        let (fewer, more) = (first.min(second), first.max(second));
        if more > 2 * fewer {
            let allowed = format!("at most {}, twice the other side", 2 * fewer);
            return Err(Error::range("the longer side of a seam", more, allowed));
        }
        // Groups each closed by its double: a seam that starts with a double puckers.
        let placement = Placement::new(fewer, Stitches::new(more)?, PickUpSpacing::Round)?;
        Ok(Self { placement, first_is_longer: first > second })
    }

    /// Whether the first side is the longer.
    #[must_use]
    pub const fn first_is_longer(self) -> bool {
        self.first_is_longer
    }

    /// How often two are taken at once of the longer side.
    #[must_use]
    pub const fn doubles(self) -> u32 {
        self.placement.stitches() - self.placement.places()
    }

    /// How many of the longer side are taken for each one of the shorter: 1 or 2.
    pub fn each(self) -> impl Iterator<Item = u8> {
        self.placement.each()
    }

    /// Runs of one to one, each closed by `extra` more of the longer side.
    #[must_use]
    pub fn groups(self) -> Vec<PickUpGroup> {
        self.placement.groups()
    }

    /// The seam in words: "one to one, with 1 row more of the back after every 12, 4 in
    /// all".
    #[must_use]
    pub fn words(self, longer: &str, counted: Counted) -> String {
        let doubles = self.doubles();
        if doubles == 0 {
            return format!("one to one, {}", words::times(self.placement.places()));
        }
        let one = words::numbered(1, counted);
        let runs = self.groups();
        let (least, most) = runs
            .iter()
            .filter(|run| run.extra > 0)
            .fold((u32::MAX, 0), |(least, most), run| (least.min(run.pick), most.max(run.pick)));
        if most == 1 {
            return format!(
                "two {counted} of the {longer} to every one, {}",
                words::times(doubles)
            );
        }
        let after = match doubles {
            1 => format!("{most}, near the end"),
            _ if least == most => format!("every {most}, {doubles} in all"),
            _ if least == 1 => format!("every one or two, {doubles} in all"),
            _ => format!("every {least} or {most}, {doubles} in all"),
        };
        format!("one to one, with {one} more of the {longer} after {after}")
    }
}
