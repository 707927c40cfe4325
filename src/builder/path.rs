//! A path put together from the outer end in.

use crate::diag::Span;
use crate::model::{
    Antenna, Barrel, Driver, Element, Guard, Immittance, LineImpedance, LineLoss, LineMake, Medium, PartOnLine, Path,
    PathElement, Pin, Protector, Radio, Receiver, Stated, StatedGuard, StatedLength, StatedLine, StatedProtector,
    TransmissionLine, Via,
};
use crate::units::{Farad, Henry, Hertz, Metre, Ohm};

/// The elements of a path from the outer end to the inner end, one call each.
///
/// Impedances are across the pair where the lane is differential; capacitances and inductances are per line.
#[derive(Debug, Clone, Default)]
#[must_use]
pub struct PathBuilder {
    pub(super) path: Path,
}

impl PathBuilder {
    /// Any element.
    pub fn element(self, element: Element) -> PathBuilder {
        self.push(Stated::AsIs, element)
    }

    /// A cable or trace, a via, the protector or a guard by what a sheet states of it: its loss, its dimensions, its part. What the
    /// circuit has follows as for a sheet, at the Nyquist frequency or the middle of the band and at the line's voltage.
    pub fn stated(self, stated: Stated) -> PathBuilder {
        // What stands here until it is known.
        let element = match &stated {
            Stated::AsIs => return self,
            Stated::Line(StatedLine { medium, .. }) => {
                let loss = LineLoss { reference: Hertz(1.0), conductor: 0.0, loss_tangent: 0.0 };
                let (impedance, length) = (Ohm(50.0), Metre::ZERO);
                Element::Line(TransmissionLine { medium: *medium, impedance, length, permittivity: 1.0, loss })
            }
            Stated::Via(_) => {
                let barrel = Barrel::Lumped { capacitance: Farad::ZERO, inductance: None };
                Element::Via(Via { barrel, stub: None })
            }
            Stated::Guard(StatedGuard { part, .. }) => {
                let nothing = PartOnLine {
                    capacitance: Farad::ZERO,
                    bias: None,
                    inductance: Henry::ZERO,
                    resistance: Ohm::ZERO,
                    across: false,
                    mismatch: None,
                };
                Element::Guard(Guard::new(part, &nothing))
            }
            Stated::Protector(StatedProtector { part, .. }) => {
                let mismatch = part.as_ref().and_then(|part| part.mismatch);
                Element::Protector(Protector { mismatch, ..Protector::default() })
            }
        };
        self.push(stated, element)
    }

    /// The sending end; an impedance alone will do.
    pub fn driver(self, driver: impl Into<Driver>) -> PathBuilder {
        self.element(Element::Driver(driver.into()))
    }

    /// The receiving end; an impedance alone will do.
    pub fn receiver(self, receiver: impl Into<Receiver>) -> PathBuilder {
        self.element(Element::Receiver(receiver.into()))
    }

    /// The outer end of a feed.
    pub fn antenna(self, antenna: Antenna) -> PathBuilder {
        self.element(Element::Antenna(antenna))
    }

    /// The inner end of a feed; an impedance alone will do.
    pub fn radio(self, radio: impl Into<Radio>) -> PathBuilder {
        self.element(Element::Radio(radio.into()))
    }

    /// The inner end of a bus or a rail.
    pub fn pin(self, pin: Pin) -> PathBuilder {
        self.element(Element::Pin(pin))
    }

    /// A further part that is fitted: the part alone, or with its footprint.
    pub fn guard(self, guard: impl Into<StatedGuard>) -> PathBuilder {
        self.stated(Stated::Guard(guard.into()))
    }

    /// A cable without loss: impedance, length, relative permittivity.
    pub fn cable(self, impedance: Ohm, length: Metre, permittivity: f64) -> PathBuilder {
        self.stated(Stated::Line(lossless(Medium::Cable, impedance, length, permittivity)))
    }

    /// A trace without loss: impedance, length, relative permittivity.
    pub fn trace(self, impedance: Ohm, length: Metre, permittivity: f64) -> PathBuilder {
        self.stated(Stated::Line(lossless(Medium::Trace, impedance, length, permittivity)))
    }

    /// A cable or trace with the loss constants of the circuit; [`stated`](PathBuilder::stated) takes attenuations.
    pub fn line(self, line: TransmissionLine) -> PathBuilder {
        self.element(Element::Line(line))
    }

    /// A connector: capacitance to ground and series inductance, per line.
    pub fn connector(self, capacitance: Farad, inductance: Henry) -> PathBuilder {
        self.element(Element::Connector { capacitance, inductance: Some(inductance) })
    }

    /// A through-hole.
    pub fn via(self, via: Via) -> PathBuilder {
        self.element(Element::Via(via))
    }

    /// A lumped element in each line.
    pub fn series(self, immittance: Immittance) -> PathBuilder {
        self.element(Element::Series(immittance))
    }

    /// A lumped element across the path.
    pub fn shunt(self, immittance: Immittance) -> PathBuilder {
        self.element(Element::Shunt(immittance))
    }

    /// The port plane, where the return loss is seen.
    pub fn plane(self) -> PathBuilder {
        self.element(Element::Plane)
    }

    /// The place of the unknown capacitance; `Protector::default()` is the bare place.
    pub fn protector(self, protector: Protector) -> PathBuilder {
        self.element(Element::Protector(protector))
    }

    fn push(mut self, stated: Stated, element: Element) -> PathBuilder {
        let number = self.path.elements.len() + 1;
        self.path.elements.push(PathElement { element, number, span: Span::default(), stated });
        self
    }
}

/// A line without loss, by its impedance.
fn lossless(medium: Medium, impedance: Ohm, length: Metre, permittivity: f64) -> StatedLine {
    let make = LineImpedance { permittivity: Some(permittivity), ..impedance.into() };
    StatedLine { medium, length: StatedLength::Length(length), make: LineMake::Impedance(make) }
}
