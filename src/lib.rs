//! How much capacitance an ESD protector may put on each line of a port.

pub mod budget;
#[cfg(feature = "cli")]
pub mod cli;
pub mod curve;
pub mod diag;
pub mod figures;
pub mod load;
pub mod model;
pub mod network;
#[cfg(feature = "cli")]
pub mod page;
pub mod parts;
#[cfg(feature = "cli")]
pub mod picture;
pub mod reading;
pub mod resolve;
pub mod response;
// Some of it serves the rooms of the program alone.
#[cfg_attr(not(feature = "cli"), allow(dead_code, unused_imports))]
pub mod result;
pub mod sheet;
#[cfg(feature = "cli")]
pub mod text;
pub mod units;
#[cfg(feature = "cli")]
pub mod words;

pub use budget::{Fault, Figures, Verdict, size_bus, size_feed, size_lane};
pub use diag::{Diagnostic, Diagnostics};
pub use load::ReadError;
pub use model::{Bus, Design, Feed, Flaw, Flaws, Head, Kind, Lane, LaneLimit, Line, Modulation, Place};
