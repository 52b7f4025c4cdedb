//! A place in a file: a value and where it stands, read by serde with complaints that
//! name the line and the key.

use core::fmt::{self, Display};
use core::ops::Range;
use serde::de::{
    self, DeserializeSeed, Deserializer, Expected, IntoDeserializer as _, MapAccess, SeqAccess,
    Unexpected, Visitor,
};
use serde::forward_to_deserialize_any;

#[derive(Debug)]
pub(super) struct Place {
    pub(super) value: Value,
    pub(super) span: Range<usize>,
}

#[derive(Debug)]
pub(super) enum Value {
    Nothing,
    Flag(bool),
    /// As it was written.
    Number(String),
    Text(String),
    List(Vec<Place>),
    Table(Vec<(String, Place)>),
}

/// What does not belong, where, and under which keys.
#[derive(Debug)]
pub(super) struct Wrong {
    pub(super) span: Option<Range<usize>>,
    pub(super) keys: Vec<String>,
    pub(super) why: String,
}

impl Wrong {
    pub(super) fn of(why: impl Display) -> Self {
        Self { span: None, keys: Vec::new(), why: why.to_string() }
    }

    pub(super) fn too_deep(span: &Range<usize>) -> Self {
        let why = "too many lists and tables stand in one another here";
        Self { span: Some(span.clone()), ..Self::of(why) }
    }

    /// The innermost place is the one complained of.
    fn at(mut self, span: &Range<usize>) -> Self {
        self.span.get_or_insert_with(|| span.clone());
        self
    }

    fn under(mut self, key: &str) -> Self {
        self.keys.insert(0, key.to_owned());
        self
    }
}

impl Display for Wrong {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(&self.why)
    }
}

impl std::error::Error for Wrong {}

impl de::Error for Wrong {
    fn custom<T: Display>(why: T) -> Self {
        Self::of(why)
    }

    fn invalid_type(found: Unexpected<'_>, wanted: &dyn Expected) -> Self {
        Self::of(format!("must be {wanted}, not {found}"))
    }

    fn invalid_value(found: Unexpected<'_>, wanted: &dyn Expected) -> Self {
        Self::of(format!("must be {wanted}, not {found}"))
    }

    fn unknown_field(key: &str, keys: &'static [&'static str]) -> Self {
        Self::of(format!("has no key {key:?}; the keys are {}", keys.join(", ")))
    }

    fn missing_field(key: &'static str) -> Self {
        Self::of(format!("the key {key:?} is missing"))
    }
}

impl<'de> Deserializer<'de> for &'de Place {
    type Error = Wrong;

    fn deserialize_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Wrong> {
        let read = match &self.value {
            Value::Nothing => visitor.visit_unit(),
            Value::Flag(flag) => visitor.visit_bool(*flag),
            Value::Number(written) => match written.parse() {
                Ok(whole) => visitor.visit_i64(whole),
                Err(_) => visitor.visit_borrowed_str(written),
            },
            Value::Text(text) => visitor.visit_borrowed_str(text),
            Value::List(items) => visitor.visit_seq(Items(items.iter())),
            Value::Table(entries) => visitor.visit_map(Entries { left: entries.iter(), at: None }),
        };
        read.map_err(|wrong: Wrong| wrong.at(&self.span))
    }

    fn deserialize_option<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Wrong> {
        match self.value {
            Value::Nothing => visitor.visit_none(),
            _ => visitor.visit_some(self),
        }
    }

    fn deserialize_newtype_struct<V: Visitor<'de>>(
        self,
        _: &'static str,
        visitor: V,
    ) -> Result<V::Value, Wrong> {
        visitor.visit_newtype_struct(self)
    }

    fn deserialize_enum<V: Visitor<'de>>(
        self,
        _: &'static str,
        _: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Wrong> {
        let read = match &self.value {
            Value::Text(name) => visitor.visit_enum(name.as_str().into_deserializer()),
            Value::Table(entries) => {
                visitor.visit_enum(de::value::MapAccessDeserializer::new(Entries {
                    left: entries.iter(),
                    at: None,
                }))
            }
            _ => Err(Wrong::of("must be a name")),
        };
        read.map_err(|wrong: Wrong| wrong.at(&self.span))
    }

    forward_to_deserialize_any! {
        bool i8 i16 i32 i64 i128 u8 u16 u32 u64 u128 f32 f64 char str string bytes byte_buf
        unit unit_struct seq tuple tuple_struct map struct identifier ignored_any
    }
}

struct Items<'de>(core::slice::Iter<'de, Place>);

impl<'de> SeqAccess<'de> for Items<'de> {
    type Error = Wrong;

    fn next_element_seed<T: DeserializeSeed<'de>>(
        &mut self,
        seed: T,
    ) -> Result<Option<T::Value>, Wrong> {
        let Some(place) = self.0.next() else { return Ok(None) };
        seed.deserialize(place).map(Some).map_err(|wrong| wrong.at(&place.span))
    }
}

struct Entries<'de> {
    left: core::slice::Iter<'de, (String, Place)>,
    at: Option<&'de (String, Place)>,
}

impl<'de> MapAccess<'de> for Entries<'de> {
    type Error = Wrong;

    fn next_key_seed<K: DeserializeSeed<'de>>(
        &mut self,
        seed: K,
    ) -> Result<Option<K::Value>, Wrong> {
        self.at = self.left.next();
        let Some((key, place)) = self.at else { return Ok(None) };
        let read = seed.deserialize(de::value::BorrowedStrDeserializer::new(key));
        read.map(Some).map_err(|wrong: Wrong| wrong.at(&place.span))
    }

    fn next_value_seed<V: DeserializeSeed<'de>>(&mut self, seed: V) -> Result<V::Value, Wrong> {
        let (key, place) = self.at.ok_or_else(|| Wrong::of("a value has no key"))?;
        seed.deserialize(place).map_err(|wrong| wrong.at(&place.span).under(key))
    }
}
