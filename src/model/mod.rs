//! The port as physics sees it: lanes, the elements of their paths, parts, limits.
//!
//! Values are SI and stand as the sheet states them: the differential ones across the pair, the
//! others per line. The half circuit is made in [`crate::network`].

mod debye;
mod feed;
mod fitting;
pub mod geometry;
mod junction;
mod laminate;
mod lane;
mod limit;
mod line;
mod lower;
mod part;
mod path;
mod slow;
mod strength;

pub use debye::{Debye, DebyeError, wideband};
pub use feed::{Antenna, Band, Feed, ReflectionPoint, ReflectionTable, Resonator};
pub use fitting::PartOnLine;
pub use junction::{DEFAULT_GRADING, JunctionOutcome, worst_case};
pub use laminate::Laminate;
pub use lane::{Lane, LineRef, Modulation, Note, Port, VoltageRange};
pub use limit::{Bound, Limit, LimitKind, LossKind, MaskPoint};
pub use line::{LineFault, LineLoss, LossPoint, dielectric_attenuation, resolve_loss};
pub use lower::read;
pub use part::{CapacitanceRating, Grading, Mismatch, Part, Polarity};
pub use path::{
    COUPLING, Ctle, DEFAULT_RISE_UI, Driver, Element, Immittance, Line, LineKind, Path, PathElement, Protector, Radio,
    Receiver, StubSide, Via, ViaStub,
};
pub use slow::{Bus, Charging, Rail};
pub use strength::{Asks, ClampPoint, Leakage, Needs, Strength, TemperatureRange};
