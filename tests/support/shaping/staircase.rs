//! Curves by trying every staircase.

/// Parts of a stitch that deviations are counted in.
pub const SCALE: i64 = 65_536;

/// What an outline does in a stretch of rows.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub enum Trend {
    /// Becomes steeper: steps never get quicker.
    Slowing,
    /// Becomes flatter: steps never get slower.
    Quickening,
    /// A straight line of so many stitches in so many rows.
    Straight(i64, i64),
}

/// One quarter ellipse or line that fills rows `from..to` and so many stitches.
#[derive(Clone, Copy, Debug)]
pub struct Part {
    /// How the part runs.
    pub trend: Trend,
    /// Whole stitches before and after it.
    pub across: (i64, i64),
    /// Whole rows before and after it.
    pub up: (i64, i64),
}

/// What is asked for.
#[derive(Clone, Debug)]
pub struct Task {
    /// The outline.
    pub parts: Vec<Part>,
    /// Stitches in all.
    pub total: i64,
    /// The most in a step.
    pub most: i64,
    /// First row and period of single steps.
    pub single: (i64, i64),
    /// First row of larger steps; every other row after it.
    pub several: i64,
    /// Whether any number may be done before the first row, and after the last.
    pub open: (bool, bool),
}

impl Part {
    /// Where the outline is in the middle of `row`, in [`SCALE`]ths of a stitch, the
    /// root of an ellipse rounded down.
    #[must_use]
    pub fn at(&self, row: i64) -> i64 {
        let (width, height) = (self.across.1 - self.across.0, self.up.1 - self.up.0);
        // Twice the height above the part's beginning, so as to be whole.
        let above = 2 * (row - self.up.0) - 1;
        match self.trend {
            Trend::Straight(..) => self.across.0 * SCALE + width * SCALE * above / (2 * height),
            Trend::Slowing => self.across.0 * SCALE + root(width, height, 2 * height - above),
            Trend::Quickening => self.across.1 * SCALE - root(width, height, above),
        }
    }
}

/// The largest whole `v` with `v <= width * SCALE * sqrt(1 - (y / 2 height)^2)`.
fn root(width: i64, height: i64, y: i64) -> i64 {
    let (w, h, y) = (i128::from(width * SCALE), i128::from(2 * height), i128::from(y));
    let fits = |v: i128| v * v * h * h <= w * w * (h * h - y * y);
    let (mut low, mut high) = (0, w + 1);
    while high - low > 1 {
        let middle = low + (high - low) / 2;
        if fits(middle) { low = middle } else { high = middle }
    }
    i64::try_from(low).unwrap()
}

/// The largest deviation and the sum of deviations.
pub type Cost = (i64, i64);

/// A step: row, stitches in it, stitches done after it. The opening is at row 0.
pub type Step = (i64, i64, i64);

impl Task {
    fn rows(&self) -> i64 {
        self.parts.last().unwrap().up.1
    }

    fn part(&self, row: i64) -> usize {
        self.parts.iter().position(|part| part.up.0 < row && row <= part.up.1).unwrap()
    }

    /// Whether the fabric allows these steps, by the rules of the curve's page.
    #[must_use]
    pub fn allows(&self, steps: &[Step]) -> bool {
        steps[1..].iter().all(|&(row, stitches, _)| self.legal(row, stitches))
            && steps
                .windows(2)
                .enumerate()
                .all(|(i, pair)| self.follows(i, steps, pair[0], pair[1]))
    }

    fn legal(&self, row: i64, stitches: i64) -> bool {
        let (first, every) = if stitches > 1 { (self.several, 2) } else { self.single };
        stitches <= self.most && row >= first && (row - first) % every == 0
    }

