//! What a line is worth where its values are not quite those of its sheet.

mod out;
mod range;
mod sensitivity;
mod sweep;
mod timed;
mod values;

pub use out::{Out, elements};
pub use range::{Best, Breaks, End, Holding, NoRange, holding, is_budget, usual_range};
pub use sensitivity::{Change, Gain, Moved, MovedLimit, Sensitivity, Stepped, Without, gains};
pub use sweep::{NoSetting, Over, Setting, settings};
pub use values::{Place, Varying};
