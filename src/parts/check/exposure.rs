//! What the port meets against the part's rating of the same kind.

use super::Check;
use crate::model::Part;
use crate::parts::Duty;

/// Contact discharge in volt.
pub(super) fn contact(duty: &Duty, part: &Part) -> Option<Check> {
    let required = duty.demands.contact?.0;
    Some(Check::at_least("rating contact", required, part.strength.contact.map(|v| v.0), "V"))
}

/// Air discharge in volt.
pub(super) fn air(duty: &Duty, part: &Part) -> Option<Check> {
    let required = duty.demands.air?.0;
    Some(Check::at_least("rating air", required, part.strength.air.map(|v| v.0), "V"))
}

/// 8/20 µs surge in ampere.
pub(super) fn surge(duty: &Duty, part: &Part) -> Option<Check> {
    let required = duty.demands.surge?.0;
    Some(Check::at_least("rating surge", required, part.strength.surge.map(|a| a.0), "A"))
}
