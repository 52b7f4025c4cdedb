use crate::count::Count;
use crate::error::Kind;
use crate::{Error, Exact, Length, PerLength, Repeat, Round};
use alloc::format;

/// A chosen count, with what it was chosen from and what the choice cost.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
#[non_exhaustive]
pub struct Fitted<C> {
    /// The count to knit.
    pub count: C,
    /// The exact, unrounded count that was asked for.
    pub ideal: Exact,
    /// The length the count really gives.
    pub length: Length,
    /// That length less the length asked for: positive is too long.
    pub residual: Length,
    /// The least that length may come out at, given the error of the gauge.
    pub low: Length,
    /// The most it may come out at; both are `length` for a gauge without error.
    pub high: Length,
}

pub(crate) fn fit<C: Count>(
    gauge: PerLength,
    asked: Length,
    repeat: Repeat,
    round: Round,
) -> Result<Fitted<C>, Error> {
    if asked < Length::ZERO {
        let allowed = "zero or more".into();
        return Err(
            Kind::Range { what: "the length to fit", given: format!("{asked}"), allowed }.into()
        );
    }
    let ideal = gauge.per(asked)?;
    let count = C::new(choose(ideal, repeat, round)?)?;
    let length = gauge.length_of(count.get().into())?;
    let residual = length.checked_sub(asked)?;
    Ok(Fitted { count, ideal, length, residual, low: length, high: length })
}

/// The allowed count that `round` chooses for `ideal`, never below the smallest.
fn choose(ideal: Exact, repeat: Repeat, round: Round) -> Result<u32, Error> {
    let repeats = ideal
        .checked_sub(repeat.offset().into())?
        .checked_div(repeat.multiple().into())?
        .to_whole(round)
        .map_err(|_| Kind::NotWhole {
            what: "the count of repeats",
            given: format!("{ideal} stitches or rows as a {repeat}"),
        })?;
    let count = i128::from(repeats) * i128::from(repeat.multiple()) + i128::from(repeat.offset());
    crate::count::check("the fitted count", count.max(repeat.smallest().into()))
}
