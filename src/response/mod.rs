//! What a lane does to its signal.

mod loss;

pub use loss::{LossChanges, LossMetrics, PERFECT_MATCH, decibels, return_loss};
