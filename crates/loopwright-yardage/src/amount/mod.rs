//! How much yarn a piece takes.

mod estimate;
mod rates;
mod rough;
mod stripes;
mod sum;
mod supply;
mod tail;
mod tally;
mod total;

pub use estimate::{Estimate, Estimator, PieceAmount, estimate};
pub use rough::Rough;
pub use stripes::{Stripe, deal_stripes, deepest_stripes};
pub use supply::{Rules, Supply};
pub use tail::{EdgeFacts, EdgeRule, GRAFT_TAIL_LEAST_CM, SeamRule, seaming_strands};
pub use tally::{MAIN_YARN, Tally};
pub use total::Amount;
