//! What the port meets against the part's rating of the same kind.

use super::{Check, Verdict};
use crate::model::Part;
use crate::parts::Duty;
use crate::units::{Ampere, Ohm, engineering};

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

/// The impedance above which a surge is that of 1.2/50 µs rather than 8/20 µs (from memory).
pub(super) const STIFF: Ohm = Ohm(2.0);
/// Charge of an 8/20 µs and of a 1.2/50 µs pulse over its peak, in second (own arithmetic over the standard's waveforms).
pub(super) const CHARGE: (f64, f64) = (17.4e-6, 72.0e-6);

/// A surge in ampere. Of its 8/20 µs rating a part bears the longer pulse of a higher impedance with
/// √(17.4 µs/72 µs) = 0.49, the thermal limit of a pulse by its length (from memory, an estimate).
pub(super) fn surge(duty: &Duty, part: &Part) -> Option<Check> {
    let required = duty.demands.surge?.0;
    let rating = part.strength.surge.map(|a| a.0);
    let Some((rating, through)) = rating.zip(duty.demands.surge_through.filter(|z| *z > STIFF)) else {
        return Some(Check::at_least("rating surge", required, rating, "A"));
    };
    let share = (CHARGE.0 / CHARGE.1).sqrt();
    let check = Check::at_least("rating surge", required, Some(rating * share), "A");
    Some(check.because(format!(
        "through {through} a surge is nearer 1.2/50 than 8/20 us: by pulse width {} of the rated {} counts (an estimate)",
        engineering(rating * share, "A"),
        Ampere(rating)
    )))
}

/// The same against ground: a part across the pair alone gives a strike or surge no way there.
pub(super) fn against_ground(duty: &Duty, part: &Part, check: Check) -> Check {
    if !duty.is_across_alone(part) {
        return check;
    }
    let surge = check.check.ends_with("surge");
    let rest = if surge { "; a surge between the two lines is not judged" } else { "" };
    Check { available: None, margin: None, verdict: Verdict::Fails, ..check }
        .because(format!("the part hangs across the pair alone and gives what comes against ground no way out{rest}"))
}
