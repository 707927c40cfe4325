//! A bus put together without a sheet.

use std::sync::Arc;

use super::complete::fit;
use crate::model::{Bus, BusLimit, Charging, Flaws, Head, Kind, Limit, Line, NO_CAPACITANCE, Note, Part, VoltageRange};
use crate::units::{Farad, Volt};

impl Bus {
    /// A bus of one protector, without wiring, inputs and limits as yet.
    pub fn builder() -> BusBuilder {
        BusBuilder {
            bus: Bus {
                rate: None,
                charging: None,
                wiring: Farad::ZERO,
                inputs: Farad::ZERO,
                nodes: 1,
                fitted: None,
                part: None,
                limits: Vec::new(),
            },
            voltage: None,
            loaded: false,
        }
    }
}

/// A bus as it is put together; see [`Bus::builder`].
#[derive(Debug, Clone)]
#[must_use]
pub struct BusBuilder {
    bus: Bus,
    voltage: Option<VoltageRange>,
    /// Whether wiring or inputs are stated.
    loaded: bool,
}

impl BusBuilder {
    /// Bit rate in bit/s; it enters no figure.
    pub fn rate(self, rate: f64) -> BusBuilder {
        BusBuilder { bus: Bus { rate: Some(rate), ..self.bus }, ..self }
    }

    /// The resistance it charges through.
    pub fn charging(self, charging: Charging) -> BusBuilder {
        BusBuilder { bus: Bus { charging: Some(charging), ..self.bus }, ..self }
    }

    /// Capacitance of the wiring.
    pub fn wiring(self, wiring: Farad) -> BusBuilder {
        BusBuilder { bus: Bus { wiring, ..self.bus }, loaded: true, ..self }
    }

    /// Capacitance of all inputs.
    pub fn inputs(self, inputs: Farad) -> BusBuilder {
        BusBuilder { bus: Bus { inputs, ..self.bus }, loaded: true, ..self }
    }

    /// Protectors that share the budget.
    pub fn nodes(self, nodes: u32) -> BusBuilder {
        BusBuilder { bus: Bus { nodes, ..self.bus }, ..self }
    }

    /// The capacitance to judge, of one protector to ground, in place of a part.
    pub fn fitted(self, fitted: Farad) -> BusBuilder {
        BusBuilder { bus: Bus { fitted: Some(fitted), part: None, ..self.bus }, ..self }
    }

    /// The part to judge, at its worst capacitance.
    pub fn part(self, part: Arc<Part>) -> BusBuilder {
        BusBuilder { bus: Bus { fitted: None, part: Some(part), ..self.bus }, ..self }
    }

    /// Range of its working voltage, at which its part has its worst capacitance.
    pub fn voltage(self, low: Volt, high: Volt) -> BusBuilder {
        BusBuilder { voltage: Some(VoltageRange { low, high }), ..self }
    }

    /// A further limit.
    pub fn limit(mut self, of: BusLimit) -> BusBuilder {
        self.bus.limits.push(Limit { of, span: None });
        self
    }

    /// The bus, to be sized by itself.
    ///
    /// # Errors
    /// As [`Line::new`], and a part that does not suit its voltage.
    pub fn build(self) -> Result<Bus, Flaws> {
        let (head, bus) = self.made(Head::new("bus"))?;
        Line::new(head, Kind::Bus(bus.clone())).map(|_| bus)
    }

    /// The bus as a line of a design, what it does not state noted among its defaults; a voltage of the head stands.
    ///
    /// # Errors
    /// As [`build`](BusBuilder::build).
    pub fn line(self, head: Head) -> Result<Line, Flaws> {
        let (head, bus) = self.made(head)?;
        Line::new(head, Kind::Bus(bus))
    }

    fn made(mut self, head: Head) -> Result<(Head, Bus), Flaws> {
        let head = Head { voltage: head.voltage.or(self.voltage), ..head };
        let mut head = Line::new(head, Kind::Bus(self.bus.clone()))?.head;
        if !self.loaded {
            let (code, text) = NO_CAPACITANCE;
            head.defaults.push(Note { code, text: text.to_owned(), span: None });
        }
        Ok((fit(&mut self.bus, head)?, self.bus))
    }
}
