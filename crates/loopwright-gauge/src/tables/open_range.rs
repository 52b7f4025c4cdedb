/// A range of a published table, which may be open at either end.
///
/// # Examples
/// ```
/// use loopwright_gauge::YarnClass;
/// let stitches = YarnClass::Jumbo.stitches_per_4_in(); // 6 and fewer
/// assert!(stitches.contains(&3) && !stitches.contains(&7));
/// ```
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
pub struct OpenRange<T> {
    /// The least, included; `None` when there is none.
    pub low: Option<T>,
    /// The most, included; `None` when there is none.
    pub high: Option<T>,
}

impl<T: Ord> OpenRange<T> {
    /// Whether `value` lies in the range.
    #[must_use]
    pub fn contains(&self, value: &T) -> bool {
        self.low.as_ref().is_none_or(|low| low <= value)
            && self.high.as_ref().is_none_or(|high| value <= high)
    }
}

impl<T> OpenRange<T> {
    /// The same range with both ends turned into something else.
    pub(crate) fn map<U>(self, turn: impl Fn(T) -> U) -> OpenRange<U> {
        OpenRange { low: self.low.map(&turn), high: self.high.map(turn) }
    }
}
