//! A TOML file read key by key, so that every complaint names its line and key.

use crate::answer::Failure;
use crate::input::Source;
use core::fmt::Display;
use core::ops::Range;
use core::str::FromStr;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

/// The whole file as a table.
pub(crate) fn table(source: &Source) -> Result<Spanned<DeTable<'_>>, Failure> {
    DeTable::parse(source.text()).map_err(|error| source.refuse(error.span(), "", error.message()))
}

/// One table of the file, or nothing where the file leaves it out.
pub(crate) struct Section<'a> {
    source: &'a Source,
    path: String,
    table: Option<&'a DeTable<'a>>,
    span: Option<Range<usize>>,
}

impl<'a> Section<'a> {
    /// The whole file; `keys` are the ones it may have.
    pub(crate) fn whole(
        source: &'a Source,
        table: &'a Spanned<DeTable<'a>>,
        keys: &[&str],
    ) -> Result<Self, Failure> {
        let section =
            Self { source, path: String::new(), table: Some(table.get_ref()), span: None };
        section.refuse_unknown(keys)?;
        Ok(section)
    }

    /// The table called `key`; `keys` are the ones it may have.
    pub(crate) fn section(&self, key: &str, keys: &[&str]) -> Result<Self, Failure> {
        let path = self.path_of(key);
        let Some((span, value)) = self.find(key) else {
            return Ok(Self { source: self.source, path, table: None, span: None });
        };
        let DeValue::Table(table) = value else {
            return Err(self.source.refuse(
                Some(span),
                &path,
                format!("must be a table, written [{path}]"),
            ));
        };
        let section = Self { source: self.source, path, table: Some(table), span: Some(span) };
        section.refuse_unknown(keys)?;
        Ok(section)
    }

    /// Whether the file has this table at all.
    pub(crate) const fn is_given(&self) -> bool {
        self.table.is_some()
    }

    /// The value of `key` read as a `T`, if it is there.
    pub(crate) fn optional<T: FromStr<Err: Display>>(
        &self,
        key: &str,
    ) -> Result<Option<T>, Failure> {
        self.read(key, |text| text.parse::<T>().map_err(|error| error.to_string()))
    }

    /// The value of `key` given to `read`, if it is there; what `read` refuses is told
    /// with its place.
    pub(crate) fn read<T, E: Display>(
        &self,
        key: &str,
        read: impl FnOnce(&str) -> Result<T, E>,
    ) -> Result<Option<T>, Failure> {
        let Some((span, value)) = self.find(key) else { return Ok(None) };
        let text = match value {
            DeValue::String(text) => text.as_ref(),
            DeValue::Integer(number) => number.as_str(),
            DeValue::Float(number) => number.as_str(),
            other => {
                let why = format!("must be a text or a number, not a {}", other.type_str());
                return Err(self.source.refuse(Some(span), &self.path_of(key), why));
            }
        };
        read(text).map(Some).map_err(|why| self.source.refuse(Some(span), &self.path_of(key), why))
    }

    /// The value of `key` read as a `T`.
    pub(crate) fn required<T: FromStr<Err: Display>>(
        &self,
        key: &str,
        example: &str,
    ) -> Result<T, Failure> {
        self.optional(key)?.ok_or_else(|| self.missing(key, example))
    }

    /// The complaint that `key` is not there.
    pub(crate) fn missing(&self, key: &str, example: &str) -> Failure {
        let why = format!("is missing; add a line such as {key} = {example}");
        self.source.refuse(self.span.clone(), &self.path_of(key), why)
    }

    /// A complaint about the value of `key`.
    pub(crate) fn refuse(&self, key: &str, why: impl Display) -> Failure {
        let span = self.find(key).map(|(span, _)| span).or_else(|| self.span.clone());
        self.source.refuse(span, &self.path_of(key), why)
    }

    /// A list of texts, if it is there.
    pub(crate) fn texts(&self, key: &str) -> Result<Vec<(Range<usize>, &'a str)>, Failure> {
        let Some((span, value)) = self.find(key) else { return Ok(Vec::new()) };
        let list = value.as_array().ok_or_else(|| {
            self.source.refuse(
                Some(span),
                &self.path_of(key),
                "must be a list of texts, written [\"...\", \"...\"]",
            )
        })?;
        list.iter()
            .map(|item| match item.get_ref().as_str() {
                Some(text) => Ok((item.span(), text)),
                None => Err(self.source.refuse(
                    Some(item.span()),
                    &self.path_of(key),
                    "must be a list of texts",
                )),
            })
            .collect()
    }

    /// A complaint about a place that [`Section::texts`] gave.
    pub(crate) fn refuse_at(&self, span: Range<usize>, key: &str, why: impl Display) -> Failure {
        self.source.refuse(Some(span), &self.path_of(key), why)
    }

    fn find(&self, key: &str) -> Option<(Range<usize>, &'a DeValue<'a>)> {
        let (_, value) = self.table?.iter().find(|(name, _)| name.get_ref() == key)?;
        Some((value.span(), value.get_ref()))
    }

    fn path_of(&self, key: &str) -> String {
        if self.path.is_empty() { key.to_owned() } else { format!("{}.{key}", self.path) }
    }

    fn refuse_unknown(&self, keys: &[&str]) -> Result<(), Failure> {
        let names = self.table.into_iter().flat_map(|table| table.keys());
        for name in names {
            if !keys.contains(&name.get_ref().as_ref()) {
                let why = format!("is not a key of a plan here; the keys are {}", keys.join(", "));
                return Err(self.source.refuse(
                    Some(name.span()),
                    &self.path_of(name.get_ref()),
                    why,
                ));
            }
        }
        Ok(())
    }
}
