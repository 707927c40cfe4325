//! What an element's values depend on besides what is stated of it.

use crate::model::{Feed, Kind, Line, Voltages};
use crate::units::Hertz;

/// Permittivity where none is stated.
pub const DEFAULT_PERMITTIVITY: f64 = 4.0;

/// What an element's values depend on besides what is stated of it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Surroundings {
    /// Where geometries are evaluated and losses hold that state no frequency: the Nyquist frequency of a lane, the
    /// middle of a feed's band.
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
            Kind::Lane(lane) => (lane.nyquist(), lane.differential),
            Kind::Feed(Feed { band, .. }) => (band.middle(), false),
            Kind::Bus(_) | Kind::Rail(_) => return None,
        };
        Some(Surroundings { frequency, differential, voltages: line.head.voltages() })
    }
}
