//! The elements a path is made of, from the outer end to the inner end.

use std::sync::Arc;

use super::{Antenna, LineLoss, Mismatch, Part, PartOnLine};
use crate::diag::Span;
use crate::units::{Farad, Henry, Hertz, Metre, Ohm, Second, Volt};

/// A chain of elements, outer end first, whichever way the sheet lists them.
#[derive(Debug, Clone)]
pub struct Path {
    /// Elements from the outer end (cable, link partner) to the inner end (protected chip).
    /// The first and the last are a lane's driver and receiver, either way round, or a feed's antenna and radio; exactly
    /// one is the protector.
    pub elements: Vec<PathElement>,
}

impl Path {
    /// Index of the protector.
    pub fn protector_index(&self) -> usize {
        self.elements.iter().position(|e| matches!(e.element, Element::Protector(_))).unwrap_or(0)
    }

    /// The protector.
    pub fn protector(&self) -> Option<&Protector> {
        self.elements.iter().find_map(|e| match &e.element {
            Element::Protector(p) => Some(p),
            _ => None,
        })
    }

    /// The protector, to be changed.
    pub fn protector_mut(&mut self) -> Option<&mut Protector> {
        self.elements.iter_mut().find_map(|e| match &mut e.element {
            Element::Protector(p) => Some(p),
            _ => None,
        })
    }

    /// Judges this capacitance instead of the one the sheet states, without the part's name; a part's
    /// inductance and resistance stay.
    pub fn fit(&mut self, capacitance: Farad) {
        for element in &mut self.elements {
            if let Element::Protector(protector) = &mut element.element {
                protector.fitted = Some(capacitance);
                protector.part = None;
            }
        }
    }

    /// The driver.
    pub fn driver(&self) -> Option<&Driver> {
        self.elements.iter().find_map(|e| match &e.element {
            Element::Driver(d) => Some(d),
            _ => None,
        })
    }

    /// The receiver.
    pub fn receiver(&self) -> Option<&Receiver> {
        self.elements.iter().find_map(|e| match &e.element {
            Element::Receiver(r) => Some(r),
            _ => None,
        })
    }

    /// The antenna.
    pub fn antenna(&self) -> Option<&Antenna> {
        self.elements.iter().find_map(|e| match &e.element {
            Element::Antenna(a) => Some(a),
            _ => None,
        })
    }

    /// Whether the driver is at the outer end.
    pub fn driver_is_outer(&self) -> bool {
        matches!(self.elements.first().map(|e| &e.element), Some(Element::Driver(_)))
    }
}

/// An element with its place in the sheet.
#[derive(Debug, Clone)]
pub struct PathElement {
    /// What it is.
    pub element: Element,
    /// Number from 1 in the order the sheet lists the path.
    pub number: usize,
    /// Its line in the sheet.
    pub span: Span,
}

/// One element of a path.
#[derive(Debug, Clone)]
pub enum Element {
    /// The sending end.
    Driver(Driver),
    /// The receiving end.
    Receiver(Receiver),
    /// Outer end of a feed.
    Antenna(Antenna),
    /// Inner end of a feed.
    Radio(Radio),
    /// Cable or trace.
    Line(Line),
    /// Shunt capacitance with an optional series inductance: a symmetric T.
    Connector {
        /// Per line to ground.
        capacitance: Farad,
        /// Per line, in series.
        inductance: Option<Henry>,
    },
    /// Through-hole: a symmetric π with an optional stub.
    Via(Via),
    /// In each line.
    Series(Immittance),
    /// Resistance across the pair; capacitance and inductance per line to ground.
    Shunt(Immittance),
    /// Marks the port plane.
    Plane,
    /// The place of the unknown capacitance.
    Protector(Protector),
}

impl Element {
    /// The word of the sheet.
    pub fn word(&self) -> &'static str {
        match self {
            Element::Driver(_) => "driver",
            Element::Receiver(_) => "receiver",
            Element::Antenna(_) => "antenna",
            Element::Radio(_) => "radio",
            Element::Line(line) => match line.kind {
                LineKind::Cable => "cable",
                LineKind::Trace => "trace",
            },
            Element::Connector { .. } => "connector",
            Element::Via(_) => "via",
            Element::Series(_) => "series",
            Element::Shunt(_) => "shunt",
            Element::Plane => "plane",
            Element::Protector(_) => "protector",
        }
    }
}

/// A series capacitance of this size or more couples coded data: a short in the time domain.
pub const COUPLING: Farad = Farad(1e-9);

/// Edge of a driver that states none, in unit intervals: common practice, no source.
pub const DEFAULT_RISE_UI: f64 = 0.3;

/// The sending end.
#[derive(Debug, Clone, PartialEq)]
pub struct Driver {
    /// Source impedance, across the pair where differential.
    pub impedance: Ohm,
    /// Pad capacitance, per line.
    pub pad: Farad,
    /// 10–90 % rise time of the edge, where stated.
    pub rise: Option<Second>,
    /// Peak-to-peak swing into the matched load, where stated.
    pub swing: Option<Volt>,
    /// Transmit equaliser: pre, main and post tap.
    pub taps: Option<[f64; 3]>,
}

