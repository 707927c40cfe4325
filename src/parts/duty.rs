//! What a line asks of its part where it sits.

use crate::budget::IntervalSet;
use crate::model::{Bus, Demands, Feed, Head, Lane, LaneLimit, Part, Path, Rail, VoltageRange, Voltages};
use crate::units::{Ampere, Farad, Henry, Ohm, SPEED_OF_LIGHT, Second, Volt};

/// A line as its part meets it. What is `None`, zero or empty is not asked for, and makes no check.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Duty {
    /// Range of the line's working voltage.
    pub voltage: Option<VoltageRange>,
    /// Range of the voltage between the two lines of a pair.
    pub pair_voltage: Option<VoltageRange>,
    /// What it meets, and what the part must have.
    pub demands: Demands,
    /// Peak voltage of the power an antenna feed carries, on top of the line voltage to either side.
    pub feed_peak: Option<Volt>,
    /// The same at an open port: twice the peak of a matched one.
    pub open_peak: Option<Volt>,
    /// The least capacitance it needs, of one line to ground; `None` where it needs none.
    pub lowest: Option<Farad>,
    /// The direct current it can feed into a part that snapped back.
    pub supply: Supply,
    /// What lies between the line and the part.
    pub footprint: Footprint,
    /// Whether it is a pair.
    pub differential: bool,
    /// Whether its mode conversion is limited.
    pub conversion: bool,
}

impl Duty {
    /// A lane with the footprint of its protector, the part in it across the pair or not.
    pub fn of_lane(head: &Head, lane: &Lane, across: bool) -> Duty {
        let footprint = Footprint { across, ..Footprint::of(&lane.path, lane.half_reference()) };
        let source = lane.path.driver().map(|driver| driver.impedance * lane.across_factor());
        let supply = match lane.path.resistance_to_protector(lane.path.driver_is_outer()).zip(source) {
            Some((series, source)) if head.voltage.is_some() => Supply::Through(source + series),
            _ => Supply::Blocked,
        };
        let converts =
            |limit: &LaneLimit| matches!(limit, LaneLimit::ModeConversion(_) | LaneLimit::ModeConversionReflected(_));
        let conversion = lane.limits.iter().any(|limit| converts(&limit.of));
        Duty { footprint, supply, differential: lane.differential, conversion, ..Duty::of(head) }
    }

    /// A feed, the peak of its power included: `share` of the radio's open voltage reaches the part.
    pub fn of_feed(head: &Head, feed: &Feed, share: f64) -> Duty {
        let footprint = Footprint::of(&feed.path, feed.reference);
        let biased = head.voltage.is_some() && feed.path.resistance_to_protector(false).is_some();
        let supply = if biased { Supply::Bias(feed.current) } else { Supply::Blocked };
        let (feed_peak, open_peak) = (feed.peak_voltage(share), feed.peak_voltage(1.0));
        Duty { footprint, supply, feed_peak, open_peak, ..Duty::of(head) }
    }

    /// A bus. One that charges through a resistance supplies current through it.
    pub fn of_bus(head: &Head, bus: &Bus) -> Duty {
        Duty { supply: bus.resistance().map_or(Supply::Blocked, Supply::Through), ..Duty::of(head) }
    }

    /// A rail.
    pub fn of_rail(head: &Head, rail: &Rail) -> Duty {
        Duty { supply: Supply::Rail(rail.current), ..Duty::of(head) }
    }

    fn of(head: &Head) -> Duty {
        let Voltages { line: voltage, pair: pair_voltage } = head.voltages();
        Duty { voltage, pair_voltage, demands: head.demands.clone(), ..Duty::default() }
    }

    /// The same line where these capacitances keep its limits and one of `c` is fitted: what it needs at least is the low end
    /// of the interval that holds `c`, else of the lowest one.
    pub fn needing(self, allowed: &IntervalSet, c: Option<Farad>) -> Duty {
        let holds = allowed.intervals().iter().find(|interval| c.is_some_and(|c| interval.contains(c.0))).copied();
        let low = holds.or(allowed.lowest()).map(|interval| Farad(interval.low));
        Duty { lowest: low.filter(|low| low.0 > 0.0), ..self }
    }

    /// Whether the part hangs across the pair of this line and nowhere else.
    pub fn is_across_alone(&self, part: &Part) -> bool {
        self.footprint.across && part.is_across_alone()
    }

    /// Range of the voltage that the part sees in work: of the line to ground, or between the two lines of a pair.
    pub fn seen_by(&self, part: &Part) -> Option<VoltageRange> {
        if self.is_across_alone(part) { self.pair_voltage } else { self.voltage }
    }

    /// Lowest and highest voltage of the line in volt, the feed's peak included; `None` where neither is known.
    pub fn extent(&self) -> Option<(f64, f64)> {
        let peak = self.feed_peak.map_or(0.0, |v| v.0);
        match self.voltage {
            Some(range) => Some((range.low.0 - peak, range.high.0 + peak)),
            None => self.feed_peak.map(|_| (-peak, peak)),
        }
    }
}

/// Where the direct current of a line comes from.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub enum Supply {
    /// No direct current reaches the part, or no direct voltage is stated.
    #[default]
    Blocked,
    /// From the line's highest voltage through a resistance, that of one line of a pair.
    Through(Ohm),
    /// From a rail, up to this current; one that states none supplies more than any part holds at.
    Rail(Option<Ampere>),
    /// From the bias of a feed's radio, up to this current where it is stated.
    Bias(Option<Ampere>),
}

/// What lies between the line and the part.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Footprint {
    /// Inductance of the ground via.
    pub ground_inductance: Henry,
    /// Whether the part counts across the pair.
    pub across: bool,
    /// Delay of the stub from the trace to the part.
    pub stub_delay: Second,
    /// Z_ref, the stub's impedance: half the stated reference for a pair.
    pub reference: Ohm,
}

impl Footprint {
    /// That of the protector of a path, for a part to ground.
    fn of(path: &Path, reference: Ohm) -> Footprint {
        path.protector().map_or_else(Footprint::default, |p| Footprint {
            ground_inductance: p.inductance,
            across: false,
            stub_delay: Second(p.stub.0 * p.stub_permittivity.sqrt() / SPEED_OF_LIGHT),
            reference,
        })
    }

    /// Inductance between the line and ground beside the part's own in henry: ground via + Z_ref · stub delay.
    pub fn inductance(&self) -> f64 {
        self.ground_inductance.0 + self.reference.0 * self.stub_delay.0
    }
}
