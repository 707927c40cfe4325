//! What the port meets against the part's rating of the same kind.

use super::Check;
use crate::parts::{Demand, Rating};

/// Contact discharge in volt.
pub(super) fn contact(demand: &Demand, rating: &Rating) -> Option<Check> {
    let required = demand.asks.contact?.0;
    Some(Check::at_least("rating contact", required, rating.strength.contact.map(|v| v.0), "V"))
}

/// Air discharge in volt.
pub(super) fn air(demand: &Demand, rating: &Rating) -> Option<Check> {
    let required = demand.asks.air?.0;
    Some(Check::at_least("rating air", required, rating.strength.air.map(|v| v.0), "V"))
}

/// 8/20 µs surge in ampere.
pub(super) fn surge(demand: &Demand, rating: &Rating) -> Option<Check> {
    let required = demand.asks.surge?.0;
    Some(Check::at_least("rating surge", required, rating.strength.surge.map(|a| a.0), "A"))
}
