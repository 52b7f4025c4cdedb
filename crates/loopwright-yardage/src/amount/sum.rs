/// Numerators of low, likely and high, length then mass, over the denominators of one
/// supply's [`Rates`].
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Sum {
    pub(crate) length: [i128; 3],
    pub(crate) mass: [i128; 3],
}

impl Sum {
    /// `n` times `rate` more; the bounds keep it below 2^127.
    pub(crate) fn add(&mut self, n: i128, rate: &Self) {
        if n == 0 {
            return;
        }
        for (sum, rate) in self.length.iter_mut().zip(rate.length) {
            *sum += n * rate;
        }
        for (sum, rate) in self.mass.iter_mut().zip(rate.mass) {
            *sum += n * rate;
        }
    }
}
