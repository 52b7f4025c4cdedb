//! Problems and what comes of them, written and read again.

use loopwright::gauge::{Exact, Gauge, Length, Repeat, Rows, Stitches};
use loopwright::joint::{
    Answer, AnyCount, Conflict, ConflictMember, Demand, Limit, Problem, ProblemForm, Release,
    RoundedCount, RoundedMeasure, Solution, TapeMeasure, Unknown,
};
use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_json::{Value, json, to_value};

/// Reads what was written, and writes it again as it was.
#[track_caller]
fn again<T: Serialize + DeserializeOwned>(value: &T) -> T {
    let written = serde_json::to_string(value).unwrap();
    let read: T = serde_json::from_str(&written).unwrap();
    assert_eq!(serde_json::to_string(&read).unwrap(), written);
    read
}

#[track_caller]
fn refused<T: DeserializeOwned>(mut written: Value) {
    written["surprise"] = json!(1);
    let why = serde_json::from_value::<T>(written).map(drop).unwrap_err().to_string();
    assert!(why.contains("surprise"), "{why}");
}

/// A body whose hem, at a gauge of its own, and side make 62 cm.
fn body() -> Problem {
    let rib: Gauge = "24x36/10cm".parse().unwrap();
    let plain: Gauge = "12x15/10cm".parse().unwrap();
    let mut problem = Problem::new();
    let cm = |length| Length::cm(length).unwrap();
    problem.rows("hem", Unknown::near_length(cm(6), rib)).unwrap();
    problem.rows("side", Unknown::near_length(cm(56), plain).repeat(Repeat::even())).unwrap();
    let length = TapeMeasure::sum([(1, "hem"), (1, "side")], cm(62)).weight(Exact::whole(2));
    problem.measure("length", length.tolerance(cm(2))).unwrap();
    problem
}

#[test]
fn problems_are_solved_alike_when_read_again() {
    let mut problem = body();
    problem.demand("parity", Demand::same_parity(["hem", "side"])).unwrap();
    problem.demand("long", Demand::at_least([(1, "side")], 80)).unwrap();
    let answer = problem.solve().unwrap();
    assert_eq!(again(&problem).solve().unwrap(), answer);
    assert_eq!(again(&ProblemForm::from(problem.clone())).try_into_solved(), answer);
    assert_eq!(again(&answer), answer);
    let Answer::Solved(solution) = answer else { panic!("it can be solved") };
    let read: Solution = again(&solution);
    assert_eq!(read, solution);
    for count in solution.counts() {
        assert_eq!(&again::<RoundedCount>(count), count);
    }
    for measure in solution.measures() {
        assert_eq!(&again::<RoundedMeasure>(measure), measure);
    }
    refused::<Problem>(to_value(&problem).unwrap());
    refused::<Solution>(to_value(&solution).unwrap());
}

trait Solved {
    fn try_into_solved(self) -> Answer;
}

impl Solved for ProblemForm {
    fn try_into_solved(self) -> Answer {
        Problem::try_from(self).unwrap().solve().unwrap()
    }
}

#[test]
fn conflicts_are_read_again() {
    let mut problem = body();
    problem.demand("short", Demand::at_most([(1, "side")], 20)).unwrap();
    problem.demand("long", Demand::at_least([(1, "side")], 80)).unwrap();
    let answer = problem.solve().unwrap();
    assert_eq!(again(&answer), answer);
    let Answer::Conflict(conflict) = answer else { panic!("20 and 80 are not one count") };
    let read: Conflict = again(&conflict);
    assert_eq!(read, conflict);
    assert!(conflict.members().len() >= 2);
    for member in conflict.members() {
        assert_eq!(&again::<ConflictMember>(member), member);
        assert_eq!(again::<Release>(&member.release), member.release);
        refused::<ConflictMember>(to_value(member).unwrap());
    }
    refused::<Conflict>(to_value(&conflict).unwrap());
}

#[test]
fn the_parts_of_a_problem_are_read_again() {
    let gauge: Gauge = "28x40/10cm".parse().unwrap();
    let back = Unknown::near_length(Length::cm(52).unwrap(), gauge)
        .hidden(Stitches::literal(2))
        .weight(Exact::whole(3))
        .repeat(Repeat::multiple_of(4).unwrap())
        .range(120_u32..=180);
    assert_eq!(again(&back), back);
    let round = TapeMeasure::sum([(2, "back")], Length::cm(104).unwrap());
    assert_eq!(again(&round), round);
    let demand = Demand::at_most([(2, "back"), (-1, "front")], Length::cm(60).unwrap());
    assert_eq!(again(&demand), demand);
    for limit in [Limit::from(-3), Limit::from(Length::cm(40).unwrap())] {
        assert_eq!(again(&limit), limit);
    }
    for count in [AnyCount::Stitches(Stitches::literal(7)), AnyCount::Rows(Rows::literal(8))] {
        assert_eq!(again(&count), count);
    }
    refused::<Unknown>(to_value(back).unwrap());
    refused::<TapeMeasure>(to_value(&round).unwrap());
    refused::<Demand>(to_value(&demand).unwrap());
}
