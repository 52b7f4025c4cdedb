//! Every number of the printed sheet, witnessed from outside the sheet: from the plan
//! file by sums of its own, from the words knitted again, or from the draft's JSON.

#![allow(
    clippy::cast_precision_loss,
    clippy::float_cmp,
    reason = "counts of a garment are small, and printed numbers were rounded already"
)]

use super::plans::{drafted, plans};
use loopwright_tests::pattern::{Read, Told, read, stumble};
use loopwright_tests::sheet::{Sheet, lengths, numbers};
use serde_json::Value;
use std::collections::BTreeMap;
use std::path::PathBuf;

/// One plan seen three ways: as written, as printed, and as JSON.
struct Seen {
    name: String,
    plan: toml::Table,
    units: &'static str,
    sheet: Sheet,
    json: Value,
    read: BTreeMap<String, Read>,
}

impl Seen {
    fn new(path: &PathBuf, units: &'static str) -> Self {
        let text = std::fs::read_to_string(path).unwrap();
        let arguments = ["loopwright", "draft", path.to_str().unwrap(), "--units", units];
        let printed = loopwright_demo::run(arguments);
        assert_eq!(printed.code, 0, "{}", printed.stderr);
        assert_eq!(printed.stdout.lines().find_map(stumble), None, "{}", path.display());
        let sheet = Sheet::new(&printed.stdout);
        let json = drafted(path);
        let read = json["pieces"].as_array().unwrap().iter().map(|piece| {
            let name = piece["name"].as_str().unwrap();
            (name.to_owned(), read(&printed_lines(&sheet, piece)))
        });
        let (name, read) = (path.display().to_string(), read.collect());
        Self { name, plan: text.parse().unwrap(), units, sheet, json, read }
    }

    fn find(&self, key: &str) -> Option<String> {
        let (table, key) = key.split_once('.').unwrap();
        let value = self.plan.get(table)?.get(key)?;
        Some(value.as_str().map_or_else(|| value.to_string(), str::to_owned))
    }

    /// A length of the plan in millimetres.
    fn mm(&self, key: &str) -> Option<f64> {
        self.find(key).map(|text| lengths(&text.replace(',', "."))[0])
    }

    /// Stitches and rows to a millimetre: of plain knitting, or of the rib.
    fn gauge(&self, key: &str) -> (f64, f64) {
        if let Some(text) = self.find(&format!("gauge.{key}")) {
            let found = numbers(&text.replace(['x', '/'], " "));
            let over = lengths(text.rsplit_once('/').unwrap().1)[0];
            return (found[0] / over, found[1] / over);
        }
        if key == "rib" {
            return self.gauge("plain");
        }
        // Readings pooled: all that was counted over all that was measured.
        let mut sums = [(0.0, 0.0), (0.0, 0.0)];
        for reading in self.plan["swatch"]["readings"].as_array().unwrap() {
            let (count, span) = reading.as_str().unwrap().split_once('=').unwrap();
            let sum = &mut sums[usize::from(count.contains("row"))];
            let whole: Vec<&str> = count.split_whitespace().collect();
            let counted = whole[..whole.len() - 1].iter().map(|part| match part.split_once('/') {
                Some((over, under)) => over.parse::<f64>().unwrap() / under.parse::<f64>().unwrap(),
                None => part.parse().unwrap(),
            });
            sum.0 += counted.sum::<f64>();
            sum.1 += lengths(span)[0];
        }
        (sums[0].0 / sums[0].1, sums[1].0 / sums[1].1)
    }

    /// A count of the draft.
    fn count(&self, name: &str) -> f64 {
        let counts = self.json["counts"].as_array().unwrap();
        let found = counts.iter().find(|count| count["name"] == name);
        found.map_or(0.0, |count| count["count"].as_f64().unwrap())
    }

    /// A length as it is rounded when it is printed: half of a step.
    fn step(&self) -> f64 {
        if self.units == "in" { 25.4 / 16.0 + 1e-6 } else { 0.5 + 1e-6 }
    }
}

