//! Spread tapers and spacings allocate nothing until words are asked for.

use crate::allocations;
use loopwright::gauge::{Rows, Stitches};
use loopwright::shaping::{Convention, Edges, Order, Spacing, Taper, Technique};
use std::hint::black_box;

fn st(n: u32) -> Stitches {
    Stitches::new(n).unwrap()
}

#[test]
fn a_taper_does_not_allocate() {
    for order in [Order::Spread, Order::SlowFirst, Order::QuickFirst, Order::Alternating] {
        let count = allocations(|| {
            let taper = Taper::builder(st(72), st(156), Rows::new(176).unwrap())
                .edges(Edges::Both)
                .order(order)
                .build()
                .unwrap();
            black_box(taper.events().map(|event| event.row.get()).sum::<u32>());
            black_box(taper.events().rev().nth(20));
            black_box(taper.segments().count());
            black_box(taper.count_at(black_box(Rows::literal(100))));
            black_box(taper.rest_after(Rows::literal(90)).unwrap());
        });
        assert_eq!(count, 0, "{order:?}");
    }
}

#[test]
fn a_spacing_does_not_allocate() {
    for convention in [Convention::HalfGaps, Convention::Blocks, Convention::Leftover] {
        let row = Spacing::builder(st(1_000), Technique::TwoTogether, 90, convention);
        let count = allocations(|| {
            let row = row.clone().build().unwrap();
            black_box(row.positions().map(Stitches::get).sum::<u32>());
            black_box(row.groups().count());
            black_box(row.result());
        });
        assert_eq!(count, 0, "{convention:?}");
    }
}
