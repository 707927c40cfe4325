//! What is left at the chip's pin while the part conducts: an estimate, no proof of immunity.

use super::Check;
use crate::model::{Note, Part};
use crate::parts::Duty;
use crate::units::{Ampere, Volt, engineering};

/// Contact current at 30 ns per volt of charge, IEC 61000-4-2 (2 A/kV; as quoted in a secondary source).
const AMPERE_PER_VOLT_30NS: f64 = 2.0e-3;
/// First peak of the contact current per volt of charge, IEC 61000-4-2 (3.75 A/kV; as quoted in a secondary source).
const AMPERE_PER_VOLT_PEAK: f64 = 3.75e-3;
/// Rise time of the first peak in second, IEC 61000-4-2 (as quoted in a secondary source).
const RISE: f64 = 0.8e-9;
/// The share of the peak current that flows while the current still rises fastest.
const SHARE_IN_RISE: f64 = 1.0 / 3.0;

/// Contact discharge current at 30 ns: 2 A/kV.
///
/// # References
/// IEC 61000-4-2, as quoted in a secondary source; ±30 % in the standard.
pub fn contact_current_30ns(charge: Volt) -> Ampere {
    Ampere(AMPERE_PER_VOLT_30NS * charge.0)
}

/// First peak of the contact discharge current: 3.75 A/kV, rising in 0.8 ns.
///
/// # References
/// IEC 61000-4-2, as quoted in a secondary source; ±15 % in the standard.
pub fn contact_first_peak(charge: Volt) -> Ampere {
    Ampere(AMPERE_PER_VOLT_PEAK * charge.0)
}

/// V(I) = V_clamp + R_dyn·(I − I_clamp), never below the holding or the working voltage.
///
/// `None` where the part states no clamp point, or no slope to move away from it.
///
/// # Validity
/// A straight line through the 100 ns pulse curve; not for surge.
pub fn clamping_voltage(part: &Part, current: Ampere) -> Option<Volt> {
    let clamp = part.strength.clamp?;
    let away = current.0 - clamp.current.0;
    let moved = match part.strength.dynamic_resistance {
        Some(slope) => clamp.voltage.0 + slope.0 * away,
        None if is_same(current.0, clamp.current.0) => clamp.voltage.0,
        None => return None,
    };
    Some(Volt(moved.max(part.clamping_floor().map_or(0.0, |v| v.0))))
}

fn is_same(a: f64, b: f64) -> bool {
    (a - b).abs() <= 1e-9 * b.abs()
}

/// The residual of a contact discharge, with what to be careful of.
#[derive(Default)]
pub(super) struct Residual {
    pub(super) check: Option<Check>,
    pub(super) caution: Option<Note>,
}

/// The voltage at 30 ns against what the chip withstands; the first peak above it is a caution.
pub(super) fn contact(duty: &Duty, part: &Part) -> Residual {
    let Some(withstands) = duty.demands.withstands else {
        return Residual::default();
    };
    let Some(charge) = duty.demands.contact else {
        return Residual { check: None, caution: duty.demands.air.map(|_| air_alone()) };
    };
    let at_30ns = clamping_voltage(part, contact_current_30ns(charge)).map(|v| v.0);
    let caution = first_peak_voltage(duty, part, charge)
        .filter(|peak| *peak > withstands.0)
        .map(|peak| above_withstands(peak, withstands));
    Residual { check: Some(Check::at_most("residual", withstands.0, at_30ns, "V")), caution }
}

/// V_peak = max(V(I_pk), V(I_pk/3) + L·I_pk/0.8 ns), L of the part, its ground via and its stub.
fn first_peak_voltage(duty: &Duty, part: &Part, charge: Volt) -> Option<f64> {
    let peak = contact_first_peak(charge).0;
    let inductance = part.inductance.0 + duty.footprint.inductance();
    let at_peak = clamping_voltage(part, Ampere(peak))?.0;
    let in_rise = clamping_voltage(part, Ampere(peak * SHARE_IN_RISE))?.0 + inductance * peak / RISE;
    Some(at_peak.max(in_rise))
}

fn above_withstands(peak: f64, withstands: Volt) -> Note {
    Note {
        code: "first-peak",
        text: format!(
            "the first peak of a contact discharge leaves about {} at the chip, above the {} it withstands (an estimate)",
            engineering(peak, "V"),
            engineering(withstands.0, "V")
        ),
        span: None,
    }
}

fn air_alone() -> Note {
    Note {
        code: "air-residual",
        text: "the residual is estimated for contact discharge alone: what an air discharge leaves at the chip is not \
               checked"
            .to_owned(),
        span: None,
    }
}

/// The voltage of a surge, on the straight line from the holding or working voltage at no current through the stated
/// point, against what the chip withstands.
pub(super) fn surge(duty: &Duty, part: &Part) -> Option<Check> {
    let (withstands, current) = (duty.demands.withstands?, duty.demands.surge?);
    Some(Check::at_most("residual surge", withstands.0, surge_voltage(part, current.0), "V"))
}

fn surge_voltage(part: &Part, current: f64) -> Option<f64> {
    let clamp = part.strength.surge_clamp?;
    if is_same(current, clamp.current.0) {
        return Some(clamp.voltage.0);
    }
    let floor = part.clamping_floor()?.0;
    let slope = (clamp.voltage.0 - floor).max(0.0) / clamp.current.0;
    Some((clamp.voltage.0 + slope * (current - clamp.current.0)).max(floor)).filter(|v| v.is_finite())
}