/// The lines of a piece as the sheet has them.
fn printed_lines(sheet: &Sheet, piece: &Value) -> Vec<Told> {
    let name = piece["name"].as_str().unwrap();
    let (first, rest) = name.split_at(1);
    let copies = piece["copies"].as_u64().unwrap();
    let made = if copies == 1 { String::new() } else { format!(" (make {copies})") };
    let heading = format!("{}{rest}{made}", first.to_uppercase());
    let lines = sheet.numbered(&heading).into_iter();
    lines.map(|line| Told { text: line.text, check: line.check }).collect()
}

fn each(see: impl Fn(&Seen)) {
    for plan in plans() {
        for units in ["cm", "in", "both"] {
            see(&Seen::new(&plan, units));
        }
    }
}

#[track_caller]
fn near(got: f64, wanted: f64, within: f64, what: &str) {
    assert!((got - wanted).abs() <= within, "{what}: {got} where {wanted} was expected");
}

/// The sheet's own lines knit the pieces that the replay knitted.
#[test]
fn the_lines() {
    each(|seen| {
        for piece in seen.json["pieces"].as_array().unwrap() {
            let name = piece["name"].as_str().unwrap();
            let read = &seen.read[name];
            let loops: u64 = piece["loops"]
                .as_array()
                .unwrap()
                .iter()
                .map(|of| of["stitches"].as_u64().unwrap())
                .sum();
            for (what, replayed, read) in [
                ("rows", piece["rows"].as_u64().unwrap(), read.rows),
                ("loops", loops, read.loops),
                (
                    "on",
                    piece["cast_on"].as_u64().unwrap() + piece["picked_up"].as_u64().unwrap(),
                    read.cast_on,
                ),
                ("bound off", piece["bound_off"].as_u64().unwrap(), read.bound_off),
                ("left", 0, read.left),
            ] {
                assert_eq!(replayed, read, "{what} of the {name} in {}", seen.name);
            }
        }
    });
}

/// Gauges as the plan has them, over the length that is printed beside them.
#[test]
fn the_gauges() {
    each(|seen| {
        let said = seen.sheet.section("Before you begin").join(" ");
        let rib = seen.find("gauge.rib_repeat").unwrap();
        for (what, key) in [("Stocking stitch".to_owned(), "plain"), (format!("{rib} rib"), "rib")]
        {
            let line = said.split(&format!("{what}: ")).nth(1).unwrap().split(". ").next().unwrap();
            let (stitches, rows) = seen.gauge(key);
            let spans = lengths(line);
            assert_eq!(spans.len(), if seen.units == "both" { 2 } else { 1 }, "{line}");
            for (at, part) in line.split(" (").enumerate() {
                let found = numbers(part);
                let span = spans[at];
                near(span, if part.contains("cm") { 100.0 } else { 101.6 }, 1e-9, part);
                near(found[0], stitches * span, 0.005 + 1e-9, part);
                near(found[1], rows * span, 0.005 + 1e-9, part);
            }
        }
    });
}

/// The widest piece, from the words of the pieces; the bed, from the plan.
#[test]
fn the_bed() {
    each(|seen| {
        let said = seen.sheet.paragraph("Before you begin");
        let Some(bed) = seen.find("knitting.bed") else {
            return assert!(!said.contains("needles"), "{said}");
        };
        let line = said.split("The widest piece needs ").nth(1).unwrap();
        let widest = seen.read.values().map(|read| read.widest).max().unwrap();
        assert!(line.starts_with(&format!("{widest} of the bed's {bed} needles.")), "{line}");
    });
}

