//! The least capacitance of a part against the least that its line needs.

use super::Check;
use crate::model::{Part, Voltages};
use crate::parts::Duty;

/// Where a line needs a capacitance, the least that the part may have must still be enough. The part's largest is judged by
/// the limits themselves.
pub(super) fn lowest(duty: &Duty, part: &Part) -> Option<Check> {
    let needed = duty.lowest?.0;
    let voltages = Voltages { line: duty.voltage, pair: duty.pair_voltage };
    let least = part.least_on_line(duty.footprint.across, voltages);
    let why = match least {
        Some(_) => "below it the line breaks a limit, and the part may have as little as this (estimate)",
        None if part.typical_only => {
            "the line needs a capacitance, and the part states no `max` beside its typical value"
        }
        None => "the line needs a capacitance, and the part states no `typical` value beside its maximum, nor `± %`",
    };
    Some(Check::at_least("lowest capacitance", needed, least.map(|c| c.0), "F").because(why))
}
