//! The sheet as plain text.

use crate::Units;
use crate::answer::say;
use crate::output::one_line;
use crate::plan::Plan;
use core::fmt::Write as _;
use loopwright::garment::{FinishedPiece, Garment, YarnReport};
use loopwright::gauge::english::{counted, plural};
use loopwright::gauge::{Exact, Gauge, Length, Precision, Round, Rows, Stitches, Treatment, Unit};
use loopwright::pattern::{CastOn, Craft, Step, words};
use loopwright::seams::{SeamSide, Verdict};
use loopwright::yardage::{Amount, Mass, MassUnit};
use textwrap::{Options, WordSeparator, WordSplitter};

pub(crate) fn text(
    plan: &Plan,
    garment: &Garment,
    yarn: Option<&YarnReport>,
    units: Units,
) -> String {
    let mut sheet = String::new();
    heading(&mut sheet, &one_line(&plan.title));
    for caution in &garment.cautions {
        line(&mut sheet, &format!("! {caution}"));
    }
    before_you_begin(&mut sheet, plan, garment, units);
    measures(&mut sheet, garment, units);
    if let Some(yarn) = yarn {
        yarn_needed(&mut sheet, yarn, units);
    }
    for piece in &garment.pieces {
        instructions(&mut sheet, piece);
    }
    putting_together(&mut sheet, garment, units);
    roundings(&mut sheet, garment);
    sheet
}

fn line(sheet: &mut String, text: &str) {
    hanging(sheet, "", text);
}

/// A paragraph behind `lead`, wrapped to the width of a printed page under itself.
fn hanging(sheet: &mut String, lead: &str, text: &str) {
    let under = " ".repeat(lead.chars().count());
    let page = Options::new(92)
        .initial_indent(lead)
        .subsequent_indent(&under)
        .word_splitter(WordSplitter::NoHyphenation)
        .word_separator(WordSeparator::AsciiSpace);
    sheet.push_str(&textwrap::fill(text, page));
    sheet.push('\n');
}

fn heading(sheet: &mut String, text: &str) {
    if !sheet.is_empty() {
        sheet.push('\n');
    }
    line(sheet, text);
    line(sheet, &"-".repeat(text.chars().count()));
}

fn before_you_begin(sheet: &mut String, plan: &Plan, garment: &Garment, units: Units) {
    heading(sheet, "Before you begin");
    line(sheet, &format!("Stocking stitch: {}.", gauge(garment.fabrics.plain, units)));
    line(
        sheet,
        &format!("{}: {}.", garment.fabrics.rib_fabric(), gauge(garment.fabrics.rib, units)),
    );
    match plan.swatch {
        Some(Treatment::Washed) => line(
            sheet,
            "The swatch was measured washed and dried; wash the garment in the same way.",
        ),
        Some(treatment) => line(
            sheet,
            &format!(
                "The swatch was measured {treatment}: it may change in the wash, and the garment with it. Better measure it washed and dried."
            ),
        ),
        None => line(sheet, "Measure both on swatches washed and dried as the garment will be."),
    }
    for reading in &plan.doubtful {
        line(
            sheet,
            &format!(
                "Note: the reading {reading} is far from the others. Measure there once more."
            ),
        );
    }
    match plan.craft {
        Craft::Machine(bed) => {
            let widest =
                garment.pieces.iter().map(|piece| piece.knitted.widest.get()).max().unwrap_or(0);
            let needles = counted(bed.needles(), "needle");
            line(sheet, &format!("The widest piece needs {widest} of the bed's {needles}."));
            line(
                sheet,
                "RC is the row counter, COL and COR are carriage left and right. Left and right are as you face the machine.",
            );
            line(
                sheet,
                "Needles are numbered from the middle of the bed: L1, L2, ... to the left, R1, R2, ... to the right.",
            );
        }
        Craft::Hand => {
            line(
                sheet,
                "Left and right are as you see the right side of the piece. Row 1 of each piece is a right-side row.",
            );
        }
    }
    line(
        sheet,
        "Each line ends with what to check when it is done. The cast-on is not counted as a row.",
    );
}

