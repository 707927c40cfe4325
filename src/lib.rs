//! How much capacitance an ESD protector may put on each line of a port.

pub mod budget;
pub mod cli;
pub mod curve;
pub mod diag;
pub mod figures;
pub mod model;
pub mod network;
pub mod page;
pub mod parts;
pub mod picture;
pub mod reading;
pub mod resolve;
pub mod response;
pub mod result;
pub mod sheet;
pub mod text;
pub mod units;
pub mod words;
