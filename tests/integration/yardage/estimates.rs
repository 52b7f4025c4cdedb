//! An estimate is never refused because a fraction is too long to be held: it is snapped
//! outwards, and the truth in unbounded fractions lies within.

use super::st;
use loopwright::gauge::{Exact, Gauge, Length};
use loopwright::yardage::{
    Estimator, LinearDensity, LoopLength, LoopsPerArea, Margin, Mass, Package, RelaxationState,
    RelaxedFabric, Remainder, Spread, Structure, Supply, Tally, Unravelled, Weighed, YarnQuantity,
    buy, loop_from_gauge, loop_from_loops_per_area, unravelled, weighed,
};
use loopwright_tests::laws::tried;
use num_rational::BigRational;
use proptest::prelude::*;

fn big(exact: Exact) -> BigRational {
    BigRational::new(exact.numer().into(), exact.denom().into())
}

fn whole(n: u64) -> BigRational {
    BigRational::from_integer(n.into())
}

/// The yarns, gauges, fabrics and questions of a knitter's week: all are answered. 160 of
/// such a grid, all ribs, once were not.
#[test]
fn ordinary_yarns_gauges_and_fabrics_are_all_answered() {
    let yarns = [
        "109 yd/50 g",
        "30/2 Ne",
        "2/28 Nm",
        "450 m/100 g",
        "1400 yd/lb",
        "20 Ne",
        "10 tex x 3",
        "2/17 Nm",
        "62s worsted",
        "110 dtex x 2",
        "7 lea",
    ];
    let gauges = [
        "28x40/10cm",
        "22x30/10cm",
        "17.5x23.5/4in",
        "31 1/3x41/10cm",
        "6x8/1in",
        "13x17/7cm",
        "36x52.5/10cm",
    ];
    let fabrics = ["plain", "rib-1x1", "rib-2x1", "interlock"];
    let asked: [&[&str]; 6] = [
        &["--stitches", "30000"],
        &["--left", "63 g", "--row", "120"],
        &[
            "--stitches",
            "31227",
            "--cast-on",
            "121",
            "--seam",
            "51 1/3 cm",
            "--package",
            "50 g",
            "--margin",
            "7",
        ],
        &["--left", "100 yd", "--row", "97", "--add", "2", "--every", "6", "--keep", "13 yd"],
        &["--cloth"],
        &["--weigh", "1.75 oz"],
    ];
    let mut answered = 0;
    for yarn in yarns {
        for gauge in gauges {
            for fabric in fabrics {
                for asked in asked {
                    let known = ["loopwright", "yarn", yarn, "--gauge", gauge, "--fabric", fabric];
                    let outcome = loopwright_demo::run(known.iter().chain(asked));
                    assert_eq!(outcome.stderr, "", "{yarn} {gauge} {fabric} {asked:?}");
                    answered += 1;
                }
            }
        }
    }
    assert_eq!(answered, 1_848);
}

fn fractions(most: i64, parts: i64) -> impl Strategy<Value = Exact> {
    (1..most, 1..parts).prop_map(|(n, d)| Exact::new(n, d).unwrap())
}

/// Yarns whose tex has up to 24 bits over 24, well beyond what a label prints.
fn yarns() -> impl Strategy<Value = LinearDensity> {
    (1_000_000_i64..16_000_000, 20_000_i64..1_000_000)
        .prop_map(|(n, d)| LinearDensity::from_tex(Exact::new(n, d).unwrap()).unwrap())
}

fn gauges() -> impl Strategy<Value = Gauge> {
    ((1_000_i64..6_000, 997_i64..1_999), (1_000_i64..9_000, 997_i64..1_999)).prop_map(
        |((s, t), (r, u))| {
            let (stitches, rows) = (Exact::new(10 * s, t).unwrap(), Exact::new(10 * r, u).unwrap());
            Gauge::new(stitches, rows, "10 cm".parse().unwrap()).unwrap()
        },
    )
}

fn fabrics() -> impl Strategy<Value = RelaxedFabric> {
    let structures = [Structure::Plain, Structure::Rib1x1, Structure::Rib2x1, Structure::Interlock];
    let states = [
        RelaxationState::Dry,
        RelaxationState::Wet,
        RelaxationState::Full,
        RelaxationState::Unknown,
    ];
    (prop::sample::select(structures.to_vec()), prop::sample::select(states.to_vec()))
        .prop_map(|(structure, relaxation)| RelaxedFabric::new(structure, relaxation))
}

