//! Which sentence asks for what.

use super::phrases::{bracketed, gaps, n, picked_over, stumble};
use super::work::{End, Picked, Read, Work};
use loopwright::pattern::{CastOn, Knitted, Step, words};
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
        r"^(?:Cast on|Hang) (\d+) stitch(?:es)?, needles ([LR]\d+) to ([LR]\d+)(?:, from left to right: (.+)\. They are)?,? (in waste yarn, knit 8 rows and one row of ravel cord, then go on with the main yarn )?for ([^.(]+?)( \(.+\))?\. Carriage at the (left|right), row counter 000\.$",
        |r, c| {
            r.cast_on(n(c, 1), c.get(4).map(|along| along.as_str()));
            assert_eq!(r.work.needles(), (c[2].to_owned(), c[3].to_owned()));
            r.work.at = End::named(&c[8]);
            let beds = c.get(7).map_or("", |beds| beds.as_str());
            assert_eq!(arrangement(&c[6]), beds);
        },
    ),
    (
        r"^(?:Cast on (\d+) stitch(?:es)?( with waste yarn, so that the loops can be freed later)?|Pick up and knit (\d+) stitch(?:es)?: (.+))\. Work in (.+?): (.+)\.$",
        |r, c| {
            let stitches = if c.get(1).is_some() { n(c, 1) } else { n(c, 3) };
            r.cast_on(stitches, c.get(4).map(|along| along.as_str()));
            r.by_hand(&c[5], &c[6]);
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
    (
        r"^(Increase|Decrease) (\d+) stitch(?:es)? at ([^,]+?)(?:, (\d+) stitch(?:es)? in from the edge)?(?:,? ((?:now|\(*every).+): first (?:at RC|in row) (\d+), last (?:at RC|in row) (\d+)| in the row just worked|)\.$",
        |r, c| {
            let rhythm = c.get(5).map_or(vec![0], |rhythm| gaps(rhythm.as_str()));
            for (place, gap) in rhythm.iter().enumerate() {
                if *gap > 0 {
                    r.work.knit(*gap);
                }
                if place == 0 && c.get(6).is_some() {
                    assert_eq!(r.work.counter(), n(c, 6), "the first row of the shaping");
                }
                r.shape(&c[1], n(c, 2), &c[3], optional(c, 4));
            }
            if c.get(7).is_some() {
                assert_eq!(r.work.counter(), n(c, 7), "the last row of the shaping");
            }
        },
    ),
    (
        r"^(?:Shape the (?<shaped>[^,:]+)|The (?<onto>[^,:]+)|Shoulders)(?:, always at the carriage side)?: (?<how>\(bind off .+)\.$",
        |r, c| {
            let named = |group| c.name(group).map(|edge| edge.as_str());
            r.bind_offs(&c["how"], named("shaped"), named("onto"));
        },
    ),
    (r"^Short rows(?:, wrapping the first held needle each time)?: (\(.+)\.$", |r, c| {
        r.short_rows(&c[1]);
    }),
    (
        r"^(?:Put all held needles back to work and knit|Work) (\d+) rows?(?: over all stitches again, the wraps together with their stitches)?\.$",
        |r, c| {
            r.work.all_back();
            r.work.knit(n(c, 1));
        },
    ),
    (
        r"^(?:Put all held needles back to work|From the next row on work over all stitches again, the wraps together with their stitches)\.$",
        |r, _| r.work.all_back(),
    ),
    (r"^Put (\d+) needles? at the (left|right) on hold\.$", |r, c| {
        r.work.hold(End::named(&c[2]), n(c, 1));
    }),
    (
        r"^Leave the last (\d+) stitch(?:es)? of the next row unworked, wrap the next and turn\.$",
        |r, c| {
            r.work.hold(r.work.at.other(), n(c, 1));
        },
    ),
    (
        r"^(?:Take|Put) the (\d+) stitch(?:es)? at the (left|right) (?:off on waste yarn|on a holder) \(([^)]+)\)\.$",
        |r, c| r.work.off(End::named(&c[2]), n(c, 1), &c[3]),
    ),
    (
        r"^(?:Knit 8 rows of waste yarn over|Break the yarn and leave) all (\d+) stitch(?:es)? (?:and take them off the machine|on a holder) \(([^)]+)\)\.$",
        |r, c| {
            assert_eq!(r.work.stitches(), n(c, 1), "all stitches");
            r.work.off(r.work.at, n(c, 1), &c[2]);
        },
    ),
    (
        r"^Put the (\d+) stitch(?:es)? at the (left|right) on (?:hold|a holder): they wait as the (.+)\.$",
        |r, c| r.work.set_aside(End::named(&c[2]), n(c, 1), &c[3]),
    ),
    (
        r"^Break the yarn\. Put the (.+?) back to work, bring the carriage to the (left|right) and join the yarn there\. Set the row counter to (\d{3,})\.$",
        |r, c| {
            r.work.resume(&c[1], End::named(&c[2]));
            r.work.set_counter(n(c, 3));
        },
    ),
    (
        r"^Break the yarn\. Put the (.+?) back on the needle and join the yarn at its (left|right) edge\. The last row worked on it was row (\d+)\.$",
        |r, c| {
            r.work.resume(&c[1], End::named(&c[2]));
            assert_eq!(r.work.counter(), n(c, 3));
        },
    ),
    (
        r"^Bind off (\d+) stitch(?:es)? at the (?:carriage side|start of the next row)(?: at the ([^(.]+)| \(([^)]+)\)|)\.$",
        |r, c| {
            if let Some(edge) = c.get(2) {
                r.at_the_yarn(edge.as_str());
            }
            r.work.bind_off(n(c, 1), c.get(3).map(|onto| onto.as_str()));
        },
    ),
    (r"^Bind off all stitches \(([^)]+)\)\.$", |r, c| r.work.bind_off_all(&c[1])),
    (r"^Cast on (\d+) stitch(?:es)? at the (?:carriage side|start of the next row)\.$", |r, c| {
        r.work.extend(n(c, 1));
    }),
    (
        r"^(?:Transfer all stitches to the main bed and change|Change) to ([^.:(]+?)( \([^)]+\))?(?:: (.+?))?\.( Set the row counter to 000\.| Count rows from here: the next row is row 1\.)?$",
        |r, c| {
            match r.voice {
                Voice::Machine => {
                    assert_eq!(arrangement(&c[1]), c.get(2).map_or("", |beds| beds.as_str()));
                }
                Voice::Hand => r.by_hand(&c[1], &c[3]),
            }
            if c.get(4).is_some() {
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
    Regex::new(r"^put (\d+) needles? (?:at the (left|right)|opposite the carriage) on hold, knit (\d+) rows?$").unwrap()
});
static TURN: LazyLock<Regex> = LazyLock::new(|| {
    Regex::new(r"^work until (\d+) stitch(?:es)? more than before are left unworked at (?:the (left|right) edge|that end), wrap the next stitch and turn(?:, work (\d+) rows?)?$").unwrap()
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
            let picked =
                Picked { edge, piece, stitches: n(&c, 1), over: over.map(|(_, places)| places) };
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

    /// "Shoulders" without a side are both, each bound off where the yarn is.
    fn bind_offs(&mut self, text: &str, shaped: Option<&str>, onto: Option<&str>) {
        for (inner, times) in bracketed(text) {
            let c = BIND_OFF.captures(&inner).unwrap_or_else(|| panic!("unclear: {inner:?}"));
            let rows = c.get(2).map_or_else(|| to_the_end(&c, 3), |_| n(&c, 2));
            for _ in 0..times {
                if let Some(edge) = shaped {
                    self.at_the_yarn(edge);
                }
                let shoulder = format!("{} shoulder", self.work.at.word());
                let onto = onto.or(shaped.is_none().then_some(shoulder.as_str()));
                self.work.bind_off(n(&c, 1), onto);
                self.work.knit(rows);
            }
        }
    }

    fn short_rows(&mut self, text: &str) {
        for (inner, times) in bracketed(text) {
            let (c, rows) = if let Some(c) = HOLD.captures(&inner) {
                let rows = n(&c, 3);
                (c, rows)
            } else {
                let c = TURN.captures(&inner).unwrap_or_else(|| panic!("unclear: {inner:?}"));
                let rows = to_the_end(&c, 3);
                (c, rows)
            };
            for _ in 0..times {
                let end = c.get(2).map_or(self.work.at.other(), |side| End::named(side.as_str()));
                self.work.hold(end, n(&c, 1));
                self.work.knit(rows);
            }
        }
    }

    /// How a fabric is worked by hand; a rib that shows knit at both edges fills its
    /// stitches.
    fn by_hand(&self, fabric: &str, rows: &str) {
        let Some((knit, purl)) = rib(fabric) else {
            let plain = "knit the right-side rows, purl the wrong-side rows";
            return assert_eq!(
                rows,
                if fabric == "stocking stitch" { plain } else { "knit every row" }
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
    let loops: u64 = knitted.loops.iter().map(|(_, loops)| loops).sum();
    let counts = [
        ("rows", read.rows, knitted.rows),
        ("loops", read.loops, loops),
        ("cast on", read.cast_on, knitted.cast_on),
        ("bound off", read.bound_off, knitted.bound_off),
        ("live", read.live, knitted.live),
        ("widest", read.widest, knitted.widest),
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
            Step::Shape(shape) => insets.push(u64::from(shape.inset)),
            Step::CastOn { how: CastOn::PickedUp { from }, .. } => picked.extend(from),
            _ => {}
        }
    }
    let same = picked.len() == read.picked.len()
        && picked.iter().zip(&read.picked).all(|(step, read)| {
            (&step.piece, &step.edge, u64::from(step.stitches))
                == (&read.piece, &read.edge, read.stitches)
        });
    let same = same && insets == read.insets;
    (!same).then(|| format!("{insets:?}, {picked:?} where was read {read:?}"))
}

fn optional(captures: &Captures<'_>, group: usize) -> u64 {
    captures.get(group).map_or(0, |found| found.as_str().parse().unwrap())
}

/// How a fabric lies on the beds.
fn arrangement(fabric: &str) -> String {
    rib(fabric).map_or_else(String::new, |(knit, purl)| {
        format!(
            " ({knit} on the main bed, {purl} on the ribber by turns; without a ribber knit plain and reform {purl} of every {} stitches by hand)",
            knit + purl
        )
    })
}
