//! A bus put together without a sheet.

use std::sync::Arc;

use super::common::{builder_of, complete_bus as complete};
use super::path::PathBuilder;
use crate::model::{Bus, Charging, Part, VoltageRange};
use crate::units::Farad;

impl Bus {
    /// A bus of one protector, without wiring and inputs, and with no limits as yet.
    pub fn builder() -> BusBuilder {
        BusBuilder { of: Bus { nodes: 1, ..Bus::default() }, voltage: None }
    }
}

/// A bus as it is put together; see [`Bus::builder`].
#[derive(Debug, Clone)]
#[must_use]
pub struct BusBuilder {
    of: Bus,
    voltage: Option<VoltageRange>,
}

builder_of!(Bus, BusBuilder, BusLimit);

impl BusBuilder {
    /// Bit rate in bit/s; it enters no figure.
    pub fn rate(self, rate: f64) -> BusBuilder {
        BusBuilder { of: Bus { rate: Some(rate), ..self.of }, ..self }
    }

    /// The resistance it charges through.
    pub fn charging(self, charging: Charging) -> BusBuilder {
        BusBuilder { of: Bus { charging: Some(charging), ..self.of }, ..self }
    }

    /// Capacitance of the wiring, and of all inputs.
    pub fn load(self, wiring: Farad, inputs: Farad) -> BusBuilder {
        BusBuilder { of: Bus { wiring, inputs, ..self.of }, ..self }
    }

    /// Protectors that share the budget.
    pub fn nodes(self, nodes: u32) -> BusBuilder {
        BusBuilder { of: Bus { nodes, ..self.of }, ..self }
    }

    /// The capacitance to judge, of one protector to ground, in place of a part.
    pub fn fitted(self, fitted: Farad) -> BusBuilder {
        BusBuilder { of: Bus { fitted: Some(fitted), part: None, ..self.of }, ..self }
    }

    /// The way of a discharge, from the connector to the pin; the part of the bus is in its protector's place, or the other
    /// way round.
    pub fn path(self, path: impl FnOnce(PathBuilder) -> PathBuilder) -> BusBuilder {
        BusBuilder { of: Bus { path: Some(path(PathBuilder::default()).path), ..self.of }, ..self }
    }

    /// The part to judge, at its worst capacitance.
    pub fn part(self, part: Arc<Part>) -> BusBuilder {
        BusBuilder { of: Bus { part: Some(part), ..self.of }, ..self }
    }
}
