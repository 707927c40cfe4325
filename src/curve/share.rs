//! The share of settings of a line that allow a capacitance.

use crate::model::Distribution;

/// The ends of what is allowed, in farad.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Ends {
    /// The least; `None` where 0 is allowed, or nothing is.
    pub low_f: Option<f64>,
    /// The largest; `None` where it is open, or nothing is allowed.
    pub high_f: Option<f64>,
}

/// The share of settings that allow a capacitance.
#[derive(Debug, Clone, PartialEq)]
pub struct ShareCurve {
    /// The share against farad.
    pub points: Vec<(f64, f64)>,
    /// What the line allows as stated.
    pub stated: Ends,
    /// What it allows at worst; `None` where that is nothing.
    pub worst: Option<Ends>,
    /// The capacitances that 99.7 % of the settings allow each.
    pub most: Ends,
    /// How many settings were drawn, and with which seed.
    pub drawn: [u32; 2],
    /// How their values lie between their bounds.
    pub distribution: Distribution,
}
