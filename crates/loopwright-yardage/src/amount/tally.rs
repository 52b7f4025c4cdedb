use alloc::string::String;
use alloc::vec::Vec;
use loopwright_gauge::{Length, Rows, Stitches};

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
/// use loopwright_gauge::{Length, Stitches};
/// use loopwright_yardage::Tally;
/// let wide = Stitches::new(120)?;
/// let back = Tally::new("back")
///     .cast_on(wide)
///     .stitches("rib", wide.checked_mul(20)?)
///     .stitches("plain", wide.checked_mul(160)?)
///     .bound_off(wide)
///     .seam(Length::cm(50)?)
///     .ends(3);
/// assert_eq!(back.stitches_in("plain"), 19_200);
/// # Ok::<(), loopwright_yardage::Error>(())
/// ```
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
pub struct Tally {
    pub(crate) piece: String,
    #[cfg_attr(feature = "serde", serde(default = "main_yarn"))]
    pub(crate) yarn: String,
    #[cfg_attr(feature = "serde", serde(default, rename = "stitches"))]
    pub(crate) fabrics: Vec<(String, u64)>,
    #[cfg_attr(feature = "serde", serde(default))]
    pub(crate) cast_on: u64,
    #[cfg_attr(feature = "serde", serde(default))]
    pub(crate) bound_off: u64,
    #[cfg_attr(feature = "serde", serde(default))]
    pub(crate) grafted: u64,
    #[cfg_attr(feature = "serde", serde(default))]
    pub(crate) floats: u64,
    /// Length of a seam, and how many of it.
    #[cfg_attr(feature = "serde", serde(default))]
    pub(crate) seams: Vec<(Length, u32)>,
    #[cfg_attr(feature = "serde", serde(default))]
    pub(crate) ends: u32,
    #[cfg_attr(feature = "serde", serde(default))]
    pub(crate) tails: u32,
    #[cfg_attr(feature = "serde", serde(default))]
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
    pub fn rectangle(piece: &str, fabric: &str, stitches: Stitches, rows: Rows) -> Self {
        let all = u64::from(stitches.get()) * u64::from(rows.get());
        Self::new(piece).cast_on(stitches).loops(fabric, all).bound_off(stitches)
    }

    /// The same tally in the yarn of this name: one tally for each colour.
    #[must_use]
    pub fn in_yarn(self, yarn: &str) -> Self {
        Self { yarn: yarn.into(), ..self }
    }

    /// `n` more stitches of `fabric`.
    #[must_use]
    pub fn stitches(self, fabric: &str, n: Stitches) -> Self {
        self.loops(fabric, n.get().into())
    }

    fn loops(mut self, fabric: &str, n: u64) -> Self {
        match self.fabrics.iter_mut().find(|(name, _)| name == fabric) {
            Some((_, so_far)) => *so_far = so_far.saturating_add(n),
            None => self.fabrics.push((fabric.into(), n)),
        }
        self
    }

    /// `n` more stitches cast on.
    #[must_use]
    pub fn cast_on(self, n: Stitches) -> Self {
        Self { cast_on: self.cast_on.saturating_add(n.get().into()), ..self }
    }

    /// `n` more stitches bound off.
    #[must_use]
    pub fn bound_off(self, n: Stitches) -> Self {
        Self { bound_off: self.bound_off.saturating_add(n.get().into()), ..self }
    }

    /// `n` more stitches grafted.
    #[must_use]
    pub fn grafted(self, n: Stitches) -> Self {
        Self { grafted: self.grafted.saturating_add(n.get().into()), ..self }
    }

    /// `n` more stitches that this yarn floats behind while another knits.
    #[must_use]
    pub fn floats(self, n: Stitches) -> Self {
        Self { floats: self.floats.saturating_add(n.get().into()), ..self }
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
    pub fn waste(self, n: Stitches) -> Self {
        Self { waste: self.waste.saturating_add(n.get().into()), ..self }
    }

    /// All of it `copies` times: two sleeves from the tally of one.
    #[must_use]
    pub fn times(mut self, copies: u32) -> Self {
        let all = |n: u64| n.saturating_mul(copies.into());
        for (_, n) in &mut self.fabrics {
            *n = all(*n);
        }
        for (_, n) in &mut self.seams {
            *n = n.saturating_mul(copies);
        }
        Self {
            cast_on: all(self.cast_on),
            bound_off: all(self.bound_off),
            grafted: all(self.grafted),
            floats: all(self.floats),
            waste: all(self.waste),
            ends: self.ends.saturating_mul(copies),
            tails: self.tails.saturating_mul(copies),
            ..self
        }
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

    /// How many stitches of `fabric` there are in all; the sum may be above what a single
    /// count may be, and is then refused by the estimate.
    #[must_use]
    pub fn stitches_in(&self, fabric: &str) -> u64 {
        self.fabrics.iter().find(|(name, _)| name == fabric).map_or(0, |&(_, n)| n)
    }
}

#[cfg(feature = "serde")]
fn main_yarn() -> String {
    MAIN_YARN.into()
}