/// `got` holds `truth` at its ends and is no wider than `slack` more either way.
fn holds(got: [Exact; 3], truth: &[BigRational; 3], slack: &BigRational) -> bool {
    let [low, likely, high] = got.map(big);
    let near = |a: &BigRational, b: &BigRational| {
        let off = if a > b { a - b } else { b - a };
        off <= *slack
    };
    low <= truth[0]
        && truth[2] <= high
        && near(&low, &truth[0])
        && near(&likely, &truth[1])
        && near(&high, &truth[2])
}

#[test]
fn amounts_hold_the_truth_whatever_the_fractions() {
    let all = (yarns(), gauges(), gauges(), fabrics(), fabrics(), 1_u32..9_000_000, 0_u32..99_999);
    tried(&all, 90, 0, |(yarn, gauge, other, fabric, second, plain, rib)| {
        let loops = |gauge, fabric| loop_from_gauge(gauge, fabric, Some(yarn)).unwrap();
        let (first, second) = (loops(gauge, fabric), loops(other, second));
        let supply = Supply::new("main", yarn).fabric("plain", first).fabric("rib", second);
        let tally = Tally::new("piece").stitches("plain", st(plain)).stitches("rib", st(rib));
        let found = Estimator::new(&[supply]).unwrap().estimate(&[tally]).unwrap();
        let amount = found.total("main").unwrap();
        let length = |at: usize| {
            whole(plain.into()) * big(first.length().parts()[at].millimetres())
                + whole(rib.into()) * big(second.length().parts()[at].millimetres())
        };
        let lengths = [length(0), length(1), length(2)];
        let mass = |at: usize| lengths[at].clone() * big(yarn.tex()) / whole(1_000_000);
        let masses = [mass(0), mass(1), mass(2)];
        // A nanometre and a picogram a stitch, and the grid of the whole.
        let stitches = whole(u64::from(plain + rib) + 1);
        let nanometres = stitches.clone() / whole(1_000_000);
        let picograms = stitches / whole(1_000_000_000_000) + whole(1) / whole(1_000_000_000);
        let got = amount.length.parts().map(Length::millimetres);
        prop_assert!(holds(got, &lengths, &nanometres), "{:?}", amount.length);
        let got = amount.mass.parts().map(Mass::grams);
        prop_assert!(holds(got, &masses, &picograms), "{:?}", amount.mass);
        Ok(true)
    });
}

#[test]
fn remainders_hold_the_truth_whatever_the_fractions() {
    let all = (yarns(), gauges(), fabrics(), fractions(5_000, 97), fractions(5_000, 97));
    tried(&all, 30, 5, |(yarn, gauge, fabric, left, kept)| {
        let loops = loop_from_gauge(gauge, fabric, Some(yarn)).unwrap();
        let kept_mass = Mass::from_grams(kept).unwrap();
        let ball = Remainder::new(YarnQuantity::Mass(Mass::from_grams(left).unwrap()))
            .reserve(YarnQuantity::Mass(kept_mass));
        let found = ball.stitches(&loops, yarn);
        if left < kept {
            prop_assert!(found.unwrap_err().is_short());
            return Ok(false);
        }
        let mm = (big(left) - big(kept)) * whole(1_000_000) / big(yarn.tex());
        let [short, likely, long] = loops.length().parts().map(|l| big(l.millimetres()));
        let truth = [&mm / long, &mm / likely, &mm / short];
        // A stitch is held to a picogram of a milligram, a count to a thousandth.
        let slack = whole(2) / whole(1_000) + &truth[2] / whole(1_000_000);
        prop_assert!(holds(found.unwrap().parts(), &truth, &slack));
        Ok(true)
    });
}

