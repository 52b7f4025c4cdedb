use super::{rw, st};
use loopwright::gauge::{Exact, Gauge, Length, Spread, SwatchGauge};
use loopwright::yardage::{
    Factor, LinearDensity, LoopLength, Mass, RelaxationState, RelaxedFabric, Source, StitchKind,
    Structure, Unravelled, Weighed, loop_from_gauge, unravelled, weighed,
};

fn mm(text: &str) -> Length {
    Length::from_millimetres(text.parse().unwrap()).unwrap()
}

fn plain(relaxation: RelaxationState) -> RelaxedFabric {
    RelaxedFabric::new(Structure::Plain, relaxation)
}

#[test]
fn unravelled_stitches_give_their_mean_and_what_the_ruler_allows() {
    let one = Unravelled::new(st(20), mm("310"), mm("2")).unwrap();
    let two = Unravelled::new(st(40), mm("640"), mm("2")).unwrap();
    let loops = unravelled(&[one, two]).unwrap();
    assert_eq!(loops.source(), Source::Unravelled);
    assert_eq!(loops.length().likely().millimetres(), Exact::new(950, 60).unwrap());
    assert_eq!(loops.length().low(), mm("15.45")); // 309 mm in 20
    // 641 mm in 40 are 16.025 mm, but no reading is trusted closer than 2 %.
    let high = loops.length().likely().scaled("1.02".parse().unwrap()).unwrap();
    assert_eq!(loops.length().high(), high);
    let coarse = Unravelled::new(st(20), mm("310"), mm("20")).unwrap();
    assert_eq!(unravelled(&[coarse]).unwrap().length().high(), mm("16"));
}

#[test]
fn a_marked_yard_gives_its_stitches() {
    // knitnmore.blogspot.com, 2009: 45 stitches to a yard, 5 stitches and 7 rows to the inch,
    // 40 in by 18 in: 25,200 stitches take 560 yd, and a third more for the sleeves 747 yd.
    let yard = Unravelled::new(st(45), "1 yd".parse().unwrap(), Length::ZERO).unwrap();
    let loops = unravelled(&[yard]).unwrap();
    let body = loops.length().likely().scaled(Exact::whole(200 * 126)).unwrap();
    assert_eq!(body, "560 yd".parse().unwrap());
    let all = body.scaled(Exact::new(4, 3).unwrap()).unwrap();
    let off = all.checked_sub("747 yd".parse().unwrap()).unwrap().abs();
    assert!(off <= "1/2 yd".parse().unwrap());
    // The loop model on that gauge holds what was measured.
    let gauge: Gauge = "5x7/1in".parse().unwrap();
    let model = loop_from_gauge(gauge, plain(RelaxationState::Unknown), None).unwrap();
    assert!(model.compare(&loops).unwrap().overlap);
    assert!(model.length().holds(loops.length().likely()));
}

#[test]
fn a_weighed_swatch_has_both_mass_and_length() {
    let yarn: LinearDensity = "200 tex".parse().unwrap();
    let swatch = Weighed::new(st(400), Mass::g(2).unwrap(), "0.2 g".parse().unwrap()).unwrap();
    let loops = weighed(&swatch, yarn).unwrap();
    assert_eq!(loops.length().likely(), mm("25")); // 2 g of 200 tex are 10 m
    assert_eq!(loops.length().low(), mm("23.75"));
    assert_eq!(loops.length().high(), mm("26.25"));
    assert_eq!(loops.weighed().unwrap().likely().grams(), Exact::new(1, 200).unwrap());
}

