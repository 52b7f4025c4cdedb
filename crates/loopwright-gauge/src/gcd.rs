//! Greatest common divisors: the inner loop of every exact sum.

/// Of two numbers of 63 bits and any sign; 1 when both are zero, so that it always
/// divides.
pub(crate) fn narrow(a: i64, b: i64) -> i64 {
    if a == 1 || b == 1 {
        return 1;
    }
    let divisor = binary(a.unsigned_abs(), b.unsigned_abs());
    i64::try_from(divisor).unwrap_or(1).max(1)
}

/// Of two numbers of up to 127 bits; `wide(0, n)` is `n`.
pub(crate) fn wide(a: u128, b: u128) -> u128 {
    match (u64::try_from(a), u64::try_from(b)) {
        (Ok(a), Ok(b)) => binary(a, b).into(),
        _ if b == 0 => a,
        _ => wide(b, a % b),
    }
}

/// By halving and subtracting, which has no division to wait for. `binary(0, n)`
/// is `n`.
fn binary(mut a: u64, mut b: u64) -> u64 {
    if a == 0 {
        return b;
    }
    let twos = (a | b).trailing_zeros();
    a >>= a.trailing_zeros();
    while b != 0 {
        b >>= b.trailing_zeros();
        (a, b) = (a.min(b), a.abs_diff(b));
    }
    a << twos
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn divisors_are_greatest() {
        for a in 0..60_i64 {
            for b in 0..60 {
                let divides = |d: &i64| a % d == 0 && b % d == 0;
                let greatest = (1..60).rev().find(divides).unwrap_or(1);
                let expected = if a == 0 && b == 0 { 1 } else { greatest };
                assert_eq!(narrow(a, -b), expected, "of {a} and {b}");
            }
        }
        let big = 3_u128 << 100;
        assert_eq!(wide(big, 9), 3);
        assert_eq!(wide(0, 7), 7);
    }
}
