use crate::error::Kind;
use crate::{Count, Error, Repeat, bounds};
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// The numbers of a small pattern, stitches or rows, and the sums that hold among
/// them.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Numbers, Repeat, Stitches};
/// let count = |n| Stitches::new(n).map(|count| (count, Repeat::any()));
/// let numbers = Numbers::new([("half".into(), count(61)?), ("back".into(), count(122)?)])?;
/// assert!(numbers.clone().sum(&["half", "half"], "back").is_ok());
/// let refused = numbers.sum(&["half"], "back").unwrap_err();
/// assert_eq!(
///     refused.to_string(),
///     "the sum half = back is 61, but must be 122, as published"
/// );
/// # Ok::<(), loopwright_gauge::Error>(())
/// ```
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(try_from = "Raw<C>", into = "Raw<C>"))]
#[cfg_attr(
    feature = "serde",
    serde(bound(
        serialize = "C: Count + serde::Serialize",
        deserialize = "C: Count + serde::Deserialize<'de>"
    ))
)]
pub struct Numbers<C> {
    numbers: Vec<Number<C>>,
    sums: Vec<Sum>,
}

/// One published count with its name and the repeat it keeps.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Numbers, Repeat, Stitches};
/// let band = ("band".into(), (Stitches::new(32)?, Repeat::multiple_of(4)?));
/// let numbers = Numbers::new([band])?;
/// assert_eq!(numbers.numbers()[0].repeat.to_string(), "multiple of 4");
/// # Ok::<(), loopwright_gauge::Error>(())
/// ```
#[derive(Clone, Debug, Eq, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
pub struct Number<C> {
    /// What the pattern calls it.
    pub name: String,
    /// How many.
    pub count: C,
    /// Which counts it may become.
    #[cfg_attr(feature = "serde", serde(default = "Repeat::any"))]
    pub repeat: Repeat,
}

/// Numbers that add up to another, by name; a name may be added more than once.
///
/// # Examples
/// ```
/// use loopwright_gauge::Sum;
/// let back = Sum { parts: vec!["half".into(), "half".into()], whole: "back".into() };
/// assert_eq!(back.parts.len(), 2);
/// ```
#[derive(Clone, Debug, Eq, Hash, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
pub struct Sum {
    /// What is added up.
    pub parts: Vec<String>,
    /// What it comes to.
    pub whole: String,
}

impl<C: Count> Numbers<C> {
    /// Named counts with their repeats, no name twice.
    ///
    /// # Errors
    /// When a name is given twice, or there are more than [`bounds::NUMBERS`] counts.
    pub fn new(numbers: impl IntoIterator<Item = (String, (C, Repeat))>) -> Result<Self, Error> {
        let number = |(name, (count, repeat))| Number { name, count, repeat };
        Self::checked(numbers.into_iter().take(bounds::NUMBERS + 1).map(number).collect())
    }

    fn checked(numbers: Vec<Number<C>>) -> Result<Self, Error> {
        if numbers.len() > bounds::NUMBERS {
            let (what, given) = ("the number of counts", format!("more than {}", bounds::NUMBERS));
            let allowed = format!("at most {}", bounds::NUMBERS);
            return Err(Kind::Range { what, given, allowed }.into());
        }
        let mut names: Vec<&str> = numbers.iter().map(|number| number.name.as_str()).collect();
        names.sort_unstable();
        let twice = names.iter().zip(names.iter().skip(1)).find(|(one, next)| one == next);
        if let Some((name, _)) = twice {
            let (what, given) = ("the name of a count", format!("{name:?} twice"));
            return Err(Kind::Range { what, given, allowed: "given once".into() }.into());
        }
        Ok(Self { numbers, sums: Vec::new() })
    }

    /// The same numbers, of which `parts` add up to `whole`.
    ///
    /// # Errors
    /// When a name is unknown, or the published counts do not add up.
    pub fn sum(self, parts: &[&str], whole: &str) -> Result<Self, Error> {
        let parts = parts.iter().map(|&part| part.to_owned()).collect();
        self.with(Sum { parts, whole: whole.to_owned() })
    }

    fn with(mut self, sum: Sum) -> Result<Self, Error> {
        for name in sum.parts.iter().chain([&sum.whole]) {
            if self.place(name).is_none() {
                let (what, given) = ("a name in a sum", format!("{name:?}"));
                let allowed = "the name of one of the counts".into();
                return Err(Kind::Range { what, given, allowed }.into());
            }
        }
        let published = |at: usize| self.numbers.get(at).map(|number| number.count);
        if self.missing(&sum, published) != Some(0) {
            return Err(self.does_not_add_up(&sum));
        }
        self.sums.push(sum);
        Ok(self)
    }

    fn does_not_add_up(&self, sum: &Sum) -> Error {
        let count = |name| {
            let number = self.place(name).and_then(|at| self.numbers.get(at));
            number.map_or(0, |number| u64::from(number.count.get()))
        };
        let given: u64 = sum.parts.iter().map(|part| count(part)).sum();
        let text = format!("{} = {} is {given}", sum.parts.join(" + "), sum.whole);
        let allowed = format!("{}, as published", count(&sum.whole));
        Kind::Sum { text, allowed }.into()
    }

    /// The counts, in the order they were given.
    #[must_use]
    pub fn numbers(&self) -> &[Number<C>] {
        &self.numbers
    }

    /// The sums, in the order they were given.
    #[must_use]
    pub fn sums(&self) -> &[Sum] {
        &self.sums
    }

    fn place(&self, name: &str) -> Option<usize> {
        self.numbers.iter().position(|number| number.name == name)
    }

    /// The whole less its parts, with counts looked up by place.
    pub(crate) fn missing(&self, sum: &Sum, count: impl Fn(usize) -> Option<C>) -> Option<i64> {
        let count = |name| self.place(name).and_then(&count).map(|count| i64::from(count.get()));
        let parts = sum.parts.iter().map(|part| count(part)).sum::<Option<i64>>()?;
        Some(count(&sum.whole)? - parts)
    }
}

/// Numbers as they are written.
#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
struct Raw<C> {
    numbers: Vec<Number<C>>,
    #[serde(default)]
    sums: Vec<Sum>,
}

#[cfg(feature = "serde")]
impl<C: Count> TryFrom<Raw<C>> for Numbers<C> {
    type Error = Error;

    fn try_from(raw: Raw<C>) -> Result<Self, Error> {
        raw.sums.into_iter().try_fold(Self::checked(raw.numbers)?, Self::with)
    }
}

#[cfg(feature = "serde")]
impl<C> From<Numbers<C>> for Raw<C> {
    fn from(numbers: Numbers<C>) -> Self {
        Self { numbers: numbers.numbers, sums: numbers.sums }
    }
}
