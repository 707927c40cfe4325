//! Antenna feeds.

mod arithmetic;
mod brute_force;
mod resonance;
mod sheet;
