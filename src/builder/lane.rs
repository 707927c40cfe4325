//! A lane put together without a sheet.

use super::complete::complete;
use super::path::PathBuilder;
use crate::model::{Flaws, Head, Kind, Lane, LaneLimit, Limit, Line, Modulation, Note, VoltageRange};
use crate::units::{Baud, Ohm, Volt};

impl Lane {
    /// A lane of no rate, reference, path and limits as yet: all four have to be given.
    ///
    /// ```
    /// use lanecap::model::{LaneLimit, Loss, Over, Protector};
    /// use lanecap::units::{Baud, Metre, Ohm};
    /// use lanecap::{Figures, Lane, Modulation, size_lane};
    ///
    /// let lane = Lane::builder()
    ///     .rate(Baud::giga(5.0), Modulation::Nrz)
    ///     .reference(Ohm(90.0))
    ///     .differential()
    ///     .limit(LaneLimit::Loss(Loss::Return, Over::Level(12.0)))
    ///     .path(|p| {
    ///         p.driver(Ohm(90.0))
    ///             .trace(Ohm(90.0), Metre::milli(12.0), 3.4)
    ///             .protector(Protector::default())
    ///             .receiver(Ohm(90.0))
    ///     })
    ///     .build()?;
    /// let budget = size_lane(&lane, Figures::Nyquist)?.sized.budget;
    /// assert!(budget.capacitance.is_some_and(|c| c.to_string().ends_with(" fF")));
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn builder() -> LaneBuilder {
        LaneBuilder {
            rate: Baud(f64::NAN),
            modulation: Modulation::Nrz,
            reference: Ohm(f64::NAN),
            differential: false,
            voltage: None,
            limits: Vec::new(),
            path: PathBuilder::default(),
        }
    }
}

/// A lane as it is put together; see [`Lane::builder`].
#[derive(Debug, Clone)]
#[must_use]
pub struct LaneBuilder {
    rate: Baud,
    modulation: Modulation,
    reference: Ohm,
    differential: bool,
    voltage: Option<VoltageRange>,
    limits: Vec<LaneLimit>,
    path: PathBuilder,
}

impl LaneBuilder {
    /// Symbol rate and line code.
    pub fn rate(self, rate: Baud, modulation: Modulation) -> LaneBuilder {
        LaneBuilder { rate, modulation, ..self }
    }

    /// Reference impedance: across the pair where differential.
    pub fn reference(self, reference: Ohm) -> LaneBuilder {
        LaneBuilder { reference, ..self }
    }

    /// Makes it a pair.
    pub fn differential(self) -> LaneBuilder {
        LaneBuilder { differential: true, ..self }
    }

    /// Range of its working voltage, at which its part has its worst capacitance.
    pub fn voltage(self, low: Volt, high: Volt) -> LaneBuilder {
        LaneBuilder { voltage: Some(VoltageRange { low, high }), ..self }
    }

    /// A further limit.
    pub fn limit(mut self, limit: LaneLimit) -> LaneBuilder {
        self.limits.push(limit);
        self
    }

    /// The path from the outer end in.
    pub fn path(self, path: impl FnOnce(PathBuilder) -> PathBuilder) -> LaneBuilder {
        LaneBuilder { path: path(PathBuilder::default()), ..self }
    }

    /// The lane, to be sized by itself.
    ///
    /// # Errors
    /// As [`Line::new`], and stated values that make no element.
    pub fn build(self) -> Result<Lane, Flaws> {
        let (head, lane) = self.made(Head::new("lane"))?;
        Line::new(head, Kind::Lane(lane.clone())).map(|_| lane)
    }

    /// The lane as a line of a design, what it does not state noted among its defaults; a voltage of the head stands.
    ///
    /// # Errors
    /// As [`build`](LaneBuilder::build).
    pub fn line(self, head: Head) -> Result<Line, Flaws> {
        let (mut head, lane) = self.made(head)?;
        head.defaults.extend(lane.edge_note().map(|note| Note { span: None, ..note }));
        Line::new(head, Kind::Lane(lane))
    }

    fn made(self, head: Head) -> Result<(Head, Lane), Flaws> {
        let path = self.path.build(self.rate.nyquist());
        let needs = path.needs().map(|limit| limit.of);
        let mut lane = Lane {
            modulation: self.modulation,
            symbol_rate: self.rate,
            reference: self.reference,
            differential: self.differential,
            limits: self.limits.into_iter().chain(needs).map(|of| Limit { of, span: None }).collect(),
            path,
        };
        let head = Head { voltage: head.voltage.or(self.voltage), ..head };
        let line = Line::new(head, Kind::Lane(lane.clone()))?;
        Ok((complete(&mut lane.path, line)?, lane))
    }
}
