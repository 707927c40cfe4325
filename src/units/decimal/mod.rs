//! Numbers as a reader sees them: the one place that rounds to decimals.
//!
//! - [`engineering`] and [`significant`]: a fixed number of significant digits, with or without prefix and unit;
//! - [`Decimal`], [`pair`], [`apart_from`], [`digits_apart`]: as many digits as keep the order of what is compared;
//! - [`estimate`]: three significant digits, or as many as keep that order;
//! - [`percent`] and [`signed_percent`]: a ratio;
//! - [`stepped`]: the numbers along an axis;
//! - [`working`]: numbers to retype into a calculator.

mod apart;
mod engineering;
mod exact;
mod ratio;
mod step;
pub mod working;

pub use apart::{apart_from, digits_apart, engineering_apart, estimate, estimated_pair, pair, short};
pub(super) use engineering::write_engineering;
pub use engineering::{Scale, engineering, significant};
pub use exact::{Decimal, Round};
pub use ratio::{percent, signed_percent};
pub use step::stepped;