#[test]
fn evidence_is_never_refused_for_its_fractions() {
    let reading = || (1_u32..5_000, fractions(90_000, 9_973), fractions(9, 997));
    let all = (yarns(), reading(), reading(), reading(), 20_u32..100_000, fractions(9_000, 997));
    tried(&all, 90, 0, |(yarn, one, two, three, stitches, grams)| {
        let mm = |exact| Length::from_millimetres(exact).unwrap();
        let readings: Result<Vec<_>, _> = [one, two, three]
            .into_iter()
            .map(|(stitches, length, step)| {
                let long = length.checked_add(Exact::whole(100)).unwrap();
                Unravelled::new(st(stitches), mm(long), mm(step))
            })
            .collect();
        let pulled = unravelled(&readings.unwrap()).unwrap();
        let mass = Mass::from_grams(grams).unwrap();
        let Ok(swatch) = weighed(&Weighed::new(st(stitches), mass, Mass::ZERO).unwrap(), yarn)
        else {
            return Ok(false); // a loop longer than a metre
        };
        prop_assert!(pulled.compare(&swatch).is_ok());
        prop_assert!(LoopLength::best(&[swatch, pulled]).is_ok());
        let [low, _, high] = pulled.length().parts();
        prop_assert!(low < high);
        Ok(true)
    });
}

#[test]
fn a_loop_from_its_loops_per_area_holds_the_root() {
    let all = (yarns(), gauges(), fabrics());
    tried(&all, 90, 0, |(yarn, gauge, fabric)| {
        let counted = LoopsPerArea::counted(gauge).unwrap();
        let found = loop_from_loops_per_area(counted, fabric, Some(yarn)).unwrap();
        // And back: the loops that this loop length has hold those counted.
        let area = LoopsPerArea::modelled(&found, fabric).unwrap();
        prop_assert!(area.low() <= counted && counted <= area.high());
        let likely = big(found.length().likely().millimetres());
        let back = area.likely().in_cm2().unwrap();
        let counted = counted.in_cm2().unwrap();
        let off = big(back) / big(counted) - whole(1);
        let thousandth = whole(1) / whole(1_000);
        prop_assert!(off < thousandth && -thousandth.clone() < off, "{likely}");
        Ok(true)
    });
}

#[test]
fn purchases_are_never_refused_for_their_fractions() {
    let all = (yarns(), gauges(), fabrics(), 1_u32..500_000, fractions(9_000, 997), 0_i64..100);
    tried(&all, 80, 0, |(yarn, gauge, fabric, stitches, content, percent)| {
        let loops = loop_from_gauge(gauge, fabric, Some(yarn)).unwrap();
        let supply = Supply::new("main", yarn).fabric("plain", loops);
        let tally = Tally::new("piece").stitches("plain", st(stitches)).ends(3);
        let found = Estimator::new(&[supply]).unwrap().estimate(&[tally]).unwrap();
        let amount = found.total("main").unwrap();
        let package = Package::new(YarnQuantity::Mass(Mass::from_grams(content).unwrap())).unwrap();
        let margin = Margin::Share(Exact::new(percent, 100).unwrap());
        let owned: YarnQuantity = "7 1/3 m".parse().unwrap();
        let Ok(bought) = buy(amount, yarn, &package, margin, &[owned]) else {
            return Ok(false); // more than can be bought
        };
        for (at, needed) in bought.needed.parts().into_iter().enumerate() {
            let grams = big(amount.mass.parts()[at].grams());
            let wanted = grams * whole(u64::try_from(100 + percent).unwrap()) / whole(100);
            let has = big("22/3".parse().unwrap()) * big(yarn.tex()) / whole(1_000);
            let truth = ((wanted - has) / big(content)).max(whole(0));
            let off = big(needed) - truth.clone();
            let slack = whole(1) / whole(100_000);
            prop_assert!(off <= slack && -slack.clone() <= off);
            let packages = whole(bought.packages.parts()[at].into());
            prop_assert!(truth <= &packages + &slack && packages < truth + whole(1) + slack);
        }
        Ok(true)
    });
}

#[test]
fn a_spread_without_doubt_keeps_none_where_it_can_be_held() {
    let loops = LoopLength::stated(Spread::exactly("10 mm".parse().unwrap())).unwrap();
    let yarn: LinearDensity = "400 m/100 g".parse().unwrap();
    assert_eq!(
        loops.mass_of(Exact::whole(40_000), yarn),
        Ok(Spread::exactly(Mass::g(100).unwrap()))
    );
    assert!(loops.mass_of(Exact::whole(-1), yarn).is_err_and(|refused| refused.is_range()));
}