fn gauge(gauge: Gauge, units: Units) -> String {
    let per = |unit: Unit, many: i32, span: &str| -> Option<String> {
        let length = Length::new(Exact::whole(many), unit).ok()?;
        let (stitches, rows) =
            (gauge.count_in::<Stitches>(length).ok()?, gauge.count_in::<Rows>(length).ok()?);
        let told = |count: Exact, one| {
            let name = if count == Exact::ONE { one } else { &plural(one).to_string() };
            format!("{} {name}", count.decimal(2))
        };
        Some(format!("{} and {} to {span}", told(stitches, "stitch"), told(rows, "row")))
    };
    let metric = per(Unit::Centimetre, 10, "10 cm").unwrap_or_else(|| gauge.to_string());
    let imperial = per(Unit::Inch, 4, "4 in").unwrap_or_else(|| gauge.to_string());
    match units {
        Units::Cm => metric,
        Units::In => imperial,
        Units::Both => format!("{metric} ({imperial})"),
    }
}

fn measures(sheet: &mut String, garment: &Garment, units: Units) {
    heading(sheet, "Finished measures");
    for outcome in &garment.outcomes {
        let (low, high) = (outcome.given.low(), outcome.given.high());
        let swatch = if low == high {
            String::new()
        } else {
            format!("; by the swatch between {} and {}", say(low, units), say(high, units))
        };
        let (given, wanted) = (say(outcome.given.likely(), units), say(outcome.wanted, units));
        let _ = writeln!(sheet, "{:<30} {given} (wanted {wanted}{swatch})", outcome.what);
    }
    for curve in &garment.curves {
        let most = fine(curve.most, units);
        let _ = writeln!(
            sheet,
            "{:<30} the steps are never more than {most} from the curve",
            curve.what
        );
    }
}

/// A length smaller than the steps of [`say`] would show.
fn fine(length: Length, units: Units) -> String {
    let mm = length.display(Unit::Millimetre, Precision::Decimals(0));
    let inches = length.display(Unit::Inch, Precision::Fraction(16));
    match units {
        Units::Cm => mm.to_string(),
        Units::In => inches.to_string(),
        Units::Both => format!("{mm} ({inches})"),
    }
}

/// The part on yarn by itself.
pub(crate) fn yarn(report: &YarnReport, units: Units) -> String {
    let mut sheet = String::new();
    yarn_needed(&mut sheet, report, units);
    sheet
}

fn yarn_needed(sheet: &mut String, yarn: &YarnReport, units: Units) {
    heading(sheet, "Yarn");
    let mut row = |what: &str, amount: &Amount| {
        let _ = writeln!(sheet, "{what:<30} {}", said(amount, units));
    };
    for piece in &yarn.estimate.pieces {
        row(&piece.piece, &piece.amount);
    }
    row("in all", &yarn.total());
    if yarn.estimate.waste != Amount::ZERO {
        row("waste yarn, any smooth yarn", &yarn.estimate.waste);
    }
    let source = yarn.plain.source();
    line(
        sheet,
        &format!(
            "Likely amounts, with the least and the most in brackets; reckoned from {source}."
        ),
    );
    for agreement in yarn.agreements.iter().filter(|agreement| !agreement.overlap) {
        line(sheet, &format!("Note: {agreement}. Measure once more before you buy."));
    }
    if let Some(purchase) = &yarn.purchase {
        let (likely, high) = (purchase.packages.likely(), purchase.packages.high());
        let safe = if high > likely {
            format!("; {high} to be safe where the dye lot cannot be matched later")
        } else {
            String::new()
        };
        let packages = if likely == 1 { "package" } else { "packages" };
        line(sheet, &format!("Buy {likely} {packages}{safe}."));
    }
}

