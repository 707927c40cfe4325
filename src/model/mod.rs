//! The port as physics sees it: lanes, the elements of their paths, parts, limits.
//!
//! Values are SI and stand as the sheet states them: the differential ones across the pair, the
//! others per line. The half circuit is made in [`crate::network`].

mod debye;
pub mod geometry;
mod lane;
mod limit;
mod line;
mod part;
mod path;

pub use debye::{Debye, DebyeError};
pub use lane::{Lane, Modulation, Note, Port, VoltageRange};
pub use limit::{Bound, Limit, LimitKind, MaskPoint};
pub use line::LineLoss;
pub use part::{CapacitanceRating, Grading, Part, Polarity};
pub use path::{
    Driver, Element, Immittance, Line, LineKind, Path, PathElement, Protector, Receiver, StubSide, Via, ViaStub,
};
