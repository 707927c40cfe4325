//! What a line is worth where its values are not quite those of its sheet.
//!
//! [`tolerate`] finds the worst case of a line whose sheet states a `±`, and its yield.

mod descent;
mod examine;
mod fast;
mod fault;
mod held;
mod interval95;
mod out;
mod points;
mod random;
mod range;
mod sensitivity;
mod setting;
mod shares;
mod sweep;
mod tolerate;
mod values;
mod worst;
mod yielded;

pub use fast::Fast;
pub use fault::StudyFault;
pub use held::{Best, Breaks, End, Holding, NoRange};
pub use interval95::clopper_pearson;
pub use out::{Out, elements};
pub use range::{holding, is_budget, usual_range};
pub use sensitivity::{Change, Gain, Moved, MovedLimit, Sensitivity, Stepped, Without, gains};
pub use shares::Shares;
pub use sweep::{Over, settings};
pub use tolerate::{DEFAULT_SEED, Sampling, Tolerated, tolerate};
pub use values::{Place, Varying};
pub use worst::{Worst, WorstFitted, WorstHeadroom, WorstLimit};
pub use yielded::Yielded;
