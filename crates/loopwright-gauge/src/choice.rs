use crate::Error;
use crate::english::list;
use alloc::format;

/// One of a few named things, such as a way of rounding: an enum that
/// [`choices!`](crate::choices) declares.
///
/// A program that offers choices can be written once over this trait.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Choice, Round};
/// fn offered<C: Choice>() -> Vec<&'static str> {
///     C::ALL.iter().map(|choice| choice.name()).collect()
/// }
/// assert_eq!(offered::<Round>(), ["down", "up", "nearest", "half down", "half even", "exact"]);
/// assert_eq!(Round::read("half-up")?, Round::HalfUp);
/// # Ok::<(), loopwright_gauge::Error>(())
/// ```
pub trait Choice: Copy + Eq + 'static {
    /// All of them, in their usual order.
    const ALL: &'static [Self];

    /// How an error names what is chosen, such as "the rounding".
    const WHAT: &'static str;

    /// Its name: lower case, with spaces.
    fn name(self) -> &'static str;

    /// What it means, in a sentence.
    fn about(self) -> &'static str;

    /// Other words it is read from; they are never written.
    fn also(self) -> &'static [&'static str];

    /// The choice with this name. Case does not matter, and hyphens and underscores are
    /// read as spaces.
    ///
    /// # Errors
    /// When there is no such choice; the text lists all there are.
    fn read(text: &str) -> Result<Self, Error> {
        let called = |choice: &Self| {
            same(choice.name(), text) || choice.also().iter().any(|also| same(also, text))
        };
        Self::ALL.iter().copied().find(called).ok_or_else(|| {
            let names = list(Self::ALL.iter().map(|choice| choice.name()), "or");
            Error::parse(Self::WHAT, text, format!("write {names}"))
        })
    }
}

/// Whether `text` says `name`, whatever its case and whatever parts its words.
fn same(name: &str, text: &str) -> bool {
    let plain = |letter: char| match letter {
        '-' | '_' => ' ',
        letter => letter.to_ascii_lowercase(),
    };
    name.chars().eq(text.chars().map(plain))
}

/// Declares an enum of choices: its names once, and from them `ALL`, `name`, `Display`,
/// `FromStr`, [`Choice`], and serde and JSON Schema under the crate's own features
/// `serde` and `schema`.
///
/// Every variant has its documentation, which is also what [`Choice::about`] says, then
/// its name, then any other words it is read from. One may be the `#[default]`, with
/// `#[derive(Default)]` above the enum.
///
/// # Examples
/// ```
/// loopwright_gauge::choices! {
///     /// Which way a piece is knitted.
///     pub enum Way: "the way of knitting" {
///         /// From the hem to the neck.
///         BottomUp = "bottom up",
///         /// From the neck to the hem.
///         TopDown = "top down" | "from the top",
///     }
/// }
/// assert_eq!("Top-Down".parse::<Way>()?, Way::TopDown);
/// assert_eq!("from the top".parse::<Way>()?.to_string(), "top down");
/// assert_eq!(
///     "sideways".parse::<Way>().unwrap_err().to_string(),
///     "the way of knitting \"sideways\" cannot be read: write bottom up or top down"
/// );
/// # Ok::<(), loopwright_gauge::Error>(())
/// ```
#[macro_export]
macro_rules! choices {
    (
        $(#[$meta:meta])*
        $vis:vis enum $Name:ident: $what:literal {
            $($(#[doc = $doc:literal])+ $(#[default $(, $none:tt)*])? $Variant:ident = $text:literal $(| $also:literal)*),+ $(,)?
        }
    ) => {
        $(#[$meta])*
        #[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
        $vis enum $Name {
            $($(#[doc = $doc])+ $(#[default $(, $none)*])? $Variant,)+
        }

        impl $Name {
            /// All of them, in their usual order.
            pub const ALL: [Self; [$($text),+].len()] = [$(Self::$Variant),+];

            /// The name: lower case, with spaces.
            #[must_use]
            pub const fn name(self) -> &'static str {
                match self {
                    $(Self::$Variant => $text,)+
                }
            }
        }

        impl $crate::Choice for $Name {
            const ALL: &'static [Self] = &$Name::ALL;
            const WHAT: &'static str = $what;

            fn name(self) -> &'static str {
                $Name::name(self)
            }

            fn about(self) -> &'static str {
                match self {
                    $(Self::$Variant => ::core::concat!($($doc),+).trim_ascii(),)+
                }
            }

            fn also(self) -> &'static [&'static str] {
                match self {
                    $(Self::$Variant => &[$($also),*],)+
                }
            }
        }

        impl ::core::fmt::Display for $Name {
            fn fmt(&self, f: &mut ::core::fmt::Formatter<'_>) -> ::core::fmt::Result {
                f.pad(self.name())
            }
        }

        impl ::core::str::FromStr for $Name {
            type Err = $crate::Error;

            fn from_str(text: &str) -> ::core::result::Result<Self, $crate::Error> {
                <Self as $crate::Choice>::read(text)
            }
        }

        #[cfg(feature = "serde")]
        impl ::serde::Serialize for $Name {
            fn serialize<S: ::serde::Serializer>(
                &self,
                serializer: S,
            ) -> ::core::result::Result<S::Ok, S::Error> {
                serializer.serialize_str(self.name())
            }
        }

        #[cfg(feature = "serde")]
        impl<'de> ::serde::Deserialize<'de> for $Name {
            fn deserialize<D: ::serde::Deserializer<'de>>(
                deserializer: D,
            ) -> ::core::result::Result<Self, D::Error> {
                $crate::serial::read_choice(deserializer)
            }
        }

        #[cfg(feature = "schema")]
        impl ::schemars::JsonSchema for $Name {
            fn inline_schema() -> bool {
                false
            }

            fn schema_name() -> $crate::schema::Text {
                ::core::stringify!($Name).into()
            }

            fn json_schema(_: &mut ::schemars::SchemaGenerator) -> ::schemars::Schema {
                $crate::schema::of_choice::<Self>()
            }
        }
    };
}
