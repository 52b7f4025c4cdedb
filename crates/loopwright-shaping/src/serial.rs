//! serde through doors that check: answers that are read back must be such as could have
//! been given.

use crate::bounds::range;
use crate::{Circle, Crown, Curve, Doubling, Error, Event, Neck, RowGrowth, ShortRow, ShortRows};
use alloc::vec::Vec;
use loopwright_gauge::{Exact, Rows, Stitches};
use serde::Deserialize;

/// Declares the parts a type is read from, under the same names it is written with.
macro_rules! parts {
    ($($name:ident { $($field:ident: $type:ty),+ $(,)? })+) => {$(
        #[derive(Debug, Deserialize)]
        #[serde(deny_unknown_fields)]
        #[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
        pub(crate) struct $name {
            $($field: $type,)+
        }
    )+};
}

parts! {
    CurveParts {
        stitches: Stitches, rows: Rows, opening: Stitches, events: Vec<Event>,
        closing: Stitches, deviation: Exact,
    }
    NeckParts { centre: Stitches, side: Curve }
    CircleParts { growth: Exact }
    CrownParts { stitches: Stitches, lines: u32, every: Rows, shapings: u32 }
    DoublingParts { start: Stitches }
    RowGrowthParts { start: Stitches, by: Stitches, every: Rows }
    ShortRowsParts { width: Stitches, rows: Vec<ShortRow>, wraps: bool }
}

impl TryFrom<CurveParts> for Curve {
    type Error = Error;

    fn try_from(parts: CurveParts) -> Result<Self, Error> {
        let CurveParts { stitches, rows, opening, events, closing, deviation } = parts;
        let sizes = events.iter().map(|event| u64::from(event.stitches.get())).sum::<u64>();
        let sum = u64::from(opening.get()) + sizes + u64::from(closing.get());
        if sum != u64::from(stitches.get()) {
            let allowed = alloc::format!("{stitches}, as the curve has stitches");
            return Err(Error::range("the sum of the steps of the curve", &sum, allowed));
        }
        let mut last = Rows::ZERO;
        for event in &events {
            if event.row <= last || event.row > rows || event.stitches.is_zero() {
                let allowed = alloc::format!("of some stitches, in {}..={rows}", last.get() + 1);
                return Err(Error::range("the row of a step", &event.row, allowed));
            }
            last = event.row;
        }
        if deviation < Exact::ZERO {
            return Err(Error::range("the deviation of a curve", &deviation, "zero or more"));
        }
        Ok(Self { stitches, rows, opening, events, closing, deviation })
    }
}

impl TryFrom<NeckParts> for Neck {
    type Error = Error;

    fn try_from(NeckParts { centre, side }: NeckParts) -> Result<Self, Error> {
        if !side.opening.is_zero() {
            let allowed = "0: the centre is the opening of both sides";
            return Err(Error::range("the opening of one side of a neck", &side.opening, allowed));
        }
        let halves = u64::from(side.stitches.get()) * 2 + u64::from(centre.get());
        Stitches::try_from(halves)?;
        Ok(Self { centre, side })
    }
}

impl TryFrom<CircleParts> for Circle {
    type Error = Error;

    fn try_from(CircleParts { growth }: CircleParts) -> Result<Self, Error> {
        if growth.is_positive() {
            return Ok(Self { growth });
        }
        Err(Error::range("the growth of a circle", &growth, "above zero"))
    }
}

impl TryFrom<CrownParts> for Crown {
    type Error = Error;

    fn try_from(parts: CrownParts) -> Result<Self, Error> {
        let CrownParts { stitches, lines, every, shapings } = parts;
        let lost = u64::from(lines) * u64::from(shapings);
        let left = u64::from(stitches.get()).saturating_sub(lost);
        let crown = Self::new(stitches, lines, every, left.try_into()?)?;
        let most = crown.shapings;
        range::within("the shaping rounds of a crown", shapings, 0, most)?;
        Ok(crown)
    }
}

impl TryFrom<DoublingParts> for Doubling {
    type Error = Error;

    fn try_from(parts: DoublingParts) -> Result<Self, Error> {
        Self::new(parts.start)
    }
}

impl TryFrom<RowGrowthParts> for RowGrowth {
    type Error = Error;

    fn try_from(parts: RowGrowthParts) -> Result<Self, Error> {
        Self::new(parts.start, parts.by, parts.every)
    }
}

impl TryFrom<ShortRowsParts> for ShortRows {
    type Error = Error;

    fn try_from(ShortRowsParts { width, rows, wraps }: ShortRowsParts) -> Result<Self, Error> {
        Self::checked(width, &rows, wraps)
    }
}
