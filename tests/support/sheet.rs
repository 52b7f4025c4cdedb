//! A printed sheet taken apart again: its sections, lines, lengths and amounts, by a
//! reader who shares nothing with what printed them. Numbers are floats: they were
//! rounded when they were printed.

#![allow(clippy::float_arithmetic, reason = "printed numbers were rounded already")]

use regex::Regex;
use std::collections::BTreeMap;
use std::sync::LazyLock;

/// The sections of a sheet by their headings.
#[derive(Debug)]
pub struct Sheet {
    /// Headings in order.
    pub headings: Vec<String>,
    sections: BTreeMap<String, Vec<String>>,
}

/// A numbered line of a section, with what stands in square brackets under it.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct Numbered {
    /// What it says.
    pub text: String,
    /// What to check.
    pub check: String,
}

static NUMBERED: LazyLock<Regex> = LazyLock::new(|| Regex::new(r"^ {0,2}(\d+)\. (.+)$").unwrap());
static LENGTH: LazyLock<Regex> = LazyLock::new(|| {
    Regex::new(r"(-?\d+(?:\.\d+)?)(?: (\d+)/(\d+))? (mm|cm|m|in|yd)\b|(-?)(\d+)/(\d+) (in)\b")
        .unwrap()
});

impl Sheet {
    /// Takes a sheet apart.
    #[must_use]
    pub fn new(text: &str) -> Self {
        let lines: Vec<&str> = text.lines().collect();
        let rule = |at: usize| {
            lines
                .get(at)
                .is_some_and(|line| !line.is_empty() && line.chars().all(|mark| mark == '-'))
        };
        let mut sheet = Self { headings: Vec::new(), sections: BTreeMap::new() };
        for (at, line) in lines.iter().enumerate() {
            if rule(at + 1) {
                sheet.headings.push((*line).to_owned());
            } else if !rule(at) && !line.is_empty() {
                let heading = sheet.headings.last().expect("a sheet begins with its title");
                sheet.sections.entry(heading.clone()).or_default().push((*line).to_owned());
            }
        }
        sheet
    }

    /// The lines of a section as they stand.
    ///
    /// # Panics
    /// When there is no such section.
    #[must_use]
    pub fn section(&self, heading: &str) -> &[String] {
        self.sections.get(heading).unwrap_or_else(|| panic!("no {heading:?} on the sheet"))
    }

    /// A section's lines in one, where they were wrapped.
    #[must_use]
    pub fn paragraph(&self, heading: &str) -> String {
        self.section(heading).join(" ")
    }

    /// The numbered lines of a section, numbered from 1 without a gap.
    #[must_use]
    pub fn numbered(&self, heading: &str) -> Vec<Numbered> {
        let mut lines: Vec<Numbered> = Vec::new();
        for line in self.section(heading) {
            if let Some(found) = NUMBERED.captures(line) {
                assert_eq!(found[1].parse(), Ok(lines.len() + 1), "numbered in order: {line:?}");
                lines.push(Numbered { text: found[2].to_owned(), check: String::new() });
                continue;
            }
            let (Some(last), Some(more)) = (lines.last_mut(), line.strip_prefix("     ")) else {
                continue;
            };
            let checks =
                !last.check.is_empty() || (more.starts_with('[') && last.text.ends_with('.'));
            let end = if checks { &mut last.check } else { &mut last.text };
            if !end.is_empty() {
                end.push(' ');
            }
            end.push_str(more);
        }
        let bare =
            |check: &str| match check.strip_prefix('[').and_then(|check| check.strip_suffix(']')) {
                Some(inner) => inner.to_owned(),
                None => check.to_owned(),
            };
        lines.into_iter().map(|line| Numbered { check: bare(&line.check), ..line }).collect()
    }

    /// The rows of a table: what stands in its first column of 30, and the rest.
    #[must_use]
    pub fn table(&self, heading: &str) -> Vec<(String, String)> {
        let split = |line: &String| {
            let at = line.char_indices().nth(30)?.0;
            let (what, rest) = line.split_at(at);
            let rest = rest.strip_prefix(' ')?;
            (!what.starts_with(' ')).then(|| (what.trim_end().to_owned(), rest.to_owned()))
        };
        self.section(heading).iter().filter_map(split).collect()
    }
}

/// Every length in a text, in millimetres, in order.
#[must_use]
pub fn lengths(text: &str) -> Vec<f64> {
    let number = |text: &str| text.parse::<f64>().unwrap();
    LENGTH
        .captures_iter(text)
        .map(|c| {
            let mm = |unit: &str| match unit {
                "mm" => 1.0,
                "cm" => 10.0,
                "m" => 1000.0,
                "in" => 25.4,
                _ => 914.4,
            };
            let Some(first) = c.get(1) else {
                let sign = if c[5].is_empty() { 1.0 } else { -1.0 };
                return sign * number(&c[6]) / number(&c[7]) * mm(&c[8]);
            };
            let part = c.get(2).map_or(0.0, |over| number(over.as_str()) / number(&c[3]));
            (number(first.as_str()) + part) * mm(&c[4])
        })
        .collect()
}

/// The numbers of a text, whatever their units.
#[must_use]
pub fn numbers(text: &str) -> Vec<f64> {
    let mut found = Vec::new();
    for word in text.split(|mark: char| !(mark.is_ascii_digit() || matches!(mark, '.' | '-' | '+')))
    {
        let word = word.trim_end_matches('.');
        if word.bytes().any(|byte| byte.is_ascii_digit()) {
            found.extend(word.parse::<f64>());
        }
    }
    found
}
