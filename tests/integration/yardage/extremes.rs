//! Every function that takes a whole number, at the ends of what its type holds: refused or
//! right, the same with overflow checks and without.

use loopwright::gauge::{Exact, Gauge, Length, Repeat, Round};
use loopwright::yardage::{
    Amount, Area, Edge, EdgeRule, Estimator, Growth, LinearDensity, LoopLength, LoopsPerArea,
    Margin, Mass, Measure, Numbering, Package, Plan, Remainder, Rules, SeamRule, Section, Spread,
    Stripe, Supply, Tally, Unravelled, Weighed, Worked, Yarn, buy, circle_increase, deal_stripes,
    deepest_stripes, seaming_strands, similar, widest,
};

const WORDS: [u32; 9] =
    [0, 1, 2, 100, 9_999_999, 10_000_000, i32::MAX as u32, u32::MAX - 1, u32::MAX];
const LONGS: [u64; 7] = [0, 1, 10_000_000, 10_000_001, i64::MAX as u64, u64::MAX - 1, u64::MAX];

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

#[test]
fn swatches_and_readings() {
    let gram = Mass::g(1).unwrap();
    for stitches in WORDS {
        for rows in WORDS {
            let counted = u128::from(stitches) * (u128::from(rows) + 3);
            let swatch = Weighed::rectangle(stitches, rows, gram, Mass::ZERO);
            let fits = (1..=10_000_000).contains(&counted);
            assert_eq!(swatch.is_ok(), fits, "{stitches} by {rows}");
            if let Ok(swatch) = swatch {
                assert_eq!(u128::from(swatch.stitches()), counted);
            }
            let all = Tally::rectangle("swatch", "plain", stitches, rows).stitches_in("plain");
            assert_eq!(u128::from(all), u128::from(stitches) * u128::from(rows));
        }
        let reading = Unravelled::new(stitches, Length::mm(1_000_000_000).unwrap(), Length::ZERO);
        assert_eq!(reading.is_ok(), stitches > 0);
    }
}

#[test]
fn tallies_saturate_and_are_refused_when_reckoned() {
    let supply = Supply::new("main", yarn())
        .fabric("plain", loops())
        .rules(Rules::new().edge(Edge::new().stitch_width(Length::mm(4).unwrap())));
    let estimator = Estimator::new(&[supply]).unwrap();
    let begun: [fn(u64) -> Tally; 6] = [
        |n| Tally::new("a").stitches("plain", n).stitches("plain", n),
        |n| Tally::new("a").cast_on(n).cast_on(n),
        |n| Tally::new("a").bound_off(n).bound_off(n),
        |n| Tally::new("a").grafted(n).grafted(n),
        |n| Tally::new("a").floats(n).floats(n),
        |n| Tally::new("a").waste(n).waste(n),
    ];
    for n in LONGS {
        for tally in begun {
            let twice = u128::from(n) * 2;
            let answer = estimator.estimate(&[tally(n)]);
            assert_eq!(answer.is_ok(), twice <= 10_000_000, "{n}");
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
    for first in WORDS {
        for add in WORDS {
            for every in WORDS {
                let Ok(growth) = Growth::even(first, add, every) else {
                    let most = 10_000_000;
                    assert!(first == 0 || every == 0 || first > most || add > most || every > most);
                    continue;
                };
                drive(&growth, first, add, every);
            }
        }
        for rows in WORDS {
            let sections = [Section { stitches: first, rows }, Section { stitches: first, rows }];
            let fits = first > 0
                && first <= 10_000_000
                && (1..=1_000_000).contains(&(2 * u64::from(rows)));
            assert_eq!(Growth::sections(&sections).is_ok(), fits);
        }
    }
}

fn drive(growth: &Growth, first: u32, add: u32, every: u32) {
    for rows in WORDS {
        let (first, add, every) = (u128::from(first), u128::from(add), u128::from(every));
        let before = u128::from(rows.saturating_sub(1));
        assert_eq!(u128::from(growth.row(rows)), first + add * (before / every));
        if rows > 0 {
            let last = growth.total(rows) - growth.total(rows - 1);
            assert_eq!(last, u128::from(growth.row(rows)));
        }
        assert_eq!(growth.share_done(rows, rows).is_ok(), (1..=1_000_000).contains(&rows));
        let _ = Worked::new(rows, "1 g".parse().unwrap())
            .and_then(|worked| worked.rest(growth, u32::MAX).map(|_| worked));
        for yarn in [Exact::ZERO, Exact::ONE, Exact::literal(i64::MAX, 1)] {
            let plan = Plan::new(growth.clone()).edging(Exact::ONE).unwrap();
            if let Ok(stop) = plan.rows_from(yarn) {
                assert!(stop.used <= yarn);
            }
            if let Ok(stop) = plan.rows_after(rows, yarn) {
                assert!(stop.rows <= growth.most_rows() - rows);
            }
        }
    }
}

#[test]
fn plans_and_their_fractions() {
    let plan = || Plan::new(Growth::even(3, 2, 2).unwrap());
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
                let next = plan.cost(stop.rows + 1);
                assert!(stop.rows == 1_000_000 || next.map_or(true, |cost| cost > yarn));
            }
        }
    }
    for yarn in signed() {
        for rows in WORDS {
            if let Ok(width) = widest(yarn, rows, Exact::ONE, Repeat::any()) {
                assert!(u64::from(width) <= 10_000_000);
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
            let _ = Package::new(Measure::Mass(mass)).map(|one| {
                buy(&Amount::ZERO, yarn(), &one.price(u64::MAX), Margin::Packages(u32::MAX), &[])
            });
            let ball = Remainder::weighed(mass, mass);
            assert!(ball.stitches(&loops(), yarn()).is_ok() || mass > Mass::g(1_000).unwrap());
        }
        let _ = LoopsPerArea::per_cm2(n).map(|area| (area.in_cm2(), area.in_in2()));
        let _ = loops().mass_of(n, yarn());
        let _ = Amount::ZERO.scaled(n);
        if let Ok(length) = Length::from_millimetres(n) {
            let edge = Edge::new().stitch_width(length).needle(length);
            for rule in [EdgeRule::FourWidths, EdgeRule::Wrap, EdgeRule::EighthInch] {
                let _ = rule.tail_and(u32::MAX, &loops(), &edge, length);
            }
            let _ = EdgeRule::Measured(length, u32::MAX).tail(u32::MAX, &loops(), &edge);
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
    let sequence = [Stripe { yarn: "a", rows: u32::MAX }, Stripe { yarn: "b", rows: u32::MAX }];
    assert_eq!(deal_stripes(&sequence, [u32::MAX; 3]), [("a", 3 * u64::from(u32::MAX))]);
    for between in WORDS {
        for yarn in signed() {
            let found = deepest_stripes(&[u32::MAX; 5], between, yarn);
            assert!(found.is_none_or(|depth| depth <= 5));
        }
    }
}
