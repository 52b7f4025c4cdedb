//! What an answer must be, by definition: shares no code with the search.

use crate::demand::Link;
use crate::unknown::Unknown;

/// Whether `counts` are allowed by every unknown and hold every link.
pub(crate) fn holds(unknowns: &[Unknown], links: &[&Link], counts: &[u32]) -> bool {
    counts.len() == unknowns.len()
        && unknowns.iter().zip(counts).all(|(unknown, &count)| {
            unknown.repeat.allows(count) && (unknown.low..=unknown.high).contains(&count)
        })
        && links.iter().all(|link| link.holds(counts))
}
