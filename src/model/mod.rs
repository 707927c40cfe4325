//! The port as physics sees it: lanes, the elements of their paths, parts, limits.
//!
//! Values are SI and stand as the sheet states them: the differential ones across the pair, the
//! others per line. The half circuit is made in [`crate::network`].

mod ends;
mod feed;
mod lane;
mod limit;
mod mask;
mod part;
mod path;
mod protector;
mod slow;
mod strength;
mod transmission_line;
mod via;

pub use ends::{Ctle, DEFAULT_RISE_UI, Driver, Radio, Receiver};
pub use feed::{Antenna, Band, Feed, ReflectionPoint, ReflectionTable, Resonator};
pub use lane::{Design, Lane, LineRef, Modulation, Note, VoltageRange};
pub use limit::{Bounds, BusLimit, FeedLimit, LaneLimit, Limit, Loss, Over};
pub use mask::{Mask, MaskPoint, level_between};
pub use part::{CapacitanceRating, Grading, Mismatch, Part, Polarity};
pub use path::{COUPLING, Element, Immittance, Path, PathElement};
pub use protector::{PartOnLine, Protector};
pub use slow::{Bus, Charging, Rail};
pub use strength::{Asks, ClampPoint, Leakage, Needs, Strength, TemperatureRange};
pub use transmission_line::{LineLoss, Medium, TransmissionLine};
pub use via::{StubSide, Via, ViaStub};
