//! What holds for every path.

mod network;
mod rest;
mod scaling;
