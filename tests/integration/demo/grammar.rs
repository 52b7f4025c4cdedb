//! Every verb proofread over many inputs, small numbers above all: there the slips are.

use super::{run, words};
use loopwright_tests::grammar::{Reader, Slip};
use std::collections::BTreeMap;

/// What was run, how often it was answered, and the slips with a command that shows each.
#[derive(Default)]
struct Proof {
    reader: Reader,
    answered: usize,
    refused: usize,
    slips: BTreeMap<String, String>,
}

impl Proof {
    fn read(&mut self, command: &str) {
        let arguments: Vec<&str> = words(command);
        let outcome = run(&arguments);
        match outcome.code {
            0 => self.answered += 1,
            _ => self.refused += 1,
        }
        for Slip { rule, words } in
            self.reader.slips(&outcome.stdout).into_iter().chain(self.reader.slips(&outcome.stderr))
        {
            self.slips.entry(format!("{rule}: {words}")).or_insert_with(|| command.to_owned());
        }
    }

    /// No slip, and both outcomes were really seen.
    #[track_caller]
    fn clean(&self, answered: usize, refused: usize) {
        assert!(
            self.answered >= answered && self.refused >= refused,
            "{} answered, {} refused",
            self.answered,
            self.refused
        );
        let slips: Vec<String> =
            self.slips.iter().map(|(slip, command)| format!("{slip}\n    {command}")).collect();
        assert!(slips.is_empty(), "{} slips:\n{}", slips.len(), slips.join("\n"));
    }
}

const UNITS: [&str; 3] = ["cm", "in", "both"];

#[test]
fn counts_and_gauges() {
    let mut proof = Proof::default();
    for stitches in [1, 2, 3, 28] {
        for length in ["0.3 cm", "1 cm", "1 in", "52 cm", "0 cm"] {
            for rest in [
                "",
                "--rows",
                "--multiple 6 --extra 2",
                "--multiple 2 --edge 1 --round down",
                "--least 1 --most 1",
                "--near 1",
                "--near 5",
                "--round exact",
            ] {
                proof.read(&format!("count '{length}' --gauge {stitches}x40/10cm {rest}"));
            }
        }
        for back in [0, 1, 2, 145] {
            for units in UNITS {
                proof.read(&format!(
                    "count --back {back} --gauge {stitches}x{stitches}/10cm --units {units}"
                ));
            }
        }
        for count in [0, 1, 2, 3, 100] {
            for rest in
                ["", "--rows", "--multiple 4 --extra 1", "--round down", "--sum 1=1", "--sum 3=1+2"]
            {
                proof.read(&format!(
                    "regauge {count} 1 2 --from 28x40/10cm --to {stitches}x{stitches}/10cm {rest}"
                ));
            }
        }
        for rows in [1, 2, 60] {
            for units in UNITS {
                proof.read(&format!("gauge --reading '{stitches} st = 1 cm' --reading '{rows} rows = 1 in' --units {units}"));
                proof.read(&format!("gauge --reading '{stitches} st = 10 cm' --reading '{rows} rows = 10 cm' --before '1 st = 1 cm' --before '2 rows = 1 cm' --size '1 cm' --within '1 mm' --units {units}"));
            }
        }
    }
    proof.clean(200, 20);
}

#[test]
fn spacings() {
    let mut proof = Proof::default();
    let ends =
        ["round", "half", "full", "both", "blocks", "blocks-halved", "leftover", "half-numbers"];
    for stitches in [0, 1, 2, 3, 7, 12, 25] {
        for change in ["+1", "-1", "+2", "-2", "+3", "-4", "+6"] {
            for ends in ends {
                proof.read(&format!("space {stitches} --change {change} --ends {ends}"));
            }
            for rest in [
                "--border 1",
                "--in-stitch",
                "--together 3",
                "--mirror",
                "--reverse",
                "--avoid 1",
                "--avoid 2-3",
                "--between-repeats 3 --edge 1",
                "--rest split --ends leftover",
            ] {
                proof.read(&format!("space {stitches} --change {change} {rest}"));
            }
        }
        for rest in ["--to 1", "--to 2", "--to 13", "--multiple 2", "--multiple 6 --extra 1"] {
            proof.read(&format!("space {stitches} {rest}"));
        }
    }
    proof.clean(200, 100);
}

