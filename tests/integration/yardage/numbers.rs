use loopwright::gauge::{Exact, Length};
use loopwright::yardage::{LinearDensity, Mass, MassUnit, Numbering, Yarn};
use loopwright_tests::golden;

#[derive(serde::Deserialize)]
struct Fields {
    yarns: Vec<String>,
    system: String,
    number: String,
    within: String,
    #[serde(default)]
    misprint: bool,
}

#[test]
fn published_numbers_come_out_and_misprints_do_not() {
    let text = include_str!("../../golden/yardage_numbers.toml");
    for case in golden::cases::<Fields>(text) {
        let fields = case.fields;
        let together = fields
            .yarns
            .iter()
            .map(|yarn| yarn.parse::<LinearDensity>().unwrap())
            .reduce(|sum, yarn| sum.with(yarn).unwrap())
            .unwrap();
        let system: Numbering = fields.system.parse().unwrap();
        let got = together.number(system).unwrap();
        let printed: Exact = fields.number.parse().unwrap();
        let off = got.checked_sub(printed).unwrap().abs();
        let agrees = off <= fields.within.parse().unwrap();
        assert_eq!(agrees, !fields.misprint, "{}: {got}, printed {printed}", case.name);
    }
}

#[test]
fn every_system_has_the_factor_its_hank_defines() {
    // (system, yards of its hank, pounds it weighs) against tex times number.
    let hanks = [
        (Numbering::Cotton, 840, "1"),
        (Numbering::Worsted, 560, "1"),
        (Numbering::YorkshireSkein, 1_536, "6"),
        (Numbering::AmericanRun, 1_600, "1"),
        (Numbering::AmericanCut, 300, "1"),
        (Numbering::LinenLea, 300, "1"),
        (Numbering::GalashielsCut, 300, "1.5"),
        (Numbering::YardsPerPound, 1, "1"),
    ];
    for (system, yards, pounds) in hanks {
        let length: Length = format!("{yards} yd").parse().unwrap();
        let mass = Mass::new(pounds.parse().unwrap(), MassUnit::Pound).unwrap();
        let one = LinearDensity::of(length, mass).unwrap();
        assert_eq!(one.number(system), Ok(Exact::ONE), "{system}");
    }
}

#[test]
fn factors_match_the_reference_to_six_places() {
    // Tex times number, textile-values section 1.1 (computed there from the hanks).
    let table = [
        (Numbering::Cotton, "590.541247"),
        (Numbering::Worsted, "885.811871"),
        (Numbering::YorkshireSkein, "1937.713468"),
        (Numbering::AmericanRun, "310.034155"),
        (Numbering::AmericanCut, "1653.515493"),
        (Numbering::GalashielsCut, "2480.273239"),
        (Numbering::YardsPerPound, "496054.647857"),
        (Numbering::Jute, "34.448239"),
    ];
    for (system, printed) in table {
        let (numer, denom) = system.factor();
        let off =
            Exact::new(numer, denom).unwrap().checked_sub(printed.parse().unwrap()).unwrap().abs();
        assert!(off <= "0.0000005".parse().unwrap(), "{system}: off by {off}");
    }
}

#[test]
fn all_notations_of_one_yarn_are_one_yarn() {
    let twisted: Yarn = "2/28 Nm".parse().unwrap();
    for text in [
        "28/2 Nm",
        "Nm 2/28",
        "nm 28/2",
        "28 Nm x 2",
        "2/28 metric",
        "35 5/7 tex x 2",
        "1 strands of 2/28 Nm",
    ] {
        assert_eq!(text.parse(), Ok(twisted), "{text}");
    }
    for text in ["450 m/100 g", "225 m/50 g", "4500 m per kg", "0.45 km/0.1 kg"] {
        if text.contains("km/") {
            assert!(text.parse::<Yarn>().is_err(), "no kilometres: {text}");
            continue;
        }
        let yarn: Yarn = text.parse().unwrap();
        assert_eq!(yarn.resultant().unwrap().tex(), Exact::new(2_000, 9).unwrap(), "{text}");
    }
    let held: Yarn = "3 strands of 2/28 Nm".parse().unwrap();
    assert_eq!((held.strands(), held.plies()), (3, 2));
    assert_eq!(held.resultant().unwrap().tex(), Exact::new(1_500, 7).unwrap());
    let thrice: Yarn = "10 tex x 3".parse().unwrap();
    assert_eq!(thrice.resultant().unwrap().tex(), Exact::whole(30));
}

