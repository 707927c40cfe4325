//! What a discharge leaves at the protected chip: the circuit of one line to ground, in time.
//!
//! An estimate, as every piece of it is: straight lines for what conducts, lines without loss, a source of a standard's
//! Annex. The test on the built board decides.

mod build;
mod circuit;
mod conductor;
mod curve;
mod delayed;
mod left;
mod levels;
mod line;
mod pieces;
mod run;
mod seen;
mod source;
mod stepper;
mod surge;
mod told;
mod tree;

pub use build::{NotStruck, SLOW_REFERENCE, StruckLine, StruckPart, struck, surroundings};
pub use circuit::{Circuit, Node};
pub use conductor::{Conductor, LEAST_SLOPE, LETS_GO_AFTER, SnapBack};
pub use curve::{MissingWord, NEGATIVE, Sign, misses_clamp};
pub use levels::{Discharged, Settled};
pub use line::{Contact, LineDischarge};
pub use run::Bench;
pub use seen::{LATE, Outcome, PartOutcome, PinOutcome, Strike, Trace};
pub use source::{ContactDischarge, DISCHARGE_RESISTOR, SourceTerm, SurgeWave, WINDOW};
pub use surge::{PartInSurge, Surge, SurgeOutcome, surge};
pub use told::{PartLines, StraightLine};
