//! Work counted in steps, so that every search comes back, and with the same answer on
//! every machine.

/// Tables of one window may take this much work; beyond it the search splits instead.
pub(crate) const CELLS: u64 = 1 << 18;

/// Work left. One step is about one cell of a table.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Budget {
    left: u64,
    pub(crate) cells: u64,
}

impl Budget {
    pub(crate) const fn new(steps: u64) -> Self {
        Self { left: steps, cells: CELLS }
    }

    pub(crate) const fn left(&self) -> u64 {
        self.left
    }

    pub(crate) const fn is_spent(&self) -> bool {
        self.left == 0
    }

    /// Spends `work`, or says that it is not there.
    pub(crate) const fn spend(&mut self, work: u64) -> bool {
        let enough = self.left > work;
        self.left = self.left.saturating_sub(work);
        enough
    }

    /// At most `steps` of what is left, to be given back with [`Self::give_back`].
    pub(crate) const fn take(&mut self, steps: u64) -> Self {
        let taken = if steps < self.left { steps } else { self.left };
        self.left -= taken;
        Self { left: taken, cells: self.cells }
    }

    pub(crate) const fn give_back(&mut self, rest: Self) {
        self.left = self.left.saturating_add(rest.left);
    }
}
