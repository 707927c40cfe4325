//! A bound over frequency.

use crate::figures::Sense;
use crate::units::Hertz;

/// Points of a bound over frequency, straight in dB over the logarithm of the frequency between two of them.
#[derive(Debug, Clone, PartialEq)]
pub struct Mask {
    points: Vec<MaskPoint>,
}

/// A corner of a mask.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MaskPoint {
    /// The bound there, in dB.
    pub level: f64,
    /// The frequency.
    pub frequency: Hertz,
}

impl Mask {
    /// A mask through points that rise in frequency, two at one frequency being a step; `None` without a point, or where
    /// they do not rise.
    pub fn new(points: Vec<MaskPoint>) -> Option<Mask> {
        let rises = points.windows(2).all(|pair| pair[0].frequency <= pair[1].frequency);
        (rises && !points.is_empty()).then_some(Mask { points })
    }

    /// One level from one frequency to another; one point where they are the same.
    pub fn flat(level: f64, low: Hertz, high: Hertz) -> Mask {
        let point = |frequency| MaskPoint { level, frequency };
        Mask { points: if low == high { vec![point(low)] } else { vec![point(low), point(high)] } }
    }

    /// Its points, rising; at least one.
    pub fn points(&self) -> &[MaskPoint] {
        &self.points
    }

    /// Its lowest and its highest frequency.
    pub fn span(&self) -> (Hertz, Hertz) {
        let [first, last] = [self.points[0], self.points[self.points.len() - 1]];
        (first.frequency, last.frequency)
    }

    /// Its bound at a frequency of its span, the stricter one at a step; `None` beyond the span.
    pub fn level(&self, frequency: Hertz, sense: Sense) -> Option<f64> {
        let stricter = |a: f64, b: f64| match sense {
            Sense::AtLeast => a.max(b),
            Sense::AtMost => a.min(b),
        };
        let exact = self.points.iter().filter(|p| p.frequency == frequency).map(|p| p.level).reduce(stricter);
        let within = |w: &&[MaskPoint]| w[0].frequency < frequency && frequency < w[1].frequency;
        exact.or_else(|| self.points.windows(2).find(within).map(|w| level_between(w[0], w[1], frequency.0)))
    }

    /// Frequency and bound of points on it, `steps` between two corners.
    pub fn line(&self, steps: usize) -> impl Iterator<Item = (f64, f64)> {
        let alone = if let [only] = self.points.as_slice() { Some(only) } else { None };
        let between = self.points.windows(2).flat_map(move |pair| {
            let (a, b) = (pair[0], pair[1]);
            (0..=steps).map(move |i| {
                let share = i as f64 / steps as f64;
                let f = a.frequency.0 * (b.frequency.0 / a.frequency.0).powf(share);
                (f, a.level + share * (b.level - a.level))
            })
        });
        alone.map(|corner| (corner.frequency.0, corner.level)).into_iter().chain(between)
    }
}

/// The bound between two corners at a frequency from the first to the second.
pub fn level_between(from: MaskPoint, to: MaskPoint, frequency: f64) -> f64 {
    if frequency == to.frequency.0 {
        return to.level;
    }
    let share = (frequency / from.frequency.0).ln() / (to.frequency.0 / from.frequency.0).ln();
    from.level + share * (to.level - from.level)
}
