//! A feed at one frequency, seen by its radio.

use std::sync::Arc;

use num_complex::Complex64;

use super::waves::Linear;
use super::{Chain, Mobius, Section};
use crate::model::{Antenna, Feed};
use crate::units::{Henry, Hertz, Ohm, Second};

/// The frozen circuit of a feed: an antenna, a chain, and the reference in which the radio sees them.
#[derive(Debug, Clone)]
pub struct FeedChain {
    chain: Chain,
    antenna: Antenna,
}

/// What the radio sees of a feed at one frequency.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FeedWaves {
    /// Γ, looking out from the radio.
    pub reflection: Complex64,
    /// √(power into the antenna's resistance over the power available from a radio of the reference impedance), but for
    /// its phase.
    pub transmission: Complex64,
    /// Voltage at the part and its pad over the open voltage of a radio of the reference impedance; absent at the
    /// protector's place.
    pub voltage: Complex64,
}

/// A feed at one frequency.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FeedPoint {
    /// The frequency.
    pub frequency: Hertz,
    /// Without the protector, its pad and its stub.
    pub absent: FeedWaves,
    /// Γ.
    pub reflection: Mobius,
    /// Transmission into the antenna.
    pub transmission: Mobius,
    /// Voltage at the part.
    pub voltage: Mobius,
}

impl FeedPoint {
    /// With `c` farad fitted; 0 leaves the pad and the stub.
    pub fn at(&self, c: f64) -> FeedWaves {
        FeedWaves {
            reflection: self.reflection.at(c),
            transmission: self.transmission.at(c),
            voltage: self.voltage.at(c),
        }
    }

    /// Whether every coefficient is a finite number.
    pub fn is_finite(&self) -> bool {
        let absent = [self.absent.reflection, self.absent.transmission, self.absent.voltage];
        absent.iter().all(|value| value.is_finite())
            && [self.reflection, self.transmission, self.voltage].iter().all(Mobius::is_finite)
    }
}

impl FeedChain {
    /// The frozen circuit of a feed; one without an antenna counts as matched.
    pub fn new(feed: &Feed) -> Self {
        FeedChain {
            chain: Chain::of_path(&feed.path, 1.0, feed.reference),
            antenna: feed.path.antenna().cloned().unwrap_or(Antenna::Resistance(feed.reference)),
        }
    }

    /// The path from the antenna to the radio.
    pub fn chain(&self) -> &Chain {
        &self.chain
    }

    /// The antenna.
    pub fn antenna(&self) -> &Antenna {
        &self.antenna
    }

    /// The same feed with a footprint of nothing: see [`Chain::without_footprint`].
    pub fn without_footprint(&self) -> FeedChain {
        FeedChain { chain: self.chain.without_footprint(), antenna: self.antenna.clone() }
    }

    /// The same feed with a coil to ground at the protector.
    pub fn with_coil(&self, inductance: Henry) -> FeedChain {
        let mut sections = self.chain.sections.to_vec();
        sections.insert(self.chain.protector_at, Section::ShuntInductance(inductance));
        FeedChain {
            chain: Chain { sections: Arc::from(sections), ..self.chain.clone() },
            antenna: self.antenna.clone(),
        }
    }

    /// Impedance of the antenna as numerator and denominator, so that an open one has a value too. A table has none outside
    /// its span: not a number.
    fn antenna_ratio(&self, frequency: Hertz) -> (Complex64, Complex64) {
        let one = Complex64::new(1.0, 0.0);
        match &self.antenna {
            Antenna::Series(r) => (Complex64::new(1.0, r.normalised_detuning(frequency)) * r.resistance.0, one),
            Antenna::Parallel(r) => (one * r.resistance.0, Complex64::new(1.0, r.normalised_detuning(frequency))),
            Antenna::Resistance(r) => (one * r.0, one),
            Antenna::Table(table) => {
                let (size, angle) = table.at(frequency).unwrap_or((f64::NAN, 0.0));
                let reflection = Complex64::from_polar(size, angle);
                ((one + reflection) * table.reference.0, one - reflection)
            }
        }
    }

