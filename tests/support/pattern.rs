//! A knitter who knows nothing but the printed words: reads a piece line by line and
//! counts stitches, rows and loops, without ever seeing the steps.

use regex::{Captures, Regex};

/// What a reader of the words has knitted.
#[derive(Clone, Copy, Debug, Default, Eq, PartialEq)]
pub struct Read {
    /// Rows, waste yarn not counted.
    pub rows: u64,
    /// Loops knitted in those rows.
    pub loops: u64,
    /// Stitches cast on or picked up.
    pub cast_on: u64,
    /// Stitches bound off.
    pub bound_off: u64,
    /// Stitches taken off on waste yarn or a holder at the end.
    pub live: u64,
    /// Stitches left on the needles; none in a finished piece.
    pub left: u64,
}

/// Knits the lines of one piece.
///
/// # Panics
/// When a sentence cannot be understood: a knitter would stop and wonder.
#[must_use]
pub fn read(lines: &[String]) -> Read {
    let mut reader = Reader::default();
    for line in lines {
        reader.line(line);
    }
    reader.read.left = reader.stitches;
    reader.read
}

#[derive(Default)]
struct Reader {
    read: Read,
    stitches: u64,
    held: u64,
    aside: Vec<(String, u64)>,
}

impl Reader {
    fn line(&mut self, line: &str) {
        type Rule = (&'static str, fn(&mut Reader, &Captures<'_>));
        const RULES: [Rule; 21] = [
            (r"^(?:Cast on|Hang|Pick up and knit) (\d+) stitch", |r, c| r.cast_on(n(c, 1))),
            (r"^(?:Knit|Work) (\d+) rows?\.$", |r, c| r.knit(n(c, 1))),
            (
                r"^Knit (\d+) rows?, to RC \d+\. (Increase|Decrease) (\d+) stitch(?:es)? at (.+)\.$",
                |r, c| {
                    r.knit(n(c, 1));
                    r.shape(&c[2], n(c, 3), both(&c[4]));
                },
            ),
            (
                r"^Work (\d+) rows?; in the last of them, row \d+, (increase|decrease) (\d+) stitch(?:es)? at (.+)\.$",
                |r, c| {
                    // By hand the shaped row itself already has the new count; the replay
                    // counts the loops it is knitted from.
                    r.knit(n(c, 1));
                    r.shape(&c[2], n(c, 3), both(&c[4]));
                },
            ),
            (
                r"^(Increase|Decrease) (\d+) stitch(?:es)? at (.+?), \d+ stitch(?:es)? in from the edge, (\(?.*every .+): first (?:at|in) .+\.$",
                |r, c| {
                    for gap in gaps(&c[4]) {
                        r.knit(gap);
                        r.shape(&c[1], n(c, 2), both(&c[3]));
                    }
                },
            ),
            (r"^(?:Shape the|The|Shoulders)[^:]*: (\(bind off .+)\.$", |r, c| r.bind_offs(&c[1])),
            (r"^Short rows[^:]*: (\(.+)\.$", |r, c| r.short_rows(&c[1])),
            (r"^Put all held needles back to work and knit (\d+) rows?\.$", |r, c| {
                r.all_back(n(c, 1));
            }),
            (r"^Work (\d+) rows? over all stitches again", |r, c| r.all_back(n(c, 1))),
            (r"^Take the (\d+) stitch(?:es)? at the (?:left|right) off on waste yarn", |r, c| {
                r.off(n(c, 1));
            }),
            (r"^Knit 8 rows of waste yarn over all (\d+) stitch", |r, c| r.off(n(c, 1))),
            (r"^Break the yarn and leave all (\d+) stitch(?:es)? on a holder", |r, c| {
                r.off(n(c, 1));
            }),
            (
                r"^Put the (\d+) stitch(?:es)? at the (?:left|right) on (?:hold|a holder): they wait as the (.+)\.$",
                |r, c| {
                    r.stitches -= n(c, 1);
                    r.aside.push((c[2].to_owned(), n(c, 1)));
                },
            ),
            (r"^Put the (\d+) stitch(?:es)? at the (?:left|right) on a holder \(", |r, c| {
                r.off(n(c, 1));
            }),
            (r"^Break the yarn\. Put the (.+?) back (?:to work|on the needle)", |r, c| {
                assert_eq!(r.stitches, 0, "a side is finished before the other is taken up");
                let at = r
                    .aside
                    .iter()
                    .position(|(name, _)| *name == c[1])
                    .expect("the part is waiting");
                r.stitches = r.aside.remove(at).1;
            }),
            (
                r"^Bind off (\d+) stitch(?:es)? at the (?:carriage side|start of the next row)",
                |r, c| r.bind_off(n(c, 1)),
            ),
            (r"^Bind off all stitches", |r, _| r.bind_off(r.stitches)),
            (r"^Transfer all stitches to the main bed and change to", |_, _| {}),
            (r"^Change to ", |_, _| {}),
            (r"^Mark both edges here", |_, _| {}),
            (r"^Set the row counter to 000", |_, _| {}),
        ];
        let found = RULES
            .iter()
            .find_map(|(form, act)| Some((Regex::new(form).unwrap().captures(line)?, act)));
        let (captures, act) =
            found.unwrap_or_else(|| panic!("a knitter would stop and wonder: {line:?}"));
        act(self, &captures);
    }

    fn cast_on(&mut self, stitches: u64) {
        self.stitches = stitches;
        self.read.cast_on += stitches;
    }

    fn knit(&mut self, rows: u64) {
        self.read.rows += rows;
        self.read.loops += rows * (self.stitches - self.held);
    }

    fn shape(&mut self, verb: &str, stitches: u64, both: bool) {
        let moved = stitches * if both { 2 } else { 1 };
        if verb.eq_ignore_ascii_case("increase") {
            self.stitches += moved;
        } else {
            self.stitches -= moved;
        }
    }

    fn bind_off(&mut self, stitches: u64) {
        self.stitches -= stitches;
        self.read.bound_off += stitches;
    }

    fn off(&mut self, stitches: u64) {
        self.stitches -= stitches;
        self.read.live += stitches;
    }

    fn all_back(&mut self, rows: u64) {
        self.held = 0;
        self.knit(rows);
    }

    fn bind_offs(&mut self, text: &str) {
        let one = Regex::new(r"bind off (\d+) stitch(?:es)?(?:, knit (\d+) rows?| and work to the end(?:, work (\d+) rows?)?)").unwrap();
        for (inner, times) in bracketed(text) {
            let found = one.captures(&inner).unwrap_or_else(|| panic!("unclear: {inner:?}"));
            let rows = match (found.get(2), found.get(3)) {
                (Some(rows), _) => rows.as_str().parse().unwrap(),
                (None, more) => 1 + more.map_or(0, |rows| rows.as_str().parse::<u64>().unwrap()),
            };
            for _ in 0..times {
                self.bind_off(n(&found, 1));
                self.knit(rows);
            }
        }
    }

    fn short_rows(&mut self, text: &str) {
        let machine = Regex::new(r"^put (\d+) needles? .+ on hold, knit (\d+) rows?$").unwrap();
        let hand = Regex::new(r"^work until (\d+) stitch(?:es)? more than before are left unworked.*, wrap the next stitch and turn(?:, work (\d+) rows?)?$").unwrap();
        for (inner, times) in bracketed(text) {
            let (held, rows) = if let Some(found) = machine.captures(&inner) {
                (n(&found, 1), n(&found, 2))
            } else {
                let found = hand.captures(&inner).unwrap_or_else(|| panic!("unclear: {inner:?}"));
                (
                    n(&found, 1),
                    1 + found.get(2).map_or(0, |rows| rows.as_str().parse::<u64>().unwrap()),
                )
            };
            for _ in 0..times {
                self.held += held;
                self.knit(rows);
            }
        }
    }
}

