//! The one constructor of a line that holds it against everything a line must be.

use std::sync::Arc;

use super::flaw::{Flaws, Place};
use super::values::Found;
use super::{elements, ends, stated};
use crate::figures::*;
use crate::model::{
    Antenna, Band, Bounds, Bus, Feed, FeedLimit, Head, Kind, Lane, LaneLimit, Limit, Line, Mask, Part, Path, Rail,
    Voltages,
};
use crate::units::Hertz;

impl Line {
    /// A line that can be sized.
    ///
    /// # Errors
    /// Everything it must not be: elements of the path that are missing or misplaced, values out of range, limits it
    /// cannot be asked.
    pub fn new(head: Head, kind: Kind) -> Result<Line, Flaws> {
        let mut found = Found::default();
        check_head(&head, &mut found);
        match &kind {
            Kind::Lane(lane) => {
                check_pair_voltage(&head, lane, &mut found);
                check_lane(lane, &mut found);
            }
            Kind::Feed(feed) => check_feed(feed, &mut found),
            Kind::Bus(bus) => check_bus(bus, &mut found),
            Kind::Rail(Rail { current, part, path }) => {
                part.iter().for_each(|part| stated::check_part(part, Place::Line, &mut found));
                current.iter().for_each(|i| found.within(Place::Line, "current", i.0, CURRENT));
                check_path(path.as_ref(), part.as_ref(), LineKind::Rail, &mut found);
            }
        }
        if found.flaws.is_empty() { Ok(Line { head, kind }) } else { Err(Flaws { list: found.flaws }) }
    }
}

fn check_head(head: &Head, found: &mut Found) {
    if head.name.trim().is_empty() {
        found.push("missing-name", Place::Line, "a line has a name");
    }
    found.within(Place::Line, "count", f64::from(head.count), COUNT);
    for range in head.voltage.iter().chain(&head.pair_voltage) {
        found.within(Place::Line, "voltage", range.low.0, SIGNED_VOLTAGE);
        found.within(Place::Line, "voltage", range.high.0, SIGNED_VOLTAGE);
        if range.high < range.low {
            found.push("range-order", Place::Line, "a range of voltages goes from low to high");
        }
    }
    if let Some(range) = &head.demands.temperature {
        found.within(Place::Line, "temperature", range.low, TEMPERATURE);
        found.within(Place::Line, "temperature", range.high, TEMPERATURE);
        if range.high < range.low {
            found.push("range-order", Place::Line, "a range of temperatures goes from low to high");
        }
    }
}

/// A voltage between the lines of a pair, and one that its lines can have.
fn check_pair_voltage(head: &Head, lane: &Lane, found: &mut Found) {
    let (Some(stated), Voltages { pair: Some(pair), .. }) = (head.pair_voltage, head.voltages()) else {
        return;
    };
    if !lane.differential {
        let cure = "delete `pair_voltage`, or write `reference … differential`";
        found.cured(
            "pair-voltage-single-ended",
            Place::Field("pair_voltage"),
            "a single line has no pair's voltage",
            cure,
        );
    } else if pair.low > stated.high || pair.high < stated.low {
        let message = format!("the lines of this pair are at most {} apart", pair.magnitudes().high);
        let cure = "state the voltage between the two lines, within ± (high − low) of `line_voltage`";
        found.cured("pair-voltage-range", Place::Field("pair_voltage"), message, cure);
    }
}

/// What is asked of a lane.
fn check_lane(lane: &Lane, found: &mut Found) {
    // A bit rate may be twice the symbol rate.
    let rates = Range { low: BIT_RATE.low / 2.0, ..SYMBOL_RATE };
    found.within(Place::Line, "symbol_rate", lane.symbol_rate.0, rates);
    found.within(Place::Line, "reference", lane.reference.0, IMPEDANCE);
    check_limits(&lane.limits, "a lane", found);
    for (index, limit) in lane.limits.iter().enumerate() {
        check_lane_limit(&limit.of, Place::Limit(index), lane, found);
    }
    ends::check(&lane.path, LineKind::Lane, found);
    elements::check(&lane.path, found);
}

