//! Lines put together without a sheet, from what the circuit has or from what a sheet would state.

mod bus;
mod common;
mod feed;
mod lane;
mod path;

pub use bus::BusBuilder;
pub use feed::FeedBuilder;
pub use lane::LaneBuilder;
pub use path::PathBuilder;
