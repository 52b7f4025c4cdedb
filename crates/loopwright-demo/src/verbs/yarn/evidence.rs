//! The loop length of the fabric, from whatever is known of it.

use super::{Failure, LinearDensity, Told};
use crate::answer::length;
use crate::choice::choice;
use loopwright::gauge::{Exact, Gauge, Length, Reading, ReadingDirection, Rows, Stitches};
use loopwright::yardage::{
    Agreement, LoopLength, LoopsPerArea, Mass, RelaxationState, RelaxedFabric, Source, Spread,
    Structure, Unravelled, Weighed, loop_from_gauge, loop_from_loops_per_area, unravelled, weighed,
};
use serde_json::{Map, Value, json};
use std::fmt::Write as _;
use std::str::FromStr;

#[derive(Debug, clap::Args)]
pub(crate) struct EvidenceArgs {
    /// The gauge as stitches x rows / length, such as 28x40/10cm.
    #[arg(long)]
    pub(super) gauge: Option<Gauge>,
    /// How the loops of the fabric are arranged.
    #[arg(long, value_parser = choice::<Structure>(), default_value = "plain")]
    fabric: Structure,
    /// How far the fabric had relaxed when its gauge was measured.
    #[arg(long, value_parser = choice::<RelaxationState>(), default_value = "unknown")]
    relaxation: RelaxationState,
    /// Yarn pulled out of counted stitches, such as "20 st = 31 cm"; may be given several
    /// times.
    #[arg(long, value_name = "READING")]
    unravelled: Vec<Reading>,
    /// A swatch that was cast on, knitted, bound off and weighed, such as "20x20 = 2 g".
    #[arg(long, value_name = "SWATCH")]
    swatch: Option<WeighedSwatch>,
    /// The yarn in one stitch, when it is known.
    #[arg(long = "loop", value_name = "LENGTH")]
    stated: Option<Length>,
    /// Loops counted in a square centimetre, those of both faces in ribs.
    #[arg(long, value_name = "N")]
    loops_per_cm2: Option<Exact>,
    /// Unravelled yarn was measured to the nearest such step of the ruler.
    #[arg(long, value_name = "STEP", default_value = "1 mm")]
    ruler: Length,
    /// Swatches and remainders were weighed to the nearest such step of the balance.
    #[arg(long, value_name = "STEP", default_value = "1 g")]
    pub(super) balance: Mass,
}

/// A weighed swatch as it is written: `20x20 = 2 g`.
#[derive(Clone, Copy, Debug)]
struct WeighedSwatch {
    stitches: Stitches,
    rows: Rows,
    mass: Mass,
}

impl FromStr for WeighedSwatch {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let refuse = || {
            format!("{text:?} is no swatch: write stitches x rows = weight, such as 20x20 = 2 g")
        };
        let (size, mass) = text.split_once('=').ok_or_else(refuse)?;
        let (stitches, rows) = size.split_once(['x', '×']).ok_or_else(refuse)?;
        let told = |why: loopwright::gauge::Error| why.to_string();
        let (stitches, rows) = (stitches.parse().map_err(told)?, rows.parse().map_err(told)?);
        Ok(Self { stitches, rows, mass: mass.trim().parse().map_err(|_| refuse())? })
    }
}

impl EvidenceArgs {
    /// The best loop length, and how the other evidence agrees with it.
    pub(super) fn loops(
        &self,
        yarn: LinearDensity,
    ) -> Result<(LoopLength, Vec<Agreement>), Failure> {
        let mut findings = Vec::new();
        if !self.unravelled.is_empty() {
            findings.push(self.unravelled()?);
        }
        if let Some(swatch) = self.swatch {
            let WeighedSwatch { stitches, rows, mass } = swatch;
            findings.push(weighed(&Weighed::rectangle(stitches, rows, mass, self.balance)?, yarn)?);
        }
        if let Some(gauge) = self.gauge {
            findings.push(loop_from_gauge(gauge, self.fabric(), Some(yarn))?);
        }
        if let Some(counted) = self.loops_per_cm2 {
            let counted = LoopsPerArea::per_cm2(counted)?;
            findings.push(loop_from_loops_per_area(counted, self.fabric(), Some(yarn))?);
        }
        if let Some(stated) = self.stated {
            findings.push(LoopLength::stated(Spread::exactly(stated))?);
        }
        if findings.is_empty() {
            let how = "say how much yarn a stitch takes: give --gauge, --unravelled, --swatch, \
                       --loops-per-cm2 or --loop";
            return Err(Failure::Input(how.into()));
        }
        Ok(LoopLength::best(&findings)?)
    }

    /// Loops per area: counted where a gauge or a count is given, otherwise from the loop
    /// length and the area constant of the fabric.
    pub(super) fn loops_per_area(
        &self,
        loops: &LoopLength,
    ) -> Result<Spread<LoopsPerArea>, Failure> {
        Ok(match (self.loops_per_cm2, self.gauge) {
            (Some(counted), _) => Spread::exactly(LoopsPerArea::per_cm2(counted)?),
            (None, Some(gauge)) => Spread::exactly(LoopsPerArea::counted(gauge)?),
            (None, None) => LoopsPerArea::modelled(loops, self.fabric())?,
        })
    }

    fn unravelled(&self) -> Result<LoopLength, Failure> {
        let one =
            |reading: &Reading| match (Stitches::try_from(reading.count()), reading.direction()) {
                (Ok(stitches), ReadingDirection::Stitches) => {
                    Ok(Unravelled::new(stitches, reading.span(), self.ruler)?)
                }
                _ => Err(Failure::Input(
                    "--unravelled takes a whole count of stitches, such as \"20 st = 31 cm\""
                        .into(),
                )),
            };
        Ok(unravelled(&self.unravelled.iter().map(one).collect::<Result<Vec<_>, _>>()?)?)
    }

    pub(super) const fn fabric(&self) -> RelaxedFabric {
        RelaxedFabric::new(self.fabric, self.relaxation)
    }
}

/// The loop length in words and as JSON, with the evidence that does not agree.
pub(super) fn told(loops: &LoopLength, others: &[Agreement]) -> Told {
    let mm = |length: Length| length.millimetres().decimal(2);
    let spread = loops.length();
    let mut text = format!(
        "A stitch takes {} mm of it ({} to {} mm), by {}.\n",
        mm(spread.likely()),
        mm(spread.low()),
        mm(spread.high()),
        loops.source(),
    );
    if loops.source() == Source::Extrapolated {
        text += "The loop model was measured on fine machine knitting: unravel a few stitches to \
                 be surer.\n";
    }
    for other in others.iter().filter(|other| !other.overlap) {
        let _ = writeln!(text, "Beware: {other}.");
    }
    let json = json!({
        "likely": length(spread.likely()),
        "low": length(spread.low()),
        "high": length(spread.high()),
        "source": loops.source().to_string(),
        "others": others.iter().map(agreement).collect::<Vec<_>>(),
    });
    Told { text, json: Map::from_iter([("loop".to_owned(), json)]) }
}

fn agreement(other: &Agreement) -> Value {
    let [_, source] = other.sources;
    json!({
        "source": source.to_string(),
        "agrees": other.overlap,
        "difference_percent": percent(other.difference),
    })
}

fn percent(share: Exact) -> Value {
    share.checked_mul(Exact::whole(100)).map_or(Value::Null, |n| json!(n.to_f64_lossy()))
}
