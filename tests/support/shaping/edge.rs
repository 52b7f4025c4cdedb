//! The words of an edge, read and knitted: rows go by, and shapings happen.
//!
//! Reads sentences such as "work 3 rows plain, then increase 1 stitch at each edge on
//! row 9, then (every 2nd row once, every 4th row 2 times) 3 times, then work 4 rows
//! plain", from the sentence alone.

use regex::Regex;

/// What was knitted.
#[derive(Debug, Default, Eq, PartialEq)]
pub struct Knitted {
    /// Each shaping: its row, and stitches at every shaped edge, fewer being below zero.
    pub shapings: Vec<(u32, i64)>,
    /// The last row knitted.
    pub last: u32,
    /// At how many edges.
    pub edges: u32,
}

struct Hands {
    knitted: Knitted,
    sign: i64,
    /// The stitches said last.
    stitches: Option<i64>,
}

/// Knits `text`, the row before the first being `start`.
///
/// # Panics
/// When a part cannot be read, or names a row that is past.
#[must_use]
pub fn knit(text: &str, start: u32) -> Knitted {
    let knitted = Knitted { last: start, edges: 1, ..Knitted::default() };
    let mut hands = Hands { knitted, sign: 0, stitches: None };
    for part in parts(text, ", then ") {
        hands.part(part);
    }
    hands.knitted
}

/// The parts of a list, brackets kept whole.
fn parts<'a>(text: &'a str, joint: &str) -> Vec<&'a str> {
    let (mut parts, mut from, mut depth) = (Vec::new(), 0, 0_u32);
    for (at, c) in text.char_indices() {
        match c {
            '(' => depth += 1,
            ')' => depth -= 1,
            _ if depth == 0 && at >= from && text[at..].starts_with(joint) => {
                parts.push(&text[from..at]);
                from = at + joint.len();
            }
            _ => {}
        }
    }
    parts.push(&text[from..]);
    parts
}

fn captures<'a>(pattern: &str, text: &'a str) -> Option<Vec<Option<&'a str>>> {
    let found = Regex::new(&format!("^(?:{pattern})$")).unwrap().captures(text)?;
    Some(found.iter().skip(1).map(|group| group.map(|group| group.as_str())).collect())
}

fn number(text: Option<&str>) -> u32 {
    text.unwrap().parse().unwrap()
}

fn times(text: Option<&str>) -> u32 {
    match text.unwrap() {
        "once" => 1,
        "twice" => 2,
        text => {
            let times = text.strip_suffix(" times").unwrap().parse().unwrap();
            assert!(times > 1, "{times} times is told as once");
            times
        }
    }
}

impl Hands {
    fn part(&mut self, part: &str) {
        if let Some(found) = captures(r"work (\d+) (rows?) plain", part) {
            let rows = number(found[0]);
            assert_eq!(found[1] == Some("row"), rows == 1, "{part}");
            self.knitted.last += rows;
            return;
        }
        let opening = r"(increase|decrease)(?: (\d+) (stitch|stitches))?( at each edge)? (.*)";
        if let Some(found) = captures(opening, part) {
            self.sign = if found[0] == Some("increase") { 1 } else { -1 };
            self.knitted.edges = if found[3].is_some() { 2 } else { 1 };
            self.stitches = found[1].map(|n| n.parse().unwrap());
            assert!(self.stitches.is_none_or(|n: i64| (n == 1) == (found[2] == Some("stitch"))));
            return self.rhythm(found[4].unwrap());
        }
        self.rhythm(part);
    }

    fn rhythm(&mut self, part: &str) {
        if let Some(found) = captures(r"\((.*)\) (once|twice|\d+ times)", part) {
            for _ in 0..times(found[1]) {
                for part in parts(found[0].unwrap(), ", ") {
                    self.rhythm(part);
                }
            }
            return;
        }
        let every = r"(?:(\d+) stitch(?:es)? )?every (?:(\d+)(?:st|nd|rd|th) |other )?row (once|twice|\d+ times)";
        if let Some(found) = captures(every, part) {
            let other = if part.contains("every other") { 2 } else { 1 };
            let rows = found[1].map_or(other, |n| n.parse().unwrap());
            for _ in 0..times(found[2]) {
                self.shape(self.knitted.last + rows, found[0]);
            }
            return;
        }
        let row = captures(r"(?:(\d+) stitch(?:es)? )?on row (\d+)", part);
        let found = row.unwrap_or_else(|| panic!("{part:?} cannot be read"));
        self.shape(number(found[1]), found[0]);
    }

    fn shape(&mut self, row: u32, stitches: Option<&str>) {
        assert!(row > self.knitted.last, "row {row} is past");
        // What was said last holds until something else is said.
        self.stitches = stitches.map(|n| n.parse().unwrap()).or(self.stitches);
        let stitches: i64 = self.stitches.unwrap();
        self.knitted.shapings.push((row, self.sign * stitches));
        self.knitted.last = row;
    }
}
