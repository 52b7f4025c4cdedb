use super::st;
use loopwright::gauge::{Exact, Length};
use loopwright::yardage::{
    Amount, LinearDensity, LoopLength, Mass, Numbering, Rules, SeamRule, Spread, Supply, Tally,
    Yarn, estimate,
};
use loopwright_tests::laws::tried;
use proptest::prelude::*;

/// Promises about the types, kept at compile time.
const _: () = {
    const fn plain<T: Copy + Send + Sync + 'static>() {}
    const fn sent<T: Send + Sync + 'static>() {}
    plain::<Yarn>();
    plain::<Mass>();
    plain::<LinearDensity>();
    plain::<LoopLength>();
    plain::<Amount>();
    sent::<Supply>();
    sent::<Tally>();
    sent::<loopwright::yardage::Error>();
};

fn exacts() -> impl Strategy<Value = Exact> {
    (1_i64..100_000, prop_oneof![Just(1_i64), 1_i64..1_000])
        .prop_map(|(n, d)| Exact::new(n, d).unwrap())
}

fn systems() -> impl Strategy<Value = Numbering> {
    prop::sample::select(Numbering::ALL.to_vec())
}

fn densities() -> impl Strategy<Value = LinearDensity> {
    (1_i64..100_000, 1_i64..100)
        .prop_map(|(n, d)| LinearDensity::from_tex(Exact::new(n, d).unwrap()).unwrap())
}

fn lengths() -> impl Strategy<Value = Spread<Length>> {
    (1_i64..4_000, 0_i64..500, 0_i64..500, 1_i64..40).prop_map(|(n, more, most, d)| {
        let mm = |n| Length::from_millimetres(Exact::new(n, d * 10).unwrap()).unwrap();
        Spread::new(mm(n), mm(n + more), mm(n + more + most)).unwrap()
    })
}

#[derive(Clone, Debug)]
struct Counts {
    plain: u32,
    rib: u32,
    cast_on: u32,
    bound_off: u32,
    ends: u32,
    seams: Vec<i64>,
}

impl Counts {
    fn tally(&self) -> Tally {
        let tally = Tally::new("piece")
            .stitches("plain", st(self.plain))
            .stitches("rib", st(self.rib))
            .cast_on(st(self.cast_on))
            .bound_off(st(self.bound_off))
            .ends(self.ends);
        let seam = |n| Length::from_millimetres(Exact::new(n, 7).unwrap()).unwrap();
        self.seams.iter().fold(tally, |tally, &n| tally.seam(seam(n)))
    }
}

fn counts() -> impl Strategy<Value = Counts> {
    let numbers = (0_u32..90_000, 0_u32..30_000, 0_u32..400, 0_u32..400, 0_u32..9);
    let seams = prop::collection::vec(0_i64..9_000, 0..4);
    (numbers, seams).prop_map(|((plain, rib, cast_on, bound_off, ends), seams)| Counts {
        plain,
        rib,
        cast_on,
        bound_off,
        ends,
        seams,
    })
}

fn supply(yarn: LinearDensity, plain: Spread<Length>, rib: Spread<Length>) -> Supply {
    Supply::new("main", yarn)
        .fabric("plain", LoopLength::stated(plain).unwrap())
        .fabric("rib", LoopLength::stated(rib).unwrap())
}

