//! What a line asks of its part where it sits.

use std::sync::Arc;

use crate::budget::IntervalSet;
use crate::model::{Bus, Demands, DirectWay, Feed, Head, Lane, LaneLimit, Part, Path, Rail, VoltageRange, Voltages};
use crate::transient::SLOW_REFERENCE;
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
    /// Whether its voltage counts where it is not stated: for a part that states what it may see.
    pub direct: bool,
    /// Whether it counts then for a part that states nothing of it too, since another part does.
    pub compared: bool,
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
        let supply = Supply::by(lane.path.direct_ways(lane.across_factor()));
        let converts =
            |limit: &LaneLimit| matches!(limit, LaneLimit::ModeConversion(_) | LaneLimit::ModeConversionReflected(_));
        let conversion = lane.limits.iter().any(|limit| converts(&limit.of));
        Duty { footprint, supply, direct: true, differential: lane.differential, conversion, ..Duty::of(head) }
    }

    /// A feed, the peak of its power included: `share` of the radio's open voltage reaches the part.
    pub fn of_feed(head: &Head, feed: &Feed, share: f64) -> Duty {
        let footprint = Footprint::of(&feed.path, feed.reference);
        let direct = head.voltage.is_some() || feed.current.is_some();
        let biased = direct && feed.path.direct_ways(1.0).into_iter().any(DirectWay::passes);
        let supply = if biased { Supply::Bias(feed.current) } else { Supply::Blocked };
        let (feed_peak, open_peak) = (feed.peak_voltage(share), feed.peak_voltage(1.0));
        Duty { footprint, supply, direct, feed_peak, open_peak, ..Duty::of(head) }
    }

    /// A bus, with the footprint of its protector where it has a path. It supplies current through the resistance it charges
    /// through.
    pub fn of_bus(head: &Head, bus: &Bus) -> Duty {
        const UNKNOWN: Supply = Supply::Unknown("the bus states neither `pull_up` nor `source`");
        let supply = bus.resistance().map_or(UNKNOWN, Supply::Through);
        Duty { footprint: Footprint::of_slow(bus.path.as_ref()), supply, direct: true, ..Duty::of(head) }
    }

    /// A rail, with the footprint of its protector where it has a path.
    pub fn of_rail(head: &Head, rail: &Rail) -> Duty {
        let footprint = Footprint::of_slow(rail.path.as_ref());
        Duty { footprint, supply: Supply::Rail(rail.current), direct: true, ..Duty::of(head) }
    }

    /// The same for a choice among these parts: what one of them states is asked of all.
    pub(super) fn among(self, parts: &[Arc<Part>]) -> Duty {
        Duty { compared: parts.iter().any(|part| part.bounds_voltage()), ..self }
    }

    /// As a guard meets it that is the element of this index: across the pair or not, and in a lane behind other resistances
    /// than the protector. The path of a bus or a rail, and a feed's, supply it as they do the protector.
    pub(super) fn of_guard(&self, path: &Path, element: usize, across: bool) -> Duty {
        let mut duty = self.clone();
        duty.footprint.across = across;
        if path.driver().is_some() {
            duty.supply = Supply::by(path.direct_ways_to(element, if self.differential { 0.5 } else { 1.0 }));
        }
        duty
    }

    pub(crate) fn of(head: &Head) -> Duty {
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

    /// Why the voltage that the part sees is not known.
    pub(super) fn no_voltage(&self, part: &Part) -> &'static str {
        if self.is_across_alone(part) {
            "the lane states neither `line_voltage` nor `pair_voltage`"
        } else {
            "the line states no `line_voltage`"
        }
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
    /// No direct current reaches the part.
    #[default]
    Blocked,
    /// From the line's highest voltage through a resistance, that of one line of a pair: of a lane both sides of the part
    /// in parallel.
    Through(Ohm),
    /// Through something that is not stated: why.
    Unknown(&'static str),
    /// From a rail, up to this current; one that states none supplies more than any part holds at.
    Rail(Option<Ampere>),
    /// From the bias of a feed's radio, up to this current where it is stated.
    Bias(Option<Ampere>),
}

impl Supply {
    /// What both sides of a part in a lane let through.
    fn by(ways: [DirectWay; 2]) -> Supply {
        let conductance: f64 = ways.iter().map(|way| way.conductance).sum();
        if ways.iter().any(|way| way.inductive) {
            Supply::Unknown("an inductance to ground lets direct current through, and how much is not stated")
        } else if conductance > 0.0 {
            Supply::Through(Ohm(1.0 / conductance))
        } else {
            Supply::Blocked
        }
    }
}

/// What lies between the line and the part.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Footprint {
    /// Inductance of the ground via.
    pub ground_inductance: Henry,
    /// Resistance in series with the part, beside the part's own.
    pub resistance: Ohm,
    /// Whether the part counts across the pair.
    pub across: bool,
    /// Delay of the stub from the trace to the part.
    pub stub_delay: Second,
    /// Z_ref, the stub's impedance: half the stated reference for a pair.
    pub reference: Ohm,
}

impl Footprint {
    /// That of the protector in the path of a bus or a rail.
    fn of_slow(path: Option<&Path>) -> Footprint {
        path.map_or_else(Footprint::default, |path| Footprint::of(path, SLOW_REFERENCE))
    }

    /// That of the protector of a path, for a part to ground.
    fn of(path: &Path, reference: Ohm) -> Footprint {
        path.protector().map_or_else(Footprint::default, |p| Footprint {
            ground_inductance: p.inductance,
            resistance: p.resistance,
            across: false,
            stub_delay: Second(p.stub.0 * p.stub_permittivity.sqrt() / SPEED_OF_LIGHT),
            reference,
        })
    }

    /// The voltage of this current across the resistance in series with the part, in volt.
    pub(super) fn drop(&self, current: Ampere) -> f64 {
        self.resistance.0 * current.0
    }

    /// Inductance between the line and ground beside the part's own in henry: ground via + Z_ref · stub delay.
    pub fn inductance(&self) -> f64 {
        self.ground_inductance.0 + self.reference.0 * self.stub_delay.0
    }
}