#[test]
fn tapers_and_slopes() {
    let mut proof = Proof::default();
    for (from, to) in
        [(1, 2), (2, 1), (1, 3), (3, 1), (4, 7), (50, 50), (50, 51), (50, 52), (50, 44), (10, 30)]
    {
        for rows in [0, 1, 2, 3, 7, 10, 40] {
            for rest in [
                "",
                "--edges 2",
                "--every 2",
                "--order slow-first",
                "--order quick-first",
                "--order alternating",
                "--plain-before 1",
                "--plain-after 1",
                "--most 2",
                "--at-once 2",
                "--ends both",
                "--ends closing",
                "--first 1",
                "--after 1",
                "--worked 1 --now 2",
                "--edges 2 --every 2 --order slow-first",
            ] {
                proof.read(&format!("taper {from} {to} --rows {rows} {rest}"));
            }
        }
    }
    for stitches in [1, 2, 3, 7, 20] {
        for rest in ["--turns 1", "--turns 2", "--turns 3", "--rows 1", "--rows 2", "--rows 7"] {
            for method in ["", "--method short-rows", "--larger spread", "--last-free"] {
                proof.read(&format!("slope {stitches} {rest} {method}"));
            }
        }
    }
    proof.clean(400, 200);
}

#[test]
fn turns_and_curves() {
    let mut proof = Proof::default();
    for width in [1, 2, 3, 5, 16] {
        for rows in [1, 2, 3, 4, 6, 12] {
            for shape in ["wedge", "dart", "raised", "heel"] {
                for rest in
                    ["", "--side left", "--reach growing", "--no-wraps", "--core 1", "--core 3"]
                {
                    proof.read(&format!("turn {width} --rows {rows} --shape {shape} {rest}"));
                }
            }
        }
    }
    for outline in [
        "'0,0' '2 cm,3 cm'",
        "'0 cm,0 cm' '1 cm,1 cm' '1 cm,3 cm'",
        "'0 mm,0 mm' '4 mm,10 mm'",
        "'0 cm,0 cm' '5 cm,1 cm'",
    ] {
        for gauge in ["10x10/10cm", "28x40/10cm"] {
            for rest in [
                "",
                "--neck",
                "--most 1",
                "--opening 1",
                "--closing 1",
                "--wider",
                "--single-every 1",
            ] {
                proof.read(&format!("curve {outline} --gauge {gauge} {rest}"));
            }
        }
    }
    for (stitches, rows) in [(1, 1), (1, 5), (5, 1), (2, 2), (12, 20)] {
        for rest in ["", "--neck", "--most 1", "--wider"] {
            proof.read(&format!(
                "curve quarter --stitches {stitches} --rows {rows} --gauge 28x40/10cm {rest}"
            ));
            proof.read(&format!("curve '{stitches} cm x {rows} cm' --gauge 10x10/10cm {rest}"));
        }
    }
    proof.clean(100, 100);
}

#[test]
fn edges_and_joins() {
    let mut proof = Proof::default();
    for rows in [1, 2, 3, 4, 20] {
        for stitches in [1, 2, 3, 15] {
            for ends in ["half", "full", "blocks", "round"] {
                proof.read(&format!("pickup --rows {rows} --stitches {stitches} --ends {ends}"));
            }
        }
        for rest in ["", "--multiple 2 --extra 1", "--mirrored", "--most 2", "--corner-after 1"] {
            proof.read(&format!("pickup --rows {rows} --gauge 28x40/10cm {rest}"));
            proof.read(&format!(
                "pickup '{rows} cm' --gauge 28x40/10cm --band-gauge 27x40/10cm {rest}"
            ));
        }
        for holes in [1, 2, 3] {
            for rest in ["", "--hole 2", "--margin 1", "--hole 3 --margin 2"] {
                proof.read(&format!("pickup --stitches {rows}0 --buttons {holes} {rest}"));
            }
        }
    }
    let joins = [
        "graft",
        "bind-off-together",
        "stitch-seam",
        "row-seam",
        "stitch-to-row",
        "pick-up",
        "hang-back",
        "eased",
    ];
    let edges = [
        "1 st",
        "2 st",
        "60 st",
        "1 row",
        "2 rows",
        "61 rows",
        "1 rows 1 st",
        "20 rows 3 st x1",
        "20 rows 3 st x10",
        "2 rows 1 st x4",
    ];
    for join in joins {
        for first in edges {
            for second in edges {
                for rest in ["", "--within 1", "--overlap 1"] {
                    proof.read(&format!(
                        "seam '{first}' '{second}' --join {join} --gauge 28x40/10cm {rest}"
                    ));
                }
                proof.read(&format!("seam '{first}' '{second}' --join {join} --gauge 28x40/10cm --least-times 1 --most-times 3/2"));
            }
        }
    }
    proof.clean(500, 200);
}

