//! What a discharge leaves at the chip.

mod closed_forms;
mod reference;
mod source;