fn said(amount: &Amount, units: Units) -> String {
    let unit = if units == Units::In { Unit::Yard } else { Unit::Metre };
    let long = |length: Length| length.display(unit, Precision::Decimals(0)).to_string();
    let heavy = |mass: Mass| mass.display(MassUnit::Gram, 0).to_string();
    let (length, mass) = (&amount.length, &amount.mass);
    format!(
        "{} ({} to {}), {} ({} to {})",
        long(length.likely()),
        long(length.low()),
        long(length.high()),
        heavy(mass.likely()),
        heavy(mass.low()),
        heavy(mass.high())
    )
}

fn instructions(sheet: &mut String, piece: &FinishedPiece) {
    let told = words::instructions(&piece.knitted);
    let copies =
        if piece.copies == 1 { String::new() } else { format!(" (make {})", piece.copies) };
    let mut title = told.title.clone();
    title.get_mut(..1).into_iter().for_each(str::make_ascii_uppercase);
    heading(sheet, &format!("{title}{copies}"));
    let begun = piece.knitted.log.first().map(|entry| &entry.step);
    if matches!(begun, Some(Step::CastOn { how: CastOn::PickedUp { .. }, .. })) {
        line(sheet, "Knitted when \"Putting it together\" comes to it.");
    }
    for (number, step) in told.lines.iter().enumerate() {
        hanging(sheet, &format!("{:>3}. ", number + 1), &step.text);
        if !step.check.is_empty() {
            hanging(sheet, "     ", &format!("[{}]", step.check));
        }
    }
}

fn putting_together(sheet: &mut String, garment: &Garment, units: Units) {
    heading(sheet, "Putting it together");
    line(
        sheet,
        "Pieces lie with right sides together, so the left of the back meets the right of the front.",
    );
    for (number, (plan, verdict)) in garment.plans.iter().zip(&garment.seams.verdicts).enumerate() {
        let mut name = plan.name.clone();
        name.get_mut(..1).into_iter().for_each(str::make_ascii_uppercase);
        hanging(sheet, &format!("{:>3}. ", number + 1), &format!("{name}: {}.", plan.words));
        hanging(sheet, "     ", &format!("[{}]", meeting(verdict, units)));
    }
}

/// What meets what, and how far apart their lengths are.
fn meeting(verdict: &Verdict, units: Units) -> String {
    let apart = verdict.length_difference.middle().unwrap_or(Length::ZERO);
    let (a, b) = (side(&verdict.a, units), side(&verdict.b, units));
    match apart.millimetres().to_whole(Round::HalfUp) {
        Ok(0) => format!("{a} to {b}"),
        _ if apart.is_positive() => format!("{a} to {b}; ease in {}", say(apart, units)),
        _ => format!("{a} to {b}; stretch by {}", say(apart.negated(), units)),
    }
}

fn side(side: &SeamSide, units: Units) -> String {
    let length = side
        .length
        .middle()
        .map_or_else(|_| String::new(), |length| format!(" ({})", say(length, units)));
    let rows = counted(side.rows.get(), "row");
    let stitches = counted(side.stitches.get(), "stitch");
    match (side.rows.get(), side.stitches.get()) {
        (0, _) => format!("{stitches}{length}"),
        (_, 0) => format!("{rows}{length}"),
        _ => format!("{rows} and {stitches}{length}"),
    }
}

/// What rounding to whole counts cost: all counts were rounded together, so that the
/// pieces fit each other.
fn roundings(sheet: &mut String, garment: &Garment) {
    heading(sheet, "How the counts were rounded");
    let best = if garment.proved {
        "no other counts are nearer to what was wanted"
    } else {
        "not proved to be the nearest"
    };
    line(
        sheet,
        &format!(
            "All together, so that the pieces fit; {best}. The count, what it would be unrounded, the difference:"
        ),
    );
    for count in &garment.counts {
        let (ideal, apart) = (count.ideal.decimal(2), count.deviation.decimal(2));
        let sign = if count.deviation.is_positive() { "+" } else { "" };
        let _ = writeln!(sheet, "{:<30} {} ({ideal}, {sign}{apart})", count.name, count.count);
    }
}
