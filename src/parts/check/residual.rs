//! What is left at the chip's pin while the part conducts: an estimate, no proof of immunity.

use super::curve::{clamping_voltage, surge_voltage, unknown};
use super::{Check, Verdict};
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

/// The voltage of a contact discharge at 30 ns against what the chip withstands.
pub(super) fn contact(duty: &Duty, part: &Part) -> Option<Check> {
    let (withstands, charge) = (duty.demands.withstands?, duty.demands.contact?);
    let at_30ns = clamping_voltage(part, contact_current_30ns(charge));
    let check = Check::at_most("residual", withstands.0, at_30ns.map(|v| v.0), "V");
    Some(if at_30ns.is_some() { check } else { check.because(unknown(part.strength.clamp, "clamp")) })
}

/// The first peak of a contact discharge: the larger of the trigger, of V(I_pk), and of V(I_pk/3) + L·I_pk/0.8 ns, L of
/// the part, its ground via and its stub; against what the chip withstands so long.
///
/// Where that is not stated, a peak within what it withstands at 30 ns passes, and a higher one says nothing. What is
/// too high by what is known already fails.
pub(super) fn first_peak(duty: &Duty, part: &Part) -> Option<Check> {
    const NAME: &str = "first peak";
    let (withstands, charge) = (duty.demands.withstands?.0, duty.demands.contact?);
    let stated = duty.demands.withstands_peak.map(|v| v.0);
    let limit = stated.unwrap_or(withstands);
    let current = contact_first_peak(charge).0;
    let inductance = part.inductance.0 + duty.footprint.inductance();
    let trigger = part.strength.trigger.map_or(0.0, |v| v.0);
    let at_peak = clamping_voltage(part, Ampere(current)).map(|v| v.0);
    let in_rise = clamping_voltage(part, Ampere(current * SHARE_IN_RISE)).map(|v| v.0 + inductance * current / RISE);
    let known = trigger.max(at_peak.unwrap_or(0.0));
    let peak = at_peak.zip(in_rise).filter(|_| inductance > 0.0).map(|(a, b)| a.max(b).max(trigger));
    if trigger > limit {
        let check = Check::at_most(NAME, limit, peak.or(Some(known)), "V");
        return Some(check.because(format!("the part does not turn on below its trigger of {}", Volt(trigger))));
    }
    let above = |volts: f64| stated.is_some_and(|limit| volts > limit);
    let Some(peak) = peak.or(Some(known).filter(|volts| above(*volts))) else {
        let check = Check::at_most(NAME, limit, None, "V");
        return Some(check.because(match at_peak {
            Some(_) => "neither the part nor its ground via or stub states an inductance".to_owned(),
            None => unknown(part.strength.clamp, "clamp"),
        }));
    };
    if stated.is_some() || peak <= withstands {
        return Some(Check::at_most(NAME, limit, Some(peak), "V"));
    }
    let unstated = Check { available: Some(peak), unit: "V", verdict: Verdict::NotStated, ..Check::words(NAME, None) };
    Some(unstated.because(format!(
        "about {} for a nanosecond is above the {} the chip withstands; what it withstands so long is not stated (`peak`)",
        engineering(peak, "V"),
        engineering(withstands, "V")
    )))
}

/// The voltage of a surge against what the chip withstands.
pub(super) fn surge(duty: &Duty, part: &Part) -> Option<Check> {
    let (withstands, current) = (duty.demands.withstands?, duty.demands.surge?);
    let volts = surge_voltage(part, current);
    let check = Check::at_most("residual surge", withstands.0, volts.map(|v| v.0), "V");
    Some(if volts.is_some() { check } else { check.because(unknown(part.strength.surge_clamp, "surge_clamp")) })
}

/// What is not checked.
pub(super) fn caution(duty: &Duty) -> Option<Note> {
    let alone = duty.demands.withstands.is_some() && duty.demands.contact.is_none() && duty.demands.air.is_some();
    alone.then(|| Note {
        code: "air-residual",
        text: "the residual is estimated for contact discharge alone: what an air discharge leaves at the chip is not \
               checked"
            .to_owned(),
        span: None,
    })
}
