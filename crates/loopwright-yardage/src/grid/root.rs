//! Square roots without floating point: whole parts on a declared grid.

use crate::Error;
use alloc::format;
use loopwright_gauge::{Exact, Round};

/// The square root of `value` (not below zero) in whole parts of `1/parts`, rounded.
///
/// The exact root is rarely rational; this one is off by less than one part.
pub(crate) fn sqrt(value: Exact, parts: u32, round: Round) -> Result<Exact, Error> {
    let (Ok(numer), Ok(denom)) = (u128::try_from(value.numer()), u128::try_from(value.denom()))
    else {
        return Err(Error::range("the number under a root", value, "zero or more"));
    };
    let square = u128::from(parts) * u128::from(parts); // below 2^64
    let scaled = numer.checked_mul(square).ok_or(Error::overflow("the number under a root"))?;
    let floor = (scaled / denom).isqrt();
    let over = Error::overflow("the number under a root");
    let perfect = floor * floor * denom == scaled; // at most `scaled`
    let whole = match round {
        Round::Floor => floor,
        Round::Exact if !perfect => {
            return Err(Error::range("the root", format!("that of {value}"), "a whole part"));
        }
        Round::Ceil | Round::Exact => floor + u128::from(!perfect),
        // Above floor + 1/2 when four times the square is above (2 floor + 1)².
        _ => {
            let half = (2 * floor + 1).checked_pow(2).and_then(|odd| odd.checked_mul(denom));
            let (half, four) = half.zip(scaled.checked_mul(4)).ok_or(over)?;
            floor + u128::from(four > half)
        }
    };
    let whole = i64::try_from(whole).map_err(|_| Error::overflow("the root"))?;
    Ok(Exact::new(whole, parts.into())?)
}
