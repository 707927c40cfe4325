//! What a line is worth where its values are not quite those of its sheet.

mod values;

pub use values::{Place, Varying};
