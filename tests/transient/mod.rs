//! What a discharge leaves at the chip.

mod closed_forms;
mod laws;
mod race;
mod random_circuits;
mod reference;
mod source;
mod surges;
