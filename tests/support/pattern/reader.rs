//! Which sentence asks for what.

use super::phrases::{bracketed, gaps, n, picked_over, stumble};
use super::work::{End, Picked, Read, Work, needle};
use loopwright::pattern::{Along, CastOn, Knitted, Step, words};
use regex::{Captures, Regex};
use std::sync::LazyLock;

/// One line as printed: what to do, and what to check when it is done.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct Told {
    /// What to do.
    pub text: String,
    /// What to check.
    pub check: String,
}

/// The lines of a piece as they are printed.
#[must_use]
pub fn told(knitted: &Knitted) -> Vec<Told> {
    let lines = words::instructions(knitted).lines;
    lines.into_iter().map(|line| Told { text: line.text, check: line.check }).collect()
}

/// Knits the lines of one piece, checking what each says to check.
///
/// # Panics
/// When a sentence cannot be understood or a check disagrees with the work: a knitter
/// would stop and wonder.
#[must_use]
pub fn read(lines: &[Told]) -> Read {
    let mut reader = Reader { work: Work::new(), voice: voice(lines) };
    for line in lines {
        assert_eq!(stumble(&line.text), None, "a knitter would stumble: {:?}", line.text);
        reader.line(&line.text);
        reader.check(line);
    }
    Read { left: reader.work.stitches(), ..reader.work.read }
}

#[derive(Clone, Copy, Debug, Eq, PartialEq)]
enum Voice {
    Machine,
    Hand,
}

fn voice(lines: &[Told]) -> Voice {
    let begins = lines.first().is_some_and(|line| line.text.contains("Carriage at the"));
    if begins { Voice::Machine } else { Voice::Hand }
}

struct Reader {
    work: Work,
    voice: Voice,
}