#[test]
fn stitches_per_gram_carry_over_to_a_cast_on() {
    // tossingthestash.blogspot.com: 460 stitches weigh 2 g, 230 to the gram; 250 cast on
    // count as 500.
    let swatch = Weighed::rectangle(st(20), rw(20), Mass::g(2).unwrap(), Mass::ZERO).unwrap();
    let loops = weighed(&swatch, "500 m/100 g".parse().unwrap()).unwrap();
    let gram = Mass::g(1).unwrap();
    assert_eq!(gram.ratio(loops.weighed().unwrap().likely()), Ok(Exact::whole(230)));
    let rows = loopwright::yardage::EdgeRule::Rows(rw(2));
    let tail = rows.tail(st(250), &loops, &loopwright::yardage::EdgeFacts::new()).unwrap();
    assert_eq!(tail.likely(), loops.length().likely().scaled(Exact::whole(500)).unwrap());
}

#[test]
fn the_model_is_the_mean_of_wales_and_courses() {
    let gauge: Gauge = "28x40/10cm".parse().unwrap();
    let loops = loop_from_gauge(gauge, plain(RelaxationState::Wet), None).unwrap();
    // (4.1/0.28 + 5.3/0.40)/2 mm, an exact fraction.
    let wales = Exact::new(410, 28).unwrap();
    let courses = Exact::new(530, 40).unwrap();
    let mean = wales.checked_add(courses).unwrap().checked_div(Exact::whole(2)).unwrap();
    assert_eq!(loops.length().likely().millimetres(), mean);
}

#[test]
fn the_spread_widens_beyond_what_was_measured() {
    let gauge: Gauge = "28x40/10cm".parse().unwrap();
    let share = |loops: &LoopLength| {
        let width = loops.length().high().checked_sub(loops.length().low()).unwrap();
        width.ratio(loops.length().likely()).unwrap()
    };
    let thick =
        loop_from_gauge(gauge, plain(RelaxationState::Wet), Some("400 tex".parse().unwrap()));
    let thick = thick.unwrap();
    assert_eq!(thick.source(), Source::Extrapolated);
    assert!(share(&thick) >= "0.32".parse().unwrap());
    // 20 tex in loops of about 3.1 mm: a tightness of 1.4, as measured.
    let fine_gauge: Gauge = "132x172/10cm".parse().unwrap();
    let fine =
        loop_from_gauge(fine_gauge, plain(RelaxationState::Wet), Some("20 tex".parse().unwrap()));
    let fine = fine.unwrap();
    assert_eq!(fine.source(), Source::Model);
    assert!(share(&fine) >= "0.16".parse().unwrap() && share(&fine) < share(&thick));
    // The same yarn knitted very slack is beyond it again.
    let slack =
        loop_from_gauge(gauge, plain(RelaxationState::Wet), Some("20 tex".parse().unwrap()));
    assert_eq!(slack.unwrap().source(), Source::Extrapolated);
}

#[test]
fn an_unknown_relaxation_holds_every_known_one() {
    let gauge: Gauge = "22x30/10cm".parse().unwrap();
    let unknown = loop_from_gauge(gauge, plain(RelaxationState::Unknown), None).unwrap().length();
    for relaxation in [RelaxationState::Dry, RelaxationState::Wet, RelaxationState::Full] {
        let known = loop_from_gauge(gauge, plain(relaxation), None).unwrap().length();
        assert!(unknown.holds(known.likely()), "{relaxation}");
    }
}

#[test]
fn a_gauge_with_a_spread_gives_a_wider_loop() {
    let measured = |low: &str, value: &str, high: &str| {
        let part = |text: &str| text.parse().unwrap();
        Spread::new(part(low), part(value), part(high)).unwrap()
    };
    let fabric = plain(RelaxationState::Wet);
    let gauge: Gauge = "22x30/10cm".parse().unwrap();
    let one = loop_from_gauge(gauge, fabric, None).unwrap().length();
    let swatch = SwatchGauge::new(
        measured("16/10cm", "22/10cm", "28/10cm"),
        measured("22/10cm", "30/10cm", "38/10cm"),
    );
    let wide = loop_from_gauge(swatch, fabric, None).unwrap().length();
    assert_eq!(wide.likely(), one.likely());
    // The tightest has 28 by 38: 5.1/0.38 is below 4.0/0.28; the loosest 16 by 22: 4.2/0.16
    // is above 5.5/0.22.
    assert_eq!(wide.low().millimetres(), Exact::new(510, 38).unwrap());
    assert_eq!(wide.high().millimetres(), Exact::new(420, 16).unwrap());
}

