use loopwright_gauge::{Length, Rows, Stitches, choices};

choices! {
    /// What an edge is made of.
    ///
    /// # Examples
    /// ```
    /// use loopwright_seams::EdgeKind;
    /// let kind: EdgeKind = "bound off".parse()?;
    /// assert!(kind.is_stitches() && !kind.has_rows());
    /// # Ok::<(), loopwright_gauge::Error>(())
    /// ```
    #[non_exhaustive]
    pub enum EdgeKind: "the kind of an edge" {
        /// Stitches of a closed cast-on.
        CastOn = "cast on",
        /// Open stitches: on needles, on waste yarn, or of an open cast-on.
        Live = "live" | "open",
        /// Stitches bound off.
        BoundOff = "bound off" | "cast off",
        /// Row ends of a straight side.
        Selvedge = "selvedge",
        /// A slanted or curved side: a staircase of rows and stitches.
        Stepped = "stepped",
        /// Edges of several kinds joined into one line.
        Mixed = "mixed",
    }
}

impl EdgeKind {
    /// Whether the edge is counted in stitches only.
    #[must_use]
    pub const fn is_stitches(self) -> bool {
        matches!(self, Self::CastOn | Self::Live | Self::BoundOff)
    }

    /// Whether the edge has row ends.
    #[must_use]
    pub const fn has_rows(self) -> bool {
        matches!(self, Self::Selvedge | Self::Stepped | Self::Mixed)
    }

    /// As a sentence names it.
    pub(crate) const fn in_words(self) -> &'static str {
        match self {
            Self::CastOn => "a cast-on edge",
            Self::Live => "live stitches",
            Self::BoundOff => "a bound-off edge",
            Self::Selvedge => "a selvedge",
            Self::Stepped => "a slanted or curved edge",
            Self::Mixed => "an edge of several kinds",
        }
    }
}

/// One step of a staircase: up `rows`, then `stitches` across.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Rows, Stitches};
/// use loopwright_seams::EdgeStep;
/// let step = EdgeStep { rows: Rows::literal(2), stitches: Stitches::literal(3) };
/// assert_eq!("2 rows 3 st".parse(), Ok(step));
/// assert_eq!(step.to_string(), "2 rows 3 stitches");
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct EdgeStep {
    /// Rows knitted; none when stitches are bound off at once.
    pub rows: Rows,
    /// Stitches gained or lost at the end of those rows.
    pub stitches: Stitches,
}

impl EdgeStep {
    /// The places a stitch can be picked up in: its row ends, and its stitches where two
    /// or more are bound off or cast on; one stitch more or less is worked inside its row.
    ///
    /// # Examples
    /// ```
    /// use loopwright_gauge::{Rows, Stitches};
    /// use loopwright_seams::EdgeStep;
    /// let step = EdgeStep { rows: Rows::literal(4), stitches: Stitches::literal(3) };
    /// assert_eq!(step.places(), 7);
    /// ```
    #[must_use]
    pub const fn places(self) -> u32 {
        match (self.rows.get(), self.stitches.get()) {
            (0, stitches) => stitches,
            (rows, 0 | 1) => rows,
            (rows, stitches) => rows + stitches,
        }
    }
}

/// A corner of an outline, measured from any fixed point of the piece.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Length, Rows, Stitches};
/// use loopwright_seams::{Edge, EdgeStep, OutlinePoint};
/// let corner = |across, up| OutlinePoint {
///     across: Length::literal_mm(across),
///     up: Length::literal_mm(up),
/// };
/// let gauge = "20 x 20 / 10 cm".parse()?;
/// let cap = Edge::read("cap", "4 st, 3 rows", gauge)?;
/// let cap = cap.with_outline(vec![corner(0, 0), corner(20, 15)])?;
/// // The staircase goes 20 mm across and 15 mm up; the line it stands for is 25 mm.
/// assert_eq!(cap.length().low(), Length::literal_mm(35));
/// assert_eq!(cap.outline_length()?.unwrap().low(), Length::literal_mm(25));
/// # Ok::<(), loopwright_seams::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct OutlinePoint {
    /// How far along the rows.
    pub across: Length,
    /// How far along the wales.
    pub up: Length,
}
