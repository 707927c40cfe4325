//! The voltage of a part that conducts.

use crate::model::{ClampPoint, Part};
use crate::units::{Ampere, Ohm, Volt};

/// V(I) under a 100 ns pulse; `None` where the part does not state its clamp point, or nothing that leads beyond it.
///
/// At or below the stated current the straight line from the breakdown, or, where none is stated, the stated voltage
/// itself. Above it V_clamp + R_dyn·(I − I_clamp), or, without R_dyn, the line from the holding or working voltage at no
/// current through the point.
///
/// # Validity
/// Straight lines through a curve that bends: an estimate; not for surge.
pub fn clamping_voltage(part: &Part, current: Ampere) -> Option<Volt> {
    at(part, part.strength.clamp?, part.strength.dynamic_resistance, current)
}

/// V(I) in an 8/20 µs surge, as [`clamping_voltage`] without R_dyn, which is of the short pulse alone.
pub(super) fn surge_voltage(part: &Part, current: Ampere) -> Option<Volt> {
    at(part, part.strength.surge_clamp?, None, current)
}

/// Why there is no V(I).
pub(super) fn unknown(point: Option<ClampPoint>, word: &str) -> String {
    match point {
        None => format!("the part states no `{word}`"),
        Some(point) => {
            format!("nothing is stated of the part above {}: no stand-off to draw its curve from", point.current)
        }
    }
}

fn at(part: &Part, point: ClampPoint, slope: Option<Ohm>, current: Ampere) -> Option<Volt> {
    let (clamp, stated_at) = (point.voltage.0, point.current.0);
    let above = current.0 - stated_at;
    let below = part.strength.breakdown.filter(|from| from.current.0 < stated_at);
    let volts = match (above > 1e-9 * stated_at, slope, below) {
        (true, Some(slope), _) => clamp + slope.0 * above,
        (true, None, _) => clamp + (clamp - part.clamping_floor()?.0).max(0.0) / stated_at * above,
        (false, _, Some(from)) => {
            let share = (current.0 - from.current.0) / (stated_at - from.current.0);
            from.voltage.0 + (clamp - from.voltage.0) * share.clamp(0.0, 1.0)
        }
        (false, _, None) => clamp,
    };
    volts.is_finite().then_some(Volt(volts))
}
