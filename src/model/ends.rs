//! The ends of a path.

use super::Chip;
use crate::units::{Farad, Hertz, Ohm, Second, Volt};

/// Edge of a driver that states none, in unit intervals: common practice, no source.
pub const DEFAULT_RISE_UI: f64 = 0.3;

/// The sending end.
#[derive(Debug, Clone, PartialEq)]
pub struct Driver {
    /// Source impedance, across the pair where differential.
    pub impedance: Ohm,
    /// Pad capacitance, per line.
    pub pad: Farad,
    /// 10–90 % rise time of the edge, where stated.
    pub rise: Option<Second>,
    /// Peak-to-peak swing into the matched load, where stated.
    pub swing: Option<Volt>,
    /// Transmit equaliser: pre, main and post tap.
    pub taps: Option<[f64; 3]>,
    /// What is stated of the chip.
    pub chip: Chip,
}

impl From<Ohm> for Driver {
    /// A driver of this impedance, across the pair where differential, and nothing else.
    fn from(impedance: Ohm) -> Driver {
        Driver { impedance, pad: Farad::ZERO, rise: None, swing: None, taps: None, chip: Chip::default() }
    }
}

/// Sum of absolute taps that counts as 1.
const TAP_SUM: f64 = 1e-6;

/// What transmit taps must be.
pub const TAP_CURE: &str = "a transmitter of limited swing: |pre| + |main| + |post| = 1";

/// What is wrong with transmit taps whose absolute values do not sum to 1.
pub fn tap_fault(taps: [f64; 3]) -> Option<String> {
    let sum: f64 = taps[0].abs() + taps[1].abs() + taps[2].abs();
    let is_whole = (sum - 1.0).abs() <= TAP_SUM;
    (!is_whole).then(|| format!("the absolute values of these taps sum to {sum:.6}, not 1"))
}

/// The receiving end.
#[derive(Debug, Clone, PartialEq)]
pub struct Receiver {
    /// Load impedance, across the pair where differential; `None` for an open end.
    pub impedance: Option<Ohm>,
    /// Pad capacitance, per line.
    pub pad: Farad,
    /// Receive equaliser, where there is one.
    pub ctle: Option<Ctle>,
    /// Taps of the decision feedback.
    pub dfe: usize,
    /// The largest of them, of the main cursor; `None` for unlimited ones.
    pub dfe_limit: Option<f64>,
    /// Least eye opening.
    pub needs: Option<Volt>,
    /// What is stated of the chip.
    pub chip: Chip,
}

impl From<Ohm> for Receiver {
    /// A receiver of this impedance, across the pair where differential, and nothing else.
    fn from(impedance: Ohm) -> Receiver {
        Receiver {
            impedance: Some(impedance),
            pad: Farad::ZERO,
            ctle: None,
            dfe: 0,
            dfe_limit: None,
            needs: None,
            chip: Chip::default(),
        }
    }
}

/// The inner end of a feed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Radio {
    /// Its impedance: for the reader alone, since the match is taken in the feed's reference.
    pub impedance: Ohm,
    /// Pad capacitance.
    pub pad: Farad,
    /// What is stated of the chip.
    pub chip: Chip,
}

impl From<Ohm> for Radio {
    /// A radio of this impedance without a pad.
    fn from(impedance: Ohm) -> Radio {
        Radio { impedance, pad: Farad::ZERO, chip: Chip::default() }
    }
}

/// The inner end of the path of a bus or a rail: the protected pin. The default has no pad and states no chip.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Pin {
    /// Pad capacitance.
    pub pad: Farad,
    /// What is stated of the chip.
    pub chip: Chip,
}

/// A continuous-time linear equaliser: (10^{g/20} + jf/f_z)/((1 + jf/f_p1)(1 + jf/f_p2)) with g = −peaking
/// (IEEE 802.3 Annex 93A).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ctle {
    /// Peaking in dB, positive.
    pub peaking: f64,
    /// Zero, where stated.
    pub zero: Option<Hertz>,
    /// First and second pole, where stated.
    pub poles: [Option<Hertz>; 2],
}
