//! Antenna feeds.

mod advice;
mod arithmetic;
mod brute_force;
mod resonance;
mod sheet;
