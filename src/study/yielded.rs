//! The yield of a line: the share of its settings, drawn at random, that keep every limit.

use rayon::prelude::*;

use super::fault::StudyFault;
use super::interval95::clopper_pearson;
use super::random::Random;
use super::setting::Asked;
use super::shares::Shares;
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
}

impl Yielded {
    /// Draws settings of a line; the same ones with any number of threads.
    ///
    /// # Errors
    /// A setting at which the line cannot be computed.
    pub(super) fn of(asked: &Asked<'_>, samples: u32, seed: u32) -> Result<Yielded, StudyFault> {
        let at_once = (samples / PIECES).clamp(1, AT_ONCE);
        let chunk = |asked: &mut Asked<'_>, chunk: u32| -> Result<Counted, StudyFault> {
            let mut counted = Counted::default();
            let mut point = vec![0.5; asked.varying.directions];
            for index in chunk * at_once..(chunk * at_once).saturating_add(at_once).min(samples) {
                let mut random = Random::of(u64::from(seed), u64::from(index));
                for coordinate in &mut point {
                    *coordinate = random.coordinate(asked.varying.distribution);
                }
                asked.left(&point, |allowed, fitted| {
                    counted.shares.push(allowed);
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
        };
        let pieces = (0..samples.div_ceil(at_once)).into_par_iter().map_init(|| asked.clone(), chunk);
        let pieces = pieces.collect::<Result<Vec<Counted>, StudyFault>>()?;
        let counted = pieces.into_iter().fold(Counted::default(), both);
        let shares = counted.shares.sorted();
        Ok(Yielded {
            samples,
            seed,
            held: (counted.judged > 0).then_some(counted.held),
            budget: shares.budget(),
            lowest: shares.lowest(),
            shares: shares.curve(),
        })
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
