//! budget

mod conversion;
mod polynomial;
mod scan;

pub use conversion::{Mismatch, conversion_allowed};
pub use polynomial::real_roots;
pub use scan::{probes, scan};
