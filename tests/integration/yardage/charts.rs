use loopwright::gauge::{Exact, Gauge, Length, Precision, Round, Unit};
use loopwright::yardage::{
    ArealMass, LinearDensity, LoopConstants, Numbering, RelaxationState, RelaxedFabric, Structure,
    Tightness, cotton_diameter, diameter, loop_from_gauge, peirce_loop,
};
use loopwright_tests::golden;

#[derive(serde::Deserialize)]
struct Row {
    structure: String,
    ne: String,
    loop_mm: String,
    gsm: String,
    #[serde(default)]
    suspect: bool,
}

fn exact(text: &str) -> Exact {
    text.parse().unwrap()
}

fn cotton(ne: &str) -> LinearDensity {
    LinearDensity::new(exact(ne), Numbering::Cotton).unwrap()
}

fn mm(text: &str) -> Length {
    Length::from_millimetres(exact(text)).unwrap()
}

/// The error of the prediction, in thousandths of the printed mass.
fn error_of(row: &Row, ks: Exact) -> i64 {
    let predicted = ArealMass::modelled(ks, mm(&row.loop_mm), cotton(&row.ne)).unwrap();
    let printed = exact(&row.gsm);
    let off = predicted.grams_per_m2().checked_sub(printed).unwrap().checked_div(printed).unwrap();
    off.checked_mul(Exact::whole(1_000)).unwrap().to_whole(Round::HalfUp).unwrap()
}

fn mean_of(errors: &[i64]) -> i64 {
    errors.iter().map(|error| error.abs()).sum::<i64>() / i64::try_from(errors.len()).unwrap()
}

/// Textile-values section 2.4 suggests ks 20.2 within 11 % for plain and 28.5 within 14 %
/// for 1x1 rib, all but V26, which is 29 % out.
#[test]
#[expect(clippy::print_stdout, reason = "reports the error of each row")]
fn the_mill_charts_are_met_within_their_tolerance() {
    let text = include_str!("../../golden/yardage_mill_charts.toml");
    let (mut plain, mut rib) = (Vec::new(), Vec::new());
    for case in golden::cases::<Row>(text) {
        let row = case.fields;
        let (ks, tolerance, group) = match row.structure.as_str() {
            "plain" => ("20.2", 110, &mut plain),
            "rib" => ("28.5", 140, &mut rib),
            _ => continue, // one row only: its table constant is tried below
        };
        let error = error_of(&row, exact(ks));
        println!("{} {}: {error:+} in a thousand", case.name, row.structure);
        if row.suspect {
            assert!((-295..=-275).contains(&error), "{} is told as -29 %: {error}", case.name);
            continue;
        }
        assert!(error.abs() <= tolerance, "{}: {error} in a thousand", case.name);
        group.push(error);
    }
    let (plain, rib) = (mean_of(&plain), mean_of(&rib));
    println!("mean absolute error: plain {plain}, 1x1 rib {rib} in a thousand");
    assert!(plain <= 20, "plain: mean absolute error {plain} in a thousand");
    assert!(rib <= 80, "1x1 rib: mean absolute error {rib} in a thousand");
}

#[test]
#[expect(clippy::print_stdout, reason = "reports the error of each row")]
fn the_tables_own_spread_holds_the_charts() {
    let text = include_str!("../../golden/yardage_mill_charts.toml");
    let (mut held, mut all) = (0, 0);
    for case in golden::cases::<Row>(text) {
        let row = case.fields;
        let structure = match row.structure.as_str() {
            "plain" => Structure::Plain,
            "rib" => Structure::Rib1x1,
            _ => Structure::Rib2x1,
        };
        let ks = LoopConstants::find(structure, RelaxationState::Finished).unwrap().ks().unwrap();
        let loops = mm(&row.loop_mm);
        let spread = ArealMass::modelled_spread(ks, loops, cotton(&row.ne)).unwrap();
        let printed = exact(&row.gsm);
        let within =
            spread.low().grams_per_m2() <= printed && printed <= spread.high().grams_per_m2();
        println!("{} {}: within {within}", case.name, row.structure);
        held += u32::from(within);
        all += 1;
    }
    // V14, V25 and the outlier V26 are heavier than it allows.
    assert!(held + 3 >= all, "only {held} of {all}");
}

