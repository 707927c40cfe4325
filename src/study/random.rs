//! Numbers drawn at random, the same on every machine and with any number of threads.

use crate::model::Distribution;

/// SplitMix64 (Steele, Lea, Flood, "Fast splittable pseudorandom number generators", OOPSLA 2014; constants from memory).
///
/// It is written out here, and not taken from a crate, so that a seed gives the same numbers for good.
#[derive(Debug, Clone)]
pub(super) struct Random(u64);

/// The finaliser of the generator.
fn mixed(mut z: u64) -> u64 {
    z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    z ^ (z >> 31)
}

/// 2^64 over the golden ratio, odd.
const STEP: u64 = 0x9e37_79b9_7f4a_7c15;

impl Random {
    /// A sequence of its own for each index.
    pub(super) fn of(seed: u64, index: u64) -> Self {
        Random(mixed(seed.wrapping_add(STEP)) ^ mixed(index.wrapping_mul(STEP).wrapping_add(1)))
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(STEP);
        mixed(self.0)
    }

    /// Evenly from 0 to below 1.
    pub(super) fn share(&mut self) -> f64 {
        (self.next() >> 11) as f64 / (1u64 << 53) as f64
    }

    /// Yes as often as no.
    pub(super) fn coin(&mut self) -> bool {
        self.next() >> 63 == 1
    }

    /// A coordinate of the unit cube.
    pub(super) fn coordinate(&mut self, distribution: Distribution) -> f64 {
        match distribution {
            Distribution::Uniform => self.share(),
            Distribution::Normal => loop {
                let x = self.normal();
                if x.abs() <= 3.0 {
                    break 0.5 + x / 6.0;
                }
            },
        }
    }

    /// Normally with the standard deviation 1: the polar method (Marsaglia, Bray, *SIAM Review* 6(3), 1964; from memory), one
    /// of its two numbers.
    fn normal(&mut self) -> f64 {
        loop {
            let (u, v) = (2.0 * self.share() - 1.0, 2.0 * self.share() - 1.0);
            let square = u * u + v * v;
            if square > 0.0 && square < 1.0 {
                return u * (-2.0 * square.ln() / square).sqrt();
            }
        }
    }
}
