//! What an element's values depend on besides what is stated of it.

use crate::model::{Bus, Feed, Kind, Line, Rail, Voltages};
use crate::units::Hertz;

/// Permittivity where none is stated.
pub const DEFAULT_PERMITTIVITY: f64 = 4.0;

/// Where the elements of a bus's or a rail's path are evaluated: the edge of a contact discharge reaches that far, about
/// 0.35/0.8 ns (own choice).
pub const DISCHARGE_FREQUENCY: Hertz = Hertz(0.5e9);

/// What an element's values depend on besides what is stated of it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Surroundings {
    /// Where geometries are evaluated and losses hold that state no frequency: the Nyquist frequency of a lane, the
    /// middle of a feed's band, [`DISCHARGE_FREQUENCY`] of a bus or a rail.
    pub frequency: Hertz,
    /// Whether the line is a pair.
    pub differential: bool,
    /// What a part meets on it.
    pub voltages: Voltages,
}

impl Surroundings {
    /// Those of the elements of a line; `None` for a line without a path.
    pub fn of(line: &Line) -> Option<Surroundings> {
        let (frequency, differential) = match &line.kind {
            Kind::Lane(lane) => (line.head.resolved_at.unwrap_or_else(|| lane.nyquist()), lane.differential),
            Kind::Feed(Feed { band, .. }) => (band.middle(), false),
            Kind::Bus(Bus { path: Some(_), .. }) | Kind::Rail(Rail { path: Some(_), .. }) => {
                (DISCHARGE_FREQUENCY, false)
            }
            Kind::Bus(_) | Kind::Rail(_) => return None,
        };
        Some(Surroundings { frequency, differential, voltages: line.head.voltages() })
    }
}
