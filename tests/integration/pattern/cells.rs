//! The replay against a second knitter who keeps every stitch and the way of the yarn.

use loopwright::pattern::{Hanging, Knitted, Needle, Piece, Side};
use loopwright_tests::pattern::cells::{Bench, Dice, Stop, knit, piece};
use std::collections::BTreeMap;

/// How many pieces are tried: 10,000, or as many as `LOOPWRIGHT_PIECES` says.
fn pieces() -> u64 {
    std::env::var("LOOPWRIGHT_PIECES").map_or(10_000, |pieces| pieces.parse().unwrap())
}

#[test]
fn random_pieces_agree() {
    let pieces = pieces();
    let (mut whole, mut long) = (0, 0);
    let mut stops: BTreeMap<Stop, u64> = BTreeMap::new();
    for seed in 0..pieces {
        let piece = piece(&mut Dice::new(seed), 40);
        match (piece.replay(), knit(&piece)) {
            (Ok(knitted), Ok(bench)) => {
                whole += 1;
                long += u64::from(piece.steps().len() > 10);
                same(seed, &piece, &knitted, &bench);
            }
            (Err(error), Err((at, stop))) => {
                let told = error.to_string();
                assert_eq!(error.step(), Some(at), "seed {seed}: {told}, {stop:?} in {piece:#?}");
                assert!(told.contains(stop.words()), "seed {seed}: {told}, {stop:?} in {piece:#?}");
                *stops.entry(stop).or_default() += 1;
            }
            (replayed, bench) => {
                let (replayed, bench) = (replayed.map(drop), bench.map(drop));
                panic!("seed {seed}: {replayed:?} against {bench:?} in {piece:#?}");
            }
        }
    }
    assert!(whole > pieces / 3, "{whole} of {pieces} can be knitted");
    assert!(long > pieces / 5, "{long} of {pieces} are long");
    let faulty: u64 = stops.values().sum();
    assert!(faulty > pieces / 10, "{faulty} of {pieces} cannot be knitted");
    assert!(stops.len() >= 24, "kinds of faults met: {stops:?}");
    assert!(stops[&Stop::Float] > pieces / 500, "{stops:?}");
}

fn same(seed: u64, piece: &Piece, knitted: &Knitted, bench: &Bench) {
    let on = [knitted.cast_on, knitted.picked_up, knitted.begun_live];
    let counts = [
        ("loops", knitted.all_loops(), bench.loops()),
        ("on", on.iter().map(|on| u64::from(on.get())).sum(), bench.on),
        ("off", knitted.bound_off.get().into(), bench.off),
        ("live", knitted.live.get().into(), bench.live),
        ("rows", knitted.rows.get().into(), bench.rows),
        ("ends", knitted.ends.into(), bench.ends),
        ("widest", knitted.widest.get().into(), bench.widest as u64),
    ];
    for (what, replayed, counted) in counts {
        assert_eq!(replayed, counted, "seed {seed}: {what} of {piece:#?}");
    }
    let edges: BTreeMap<&str, (u64, u64)> = knitted
        .edges
        .iter()
        .map(|edge| (edge.name.as_str(), (edge.rows(), edge.stitches())))
        .collect();
    let borders: BTreeMap<&str, (u64, u64)> = bench
        .borders
        .iter()
        .map(|(name, border)| (name.as_str(), (border.rows, border.stitches)))
        .collect();
    assert_eq!(edges, borders, "seed {seed}: edges of {piece:#?}");
    step_by_step(seed, piece, knitted);
}

/// After every step the needles, the yarn and the counter are where the cells are.
fn step_by_step(seed: u64, piece: &Piece, knitted: &Knitted) {
    let mut bench = Bench::new(piece.craft());
    for (step, entry) in piece.steps().iter().zip(&knitted.log) {
        bench.step(step).unwrap();
        let strip = bench.strip();
        let count = strip.map_or(0, |strip| strip.cells.len());
        assert_eq!(entry.stitches.get() as usize, count, "seed {seed}: {step:?} in {piece:#?}");
        let needles = strip.and_then(|strip| {
            let (first, _) = strip.cells.first_key_value()?;
            let (last, _) = strip.cells.last_key_value()?;
            Some((Needle::at(*first), Needle::at(*last)))
        });
        assert_eq!(entry.needles, needles, "seed {seed}: {step:?} in {piece:#?}");
        let held = strip
            .map_or(0, |strip| strip.cells.values().filter(|cell| cell.held.is_some()).count());
        assert_eq!(entry.held() as usize, held, "seed {seed}: {step:?} in {piece:#?}");
        let hangs = bench
            .hangs()
            .map_or(Hanging::Cut, |(place, side)| Hanging::At { needle: Needle::at(place), side });
        assert_eq!(
            (entry.yarn, entry.carriage),
            (hangs, bench.carriage),
            "seed {seed}: {step:?} in {piece:#?}"
        );
        let row = strip.map_or(0, |strip| strip.row);
        assert_eq!(u64::from(entry.row.get()), row, "seed {seed}: {step:?} in {piece:#?}");
        let at_left = strip.map_or(0, |strip| strip.held(Side::Left));
        if held < count {
            assert_eq!(
                entry.held_left.get() as usize,
                at_left,
                "seed {seed}: {step:?} in {piece:#?}"
            );
        }
    }
}
