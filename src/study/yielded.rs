//! The yield of a line: the share of its settings, drawn at random, that keep every limit.

use rayon::prelude::*;

use super::fault::StudyFault;
use super::interval95::clopper_pearson;
use super::random::Random;
use super::setting::Asked;
use super::shares::Shares;
use crate::budget::Interval;
use crate::units::Farad;

/// Most settings one thread draws at a time, and the pieces that few of them are cut into.
const AT_ONCE: u32 = 1024;
const PIECES: u32 = 64;

/// The share of settings, drawn at random, that keep every limit.
#[derive(Debug, Clone, PartialEq)]
pub struct Yielded {
    /// How many were drawn.
    pub samples: u32,
    /// The seed they were drawn with.
    pub seed: u32,
    /// How many hold with what is fitted; `None` where nothing is.
    pub held: Option<u32>,
    /// The largest capacitance up to which 99.7 % of the settings allow each; `None` where there is none, and where it is
    /// open.
    pub budget: Option<Farad>,
    /// The least capacitance that 99.7 % of the settings allow, the lower end of that interval; `None` where there is none.
    pub lowest: Option<Farad>,
    /// Capacitances in farad, rising from 0, each with the share of settings that allow it.
    pub shares: Vec<(f64, f64)>,
}

/// What some settings say.
#[derive(Default)]
struct Counted {
    shares: Shares,
    held: u32,
    judged: u32,
    extremes: Extremes,
}

/// The setting drawn of this index.
fn draw(asked: &Asked<'_>, seed: u32, index: u32, point: &mut [f64]) {
    let mut random = Random::of(u64::from(seed), u64::from(index));
    for coordinate in point {
        *coordinate = random.coordinate(asked.varying.distribution);
    }
}

/// The settings drawn that allow least: by their index, with what they leave.
#[derive(Debug, Clone, Copy, Default)]
struct Extremes {
    /// The least upper end of the lowest interval; nothing allowed is the least of all.
    upper: Option<(f64, u32)>,
    /// The largest lower end.
    lower: Option<(f64, u32)>,
    /// The first that what is fitted breaks.
    breaks: Option<u32>,
}

impl Extremes {
    fn push(&mut self, index: u32, allowed: &[Interval], fitted: Option<Farad>) {
        let (low, high) = allowed.first().map_or((f64::INFINITY, -1.0), |lowest| (lowest.low, lowest.high));
        if self.upper.is_none_or(|(least, _)| high < least) {
            self.upper = Some((high, index));
        }
        if low > 0.0 && self.lower.is_none_or(|(largest, _)| low > largest) {
            self.lower = Some((low, index));
        }
        if fitted.is_some_and(|c| !allowed.iter().any(|interval| interval.contains(c.0))) {
            self.breaks = self.breaks.or(Some(index));
        }
    }

    /// Of both, the earlier one where they leave the same, whichever thread was first.
    fn and(self, other: Extremes) -> Extremes {
        let least = |a: (f64, u32), b: (f64, u32)| if (b.0, b.1) < (a.0, a.1) { b } else { a };
        let most = |a: (f64, u32), b: (f64, u32)| if (-b.0, b.1) < (-a.0, a.1) { b } else { a };
        let both =
            |a: Option<(f64, u32)>, b: Option<(f64, u32)>, of: &dyn Fn((f64, u32), (f64, u32)) -> (f64, u32)| match (
                a, b,
            ) {
                (Some(a), Some(b)) => Some(of(a, b)),
                (a, b) => a.or(b),
            };
        Extremes {
            upper: both(self.upper, other.upper, &least),
            lower: both(self.lower, other.lower, &most),
            breaks: self.breaks.into_iter().chain(other.breaks).min(),
        }
    }
}

impl Yielded {
    /// Draws settings of a line; the same ones with any number of threads. Beside it the points of those that allow least, for
    /// the worst case.
    ///
    /// # Errors
    /// A setting at which the line cannot be computed.
    pub(super) fn of(asked: &Asked<'_>, samples: u32, seed: u32) -> Result<(Yielded, Vec<Vec<f64>>), StudyFault> {
        let at_once = (samples / PIECES).clamp(1, AT_ONCE);
        let chunk = |asked: &mut Asked<'_>, chunk: u32| -> Result<Counted, StudyFault> {
            let mut counted = Counted::default();
            let mut point = vec![0.5; asked.varying.directions];
            for index in chunk * at_once..(chunk * at_once).saturating_add(at_once).min(samples) {
                draw(asked, seed, index, &mut point);
                asked.left(&point, |allowed, fitted| {
                    counted.shares.push(allowed);
                    counted.extremes.push(index, allowed, fitted);
                    if let Some(c) = fitted {
                        counted.judged += 1;
                        counted.held += u32::from(allowed.iter().any(|interval| interval.contains(c.0)));
                    }
                })?;
            }
            Ok(counted)
        };
        let both = |a: Counted, b: Counted| Counted {
            shares: a.shares.and(b.shares),
            held: a.held + b.held,
            judged: a.judged + b.judged,
            extremes: a.extremes.and(b.extremes),
        };
        let pieces = (0..samples.div_ceil(at_once)).into_par_iter().map_init(|| asked.clone(), chunk);
        let pieces = pieces.collect::<Result<Vec<Counted>, StudyFault>>()?;
        let counted = pieces.into_iter().fold(Counted::default(), both);
        let shares = counted.shares.sorted();
        let Extremes { upper, lower, breaks } = counted.extremes;
        let mut worst: Vec<u32> = upper.into_iter().chain(lower).map(|(_, index)| index).chain(breaks).collect();
        worst.dedup();
        let drawn = |index: u32| {
            let mut point = vec![0.5; asked.varying.directions];
            draw(asked, seed, index, &mut point);
            point
        };
        let points = worst.into_iter().map(drawn).collect();
        let yielded = Yielded {
            samples,
            seed,
            held: (counted.judged > 0).then_some(counted.held),
            budget: shares.budget(),
            lowest: shares.lowest(),
            shares: shares.curve(),
        };
        Ok((yielded, points))
    }

    /// The share of settings that hold with what is fitted.
    pub fn share(&self) -> Option<f64> {
        Some(f64::from(self.held?) / f64::from(self.samples))
    }

    /// The 95 % interval of that share.
    pub fn interval(&self) -> Option<(f64, f64)> {
        Some(clopper_pearson(u64::from(self.held?), u64::from(self.samples)))
    }
}
