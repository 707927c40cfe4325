//! A feed put together without a sheet.

use super::complete::complete;
use super::path::PathBuilder;
use crate::model::{Band, Feed, FeedLimit, Flaws, Head, Kind, Limit, Line, VoltageRange};
use crate::units::{Hertz, Ohm, Volt, Watt};

impl Feed {
    /// A feed of no band, reference, path and limits as yet: all four have to be given.
    pub fn builder() -> FeedBuilder {
        FeedBuilder {
            band: Band { low: Hertz(f64::NAN), high: Hertz(f64::NAN) },
            reference: Ohm(f64::NAN),
            power: None,
            voltage: None,
            limits: Vec::new(),
            path: PathBuilder::default(),
        }
    }
}

/// A feed as it is put together; see [`Feed::builder`].
#[derive(Debug, Clone)]
#[must_use]
pub struct FeedBuilder {
    band: Band,
    reference: Ohm,
    power: Option<Watt>,
    voltage: Option<VoltageRange>,
    limits: Vec<FeedLimit>,
    path: PathBuilder,
}

impl FeedBuilder {
    /// The frequencies in use.
    pub fn band(self, low: Hertz, high: Hertz) -> FeedBuilder {
        FeedBuilder { band: Band { low, high }, ..self }
    }

    /// Reference impedance.
    pub fn reference(self, reference: Ohm) -> FeedBuilder {
        FeedBuilder { reference, ..self }
    }

    /// What the radio sends.
    pub fn power(self, power: Watt) -> FeedBuilder {
        FeedBuilder { power: Some(power), ..self }
    }

    /// Range of its working voltage, at which its part has its worst capacitance.
    pub fn voltage(self, low: Volt, high: Volt) -> FeedBuilder {
        FeedBuilder { voltage: Some(VoltageRange { low, high }), ..self }
    }

    /// A further limit.
    pub fn limit(mut self, limit: FeedLimit) -> FeedBuilder {
        self.limits.push(limit);
        self
    }

    /// The path from the antenna to the radio.
    pub fn path(self, path: impl FnOnce(PathBuilder) -> PathBuilder) -> FeedBuilder {
        FeedBuilder { path: path(PathBuilder::default()), ..self }
    }

    /// The feed, to be sized by itself.
    ///
    /// # Errors
    /// As [`Line::new`], and stated values that make no element.
    pub fn build(self) -> Result<Feed, Flaws> {
        let (head, feed) = self.made(Head::new("feed"))?;
        Line::new(head, Kind::Feed(feed.clone())).map(|_| feed)
    }

    /// The feed as a line of a design; a voltage of the head stands.
    ///
    /// # Errors
    /// As [`build`](FeedBuilder::build).
    pub fn line(self, head: Head) -> Result<Line, Flaws> {
        let (head, feed) = self.made(head)?;
        Line::new(head, Kind::Feed(feed))
    }

    fn made(self, head: Head) -> Result<(Head, Feed), Flaws> {
        let mut feed = Feed {
            band: self.band,
            reference: self.reference,
            power: self.power,
            limits: self.limits.into_iter().map(|of| Limit { of, span: None }).collect(),
            path: self.path.build(self.band.middle()),
        };
        let head = Head { voltage: head.voltage.or(self.voltage), ..head };
        let line = Line::new(head, Kind::Feed(feed.clone()))?;
        Ok((complete(&mut feed.path, line)?, feed))
    }
}
