//! Buses and rails as results.

use super::keys::{Keyed, Keys};
use super::line::{LineHead, LineResult};
use super::outcome::{Kind, discharge, named, remarks};
use super::remarks::{LineRemarks, stated};
use crate::budget::{BusOutcome, size_bus};
use crate::diag::Sources;
use crate::model::{Bus, Head, Rail, VoltageRange};
use crate::parts::{Checks, Duty, Fitted, Verdict, line_checks};
use crate::transient::LineDischarge;
use crate::units::{Ampere, Farad, Ohm};

/// A slow bus.
pub type BusResult = LineResult<BusAbout, BusOutcome>;

/// What is stated of a bus alone.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BusAbout {
    /// Bit rate in bit/s, where stated; it enters no figure.
    pub rate: Option<f64>,
    /// The resistance it charges through, where stated.
    pub resistance: Option<Ohm>,
    /// Wiring and inputs.
    pub other_capacitance: Farad,
    /// Protectors that share the budget.
    pub nodes: u32,
}

impl Kind for BusResult {
    fn stated<K: Keys>(this: Option<&Self>, to: &mut K) {
        let about = this.map(|bus| &bus.about);
        to.number("bit_rate_bps", about.and_then(|bus| bus.rate));
        to.number("resistance_ohm", about.and_then(|bus| bus.resistance).map(|r| r.0));
        to.number("other_capacitance_f", about.map(|bus| bus.other_capacitance.0));
        to.count("nodes", about.map(|bus| bus.nodes));
    }
}

/// Sizes a bus.
pub(super) fn size(head: &Head, bus: &Bus, discharge: Option<LineDischarge>, sources: &Sources) -> BusResult {
    let part = bus.part.as_ref();
    let with = Fitted {
        part: part.map(AsRef::as_ref),
        path: bus.path.as_ref(),
        discharge: discharge.as_ref(),
        left_out: discharge.is_none(),
    };
    let checked = bus.fitted.map_or_else(Checks::default, |_| line_checks(&Duty::of_bus(head, bus), with));
    LineResult {
        head: LineRemarks { part, checked, discharge, found: Vec::new() }.head(head, sources),
        about: BusAbout {
            rate: bus.rate,
            resistance: bus.resistance(),
            other_capacitance: bus.other_capacitance(),
            nodes: bus.nodes,
        },
        limits: stated(&bus.limits, sources),
        outcome: size_bus(bus),
    }
}

/// A power rail: its part is checked, and nothing limits its capacitance.
#[derive(Debug, Clone)]
pub struct RailResult {
    /// What every line has.
    pub head: LineHead,
    /// Lowest and highest voltage.
    pub voltage: Option<VoltageRange>,
    /// What it can supply, where stated.
    pub current: Option<Ampere>,
}

impl RailResult {
    /// Whether no check of its part fails.
    pub fn passes(&self) -> bool {
        self.head.survives()
    }

    /// How many checks of its part end in this way.
    pub fn checks(&self, verdict: Verdict) -> usize {
        self.head.checks.iter().filter(|check| check.verdict == verdict).count()
    }
}

impl Keyed for RailResult {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        let head = this.map(|rail| &rail.head);
        named(head, to);
        let voltage = this.and_then(|rail| rail.voltage);
        to.ends("line_voltage_v", voltage.map(|range| (range.low.0, range.high.0)));
        to.number("current_a", this.and_then(|rail| rail.current).map(|i| i.0));
        to.text("part", head.and_then(|head| head.part.as_deref()));
        to.list("checks", head.map(|head| &head.checks));
        to.of_list("checks_failed", this.map(|rail| rail.checks(Verdict::Fails)));
        discharge(head, to);
        remarks(head, to);
    }
}

/// Checks the part of a rail.
pub(super) fn check(head: &Head, rail: &Rail, discharge: Option<LineDischarge>, sources: &Sources) -> RailResult {
    let part = rail.part.as_ref();
    let with = Fitted {
        part: part.map(AsRef::as_ref),
        path: rail.path.as_ref(),
        discharge: discharge.as_ref(),
        left_out: discharge.is_none(),
    };
    let checked = line_checks(&Duty::of_rail(head, rail), with);
    let remarks = LineRemarks { part, checked, discharge, found: Vec::new() };
    RailResult { head: remarks.head(head, sources), voltage: head.voltage, current: rail.current }
}
