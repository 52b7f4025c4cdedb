//! Greatest common divisors: the inner loop of every exact sum.

use num_integer::Integer as _;

/// Of two numbers of 63 bits and any sign; 1 when both are zero, so that it always
/// divides.
#[inline]
pub(crate) fn narrow(a: i64, b: i64) -> i64 {
    if a == 1 || b == 1 {
        return 1;
    }
    a.gcd(&b).max(1)
}

/// Of two numbers of up to 127 bits, in 64 where both fit; `wide(0, n)` is `n`.
pub(crate) fn wide(a: u128, b: u128) -> u128 {
    match (u64::try_from(a), u64::try_from(b)) {
        (Ok(a), Ok(b)) => a.gcd(&b).into(),
        _ => a.gcd(&b),
    }
}
