//! Refusals of one kind end with one code in every verb.

use super::run;

#[track_caller]
fn all_end_with(code: u8, commands: &[&str]) {
    for command in commands {
        let outcome = run(&super::words(command));
        assert_eq!(outcome.code, code, "{command}: {}{}", outcome.stderr, outcome.stdout);
        assert_eq!(outcome.stderr.lines().count(), 1, "one sentence: {}", outcome.stderr);
        assert_eq!(outcome.stdout, "", "{command}");
    }
}

#[test]
fn what_cannot_be_read() {
    all_end_with(
        2,
        &[
            "gauge --reading 'many st = 20 cm'",
            "count '5 km' --gauge 28x40/10cm",
            "count '52 cm' --gauge 28",
            "regauge some --from 28x40/10cm --to 30x42/10cm",
            "space sixty --change +3",
            "taper 50 sixty --rows 60",
            "slope 60 --turns some",
            "curve a,b c,d --gauge 28x40/10cm",
            "turn 60 --rows few",
            "pickup long --gauge 28x40/10cm",
            "seam '60 somethings' '60 rows' --join row-seam --gauge 28x40/10cm",
            "yarn 'thin'",
            "fit no/such/file.toml",
            "draft no/such/plan.toml",
            "yarn --plan no/such/plan.toml",
        ],
    );
}

#[test]
fn options_that_do_not_go_together_or_are_missing() {
    all_end_with(
        2,
        &[
            "count '52 cm'",
            "count '52 cm' --gauge 28x40/10cm --reading '40 st = 20 cm'",
            "regauge 100 --from 28x40/10cm",
            "space 60",
            "space 60 --change +3 --to 70",
            "taper 50 60",
            "slope 60",
            "curve --gauge 28x40/10cm",
            "turn 60",
            "pickup",
            "seam '60 rows' --join row-seam --gauge 28x40/10cm",
            "yarn",
            "fit",
            "draft",
        ],
    );
}

#[test]
fn values_outside_what_is_allowed() {
    all_end_with(
        2,
        &[
            "gauge --reading '40 st = 0 cm'",
            "count '-52 cm' --gauge 28x40/10cm",
            "count '52 cm' --gauge 28x40/10cm --multiple 0",
            "count '52 cm' --gauge 28x40/10cm --least 20 --most 10",
            "regauge 100 --from 28x40/10cm --to 30x42/10cm --multiple 0",
            "space 10000001 --change +3",
            "taper 50 60 --rows 10000001",
            "slope 60 --turns 0",
            "turn 60 --rows 5",
            "pickup --rows 60 --stitches 45 --most 0",
            "yarn '0 tex'",
        ],
    );
}

/// Words of the trade, not of the program's language.
#[test]
fn a_count_that_is_none_is_told_in_words() {
    let refused = run(&["slope", "60", "--turns", "some"]);
    assert!(refused.stderr.contains("write a whole number, such as 60"), "{}", refused.stderr);
    let refused = run(&["slope", "99999999999", "--turns", "3"]);
    assert!(refused.stderr.contains("99999999999 is too large"), "{}", refused.stderr);
}

#[test]
fn work_that_cannot_be_done() {
    all_end_with(
        1,
        &[
            "count '52 cm' --gauge 28x40/10cm --round exact",
            "count '0 cm' --gauge 28x40/10cm --round exact --least 20 --most 30",
            "count '52 cm' --gauge 28x40/10cm --multiple 7 --extra 2 --least 10 --most 15",
            "regauge 101 --from 28x40/10cm --to 30x42/10cm --round exact",
            "space 60 --multiple 7 --multiple-round exact",
            "space 6 --change -5",
            "space 6 --change +10",
            "space 60 --change +5 --avoid 1-60",
            "taper 50 100 --rows 10",
            "taper 50 100 --rows 60 --every 2",
            "slope 20 --turns 21",
            "turn 16 --rows 60",
            "yarn '2/28 Nm' --gauge 28x40/10cm --left '1 g' --row 100 --keep '2 g'",
        ],
    );
}
