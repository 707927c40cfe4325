//! The lines of a port as physics sees them: the elements of their paths, parts, limits.
//!
//! Values are SI and stand as the sheet states them: the differential ones across the pair, the
//! others per line. The half circuit is made in [`crate::network`].

mod address;
mod antenna;
mod assumed;
mod band;
mod check;
mod chip;
mod coupling;
mod demands;
mod design;
mod direct;
mod ends;
mod feed;
mod guard;
mod laminate;
mod lane;
mod limit;
mod line;
mod mask;
mod neck;
mod note;
mod part;
mod path;
mod port_plane;
mod protector;
mod slow;
mod stated_line;
mod strength;
mod tolerance;
mod transmission_line;
mod values;
mod via;

pub use address::{Address, NoAddress, Owner, ValueName};
pub use antenna::{Antenna, ReflectionPoint, ReflectionTable, Resonator};
pub use band::Band;
pub use check::{BELOW_GROUND, CHIP_CURE, CurveFlaw, Flaw, Flaws, PARTS_CURE, PathWords, Place, chip_fault};
pub use chip::{Chip, ChipClamp, HUMAN_BODY, Survives};
pub use coupling::{Block, Coupling, TRANSPARENT_UI};
pub use demands::{Demands, Needs};
pub use design::{Design, SetValue};
pub use direct::DirectWay;
pub use ends::{Ctle, DEFAULT_RISE_UI, Driver, Pin, Radio, Receiver, TAP_CURE, tap_fault};
pub use feed::Feed;
pub use guard::{Guard, StatedGuard};
pub use laminate::{Laminate, Roughness};
pub use lane::{Lane, Modulation};
pub use limit::{Bounds, BusLimit, FeedLimit, LaneLimit, Limit, Loss, Over, ProfileRead};
pub use line::{Head, Kind, Line, VoltageRange, Voltages};
pub use mask::{Mask, MaskPoint, level_between};
pub use neck::NeckFault;
pub use note::Note;
pub use part::{CapacitanceRating, Grading, Mismatch, Part, Polarity};
pub use path::{Element, Immittance, Path, PathElement, Stated};
pub use protector::{Neck, PartOnLine, Protector, StatedProtector};
pub use slow::{Bus, Charging, Rail};
pub use stated_line::{Attenuation, LineAttenuation, LineImpedance, LineMake, StatedLength, StatedLine, TraceGeometry};
pub use strength::{ClampPoint, Leakage, Strength, TemperatureRange};
pub use tolerance::{AddressedValue, Distribution, Tolerance};
pub use transmission_line::{LineLoss, Medium, TransmissionLine};
pub use via::{Barrel, StatedStub, StatedVia, StubSide, Via, ViaMake, ViaStub};
