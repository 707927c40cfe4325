//! Temperature, qualification, package and channels.

use super::Check;
use crate::parts::{Demand, Rating};

/// The part's range must contain the line's; the end with less room is shown.
pub(super) fn temperature(demand: &Demand, rating: &Rating) -> Option<Check> {
    let line = demand.asks.temperature?;
    let Some(part) = rating.strength.temperature else {
        return Some(Check::at_least("temperature", line.high, None, "degC"));
    };
    Some(if line.low - part.low < part.high - line.high {
        Check::at_most("temperature", line.low, Some(part.low), "degC")
    } else {
        Check::at_least("temperature", line.high, Some(part.high), "degC")
    })
}

/// One check for each qualification needed. A part that does not state it does not have it.
pub(super) fn qualification(demand: &Demand, rating: &Rating) -> impl Iterator<Item = Check> {
    demand
        .asks
        .needs
        .qualified
        .iter()
        .map(|word| Check::words("qualification", Some(rating.strength.qualified.contains(word))))
}

/// The package by its name.
pub(super) fn package(demand: &Demand, rating: &Rating) -> Option<Check> {
    let needed = demand.asks.needs.package.as_ref()?;
    Some(Check::words("package", rating.strength.package.as_ref().map(|p| p == needed)))
}

/// Channels of one package.
pub(super) fn channels(demand: &Demand, rating: &Rating) -> Option<Check> {
    let needed = f64::from(demand.asks.needs.channels?);
    Some(Check::at_least("channels", needed, rating.strength.channels.map(f64::from), ""))
}
