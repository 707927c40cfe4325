//! What is known of a lane at one capacitance, and what the capacitance changes.

use super::circuit::LaneCircuit;
use crate::budget::Fault;
use crate::figures::*;
use crate::response::{CLOSED, Case, LossChanges, LossMetrics, Pair, TimeMetrics};
use crate::units::{Farad, Second};

/// A lane at one capacitance: its losses at the Nyquist frequency and its time domain.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LaneFigures {
    /// Its losses.
    pub loss: LossMetrics,
    /// Its time domain.
    pub time: TimeMetrics,
}

impl LaneFigures {
    /// What is known of the lane in this case; a figure that does not settle is kept in `circuit`.
    pub(super) fn of(circuit: &mut LaneCircuit<'_>, case: Case) -> Result<Self, Fault> {
        let loss = LossMetrics::of(&circuit.scattering(case)?);
        let time = if circuit.timed {
            let (time, fault) = circuit.time().metrics(case);
            circuit.not_settled = circuit.not_settled.or(fault);
            time
        } else {
            TimeMetrics::default()
        };
        Ok(LaneFigures { loss, time })
    }
}

impl Rows for LaneFigures {
    const ROWS: &'static [Row<Self>] = &[
        Row(&INSERTION_LOSS, |f| f.loss.insertion_loss),
        Row(&RETURN_LOSS, |f| f.loss.return_loss),
        Row(&REFLECTED, |f| Some(f.loss.reflection)),
        Row(&RETURN_LOSS_INNER, |f| f.loss.return_loss_inner),
        Row(&NYQUIST_AMPLITUDE, |f| Some(f.loss.nyquist_amplitude)),
        Row(&EYE_HEIGHT, |f| f.time.eye_height),
        Row(&EYE_WIDTH, |f| f.time.eye_width),
        Row(&RISE, |f| f.time.rise),
        Row(&IMPEDANCE_DIP, |f| f.time.impedance_dip),
        Row(&IMPEDANCE_EXCURSION, |f| f.time.impedance_excursion),
    ];
}

/// What a capacitance changes of a lane against absent.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LaneChanges {
    /// Its losses at the Nyquist frequency.
    pub loss: LossChanges,
    /// Its time domain.
    pub time: TimeChanges,
    /// How unlike the two lines of its pair are, where the part states a mismatch.
    pub unlike: Option<Unlike>,
    /// Droop of the path's series capacitances over a run of five symbols.
    pub droop: Option<f64>,
}

impl LaneChanges {
    /// What the capacitance `c` changes, `with` the figures at it.
    pub(super) fn of(
        circuit: &LaneCircuit<'_>,
        absent: &LaneFigures,
        c: Farad,
        with: &LaneFigures,
    ) -> Result<Self, Fault> {
        let scattering = circuit.scattering(Case::With(c.0))?;
        let nyquist = &circuit.nyquist;
        let unlike = circuit.mismatch().map(|mismatch| {
            let [through, reflected] = [&nyquist.s21, &nyquist.s11].map(|s| Pair::new(s, c.0, mismatch.at(c.0)));
            Unlike {
                conversion: through.conversion_db(),
                reflected: reflected.conversion_db(),
                skew: Second(through.skew_s(nyquist.frequency.0)),
            }
        });
        Ok(LaneChanges {
            loss: LossChanges::between(&nyquist.absent, &scattering),
            time: TimeChanges::between(&absent.time, &with.time),
            unlike,
            droop: circuit.droop,
        })
    }
}

impl Rows for LaneChanges {
    const ROWS: &'static [Row<Self>] = &[
        Row(&ADDED_LOSS, |c| c.loss.added_loss),
        Row(&EYE_PENALTY, |c| Some(c.loss.eye_penalty)),
        Row(&WORST_EYE_PENALTY, |c| c.time.worst_eye_penalty),
        Row(&ADDED_RISE, |c| c.time.added_rise.map(|t| t.0)),
        Row(&MODE_CONVERSION, |c| c.unlike?.conversion),
        Row(&MODE_CONVERSION_REFLECTED, |c| c.unlike?.reflected),
        Row(&SKEW, |c| Some(c.unlike?.skew.0)),
        Row(&DROOP, |c| c.droop),
    ];
}

/// What a capacitance changes against absent, in the time domain.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct TimeChanges {
    /// 1 − EH/EH(absent); `None` where the eye is closed before the protector.
    pub worst_eye_penalty: Option<f64>,
    /// Added 10–90 % rise time.
    pub added_rise: Option<Second>,
}

impl TimeChanges {
    /// What changes from one to the other.
    pub fn between(absent: &TimeMetrics, with: &TimeMetrics) -> Self {
        TimeChanges {
            worst_eye_penalty: worst_eye_penalty(absent.eye_height, with.eye_height),
            added_rise: with.rise.zip(absent.rise).map(|(with, absent)| Second(with - absent)),
        }
    }
}

/// 1 − EH/EH(absent); `None` where the eye is closed before the protector.
pub(crate) fn worst_eye_penalty(absent: Option<f64>, with: Option<f64>) -> Option<f64> {
    let absent = absent.filter(|height| *height >= CLOSED)?;
    Some(1.0 - with? / absent)
}

/// A pair whose lines have different capacitances, at the Nyquist frequency.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Unlike {
    /// 20 log10 |S_cd21|; `None` for a perfectly symmetric pair.
    pub conversion: Option<f64>,
    /// 20 log10 |S_cd11| at the port plane; `None` for such a pair, and where the plane lies inward of the protector.
    pub reflected: Option<f64>,
    /// Difference of the phase delays.
    pub skew: Second,
}
