//! Searches over one variable, for the response and for the budgets: where a function is largest or smallest, where it
//! vanishes, where it is not negative.
//!
//! Each says what it needs of the function, how close it comes, and how often it asks for a value at most.

mod cell;
mod grid;
mod maximum;
mod minimum;
mod polynomial;
mod root;
mod scan;
mod slope;

pub(super) use cell::{best_of_cells, highest_in_cell, largest};
pub use grid::{ROUGH, is_peak, may_be_peak, peaks, summit};
pub use maximum::{TO_ROUND_OFF, maximum};
pub(super) use minimum::valley;
pub use polynomial::real_roots;
pub use root::brent;
pub use scan::{probes, scan};
pub(super) use slope::{bottom, downhill, secants};
