//! The file of counts, measures and demands.

use crate::answer::Failure;
use crate::input::Source;
use loopwright::joint::{Problem, ProblemForm};
use std::path::Path;

/// What a file looks like, for the help text.
pub(super) const SHAPE: &str = r#"The file of counts, measures and demands, in TOML or JSON; "-" reads standard input.

  [[count]]                     # once for each count
  name = "back"
  length = "52 cm"              # with a gauge, which makes its miss a length;
  gauge = "28x40/10cm"          # or ideal = "145.6", a count, with or without a gauge
  rows = true                   # for rows; stitches if left out
  hidden = 2                    # how many of it seams hide, so that they add no length
  weight = 2                    # how much a miss matters; 1 if left out
  multiple = 4                  # with extra and edge, the repeat of the stitch pattern
  extra = 2
  least = 120                   # with most, the range allowed
  most = 180

  [[measure]]                   # once for each length that a tape measures
  name = "body length"
  sum = { hem = 1, side = 1 }   # whose lengths add up to it; each count has its gauge
  length = "62 cm"
  weight = 4
  tolerance = "1 cm"            # how far it may miss; by anything if left out

  [[demand]]                    # once for each demand, with one of these
  name = "across the back"      # what a conflict calls it
  sum = { shoulder = 2, neck = 1, back = -1 }
  total = 0                     # or [0, 3]; or at_least, at_most: a count or a length
  # equal = ["front shoulder", "back shoulder"]   and offset = 2: the first has 2 more
  # ratio = ["sleeve top", "armhole"]   and is = "3/4", tolerance = "1/50"
  # ordered = ["small", "medium", "large"]
  # same_parity = ["cuff", "sleeve top"]"#;

pub(super) fn read(path: &Path) -> Result<Problem, Failure> {
    let form: ProblemForm = Source::open(path)?.parse()?;
    if form.is_empty() {
        return Err(wrong(path, "there is no [[count]] in the file"));
    }
    Problem::try_from(form).map_err(|why| wrong(path, &why.to_string()))
}

fn wrong(path: &Path, why: &str) -> Failure {
    Failure::Input(format!("{}: {why}", path.display()))
}