type Act = fn(&mut Reader, &Captures<'_>);

const RULES: &[(&str, Act)] = &[
    (
        r"^Cast on (\d+) stitch(?:es)?, needles ([LR]\d+) to ([LR]\d+), for ([^.]+)\. (.+\. )?(Hang the comb and weights|On two beds cast on with one zigzag row, hang the comb and weights, and knit 3 circular rows, none of them counted)\. Carriage at the (left|right), row counter 000\.$",
        |r, c| {
            r.cast_on(n(c, 1), None);
            assert_eq!(r.work.needles(), (c[2].to_owned(), c[3].to_owned()));
            same_beds(&c[4], c.get(5));
            r.work.join(End::named(&c[7]));
            assert_eq!(c[6].starts_with("On two beds"), c.get(5).is_some());
        },
    ),
    (
        r"^Cast on (\d+) stitch(?:es)?, needles ([LR]\d+) to ([LR]\d+), in waste yarn\. With the row counter off knit 8 rows of it and 1 row of ravel cord, which is drawn out when the edge is joined\. Join the main yarn for ([^.]+)\. (.+\. )?Carriage at the (left|right), row counter 000\.$",
        |r, c| {
            r.cast_on(n(c, 1), None);
            assert_eq!(r.work.needles(), (c[2].to_owned(), c[3].to_owned()));
            same_beds(&c[4], c.get(5));
            r.work.join(End::named(&c[6]));
        },
    ),
    (
        r"^With the wrong side facing you hang (\d+) stitch(?:es)?, needles ([LR]\d+) to ([LR]\d+), from left to right: ([^.]+)\. Join the yarn; they are for ([^.]+)\. (.+\. )?Carriage at the (left|right), row counter 000\.$",
        |r, c| {
            r.cast_on(n(c, 1), Some(&c[4]));
            assert_eq!(r.work.needles(), (c[2].to_owned(), c[3].to_owned()));
            same_beds(&c[5], c.get(6));
            r.work.join(End::named(&c[7]));
        },
    ),
    (
        r"^(?:Cast on (\d+) stitch(?:es)?(?: with waste yarn, so that the loops can be freed and joined later, and change to the main yarn)?|With the right side facing you pick up and knit (\d+) stitch(?:es)?, from right to left: ([^.]+))\. Work in (.+?): (.+)\. Row 1 is a (right|wrong)-side row\.$",
        |r, c| {
            let stitches = if c.get(1).is_some() { n(c, 1) } else { n(c, 2) };
            r.cast_on(stitches, c.get(3).map(|along| along.as_str()));
            r.work.read.picked.reverse();
            r.work.join(End::named(&c[6]));
            // Picked up from right to left, so the yarn is at the left.
            assert!(c.get(3).is_none() || r.work.at == End::Left, "where the yarn ends");
            r.by_hand(&c[4], &c[5]);
        },
    ),
    (r"^(?:Knit|Work) (\d+) rows?\.$", |r, c| r.work.knit(n(c, 1))),
    (
        r"^Knit (\d+) rows?, to RC (\d{3,})\. (Increase|Decrease) (\d+) stitch(?:es)? at ([^,]+)(?:, (\d+) stitch(?:es)? in from the edge)?\.$",
        |r, c| {
            r.work.knit(n(c, 1));
            assert_eq!(r.work.counter(), n(c, 2));
            r.shape(&c[3], n(c, 4), &c[5], optional(c, 6));
        },
    ),
    (
        r"^Work (\d+) rows?; in the last of them, row (\d+), (increase|decrease) (\d+) stitch(?:es)? at ([^,]+)(?:, (\d+) stitch(?:es)? in from the edge)?\.$",
        |r, c| {
            // By hand the shaped row itself already has the new count; the replay counts
            // the loops it is knitted from.
            r.work.knit(n(c, 1));
            assert_eq!(r.work.counter(), n(c, 2));
            r.shape(&c[3], n(c, 4), &c[5], optional(c, 6));
        },
    ),
    (r"^(?:Increase|Decrease) [^:]+: .+\.$", |r, c| {
        r.at_the_same_time(&[c[0].trim_end_matches('.')]);
    }),
    (r"^To (?:RC|the end of row) (\d+), at the same time: (.+)\.$", |r, c| {
        r.at_the_same_time(&c[2].split("; and ").collect::<Vec<_>>());
        assert_eq!(r.work.counter(), n(c, 1), "the last of the shapings");
    }),
    (
        r"^(Increase|Decrease) (\d+) stitch(?:es)? at ([^,:]+?)(?:, (\d+) stitch(?:es)? in from the edge)?(?: in the row just worked)?\.$",
        |r, c| r.shape(&c[1], n(c, 2), &c[3], optional(c, 4)),
    ),
    (
        r"^(?:Shape the (?<shaped>[^,:]+)|The (?<onto>[^,:]+?)(?: and the (?<other>[^,:]+) by turns)?), (?:always at the carriage side|at the start of the row): (?<how>\(bind off .+)\.$",
        |r, c| {
            let named = |group| c.name(group).map(|edge| edge.as_str());
            r.bind_offs(&c["how"], named("shaped"), named("onto"), named("other"));
        },
    ),
    (
        r"^Short rows(?:(?:, wrapping the first held needle each time)?, moving the weights with the needles in work)?: (\(.+)\.$",
        |r, c| r.short_rows(&c[1]),
    ),
    (
        r"^(?:Put all held needles back to work and knit|Work) (\d+) rows?(?: over all stitches again, the wraps together with their stitches)?\.$",
        |r, c| {
            r.work.all_back();
            r.work.knit(n(c, 1));
        },
    ),
    (
        r"^Put the (\d+) needles? held at the (left|right) back to work(?: and knit (\d+) rows?)?\.$",
        |r, c| {
            r.work.back(End::named(&c[2]), n(c, 1));
            if c.get(3).is_some() {
                r.work.knit(n(c, 3));
            }
        },
    ),
    (
        r"^Work (\d+) rows?, now over the (\d+) stitch(?:es)? left unworked at the (left|right) too, the wraps together with their stitches\.$",
        |r, c| {
            r.work.back(End::named(&c[3]), n(c, 2));
            r.work.knit(n(c, 1));
        },
    ),
    (
        r"^From the next row on work the next (\d+) stitch(?:es)? left at the (left|right) too, the wraps together with their stitches\.$",
        |r, c| r.work.back(End::named(&c[2]), n(c, 1)),
    ),
    (
        r"^(?:Put all held needles back to work|From the next row on work over all stitches again, the wraps together with their stitches)\.$",
        |r, _| r.work.all_back(),
    ),
    (r"^Put (\d+) needles? at the (left|right) on hold\.$", |r, c| {
        r.work.hold(End::named(&c[2]), n(c, 1));
    }),
    (
        r"^Leave the (\d+) stitch(?:es)? at the (left|right) of the right side unworked in the next row, wrap the next and turn\.$",
        |r, c| r.work.hold(End::named(&c[2]), n(c, 1)),
    ),
    (
        r"^For the (\d+) stitch(?:es)? at the (left|right), needles ([LR]\d+) to ([LR]\d+), hold the others and with the row counter off knit 8 rows of waste yarn over them and take them off the machine \(([^)]+)\)\.$",
        |r, c| {
            let end = End::named(&c[2]);
            assert_eq!(r.work.outer(end, n(c, 1)), (c[3].to_owned(), c[4].to_owned()));
            r.work.off(end, n(c, 1), &c[5]);
        },
    ),
    (r"^Put the (\d+) stitch(?:es)? at the (left|right) on a holder \(([^)]+)\)\.$", |r, c| {
        r.work.off(End::named(&c[2]), n(c, 1), &c[3]);
    }),
    (
        r"^(?:For all (\d+) stitch(?:es)?: with the row counter off knit 8 rows of waste yarn over them and take them off the machine|Leave all (\d+) stitch(?:es)? on a holder) \(([^)]+)\)\.$",
        |r, c| {
            assert!(r.work.is_cut(), "the main yarn is cut before all stitches are taken off");
            let stitches = optional(c, 1) + optional(c, 2);
            assert_eq!(r.work.stitches(), stitches, "all stitches");
            r.work.off(r.work.at, stitches, &c[3]);
        },
    ),
    (
        r"^Put the (\d+) stitch(?:es)? at the (left|right)(?:, needles ([LR]\d+) to ([LR]\d+),)? on (?:hold|a holder): they wait as the (.+)\.$",
        |r, c| {
            let end = End::named(&c[2]);
            if c.get(3).is_some() {
                assert_eq!(r.work.outer(end, n(c, 1)), (c[3].to_owned(), c[4].to_owned()));
            }
            r.work.set_aside(end, n(c, 1), &c[5]);
        },
    ),
    (
        r"^Put the (.+?) back to work, (\d+) stitch(?:es)? on ([LR]\d+) to ([LR]\d+), and set the row counter to (\d{3,})\.$",
        |r, c| {
            r.work.resume(&c[1]);
            assert_eq!(r.work.stitches(), n(c, 2));
            assert_eq!(r.work.needles(), (c[3].to_owned(), c[4].to_owned()));
            r.work.set_counter(n(c, 5));
        },
    ),
    (
        r"^Put the (\d+) stitch(?:es)? of the (.+?) back on the needle; the last row worked on them was row (\d+)\.$",
        |r, c| {
            r.work.resume(&c[2]);
            assert_eq!((r.work.stitches(), r.work.counter()), (n(c, 1), n(c, 3)));
        },
    ),
    (
        r"^Bring the carriage to the (left|right) and join the yarn there, at needle ([LR]\d+)\.$",
        |r, c| {
            let at = r.work.join(End::named(&c[1]));
            assert_eq!(needle(at), c[2], "where the yarn is joined");
        },
    ),
    (r"^Join the yarn at the (left|right) edge, ready for a (right|wrong)-side row\.$", |r, c| {
        r.work.join(End::named(&c[1]));
        assert_eq!(r.work.at, End::named(&c[2]), "which side faces");
    }),
    (r"^Cut the yarn with a tail to darn in\.$", |r, _| r.work.cut()),
    (
        r"^Bind off (\d+) stitch(?:es)? at the (?:carriage side|start of the next row)(?: at the ([^(.]+)| \(([^)]+)\)|)\.$",
        |r, c| {
            if let Some(edge) = c.get(2) {
                r.at_the_yarn(edge.as_str());
            }
            r.work.bind_off(n(c, 1), c.get(3).map(|onto| onto.as_str()));
        },
    ),
    (
        r"^Bind off all stitches(?: loosely| loosely in rib)? \(([^)]+)\)\. Cut the yarn and draw it through the last stitch\.$",
        |r, c| r.work.bind_off_all(&c[1]),
    ),
    (r"^Cast on (\d+) stitch(?:es)? at the (?:carriage side|start of the next row)\.$", |r, c| {
        r.work.extend(n(c, 1));
    }),
    (
        r"^Transfer all stitches to the main bed and change to stockinette\.( Set the row counter to 000\.)?$",
        |r, c| {
            if c.get(1).is_some() {
                r.work.set_counter(0);
            }
        },
    ),
    (r"^Change to (\d+x\d+ rib): (.+?\.)( Set the row counter to 000\.)?$", |r, c| {
        assert_eq!(beds(&c[1]).to_lowercase() + ".", c[2].to_lowercase());
        if c.get(3).is_some() {
            r.work.set_counter(0);
        }
    }),
    (
        r"^Change to work in (.+?): (.+?)\.( Count rows from here: the next row is row 1\.)?$",
        |r, c| {
            r.by_hand(&c[1], &c[2]);
            if c.get(3).is_some() {
                r.work.set_counter(0);
            }
        },
    ),
    (r"^Mark both edges here: above the marks they are the (.+) and the (.+)\.$", |r, c| {
        r.work.rename(End::Left, &c[1]);
        r.work.rename(End::Right, &c[2]);
    }),
    (r"^Mark the (left|right) edge: from here it is the (.+)\.$", |r, c| {
        r.work.rename(End::named(&c[1]), &c[2]);
    }),
    (r"^(?:Set the row counter to 000|Count rows from here: the next row is row 1)\.$", |r, _| {
        r.work.set_counter(0);
    }),
];

static FORMS: LazyLock<Vec<(Regex, Act)>> =
    LazyLock::new(|| RULES.iter().map(|(form, act)| (Regex::new(form).unwrap(), *act)).collect());
static AT_THE_MACHINE: LazyLock<Regex> = LazyLock::new(|| {
    Regex::new(r"^RC (\d{3,}), (COL|COR), (\d+) stitch(?:es)? on ([LR]\d+) to ([LR]\d+)(?:, (\d+) of them on hold)?$").unwrap()
});
static BY_HAND: LazyLock<Regex> = LazyLock::new(|| {
    Regex::new(r"^after row (\d+), (right|wrong) side facing next, (\d+) stitch(?:es)?$").unwrap()
});
static BIND_OFF: LazyLock<Regex> = LazyLock::new(|| {
    Regex::new(r"^bind off (\d+) stitch(?:es)?(?:, knit (\d+) rows?| and work to the end(?:, work (\d+) rows?)?)$").unwrap()
});
static HOLD: LazyLock<Regex> = LazyLock::new(|| {
    Regex::new(r"^put (\d+) needles? (?:at the (left|right)|opposite the carriage) (on hold|back to work), knit (\d+) rows?$").unwrap()
});
/// A shaping and when it comes.
static RHYTHM: LazyLock<Regex> = LazyLock::new(|| {
    Regex::new(concat!(
        r"^(?i:(increase|decrease)) (\d+) stitch(?:es)? at ([^,:]+?)(?:, (\d+) stitch(?:es)? in from the edge)?:? ",
        r"(?:(?:at RC|in row) (?<only>\d+)|(?:at RC|in row) (?<one>\d+), then (?<rest>\(*every.+)|(?<all>\(*every.+), the first (?:at RC|in row) (?<first>\d+)), the last (?:at RC|in row) (?<last>\d+)$",
    ))
    .unwrap()
});
static ONCE: LazyLock<Regex> = LazyLock::new(|| {
    Regex::new(r"^(?i:(increase|decrease)) (\d+) stitch(?:es)? at ([^,:]+?)(?:, (\d+) stitch(?:es)? in from the edge)?:? (?:at RC|in row) (\d+)$").unwrap()
});
static TURN: LazyLock<Regex> = LazyLock::new(|| {
    Regex::new(r"^work (?:until|over) (\d+) (?:stitch(?:es)? more than before are left unworked|more) at (?:the (left|right) edge|that end)(, the wraps together with their stitches)?, wrap the next stitch and turn(?:, work (\d+) rows?)?$").unwrap()
});
static ALONG: LazyLock<Regex> =
    LazyLock::new(|| Regex::new(r"^(\d+) along the (.+?) of the (.+?) \[(.+)\]$").unwrap());

impl Reader {
    fn line(&mut self, line: &str) {
        let found = FORMS.iter().find_map(|(form, act)| Some((form.captures(line)?, act)));
        let (captures, act) =
            found.unwrap_or_else(|| panic!("a knitter would stop and wonder: {line:?}"));
        act(self, &captures);
    }

    /// What a line says to check is where the work has got to.
    fn check(&self, line: &Told) {
        let Told { text, check } = line;
        assert_eq!(stumble(check), None, "a knitter would stumble: {check:?}");
        if self.work.stitches() == 0 {
            assert_eq!(check, "", "nothing is left to check after {text:?}");
            return;
        }
        let form = if self.voice == Voice::Machine { &AT_THE_MACHINE } else { &BY_HAND };
        let c = form.captures(check).unwrap_or_else(|| panic!("{check:?} after {text:?}"));
        let shown = (n(&c, 1), End::named(&c[2]), n(&c, 3));
        let work = &self.work;
        assert_eq!(shown, (work.counter(), work.at, work.stitches()), "after {text:?}");
        if self.voice == Voice::Machine {
            let held = c.get(6).map_or(0, |held| held.as_str().parse().unwrap());
            let needles = (c[4].to_owned(), c[5].to_owned());
            assert_eq!((needles, held), (work.needles(), work.held()), "after {text:?}");
        }
    }

    /// Stitches on; where they are picked up, the edges' own numbers add up to them.
    fn cast_on(&mut self, stitches: u64, along: Option<&str>) {
        self.work.cast_on(stitches);
        let Some(along) = along else { return };
        let mut sum = 0;
        for edge in along.split("; ") {
            let c = ALONG.captures(edge).unwrap_or_else(|| panic!("unclear: {edge:?}"));
            let over = c[4].split_once(": ").map(|(_, places)| picked_over(places));
            let (edge, piece) = (c[2].to_owned(), c[3].to_owned());
            let (over_places, above) =
                (over.map(|(_, places)| places), c[4].starts_with("from above"));
            assert!(over.is_none() || above || c[4].starts_with("from below"), "{along}");
            let picked = Picked { edge, piece, stitches: n(&c, 1), over: over_places, above };
            assert_eq!(over.map_or(picked.stitches, |(stitches, _)| stitches), picked.stitches);
            sum += picked.stitches;
            self.work.read.picked.push(picked);
        }
        assert_eq!(sum, stitches, "picked up {along}");
    }

    fn shape(&mut self, verb: &str, stitches: u64, place: &str, inset: u64) {
        self.work.read.insets.push(inset);
        let more = verb.eq_ignore_ascii_case("increase");
        if matches!(place, "both edges" | "each end") {
            self.work.shape(End::Left, more, stitches);
            return self.work.shape(End::Right, more, stitches);
        }
        let end = self.work.end(place.strip_prefix("the ").unwrap());
        self.work.shape(end, more, stitches);
    }

    /// A bind-off that names its edge names the one where the yarn is.
    fn at_the_yarn(&mut self, edge: &str) {
        let end = self.work.end(edge);
        assert_eq!(end, self.work.at, "the {edge} is bound off where the yarn is");
    }

    /// Bound off where the yarn is, onto the edge told; of two by turns, the other next.
    fn bind_offs(
        &mut self,
        text: &str,
        shaped: Option<&str>,
        onto: Option<&str>,
        other: Option<&str>,
    ) {
        let mut turns = [onto, other.or(onto)].into_iter().cycle();
        for (inner, times) in bracketed(text) {
            let c = BIND_OFF.captures(&inner).unwrap_or_else(|| panic!("unclear: {inner:?}"));
            let rows = c.get(2).map_or_else(|| to_the_end(&c, 3), |_| n(&c, 2));
            for _ in 0..times {
                if let Some(edge) = shaped {
                    self.at_the_yarn(edge);
                }
                self.work.bind_off(n(&c, 1), turns.next().flatten());
                self.work.knit(rows);
            }
        }
    }

    fn short_rows(&mut self, text: &str) {
        for (inner, times) in bracketed(text) {
            let (c, back, rows) = if let Some(c) = HOLD.captures(&inner) {
                let (back, rows) = (&c[3] == "back to work", n(&c, 4));
                (c, back, rows)
            } else {
                let c = TURN.captures(&inner).unwrap_or_else(|| panic!("unclear: {inner:?}"));
                let (back, rows) = (c.get(3).is_some(), to_the_end(&c, 4));
                (c, back, rows)
            };
            for _ in 0..times {
                let end = c.get(2).map_or(self.work.at.other(), |side| End::named(side.as_str()));
                if back {
                    self.work.back(end, n(&c, 1));
                } else {
                    self.work.hold(end, n(&c, 1));
                }
                self.work.knit(rows);
            }
        }
    }

    /// Shapings with the rows each is done at, worked as the rows come.
    fn at_the_same_time(&mut self, told: &[&str]) {
        let mut events = Vec::new();
        for (order, text) in told.iter().enumerate() {
            let c = RHYTHM.captures(text).or_else(|| ONCE.captures(text));
            let c = c.unwrap_or_else(|| panic!("unclear: {text:?}"));
            for row in rows_of(&c, self.work.counter()) {
                events.push((
                    row,
                    order,
                    c[1].to_owned(),
                    n(&c, 2),
                    c[3].to_owned(),
                    optional(&c, 4),
                ));
            }
        }
        events.sort_by_key(|event| (event.0, event.1));
        for (row, _, verb, stitches, place, inset) in events {
            let rows = row.checked_sub(self.work.counter()).expect("rows go up");
            if rows > 0 {
                self.work.knit(rows);
            }
            self.shape(&verb, stitches, &place, inset);
        }
    }

    /// How a fabric is worked by hand; a rib that shows knit at both edges fills its
    /// stitches.
    fn by_hand(&self, fabric: &str, rows: &str) {
        let Some((knit, purl)) = rib(fabric) else {
            let plain = "knit the right-side rows, purl the wrong-side rows";
            return assert_eq!(
                rows,
                if fabric == "stockinette" { plain } else { "knit every row" }
            );
        };
        let balanced = format!(
            "right-side rows k{knit}, (p{purl}, k{knit}) to the end; wrong-side rows p{knit}, (k{purl}, p{knit}) to the end"
        );
        let fills = self.work.stitches() % (knit + purl) == knit % (knit + purl);
        assert_eq!(rows == balanced, fills, "{rows:?} over {} stitches", self.work.stitches());
        assert!(
            fills || rows.starts_with(&format!("right-side rows (k{knit}, p{purl}) to the end;"))
        );
    }
}

/// The rows a rhythm comes at.
fn rows_of(c: &Captures<'_>, start: u64) -> Vec<u64> {
    let number = |name| c.name(name).map(|found| found.as_str().parse::<u64>().unwrap());
    let from = |start: u64, text: &str| {
        let mut row = start;
        gaps(text)
            .into_iter()
            .map(|gap| {
                row += gap;
                row
            })
            .collect::<Vec<u64>>()
    };
    let rows = if let Some(all) = c.name("all") {
        from(start, all.as_str())
    } else if let Some(one) = number("one") {
        [vec![one], from(one, &c["rest"])].concat()
    } else {
        return vec![n(c, 5)];
    };
    let first = number("first").or(number("one"));
    assert_eq!((rows.first().copied(), rows.last().copied()), (first, number("last")));
    rows
}

/// The row that ends the sentence's own, and those after it.
fn to_the_end(captures: &Captures<'_>, more: usize) -> u64 {
    1 + captures.get(more).map_or(0, |rows| rows.as_str().parse::<u64>().unwrap())
}

/// "2x1 rib" as 2 and 1.
fn rib(fabric: &str) -> Option<(u64, u64)> {
    let (knit, purl) = fabric.strip_suffix(" rib")?.split_once('x')?;
    Some((knit.parse().unwrap(), purl.parse().unwrap()))
}

/// Reads the words of a piece and compares all that was knitted from them with the
/// replay.
///
/// # Panics
/// When they differ.
pub fn knits_from_its_words(knitted: &Knitted) {
    let lines = told(knitted);
    assert_eq!(difference(&read(&lines), knitted), None, "{lines:?}");
}

/// Where a reader came to something else than the replay.
#[must_use]
pub fn difference(read: &Read, knitted: &Knitted) -> Option<String> {
    let on = [knitted.cast_on, knitted.picked_up, knitted.begun_live];
    let counts = [
        ("rows", read.rows, knitted.rows.get().into()),
        ("loops", read.loops, knitted.all_loops()),
        ("on", read.cast_on, on.iter().map(|on| u64::from(on.get())).sum()),
        ("bound off", read.bound_off, knitted.bound_off.get().into()),
        ("live", read.live, knitted.live.get().into()),
        ("widest", read.widest, knitted.widest.get().into()),
        ("left over", read.left, 0),
    ];
    if let Some(differ) = counts.into_iter().find(|(_, read, replayed)| read != replayed) {
        return Some(format!("{differ:?}"));
    }
    for (name, edge) in &read.edges {
        let Some(found) = knitted.edge(name) else { return Some(format!("no edge {name}")) };
        let rows = edge.rows.unwrap_or_else(|| found.rows());
        if (rows, edge.stitches) != (found.rows(), found.stitches()) {
            return Some(format!("{name}: {edge:?}, {found:?}"));
        }
    }
    edge_work(read, knitted)
}

/// What the replay does not count but its steps say: insets, and where is picked up.
fn edge_work(read: &Read, knitted: &Knitted) -> Option<String> {
    let (mut insets, mut picked) = (Vec::new(), Vec::new());
    for entry in &knitted.log {
        match &entry.step {
            Step::Shape(shape) => insets.push(u64::from(shape.inset.get())),
            Step::CastOn { how: CastOn::PickedUp { from }, .. } => picked.extend(from),
            _ => {}
        }
    }
    let same = picked.len() == read.picked.len()
        && picked.iter().zip(&read.picked).all(|(step, read)| {
            // By hand the words go the other way along the needle.
            let above = (step.along == Along::Backward) == knitted.craft.is_machine();
            (step.piece.as_str(), step.edge.as_str(), u64::from(step.stitches.get()))
                == (&*read.piece, &*read.edge, read.stitches)
                && (read.over.is_none() || read.above == above)
        });
    let same = same && insets == read.insets;
    (!same).then(|| format!("{insets:?}, {picked:?} where was read {read:?}"))
}

fn optional(captures: &Captures<'_>, group: usize) -> u64 {
    captures.get(group).map_or(0, |found| found.as_str().parse().unwrap())
}

/// What is said of the beds is what the fabric needs.
fn same_beds(fabric: &str, told: Option<regex::Match<'_>>) {
    let told = told.map_or("", |told| told.as_str().trim_end());
    assert_eq!(told.strip_suffix('.').unwrap_or(told), beds(fabric));
}

/// How a rib lies on the beds.
fn beds(fabric: &str) -> String {
    rib(fabric).map_or_else(String::new, |(knit, purl)| {
        let last = if purl == 1 { "the last".to_owned() } else { format!("the last {purl}") };
        format!(
            "From the left, {knit} on the main bed and {purl} on the second bed by turns, needles opposite out of work, full pitch; without a second bed knit them plain and re-form {last} of every {}",
            knit + purl
        )
    })
}