#[test]
fn cotton_is_read_in_either_order_when_only_one_can_be_plies() {
    for text in ["30/2 Ne", "2/30 Ne", "2/30 cotton"] {
        let yarn: Yarn = text.parse().unwrap();
        assert_eq!(yarn.plies(), 2, "{text}");
        assert_eq!(yarn.ply().number(Numbering::Cotton), Ok(Exact::whole(30)), "{text}");
    }
    // A pair that both could be plies is refused, but equal numbers mean the same.
    assert!("3/2 Ne".parse::<Yarn>().is_err() && "2/3 Ne".parse::<Yarn>().is_err());
    assert_eq!("2/2 Ne".parse::<Yarn>().unwrap().plies(), 2);
    assert!("3/2 Nm".parse::<Yarn>().is_err());
    assert_eq!("2/2.5 Nm".parse::<Yarn>().unwrap().plies(), 2);
}

#[test]
fn a_wanted_count_finds_its_partner() {
    // B = AR/(A - R): 60s and what make 24s? (W. Davis, Hosiery Manufacture, p. 21)
    let cotton = |n| LinearDensity::new(Exact::whole(n), Numbering::Cotton).unwrap();
    assert_eq!(cotton(60).partner(cotton(24)), Ok(cotton(40)));
}

#[test]
fn equal_masses_of_two_yarns_have_their_harmonic_mean() {
    // GATE 2013 question 40: 1200 kg of 30 tex and 1200 kg of 20 tex, here a thousandth.
    let kilos = Mass::new("1.2".parse().unwrap(), MassUnit::Kilogram).unwrap();
    let length = |tex: &str| tex.parse::<LinearDensity>().unwrap().length_of(kilos).unwrap();
    let both = length("30 tex").checked_add(length("20 tex")).unwrap();
    let mean = LinearDensity::of(both, kilos.checked_add(kilos).unwrap()).unwrap();
    assert_eq!(mean.tex(), Exact::whole(24));
}

#[test]
fn a_tonnage_of_yarn_has_its_length() {
    // GATE 2014 question 37: 5 t of 50 tex are 10^8 m, here a hundredth of it; untwisted
    // at a contraction of 1.06 it is 106,000 km.
    let yarn: LinearDensity = "50 tex".parse().unwrap();
    let length = yarn.length_of("50 kg".parse().unwrap()).unwrap();
    assert_eq!(length, "1000000 m".parse().unwrap());
    assert!(length.scaled("1.06".parse().unwrap()).is_err(), "beyond the longest length");
    let tenth = yarn.length_of("5 kg".parse().unwrap()).unwrap();
    assert_eq!(tenth.scaled("1.06".parse().unwrap()), Ok("106000 m".parse().unwrap()));
}

#[test]
fn fibres_are_counted_by_their_mass() {
    // GATE 2021 question 18: 40 mm fibres of 0.16 tex in 24 mg.
    let fibre: LinearDensity = "0.16 tex".parse().unwrap();
    let one = fibre.mass_of("40 mm".parse().unwrap()).unwrap();
    let all: Mass = "24 mg".parse().unwrap();
    assert_eq!(all.ratio(one), Ok(Exact::whole(3_750)));
}

#[test]
fn damp_yarn_weighs_what_its_regain_says() {
    // Textile-values section 1.4: 50 g at 18.25 % weigh 48.20 g at 14 %, 46.09 g at 9 %;
    // a yarn maker states 47 to 48 g at 14 %.
    let ball = Mass::g(50).unwrap();
    for (regain, printed) in [("0.14", "48.2 g"), ("0.09", "46.09 g")] {
        let dried = ball.at_regain("0.1825".parse().unwrap(), regain.parse().unwrap()).unwrap();
        assert_eq!(dried.display(MassUnit::Gram, 2).to_string(), printed);
    }
}
