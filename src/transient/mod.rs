//! What a discharge leaves at the protected chip: the circuit of one line to ground, in time.
//!
//! An estimate, as every piece of it is: straight lines for what conducts, lines without loss, a source of a standard's
//! Annex. The test on the built board decides.

mod circuit;
mod conductor;
mod delayed;
mod pieces;
mod run;
mod seen;
mod source;
mod stepper;
mod tree;

pub use circuit::{Circuit, Node};
pub use conductor::{Conductor, LEAST_SLOPE, LETS_GO_AFTER, SnapBack};
pub use run::Bench;
pub use seen::{LATE, Outcome, PartOutcome, PinOutcome, Strike, Trace};
pub use source::{ContactDischarge, DISCHARGE_RESISTOR, SurgeWave, WINDOW};
