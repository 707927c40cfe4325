//! A path put together from the outer end in.

use crate::diag::Span;
use crate::model::{
    Antenna, Driver, Element, Immittance, LineLoss, Medium, Path, PathElement, Protector, Radio, Receiver, Stated,
    TransmissionLine, Via,
};
use crate::units::{Farad, Henry, Hertz, Metre, Ohm};

impl From<Ohm> for Driver {
    /// A driver of this impedance, across the pair where differential, and nothing else.
    fn from(impedance: Ohm) -> Driver {
        Driver { impedance, pad: Farad::ZERO, rise: None, swing: None, taps: None }
    }
}

impl From<Ohm> for Receiver {
    /// A receiver of this impedance, across the pair where differential, and nothing else.
    fn from(impedance: Ohm) -> Receiver {
        Receiver { impedance: Some(impedance), pad: Farad::ZERO, ctle: None, dfe: 0, dfe_limit: None, needs: None }
    }
}

impl From<Ohm> for Radio {
    /// A radio of this impedance without a pad.
    fn from(impedance: Ohm) -> Radio {
        Radio { impedance, pad: Farad::ZERO }
    }
}

impl Default for Protector {
    /// The bare place of a protector: nothing fitted, no footprint. The permittivity of its stub, which has no length,
    /// is 4.
    fn default() -> Protector {
        Protector {
            fitted: None,
            part: None,
            pad: Farad::ZERO,
            part_inductance: Henry::ZERO,
            part_resistance: Ohm::ZERO,
            inductance: Henry::ZERO,
            across: false,
            resistance: Ohm::ZERO,
            stub: Metre::ZERO,
            stub_permittivity: 4.0,
            mismatch: None,
            spread: None,
        }
    }
}

/// The elements of a path from the outer end to the inner end, one call each.
///
/// Impedances are across the pair where the lane is differential; capacitances and inductances are per line.
#[derive(Debug, Clone, Default)]
pub struct PathBuilder {
    elements: Vec<Element>,
}

impl PathBuilder {
    /// Any element.
    #[must_use]
    pub fn element(mut self, element: Element) -> PathBuilder {
        self.elements.push(element);
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

    /// A cable or trace with its loss, whose constants [`resolve_loss`](crate::resolve::resolve_loss) finds from stated
    /// attenuations.
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
        let numbered = |(index, mut element): (usize, Element)| {
            if let Element::Line(line) = &mut element {
                if line.loss == NONE {
                    line.loss.reference = frequency;
                }
            }
            PathElement { element, number: index + 1, span: Span::default(), stated: Stated::AsIs }
        };
        Path { elements: self.elements.into_iter().enumerate().map(numbered).collect() }
    }
}

/// No loss, as yet without a reference.
const NONE: LineLoss = LineLoss { reference: Hertz::ZERO, conductor: 0.0, loss_tangent: 0.0 };

fn lossless(medium: Medium, impedance: Ohm, length: Metre, permittivity: f64) -> TransmissionLine {
    TransmissionLine { medium, impedance, length, permittivity, loss: NONE }
}
