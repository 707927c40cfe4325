//! An antenna feed.

use super::{Band, FeedLimit, Limit, Path};
use crate::units::{Ampere, Ohm, Volt, Watt};

/// The line between an antenna and its radio.
#[derive(Debug, Clone)]
pub struct Feed {
    /// The frequencies in use.
    pub band: Band,
    /// Reference impedance; a feed is single-ended.
    pub reference: Ohm,
    /// What the radio sends.
    pub power: Option<Watt>,
    /// The direct current the radio's bias can supply, where stated.
    pub current: Option<Ampere>,
    /// The path between antenna and radio.
    pub path: Path,
    /// The limits, in sheet order.
    pub limits: Vec<Limit<FeedLimit>>,
}

impl Feed {
    /// The peak voltage of the stated power where it is this share of the radio's open voltage √(8PZ), the power being
    /// what a radio of the reference impedance has available.
    pub fn peak_voltage(&self, share: f64) -> Option<Volt> {
        Some(Volt((8.0 * self.power?.0 * self.reference.0).sqrt() * share))
    }
}
