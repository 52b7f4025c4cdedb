use alloc::string::String;
use alloc::vec::Vec;
use loopwright_gauge::Length;

/// The yarn a tally is worked in unless [`Tally::in_yarn`] names another.
pub const MAIN_YARN: &str = "main";

/// What was knitted in one yarn of one piece, as counted: no yardage yet.
///
/// Fabrics go by the names that the [`Supply`](crate::Supply) of the yarn gives loop
/// lengths for. Counts add up however they are handed over; they are judged when the
/// estimate is made.
///
/// # Examples
/// ```
/// use loopwright_gauge::Length;
/// use loopwright_yardage::Tally;
/// let back = Tally::new("back")
///     .cast_on(120)
///     .stitches("rib", 120 * 20)
///     .stitches("plain", 120 * 160)
///     .bound_off(120)
///     .seam(Length::cm(50)?)
///     .ends(3);
/// assert_eq!(back.stitches_in("plain"), 19_200);
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct Tally {
    pub(crate) piece: String,
    pub(crate) yarn: String,
    pub(crate) fabrics: Vec<(String, u64)>,
    pub(crate) cast_on: u64,
    pub(crate) bound_off: u64,
    pub(crate) grafted: u64,
    pub(crate) floats: u64,
    /// Length of a seam, and how many of it.
    pub(crate) seams: Vec<(Length, u32)>,
    pub(crate) ends: u32,
    pub(crate) tails: u32,
    pub(crate) waste: u64,
}

impl Tally {
    /// An empty tally of `piece`, in the main yarn.
    #[must_use]
    pub fn new(piece: &str) -> Self {
        Self {
            piece: piece.into(),
            yarn: MAIN_YARN.into(),
            fabrics: Vec::new(),
            cast_on: 0,
            bound_off: 0,
            grafted: 0,
            floats: 0,
            seams: Vec::new(),
            ends: 0,
            tails: 0,
            waste: 0,
        }
    }

    /// A rectangle of `fabric`, cast on and bound off: a swatch, a scarf.
    #[must_use]
    pub fn rectangle(piece: &str, fabric: &str, stitches: u32, rows: u32) -> Self {
        let all = u64::from(stitches) * u64::from(rows);
        Self::new(piece).cast_on(stitches.into()).stitches(fabric, all).bound_off(stitches.into())
    }

    /// The same tally in the yarn of this name: one tally for each colour.
    #[must_use]
    pub fn in_yarn(self, yarn: &str) -> Self {
        Self { yarn: yarn.into(), ..self }
    }

    /// `n` more stitches of `fabric`.
    #[must_use]
    pub fn stitches(mut self, fabric: &str, n: u64) -> Self {
        match self.fabrics.iter_mut().find(|(name, _)| name == fabric) {
            Some((_, so_far)) => *so_far = so_far.saturating_add(n),
            None => self.fabrics.push((fabric.into(), n)),
        }
        self
    }

    /// `n` more stitches cast on.
    #[must_use]
    pub fn cast_on(self, n: u64) -> Self {
        Self { cast_on: self.cast_on.saturating_add(n), ..self }
    }

    /// `n` more stitches bound off.
    #[must_use]
    pub fn bound_off(self, n: u64) -> Self {
        Self { bound_off: self.bound_off.saturating_add(n), ..self }
    }

    /// `n` more stitches grafted.
    #[must_use]
    pub fn grafted(self, n: u64) -> Self {
        Self { grafted: self.grafted.saturating_add(n), ..self }
    }

    /// `n` more stitches that this yarn floats behind while another knits.
    #[must_use]
    pub fn floats(self, n: u64) -> Self {
        Self { floats: self.floats.saturating_add(n), ..self }
    }

    /// One more sewn seam.
    #[must_use]
    pub fn seam(self, length: Length) -> Self {
        self.seams(length, 1)
    }

    /// `n` more sewn seams of this length each.
    #[must_use]
    pub fn seams(mut self, length: Length, n: u32) -> Self {
        if n > 0 {
            self.seams.push((length, n));
        }
        self
    }

    /// `n` more tails with the fixed length of [`Rules::tail`](crate::Rules::tail) beyond
    /// their edge.
    #[must_use]
    pub fn tails(self, n: u32) -> Self {
        Self { tails: self.tails.saturating_add(n), ..self }
    }

    /// `n` more ends to weave in.
    #[must_use]
    pub fn ends(self, n: u32) -> Self {
        Self { ends: self.ends.saturating_add(n), ..self }
    }

    /// `n` more stitches of waste knitting, which is told apart from the yarn.
    #[must_use]
    pub fn waste(self, n: u64) -> Self {
        Self { waste: self.waste.saturating_add(n), ..self }
    }

    /// The piece.
    #[must_use]
    pub fn piece(&self) -> &str {
        &self.piece
    }

    /// The yarn.
    #[must_use]
    pub fn yarn(&self) -> &str {
        &self.yarn
    }

    /// How many stitches of `fabric` there are.
    #[must_use]
    pub fn stitches_in(&self, fabric: &str) -> u64 {
        self.fabrics.iter().find(|(name, _)| name == fabric).map_or(0, |&(_, n)| n)
    }
}