/// What is wanted, by sums over the plan; what is given, by sums over the counts.
#[test]
fn the_finished_measures() {
    each(|seen| {
        let mm = |key: &str| seen.mm(key);
        let ((s, r), (_, rib)) = (seen.gauge("plain"), seen.gauge("rib"));
        let eased = |key: &str| {
            let usual = [("chest", 100.0), ("upper_arm", 50.0), ("wrist", 40.0)];
            let usual = usual.iter().find(|(name, _)| *name == key).unwrap().1;
            mm(&format!("wearer.{key}")).unwrap() + mm(&format!("ease.{key}")).unwrap_or(usual)
        };
        let (chest, arm, wrist) = (eased("chest"), eased("upper_arm"), eased("wrist"));
        let reach = mm("wearer.neck_to_wrist").unwrap_or_else(|| {
            mm("wearer.arm_length").unwrap() + mm("wearer.cross_back").unwrap() / 2.0
        });
        // Whichever is more: a third of the back, or what the head needs (its opening is
        // 7/3 of its width, and stretches by two fifths).
        let neck = mm("shape.neck_width")
            .unwrap_or_else(|| (chest / 6.0).max(mm("wearer.head").unwrap() * 3.0 / 7.0 / 1.4));
        let n = |name: &str| seen.count(name);
        let expected = [
            ("chest, all round", chest, 2.0 * (seen.read["back"].cast_on as f64 - 2.0) / s),
            (
                "body, hem to neck",
                mm("wearer.body_length").unwrap(),
                (n("side rows") + n("armhole rows") + n("shoulder rows")) / r + n("hem rows") / rib,
            ),
            ("armhole depth", arm / 2.0, n("armhole rows") / r),
            ("neck width", neck, n("neck") / s),
            ("front neck depth", mm("shape.neck_depth").unwrap_or(neck * 0.4), n("neck rows") / r),
            (
                "sleeve, cuff to shoulder seam",
                reach - chest / 4.0,
                n("sleeve rows") / r + n("cuff rows") / rib,
            ),
            (
                "sleeve top, all round",
                arm,
                (seen.read["sleeve"].edges["top"].stitches as f64 - 2.0) / s,
            ),
            ("wrist, all round", wrist, (seen.read["sleeve"].cast_on as f64 - 2.0) / s),
        ];
        let table = seen.sheet.table("Finished measures");
        assert_eq!(table.len(), expected.len() + 1, "the measures and the curve");
        for ((what, wanted, given), (row, text)) in expected.into_iter().zip(&table) {
            assert_eq!(row, what);
            let (first, rest) = text.split_once("(wanted ").unwrap();
            near(lengths(first)[0], given, seen.step(), what);
            near(lengths(rest)[0], wanted, seen.step(), what);
            let swatch = rest.split_once("by the swatch between ");
            assert_eq!(swatch.is_some(), seen.plan.contains_key("swatch"), "{text}");
            if let Some((_, range)) = swatch {
                let (low, high) = range.split_once(" and ").unwrap();
                let (low, high) = (lengths(low)[0], lengths(high)[0]);
                let check = seen.json["checks"]
                    .as_array()
                    .unwrap()
                    .iter()
                    .find(|check| check["what"] == what);
                let exact = |key: &str| check.unwrap()[key]["mm"].as_f64().unwrap();
                near(low, exact("low"), seen.step(), what);
                near(high, exact("high"), seen.step(), what);
                assert!(
                    exact("low") < given && given < exact("high"),
                    "{what}: {given} lies between"
                );
            }
            if seen.units == "both" {
                let all = lengths(text);
                for pair in all.chunks(2) {
                    near(pair[1], pair[0], 0.5 + 25.4 / 16.0, text);
                }
            }
        }
    });
}

/// How far the neck's staircase is from its curve, as the draft has it: a stair of whole
/// stitches is off by half a stitch somewhere, and by no more than a quarter of the neck.
#[test]
fn the_curve_of_the_neck() {
    each(|seen| {
        let (_, text) = seen.sheet.table("Finished measures").pop().unwrap();
        let said = lengths(&text)[0];
        let exact = seen.json["curves"][0]["most"]["mm"].as_f64().unwrap();
        near(said, exact, if seen.units == "in" { 25.4 / 32.0 } else { 0.5 } + 1e-6, &text);
        let (stitch, neck) = (1.0 / seen.gauge("plain").0, seen.count("neck"));
        assert!(exact >= stitch / 2.0 && exact <= neck * stitch / 4.0, "{exact}");
    });
}

