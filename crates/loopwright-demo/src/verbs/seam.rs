use crate::Units;
use crate::answer::{Answer, Failure, fraction, length, say};
use crate::choice::choice;
use loopwright::gauge::{Exact, Gauge, Length, Stitches};
use loopwright::seams::{
    Compared, Edge, EdgeChange, EdgeCount, Join, Pairing, Passes, Seam, SeamSide, Span, Tolerance,
    Verdict,
};
use serde_json::{Value, json};

#[derive(Debug, clap::Args)]
pub(crate) struct Args {
    /// The first edge: "152 rows", "44 stitches", or the steps of a slant or curve such
    /// as "6 st, 2 rows 3 st x4, 40 rows".
    first: String,
    /// The second edge.
    second: String,
    /// How they meet.
    #[arg(long, value_parser = choice::<Join>())]
    join: Join,
    /// The gauge of the first edge, as stitches x rows / length.
    #[arg(long)]
    gauge: Gauge,
    /// The gauge of the second edge, when it is another fabric.
    #[arg(long)]
    second_gauge: Option<Gauge>,
    /// Needles that carry two stitches, where an edge is hung back.
    #[arg(long, default_value_t = Stitches::ZERO)]
    overlap: Stitches,
    /// The most stitches or rows of difference.
    #[arg(long)]
    within: Option<u32>,
    /// The least that the first edge is longer.
    #[arg(long, requires = "most_ease", conflicts_with = "within", allow_hyphen_values = true)]
    least_ease: Option<Length>,
    /// The most that the first edge is longer.
    #[arg(long, requires = "least_ease", allow_hyphen_values = true)]
    most_ease: Option<Length>,
    /// How many times as long the first edge is at least.
    #[arg(long, requires = "most_times", conflicts_with_all = ["within", "least_ease"])]
    least_times: Option<Exact>,
    /// How many times as long the first edge is at most.
    #[arg(long, requires = "least_times")]
    most_times: Option<Exact>,
}

impl Args {
    fn tolerance(&self) -> Result<Tolerance, Failure> {
        let eased = self.least_ease.zip(self.most_ease);
        let times = self.least_times.zip(self.most_times);
        Ok(match (self.within, eased, times) {
            (Some(counts), ..) => Tolerance::counts(counts),
            (_, Some((least, most)), _) => Tolerance::eased(least, most)?,
            (_, _, Some((least, most))) => Tolerance::gathered(least, most)?,
            _ => self.join.tolerance(),
        })
    }
}

pub(crate) fn run(args: &Args, units: Units) -> Result<Answer, Failure> {
    let first = Edge::read("first edge", &args.first, args.gauge)?;
    let second = args.second_gauge.unwrap_or(args.gauge);
    let second = Edge::read("second edge", &args.second, second)?;
    let seam = Seam::new(args.join, first, second).within(args.tolerance()?);
    let verdict = seam.overlap(args.overlap).check()?;
    let pairing = pairing(&verdict);
    Ok(Answer { text: text(&verdict, pairing.as_deref(), units)?, json: json(&verdict)? })
}

/// How to sew the difference in, where the join holds by taking two now and then.
fn pairing(verdict: &Verdict) -> Option<String> {
    let (a, b): (EdgeCount, EdgeCount) = match verdict.join {
        Join::RowSeam => (verdict.a.rows.into(), verdict.b.rows.into()),
        Join::StitchSeam => (verdict.a.stitches.into(), verdict.b.stitches.into()),
        Join::StitchToRowSeam if verdict.b.stitches == Stitches::ZERO => {
            (verdict.a.stitches.into(), verdict.b.rows.into())
        }
        _ => return None,
    };
    let pairing = Pairing::new(a, b).ok().filter(|pairing| pairing.doubles() > 0)?;
    let longer = if pairing.first_is_longer() { &verdict.a } else { &verdict.b };
    Some(pairing.words(&longer.name))
}

/// The passes of a seam of rows sewn two bars at a time, where it can be sewn at all.
fn passes(verdict: &Verdict) -> Option<(Passes, Passes)> {
    let rows = verdict.join == Join::RowSeam && verdict.matches;
    rows.then(|| Passes::pair(verdict.a.rows, verdict.b.rows).ok()).flatten()
}

fn middle(span: Span) -> Result<Length, Failure> {
    Ok(span.middle()?)
}

fn text(verdict: &Verdict, pairing: Option<&str>, units: Units) -> Result<String, Failure> {
    let mut lines = Vec::new();
    for side in [&verdict.a, &verdict.b] {
        lines.push(format!("{}: {side}, {}", side.name, say(middle(side.length)?, units)));
    }
    lines.push(found(verdict, units)?);
    if let (true, Some(words)) = (verdict.matches, pairing) {
        lines.push(format!("sew {words}"));
    }
    if let Some((first, second)) = passes(verdict) {
        lines.push(format!(
            "or two bars at a time, the edges lying half a row apart: on the first {first}; \
             on the second {second}"
        ));
    }
    if let Some(mend) = &verdict.mend {
        lines.push(format!("to mend it, {mend}"));
    }
    Ok(lines.join("\n"))
}

fn found(verdict: &Verdict, units: Units) -> Result<String, Failure> {
    let fit = if verdict.matches { "fit" } else { "do not fit" };
    let join = verdict.join_in_words();
    if verdict.difference.is_zero() {
        return Ok(format!("they {fit} in {join}: there is no difference"));
    }
    let by = say(middle(verdict.length_difference)?.abs(), units);
    let counts = verdict.difference_in_words();
    let how = match (verdict.compares, verdict.difference.is_positive()) {
        (Compared::Counts, true) => format!("has {counts} more ({by})"),
        (Compared::Counts, false) => format!("has {counts} fewer ({by})"),
        (Compared::Lengths, true) => format!("is {by} longer ({counts})"),
        (Compared::Lengths, false) => format!("is {by} shorter ({counts})"),
    };
    Ok(format!("they {fit} in {join}: the first edge {how}"))
}

fn side(side: &SeamSide) -> Result<Value, Failure> {
    Ok(json!({
        "stitches": side.stitches.get(),
        "rows": side.rows.get(),
        "length": length(middle(side.length)?),
    }))
}

fn json(verdict: &Verdict) -> Result<Value, Failure> {
    let mend = verdict.mend.as_ref().map(|mend| {
        json!({ "first": mend.a.as_ref().map(change), "second": mend.b.as_ref().map(change) })
    });
    Ok(json!({
        "matches": verdict.matches,
        "difference": number(verdict.difference),
        "difference_exact": fraction(verdict.difference),
        "counted": verdict.counted,
        "length_difference": length(middle(verdict.length_difference)?),
        "mend": mend,
        "passes": passes(verdict).map(|(first, second)| {
            json!({ "first": first.runs(), "second": second.runs() })
        }),
        "first": side(&verdict.a)?,
        "second": side(&verdict.b)?,
    }))
}

fn change(change: &EdgeChange) -> Value {
    let (counted, from, to) = (change.to.direction(), change.from.get(), change.to.get());
    json!({ "counted": counted, "from": from, "to": to })
}

/// An integer where the number is whole.
fn number(exact: Exact) -> Value {
    if exact.is_whole() { exact.numer().into() } else { exact.to_f64_lossy().into() }
}
