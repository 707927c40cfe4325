//! The values of an element by their names.

use super::{
    Antenna, Attenuation, Element, Immittance, Laminate, LineMake, Part, PathElement, Roughness, Stated, StatedGuard,
    StatedLength, StatedLine, StatedProtector, StatedStub, StatedVia, StubSide, ValueName, ViaMake,
};
use crate::units::{Farad, Henry, Hertz, Metre, Ohm, Second, Volt};

impl PathElement {
    /// The value of this name as it is stated, to be changed, in SI; `None` where the element states no such value and
    /// nothing is not its default. What the circuit has of it follows only when the path is resolved again.
    pub fn value_mut(&mut self, name: ValueName) -> Option<&mut f64> {
        match &mut self.stated {
            Stated::AsIs => own(&mut self.element, name),
            Stated::Line(line) => of_line(line, name),
            Stated::Via(via) => of_via(via, name),
            Stated::Protector(protector) => of_protector(protector, name),
            Stated::Guard(guard) => of_guard(guard, name),
        }
    }
}

impl Part {
    /// The value of this name, to be changed, in SI; its capacitance is the maximum to ground, or across where it states no
    /// other.
    pub fn value_mut(&mut self, name: ValueName) -> Option<&mut f64> {
        Some(match name {
            ValueName::Capacitance => &mut self.to_ground.as_mut().or(self.across.as_mut())?.maximum.0,
            ValueName::Inductance => &mut self.inductance.0,
            ValueName::Resistance => &mut self.resistance.0,
            _ => return None,
        })
    }
}

impl Laminate {
    /// The value of this name, to be changed, in SI.
    pub fn value_mut(&mut self, name: ValueName) -> Option<&mut f64> {
        Some(match name {
            ValueName::Permittivity => &mut self.permittivity.0,
            ValueName::LossTangent => &mut self.loss_tangent.0,
            ValueName::Copper => &mut self.copper.0,
            ValueName::Resistivity => &mut self.resistivity,
            ValueName::Roughness => {
                if self.roughness == Roughness::Smooth {
                    self.roughness = Roughness::Hammerstad { rms: Metre::ZERO };
                }
                match &mut self.roughness {
                    Roughness::Hammerstad { rms } => &mut rms.0,
                    _ => return None,
                }
            }
            _ => return None,
        })
    }
}

/// A value of an element that is what its sheet states.
fn own(element: &mut Element, name: ValueName) -> Option<&mut f64> {
    use ValueName as V;
    Some(match (element, name) {
        (Element::Driver(driver), V::Impedance) => &mut driver.impedance.0,
        (Element::Driver(driver), V::Pad) => &mut driver.pad.0,
        (Element::Driver(driver), V::Rise) => driver.rise.as_mut().map(|Second(t)| t)?,
        (Element::Driver(driver), V::Swing) => driver.swing.as_mut().map(|Volt(v)| v)?,
        (Element::Receiver(receiver), V::Impedance) => receiver.impedance.as_mut().map(|Ohm(z)| z)?,
        (Element::Receiver(receiver), V::Pad) => &mut receiver.pad.0,
        (Element::Receiver(receiver), V::Needs) => receiver.needs.as_mut().map(|Volt(v)| v)?,
        (Element::Receiver(receiver), V::Ctle) => &mut receiver.ctle.as_mut()?.peaking,
        (Element::Receiver(receiver), V::Zero) => receiver.ctle.as_mut()?.zero.as_mut().map(|Hertz(f)| f)?,
        (Element::Receiver(receiver), V::Pole) => receiver.ctle.as_mut()?.poles[0].as_mut().map(|Hertz(f)| f)?,
        (Element::Receiver(receiver), V::SecondPole) => receiver.ctle.as_mut()?.poles[1].as_mut().map(|Hertz(f)| f)?,
        (Element::Antenna(Antenna::Resistance(resistance)), V::Impedance) => &mut resistance.0,
        (Element::Antenna(Antenna::Series(resonator) | Antenna::Parallel(resonator)), name) => match name {
            V::Frequency => &mut resonator.frequency.0,
            V::Impedance => &mut resonator.resistance.0,
            V::Quality => &mut resonator.quality,
            _ => return None,
        },
        (Element::Radio(radio), V::Impedance) => &mut radio.impedance.0,
        (Element::Radio(radio), V::Pad) => &mut radio.pad.0,
        (Element::Pin(pin), V::Pad) => &mut pin.pad.0,
        (Element::Connector { capacitance, .. }, V::Capacitance) => &mut capacitance.0,
        (Element::Connector { inductance, .. }, V::Inductance) => &mut inductance.get_or_insert(Henry::ZERO).0,
        (Element::Series(own) | Element::Shunt(own), name) => match (own, name) {
            (Immittance::Resistance(Ohm(value)), V::Resistance)
            | (Immittance::Inductance(Henry(value)), V::Inductance)
            | (Immittance::Capacitance(Farad(value)), V::Capacitance) => value,
            _ => return None,
        },
        _ => return None,
    })
}

