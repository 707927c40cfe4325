//! One line of a port: what every kind has, and what only its own has.

use std::sync::Arc;

use super::{AddressedValue, Bus, Demands, Distribution, Feed, Lane, Note, Part, PartOnLine, Path, PathElement, Rail};
use crate::diag::Span;
use crate::figures::LineKind;
use crate::units::{Farad, Hertz, Volt};

/// A line, or several that are alike.
#[derive(Debug, Clone)]
pub struct Line {
    /// What a line of any kind has.
    pub head: Head,
    /// What it is.
    pub kind: Kind,
}

impl Line {
    /// The part at its protector, where one is named.
    pub fn part(&self) -> Option<&Arc<Part>> {
        match &self.kind {
            Kind::Lane(Lane { path, .. }) | Kind::Feed(Feed { path, .. }) => path.protector()?.part.as_ref(),
            Kind::Bus(Bus { part, .. }) | Kind::Rail(Rail { part, .. }) => part.as_ref(),
        }
    }

    /// The path of a lane or a feed, and of a bus or a rail that states one.
    pub fn path(&self) -> Option<&Path> {
        match &self.kind {
            Kind::Lane(Lane { path, .. }) | Kind::Feed(Feed { path, .. }) => Some(path),
            Kind::Bus(Bus { path, .. }) | Kind::Rail(Rail { path, .. }) => path.as_ref(),
        }
    }

    /// The element of its path of this number.
    pub fn element(&self, number: usize) -> Option<&PathElement> {
        self.path()?.elements.iter().find(|place| place.number == number)
    }

    /// The capacitance that is judged, where one is fitted; a rail has none.
    pub fn fitted(&self) -> Option<Farad> {
        match &self.kind {
            Kind::Lane(Lane { path, .. }) | Kind::Feed(Feed { path, .. }) => path.protector()?.fitted,
            Kind::Bus(bus) => bus.fitted,
            Kind::Rail(_) => None,
        }
    }

    /// The same to be changed; what the circuit has of a stated value follows only when the path is resolved again.
    pub fn path_mut(&mut self) -> Option<&mut Path> {
        match &mut self.kind {
            Kind::Lane(Lane { path, .. }) | Kind::Feed(Feed { path, .. }) => Some(path),
            Kind::Bus(Bus { path, .. }) | Kind::Rail(Rail { path, .. }) => path.as_mut(),
        }
    }

    /// Puts a part in the protector's place, as it is on this line.
    pub fn fit_part(&mut self, part: &Arc<Part>, on_line: &PartOnLine) {
        match &mut self.kind {
            Kind::Lane(Lane { path, .. }) | Kind::Feed(Feed { path, .. }) => path.fit_part(part, on_line),
            Kind::Bus(bus) => {
                bus.fitted = Some(on_line.capacitance);
                bus.part = Some(Arc::clone(part));
                bus.path.iter_mut().for_each(|path| path.fit_part(part, on_line));
            }
            Kind::Rail(rail) => {
                rail.part = Some(Arc::clone(part));
                rail.path.iter_mut().for_each(|path| path.fit_part(part, on_line));
            }
        }
    }

    /// The word of its kind.
    pub fn word(&self) -> &'static str {
        self.kind.line_kind().word()
    }

    /// Judges this capacitance instead of the one the sheet states, without the part's name; a rail has none.
    pub fn fit(&mut self, capacitance: Farad) {
        match &mut self.kind {
            Kind::Lane(Lane { path, .. }) | Kind::Feed(Feed { path, .. }) => path.fit(capacitance),
            Kind::Bus(bus) => {
                bus.fitted = Some(capacitance);
                bus.part = None;
                bus.path.iter_mut().for_each(|path| path.fit(capacitance));
            }
            Kind::Rail(_) => {}
        }
    }
}

