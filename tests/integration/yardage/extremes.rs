//! Every function that takes a whole number, at the ends of what its type holds: refused or
//! right, the same with overflow checks and without.

use super::{rw, st};
use loopwright::gauge::{Exact, Gauge, Length, Repeat, Round, Rows, Stitches};
use loopwright::yardage::{
    Amount, Area, EdgeFacts, EdgeRule, Estimator, Growth, LinearDensity, LoopLength, LoopsPerArea,
    Margin, Mass, Numbering, Package, Plan, Remainder, Rules, SeamRule, Section, Spread, Stripe,
    Supply, Tally, Unravelled, Weighed, Worked, Yarn, YarnQuantity, buy, circle_increase,
    deal_stripes, deepest_stripes, seaming_strands, similar, widest,
};

const WORDS: [u32; 9] =
    [0, 1, 2, 100, 9_999_999, 10_000_000, i32::MAX as u32, u32::MAX - 1, u32::MAX];

fn signed() -> Vec<Exact> {
    let ends = [i64::MAX, i64::MAX - 1, 1, 2, 3, 1_000_000_007];
    let mut all = vec![Exact::ZERO];
    for numer in ends {
        for denom in ends {
            let exact = Exact::new(numer, denom).unwrap();
            all.extend([exact, exact.negated()]);
        }
    }
    all
}

fn loops() -> LoopLength {
    LoopLength::stated(Spread::exactly(Length::mm(10).unwrap())).unwrap()
}

fn yarn() -> LinearDensity {
    "100 tex".parse().unwrap()
}

/// The counts there are at the ends of what a count may be.
fn stitches() -> impl Iterator<Item = Stitches> {
    WORDS.into_iter().filter_map(|n| Stitches::new(n).ok())
}

fn rows() -> impl Iterator<Item = Rows> {
    WORDS.into_iter().filter_map(|n| Rows::new(n).ok())
}

#[test]
fn swatches_and_readings() {
    let gram = Mass::g(1).unwrap();
    for wide in stitches() {
        for high in rows() {
            let (n, m) = (u64::from(wide.get()), u64::from(high.get()));
            let swatch = Weighed::rectangle(wide, high, gram, Mass::ZERO);
            assert_eq!(
                swatch.is_ok(),
                (1..=10_000_000).contains(&(n * (m + 3))),
                "{wide} by {high}"
            );
            if let Ok(swatch) = swatch {
                assert_eq!(u64::from(swatch.stitches().get()), n * (m + 3));
            }
            assert_eq!(Tally::rectangle("a", "plain", wide, high).stitches_in("plain"), n * m);
        }
        let reading = Unravelled::new(wide, Length::mm(1_000_000_000).unwrap(), Length::ZERO);
        assert_eq!(reading.is_ok(), !wide.is_zero());
    }
}

#[test]
fn tallies_are_refused_when_reckoned() {
    let supply = Supply::new("main", yarn())
        .fabric("plain", loops())
        .rules(Rules::new().edge(EdgeFacts::new().stitch_width(Length::mm(4).unwrap())));
    let estimator = Estimator::new(&[supply]).unwrap();
    let begun: [fn(Stitches) -> Tally; 6] = [
        |n| Tally::new("a").stitches("plain", n),
        |n| Tally::new("a").cast_on(n),
        |n| Tally::new("a").bound_off(n),
        |n| Tally::new("a").grafted(n),
        |n| Tally::new("a").floats(n),
        |n| Tally::new("a").waste(n),
    ];
    for n in stitches() {
        for copies in WORDS {
            let all = u64::from(n.get()) * u64::from(copies);
            for tally in begun {
                let answer = estimator.estimate(&[tally(n).times(copies)]);
                assert_eq!(answer.is_ok(), all <= 10_000_000, "{n} times {copies}");
                let again = estimator.estimate(&[tally(n).times(u32::MAX).times(copies)]);
                assert_eq!(again.is_ok(), all == 0 || (n.get() == 0), "{n} times {copies}");
            }
        }
    }
    for n in WORDS {
        let ends = estimator.estimate(&[Tally::new("a").ends(n).ends(n)]);
        assert_eq!(ends.is_ok(), u64::from(n) * 2 <= 10_000_000, "{n} ends");
        let tails = estimator.estimate(&[Tally::new("a").tails(n).tails(n)]);
        assert_eq!(tails.is_ok(), u64::from(n) * 2 <= 10_000_000, "{n} tails");
        // A seam and 30 cm each, as long as all of them are within the longest length.
        let seams = estimator.estimate(&[Tally::new("a").seams(Length::mm(200).unwrap(), n)]);
        assert_eq!(seams.is_ok(), u64::from(n) * 500 <= 1_000_000_000, "{n} seams");
    }
}

#[test]
fn growing_pieces() {
    for first in stitches() {
        for add in stitches() {
            for every in rows() {
                let growth = Growth::even(first, add, every);
                assert_eq!(growth.is_ok(), !first.is_zero() && !every.is_zero());
                if let Ok(growth) = growth {
                    drive(&growth, first, add, every);
                }
            }
        }
        for high in rows() {
            let section = Section { stitches: first, rows: high };
            let fits = !first.is_zero() && (1..=500_000).contains(&high.get());
            assert_eq!(Growth::sections(&[section, section]).is_ok(), fits);
        }
    }
}

