//! network

mod mobius;

pub use mobius::Mobius;