/// What a line of any kind has.
#[derive(Debug, Clone)]
pub struct Head {
    /// Its name.
    pub name: String,
    /// Where the name stands.
    pub span: Span,
    /// The connector it belongs to.
    pub port: Option<String>,
    /// How many identical lines there are; a pair counts once.
    pub count: u32,
    /// Range of its working voltage.
    pub voltage: Option<VoltageRange>,
    /// Range of the voltage between the two lines of a pair, where it is stated.
    pub pair_voltage: Option<VoltageRange>,
    /// What it meets and asks for.
    pub demands: Demands,
    /// Values used that the sheet does not state.
    pub defaults: Vec<Note>,
    /// What the reader should know.
    pub warnings: Vec<Note>,
    /// The values of its path, of itself, of its laminates and its parts that have an address, in the order of the sheet;
    /// empty for a line built without a sheet.
    pub values: Arc<[AddressedValue]>,
    /// How they lie between their bounds.
    pub distribution: Distribution,
    /// The Nyquist frequency of the sheet, of a lane at another rate than its sheet's: its path is resolved there.
    pub resolved_at: Option<Hertz>,
}

impl Head {
    /// The head of one line of this name, of which nothing else is known.
    pub fn new(name: impl Into<String>) -> Head {
        Head {
            name: name.into(),
            span: Span::default(),
            port: None,
            count: 1,
            voltage: None,
            pair_voltage: None,
            demands: Demands::default(),
            defaults: Vec::new(),
            warnings: Vec::new(),
            values: Arc::default(),
            distribution: Distribution::default(),
            resolved_at: None,
        }
    }

    /// Whether a value of it states a `±`.
    pub fn has_tolerance(&self) -> bool {
        self.values.iter().filter_map(|value| value.tolerance.as_ref()).any(|tolerance| tolerance.stated)
    }

    /// What a part meets: between the lines of a pair ± (high − low) of the working voltage, narrowed by what is stated.
    pub fn voltages(&self) -> Voltages {
        let apart = self.voltage.map(|range| (range.high - range.low).0);
        let within = |volts: Volt| Volt(apart.map_or(volts.0, |most| volts.0.max(-most).min(most)));
        let widest = apart.map(|most| VoltageRange { low: Volt(-most), high: Volt(most) });
        let narrowed = |range: VoltageRange| VoltageRange { low: within(range.low), high: within(range.high) };
        Voltages { line: self.voltage, pair: self.pair_voltage.map(narrowed).or(widest) }
    }
}

/// What a part meets on a line. `None` is not known.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Voltages {
    /// Of a line to ground.
    pub line: Option<VoltageRange>,
    /// Between the two lines of a pair.
    pub pair: Option<VoltageRange>,
}

/// What a line is, with what only its own kind has.
#[derive(Debug, Clone)]
#[non_exhaustive]
pub enum Kind {
    /// A high-speed lane.
    Lane(Lane),
    /// An antenna feed.
    Feed(Feed),
    /// A slow bus.
    Bus(Bus),
    /// A power rail.
    Rail(Rail),
}

impl Kind {
    /// The kind alone.
    pub fn line_kind(&self) -> LineKind {
        match self {
            Kind::Lane(_) => LineKind::Lane,
            Kind::Feed(_) => LineKind::Feed,
            Kind::Bus(_) => LineKind::Bus,
            Kind::Rail(_) => LineKind::Rail,
        }
    }
}

/// A range of voltages, low to high.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct VoltageRange {
    /// Lowest voltage.
    pub low: Volt,
    /// Highest voltage.
    pub high: Volt,
}

impl VoltageRange {
    /// Least and largest magnitude.
    pub fn magnitudes(self) -> VoltageRange {
        let (low, high) = (self.low.0.abs(), self.high.0.abs());
        let reverses = self.low.0 <= 0.0 && self.high.0 >= 0.0;
        VoltageRange { low: Volt(if reverses { 0.0 } else { low.min(high) }), high: Volt(low.max(high)) }
    }
}
