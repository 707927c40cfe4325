//! A feed put together without a sheet.

use super::common::{builder_of, complete_feed as complete};
use super::path::PathBuilder;
use crate::model::{Band, Feed, Path, VoltageRange};
use crate::units::{Hertz, Ohm, Watt};

impl Feed {
    /// A feed of no band, reference, path and limits as yet: all four have to be given.
    pub fn builder() -> FeedBuilder {
        let band = Band { low: Hertz(f64::NAN), high: Hertz(f64::NAN) };
        let (path, limits) = (Path::default(), Vec::new());
        FeedBuilder { of: Feed { band, reference: Ohm(f64::NAN), power: None, path, limits }, voltage: None }
    }
}

/// A feed as it is put together; see [`Feed::builder`].
#[derive(Debug, Clone)]
#[must_use]
pub struct FeedBuilder {
    of: Feed,
    voltage: Option<VoltageRange>,
}

builder_of!(Feed, FeedBuilder, FeedLimit);

impl FeedBuilder {
    /// The frequencies in use.
    pub fn band(self, low: Hertz, high: Hertz) -> FeedBuilder {
        FeedBuilder { of: Feed { band: Band { low, high }, ..self.of }, ..self }
    }

    /// Reference impedance.
    pub fn reference(self, reference: Ohm) -> FeedBuilder {
        FeedBuilder { of: Feed { reference, ..self.of }, ..self }
    }

    /// What the radio sends.
    pub fn power(self, power: Watt) -> FeedBuilder {
        FeedBuilder { of: Feed { power: Some(power), ..self.of }, ..self }
    }

    /// The path from the antenna to the radio.
    pub fn path(self, path: impl FnOnce(PathBuilder) -> PathBuilder) -> FeedBuilder {
        FeedBuilder { of: Feed { path: path(PathBuilder::default()).path, ..self.of }, ..self }
    }
}
