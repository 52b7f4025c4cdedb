//! A written row, read and worked stitch by stitch.
//!
//! Reads the trade's notation: `k3, k2tog, (k6, k2tog) x 9, k3`.

/// What one instruction does to the next stitches of the old row.
#[derive(Clone, Debug, Eq, PartialEq)]
enum Act {
    Knit(u32),
    Event { uses: u32, makes: u32 },
    Repeat(Vec<Act>, u32),
}

/// A row that has been worked.
#[derive(Debug, Default, Eq, PartialEq)]
pub struct Worked {
    /// For every new stitch, the old stitches it was made of, counted from 1.
    pub new: Vec<Vec<u32>>,
    /// Stitches of the old row worked after each event.
    pub events: Vec<u32>,
    /// Old stitches used.
    pub used: u32,
}

/// Works `text` over a row of `stitches`; every stitch must be used, and no more.
///
/// # Errors
/// When the row cannot be read, needs more stitches, or leaves some over.
pub fn work(text: &str, stitches: u32) -> Result<Worked, String> {
    let (acts, rest) = list(text)?;
    if !rest.is_empty() {
        return Err(format!("{rest:?} cannot be read"));
    }
    let mut worked = Worked::default();
    for act in &acts {
        perform(act, stitches, &mut worked)?;
    }
    match stitches - worked.used {
        0 => Ok(worked),
        left => Err(format!("{left} stitches are left over")),
    }
}

fn perform(act: &Act, stitches: u32, worked: &mut Worked) -> Result<(), String> {
    match act {
        Act::Knit(n) => {
            for _ in 0..*n {
                let old = take(stitches, worked)?;
                worked.new.push(vec![old]);
            }
        }
        Act::Event { uses, makes } => {
            let old = (0..*uses).map(|_| take(stitches, worked)).collect::<Result<Vec<_>, _>>()?;
            worked.new.extend((0..*makes).map(|_| old.clone()));
            worked.events.push(worked.used);
        }
        Act::Repeat(acts, times) => {
            for _ in 0..*times {
                for act in acts {
                    perform(act, stitches, worked)?;
                }
            }
        }
    }
    Ok(())
}

fn take(stitches: u32, worked: &mut Worked) -> Result<u32, String> {
    if worked.used == stitches {
        return Err(format!("the row needs more than {stitches} stitches"));
    }
    worked.used += 1;
    Ok(worked.used)
}

fn list(text: &str) -> Result<(Vec<Act>, &str), String> {
    let mut acts = Vec::new();
    let mut rest = text;
    loop {
        let (act, after) = item(rest)?;
        acts.push(act);
        match after.strip_prefix(", ") {
            Some(more) => rest = more,
            None => return Ok((acts, after)),
        }
    }
}

fn item(text: &str) -> Result<(Act, &str), String> {
    if let Some(inside) = text.strip_prefix('(') {
        let (acts, rest) = list(inside)?;
        let rest = rest.strip_prefix(") x ").ok_or(format!("no end of {text:?}"))?;
        let (times, rest) = number(rest)?;
        return Ok((Act::Repeat(acts, times), rest));
    }
    let events = [("M1", 0, 1), ("kfb", 1, 2), ("inc", 1, 2), ("k2tog", 2, 1), ("k3tog", 3, 1)];
    for (name, uses, makes) in events {
        if let Some(rest) = text.strip_prefix(name) {
            return Ok((Act::Event { uses, makes }, rest));
        }
    }
    let (n, rest) = number(text.strip_prefix('k').ok_or(format!("{text:?} cannot be read"))?)?;
    Ok((Act::Knit(n), rest))
}

fn number(text: &str) -> Result<(u32, &str), String> {
    let end = text.find(|c: char| !c.is_ascii_digit()).unwrap_or(text.len());
    let (digits, rest) = text.split_at(end);
    Ok((digits.parse().map_err(|_| format!("no number in {text:?}"))?, rest))
}
