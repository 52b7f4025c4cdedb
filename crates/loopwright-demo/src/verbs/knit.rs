use crate::answer::{Answer, Failure};
use crate::input::Source;
use loopwright::pattern::{Copies, Knitted, PieceFile, words};
use serde_json::{Value, json};
use std::path::PathBuf;

#[derive(Debug, clap::Args)]
pub(crate) struct Args {
    /// The file of steps, JSON with a "version" and "pieces"; "-" reads standard input.
    file: PathBuf,
    /// Every row for ticking off, instead of the instructions.
    #[arg(long)]
    rows: bool,
}

pub(crate) fn run(args: &Args) -> Result<Answer, Failure> {
    let source = Source::open(&args.file)?;
    let file: PieceFile = serde_json::from_str(source.text())
        .map_err(|why| Failure::Input(format!("{}: {why}", args.file.display())))?;
    let knitted = file.replay()?;
    let pieces: Vec<(&Copies, &Knitted)> = file.pieces.iter().zip(&knitted).collect();
    let json = json!({
        "version": PieceFile::VERSION,
        "pieces": pieces.iter().map(|(made, knitted)| piece(made, knitted)).collect::<Vec<_>>(),
    });
    let told = pieces.iter().map(|(made, knitted)| {
        let copies =
            if made.copies == 1 { String::new() } else { format!(" (make {})", made.copies) };
        let lines =
            if args.rows { table(knitted) } else { words::instructions(knitted).to_string() };
        format!("{}{copies}: {}\n{lines}", knitted.name, counts(knitted))
    });
    Ok(Answer { text: told.collect::<Vec<_>>().join("\n"), json })
}

fn counts(knitted: &Knitted) -> String {
    format!(
        "{} rows, {} loops, at most {} stitches on the needles, {} ends to darn in",
        knitted.rows,
        knitted.all_loops(),
        knitted.widest,
        knitted.ends
    )
}

/// A line a row, those with nothing to do but knit as short as can be.
fn table(knitted: &Knitted) -> String {
    let rows = knitted.row_table();
    let lines = rows.iter().map(|row| {
        let needles =
            row.needles.map_or_else(String::new, |(first, last)| format!("{first} to {last}"));
        let told = row.told(words::Dialect::American);
        let line = format!(
            "{:>4}  {:>4}  from the {:<5}  {needles:<12}  {:>4}  {told}",
            row.number, row.counter, row.begins, row.stitches
        );
        format!("{}\n", line.trim_end())
    });
    format!(
        " row  counter, side, needles in work, stitches after, what to do\n{}",
        lines.collect::<String>()
    )
}

fn piece(made: &Copies, knitted: &Knitted) -> Value {
    json!({
        "name": knitted.name,
        "copies": made.copies,
        "rows": knitted.rows,
        "loops": knitted.loops,
        "cast_on": knitted.cast_on,
        "begun_live": knitted.begun_live,
        "picked_up": knitted.picked_up,
        "bound_off": knitted.bound_off,
        "live": knitted.live,
        "ends": knitted.ends,
        "widest": knitted.widest,
        "edges": knitted.edges,
        "instructions": words::instructions(knitted).lines,
    })
}