/// A limit that this lane cannot be asked.
fn check_lane_limit(limit: &LaneLimit, at: Place, lane: &Lane, found: &mut Found) {
    let unlike = lane.path.protector().is_some_and(|protector| protector.mismatch.is_some());
    match limit {
        LaneLimit::EyeOpening(_) if lane.path.driver().is_some_and(|driver| driver.swing.is_none()) => found.cured(
            "needs-swing",
            at,
            "an eye opening in volts needs the driver's swing",
            "add e.g. `swing 1 V` to the driver, or delete `needs`",
        ),
        LaneLimit::ModeConversion(_) | LaneLimit::ModeConversionReflected(_) if !lane.differential => found.cured(
            "conversion-single-ended",
            at,
            "a single line has no modes to convert",
            "delete the limit, or write `reference … differential`",
        ),
        LaneLimit::ModeConversion(_) | LaneLimit::ModeConversionReflected(_) if !unlike => found.cured(
            "conversion-without-mismatch",
            at,
            "mode conversion comes from a part whose lines differ, and none is stated",
            "name a part with a `mismatch` in the protector, or delete the limit",
        ),
        LaneLimit::ModeConversionReflected(_) if lane.path.delay_to_protector().is_none() => found.cured(
            "limit-not-seen",
            at,
            "`mode_conversion_reflected` is seen at the port plane, and this one lies inward of the protector",
            "move `plane` to the outer side of the protector, or delete the limit",
        ),
        LaneLimit::AddedRise(_) if !lane.passes_direct_current() => found.cured(
            "rise-without-dc",
            at,
            "this path passes no direct current: its step has no 10–90 % time",
            "delete the limit, or use worst_eye_penalty",
        ),
        _ => {}
    }
}

fn check_feed(feed: &Feed, found: &mut Found) {
    found.within(Place::Line, "band", feed.band.low.0, FREQUENCY);
    found.within(Place::Line, "band", feed.band.high.0, FREQUENCY);
    if feed.band.high < feed.band.low {
        found.push("range-order", Place::Line, "a band goes from low to high");
    }
    found.within(Place::Line, "reference", feed.reference.0, IMPEDANCE);
    feed.current.iter().for_each(|i| found.within(Place::Line, "current", i.0, CURRENT));
    feed.power.iter().for_each(|power| found.derived(Place::Line, "power", power.0));
    check_limits(&feed.limits, "a feed", found);
    ends::check(&feed.path, LineKind::Feed, found);
    elements::check(&feed.path, found);
    check_reach(feed, found);
}

/// What a table does not reach, and a detuning without a resonance.
fn check_reach(feed: &Feed, found: &mut Found) {
    let Some(antenna) = feed.path.antenna() else { return };
    if let Antenna::Table(table) = antenna {
        let Some(span) = table.reach() else { return };
        let outside = |low: Hertz, high: Hertz| low < span.low || high > span.high;
        let reach = format!("the table \"{}\" reaches from {} to {}", table.name, span.low, span.high);
        let Band { low, high } = feed.band;
        if outside(low, high) {
            let message = format!("{reach}, not over the band {low} to {high}");
            return found.cured("table-span", Place::Field("band"), message, "measure the antenna over the whole band");
        }
        for (index, limit) in feed.limits.iter().enumerate() {
            let Some((first, last)) = limit.of.mask().map(Mask::span).filter(|(a, b)| outside(*a, *b)) else {
                continue;
            };
            let message = format!("{reach}, not over this mask {first} to {last}");
            found.cured("table-span", Place::Limit(index), message, "measure the antenna over the whole mask");
        }
    }
    for (index, limit) in feed.limits.iter().enumerate() {
        if antenna.resonator().is_none() && matches!(limit.of, FeedLimit::Detuning(_)) {
            let which = if matches!(antenna, Antenna::Table(_)) { "a table" } else { "a plain resistance" };
            found.cured(
                "no-resonance",
                Place::Limit(index),
                format!("`detuning` needs a resonator, and this antenna is {which}"),
                "state the antenna as `antenna parallel …` or `antenna series …`, or delete the limit",
            );
        }
    }
}

