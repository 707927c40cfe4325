//! What a lane does to its signal: losses at one frequency, pulse, worst-pattern eye, step, reflection profile, and
//! pairs that are not alike.
//!
//! The time domain is a function of the chain's transfer at single frequencies, see [`Source`]. Times are in second,
//! frequencies in hertz, voltages relative to the ideal lane.

mod cursors;
mod eye;
mod feed;
mod grid;
mod interpolate;
mod lane;
mod loss;
mod optimum;
mod pair;
mod phases;
mod profile;
mod pulse;
mod received;
mod resonance;
mod settled_eye;
mod signal;
mod spectrum;
mod step;
mod strip;
mod tail;
mod transform;

pub use cursors::{Cursors, WorstPattern};
pub use eye::{CLOSED, Eye, eye_opening};
pub use feed::{BandFault, FeedBand, FeedMetrics, bode_fano};
pub use grid::{MOST_FREQUENCIES, span};
pub use lane::{LaneTime, TimeMetrics, lane_droop, signal, volts_per_eye};
pub use loss::{LossChanges, LossMetrics, PERFECT_MATCH, decibels, mismatch_loss, return_loss, vswr};
pub use optimum::{ROUGH, TO_ROUND_OFF, brent, is_peak, maximum, may_be_peak, peaks, probes, real_roots, scan, summit};
pub use pair::{Pair, skew_estimate};
pub use profile::{Dip, Profile, profile_impedance, profile_reflection};
pub use pulse::Pulse;
pub use resonance::Resonance;
pub use signal::{Ctle, Feedback, GAUSSIAN_RISE, Signal, Taps, droop};
pub use spectrum::{Case, ChainSample, NotSettled, Sample, Source, TimeDomain};
pub use step::Step;
