//! Which settings are drawn of a line with tolerances.

use clap::Args;

use crate::study::{DEFAULT_SEED, Sampling};

/// How settings are drawn of a line with tolerances.
#[derive(Debug, Clone, Args)]
pub struct SamplingArgs {
    /// Draw N settings of each line with tolerances [default: 10000; 1000 with a mask or of a feed, 200 with a limit in time].
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u32).range(1..=10_000_000))]
    pub samples: Option<u32>,
    /// Which settings are drawn: the same ones for the same seed.
    #[arg(long, value_name = "SEED", default_value_t = DEFAULT_SEED)]
    pub seed: u32,
}

impl SamplingArgs {
    /// What they ask for.
    pub fn sampling(&self) -> Sampling {
        Sampling { samples: self.samples, seed: self.seed }
    }
}