/// Chart A also gives machine and width, hence wales and courses per cm: the only route
/// found to test "loop length from gauge", to ±8 %.
#[test]
#[expect(clippy::print_stdout, reason = "reports the error of each row")]
fn loop_length_from_gauge_meets_chart_a() {
    for (name, wales, courses, loop_mm, ne) in [
        ("V1", "12.86", "18.13", "2.94", "18"),
        ("V2", "13.29", "17.53", "2.98", "20"),
        ("V3", "13.91", "19.62", "2.68", "24"),
    ] {
        let gauge = Gauge::new(exact(wales), exact(courses), mm("10")).unwrap();
        for relaxation in [RelaxationState::Dry, RelaxationState::Wet] {
            let fabric = RelaxedFabric::new(Structure::Plain, relaxation);
            let found = loop_from_gauge(gauge, fabric, Some(cotton(ne))).unwrap();
            assert!(found.length().holds(mm(loop_mm)), "{name} {relaxation}: {:?}", found.length());
            let off = found.length().likely().ratio(mm(loop_mm)).unwrap();
            println!("{name} {relaxation}: {:.3} of the machine's loop", off.to_f64_lossy());
        }
    }
}

#[test]
fn peirces_loop_is_a_little_long_on_chart_a() {
    for (name, wales, courses, ne, printed) in [
        ("V1", "12.86", "18.13", "18", "3.106"),
        ("V2", "13.29", "17.53", "20", "3.056"),
        ("V3", "13.91", "19.62", "24", "2.799"),
    ] {
        let gauge = Gauge::new(exact(wales), exact(courses), mm("10")).unwrap();
        // d = 4.44e-3 √(tex/1.52) cm implies a packing of 0.646 (GATE 2018 question 14).
        let yarn = diameter(cotton(ne), exact("1.52"), exact("0.646")).unwrap();
        let loops = peirce_loop(gauge, yarn).unwrap().millimetres();
        let off = loops.checked_sub(exact(printed)).unwrap().abs();
        assert!(off <= exact("0.003"), "{name}: {}", loops.to_f64_lossy());
    }
}

#[derive(serde::Deserialize)]
struct WaleRow {
    wales: i64,
    relaxation: String,
    wale_loop_mm: String,
}

#[test]
fn wale_constants_give_the_hand_knit_loops() {
    for case in golden::cases::<WaleRow>(include_str!("../../golden/yardage_loops.toml")) {
        let relaxation = match case.fields.relaxation.as_str() {
            "dry" => RelaxationState::Dry,
            "wet" => RelaxationState::Wet,
            _ => RelaxationState::Full,
        };
        let row = LoopConstants::find(Structure::Plain, relaxation).unwrap();
        let wales_per_mm = Exact::new(case.fields.wales, 100).unwrap();
        let loops = row.kw().unwrap().likely().checked_div(wales_per_mm).unwrap();
        let off = loops.checked_sub(exact(&case.fields.wale_loop_mm)).unwrap().abs();
        assert!(off <= exact("0.05"), "{}: {}", case.name, loops.to_f64_lossy());
    }
}

/// ks must be kc times kw, within 1 % for their rounding; R is kc over kw (section 2.2).
#[test]
fn the_constants_agree_with_one_another() {
    for (relaxation, ratio) in [
        (RelaxationState::Dry, "1.31"),
        (RelaxationState::Wet, "1.29"),
        (RelaxationState::Full, "1.31"),
    ] {
        let row = LoopConstants::find(Structure::Plain, relaxation).unwrap();
        let (kc, kw) = (row.kc().unwrap().likely(), row.kw().unwrap().likely());
        let product = kc.checked_mul(kw).unwrap();
        let off = product.checked_div(row.ks().unwrap().likely()).unwrap();
        assert!(off.checked_sub(Exact::ONE).unwrap().abs() <= exact("0.01"), "{relaxation}");
        let off = kc.checked_div(kw).unwrap().checked_sub(exact(ratio)).unwrap().abs();
        assert!(off <= exact("0.0081"), "{relaxation}");
    }
    let interlock = LoopConstants::find(Structure::Interlock, RelaxationState::Full).unwrap();
    assert_eq!(interlock.ks().unwrap().likely(), exact("22.56"));
}