fn of_line(line: &mut StatedLine, name: ValueName) -> Option<&mut f64> {
    use ValueName as V;
    let own = match (&mut line.length, name) {
        (StatedLength::Length(Metre(length)), V::Length) => Some(length),
        (StatedLength::Delay(Second(delay)), V::Delay) => Some(delay),
        _ => None,
    };
    if own.is_some() {
        return own;
    }
    match &mut line.make {
        LineMake::Impedance(make) => match name {
            V::Impedance => Some(&mut make.impedance.0),
            V::Permittivity => make.permittivity.as_mut(),
            V::LossTangent => make.loss_tangent.as_mut(),
            V::Loss | V::SecondLoss => {
                let loss = make.losses.get_mut(usize::from(name == V::SecondLoss))?;
                let (Attenuation::Total(value) | Attenuation::PerMetre(value)) = &mut loss.loss;
                Some(value)
            }
            _ => None,
        },
        LineMake::Microstrip(shape) | LineMake::Stripline(shape) => match name {
            V::Width => Some(&mut shape.width.0),
            V::Height => Some(&mut shape.height.0),
            V::Gap => shape.gap.as_mut().map(|Metre(gap)| gap),
            _ => None,
        },
    }
}

fn of_via(via: &mut StatedVia, name: ValueName) -> Option<&mut f64> {
    use ValueName as V;
    match name {
        V::Stub => {
            let none = StatedStub { length: Metre::ZERO, permittivity: None, side: StubSide::Inner };
            return Some(&mut via.stub.get_or_insert(none).length.0);
        }
        V::Permittivity => return via.stub.as_mut()?.permittivity.as_mut(),
        _ => {}
    }
    match (&mut via.make, name) {
        (ViaMake::Lumped { capacitance, .. }, V::Capacitance) => Some(&mut capacitance.0),
        (ViaMake::Lumped { inductance, .. }, V::Inductance) => Some(&mut inductance.get_or_insert(Henry::ZERO).0),
        (ViaMake::Geometry { barrel, .. }, V::Barrel) => Some(&mut barrel.0),
        (ViaMake::Geometry { drill, .. }, V::Drill) => Some(&mut drill.0),
        (ViaMake::Geometry { pad, .. }, V::Pad) => Some(&mut pad.0),
        (ViaMake::Geometry { antipad, .. }, V::Antipad) => Some(&mut antipad.0),
        _ => None,
    }
}

fn of_protector(protector: &mut StatedProtector, name: ValueName) -> Option<&mut f64> {
    Some(match name {
        ValueName::Capacitance if protector.part.is_none() => &mut protector.capacitance.get_or_insert(Farad::ZERO).0,
        ValueName::Pad => &mut protector.pad.0,
        ValueName::Inductance => &mut protector.inductance.0,
        ValueName::Resistance => &mut protector.resistance.0,
        ValueName::Stub => &mut protector.stub.0,
        ValueName::NeckImpedance => &mut protector.neck.as_mut()?.impedance.0,
        ValueName::NeckLength => &mut protector.neck.as_mut()?.length.0,
        _ => return None,
    })
}

fn of_guard(guard: &mut StatedGuard, name: ValueName) -> Option<&mut f64> {
    Some(match name {
        ValueName::Pad => &mut guard.pad.0,
        ValueName::Inductance => &mut guard.inductance.0,
        ValueName::Stub => &mut guard.stub.0,
        _ => return None,
    })
}
