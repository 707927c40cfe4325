//! A path put together from the outer end in.

use crate::diag::Span;
use crate::model::{
    Antenna, Driver, Element, Immittance, LineLoss, Medium, Path, PathElement, Protector, Radio, Receiver, Stated,
    StatedProtector, TransmissionLine, Via,
};
use crate::units::{Farad, Henry, Hertz, Metre, Ohm};

/// The elements of a path from the outer end to the inner end, one call each.
///
/// Impedances are across the pair where the lane is differential; capacitances and inductances are per line.
#[derive(Debug, Clone, Default)]
pub struct PathBuilder {
    elements: Vec<(Stated, Element)>,
}

impl PathBuilder {
    /// Any element.
    #[must_use]
    pub fn element(mut self, element: Element) -> PathBuilder {
        self.elements.push((Stated::AsIs, element));
        self
    }

    /// A cable or trace, a via or the protector by what a sheet states of it: its loss, its dimensions, its part. What the
    /// circuit has follows as for a sheet, at the Nyquist frequency or the middle of the band and at the line's voltage.
    #[must_use]
    pub fn stated(mut self, stated: impl Into<Stated>) -> PathBuilder {
        let stated = stated.into();
        // What stands here until it is known.
        let element = match &stated {
            Stated::AsIs => return self,
            Stated::Line(line) => Element::Line(lossless(line.medium, Ohm(50.0), Metre::ZERO, 1.0)),
            Stated::Via(_) => Element::Via(Via { capacitance: Farad::ZERO, inductance: None, stub: None }),
            Stated::Protector(StatedProtector { part, .. }) => {
                let mismatch = part.as_ref().and_then(|part| part.mismatch);
                Element::Protector(Protector { mismatch, ..Protector::default() })
            }
        };
        self.elements.push((stated, element));
        self
    }

    /// The sending end; an impedance alone will do.
    #[must_use]
    pub fn driver(self, driver: impl Into<Driver>) -> PathBuilder {
        self.element(Element::Driver(driver.into()))
    }

    /// The receiving end; an impedance alone will do.
    #[must_use]
    pub fn receiver(self, receiver: impl Into<Receiver>) -> PathBuilder {
        self.element(Element::Receiver(receiver.into()))
    }

    /// The outer end of a feed.
    #[must_use]
    pub fn antenna(self, antenna: Antenna) -> PathBuilder {
        self.element(Element::Antenna(antenna))
    }

    /// The inner end of a feed; an impedance alone will do.
    #[must_use]
    pub fn radio(self, radio: impl Into<Radio>) -> PathBuilder {
        self.element(Element::Radio(radio.into()))
    }

    /// A cable without loss: impedance, length, relative permittivity.
    #[must_use]
    pub fn cable(self, impedance: Ohm, length: Metre, permittivity: f64) -> PathBuilder {
        self.line(lossless(Medium::Cable, impedance, length, permittivity))
    }

    /// A trace without loss: impedance, length, relative permittivity.
    #[must_use]
    pub fn trace(self, impedance: Ohm, length: Metre, permittivity: f64) -> PathBuilder {
        self.line(lossless(Medium::Trace, impedance, length, permittivity))
    }

    /// A cable or trace with the loss constants of the circuit; [`stated`](PathBuilder::stated) takes attenuations.
    #[must_use]
    pub fn line(self, line: TransmissionLine) -> PathBuilder {
        self.element(Element::Line(line))
    }

    /// A connector: capacitance to ground and series inductance, per line.
    #[must_use]
    pub fn connector(self, capacitance: Farad, inductance: Henry) -> PathBuilder {
        self.element(Element::Connector { capacitance, inductance: Some(inductance) })
    }

    /// A through-hole.
    #[must_use]
    pub fn via(self, via: Via) -> PathBuilder {
        self.element(Element::Via(via))
    }

    /// A lumped element in each line.
    #[must_use]
    pub fn series(self, immittance: Immittance) -> PathBuilder {
        self.element(Element::Series(immittance))
    }

    /// A lumped element across the path.
    #[must_use]
    pub fn shunt(self, immittance: Immittance) -> PathBuilder {
        self.element(Element::Shunt(immittance))
    }

    /// The port plane, where the return loss is seen.
    #[must_use]
    pub fn plane(self) -> PathBuilder {
        self.element(Element::Plane)
    }

    /// The place of the unknown capacitance; `Protector::default()` is the bare place.
    #[must_use]
    pub fn protector(self, protector: Protector) -> PathBuilder {
        self.element(Element::Protector(protector))
    }

    /// The path, whose lines without loss have `frequency` as the one their impedance holds at.
    pub(super) fn build(self, frequency: Hertz) -> Path {
        let numbered = |(index, (stated, mut element)): (usize, (Stated, Element))| {
            if let Element::Line(line) = &mut element {
                if line.loss == NONE {
                    line.loss.reference = frequency;
                }
            }
            PathElement { element, number: index + 1, span: Span::default(), stated }
        };
        Path { elements: self.elements.into_iter().enumerate().map(numbered).collect() }
    }
}

/// No loss, as yet without a reference.
const NONE: LineLoss = LineLoss { reference: Hertz::ZERO, conductor: 0.0, loss_tangent: 0.0 };

fn lossless(medium: Medium, impedance: Ohm, length: Metre, permittivity: f64) -> TransmissionLine {
    TransmissionLine { medium, impedance, length, permittivity, loss: NONE }
}
