//! A lane put together without a sheet.

use super::common::{builder_of, complete_lane as complete};
use super::path::PathBuilder;
use crate::model::{Lane, Modulation, Path, VoltageRange};
use crate::units::{Baud, Ohm};

impl Lane {
    /// A lane of no rate, reference, path and limits as yet: all four have to be given. The front page of the crate has
    /// an example.
    pub fn builder() -> LaneBuilder {
        let of = Lane {
            modulation: Modulation::Nrz,
            symbol_rate: Baud(f64::NAN),
            reference: Ohm(f64::NAN),
            differential: false,
            path: Path::default(),
            limits: Vec::new(),
        };
        LaneBuilder { of, voltage: None }
    }
}

/// A lane as it is put together; see [`Lane::builder`].
#[derive(Debug, Clone)]
#[must_use]
pub struct LaneBuilder {
    of: Lane,
    voltage: Option<VoltageRange>,
}

builder_of!(Lane, LaneBuilder, LaneLimit);

impl LaneBuilder {
    /// Symbol rate and line code.
    pub fn rate(self, symbol_rate: Baud, modulation: Modulation) -> LaneBuilder {
        LaneBuilder { of: Lane { symbol_rate, modulation, ..self.of }, ..self }
    }

    /// Reference impedance: across the pair where differential.
    pub fn reference(self, reference: Ohm) -> LaneBuilder {
        LaneBuilder { of: Lane { reference, ..self.of }, ..self }
    }

    /// Makes it a pair.
    pub fn differential(self) -> LaneBuilder {
        LaneBuilder { of: Lane { differential: true, ..self.of }, ..self }
    }

    /// The path from the outer end in.
    pub fn path(self, path: impl FnOnce(PathBuilder) -> PathBuilder) -> LaneBuilder {
        LaneBuilder { of: Lane { path: path(PathBuilder::default()).path, ..self.of }, ..self }
    }
}
