//! Every type and trait of every room, for programs that use several.
//!
//! Functions stay in their modules, and so do the rooms' errors: [`crate::Error`] takes
//! them all.
//!
//! # Examples
//! ```
//! use loopwright::prelude::*;
//! let gauge: Gauge = "28 x 40 / 10 cm".parse()?;
//! let back = gauge.fit::<Stitches>("52 cm".parse()?, Repeat::even(), Round::HalfUp)?;
//! assert_eq!(back.count, Stitches::new(146)?);
//! # Ok::<(), loopwright::Error>(())
//! ```

pub use crate::garment::{
    Body, BodyMeasure, Draft, DropShoulder, DropShoulderChoices, DropShoulderEase, EdgeRef,
    Fabrics, FinishedPiece, Garment, Made, Nearness, Outcome, SeamPlan, Shoulders, YarnFacts,
    YarnReport,
};
pub use crate::gauge::{
    Choice, Count, CountRange, DimensionalChange, Ease, EaseChart, EaseClass, EdgeStitches, Exact,
    Fitted, Gauge, Length, LengthDisplay, Number, Numbers, OpenRange, Outlier, Parity, PerLength,
    Precision, Reading, ReadingDirection, Regauge, Regauged, Repeat, Round, Rows, Side, Spread,
    Stitches, Sum, Swatch, SwatchGauge, Treatment, Unit, Warning, YarnClass,
};
#[cfg(feature = "serde")]
pub use crate::joint::ProblemForm;
pub use crate::joint::{
    Answer, AnyCount, Conflict, ConflictMember, Demand, Key, Limit, Problem, Release, RoundedCount,
    RoundedMeasure, Solution, TapeMeasure, Unknown,
};
pub use crate::pattern::{
    About, Along, Bed, BindOff, CastOn, Copies, Craft, Entry, Fabric, Facing, Hang, Hanging,
    Heading, Knitted, KnittedEdge, Leg, Loops, Marker, Name, Needle, PickUp, Piece, PieceFile,
    Shape, ShapeMethod, ShapeRow, Sides, Step, Stretch, TableRow,
};
pub use crate::seams::{
    Buttonholes, ChangedAt, Compared, Edge, EdgeChange, EdgeCount, EdgeKind, EdgeStep, FrontBands,
    Gaps, Holes, Join, Leftover, Mend, OutlinePoint, Pairing, PassRun, Passes, PickUpGroup,
    PickUpLine, PickUpSpacing, Picked, Placement, Rate, RateCandidate, RateKind, Seam, SeamEase,
    SeamReport, SeamSide, Span, Tolerance, Verdict,
};
pub use crate::shaping::{
    AtOnce, Bend, Circle, Convention, Crown, Curve, CurveBuilder, CurveWords, Direction, Doubling,
    Edges, Ends, Event, Events, Interval, Larger, LastStep, Neck, NeckBuilder, Order, Outline,
    Phrase, Positions, Remedy, RowGroup, RowGrowth, RowWords, Segment, Segments, ShortRow,
    ShortRows, Slices, Slope, SlopeBuilder, SlopeMethod, SlopeStep, SpacedGroup, SpacedGroups,
    Spacing, SpacingBuilder, Surplus, Taper, TaperBuilder, TaperWords, Technique, Turn, WedgeReach,
};
pub use crate::yardage::{
    Agreement, Amount, Area, ArealMass, EdgeFacts, EdgeRule, Estimate, Estimator, Factor, Fits,
    Growth, Handle, LinearDensity, LoopConstants, LoopLength, LoopsPerArea, Margin, Mass,
    MassDisplay, MassUnit, Numbering, Package, PieceAmount, Plan, Purchase, RelaxationState,
    RelaxedFabric, Remainder, Rough, Rules, SeamRule, Section, Source, StitchKind, Stop, Stripe,
    Structure, Supply, Tally, Tightness, Unravelled, Weighed, Worked, Yarn, YarnQuantity,
};
