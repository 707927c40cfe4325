//! What a line asks of the part that protects it.

use crate::model::{Demands, VoltageRange};
use crate::units::{Henry, Ohm, Second, Volt};

/// What a line asks of its part. What is `None`, zero or empty is not asked for, and makes no check.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Demand {
    /// Range of the line's working voltage.
    pub line_voltage: Option<VoltageRange>,
    /// Peak voltage of the power an antenna feed carries, on top of the line voltage to either side.
    pub feed_peak: Option<Volt>,
    /// Whether the line can supply current (a rail, a pull-up) and so keep a part that snaps back latched.
    pub can_supply: bool,
    /// What it meets, and what the part must have.
    pub asks: Demands,
    /// What lies between the line and the part.
    pub footprint: Footprint,
}

impl Demand {
    /// Lowest and highest voltage of the line in volt, the feed's peak included; `None` where neither is known.
    pub fn extent(&self) -> Option<(f64, f64)> {
        let peak = self.feed_peak.map_or(0.0, |v| v.0);
        match self.line_voltage {
            Some(range) => Some((range.low.0 - peak, range.high.0 + peak)),
            None => self.feed_peak.map(|_| (-peak, peak)),
        }
    }
}

/// What lies between the line and the part.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Footprint {
    /// Inductance of the ground via.
    pub ground_inductance: Henry,
    /// Delay of the stub from the trace to the part.
    pub stub_delay: Second,
    /// Z_ref, the stub's impedance: half the stated reference for a pair.
    pub reference: Ohm,
}

impl Footprint {
    /// Inductance in series with a part in henry: ground via + Z_ref · stub delay.
    pub fn inductance(&self) -> f64 {
        self.ground_inductance.0 + self.reference.0 * self.stub_delay.0
    }
}
