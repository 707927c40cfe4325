//! An antenna feed.

use super::{Band, FeedLimit, Limit, Path};
use crate::units::{Ohm, Volt, Watt};

/// The line between an antenna and its radio.
#[derive(Debug, Clone)]
pub struct Feed {
    /// The frequencies in use.
    pub band: Band,
    /// Reference impedance; a feed is single-ended.
    pub reference: Ohm,
    /// What the radio sends.
    pub power: Option<Watt>,
    /// The path between antenna and radio.
    pub path: Path,
    /// The limits, in sheet order.
    pub limits: Vec<Limit<FeedLimit>>,
}

impl Feed {
    /// The highest peak voltage of the stated power, V = √(2PZ)(1 + |Γ|), for a reflection of this size.
    pub fn peak_voltage(&self, reflection: f64) -> Option<Volt> {
        let power = self.power?;
        Some(Volt((2.0 * power.0 * self.reference.0).sqrt() * (1.0 + reflection)))
    }
}
