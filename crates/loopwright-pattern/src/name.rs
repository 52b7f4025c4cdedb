use alloc::borrow::Cow;
use alloc::string::String;
use core::fmt;

/// What a piece, a part, an edge, a marker or a yarn is called.
///
/// A construction keeps its names in constants, so that a slip is an error of the
/// compiler. Every name must have a letter or digit and at most [`Name::MOST`] bytes, and
/// no control characters; the replay refuses others.
///
/// # Examples
/// ```
/// use loopwright_pattern::Name;
/// const NECK: Name = Name::fixed("left neck edge");
/// assert_eq!(NECK, Name::from(String::from("left neck edge")));
/// assert!(!Name::from("\n").is_sound());
/// ```
#[derive(Clone, Eq, Hash, Ord, PartialEq, PartialOrd)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(transparent))]
pub struct Name(Cow<'static, str>);

impl Name {
    /// The longest name, in bytes.
    pub const MOST: usize = 200;

    /// A name written in the source.
    #[must_use]
    pub const fn fixed(name: &'static str) -> Self {
        Self(Cow::Borrowed(name))
    }

    /// The name as text.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }

    /// Whether it can be printed and told from others.
    #[must_use]
    pub fn is_sound(&self) -> bool {
        self.0.len() <= Self::MOST
            && self.0.chars().any(char::is_alphanumeric)
            && !self.0.chars().any(char::is_control)
    }
}

impl From<&'static str> for Name {
    fn from(name: &'static str) -> Self {
        Self::fixed(name)
    }
}

impl From<String> for Name {
    fn from(name: String) -> Self {
        Self(Cow::Owned(name))
    }
}

impl AsRef<str> for Name {
    fn as_ref(&self) -> &str {
        &self.0
    }
}

impl PartialEq<str> for Name {
    fn eq(&self, other: &str) -> bool {
        self.0 == other
    }
}

impl PartialEq<&str> for Name {
    fn eq(&self, other: &&str) -> bool {
        self.0 == *other
    }
}

impl fmt::Debug for Name {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Debug::fmt(&*self.0, f)
    }
}

impl fmt::Display for Name {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&self.0)
    }
}
