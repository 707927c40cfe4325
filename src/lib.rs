//! How much capacitance an ESD protector may put on each line of a port.

pub mod budget;
pub mod cli;
pub mod diag;
pub mod model;
pub mod network;
pub mod parts;
pub mod report;
pub mod response;
pub mod sheet;
pub mod units;
