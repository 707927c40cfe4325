//! What the lines of a sheet ask for, and what its parts state, as the checks see it.

use super::{Demand, Footprint, Rating};
use crate::model::{Bus, Feed, Head, Lane, Part, Path};
use crate::units::{Ohm, SPEED_OF_LIGHT, Second};

impl Demand {
    /// What a lane asks for, with the footprint of its protector.
    pub fn of_lane(head: &Head, lane: &Lane) -> Demand {
        Demand { footprint: footprint(&lane.path, lane.half_reference()), ..Demand::of(head) }
    }

    /// What a feed asks for, the peak of its power at this reflection |Γ| included.
    pub fn of_feed(head: &Head, feed: &Feed, reflection: f64) -> Demand {
        Demand {
            footprint: footprint(&feed.path, feed.reference),
            feed_peak: feed.peak_voltage(reflection),
            ..Demand::of(head)
        }
    }

    /// What a bus asks for. One that charges through a resistance can supply current.
    pub fn of_bus(head: &Head, bus: &Bus) -> Demand {
        Demand { can_supply: bus.charging.is_some(), ..Demand::of(head) }
    }

    /// What a rail asks for; it can supply current.
    pub fn of_rail(head: &Head) -> Demand {
        Demand { can_supply: true, ..Demand::of(head) }
    }

    fn of(head: &Head) -> Demand {
        Demand { line_voltage: head.voltage, asks: head.demands.clone(), ..Demand::default() }
    }
}

/// What lies between a line and its part.
fn footprint(path: &Path, reference: Ohm) -> Footprint {
    path.protector().map_or_else(Footprint::default, |p| Footprint {
        ground_inductance: p.inductance,
        stub_delay: Second(p.stub.0 * p.stub_permittivity.sqrt() / SPEED_OF_LIGHT),
        reference,
    })
}

impl Rating {
    /// What a part states; `across` where its value across the pair counts on the line.
    pub fn of(part: &Part, across: bool) -> Rating {
        Rating { polarity: part.polarity, inductance: part.inductance, across, strength: part.strength.clone() }
    }
}
