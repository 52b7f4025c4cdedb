//! The program with every whole number at the ends of what could be typed. What it says is
//! kept in a file, one for a build with overflow checks and one for a build without, which
//! the checks then compare: nothing may wrap in silence.

use std::fmt::Write as _;
use std::path::Path;

const ENDS: [&str; 12] = [
    "0",
    "1",
    "2",
    "9999999",
    "10000000",
    "10000001",
    "2147483647",
    "2147483648",
    "4294967295",
    "4294967296",
    "9223372036854775807",
    "18446744073709551615",
];

/// One line a verb and option: N is what is driven to the ends.
const COMMANDS: &str = "
count --back N --gauge 28x40/10cm
count 52cm --gauge 28x40/10cm --multiple N
count 52cm --gauge 28x40/10cm --multiple 2 --extra N
count 52cm --gauge 28x40/10cm --multiple 2 --edge N
count 52cm --gauge 28x40/10cm --least N
count 52cm --gauge 28x40/10cm --most N
count 52cm --gauge 28x40/10cm --near N
count Ncm --gauge 28x40/10cm
count 52cm --gauge NxN/10cm
count 52cm --gauge 28x40/Ncm
regauge N --from 28x40/10cm --to 30x42/10cm
regauge 100 --from 28x40/10cm --to 30x42/10cm --multiple N
regauge 100 --from 28x40/10cm --to 30x42/10cm --multiple 3 --extra N
space N --change +3
space N --change -3
space 60 --change +N
space 60 --change -N
space 60 --to N
space 60 --multiple N
space 60 --change +3 --border N
space 60 --change +3 --avoid N
space 60 --change +3 --avoid 1-N
space 60 --change +3 --between-repeats N
space 60 --change +3 --between-repeats 6 --edge N
taper N 50 --rows 60
taper 50 N --rows 60
taper 50 60 --rows N
taper 50 60 --rows 60 --every N
taper 50 60 --rows 60 --first N
taper 50 60 --rows 60 --plain-before N
taper 50 60 --rows 60 --plain-after N
taper 50 60 --rows 60 --most N
taper 50 60 --rows 60 --at-once N
taper 50 60 --rows 60 --after N
taper 50 60 --rows 60 --worked N --now 52
taper 50 60 --rows 60 --worked 20 --now N
slope N --turns 3
slope 60 --turns N
slope 60 --rows N
turn N --rows 6
turn 60 --rows N
turn 60 --rows 6 --shape raised --core N
turn 60 --shape heel --core N
pickup --rows N --stitches 45
pickup --rows 60 --stitches N
pickup --rows 60 --stitches 45 --most N
pickup --rows 60 --gauge 28x40/10cm --multiple N
pickup --rows 60 --gauge 28x40/10cm --multiple 2 --extra N
pickup --stitches 100 --buttons N
pickup --stitches 100 --buttons 5 --hole N
pickup --stitches 100 --buttons 5 --margin N
seam N_rows 60_rows --join row-seam --gauge 28x40/10cm
seam N_st 60_rows --join stitch-to-row --gauge 28x40/10cm
seam 60_st N_st --join graft --gauge 28x40/10cm
seam N_rows_3_st_xN 60_rows --join eased --gauge 28x40/10cm
seam 60_rows 66_rows --join row-seam --within N --gauge 28x40/10cm
seam 60_st 60_rows --join hang-back --overlap N --gauge 28x40/10cm
yarn N_tex
yarn N/3_Nm
yarn 28/N_Nm
yarn N_m/50_g
yarn 100_m/N_g
yarn 2/28_Nm --gauge 28x40/10cm --stitches N
yarn 2/28_Nm --gauge 28x40/10cm --stitches 3000 --cast-on N
yarn 2/28_Nm --gauge 28x40/10cm --stitches 3000 --bind-off N
yarn 2/28_Nm --gauge 28x40/10cm --stitches 3000 --ends N
yarn 2/28_Nm --gauge 28x40/10cm --stitches 3000 --waste N
yarn 2/28_Nm --gauge 28x40/10cm --stitches 3000 --package 50g --spare N
yarn 2/28_Nm --gauge 28x40/10cm --stitches 3000 --package 50g --margin N
yarn 2/28_Nm --gauge 28x40/10cm --left 20g --row N
yarn 2/28_Nm --gauge 28x40/10cm --left 20g --row 100 --add N
yarn 2/28_Nm --gauge 28x40/10cm --left 20g --row 100 --add 2 --every N
yarn 2/28_Nm --gauge 28x40/10cm --left 20g --row 100 --edging N
yarn 2/28_Nm --gauge 28x40/10cm --left 20g --row 100 --copies N
yarn 2/28_Nm --swatch NxN_=_2_g --stitches 100
yarn 2/28_Nm --unravelled N_st_=_1_m --stitches 100
gauge --reading N_st_=_20_cm --reading 60_rows_=_15_cm
gauge --reading 40_st_=_N_cm --reading 60_rows_=_15_cm
";

#[test]
fn whole_numbers_at_the_ends_are_answered_or_refused() {
    let (mut told, mut answered, mut refused) = (String::new(), 0, 0);
    for command in COMMANDS.lines().filter(|line| !line.is_empty()) {
        for end in ENDS {
            let words = command.split(' ').map(|word| word.replace('N', end).replace('_', " "));
            // Abbreviations of units keep their capital.
            let words = words.map(|word| word.replace(&format!(" {end}m"), " Nm"));
            let words: Vec<String> = words.collect();
            let outcome = crate::demo::run(&words.iter().map(String::as_str).collect::<Vec<_>>());
            assert!(outcome.code <= 2, "{words:?}");
            *(if outcome.code == 0 { &mut answered } else { &mut refused }) += 1;
            let _ =
                writeln!(told, "{words:?}\n{}\n{}{}", outcome.code, outcome.stdout, outcome.stderr);
        }
    }
    assert!(answered > 150 && refused > 150, "{answered} answered, {refused} refused");
    let build = if cfg!(debug_assertions) { "checked" } else { "unchecked" };
    let file = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("extremes-{build}.txt"));
    std::fs::write(file, told).unwrap();
}
