//! A port and its lanes.

use std::sync::Arc;

use super::{Asks, Bus, Feed, LaneLimit, Limit, Part, Path, Rail};
use crate::diag::Span;
use crate::units::{Baud, Farad, Hertz, Ohm, Volt};

/// Everything a sheet describes.
#[derive(Debug, Clone, Default)]
pub struct Design {
    /// The sheet's title.
    pub title: Option<String>,
    /// High-speed lanes, in sheet order.
    pub lanes: Vec<Lane>,
    /// Antenna feeds, in sheet order.
    pub feeds: Vec<Feed>,
    /// Slow buses, in sheet order.
    pub buses: Vec<Bus>,
    /// Power rails, in sheet order.
    pub rails: Vec<Rail>,
    /// Parts, in sheet order.
    pub parts: Vec<Arc<Part>>,
}

impl Design {
    /// The names of all lines: lanes, feeds, buses, rails. A line is known by its place in this list.
    pub fn names(&self) -> Vec<&str> {
        let lanes = self.lanes.iter().map(|lane| lane.name.as_str());
        let feeds = self.feeds.iter().map(|feed| feed.name.as_str());
        let buses = self.buses.iter().map(|bus| bus.name.as_str());
        let rails = self.rails.iter().map(|rail| rail.name.as_str());
        lanes.chain(feeds).chain(buses).chain(rails).collect()
    }

    /// Judges this capacitance on every line instead of the one the sheet states; a rail has none.
    pub fn fit(&mut self, capacitance: Farad) {
        self.lanes.iter_mut().for_each(|lane| lane.path.fit(capacitance));
        self.feeds.iter_mut().for_each(|feed| feed.path.fit(capacitance));
        for bus in &mut self.buses {
            bus.fitted = Some(capacitance);
            bus.part = None;
        }
    }

    /// The line at this place in [`Design::names`].
    pub fn line(&self, index: usize) -> Option<LineRef<'_>> {
        let feed = index.checked_sub(self.lanes.len());
        let bus = feed.and_then(|index| index.checked_sub(self.feeds.len()));
        let rail = bus.and_then(|index| index.checked_sub(self.buses.len()));
        let lane = self.lanes.get(index).map(LineRef::Lane);
        lane.or_else(|| self.feeds.get(feed?).map(LineRef::Feed))
            .or_else(|| self.buses.get(bus?).map(LineRef::Bus))
            .or_else(|| self.rails.get(rail?).map(LineRef::Rail))
    }
}

/// A line of any kind.
#[derive(Debug, Clone, Copy)]
pub enum LineRef<'a> {
    /// A high-speed lane.
    Lane(&'a Lane),
    /// An antenna feed.
    Feed(&'a Feed),
    /// A slow bus.
    Bus(&'a Bus),
    /// A power rail.
    Rail(&'a Rail),
}

/// A line, or a pair of lines, that carries symbols at a rate.
#[derive(Debug, Clone)]
pub struct Lane {
    /// The lane's name.
    pub name: String,
    /// Where the name stands.
    pub span: Span,
    /// The connector it belongs to.
    pub port: Option<String>,
    /// How many identical lanes there are.
    pub count: u32,
    /// Modulation.
    pub modulation: Modulation,
    /// Symbol rate f_s.
    pub symbol_rate: Baud,
    /// Reference impedance as stated: across the pair where differential.
    pub reference: Ohm,
    /// Whether the lane is a pair.
    pub differential: bool,
    /// Range of the line's working voltage.
    pub line_voltage: Option<VoltageRange>,
    /// What it meets and asks for.
    pub asks: Asks,
    /// The path between driver and receiver.
    pub path: Path,
    /// The limits, in sheet order.
    pub limits: Vec<Limit<LaneLimit>>,
    /// Values used that the sheet does not state.
    pub defaults: Vec<Note>,
    /// What the reader should know.
    pub warnings: Vec<Note>,
}

impl Lane {
    /// The Nyquist frequency f_N = f_s/2.
    pub fn nyquist(&self) -> Hertz {
        self.symbol_rate.nyquist()
    }

    /// Reference of the half circuit in ohm: half the stated one for a pair.
    pub fn half_reference(&self) -> Ohm {
        self.reference * self.across_factor()
    }

    /// What an impedance stated across the pair is multiplied by in the half circuit: 1/2, or 1 for a single line.
    pub fn across_factor(&self) -> f64 {
        if self.differential { 0.5 } else { 1.0 }
    }
}

/// Line code: how many levels a symbol has.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Modulation {
    /// Two levels.
    Nrz,
    /// Three levels.
    Pam3,
    /// Four levels.
    Pam4,
    /// Five levels.
    Pam5,
    /// Sixteen levels.
    Pam16,
}

impl Modulation {
    /// The word of the sheet and of the results.
    pub fn word(self) -> &'static str {
        match self {
            Modulation::Nrz => "nrz",
            Modulation::Pam3 => "pam3",
            Modulation::Pam4 => "pam4",
            Modulation::Pam5 => "pam5",
            Modulation::Pam16 => "pam16",
        }
    }

    /// Number of levels M.
    pub fn levels(self) -> u32 {
        match self {
            Modulation::Nrz => 2,
            Modulation::Pam3 => 3,
            Modulation::Pam4 => 4,
            Modulation::Pam5 => 5,
            Modulation::Pam16 => 16,
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

/// A remark that belongs to a result: a default that was used, or a warning.
#[derive(Debug, Clone, PartialEq)]
pub struct Note {
    /// Stable identifier in kebab case.
    pub code: &'static str,
    /// The remark.
    pub text: String,
    /// The place in the sheet it speaks of.
    pub span: Option<Span>,
}
