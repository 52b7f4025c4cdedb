//! Stitches on hold, and back in work.

use super::state::State;
use crate::Side;
use crate::error::Fault;
use loopwright_gauge::Stitches;

impl State {
    pub(super) fn hold(&mut self, side: Side, stitches: Stitches) -> Result<(), Fault> {
        let yarn = self.yarn_side();
        let part = self.flat("a hold")?;
        let (count, working) = (stitches.get(), part.working());
        match count {
            0 => Err(Fault::Zero { what: "a hold" }),
            2.. if yarn == Some(side) => Err(Fault::HoldAtCarriage { carriage: side, side }),
            _ if count >= working => {
                let there = working.saturating_sub(1);
                Err(Fault::TooFew { what: "a hold", wanted: count.into(), there })
            }
            _ => {
                part.hold(side, count);
                Ok(())
            }
        }
    }

    pub(super) fn bring_back(&mut self, side: Side, stitches: Stitches) -> Result<(), Fault> {
        let part = self.working("a return")?;
        let held = part.held(side);
        match stitches.get() {
            0 => Err(Fault::Zero { what: "a return" }),
            count if count > held => Err(Fault::NotHeld { side, wanted: stitches, held }),
            count => {
                part.bring_back(side, count);
                Ok(())
            }
        }
    }

    pub(super) fn refuse_held(&self, side: Side, what: &'static str) -> Result<(), Fault> {
        match &self.part {
            Some(part) if part.held(side) > 0 => Err(Fault::Held { side, what }),
            _ => Ok(()),
        }
    }
}
