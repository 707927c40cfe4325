//! A lane put together without a sheet.

use super::check::check_lane;
use super::flaw::Flaws;
use super::path::PathBuilder;
use super::values::Found;
use crate::model::{Assumed, Head, Kind, Lane, LaneLimit, Limit, Line, Modulation, Note, Path};
use crate::units::{Baud, Ohm};

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
    /// As [`Line::new`].
    pub fn build(self) -> Result<Lane, Flaws> {
        let lane = self.unchecked();
        let mut found = Found::default();
        check_lane(&lane, &mut found);
        if found.flaws.is_empty() { Ok(lane) } else { Err(Flaws { list: found.flaws }) }
    }

    /// The lane as a line of a design, what it does not state noted among its defaults.
    ///
    /// # Errors
    /// As [`Line::new`].
    pub fn line(self, mut head: Head) -> Result<Line, Flaws> {
        let lane = self.unchecked();
        let note = |of: Assumed| Note { code: of.code, text: of.text, span: None };
        head.defaults.extend(lane.assumed().into_iter().map(note));
        Line::new(head, Kind::Lane(lane))
    }

    fn unchecked(self) -> Lane {
        let limits = self.limits.into_iter();
        let of = limits.chain(needs(&self.path.clone().build(self.rate.nyquist())));
        Lane {
            modulation: self.modulation,
            symbol_rate: self.rate,
            reference: self.reference,
            differential: self.differential,
            limits: of.map(|of| Limit { of, span: None }).collect(),
            path: self.path.build(self.rate.nyquist()),
        }
    }
}

/// The receiver's `needs`, a limit of its own.
fn needs(path: &Path) -> Option<LaneLimit> {
    path.receiver()?.needs.map(LaneLimit::EyeOpening)
}
