//! The worst case and the yield of a line whose sheet states a `±`.

use super::examine::examine;
use super::fault::StudyFault;
use super::setting::{Asked, Effort};
use super::values::Varying;
use super::worst::Worst;
use super::yielded::Yielded;
use crate::figures::Figure;
use crate::model::{Bounds, Kind, Limit, Line};

/// The seed where none is asked for.
pub const DEFAULT_SEED: u32 = 1;

/// How settings are drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Sampling {
    /// How many; where it is not stated 10 000, 1 000 for a line with a limit over many frequencies, 200 for one with a limit
    /// in time.
    pub samples: Option<u32>,
    /// Which ones.
    pub seed: u32,
}

impl Default for Sampling {
    fn default() -> Self {
        Sampling { samples: None, seed: DEFAULT_SEED }
    }
}

/// What the tolerances of a line leave.
#[derive(Debug, Clone, PartialEq)]
pub struct Tolerated {
    /// The values that vary.
    pub varying: Varying,
    /// How many settings were examined for the worst case.
    pub settings: usize,
    /// The worst case.
    pub worst: Worst,
    /// The yield.
    pub yielded: Yielded,
}

/// Finds the worst case and the yield of a line; `None` of one that states no `±`, and of a rail.
///
/// # Errors
/// A setting at which the line cannot be computed.
pub fn tolerate(line: &Line, sampling: Sampling) -> Result<Option<Tolerated>, StudyFault> {
    let Some(varying) = Varying::of(line) else { return Ok(None) };
    let figures = match &line.kind {
        Kind::Lane(lane) => bounded(&lane.limits),
        Kind::Feed(feed) => bounded(&feed.limits),
        Kind::Bus(bus) => bounded(&bus.limits),
        Kind::Rail(_) => return Ok(None),
    };
    let effort = Effort::of(line);
    let asked = Asked::new(line, &varying);
    let mut examined = examine(&asked, effort)?;
    let samples = sampling.samples.unwrap_or(match effort {
        Effort::Exact => 10_000,
        Effort::Frequencies => 1_000,
        Effort::Time => 200,
    });
    let (yielded, least) = Yielded::of(&asked, samples, sampling.seed)?;
    // Nothing that was drawn is worse than the worst case.
    for point in least {
        examined.push(asked.clone().judge(&point)?);
    }
    let worst = Worst::of(&varying, &figures, &examined, line.fitted().is_some());
    Ok(Some(Tolerated { settings: examined.len(), worst, yielded, varying }))
}

fn bounded<L: Bounds>(limits: &[Limit<L>]) -> Vec<&'static Figure> {
    limits.iter().map(|limit| limit.of.figure()).collect()
}
