use alloc::string::String;
use alloc::sync::Arc;
use core::fmt;
use core::marker::PhantomData;
use loopwright_gauge::{Count, Rows, Stitches};

/// The name of an unknown that counts stitches, or of one that counts rows.
///
/// Demands and measures take it where they take a name, and a
/// [`Solution`](crate::Solution) gives back a count of the right kind for it.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Exact, Stitches};
/// use loopwright_joint::{Key, Problem, Unknown};
/// let mut problem = Problem::new();
/// let cuff: Key<Stitches> = problem.stitches("cuff", Unknown::near(Exact::new(95, 2)?))?;
/// let solution = problem.solve()?.into_result()?;
/// assert_eq!(solution[&cuff], Stitches::new(48)?);
/// assert_eq!(cuff.name(), "cuff");
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub struct Key<C> {
    name: Arc<str>,
    counts: PhantomData<fn() -> C>,
}

impl<C: Count> Key<C> {
    pub(crate) fn new(name: &str) -> Self {
        Self { name: name.into(), counts: PhantomData }
    }

    /// The name of the unknown.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }
}

impl<C> Clone for Key<C> {
    fn clone(&self) -> Self {
        Self { name: Arc::clone(&self.name), counts: PhantomData }
    }
}

impl<C> fmt::Debug for Key<C> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_tuple("Key").field(&self.name).finish()
    }
}

impl<C> PartialEq for Key<C> {
    fn eq(&self, other: &Self) -> bool {
        self.name == other.name
    }
}

impl<C> Eq for Key<C> {}

impl<C> AsRef<str> for Key<C> {
    fn as_ref(&self) -> &str {
        &self.name
    }
}

impl<C> From<&Key<C>> for String {
    fn from(key: &Key<C>) -> Self {
        (*key.name).into()
    }
}

/// A count of stitches or of rows, whichever its unknown counts.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Rows, Stitches};
/// use loopwright_joint::AnyCount;
/// let count = AnyCount::from(Rows::new(60)?);
/// assert_eq!((count.get(), count.to_string()), (60, "60 rows".to_owned()));
/// assert_eq!(AnyCount::from(Stitches::new(1)?).to_string(), "1 stitch");
/// # Ok::<(), loopwright_gauge::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
pub enum AnyCount {
    /// Stitches.
    Stitches(Stitches),
    /// Rows.
    Rows(Rows),
}

impl AnyCount {
    /// The plain number.
    #[must_use]
    pub const fn get(self) -> u32 {
        match self {
            Self::Stitches(count) => count.get(),
            Self::Rows(count) => count.get(),
        }
    }
}

impl From<Stitches> for AnyCount {
    fn from(count: Stitches) -> Self {
        Self::Stitches(count)
    }
}

impl From<Rows> for AnyCount {
    fn from(count: Rows) -> Self {
        Self::Rows(count)
    }
}

impl fmt::Display for AnyCount {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let what = match (self, self.get()) {
            (Self::Stitches(_), 1) => "stitch",
            (Self::Stitches(_), _) => "stitches",
            (Self::Rows(_), 1) => "row",
            (Self::Rows(_), _) => "rows",
        };
        write!(f, "{} {what}", self.get())
    }
}