/// The trade's formula g/m² = K/(Ne·l) is ks times 590.541: K over it gives the table.
#[test]
fn the_finished_constants_come_from_the_trade_formula() {
    for (structure, k) in [
        (Structure::Plain, "12068.59"),
        (Structure::Rib1x1, "16431.497"),
        (Structure::Rib2x1, "19005.333"),
    ] {
        let row = LoopConstants::find(structure, RelaxationState::Finished).unwrap();
        let ks = exact(k).checked_div(cotton("1").tex()).unwrap();
        let off = ks.checked_sub(row.ks().unwrap().likely()).unwrap().abs();
        assert!(off <= exact("0.005"), "{structure}: {}", ks.to_f64_lossy());
    }
}

/// Dry to wet to full relaxation in area: -12.0 % and -17.7 % (section 7).
#[test]
fn relaxing_shrinks_the_area_by_the_area_constants() {
    let ks = |relaxation| {
        LoopConstants::find(Structure::Plain, relaxation).unwrap().ks().unwrap().likely()
    };
    for (relaxation, printed) in
        [(RelaxationState::Wet, "-0.120"), (RelaxationState::Full, "-0.177")]
    {
        let change = ks(RelaxationState::Dry).checked_div(ks(relaxation)).unwrap();
        let change = change.checked_sub(Exact::ONE).unwrap();
        let off = change.checked_sub(exact(printed)).unwrap().abs();
        assert!(off <= exact("0.0006"), "{relaxation}: {}", change.to_f64_lossy());
    }
}

/// The same in length and width, from kc and kw: -5.7 %, -7.3 %; -9.1 %, -9.5 %.
#[test]
fn relaxing_shrinks_the_sides_by_their_constants() {
    let constants = |relaxation| LoopConstants::find(Structure::Plain, relaxation).unwrap();
    let dry = constants(RelaxationState::Dry);
    for (relaxation, length, width) in
        [(RelaxationState::Wet, "-0.057", "-0.073"), (RelaxationState::Full, "-0.091", "-0.095")]
    {
        let row = constants(relaxation);
        let pairs = [(dry.kc(), row.kc(), length), (dry.kw(), row.kw(), width)];
        for (before, after, printed) in pairs {
            let (before, after) = (before.unwrap().likely(), after.unwrap().likely());
            let change = before.checked_div(after).unwrap().checked_sub(Exact::ONE).unwrap();
            let off = change.checked_sub(exact(printed)).unwrap().abs();
            assert!(off <= exact("0.0006"), "{relaxation}: {}", change.to_f64_lossy());
        }
    }
}

#[test]
fn weights_of_cloth_are_as_published() {
    // textilecalculation.blogspot.com, 2015: 15.5 kg on 35 m by 65 in as 1.65 m: 268.39.
    let roll = ArealMass::of(
        "15.5 kg".parse().unwrap(),
        "1.65 m".parse().unwrap(),
        "35 m".parse().unwrap(),
    );
    let off = roll.unwrap().grams_per_m2().checked_sub(exact("268.39")).unwrap().abs();
    assert!(off <= exact("0.01"));
    // The exact 65 in gives 268.236.
    let inches = ArealMass::of(
        "15.5 kg".parse().unwrap(),
        "65 in".parse().unwrap(),
        "35 m".parse().unwrap(),
    );
    let off = inches.unwrap().grams_per_m2().checked_sub(exact("268.236")).unwrap().abs();
    assert!(off <= exact("0.0005"));
    // Fabric Part Math: 100 cm² weighs 3 g: 300 g/m², 8.848 oz/yd².
    let disc =
        ArealMass::of("3 g".parse().unwrap(), "10 cm".parse().unwrap(), "10 cm".parse().unwrap())
            .unwrap();
    assert_eq!(disc.grams_per_m2(), Exact::whole(300));
    let ounces = disc.ounces_per_yd2().unwrap();
    assert!(ounces.checked_sub(exact("8.848")).unwrap().abs() <= exact("0.0005"));
    // 1 oz/yd² is 33.9057 g/m² (Textile technical handbook prints 33.906).
    let one = exact("300").checked_div(ounces).unwrap();
    assert!(one.checked_sub(exact("33.906")).unwrap().abs() <= exact("0.0005"));
}

