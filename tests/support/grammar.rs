//! A proofreader: slips of English that programs make when they put numbers into words.
//!
//! It knows no sentence of the program, only rules of the language.

use regex::Regex;

/// Words that end in s and still follow a single one: verbs among them.
const SINGULAR: [&str; 19] = [
    "across", "always", "as", "cross", "does", "fits", "gives", "has", "is", "its", "keeps",
    "less", "makes", "minus", "plus", "this", "thus", "us", "was",
];

/// Nouns that are counted.
const COUNTED: &str = "ball|band|bar|bind-off|button|case|cone|copy|corner|count|decrease|demand|edge|end|event|gap|\
                       group|hole|increase|inch|loop|needle|package|pair|piece|place|ply|repeat|row|side|size|skein|\
                       step|stitch|strand|time|turn|wrap|yard";

/// A slip: the rule it breaks and the words around it.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct Slip {
    /// What is wrong.
    pub rule: &'static str,
    /// The words that show it.
    pub words: String,
}

/// A reader that knows the rules.
#[derive(Debug)]
pub struct Reader {
    one: Regex,
    many: Regex,
    one_are: Regex,
    many_is: Regex,
    every_one: Regex,
    ordinal: Regex,
    article: Regex,
    stops: Regex,
    debris: Regex,
}

impl Default for Reader {
    fn default() -> Self {
        let rule = |pattern: &str| Regex::new(pattern).expect("the rule is a pattern");
        Self {
            one: rule(r"(?:^|[^\d.,/:x×−-])\b1 ([a-z-]+s)\b"),
            many: rule(&format!(r"\b(?:0|[2-9]|[1-9]\d+) ({COUNTED})(?:[^\w\-/]|$)")),
            one_are: rule(&format!(
                r"(?:^|[^\d.,/:x×−-])\b1 (?:{COUNTED})s? (?:are|were|have|need|do|leave|become|come|fall|give|take)\b"
            )),
            many_is: rule(&format!(
                r"(?:^|[.:;] )(?:[2-9]|[1-9]\d+) (?:{COUNTED})e?s (?:is|was|has|needs|does|becomes|comes|falls|gives|takes)\b"
            )),
            every_one: rule(r"every 1(?:st)?\b[^\d.,/]|\b1 times\b|\b0 times\b"),
            ordinal: rule(r"\b(\d+)(st|nd|rd|th)\b"),
            article: rule(
                r"\b(?:a (?:[aeio][a-z]+|8\d*|11|18)|an (?:[bcdfgjklmnpqrstvwyz][a-z]+|[1-79]))\b",
            ),
            stops: rule(
                r" [,.;:](?:\s|$)|,[.,;]|[^.]\.\.(?:[^.=]|$)|;[.,;]|\( | \)|\(\)|:\.|[a-z]  [a-z]",
            ),
            debris: rule(
                r"\bNaN\b|\binf\b|Some\(|None\b|Ok\(|Err\(|::|\{\w*\}|\b[A-Z][a-z]+\([^)]",
            ),
        }
    }
}

impl Reader {
    /// The slips in a text, each once.
    #[must_use]
    pub fn slips(&self, text: &str) -> Vec<Slip> {
        let mut slips = Vec::new();
        for line in text.lines() {
            let mut found = |rule, words: &str| {
                let slip = Slip { rule, words: words.trim().to_owned() };
                if !slips.contains(&slip) {
                    slips.push(slip);
                }
            };
            self.numbers(line, &mut found);
            for (rule, pattern) in [
                ("one of them are", &self.one_are),
                ("many of them is", &self.many_is),
                ("every first", &self.every_one),
                ("a or an", &self.article),
                ("stops and spaces", &self.stops),
                ("debris of the program", &self.debris),
            ] {
                pattern.find_iter(line).for_each(|slip| found(rule, around(line, slip.range())));
            }
        }
        slips
    }

    fn numbers(&self, line: &str, found: &mut impl FnMut(&'static str, &str)) {
        for one in self.one.captures_iter(line) {
            let after = line[one.get(0).unwrap().end()..].starts_with('-');
            if !SINGULAR.contains(&&one[1]) && !after {
                found("one of many", around(line, one.get(0).unwrap().range()));
            }
        }
        for many in self.many.captures_iter(line) {
            found("many of one", around(line, many.get(0).unwrap().range()));
        }
        for ordinal in self.ordinal.captures_iter(line) {
            let number: u64 = ordinal[1].parse().unwrap_or(0);
            let right = match (number % 10, number % 100) {
                (_, 11..=13) => "th",
                (1, _) => "st",
                (2, _) => "nd",
                (3, _) => "rd",
                _ => "th",
            };
            if &ordinal[2] != right {
                found("ordinals", &ordinal[0]);
            }
        }
    }
}

/// The slip with some words before and after it.
fn around(line: &str, slip: core::ops::Range<usize>) -> &str {
    let start = line[..slip.start].char_indices().rev().nth(24).map_or(0, |(at, _)| at);
    let end = line[slip.end..].char_indices().nth(24).map_or(line.len(), |(at, _)| slip.end + at);
    &line[start..end]
}

#[cfg(test)]
mod tests {
    use super::Reader;

    #[test]
    fn slips_are_found() {
        let reader = Reader::default();
        for text in [
            "1 stitches become 2",
            "repeat 1 times",
            "needs 1 steps.",
            "2 of every 1 rows",
            "knit 3 row.",
            "1 rows are knitted",
            "every 1 row",
            "in the 2th row",
            "a even count",
            "an row",
            "the edge,.",
            "one , two",
            "Some(3) rows",
            "10 events needs room",
            "Buy 1 packages.",
            "(1 stitches)",
        ] {
            assert!(!reader.slips(text).is_empty(), "{text}");
        }
    }

    #[test]
    fn right_words_are_left_alone() {
        let reader = Reader::default();
        for text in [
            "1 stitch becomes 2",
            "51 stitches, 0.1 grams",
            "every row once, every 11th row twice",
            "3 rows; 1 more is needed",
            "between 1 and 2 stitches",
            "a 2-row stripe, an 8-row one",
            "1 is less than 2",
            "knit 3, purl 1, ... (and so on)",
            "2 stitch-to-row joins",
        ] {
            assert_eq!(reader.slips(text), [], "{text}");
        }
    }
}