/// The receiving end.
#[derive(Debug, Clone, PartialEq)]
pub struct Receiver {
    /// Load impedance, across the pair where differential; `None` for an open end.
    pub impedance: Option<Ohm>,
    /// Pad capacitance, per line.
    pub pad: Farad,
    /// Receive equaliser, where there is one.
    pub ctle: Option<Ctle>,
    /// Taps of the decision feedback.
    pub dfe: usize,
    /// Least eye opening.
    pub needs: Option<Volt>,
}

/// The inner end of a feed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Radio {
    /// Its impedance: for the reader alone, since the match is taken in the feed's reference.
    pub impedance: Ohm,
    /// Pad capacitance.
    pub pad: Farad,
}

/// A continuous-time linear equaliser: (10^{g/20} + jf/f_z)/((1 + jf/f_p1)(1 + jf/f_p2)) with g = −peaking
/// (IEEE 802.3 Annex 93A).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ctle {
    /// Peaking in dB, positive.
    pub peaking: f64,
    /// Zero, where stated.
    pub zero: Option<Hertz>,
    /// First and second pole, where stated.
    pub poles: [Option<Hertz>; 2],
}

/// Whether a line is on the board.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LineKind {
    /// Off the board.
    Cable,
    /// On the board: its permittivity serves a protector's stub.
    Trace,
}

/// A uniform line, causal, with loss.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// Cable or trace.
    pub kind: LineKind,
    /// Characteristic impedance Z0 at the loss reference frequency, across the pair where differential.
    pub impedance: Ohm,
    /// Length; one stated as a delay is c·delay/√ε_r.
    pub length: Metre,
    /// Effective relative permittivity at the loss reference frequency.
    pub permittivity: f64,
    /// Loss.
    pub loss: LineLoss,
}

/// A via.
#[derive(Debug, Clone, PartialEq)]
pub struct Via {
    /// Per line to ground.
    pub capacitance: Farad,
    /// Per line, in series.
    pub inductance: Option<Henry>,
    /// The unused length of its barrel.
    pub stub: Option<ViaStub>,
}

/// The unused length of a via's barrel, an open line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ViaStub {
    /// Length.
    pub length: Metre,
    /// Relative permittivity.
    pub permittivity: f64,
    /// Its characteristic impedance, where the via's geometry gives it.
    pub impedance: Option<Ohm>,
    /// The side of the via it hangs at.
    pub side: StubSide,
}

/// The side of a via.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum StubSide {
    /// Towards the outer end of the path.
    Outer,
    /// Towards the inner end of the path.
    Inner,
}

/// A lumped resistance, inductance or capacitance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Immittance {
    /// Resistance.
    Resistance(Ohm),
    /// Inductance.
    Inductance(Henry),
    /// Capacitance.
    Capacitance(Farad),
}

/// The place of the protector.
#[derive(Debug, Clone)]
pub struct Protector {
    /// The capacitance to judge, per line to ground: stated, or the part's worst case; `None` where nothing is fitted.
    pub fitted: Option<Farad>,
    /// The part named, where one is.
    pub part: Option<Arc<Part>>,
    /// Footprint pad capacitance, per line.
    pub pad: Farad,
    /// Series inductance of the part itself in the half circuit.
    pub part_inductance: Henry,
    /// Series resistance of the part itself in the half circuit.
    pub part_resistance: Ohm,
    /// Ground-via inductance of the footprint, in series with the part unless it hangs across the pair.
    pub inductance: Henry,
    /// Whether the part hangs across the pair: the ground via is not in its way then.
    pub across: bool,
    /// Further series resistance stated in the sheet.
    pub resistance: Ohm,
    /// Length from the trace to the part.
    pub stub: Metre,
    /// Permittivity of that stub.
    pub stub_permittivity: f64,
    /// Largest difference between the lines of the pair, as they enter the half circuit; `None` where it is not stated.
    pub mismatch: Option<Mismatch>,
    /// Spread t of the capacitance: a typical part of C/(1 + t) stays below C.
    pub spread: Option<f64>,
}

impl Protector {
    /// Inductance of the ground via as it enters the circuit.
    pub fn ground_inductance(&self) -> Henry {
        if self.across { Henry(0.0) } else { self.inductance }
    }

    /// Puts a part in its place, as it is on this line.
    pub fn fit_part(&mut self, part: &Arc<Part>, on_line: &PartOnLine) {
        self.fitted = Some(on_line.capacitance);
        self.part_inductance = on_line.inductance;
        self.part_resistance = on_line.resistance;
        self.across = on_line.across;
        self.mismatch = part.mismatch;
        self.part = Some(Arc::clone(part));
    }
}