/// Amounts as the estimate has them, low to high; what to buy, by a sum over them.
#[test]
fn the_yarn() {
    each(|seen| {
        let yarn = &seen.json["yarn"];
        let mut rows: Vec<(String, &Value)> = yarn["pieces"]
            .as_array()
            .unwrap()
            .iter()
            .map(|piece| (piece["name"].as_str().unwrap().to_owned(), &piece["amount"]))
            .collect();
        rows.push(("in all".into(), &yarn["total"]));
        if yarn["waste"]["likely"]["grams"].as_f64().unwrap() > 0.0 {
            rows.push(("waste yarn, any smooth yarn".into(), &yarn["waste"]));
        }
        let table = seen.sheet.table("Yarn");
        for ((name, amount), (row, text)) in rows.iter().zip(&table) {
            assert_eq!(name, row);
            let found = numbers(text);
            let unit = if seen.units == "in" { 0.9144 } else { 1.0 };
            for (at, part) in ["likely", "low", "high"].iter().enumerate() {
                near(
                    found[at] * unit,
                    amount[part]["metres"].as_f64().unwrap(),
                    unit / 2.0 + 1e-6,
                    text,
                );
                near(found[at + 3], amount[part]["grams"].as_f64().unwrap(), 0.5 + 1e-6, text);
            }
            assert!(found[1] <= found[0] && found[0] <= found[2], "low, likely, high: {text}");
        }
        buying(seen);
    });
}

/// As many packages as hold the amount, its margin and nothing of what is there already.
fn buying(seen: &Seen) {
    let said = seen.sheet.paragraph("Yarn");
    let Some(content) = seen.find("yarn.package") else {
        return assert!(!said.contains("Buy"));
    };
    let by_mass = content.ends_with(" g");
    let size = |text: &str| if by_mass { numbers(text)[0] } else { lengths(text)[0] / 1000.0 };
    let key = if by_mass { "grams" } else { "metres" };
    let margin = seen.find("yarn.margin").map_or(0.0, |margin| numbers(&margin)[0] / 100.0);
    let owned: f64 = seen.plan["yarn"].get("owned").map_or(0.0, |owned| {
        owned.as_array().unwrap().iter().map(|some| size(some.as_str().unwrap())).sum()
    });
    let packages = |part: &str| {
        let needed =
            seen.json["yarn"]["total"][part][key].as_f64().unwrap() * (1.0 + margin) - owned;
        (needed / size(&content)).ceil()
    };
    let bought = numbers(said.split("Buy ").nth(1).unwrap());
    assert_eq!(bought[0], packages("likely"), "{said}");
    let safe = packages("high");
    assert_eq!(bought.get(1).copied(), (safe > bought[0]).then_some(safe), "{said}");
}

/// Yarn from the loops, the swatch and the yarn number alone, where stitches were weighed
/// or pulled out: within a tenth of the sheet's total.
#[test]
fn the_total_of_the_yarn() {
    let mut tried = 0;
    each(|seen| {
        let metres_per_gram = match seen.find("yarn.count").unwrap() {
            count if count.contains("Nm") => {
                let found = numbers(&count.replace('/', " "));
                let strands = seen.plan["yarn"]
                    .get("strands")
                    .map_or(1.0, |n| n.as_integer().unwrap() as f64);
                found[1] / found[0] / strands
            }
            count => {
                let (long, heavy) = count.split_once('/').unwrap();
                lengths(long)[0] / 1000.0 / numbers(heavy)[0]
            }
        };
        let list = |key: &str| {
            seen.plan["yarn"].get(key).and_then(|list| list.as_array()?.first()?.as_str())
        };
        let metres_per_stitch = if let Some(pulled) = list("unravelled") {
            lengths(pulled)[0] / 1000.0 / numbers(pulled)[0]
        } else if let Some(weighed) = list("weighed") {
            let found = numbers(weighed);
            found[1] / found[0] * metres_per_gram
        } else {
            return;
        };
        let copies = |name: &str| if name == "sleeve" { 2.0 } else { 1.0 };
        let loops: f64 =
            seen.read.iter().map(|(name, read)| read.loops as f64 * copies(name)).sum();
        let total = seen.json["yarn"]["total"]["likely"]["metres"].as_f64().unwrap();
        near(total / (loops * metres_per_stitch), 1.0, 0.1, &seen.name);
        waste_and_seams(seen, metres_per_stitch);
    });
    for plan in plans() {
        let text = std::fs::read_to_string(plan).unwrap();
        tried += usize::from(text.contains("weighed =") || text.contains("unravelled ="));
    }
    assert!(tried >= 3, "plans with stitches weighed or pulled out");
}

