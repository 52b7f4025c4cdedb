//! JSON and TOML text as one tree, each number as the text that was written.

use super::place::{Place, Value, Wrong};
use core::fmt;
use core::ops::Range;
use serde::de::{Deserialize, Deserializer, MapAccess, Visitor};
use serde_json::value::RawValue;
use toml::de::{DeTable, DeValue};

/// How deep lists and tables may stand in one another.
const DEEPEST: u32 = 32;

pub(super) fn toml(text: &str) -> Result<Place, Wrong> {
    let table = DeTable::parse(text)
        .map_err(|error| Wrong { span: error.span(), ..Wrong::of(error.message()) })?;
    let span = table.span();
    table_of(table.get_ref(), span, DEEPEST)
}

fn table_of(table: &DeTable<'_>, span: Range<usize>, deeper: u32) -> Result<Place, Wrong> {
    let entries = table.iter().map(|(key, value)| {
        Ok((key.get_ref().to_string(), value_of(value.get_ref(), value.span(), deeper)?))
    });
    Ok(Place { value: Value::Table(entries.collect::<Result<_, Wrong>>()?), span })
}

fn value_of(value: &DeValue<'_>, span: Range<usize>, deeper: u32) -> Result<Place, Wrong> {
    let deeper = deeper.checked_sub(1).ok_or_else(|| Wrong::too_deep(&span))?;
    let value = match value {
        DeValue::String(text) => Value::Text(text.to_string()),
        DeValue::Integer(number) => Value::Number(number.as_str().to_owned()),
        DeValue::Float(number) => Value::Number(number.as_str().to_owned()),
        DeValue::Boolean(flag) => Value::Flag(*flag),
        DeValue::Datetime(when) => Value::Text(when.to_string()),
        DeValue::Array(list) => {
            let items = list.iter().map(|item| value_of(item.get_ref(), item.span(), deeper));
            Value::List(items.collect::<Result<_, _>>()?)
        }
        DeValue::Table(table) => return table_of(table, span, deeper),
    };
    Ok(Place { value, span })
}

pub(super) fn json(text: &str) -> Result<Place, Wrong> {
    let raw: &RawValue = serde_json::from_str(text).map_err(|error| {
        let line = text.split_inclusive('\n').take(error.line().saturating_sub(1));
        let at = line.map(str::len).sum();
        Wrong { span: Some(at..at), ..Wrong::of(plain(&error)) }
    })?;
    node(text, raw, DEEPEST)
}

/// What a JSON parser says, without its own line and column.
fn plain(error: &serde_json::Error) -> String {
    let text = error.to_string();
    text.split(" at line ").next().unwrap_or(&text).to_owned()
}

fn node(whole: &str, raw: &RawValue, deeper: u32) -> Result<Place, Wrong> {
    let text = raw.get();
    // The raw value borrows from the whole text, so that it stands where it starts there.
    let start = (text.as_ptr() as usize).saturating_sub(whole.as_ptr() as usize);
    let span = start..start + text.len();
    let deeper = deeper.checked_sub(1).ok_or_else(|| Wrong::too_deep(&span))?;
    let wrong =
        |error: serde_json::Error| Wrong { span: Some(span.clone()), ..Wrong::of(plain(&error)) };
    let value = match text.as_bytes().first() {
        Some(b'"') => Value::Text(serde_json::from_str(text).map_err(wrong)?),
        Some(b'{') => {
            let Entries(entries) = serde_json::from_str(text).map_err(wrong)?;
            let entries =
                entries.into_iter().map(|(key, raw)| Ok((key, node(whole, raw, deeper)?)));
            Value::Table(entries.collect::<Result<_, Wrong>>()?)
        }
        Some(b'[') => {
            let items: Vec<&RawValue> = serde_json::from_str(text).map_err(wrong)?;
            let items = items.into_iter().map(|raw| node(whole, raw, deeper));
            Value::List(items.collect::<Result<_, _>>()?)
        }
        Some(b't' | b'f') => Value::Flag(text == "true"),
        Some(b'n') => Value::Nothing,
        _ => Value::Number(text.to_owned()),
    };
    Ok(Place { value, span })
}

/// The entries of an object in their order, no key twice.
struct Entries<'a>(Vec<(String, &'a RawValue)>);

impl<'de> Deserialize<'de> for Entries<'de> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct EntriesVisitor;
        impl<'de> Visitor<'de> for EntriesVisitor {
            type Value = Entries<'de>;

            fn expecting(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
                out.write_str("an object")
            }

            fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Self::Value, A::Error> {
                let mut seen = std::collections::BTreeSet::new();
                let mut entries = Vec::new();
                while let Some((key, raw)) = map.next_entry::<String, &RawValue>()? {
                    if !seen.insert(key.clone()) {
                        let why = format!("the key {key:?} is given twice; leave one of them out");
                        return Err(serde::de::Error::custom(why));
                    }
                    entries.push((key, raw));
                }
                Ok(Entries(entries))
            }
        }
        deserializer.deserialize_map(EntriesVisitor)
    }
}
