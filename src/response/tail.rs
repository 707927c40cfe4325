//! The slow tail of a pulse in a periodic record, where it comes round again and again.

use std::convert::Infallible;

use super::brent;

/// Cursors this many unit intervals before the main one are free of the pulse itself.
pub(super) const QUIET: usize = 8;

/// Shortest record in which a tail can be told from the pulse, in unit intervals.
const SHORTEST: usize = 64;
/// Steepness of the tails looked for: 1.5 is that of the skin effect, 2 that of a wideband dielectric.
const STEEPNESS: (f64, f64) = (1.1, 4.0);
/// Periods added up one by one; the rest is an integral.
const PERIODS: usize = 3;
/// Relative accuracy of the steepness.
const ACCURACY: f64 = 1e-6;

/// A tail a·t^−p, t in unit intervals after the main cursor.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Tail {
    size: f64,
    steepness: f64,
    record: f64,
}

impl Tail {
    /// The tail that a record of cursors h_0, h_1, … h_−1 shows halfway round and just before the main one; `None` where
    /// it shows none: another sign there, or no fall that a power of time describes.
    pub(super) fn of(cursors: &[f64]) -> Option<Tail> {
        let len = cursors.len();
        if len < SHORTEST {
            return None;
        }
        let mean = |at: usize| cursors[at - 2..=at + 2].iter().sum::<f64>() / 5.0;
        let (half, late) = (len / 2, len - QUIET - 2);
        let ratio = mean(half) / mean(late);
        let record = len as f64;
        let (at_half, at_late) = (Instant::new(half as f64, record), Instant::new(late as f64, record));
        // The logarithm is all but straight.
        let fall = |steepness: f64| (at_half.seen(steepness) / at_late.seen(steepness)).ln();
        let shown = ratio.ln();
        let excess = |steepness: f64| Ok::<_, Infallible>(fall(steepness) - shown);
        let (low, high) = STEEPNESS;
        let (Ok(below), Ok(above)) = (excess(low), excess(high));
        if !(below <= 0.0 && above > 0.0) {
            return None;
        }
        let Ok(steepness) = brent(excess, low, below, high, above, ACCURACY);
        Some(Tail { size: mean(late) / at_late.seen(steepness), steepness, record })
    }

    /// What has come round on the cursor `k` unit intervals after the main one.
    pub(super) fn come_round(&self, k: i64) -> f64 {
        self.size * Instant::new(k as f64 + self.record, self.record).seen(self.steepness)
    }
}

/// An instant and those that fall on it in the periods after: their logarithms, and what stands for the rest.
struct Instant {
    periods: [f64; PERIODS],
    from: f64,
    record: f64,
}

impl Instant {
    fn new(t: f64, record: f64) -> Instant {
        Instant {
            periods: std::array::from_fn(|j| (t + j as f64 * record).ln()),
            from: (t + (PERIODS as f64 - 0.5) * record).ln(),
            record,
        }
    }

    /// What the record shows there of a tail t^−p of `steepness` p: itself and all that has come round.
    fn seen(&self, steepness: f64) -> f64 {
        let periods: f64 = self.periods.iter().map(|ln| (-steepness * ln).exp()).sum();
        periods + ((1.0 - steepness) * self.from).exp() / (self.record * (steepness - 1.0))
    }
}
