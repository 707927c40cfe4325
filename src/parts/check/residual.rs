//! What is left at the chip's pin while the part conducts: an estimate, no proof of immunity.

use super::Check;
use super::curve::{clamping_voltage, surge_voltage, unknown};
use crate::model::{ClampPoint, Demands, Note, Part};
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

/// The voltage of a contact discharge at 30 ns against what the chip withstands: that of the part and of the resistance in
/// series with it.
pub(super) fn contact(duty: &Duty, part: &Part) -> Option<Check> {
    let (withstands, charge) = (duty.demands.withstands?, duty.demands.contact?);
    let current = contact_current_30ns(charge);
    let at_30ns = clamping_voltage(part, current).map(|v| v.0);
    Some(added("residual", withstands, at_30ns, duty.footprint.drop(current), part.strength.clamp, "clamp"))
}

/// The voltage of the part and of the resistance in series with it against what the chip withstands. Without the former
/// the latter alone can only fail.
fn added(
    name: &'static str,
    withstands: Volt,
    across_part: Option<f64>,
    drop: f64,
    point: Option<ClampPoint>,
    word: &str,
) -> Check {
    let volts = across_part.map(|v| v + drop);
    let known = volts.or(Some(drop).filter(|drop| *drop > withstands.0));
    let check = Check::at_most(name, withstands.0, known, "V");
    match (volts, known) {
        (Some(_), _) if drop > 0.0 => {
            check.because(format!("{} of it across the resistance in series with the part", engineering(drop, "V")))
        }
        (Some(_), _) => check,
        (None, Some(_)) => check.because("across the resistance in series with the part alone"),
        (None, None) => check.because(unknown(point, word)),
    }
}

/// The first peak of a contact discharge: the larger of the trigger, of V(I_pk) + R·I_pk, and of V(I_pk/3) + R·I_pk/3 +
/// L·I_pk/0.8 ns, R in series with the part, L of the part, its ground via and its stub; against what the chip withstands
/// so long.
///
/// Where that is not stated, a peak within what it withstands at 30 ns passes, and a higher one says nothing. What is
/// too high by what is known already fails. Of an air discharge alone nothing but the trigger is known.
pub(super) fn first_peak(duty: &Duty, part: &Part) -> Option<Check> {
    let withstands = duty.demands.withstands?.0;
    let stated = duty.demands.withstands_peak.map(|v| v.0);
    let limit = stated.unwrap_or(withstands);
    let Some(charge) = duty.demands.contact else {
        return air_peak(duty, part, limit);
    };
    let current = contact_first_peak(charge);
    let third = Ampere(current.0 * SHARE_IN_RISE);
    let inductance = part.inductance.0 + duty.footprint.inductance();
    let trigger = part.strength.trigger.map_or(0.0, |v| v.0);
    let resistive = |current| clamping_voltage(part, current).map(|v| v.0 + duty.footprint.drop(current));
    let at_peak = resistive(current);
    let in_rise = resistive(third).map(|volts| volts + inductance * current.0 / RISE);
    let known = trigger.max(at_peak.unwrap_or(duty.footprint.drop(current)));
    let peak = at_peak.zip(in_rise).filter(|_| inductance > 0.0).map(|(a, b)| a.max(b).max(trigger));
    if trigger > limit {
        return Some(not_on_below(trigger, Check::at_most(FIRST_PEAK, limit, peak.or(Some(known)), "V")));
    }
    let above = |volts: f64| stated.is_some_and(|limit| volts > limit);
    let Some(peak) = peak.or(Some(known).filter(|volts| above(*volts))) else {
        let check = Check::at_most(FIRST_PEAK, limit, None, "V");
        return Some(check.because(match at_peak {
            Some(_) => "neither the part nor its ground via or stub states an inductance".to_owned(),
            None => unknown(part.strength.clamp, "clamp"),
        }));
    };
    if stated.is_some() || peak <= withstands {
        return Some(Check::at_most(FIRST_PEAK, limit, Some(peak), "V"));
    }
    Some(Check::open(FIRST_PEAK, None, Some(peak), "V").because(format!(
        "about {} for a nanosecond is above the {} the chip withstands; what it withstands so long is not stated (`peak`)",
        engineering(peak, "V"),
        engineering(withstands, "V")
    )))
}

const FIRST_PEAK: &str = "first peak";

/// The trigger against what the chip withstands for the first nanosecond of an air discharge: all that is known of it, and
/// no check where it is within.
fn air_peak(duty: &Duty, part: &Part, limit: f64) -> Option<Check> {
    duty.demands.air?;
    let trigger = part.strength.trigger?.0;
    (trigger > limit).then(|| not_on_below(trigger, Check::at_most(FIRST_PEAK, limit, Some(trigger), "V")))
}

fn not_on_below(trigger: f64, check: Check) -> Check {
    check.because(format!("the part does not turn on below its trigger of {}", Volt(trigger)))
}

/// The voltage of a surge against what the chip withstands: it rises in microseconds, and up to the trigger a part that
/// snaps back does not turn on.
pub(super) fn surge(duty: &Duty, part: &Part) -> Option<Check> {
    const NAME: &str = "residual surge";
    let (withstands, current) = (duty.demands.withstands?, duty.demands.surge?);
    let volts = surge_voltage(part, current).map(|v| v.0);
    let check = added(NAME, withstands, volts, duty.footprint.drop(current), part.strength.surge_clamp, "surge_clamp");
    let higher = |trigger: &f64| match check.available {
        Some(volts) => *trigger > volts,
        None => *trigger > withstands.0,
    };
    let trigger = part.strength.trigger.map(|v| v.0).filter(higher);
    Some(match trigger {
        Some(trigger) => not_on_below(trigger, Check::at_most(NAME, withstands.0, Some(trigger), "V")),
        None => check,
    })
}

/// The code of the caution of an air discharge, which nothing is computed of.
const AIR_RESIDUAL: &str = "air-residual";

/// What is not checked.
pub(super) fn cautions(duty: &Duty, part: &Part) -> impl Iterator<Item = Note> {
    let alone = duty.demands.withstands.is_some() && duty.demands.contact.is_none() && duty.demands.air.is_some();
    let air = (alone && first_peak(duty, part).is_none()).then(air_residual);
    air.into_iter().chain(below_trigger(duty, part))
}

/// Adds the caution of an air discharge above the contact discharge, which is not held against what the chip survives.
pub(super) fn caution_of_air(cautions: &mut Vec<Note>, demands: &Demands) {
    let air = demands.air.filter(|air| demands.contact.is_none_or(|contact| air.0 > contact.0));
    if air.is_some() && cautions.iter().all(|caution| caution.code != AIR_RESIDUAL) {
        cautions.push(air_residual());
    }
}

fn air_residual() -> Note {
    let text = "an air discharge is not computed: what it leaves at the chip is not checked".to_owned();
    Note { code: AIR_RESIDUAL, text, span: None }
}

/// A discharge too weak to turn the part on leaves up to its trigger for longer than the chip's peak stands for.
fn below_trigger(duty: &Duty, part: &Part) -> Option<Note> {
    let demands = &duty.demands;
    let (withstands, peak, trigger) = (demands.withstands?, demands.withstands_peak?, part.strength.trigger?);
    let struck = demands.contact.is_some() || demands.air.is_some();
    (struck && trigger > withstands && trigger <= peak).then(|| Note {
        code: "below-trigger",
        text: format!(
            "a discharge too weak to turn the part on leaves up to its trigger of {trigger} at the chip, for longer than \
             the nanosecond of its peak of {peak}: it withstands {withstands}"
        ),
        span: Some(part.span),
    })
}