/// Waste yarn is 8 rows over every stitch left live at the machine; a sewn seam takes one
/// and a half to three times its length.
fn waste_and_seams(seen: &Seen, metres_per_stitch: f64) {
    let yarn = &seen.json["yarn"];
    let metres = |amount: &Value| amount["likely"]["metres"].as_f64().unwrap();
    let live: u64 = seen.read.values().map(|read| read.live).sum();
    let machine = seen.find("knitting.bed").is_some();
    let waste = if machine { live as f64 * 8.0 * metres_per_stitch } else { 0.0 };
    near(metres(&yarn["waste"]), waste, waste * 0.05 + 1e-9, "waste yarn");
    let sewing: f64 = seen
        .sheet
        .numbered("Putting it together")
        .iter()
        .filter(|line| line.text.contains(": sew ") || line.text.contains(", sew "))
        .map(|line| {
            let times = if line.text.contains("on both sleeves") { 2.0 } else { 1.0 };
            times * lengths(line.check.split_once(" to ").unwrap().1)[0] / 1000.0
        })
        .sum();
    let pieces = yarn["pieces"].as_array().unwrap();
    let seams = metres(&pieces.iter().find(|piece| piece["name"] == "seams").unwrap()["amount"]);
    assert!((1.5 * sewing..=3.0 * sewing).contains(&seams), "{seams} m for {sewing} m of seams");
}

/// What meets what: the edges' counts from the words of the pieces, the lengths from
/// their gauges, the difference from the lengths.
#[test]
fn the_seams() {
    each(|seen| {
        let joins = seen.json["joins"].as_array().unwrap();
        let lines = seen.sheet.numbered("Putting it together");
        assert_eq!(lines.len(), joins.len());
        for (line, join) in lines.iter().zip(joins) {
            let name = join["name"].as_str().unwrap();
            assert!(line.text.to_lowercase().starts_with(&name.to_lowercase()), "{line:?}");
            let (sides, apart) = line.check.split_once("; ").unwrap_or((&line.check, ""));
            let (a, b) = sides.split_once(" to ").unwrap();
            let mut long = Vec::new();
            for (side, part) in [("a", a), ("b", b)] {
                let edges = join["check"][side]["name"].as_str().unwrap();
                let (rows, stitches, mm) = edge_sums(seen, edges, name);
                let counts: Vec<f64> = numbers(part.split(" (").next().unwrap());
                let expected: Vec<f64> =
                    [rows, stitches].into_iter().filter(|n| *n > 0.0).collect();
                assert_eq!(counts, expected, "{name}: {part} for {edges}");
                if let Some(mm) = mm {
                    near(lengths(part)[0], mm, seen.step(), name);
                }
                long.push(lengths(part)[0]);
            }
            told_apart(seen, apart, long[0] - long[1], name);
        }
    });
}

/// "ease in" where the first is longer, "stretch by" where it is shorter.
fn told_apart(seen: &Seen, apart: &str, longer: f64, name: &str) {
    if apart.is_empty() {
        return near(longer, 0.0, 0.5 + 2.0 * seen.step(), name);
    }
    near(lengths(apart)[0], longer.abs(), 3.0 * seen.step(), name);
    let told = if longer > 0.0 { "ease in " } else { "stretch by " };
    let flat = longer.abs() <= 2.0 * seen.step();
    assert!(apart.starts_with(told) || flat, "{name}: {apart}, {longer} mm longer");
}

