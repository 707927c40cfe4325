//! Two-ports: the half circuit of a lane or the circuit of a feed, its cascade, and its Möbius form in the unknown capacitance.
//!
//! e^{+jωt}, SI units. Matrices are ABCD matrices (Pozar, *Microwave Engineering*, ch. 4) from the outer end to the inner
//! end. This is the one stage that multiplies them.

mod build;
mod causal_line;
mod chain;
mod coded;
mod elements;
mod feed;
mod mobius;
mod protector;
mod rebuilt;
mod reference_plane;
mod resonance;
mod two_port;
mod waves;

pub use build::sections_of;
pub use causal_line::CausalLine;
pub use chain::{Chain, ChainPoint, Function, Scattering};
pub use elements::Section;
pub use feed::{FeedChain, FeedPoint, FeedWaves};
pub use mobius::Mobius;
pub use protector::Branch;
pub use rebuilt::Rebuilt;
pub use reference_plane::ReferencePlane;
pub use two_port::TwoPort;
