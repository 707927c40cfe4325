//! The antenna of a feed.

use std::f64::consts::PI;
use std::sync::Arc;

use super::Band;
use crate::diag::Span;
use crate::units::{Hertz, Ohm};

/// The outer end of a feed.
#[derive(Debug, Clone, PartialEq)]
pub enum Antenna {
    /// Z = R(1 + jQ(f/f0 − f0/f)).
    Series(Resonator),
    /// Y = (1/R)(1 + jQ(f/f0 − f0/f)).
    Parallel(Resonator),
    /// A plain resistance.
    Resistance(Ohm),
    /// A measured reflection.
    Table(Arc<ReflectionTable>),
}

impl Antenna {
    /// The resonator, where it is one.
    pub fn resonator(&self) -> Option<&Resonator> {
        match self {
            Antenna::Series(resonator) | Antenna::Parallel(resonator) => Some(resonator),
            Antenna::Resistance(_) | Antenna::Table(_) => None,
        }
    }
}

/// A resonance with losses.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Resonator {
    /// Resonant frequency f0.
    pub frequency: Hertz,
    /// Resistance R at resonance.
    pub resistance: Ohm,
    /// Quality factor Q.
    pub quality: f64,
}

impl Resonator {
    /// Detuning in half widths of the resonance, Q(f/f0 − f0/f): 0 at f0, ±1 where the power has halved.
    pub fn normalised_detuning(&self, frequency: Hertz) -> f64 {
        let ratio = frequency.0 / self.frequency.0;
        self.quality * (ratio - 1.0 / ratio)
    }

    /// Capacitance of the resonance taken as parallel: C = Q/(2π f0 R), in farad.
    pub fn parallel_capacitance(&self) -> f64 {
        self.quality / (2.0 * PI * self.frequency.0 * self.resistance.0)
    }
}

/// Measured reflection of an antenna over frequency.
#[derive(Debug, Clone, PartialEq)]
pub struct ReflectionTable {
    /// Its name.
    pub name: String,
    /// Where the name stands.
    pub span: Span,
    /// The impedance it is measured in.
    pub reference: Ohm,
    /// At least two points, rising in frequency.
    pub points: Vec<ReflectionPoint>,
}

/// One measured reflection.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ReflectionPoint {
    /// Where it is measured.
    pub frequency: Hertz,
    /// 20 log10 of its magnitude.
    pub decibels: f64,
    /// Its angle in degrees, less than half a turn from the point before.
    pub degrees: f64,
}

impl ReflectionTable {
    /// A table of points (frequency, magnitude, angle in degrees), their angles unwrapped: each is taken as the one within
    /// half a turn of the point before.
    pub fn new(name: String, span: Span, reference: Ohm, stated: impl IntoIterator<Item = (Hertz, f64, f64)>) -> Self {
        let mut points: Vec<ReflectionPoint> = Vec::new();
        for (frequency, magnitude, degrees) in stated {
            let before = points.last().map_or(degrees, |p| p.degrees);
            points.push(ReflectionPoint {
                frequency,
                decibels: 20.0 * magnitude.log10(),
                degrees: degrees - 360.0 * turns(degrees - before),
            });
        }
        ReflectionTable { name, span, reference, points }
    }

    /// The frequencies it reaches over; `None` without points.
    pub fn reach(&self) -> Option<Band> {
        let (first, last) = (self.points.first()?, self.points.last()?);
        Some(Band { low: first.frequency, high: last.frequency })
    }

    /// Magnitude and angle in radian at a frequency, straight in dB and in angle between points; `None` outside the span.
    pub fn at(&self, frequency: Hertz) -> Option<(f64, f64)> {
        let above = self.points.partition_point(|p| p.frequency < frequency);
        let high = self.points.get(above)?;
        let (decibels, degrees) = if high.frequency == frequency {
            (high.decibels, high.degrees)
        } else {
            let low = self.points.get(above.checked_sub(1)?)?;
            let share = (frequency.0 - low.frequency.0) / (high.frequency.0 - low.frequency.0);
            (low.decibels + share * (high.decibels - low.decibels), low.degrees + share * (high.degrees - low.degrees))
        };
        Some((10f64.powf(decibels / 20.0), degrees.to_radians()))
    }
}

/// Whole turns to take off a step of so many degrees; exactly half a turn stays.
fn turns(step: f64) -> f64 {
    ((step / 360.0).abs() - 0.5).ceil().max(0.0).copysign(step)
}
