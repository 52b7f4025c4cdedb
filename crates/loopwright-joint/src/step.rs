//! How the solver's inner steps end early, and reading a place without panicking.

/// Why a step of the solver gives nothing.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub(crate) enum Stop {
    /// It is proved that no counts will do.
    Infeasible,
    /// A number does not fit.
    Large,
}

pub(crate) type Step<T> = Result<T, Stop>;

/// Reading by place: a place outside is reported, not a panic.
pub(crate) trait At<T> {
    fn at(&self, place: usize) -> Step<&T>;
    fn at_mut(&mut self, place: usize) -> Step<&mut T>;
}

impl<T> At<T> for [T] {
    fn at(&self, place: usize) -> Step<&T> {
        self.get(place).ok_or(Stop::Large)
    }

    fn at_mut(&mut self, place: usize) -> Step<&mut T> {
        self.get_mut(place).ok_or(Stop::Large)
    }
}

pub(crate) fn narrow(n: i128) -> Step<i64> {
    i64::try_from(n).map_err(|_| Stop::Large)
}