    fn follows(&self, i: usize, steps: &[Step], before: Step, after: Step) -> bool {
        let part = self.part(after.0);
        let trend = self.parts[part].trend;
        let first = before.0 == 0 || self.part(before.0) != part;
        if first {
            return match trend {
                Trend::Straight(across, up) => after.1 <= largest(across, up, self.single.1),
                Trend::Slowing if before.0 == 0 => after.1 == 1 || after.0 == self.several,
                _ => true,
            };
        }
        let gap = after.0 - before.0;
        let gap_before = before.0 - steps[i - 1].0;
        let single_gap = if before.1 == 1 { gap_before } else { 0 };
        if after.1 > 1 && gap > single_gap.max(2) {
            return false;
        }
        let (quick_before, quick) = (quickness(before.1, gap_before), quickness(after.1, gap));
        match trend {
            Trend::Slowing => quick <= quick_before && 2 * after.1 >= before.1,
            Trend::Quickening => quick >= quick_before && after.1 <= 2 * before.1,
            Trend::Straight(across, up) => near(across, up, self.single.1, after.1, gap),
        }
    }

    /// The best staircase: opening and steps as (row, stitches done).
    #[must_use]
    pub fn best(&self) -> Option<(i64, Vec<(i64, i64)>)> {
        let mut best: Option<(Cost, Vec<(i64, i64)>)> = None;
        let opening = if self.open.0 { self.total } else { 0 };
        for opened in 0..=opening {
            let mut steps = vec![(0, opened, opened)];
            self.each(1, &mut steps, &mut |steps| {
                let cost = self.cost(steps);
                let order = |steps: &[Step]| -> Vec<(i64, i64)> {
                    steps.iter().rev().map(|step| (step.0, -step.2)).collect()
                };
                let order = order(steps);
                if best.as_ref().is_none_or(|old| (&cost, &order) < (&old.0, &old.1)) {
                    best = Some((cost, order));
                }
            });
        }
        let (cost, order) = best?;
        Some((cost.0, order.into_iter().rev().map(|(row, done)| (row, -done)).collect()))
    }

    fn each(&self, row: i64, steps: &mut Vec<Step>, see: &mut impl FnMut(&[Step])) {
        let done = steps.last().unwrap().2;
        if row > self.rows() {
            if (done == self.total || self.open.1) && self.allows(steps) {
                see(steps);
            }
            return;
        }
        self.each(row + 1, steps, see);
        for stitches in 1..=self.most.min(self.total - done) {
            if self.legal(row, stitches) {
                steps.push((row, stitches, done + stitches));
                self.each(row + 1, steps, see);
                steps.pop();
            }
        }
    }

    /// The largest deviation and the sum of deviations of these steps.
    #[must_use]
    pub fn cost(&self, steps: &[Step]) -> Cost {
        let off = (1..=self.rows()).map(|row| {
            let done = steps.iter().rfind(|step| step.0 <= row).unwrap().2;
            (done * SCALE - self.parts[self.part(row)].at(row)).abs()
        });
        let off: Vec<i64> = off.collect();
        (off.iter().copied().max().unwrap_or(0), off.iter().sum())
    }
}

/// Orders steps: several before one, more before fewer, a short gap before a long one.
fn quickness(stitches: i64, gap: i64) -> (i64, i64) {
    if stitches > 1 { (stitches, 0) } else { (1, -gap) }
}

/// The larger of the two sizes around a straight line.
fn largest(across: i64, up: i64, single: i64) -> i64 {
    if across * single <= up {
        return 1;
    }
    (1..=2 * across).find(|size| size * up >= across * 2).unwrap()
}

/// Whether a step is one of the two around a straight line.
fn near(across: i64, up: i64, single: i64, stitches: i64, gap: i64) -> bool {
    if across * single <= up {
        let gaps = (1..=up).map(|k| k * single);
        let low = gaps.clone().take_while(|gap| gap * across <= up).last().unwrap();
        let high = gaps.into_iter().find(|gap| gap * across >= up).unwrap();
        return stitches == 1 && low <= gap && gap <= high;
    }
    let low = (0..=2 * across).take_while(|size| size * up <= across * 2).last().unwrap();
    let high = largest(across, up, single);
    (low <= stitches && stitches <= high) || (low <= 1 && stitches == 1)
}
