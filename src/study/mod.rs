//! What a line is worth where its values are not quite those of its sheet.
//!
//! [`tolerate`] finds the worst case of a line whose sheet states a `±`, and its yield.

mod descent;
mod examine;
mod fast;
mod fault;
mod interval95;
mod points;
mod random;
mod setting;
mod shares;
mod tolerate;
mod values;
mod worst;
mod yielded;

pub use fast::Fast;
pub use fault::StudyFault;
pub use interval95::clopper_pearson;
pub use shares::Shares;
pub use tolerate::{DEFAULT_SEED, Sampling, Tolerated, tolerate};
pub use values::{Place, Varying};
pub use worst::{Worst, WorstFitted, WorstHeadroom, WorstLimit};
pub use yielded::Yielded;