#[test]
fn a_ribs_loop_is_the_root_of_its_area_constant() {
    let gauge: Gauge = "30x40/10cm".parse().unwrap();
    let fabric = RelaxedFabric::new(Structure::Rib1x1, RelaxationState::Finished);
    let loops = loop_from_gauge(gauge, fabric, None).unwrap().length().likely().millimetres();
    // l² S = ks to the nanometre: S is 0.12 loops/mm², ks 27.82.
    let ks = loops.checked_mul(loops).unwrap().checked_mul("0.12".parse().unwrap()).unwrap();
    let off = ks.checked_sub("27.82".parse().unwrap()).unwrap().abs();
    assert!(off <= "0.00001".parse().unwrap(), "{}", ks.to_f64_lossy());
}

#[test]
fn the_best_finding_is_the_most_direct_and_disagreement_is_told() {
    let stated =
        |low: &str, likely: &str, high: &str| Spread::new(mm(low), mm(likely), mm(high)).unwrap();
    let model =
        loop_from_gauge("28x40/10cm".parse::<Gauge>().unwrap(), plain(RelaxationState::Wet), None);
    let reading = Unravelled::new(st(20), mm("400"), mm("1")).unwrap();
    let pulled = unravelled(&[reading]).unwrap();
    let said = LoopLength::stated(stated("19", "20", "21")).unwrap();
    let (best, others) = LoopLength::best(&[model.unwrap(), pulled, said]).unwrap();
    assert_eq!(best, pulled);
    assert!(!others[0].overlap && others[1].overlap);
    assert_eq!(
        others[0].to_string(),
        "unravelled stitches and the loop model on the gauge, extrapolated to this yarn \
         disagree: the second is 30.3 % shorter"
    );
    assert_eq!(
        others[1].to_string(),
        "unravelled stitches and a stated loop length agree: the second is 0 % longer"
    );
}

#[test]
fn a_factor_scales_a_loop_and_remembers_where_it_came_from() {
    let plain = LoopLength::stated(Spread::exactly(mm("10"))).unwrap();
    let one = |text: &str| text.parse::<Exact>().unwrap();
    let factor = Factor::measured(Spread::new(one("1.1"), one("1.2"), one("1.3")).unwrap());
    let tuck = plain.by_factor(&factor.unwrap()).unwrap();
    assert_eq!(tuck.length(), Spread::new(mm("11"), mm("12"), mm("13")).unwrap());
    assert_eq!(tuck.source(), Source::Stated, "no surer than what it rests on");
    let reading = unravelled(&[Unravelled::new(st(10), mm("100"), Length::ZERO).unwrap()]).unwrap();
    let cable = reading.by_factor(&Factor::tabled(StitchKind::Cable).unwrap()).unwrap();
    assert_eq!(cable.source(), Source::TabledFactor);
    assert_eq!(cable.length(), Spread::new(mm("9.8"), mm("10.5"), mm("11.73")).unwrap());
}

#[test]
fn washing_changes_the_gauge_but_not_the_yarn_in_a_stitch() {
    // Loop length and tex are the same before and after (section 7): a fabric dry at
    // kw/l, kc/l relaxes wet to k'w/l, k'c/l. Both gauges give the loop back.
    let loops = mm("4");
    let gauge =
        |kw: &str, kc: &str| Gauge::new(kw.parse().unwrap(), kc.parse().unwrap(), loops).unwrap();
    let dry = loop_from_gauge(gauge("3.8", "5.0"), plain(RelaxationState::Dry), None).unwrap();
    let wet = loop_from_gauge(gauge("4.1", "5.3"), plain(RelaxationState::Wet), None).unwrap();
    assert_eq!((dry.length().likely(), wet.length().likely()), (loops, loops));
}