    /// Impedance of the antenna in ohm.
    pub fn antenna_impedance(&self, frequency: Hertz) -> Complex64 {
        let (over, under) = self.antenna_ratio(frequency);
        over / under
    }

    /// The feed at a frequency above 0.
    ///
    /// With the antenna's impedance n/d and the matrix [A, B; C, D] from the antenna to the radio, the radio sees
    /// Z = w1/w0, (w0, w1) = (d, n)·[A, B; C, D]: Γ = (w1 − w0 Z_ref)/(w1 + w0 Z_ref), and the transducer gain is
    /// 4 Z_ref Re(n d*)/|w1 + w0 Z_ref|². With (u0, u1) at the protector, the voltage there is u1/(w1 + w0 Z_ref) of the
    /// radio's open voltage. The protector adds Y(C) times a product, as in [`Chain::at`].
    pub fn at(&self, frequency: Hertz) -> FeedPoint {
        let z = self.chain.reference;
        let [outer, inner] = self.chain.halves(frequency);
        let (n, d) = self.antenna_ratio(frequency);
        let (u0, u1) = (d * outer.a + n * outer.c, d * outer.b + n * outer.d);
        let (w0, w1) = (u0 * inner.a + u1 * inner.c, u0 * inner.b + u1 * inner.d);
        let sum = Linear(w1 + w0 * z, u1 * (inner.b + inner.a * z));
        let difference = Linear(w1 - w0 * z, u1 * (inner.b - inner.a * z));
        let zero = Complex64::new(0.0, 0.0);
        let power = Complex64::new((4.0 * z * (n * d.conj()).re).max(0.0).sqrt(), 0.0);
        let y = self.chain.branch.admittance(frequency);
        let transmission = Linear(power, zero).over(sum, &y);
        let part = self.chain.branch.part_denominator(frequency);
        FeedPoint {
            frequency,
            absent: FeedWaves { reflection: difference.0 / sum.0, transmission: power / sum.0, voltage: u1 / sum.0 },
            reflection: difference.over(sum, &y),
            voltage: Mobius { p: u1 * part.0, q: u1 * part.1, ..transmission },
            transmission,
        }
    }

    /// An estimate of the longest delay between antenna and radio.
    pub fn delay_estimate(&self) -> Second {
        self.chain.delay_estimate()
    }

    /// Frequencies between `low` and `high` that a grid must not miss: those of the path, the points of a table, and the
    /// neighbourhood of the antenna's resonance.
    pub fn resonances(&self, low: Hertz, high: Hertz, cap: usize) -> Vec<f64> {
        let mut found = self.chain.resonances(low, high, cap);
        let within = |f: &f64| low.0 < *f && *f < high.0;
        match &self.antenna {
            Antenna::Series(r) | Antenna::Parallel(r) => {
                let half_width = r.frequency.0 / (2.0 * r.quality);
                let around = (-40..=40).map(|i| {
                    let share = f64::from(i) / 8.0;
                    r.frequency.0 + half_width * share * share.abs()
                });
                found.extend(around.filter(within));
            }
            Antenna::Table(table) => found.extend(table.points.iter().map(|p| p.frequency.0).filter(within)),
            Antenna::Resistance(_) => {}
        }
        found
    }

    /// How far in frequency the feed has to move to look different, in hertz: half the antenna's width, or what turns the
    /// path's round-trip phase by one radian.
    pub fn scale(&self, frequency: Hertz) -> Hertz {
        let width = self.antenna.resonator().map_or(frequency.0, |r| r.frequency.0 / (2.0 * r.quality));
        let delay = 2.0 * std::f64::consts::TAU * self.delay_estimate().0;
        Hertz(width.min(frequency.0).min(1.0 / delay))
    }

    /// The reference in which the match is seen.
    pub fn reference(&self) -> Ohm {
        self.chain.reference()
    }
}