#[test]
fn yarns() {
    let mut proof = Proof::default();
    for units in UNITS {
        for yarn in ["2/28 Nm", "30/2 Ne", "1 tex", "109 yd/50 g"] {
            for rest in [
                "",
                "--to Ne",
                "--with '1 tex'",
                "--gauge 28x40/10cm --stitches 1",
                "--gauge 28x40/10cm --stitches 30000 --package '50 g' --margin 10",
                "--gauge 28x40/10cm --stitches 100 --package '50 g'",
                "--gauge 28x40/10cm --stitches 3000 --package '1 g' --owned '1 g' --spare 1",
                "--gauge 28x40/10cm --stitches 3000 --ends 1 --cast-on 1 --bind-off 1 --waste 1",
                "--gauge 28x40/10cm --left '1 g' --row 1",
                "--gauge 28x40/10cm --left '1 g' --row 300",
                "--gauge 28x40/10cm --left '20 g' --row 50 --add 1 --every 2 --edging 1 --copies 2",
                "--unravelled '1 st = 1 cm' --stitches 2",
                "--stitches 2",
                "--left '1 g'",
            ] {
                proof.read(&format!("yarn '{yarn}' {rest} --units {units}"));
            }
        }
    }
    proof.clean(80, 10);
}

#[test]
fn plans() {
    let mut proof = Proof::default();
    let folder = super::folder("proofread");
    for plan in ["harbour", "kite", "puddle", "woodpile"] {
        let path = format!("{}/../examples/plans/{plan}.toml", env!("CARGO_MANIFEST_DIR"));
        let text = std::fs::read_to_string(&path).unwrap();
        for units in UNITS {
            proof.read(&format!("draft {path} --units {units}"));
            proof.read(&format!("yarn --plan {path} --units {units}"));
        }
        for (from, to) in [
            ("hem = ", "hem = \"1 cm\" #"),
            ("cuff = ", "cuff = \"1 cm\" #"),
            ("neckband = ", "neckband = \"5 mm\" #"),
            ("plain = ", "plain = \"10 x 12 / 10 cm\" #"),
            ("plain = ", "plain = \"40 x 60 / 10 cm\" #"),
            ("bed = ", "bed = 40 #"),
        ] {
            let path = folder.join("plan.toml");
            std::fs::write(&path, text.replacen(from, to, 1)).unwrap();
            proof.read(&format!("draft {} --units in", path.display()));
        }
    }
    proof.clean(20, 1);
}

#[test]
fn counts_together() {
    let mut proof = Proof::default();
    let path = super::folder("proofread_fit").join("counts.toml");
    for ideal in ["1", "1.5", "48"] {
        for demand in [
            "",
            "sum = { a = 1, b = -1 }",
            "sum = { a = 1 }\ntotal = 1",
            "equal = [\"a\", \"b\"]\noffset = 1",
            "same_parity = [\"a\", \"b\"]",
            "ordered = [\"b\", \"a\"]",
            "ratio = [\"a\", \"b\"]\nis = \"1/2\"",
            "sum = { a = 2 }\ntotal = 1",
        ] {
            for range in ["", "most = 1", "least = 2\nmost = 2"] {
                let demand = if demand.is_empty() {
                    String::new()
                } else {
                    format!("[[demand]]\nname = \"one\"\n{demand}\n")
                };
                let text = format!(
                    "[[count]]\nname = \"a\"\nideal = {ideal}\n{range}\n[[count]]\nname = \"b\"\nideal = 7\nmultiple = 3\n{demand}"
                );
                std::fs::write(&path, text).unwrap();
                proof.read(&format!("fit {}", path.display()));
                proof.read(&format!("fit {} --steps 3", path.display()));
            }
        }
    }
    proof.clean(30, 30);
}