fn check_bus(bus: &Bus, found: &mut Found) {
    bus.rate.iter().for_each(|rate| found.within(Place::Line, "rate", *rate, BIT_RATE));
    bus.resistance().iter().for_each(|r| found.within(Place::Line, "resistance", r.0, SHUNT_RESISTANCE));
    found.within(Place::Line, "wiring", bus.wiring.0, CAPACITANCE);
    found.within(Place::Line, "inputs", bus.inputs.0, CAPACITANCE);
    found.within(Place::Line, "nodes", f64::from(bus.nodes), COUNT);
    bus.fitted.iter().for_each(|c| found.derived(Place::Line, "fitted", c.0));
    bus.part.iter().for_each(|part| stated::check_part(part, Place::Line, found));
    check_path(bus.path.as_ref(), bus.part.as_ref(), LineKind::Bus, found);
    check_bounds(&bus.limits, found);
    for (index, limit) in bus.limits.iter().enumerate() {
        if limit.of.needs_resistance() && bus.charging.is_none() {
            let word = limit.of.figure().word();
            let message = format!("`{word}` needs the resistance that the bus charges through");
            found.cured(
                "no-resistance",
                Place::Limit(index),
                message,
                "add e.g. `pull_up 2.2 kohm`, or `source 100 ohm`",
            );
        }
    }
}

/// The path of a bus or a rail, whose protector is the part of the line.
fn check_path(path: Option<&Path>, part: Option<&Arc<Part>>, kind: LineKind, found: &mut Found) {
    let Some(path) = path else { return };
    ends::check(path, kind, found);
    elements::check(path, found);
    let own = path.protector().and_then(|protector| protector.part.as_ref());
    if own.is_some_and(|own| part != Some(own)) {
        let message = format!("the protector of this path is another part than that of the {}", kind.word());
        found.cured("parts-differ", Place::Element(path.protector_index()), message, PARTS_CURE);
    }
}

/// What to do about a protector that is another part than its line's.
pub const PARTS_CURE: &str = "name the part once: in the line, or in the protector of its path";

/// At least one limit, with its bounds.
fn check_limits<B: Bounds>(limits: &[Limit<B>], what: &str, found: &mut Found) {
    if limits.is_empty() {
        found.push("no-limits", Place::Line, format!("{what} has at least one limit"));
    }
    check_bounds(limits, found);
}

/// Each figure limited once, its bounds in their range.
fn check_bounds<B: Bounds>(limits: &[Limit<B>], found: &mut Found) {
    for (index, limit) in limits.iter().enumerate() {
        let (at, figure) = (Place::Limit(index), limit.of.figure());
        if limits[..index].iter().any(|earlier| earlier.of.figure() == figure) {
            found.push("duplicate-limit", at, format!("`{}` is limited twice", figure.word()));
        }
        limit.of.bound().iter().for_each(|bound| found.within(at, figure.word(), *bound, figure.range));
        for point in limit.of.mask().map_or(&[][..], Mask::points) {
            found.within(at, figure.word(), point.level, figure.range);
            found.within(at, "frequency", point.frequency.0, FREQUENCY);
        }
        let read = limit.of.read();
        read.rise.iter().for_each(|t| found.within(at, "rise", t.0, TIME));
        read.until.iter().for_each(|t| found.within(at, "until", t.0, TIME));
        limit.of.below().iter().for_each(|z| found.within(at, "below", z.0, IMPEDANCE));
        if let Some((low, high)) = limit.of.levels() {
            found.within(at, "level", low, EDGE_LEVEL);
            found.within(at, "level", high, EDGE_LEVEL);
            if high <= low {
                found.push("range-order", at, "a rise goes from the lower level to the higher one");
            }
        }
    }
}