/// Rows, stitches and (of straight edges) length of the edges of one side, by the words of
/// their pieces; "a of the b and c of the d".
fn edge_sums(seen: &Seen, edges: &str, seam: &str) -> (f64, f64, Option<f64>) {
    let ((s, r), (rib_s, rib_r)) = (seen.gauge("plain"), seen.gauge("rib"));
    let (mut rows, mut stitches, mut mm, mut straight) = (0.0, 0.0, 0.0, true);
    for edge in edges.split(" and ") {
        let (edge, piece) = edge.rsplit_once(" of the ").unwrap();
        let found = &seen.read[piece];
        let (hem, whole) = match (piece, edge) {
            ("neckband", _) => (f64::MAX, found),
            ("sleeve", _) => (seen.count("cuff rows"), found),
            _ => (seen.count("hem rows"), found),
        };
        if edge == "neck" {
            (stitches, mm) = (stitches + whole.cast_on as f64, mm + whole.cast_on as f64 / rib_s);
            continue;
        }
        let told = &whole.edges[edge];
        let across = told.stitches as f64 - if seam.starts_with("sleeve at") { 2.0 } else { 0.0 };
        // A seam along a bound-off edge goes from stitch to stitch.
        let along = if edge.ends_with("shoulder") { 0 } else { told.rows.unwrap_or(0) } as f64;
        let across = across.max(0.0);
        if matches!(edge, "left edge" | "right edge") {
            let rib = hem.min(along);
            mm += rib / rib_r + (along - rib) / r;
        } else {
            mm += along / r;
        }
        mm += across / s;
        straight &= along == 0.0 || across == 0.0;
        (rows, stitches) = (rows + along, stitches + across);
    }
    (rows, stitches, straight.then_some(mm))
}

/// Every count beside its ideal and the difference with its sign.
#[test]
fn the_roundings() {
    each(|seen| {
        let ((s, r), (_, rib)) = (seen.gauge("plain"), seen.gauge("rib"));
        let checks: BTreeMap<&str, f64> = seen.json["checks"]
            .as_array()
            .unwrap()
            .iter()
            .map(|check| (check["what"].as_str().unwrap(), check["wanted"]["mm"].as_f64().unwrap()))
            .collect();
        let mm = |key: &str, usual: f64| seen.mm(key).unwrap_or(usual);
        let (hem, cuff) = (mm("shape.hem", 60.0), mm("shape.cuff", 60.0));
        let drop = mm("shape.shoulder_drop", 0.0);
        let body = checks["chest, all round"] / 2.0 * s + 2.0;
        let neck = checks["neck width"] * s;
        let side = checks["body, hem to neck"] - hem - drop - checks["armhole depth"];
        let ideals = BTreeMap::from([
            ("body", body),
            ("neck", neck),
            ("shoulder", (body - neck) / 2.0),
            ("wrist", checks["wrist, all round"] * s + 2.0),
            ("sleeve top", checks["sleeve top, all round"] * s),
            ("hem rows", hem * rib),
            ("side rows", side * r),
            ("armhole rows", checks["armhole depth"] * r),
            ("neck rows", checks["front neck depth"] * r),
            ("cuff rows", cuff * rib),
            ("sleeve rows", (checks["sleeve, cuff to shoulder seam"] - cuff) * r),
            ("neckband rows", mm("shape.neckband", 25.0) * rib),
            ("shoulder rows", drop * r),
        ]);
        let rows = seen.sheet.table("How the counts were rounded");
        assert_eq!(rows.len(), if drop > 0.0 { 13 } else { 12 });
        for (name, text) in rows {
            let found = numbers(&text);
            let (ideal, half) = (ideals[name.as_str()], 0.005 + 1e-9);
            assert_eq!(found[0], seen.count(&name), "{name}");
            near(found[1], ideal, half, &name);
            near(found[2], found[0] - ideal, half, &name);
            let sign = if found[2] > 0.0 { ", +" } else { ", " };
            assert!(text.contains(sign) && !text.contains("--"), "{name} {text}");
        }
    });
}
