//! What is known of a feed at one capacitance, and what the capacitance changes.

use crate::figures::*;
use crate::response::FeedMetrics;
use crate::units::{Henry, Hertz};

/// A feed at one capacitance, at its worst over the band.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FeedFigures {
    /// Its match over the band.
    pub band: FeedMetrics,
    /// The frequency of least reflection; `None` without a resonator, and where it is lost.
    pub resonance: Option<Hertz>,
}

impl Rows for FeedFigures {
    const ROWS: &'static [Row<Self>] = &[
        Row(&RETURN_LOSS, |f| f.band.return_loss()),
        Row(&REFLECTED, |f| Some(f.band.reflection)),
        Row(&VSWR, |f| f.band.vswr()),
        Row(&MISMATCH_LOSS, |f| f.band.mismatch_loss()),
        Row(&TRANSDUCER_LOSS, |f| f.band.transducer_loss),
        Row(&RESONANCE, |f| f.resonance.map(|f| f.0)),
    ];
}

/// What a capacitance changes of a feed against absent.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FeedChanges {
    /// Worst transducer loss minus the worst one without protector, in dB.
    pub added_loss: Option<f64>,
    /// Shift of the frequency of least reflection, down is negative.
    pub detuning: Option<Hertz>,
    /// How a coil would tune it back.
    pub retune: Option<Retune>,
}

impl Rows for FeedChanges {
    const ROWS: &'static [Row<Self>] =
        &[Row(&ADDED_LOSS, |c| c.added_loss), Row(&DETUNING, |c| c.detuning.map(|f| f.0))];
}

/// Coils that take a capacitance out at the resonance of the absent minimum, and what the shunt coil leaves: an estimate.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Retune {
    /// L = 1/(ω0² (C + C_pad)), to ground at the protector.
    pub shunt: Henry,
    /// L = (C + C_pad) Z², half to either side of the protector.
    pub series: Henry,
    /// The value of the E24 series nearest to the shunt coil, by ratio.
    pub nearest: Henry,
    /// Worst |Γ| of the band with that coil.
    pub metrics: FeedMetrics,
    /// The frequency of least reflection with that coil, minus the one without protector.
    pub detuning: Option<Hertz>,
    /// Whether every limit holds with that coil.
    pub holds: bool,
}

/// The shift of a frequency against the one without protector.
pub(super) fn shift(with: Option<Hertz>, absent: Option<Hertz>) -> Option<Hertz> {
    Some(with? - absent?)
}
