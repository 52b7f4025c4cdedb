use loopwright::gauge::{Exact, Length, Round, Unit};
use loopwright::yardage::{Area, LinearDensity, Mass, similar};

fn inches(n: i64) -> Length {
    Length::inches(n).unwrap()
}

fn rectangle(width: i64, height: i64) -> Area {
    Area::rectangle(inches(width), inches(height)).unwrap()
}

#[test]
fn a_swatch_weighs_for_a_blanket() {
    // yarnnomads.com, 2016: a swatch of 6 by 6 in weighs 4 g, a ball 50 g and 87 yd. 8 % of
    // the ball is 6.96 yd, and 60 by 60 in take 696 yd; the page's 720 yd come from rounding
    // to 5 square inches a yard.
    let ball = LinearDensity::of("87 yd".parse().unwrap(), Mass::g(50).unwrap()).unwrap();
    let swatch = Mass::g(4).unwrap();
    assert_eq!(ball.length_of(swatch), Ok("6.96 yd".parse().unwrap()));
    let blanket = rectangle(60, 60).mass_from(rectangle(6, 6), swatch).unwrap();
    assert_eq!(ball.length_of(blanket), Ok("696 yd".parse().unwrap()));
    assert_ne!(ball.length_of(blanket), Ok("720 yd".parse().unwrap()));
}

#[test]
fn a_ball_covers_its_area() {
    // knittingwithkarma.blogspot.com: 24 square inches weigh 1 g; a ball of 50 g covers 1200.
    let gram = rectangle(6, 4);
    let ball = gram.scaled(Exact::whole(50)).unwrap();
    assert_eq!(ball.square_inches(), Ok(Exact::whole(1_200)));
    assert_eq!(ball.mass_from(gram, Mass::g(1).unwrap()), Ok(Mass::g(50).unwrap()));
}

#[test]
fn a_sweater_is_rectangles_and_trapezoids() {
    // lindysknitslaces.com, 2020: two panels of 28 by 20 in, 1120; sleeves of 8 and 15 in by
    // 18 in, 207 each by its formula; 1534 in all.
    let body = rectangle(28, 20).scaled(Exact::whole(2)).unwrap();
    assert_eq!(body.square_inches(), Ok(Exact::whole(1_120)));
    let sleeve = Area::trapezoid(inches(8), inches(15), inches(18)).unwrap();
    assert_eq!(sleeve.square_inches(), Ok(Exact::whole(207)));
    let all = body.checked_add(sleeve).and_then(|sum| sum.checked_add(sleeve)).unwrap();
    assert_eq!(all.square_inches(), Ok(Exact::whole(1_534)));
}

#[test]
fn a_shawl_scales_with_its_yarn() {
    // firstbytedesigns.com: a triangle of 96 by 42 in is 2016 square inches on 900 yd; 300 yd
    // make 672, and √672 is 26 in deep, 52 in wide.
    let large = rectangle(96, 42).scaled(Exact::new(1, 2).unwrap()).unwrap();
    assert_eq!(large.square_inches(), Ok(Exact::whole(2_016)));
    let small = large.scaled(Exact::new(300, 900).unwrap()).unwrap();
    assert_eq!(small.square_inches(), Ok(Exact::whole(672)));
    let depth = small.square_side(Round::HalfUp).unwrap().in_unit(Unit::Inch).unwrap();
    assert_eq!(depth.to_whole(Round::HalfUp), Ok(26));
}

#[test]
fn similar_triangles_go_with_the_root() {
    // cromulentknitter.blogspot.com, 2006: sides of 2 to 3 have areas of 4 to 9; half the
    // yarn makes 1/√2 of the length, 70.7 %.
    let three = Length::cm(90).unwrap();
    assert_eq!(similar(three, Exact::whole(9), Exact::whole(4)), Ok(Length::cm(60).unwrap()));
    let half = similar(three, Exact::whole(2), Exact::ONE).unwrap();
    let share = half.ratio(three).unwrap();
    assert!(
        share.checked_sub("0.7071".parse().unwrap()).unwrap().abs() <= "0.0001".parse().unwrap()
    );
}

#[test]
fn a_yard_of_yarn_knits_an_area() {
    // sweetmeadowknits.com: a swatch of ten yards gives the area a yard knits; a body is (widest
    // + shoulders) × height for both sides, sleeves (arm + wrist) × length for both.
    let per_yard = rectangle(6, 5).scaled(Exact::new(1, 10).unwrap()).unwrap(); // 3 in²
    let twice = |top, bottom, height| {
        let one = Area::trapezoid(inches(top), inches(bottom), inches(height)).unwrap();
        one.scaled(Exact::whole(2)).unwrap()
    };
    let body = twice(20, 16, 24);
    assert_eq!(body.square_inches(), Ok(Exact::whole((20 + 16) * 24)));
    let all = body.checked_add(twice(14, 8, 18)).unwrap();
    let yards = all.square_inches().unwrap().checked_div(per_yard.square_inches().unwrap());
    assert_eq!(yards, Ok(Exact::whole((36 * 24 + 22 * 18) / 3)));
}
