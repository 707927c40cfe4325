//! The slow tail of a pulse in a periodic record, where it comes round again and again.

/// Cursors this many unit intervals before the main one are free of the pulse itself.
pub(super) const QUIET: usize = 8;

/// Shortest record in which a tail can be told from the pulse, in unit intervals.
const SHORTEST: usize = 64;
/// Steepness of the tails looked for: 1.5 is that of the skin effect, 2 that of a wideband dielectric.
const STEEPNESS: (f64, f64) = (1.1, 4.0);
/// Periods added up one by one; the rest is an integral.
const PERIODS: usize = 3;
const BISECTIONS: usize = 18;

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
        let unit = |steepness: f64| Tail {
            size: 1.0,
            steepness,
            record,
        };
        let fall = |steepness: f64| unit(steepness).seen(half as f64) / unit(steepness).seen(late as f64);
        let (mut low, mut high) = STEEPNESS;
        if !(fall(low)..fall(high)).contains(&ratio) {
            return None;
        }
        for _ in 0..BISECTIONS {
            let middle = 0.5 * (low + high);
            if fall(middle) < ratio {
                low = middle
            } else {
                high = middle
            }
        }
        let shape = unit(low);
        Some(Tail {
            size: mean(late) / shape.seen(late as f64),
            ..shape
        })
    }

    /// What the record shows of it at `t`: itself and all that has come round.
    fn seen(&self, t: f64) -> f64 {
        let periods = (0..PERIODS).map(|j| (t + j as f64 * self.record).powf(-self.steepness));
        let from = t + (PERIODS as f64 - 0.5) * self.record;
        let rest = from.powf(1.0 - self.steepness) / (self.record * (self.steepness - 1.0));
        self.size * (periods.sum::<f64>() + rest)
    }

    /// What has come round on the cursor `k` unit intervals after the main one.
    pub(super) fn come_round(&self, k: i64) -> f64 {
        self.seen(k as f64 + self.record)
    }
}