#[test]
fn cloth_counted_in_inches_needs_its_factor() {
    // textilecalculation.blogspot.com, 2015: 18 wales and 21 courses to the inch, loops of
    // 3.4 mm, Ne 20: 58.82 g/m²; that page leaves out 0.9155 and would give 64.26.
    let gauge: Gauge = "18x21/1in".parse().unwrap();
    let cloth = ArealMass::counted(gauge, mm("3.4"), cotton("20")).unwrap().grams_per_m2();
    assert!(cloth.checked_sub(exact("58.82")).unwrap().abs() <= exact("0.005"));
    assert!(cloth.checked_sub(exact("64.26")).unwrap().abs() > exact("5"), "the misprint");
}

#[test]
fn counted_and_modelled_cloth_agree_when_the_gauge_is_the_models() {
    // An encyclopaedic page prints tex·c·w/l; only tex·c·w·l agrees with ks·tex/l.
    let (yarn, loops) = (cotton("20"), mm("3"));
    let gauge = Gauge::new(exact("4.2"), exact("5.5"), loops).unwrap();
    let counted = ArealMass::counted(gauge, loops, yarn).unwrap();
    assert_eq!(counted, ArealMass::modelled(exact("23.1"), loops, yarn).unwrap());
}

#[test]
fn tightness_factors_are_those_of_the_table() {
    // Section 2.4's column TF, computed there to two places, √tex/mm.
    for (ne, loop_mm, printed) in [
        ("18", "2.94", "1.95"),
        ("20", "2.98", "1.82"),
        ("24", "2.68", "1.85"),
        ("26", "2.86", "1.67"),
        ("15", "3.1", "2.02"),
        ("17", "3.65", "1.61"),
    ] {
        let tightness = Tightness::new(cotton(ne), mm(loop_mm)).unwrap();
        let got = tightness.thousandths(Round::HalfUp).unwrap();
        assert!(got.checked_sub(exact(printed)).unwrap().abs() <= exact("0.0055"), "{ne}: {got}");
    }
    // Old cover factor K = 1/(l in inches √NeK); TF is 1.17176 K, so K 1.25 is TF 1.465.
    let worsted = LinearDensity::new(Exact::whole(16), Numbering::Worsted).unwrap();
    let loops: Length = "1/5 in".parse().unwrap(); // K = 5/4
    let tightness = Tightness::new(worsted, loops).unwrap().thousandths(Round::HalfUp).unwrap();
    assert_eq!(tightness, exact("1.465"));
}

#[test]
fn yarn_diameters_are_as_published() {
    // GATE 2007 question 85: 36s cotton is 1/168 in, 0.015 cm.
    let thirty_six = cotton_diameter(cotton("36")).unwrap();
    let inch: Length = "1/168 in".parse().unwrap();
    assert!(thirty_six.checked_sub(inch).unwrap().abs() <= "0.000001 mm".parse().unwrap());
    assert_eq!(
        thirty_six.display(Unit::Centimetre, Precision::Decimals(3)).to_string(),
        "0.015 cm"
    );
    // Section 1.4 in tex, mm: 0.037329, 0.03736 (cotton 1.52 at 0.60), 0.04025 (wool 1.31).
    let one_tex = LinearDensity::from_tex(Exact::whole(10_000)).unwrap(); // √ is 100
    let printed = [
        (cotton_diameter(one_tex), "3.7329"),
        (diameter(one_tex, exact("1.52"), exact("0.6")), "3.736"),
        (diameter(one_tex, exact("1.31"), exact("0.6")), "4.025"),
        (diameter(one_tex, Exact::ONE, Exact::ONE), "3.568"),
    ];
    for (got, printed) in printed {
        let off = got.unwrap().millimetres().checked_sub(exact(printed)).unwrap().abs();
        assert!(off <= exact("0.0005"), "{printed}");
    }
    // GATE 2018 question 14's page prints 3.37e-3 for that last constant: a misprint.
    let ours = diameter(one_tex, Exact::ONE, Exact::ONE).unwrap().millimetres();
    assert!(ours.checked_sub(exact("3.37")).unwrap().abs() > exact("0.1"));
}
