//! Coils that tune a feed back.

use std::f64::consts::TAU;

use super::circuit::{Asked, FeedCircuit};
use super::figures::{Retune, shift};
use crate::budget::over_mask::OverMask;
use crate::budget::{Fault, Inequality, Modulus};
use crate::model::{Bounds, FeedLimit, Over};
use crate::network::Mobius;
use crate::response::{Case, FeedBand};
use crate::units::{Farad, Henry};

/// The coils for a capacitance that reflects `reflected`; `None` without a resonance, without anything to take out, and
/// where the shunt coil leaves no less of the reflection.
pub(super) fn retune(circuit: &FeedCircuit<'_>, capacitance: Farad, reflected: f64) -> Result<Option<Retune>, Fault> {
    let FeedCircuit { feed, chain, resonance, .. } = circuit;
    let total = capacitance.0 + chain.chain().branch().pad.0;
    let Some(absent) = resonance.absent().filter(|_| total > 0.0) else {
        return Ok(None);
    };
    let omega = TAU * absent.0;
    let shunt = 1.0 / (omega * omega * total);
    let nearest = Henry(nearest_e24(shunt));
    let tuned = chain.with_coil(nearest);
    let case = Case::With(capacitance.0);
    let metrics = FeedBand::new(&tuned, feed.band)?.metrics(case);
    if metrics.reflection >= reflected {
        return Ok(None);
    }
    let detuning = shift(resonance.beside(&tuned, capacitance.0), Some(absent));
    let mut holds = true;
    for limit in &feed.limits {
        holds &= match (&limit.of, circuit.asked(&limit.of)) {
            (_, Asked::Shift(most)) => detuning.is_some_and(|shift| shift.0.abs() <= most.0),
            (FeedLimit::ReturnLoss(Over::Mask(mask)), Asked::Reflection(modulus, _)) => {
                OverMask::solve(&tuned, modulus, mask)?.allowed().contains(capacitance.0)
            }
            (flat, Asked::Reflection(modulus, _)) => keeps(modulus, flat.bound().unwrap_or(0.0), metrics.reflection),
        };
    }
    Ok(Some(Retune {
        shunt: Henry(shunt),
        series: Henry(total * feed.reference.0 * feed.reference.0),
        nearest,
        metrics,
        detuning,
        holds,
    }))
}

/// Whether a reflection of this size keeps a limit.
fn keeps(modulus: Modulus, level: f64, reflection: f64) -> bool {
    let reflection = reflection.into();
    Inequality::of(modulus, level, Mobius::constant(reflection), reflection).holds_absent()
}

/// The nearest value of the E24 series by ratio (IEC 60063).
fn nearest_e24(value: f64) -> f64 {
    const E24: [f64; 25] = [
        1.0, 1.1, 1.2, 1.3, 1.5, 1.6, 1.8, 2.0, 2.2, 2.4, 2.7, 3.0, 3.3, 3.6, 3.9, 4.3, 4.7, 5.1, 5.6, 6.2, 6.8, 7.5,
        8.2, 9.1, 10.0,
    ];
    let decade = value.log10().floor() as i32;
    let away = |mantissa: f64| (value / 10f64.powi(decade) / mantissa).ln().abs();
    let nearest = E24.into_iter().min_by(|a, b| away(*a).total_cmp(&away(*b))).unwrap_or(1.0);
    // Rounded once, so that 2.7 nH is the double nearest to 2.7e-9.
    format!("{nearest}e{decade}").parse().unwrap_or(value)
}
