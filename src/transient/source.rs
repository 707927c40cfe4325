//! What strikes a line: the current of a contact discharge, and the waves of a surge.

use std::convert::Infallible;
use std::sync::OnceLock;

use crate::response::{TO_ROUND_OFF, maximum};
use crate::units::{Ampere, Ohm, Second, Volt};

/// How long a contact discharge is followed.
pub const WINDOW: Second = Second(200e-9);
/// The discharge resistor of the generator, beside the current source.
pub const DISCHARGE_RESISTOR: Ohm = Ohm(330.0);

/// A term of this current; the sum of two is the contact discharge: I/k · x/(1 + x) · e^(−t/fall), x = (t/rise)^n.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SourceTerm {
    /// About its highest current.
    pub current: Ampere,
    /// Its rise.
    pub rise: Second,
    /// Its fall.
    pub fall: Second,
}

/// The contact discharge of a level.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ContactDischarge {
    /// The voltage of the generator, positive.
    pub level: Volt,
}

impl ContactDischarge {
    /// The two terms at [`ContactDischarge::LEVEL`]: IEC 61000-4-2:2008, Annex B, from memory, as quoted in a secondary source.
    pub const TERMS: [SourceTerm; 2] = [
        SourceTerm { current: Ampere(16.6), rise: Second(1.1e-9), fall: Second(2e-9) },
        SourceTerm { current: Ampere(9.3), rise: Second(12e-9), fall: Second(37e-9) },
    ];
    /// The exponent n of both.
    pub const EXPONENT: f64 = 1.8;
    /// The level that they are of.
    pub const LEVEL: Volt = Volt(4e3);

    /// Its current from the start of the discharge on; nothing before.
    ///
    /// IEC 61000-4-2:2008, Annex B (from memory; as quoted in V. Javor, *Facta Universitatis, Electronics and Energetics*
    /// 27(4), 2014, 509–520, a secondary source).
    pub fn current(self, t: Second) -> Ampere {
        let term = |term: &SourceTerm| {
            rising(t.0, term.current.0 / term.highest(), term.rise.0, ContactDischarge::EXPONENT, term.fall.0)
        };
        let sum: f64 = ContactDischarge::TERMS.iter().map(term).sum();
        Ampere(self.level.0 / ContactDischarge::LEVEL.0 * sum)
    }
}

impl SourceTerm {
    /// Its k: with it the term is near its current at its highest.
    pub fn highest(&self) -> f64 {
        let (rise, fall) = (self.rise.0, self.fall.0);
        let exponent = ContactDischarge::EXPONENT;
        (-(rise / fall) * (exponent * fall / rise).powf(1.0 / exponent)).exp()
    }
}

fn rising(t: f64, amplitude: f64, rise: f64, exponent: f64, fall: f64) -> f64 {
    if t <= 0.0 {
        return 0.0;
    }
    let x = (t / rise).powf(exponent);
    amplitude * x / (1.0 + x) * (-t / fall).exp()
}

/// Distance of the points of [`Tabled`].
const POINT: f64 = 20e-12;
/// Points from the start where no cubic follows t^1.8.
const FIRST: usize = 6;

/// The current of one volt of level, tabled: it is asked for a million times. Between two points the coefficients of the
/// cubic through the four around it.
#[derive(Debug)]
pub(super) struct Tabled(Vec<[f64; 4]>);

impl Tabled {
    pub(super) fn per_volt() -> &'static Tabled {
        static TABLE: OnceLock<Tabled> = OnceLock::new();
        TABLE.get_or_init(|| {
            let one = ContactDischarge { level: Volt(1.0) };
            // The first is that of −20 ps.
            let points: Vec<f64> = (0..=(WINDOW.0 / POINT).ceil() as u32 + 5)
                .map(|k| one.current(Second((f64::from(k) - 1.0) * POINT)).0)
                .collect();
            let cubic = |[a, b, c, d]: [f64; 4]| {
                [b, c - b / 2.0 - a / 3.0 - d / 6.0, (a + c) / 2.0 - b, (d - a) / 6.0 + (b - c) / 2.0]
            };
            let fours = points.windows(4).filter_map(|four| <[f64; 4]>::try_from(four).ok());
            Tabled(fours.map(cubic).collect())
        })
    }

    /// At the start by the formula.
    pub(super) fn at(&self, t: f64) -> f64 {
        let place = t / POINT;
        let point = place as usize;
        match self.0.get(point) {
            Some([a, b, c, d]) if point >= FIRST => {
                let s = place - point as f64;
                a + s * (b + s * (c + s * d))
            }
            _ => ContactDischarge { level: Volt(1.0) }.current(Second(t)).0,
        }
    }
}

/// A wave of a surge generator, relative to its peak: x/(1 + x) · e^(−t/fall)/k, x = (t/rise)^n.
///
/// IEC 61000-4-5:2014, from memory; constants fitted to its front and duration, checked by that standard's own rule in the
/// tests.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum SurgeWave {
    /// 8/20 µs, of a current into a short circuit.
    Current,
    /// 1.2/50 µs, of a voltage into an open circuit.
    Voltage,
}

impl SurgeWave {
    /// Rise and fall in second with the exponent between them, and k, the highest value of x/(1 + x) · e^(−t/fall).
    pub fn constants(self) -> (f64, f64, f64, f64) {
        static HIGHEST: OnceLock<[f64; 2]> = OnceLock::new();
        let stated = |wave| match wave {
            SurgeWave::Current => (47.52e-6, 2.741, 4.296e-6),
            SurgeWave::Voltage => (0.4074e-6, 1.852, 68.22e-6),
        };
        let highest = HIGHEST.get_or_init(|| {
            [SurgeWave::Current, SurgeWave::Voltage].map(|wave| {
                let (rise, exponent, fall) = stated(wave);
                let value = |t: f64| rising(t, 1.0, rise, exponent, fall);
                let Ok(peak) =
                    maximum(TO_ROUND_OFF, fall * 1e-3, fall / 20.0, fall * 5.0, |t| Ok::<_, Infallible>(value(t)));
                value(peak)
            })
        });
        let (rise, exponent, fall) = stated(self);
        (rise, exponent, fall, highest[self as usize])
    }

    /// The wave at a time after its start, at most 1.
    pub fn at(self, t: Second) -> f64 {
        let (rise, exponent, fall, highest) = self.constants();
        rising(t.0, 1.0 / highest, rise, exponent, fall)
    }

    /// Its stated front.
    pub fn front(self) -> Second {
        match self {
            SurgeWave::Current => Second(8e-6),
            SurgeWave::Voltage => Second(1.2e-6),
        }
    }

    /// When less than a ten-thousandth of it is left.
    pub fn end(self) -> Second {
        match self {
            SurgeWave::Current => Second(100e-6),
            SurgeWave::Voltage => Second(650e-6),
        }
    }
}
