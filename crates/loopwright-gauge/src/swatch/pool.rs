use crate::error::Kind;
use crate::{Error, Exact, Length, PerLength, Reading, Spread};
use alloc::format;

/// What readings add up to, and the least and the greatest gauge among them.
#[derive(Default)]
pub(crate) struct Sum {
    count: Exact,
    span: Length,
    count_error: Exact,
    span_error: Length,
    ends: Option<(PerLength, PerLength)>,
}

impl Sum {
    pub(crate) fn add(
        &mut self,
        reading: Reading,
        counting: Exact,
        ruler: Length,
    ) -> Result<(), Error> {
        if reading.count() <= counting || reading.span() <= ruler {
            let (what, given) = ("the reading", format!("{reading}"));
            let allowed = format!(
                "longer than the error of reading it, {counting} {} and {ruler}",
                reading.direction()
            );
            return Err(Kind::Range { what, given, allowed }.into());
        }
        self.count = self.count.checked_add(reading.count())?;
        self.span = self.span.checked_add(reading.span())?;
        self.count_error = self.count_error.checked_add(counting)?;
        self.span_error = self.span_error.checked_add(ruler)?;
        let (low, high) = self.ends.unwrap_or((reading.gauge(), reading.gauge()));
        self.ends = Some((low.min(reading.gauge()), high.max(reading.gauge())));
        Ok(())
    }

    pub(crate) fn measured(&self) -> Result<Option<Spread<PerLength>>, Error> {
        let Some((lowest, highest)) = self.ends else { return Ok(None) };
        let value = PerLength::new(self.count, self.span)?;
        let fewest = self.count.checked_sub(self.count_error)?;
        let most = self.count.checked_add(self.count_error)?;
        let low = PerLength::new(fewest, self.span.checked_add(self.span_error)?)?;
        let high = PerLength::new(most, self.span.checked_sub(self.span_error)?)?;
        Spread::new(low.min(lowest), value, high.max(highest)).map(Some)
    }
}