fn drive(growth: &Growth, first: Stitches, add: Stitches, every: Rows) {
    let most = growth.most_rows();
    assert!((1..=1_000_000).contains(&most.get()));
    for row in rows() {
        if row <= most {
            let groups = u64::from(row.get().saturating_sub(1) / every.get());
            let wide = u64::from(first.get()) + u64::from(add.get()) * groups;
            assert_eq!(u64::from(growth.row(row).get()), wide, "row {row}");
        } else {
            assert_eq!(growth.total(row), growth.total(most));
        }
        let before = row.saturating_sub(Rows::ONE);
        if !row.is_zero() && row <= most {
            let last = growth.total(row) - growth.total(before);
            assert_eq!(last, u64::from(growth.row(row).get()));
        }
        assert_eq!(growth.share_done(row, row).is_ok(), !row.is_zero() && row <= most);
        let worked = Worked::new(row, "1 g".parse().unwrap());
        let _ = worked.and_then(|worked| worked.rest(growth, most));
        for yarn in [Exact::ZERO, Exact::ONE, Exact::literal(i64::MAX, 1)] {
            let plan = Plan::new(growth.clone()).edging(Exact::ONE).unwrap();
            if let Ok(stop) = plan.rows_from(yarn) {
                assert!(stop.used <= yarn);
            }
            if let Ok(stop) = plan.rows_after(row, yarn) {
                assert!(stop.rows.get() <= most.get() - row.get());
            }
        }
    }
}

#[test]
fn plans_and_their_fractions() {
    let plan = || Plan::new(Growth::even(st(3), st(2), rw(2)).unwrap());
    for copies in WORDS {
        assert_eq!(plan().copies(copies).is_ok(), (1..=10_000).contains(&copies));
    }
    for exact in signed() {
        let fits = exact >= Exact::ZERO && exact <= Exact::whole(1_000_000);
        assert_eq!(plan().edging(exact).is_ok(), fits);
        let Ok(plan) = plan().edging(exact).and_then(|p| p.fixed(exact)?.copies(10_000)) else {
            continue;
        };
        for yarn in signed() {
            if let Ok(stop) = plan.rows_from(yarn) {
                assert!(stop.used <= yarn && Exact::ZERO <= stop.spare && stop.spare <= yarn);
                // The next row is beyond the yarn, beyond any number, or beyond the rows there are.
                let next = plan.cost(Rows::new(stop.rows.get() + 1).unwrap());
                assert!(stop.rows.get() == 1_000_000 || next.map_or(true, |cost| cost > yarn));
            }
        }
    }
    for yarn in signed() {
        for rows in rows() {
            if let Ok(width) = widest(yarn, rows, Exact::ONE, Repeat::any()) {
                assert!(Exact::from(width) <= yarn);
            }
        }
    }
}

#[test]
fn numbers_and_amounts() {
    for n in signed() {
        for system in Numbering::ALL {
            if let Ok(yarn) = LinearDensity::new(n, system) {
                assert!(yarn.number_near(system).is_ok());
                let _ = Yarn::single(yarn).plied(u32::MAX);
            }
        }
        if let Ok(mass) = Mass::from_grams(n) {
            let _ = (mass.scaled(n), mass.at_regain(Exact::ONE, n), yarn().length_of(mass));
            let spread = yarn().lengths_of(Spread::exactly(mass));
            assert!(spread.is_ok() || mass > Mass::g(100_000).unwrap());
            for unit in loopwright::yardage::MassUnit::ALL {
                assert!(mass.display(unit, 9).to_string().len() < 40);
            }
            let _ = Package::new(YarnQuantity::Mass(mass)).map(|one| {
                buy(&Amount::ZERO, yarn(), &one.price(u64::MAX), Margin::Packages(u32::MAX), &[])
            });
            let ball = Remainder::weighed(mass, mass);
            assert!(ball.stitches(&loops(), yarn()).is_ok() || mass > Mass::g(1_000).unwrap());
        }
        let _ = LoopsPerArea::per_cm2(n).map(|area| (area.in_cm2(), area.in_in2()));
        let _ = loops().mass_of(n, yarn());
        let _ = Amount::ZERO.scaled(n);
        if let Ok(length) = Length::from_millimetres(n) {
            let edge = EdgeFacts::new().stitch_width(length).needle(length);
            for rule in [EdgeRule::FourWidths, EdgeRule::Wrap, EdgeRule::EighthInch] {
                let _ = rule.tail_and(Stitches::MAX, &loops(), &edge, length);
            }
            let _ = EdgeRule::Measured(length, Stitches::MAX).tail(Stitches::MAX, &loops(), &edge);
            let _ = (SeamRule::SeamAnd30Cm.yarn(length, u32::MAX), seaming_strands(length));
            let _ = Area::rectangle(length, length).and_then(|area| area.square_side(Round::Ceil));
            let _ = similar(length, n, n);
        }
    }
    let gauge = Gauge::new(Exact::ONE, Exact::ONE, Length::cm(100).unwrap()).unwrap();
    assert!(circle_increase(gauge).is_ok());
}

#[test]
fn stripes() {
    let sequence = [Stripe { yarn: "a", rows: Rows::MAX }, Stripe { yarn: "b", rows: Rows::MAX }];
    assert_eq!(deal_stripes(&sequence, [Stitches::MAX; 3]), [("a", 30_000_000)]);
    for between in rows() {
        for yarn in signed() {
            let found = deepest_stripes(&[Stitches::MAX; 5], between, yarn);
            assert!(found.is_none_or(|depth| depth <= rw(5)));
        }
    }
}