fn n(captures: &Captures<'_>, group: usize) -> u64 {
    captures[group].parse().unwrap()
}

fn both(place: &str) -> bool {
    place.starts_with("both edges") || place.starts_with("each end")
}

/// "(bind off 3 stitches, knit 2 rows) 4 times, then (...)": each bracket and how often.
fn bracketed(text: &str) -> Vec<(String, u64)> {
    let form = Regex::new(r"\(([^)]*)\)(?: (once|twice|\d+ times))?(?:, then )?").unwrap();
    let found: Vec<(String, u64)> = form
        .captures_iter(text)
        .map(|c| (c[1].to_owned(), c.get(2).map_or(1, |t| times(t.as_str()))))
        .collect();
    let covered: usize = form.find_iter(text).map(|part| part.as_str().len()).sum();
    assert_eq!(covered, text.len(), "a knitter would stop and wonder: {text:?}");
    found
}

/// "every 4th row 34 times, then (every 5th row once, every 6th row once) 3 times": the
/// rows between shapings.
fn gaps(text: &str) -> Vec<u64> {
    let (list, rest) = gap_list(text);
    assert_eq!(rest, "", "a knitter would stop and wonder: {text:?}");
    list
}

/// Phrases one after the other, and what follows the last.
fn gap_list(text: &str) -> (Vec<u64>, &str) {
    let how_often = Regex::new(r"^ (once|twice|\d+ times)").unwrap();
    let every = Regex::new(r"^every (?:(row)|(other) row|(\d+)(?:st|nd|rd|th) row)").unwrap();
    let (mut list, mut text) = (Vec::new(), text);
    loop {
        let (one, rest) = if let Some(inner) = text.strip_prefix('(') {
            let (one, rest) = gap_list(inner);
            (one, rest.strip_prefix(')').unwrap_or_else(|| panic!("an open bracket: {text:?}")))
        } else {
            let found = every.captures(text).unwrap_or_else(|| panic!("unclear: {text:?}"));
            let gap = match (found.get(1), found.get(2)) {
                (Some(_), _) => 1,
                (_, Some(_)) => 2,
                _ => n(&found, 3),
            };
            (vec![gap], &text[found[0].len()..])
        };
        let often = how_often.captures(rest).unwrap_or_else(|| panic!("how often? {text:?}"));
        list.extend(one.repeat(usize::try_from(times(&often[1])).unwrap()));
        let rest = &rest[often[0].len()..];
        let next = rest.strip_prefix(", then ").or_else(|| rest.strip_prefix(", "));
        match next {
            Some(next) => text = next,
            None => return (list, rest),
        }
    }
}

fn times(text: &str) -> u64 {
    match text {
        "once" => 1,
        "twice" => 2,
        many => many.trim_end_matches(" times").parse().unwrap(),
    }
}
