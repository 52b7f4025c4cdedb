//! Published examples under their named variants, and misprints refused.

use super::{rows, st};
use loopwright::gauge::{Gauge, Length, Round, Stitches};
use loopwright::shaping::{
    Convention, Curve, Edges, Ends, Larger, Order, Outline, Slope, Spacing, Surplus, Taper,
    Technique,
};
use loopwright_tests::golden::cases;
use loopwright_tests::shaping::row::work;
use serde::Deserialize;

#[derive(Deserialize)]
struct Space {
    stitches: u32,
    technique: Technique,
    events: u32,
    ends: Convention,
    #[serde(default = "ceil")]
    round: Round,
    #[serde(default = "last")]
    larger: Larger,
    #[serde(default)]
    rest: Surplus,
    #[serde(default)]
    border: u32,
    #[serde(default)]
    mirrored: bool,
    #[serde(default)]
    reversed: bool,
    words: Option<String>,
    groups: Option<Vec<(u32, u32)>>,
    positions: Option<Vec<u32>>,
    tail: Option<u32>,
    result: u32,
}

fn ceil() -> Round {
    Round::Ceil
}

fn last() -> Larger {
    Larger::Last
}

impl Space {
    fn row(&self) -> Spacing {
        let builder = Spacing::builder(st(self.stitches), self.technique, self.events, self.ends);
        let builder = builder
            .round(self.round)
            .larger(self.larger)
            .surplus(self.rest)
            .border(st(self.border));
        let builder = if self.mirrored { builder.mirrored() } else { builder };
        let builder = if self.reversed { builder.reversed() } else { builder };
        builder.build().unwrap()
    }
}

#[test]
fn spacing_as_published() {
    for case in cases::<Space>(include_str!("../../golden/shaping_space.toml")) {
        let (name, want) = (&case.name, &case.fields);
        let row = want.row();
        let groups: Vec<(u32, u32)> =
            row.groups().map(|group| (group.size.get(), group.times)).collect();
        assert_eq!(row.result().get(), want.result, "{name}");
        want.groups.iter().for_each(|want| assert_eq!(&groups, want, "{name}"));
        want.tail.iter().for_each(|want| assert_eq!(row.tail().get(), *want, "{name}"));
        want.words.iter().for_each(|want| assert_eq!(&row.words().to_string(), want, "{name}"));
        let positions: Vec<u32> = row.positions().map(Stitches::get).collect();
        want.positions.iter().for_each(|want| assert_eq!(&positions, want, "{name}"));
        let worked = work(&row.words().to_string(), want.stitches).unwrap();
        assert_eq!(worked.new.len(), want.result as usize, "{name}");
        assert_eq!(worked.events, positions, "{name}");
    }
}

#[derive(Deserialize)]
struct Row {
    stitches: u32,
    #[serde(rename = "row")]
    text: String,
    result: Option<usize>,
    refused: Option<String>,
}

#[test]
fn misprinted_rows_are_refused() {
    for case in cases::<Row>(include_str!("../../golden/shaping_row.toml")) {
        let got = work(&case.fields.text, case.fields.stitches).map(|worked| worked.new.len());
        let want = match (case.fields.result, case.fields.refused) {
            (Some(result), None) => Ok(result),
            (None, Some(why)) => Err(why),
            _ => panic!("{} wants one of result and refused", case.name),
        };
        assert_eq!(got, want, "{}", case.name);
    }
}

#[derive(Deserialize)]
struct Slanted {
    from: u32,
    to: u32,
    rows: u32,
    #[serde(default)]
    keep_after: u32,
    #[serde(default = "one")]
    edges: u32,
    first: Option<u32>,
    #[serde(default = "one")]
    every: u32,
    #[serde(default)]
    order: Order,
    ends: Option<Ends>,
    segments: Vec<(u32, u32)>,
    plain_after: u32,
    #[serde(default)]
    counts: Vec<(u32, u32)>,
}

fn one() -> u32 {
    1
}

#[test]
fn tapers_as_published() {
    for case in cases::<Slanted>(include_str!("../../golden/shaping_taper.toml")) {
        let (name, want) = (&case.name, &case.fields);
        let mut builder = Taper::builder(st(want.from), st(want.to), rows(want.rows))
            .edges(if want.edges == 2 { Edges::Both } else { Edges::One })
            .legal_rows(rows(want.first.unwrap_or(want.every)), rows(want.every))
            .plain_after(rows(want.keep_after))
            .order(want.order);
        if let Some(ends) = want.ends {
            builder = builder.ends(ends);
        }
        let taper = builder.build().unwrap();
        let segments: Vec<(u32, u32)> =
            taper.segments().map(|run| (run.every.get(), run.times)).collect();
        assert_eq!(segments, want.segments, "{name}");
        assert_eq!(taper.plain_after().get(), want.plain_after, "{name}");
        for &(row, count) in &want.counts {
            assert_eq!(taper.count_at(rows(row)).get(), count, "{name}, row {row}");
        }
    }
}

#[derive(Deserialize)]
struct Stepped {
    stitches: u32,
    turns: u32,
    larger: Larger,
    steps: Vec<u32>,
    done: Option<Vec<u32>>,
}

#[test]
fn slopes_as_published() {
    for case in cases::<Stepped>(include_str!("../../golden/shaping_slope.toml")) {
        let (name, want) = (&case.name, &case.fields);
        let slope = Slope::builder(st(want.stitches), want.turns, want.larger).build().unwrap();
        let steps: Vec<u32> = slope.steps().map(|step| step.stitches.get()).collect();
        assert_eq!(steps, want.steps, "{name}");
        let done: Vec<u32> = slope.steps().map(|step| step.done.get()).collect();
        want.done.iter().for_each(|want| assert_eq!(&done, want, "{name}"));
    }
}

#[derive(Deserialize)]
struct Total {
    stitches: u32,
    centre: u32,
    sides: u32,
    steps: Vec<(u32, u32)>,
    left: u32,
    adds_up: bool,
}

#[test]
fn published_totals_add_up_and_misprints_do_not() {
    for case in cases::<Total>(include_str!("../../golden/shaping_total.toml")) {
        let want = &case.fields;
        let side: u32 = want.steps.iter().map(|(stitches, times)| stitches * times).sum();
        let adds_up = want.centre + want.sides * side + want.left == want.stitches;
        assert_eq!(adds_up, want.adds_up, "{}", case.name);
    }
}

#[derive(Deserialize)]
struct Count {
    gauge: Gauge,
    width: Option<Length>,
    height: Option<Length>,
    stitches: Option<u32>,
    rows: Option<u32>,
}

#[test]
fn outlines_come_to_the_published_counts() {
    for case in cases::<Count>(include_str!("../../golden/shaping_count.toml")) {
        let want = &case.fields;
        let some = Length::cm(20).unwrap();
        let (width, height) = (want.width.unwrap_or(some), want.height.unwrap_or(some));
        let outline = Outline::start().line(width, height).unwrap();
        let builder = Curve::at_gauge(&outline, want.gauge, Round::HalfUp).unwrap();
        // A slanted line takes as many stitches at a time as it needs.
        let curve = builder.most(st(40)).single_rows(rows(1), rows(1)).build().unwrap();
        want.stitches.iter().for_each(|n| assert_eq!(curve.stitches().get(), *n, "{}", case.name));
        want.rows.iter().for_each(|n| assert_eq!(curve.rows().get(), *n, "{}", case.name));
    }
}
