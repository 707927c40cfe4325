//! Slow buses and power rails.

use std::sync::Arc;

use super::{BusLimit, Limit, Part, Path};
use crate::units::{Ampere, Farad, Ohm};

/// A slow line that charges its capacitance through a resistance.
#[derive(Debug, Clone, Default)]
pub struct Bus {
    /// Bit rate in bit/s, where stated; it enters no figure.
    pub rate: Option<f64>,
    /// The resistance the line charges through, where stated.
    pub charging: Option<Charging>,
    /// Capacitance of the wiring.
    pub wiring: Farad,
    /// Capacitance of all inputs.
    pub inputs: Farad,
    /// Protectors that share the budget.
    pub nodes: u32,
    /// The capacitance to judge, of one protector to ground; `None` where nothing is fitted.
    pub fitted: Option<Farad>,
    /// The part named, where one is.
    pub part: Option<Arc<Part>>,
    /// The limits, in sheet order; none where nothing is limited.
    pub limits: Vec<Limit<BusLimit>>,
    /// The path of a discharge to its pin, where one is stated; its capacitances do not enter the budget.
    pub path: Option<Path>,
}

impl Bus {
    /// The resistance it charges through.
    pub fn resistance(&self) -> Option<Ohm> {
        self.charging.map(|charging| match charging {
            Charging::PullUp(r) | Charging::Source(r) => r,
        })
    }

    /// Wiring and inputs.
    pub fn other_capacitance(&self) -> Farad {
        self.wiring + self.inputs
    }
}

/// Through what a bus charges.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Charging {
    /// A resistor to the supply.
    PullUp(Ohm),
    /// The resistance of what drives the line.
    Source(Ohm),
}

/// A power line: no limit on its capacitance, only checks of its part.
#[derive(Debug, Clone, Default)]
pub struct Rail {
    /// The current it can supply, where stated.
    pub current: Option<Ampere>,
    /// The part named, where one is.
    pub part: Option<Arc<Part>>,
    /// The path of a discharge to its pin, where one is stated.
    pub path: Option<Path>,
}
