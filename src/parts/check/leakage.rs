//! Leakage at the line's voltage and highest temperature: an estimate.

use super::Check;
use crate::model::Part;
use crate::parts::Duty;

/// Temperature at which parts state their leakage, in °C.
const STATED_AT: f64 = 25.0;
/// Leakage doubles for every so many degrees (common practice, no source).
const DOUBLES_EVERY: f64 = 10.0;

/// Stated leakage, doubled for every 10 °C above 25 °C, against what the line allows.
///
/// The value counts as stated up to the voltage it is stated at. Above that voltage it is more: a value that is too
/// high already fails, a lower one says nothing.
pub(super) fn leakage(duty: &Duty, part: &Part) -> Option<Check> {
    let allowed = duty.demands.needs.leakage?.0;
    let hottest = duty.demands.temperature.map_or(STATED_AT, |range| range.high);
    let factor = ((hottest - STATED_AT).max(0.0) / DOUBLES_EVERY).exp2();
    let hot = part.strength.leakage.map(|l| l.current.0 * factor);
    let stated_at = part.strength.leakage.and_then(|l| l.at).or(part.working_voltage());
    let seen = if duty.is_across_alone(part) { duty.pair_voltage } else { None };
    let line = seen.map(|range| range.magnitudes().high.0);
    let line = line.or(duty.extent().map(|(low, high)| low.abs().max(high.abs())));
    let reaches = match (stated_at, line) {
        (Some(at), Some(line)) => at.0.abs() >= line,
        _ => true,
    };
    let check = Check::at_most("leakage", allowed, hot.filter(|i| reaches || *i > allowed), "A");
    Some(if reaches { check } else { check.because("the leakage is stated at less than the line's highest voltage") })
}