proptest! {
    #[test]
    fn combining_strands_is_associative_and_blind_to_order(
        a in densities(), b in densities(), c in densities(),
    ) {
        let left = a.with(b).unwrap().with(c);
        prop_assert_eq!(&left, &a.with(b.with(c).unwrap()));
        prop_assert_eq!(left, c.with(b).unwrap().with(a));
        prop_assert_eq!(a.with(a), a.times(2));
        prop_assert_eq!(a.partner(a.with(b).unwrap()), Ok(b));
    }

    #[test]
    fn length_and_mass_undo_each_other(yarn in densities(), grams in 1_i64..5_000) {
        let mass = Mass::g(grams).unwrap();
        let length = yarn.length_of(mass);
        prop_assume!(length.is_ok());
        let length = length.unwrap();
        prop_assert_eq!(yarn.mass_of(length), Ok(mass));
        prop_assert_eq!(LinearDensity::of(length, mass), Ok(yarn));
    }

    #[test]
    fn masses_round_trip_through_their_text(n in 0_i64..1_000_000, d in 1_i64..1_000) {
        let mass = Mass::from_grams(Exact::new(n, d).unwrap()).unwrap();
        prop_assert_eq!(mass.to_string().parse(), Ok(mass));
    }

    #[test]
    fn text_never_panics(text in "\\PC{0,20}") {
        let _ = text.parse::<Yarn>();
        let _ = text.parse::<Mass>();
    }

    #[test]
    fn text_of_the_right_letters_never_panics(text in "[0-9/x., ]{0,9}( (Nm|Ne|tex|m/|g|oz)){0,2}") {
        let _ = text.parse::<Yarn>();
        let _ = text.parse::<Mass>();
    }

    /// The estimate against counting each part's yarn by itself, in exact arithmetic.
    #[test]
    fn an_estimate_is_the_sum_of_its_parts(
        yarn in densities(), plain in lengths(), rib in lengths(), counts in counts(),
    ) {
        let end = Length::cm(12).unwrap();
        let rules = Rules::new().seam(SeamRule::Nothing).end(end);
        let answer = estimate(&[counts.tally()], &[supply(yarn, plain, rib).rules(rules)]).unwrap();
        let total = answer.total("main").unwrap();
        // A cast-on is two rows, a bind-off one.
        let plains = counts.plain + 2 * counts.cast_on + counts.bound_off;
        let whole = |n: u32| Exact::from(n);
        for at in 0..3 {
            let sum = plain.parts()[at].scaled(whole(plains)).unwrap()
                .checked_add(rib.parts()[at].scaled(whole(counts.rib)).unwrap()).unwrap()
                .checked_add(end.scaled(counts.ends.into()).unwrap()).unwrap();
            prop_assert_eq!(total.length.parts()[at], sum);
            prop_assert_eq!(total.mass.parts()[at], yarn.mass_of(sum).unwrap());
        }
    }

    #[test]
    fn amounts_are_additive_over_pieces_and_in_order(
        yarn in densities(), plain in lengths(), rib in lengths(),
        pieces in prop::collection::vec(counts(), 1..5),
    ) {
        let supply = supply(yarn, plain, rib);
        let pieces: Vec<Tally> = pieces.iter().map(Counts::tally).collect();
        let answer = estimate(&pieces, &[supply]).unwrap();
        let sum = answer.pieces.iter().try_fold(Amount::ZERO, |sum, piece| sum.checked_add(&piece.amount));
        prop_assert_eq!(Some(&sum.unwrap()), answer.total("main"));
        for piece in &answer.pieces {
            let (length, mass) = (piece.amount.length, piece.amount.mass);
            prop_assert!(length.low() <= length.likely() && length.likely() <= length.high());
            prop_assert!(mass.low() <= mass.likely() && mass.likely() <= mass.high());
        }
    }
}

#[test]
fn conversions_round_trip_exactly() {
    tried(&(exacts(), systems(), systems()), 70, 0, |(number, from, to)| {
        let Ok(yarn) = LinearDensity::new(number, from) else { return Ok(false) };
        prop_assert_eq!(yarn.number(from), Ok(number));
        let Ok(other) = yarn.number(to) else { return Ok(false) };
        prop_assert_eq!(LinearDensity::new(other, to), Ok(yarn));
        prop_assert_eq!(yarn.number_near(to), Ok(other));
        Ok(true)
    });
}

#[test]
fn a_higher_number_is_thicker_only_in_direct_systems() {
    tried(&(exacts(), exacts(), systems()), 70, 0, |(number, more, system)| {
        let higher = number.checked_add(more).unwrap();
        let yarns = (LinearDensity::new(number, system), LinearDensity::new(higher, system));
        let (Ok(low), Ok(high)) = yarns else { return Ok(false) };
        prop_assert_eq!(high > low, system.is_direct());
        Ok(true)
    });
}

#[test]
fn yarns_round_trip_through_their_text() {
    let all = (densities(), 1_u32..7, 1_u32..5, 0_i64..50);
    tried(&all, 70, 0, |(single, plies, strands, take_up)| {
        let twist = Exact::new(take_up, 100).unwrap();
        let yarn = Yarn::single(single).plied(plies).and_then(|yarn| yarn.held(strands));
        let Ok(yarn) = yarn.and_then(|yarn| yarn.take_up(twist)) else { return Ok(false) };
        prop_assert_eq!(yarn.to_string().parse(), Ok(yarn));
        Ok(true)
    });
}

/// What an amount of yarn knits, forwards and back: stitches for the high loop are safe.
#[test]
fn the_sure_rows_never_need_more_than_is_left() {
    use loopwright::yardage::{Growth, Plan, Remainder};
    let all = (densities(), lengths(), 1_u32..300, 1_i64..2_000);
    tried(&all, 70, 0, |(yarn, plain, width, grams)| {
        let loops = LoopLength::stated(plain).unwrap();
        let left = Remainder::weighed(Mass::g(grams).unwrap(), Mass::ZERO);
        // Kilograms of the finest are longer than a length may be.
        let Ok(stitches) = left.stitches(&loops, yarn) else { return Ok(false) };
        let plan = Plan::new(Growth::straight(st(width)).unwrap());
        let rows = plan.rows_from_spread(&stitches).unwrap();
        let knitted = i64::from(rows.low()) * i64::from(width);
        let Ok(used) = plain.high().scaled(Exact::try_from(knitted).unwrap()) else {
            return Ok(false);
        };
        let used = yarn.mass_of(used).unwrap();
        prop_assert!(used <= Mass::g(grams).unwrap());
        prop_assert!(rows.low() <= rows.likely() && rows.likely() <= rows.high());
        Ok(true)
    });
}
