//! From a path to its circuit.

use super::{Branch, CausalLine, Chain, ReferencePlane, Section};
use crate::model::{Barrel, Element, Immittance, Lane, Path, StubSide, Via};
use crate::units::{Farad, Henry, Ohm, SPEED_OF_LIGHT, Second};

impl Chain {
    /// The frozen half circuit of a lane: driver, receiver, lines, `shunt R` and the reference of a pair are halved, all
    /// else is per line as it stands.
    pub fn new(lane: &Lane) -> Self {
        Self::of_path(&lane.path, lane.across_factor(), lane.half_reference())
    }

    /// The circuit of a path: `across` is the factor on what is stated across the pair.
    pub(super) fn of_path(path: &Path, across: f64, reference: Ohm) -> Self {
        let elements = &path.elements;
        let protector = path.protector_index();
        let plane = path.port_plane_index();
        let reference_plane = ReferencePlane::before(elements.get(plane));
        let mut sections = Vec::with_capacity(elements.len() + 4);
        let (mut plane_at, mut protector_at) = (0, 0);
        for index in 0..elements.len() {
            if index == plane {
                plane_at = sections.len();
            }
            if index == protector {
                protector_at = sections.len();
            }
            push(&mut sections, path, index, across, reference);
        }
        let nothing = Branch::nothing(reference);
        let (branch, bare) = path
            .protector()
            .map_or((nothing, nothing), |p| (Branch::new(p, reference), Branch::without_footprint(p, reference)));
        let load = path.receiver().and_then(|r| r.impedance);
        Chain {
            sections: sections.into(),
            protector_at,
            plane_at,
            plane_sees_protector: plane <= protector,
            reference_plane,
            branch,
            bare,
            reference: reference.0,
            source: path.driver().map_or(reference.0, |d| d.impedance.0 * across),
            load: load.map_or(0.0, |z| 1.0 / (z.0 * across)),
            driver_is_outer: path.driver_is_outer(),
        }
    }
}

/// The sections the element of this index is made of in a circuit of this reference, outer side first: none for a plane, an
/// antenna and the protector, a pad for another end, a barrel and a stub for a via, two lines for a trace that the protector's
/// neck is cut from. `across` is the factor on what is stated across a pair, see [`Lane::across_factor`].
pub fn sections_of(path: &Path, index: usize, across: f64, reference: Ohm) -> Vec<Section> {
    let mut sections = Vec::new();
    push(&mut sections, path, index, across, reference);
    sections
}

pub(super) fn push(sections: &mut Vec<Section>, path: &Path, index: usize, across: f64, reference: Ohm) {
    match (path.cut(index), path.elements.get(index)) {
        (Some(pieces), _) => {
            sections.extend(pieces.iter().map(|piece| Section::Line(CausalLine::new(piece, across))));
        }
        (None, Some(place)) => push_element(sections, &place.element, across, reference),
        (None, None) => {}
    }
}

/// The sections of an element that no neck is cut from.
pub(super) fn push_element(sections: &mut Vec<Section>, element: &Element, across: f64, reference: Ohm) {
    match element {
        Element::Driver(driver) => push_pad(sections, driver.pad),
        Element::Receiver(receiver) => push_pad(sections, receiver.pad),
        Element::Radio(radio) => push_pad(sections, radio.pad),
        Element::Pin(pin) => push_pad(sections, pin.pad),
        Element::Line(line) => sections.push(Section::Line(CausalLine::new(line, across))),
        Element::Connector { capacitance, inductance: None } => sections.push(Section::ShuntCapacitance(*capacitance)),
        Element::Connector { capacitance, inductance: Some(inductance) } => {
            sections.push(Section::Tee { capacitance: *capacitance, inductance: *inductance });
        }
        Element::Via(via) => push_via(sections, via, reference),
        Element::Series(Immittance::Resistance(r)) => sections.push(Section::SeriesResistance(*r)),
        Element::Series(Immittance::Inductance(l)) => sections.push(Section::SeriesInductance(*l)),
        Element::Series(Immittance::Capacitance(c)) => sections.push(Section::SeriesCapacitance(*c)),
        Element::Shunt(Immittance::Resistance(r)) => sections.push(Section::ShuntResistance(Ohm(r.0 * across))),
        Element::Shunt(Immittance::Inductance(l)) => sections.push(Section::ShuntInductance(*l)),
        Element::Shunt(Immittance::Capacitance(c)) => sections.push(Section::ShuntCapacitance(*c)),
        Element::Guard(guard) => {
            sections.push(Section::Guard { branch: Branch::of_guard(guard, reference), capacitance: guard.capacitance })
        }
        Element::Plane | Element::Protector(_) | Element::Antenna(_) => {}
    }
}

fn push_pad(sections: &mut Vec<Section>, pad: Farad) {
    if pad.0 > 0.0 {
        sections.push(Section::ShuntCapacitance(pad));
    }
}

fn push_via(sections: &mut Vec<Section>, via: &Via, reference: Ohm) {
    let (barrel, impedance) = match via.barrel {
        Barrel::Lumped { capacitance, inductance: None } => (Section::ShuntCapacitance(capacitance), reference),
        Barrel::Lumped { capacitance, inductance: Some(inductance) } => {
            let both = inductance > Henry::ZERO && capacitance > Farad::ZERO;
            let impedance = if both { inductance.impedance_with(capacitance) } else { reference };
            (Section::Pi { capacitance, inductance }, impedance)
        }
        Barrel::Line { impedance, length, permittivity } => {
            (Section::Line(CausalLine::lossless(impedance, length, permittivity)), impedance)
        }
    };
    let stub = via.stub.map(|stub| {
        let delay = Second(stub.length.0 * stub.permittivity.sqrt() / SPEED_OF_LIGHT);
        (stub.side, Section::OpenStub { impedance, delay })
    });
    match stub {
        None => sections.push(barrel),
        Some((StubSide::Outer, stub)) => sections.extend([stub, barrel]),
        Some((StubSide::Inner, stub)) => sections.extend([barrel, stub]),
    }
}
