//! Lines whose values vary, put together from model values.

use super::random::Random;
use lanecap::diag::Span;
use lanecap::figures::{self, Range};
use lanecap::model::*;
use lanecap::{Head, Kind, Lane, Line};

/// Decibel in a neper.
const DECIBEL: f64 = 8.685889638065037;

/// What a sheet would state to have this element.
fn stated(element: Element) -> PathElement {
    let stated = match &element {
        Element::Line(line) => {
            let mut make = LineImpedance { permittivity: Some(line.permittivity), ..line.impedance.into() };
            make.loss_tangent = (line.loss.loss_tangent > 0.0).then_some(line.loss.loss_tangent);
            if line.loss.conductor > 0.0 {
                let (f, er, tangent) = (line.loss.reference.0, line.permittivity, line.loss.loss_tangent);
                let dielectric = std::f64::consts::PI * f * er.sqrt() * tangent / 299_792_458.0;
                let loss = Attenuation::PerMetre((line.loss.conductor + dielectric) * DECIBEL);
                make.losses.push(LineAttenuation { loss, frequency: line.loss.reference });
            }
            Stated::Line(StatedLine {
                medium: line.medium,
                length: StatedLength::Length(line.length),
                make: LineMake::Impedance(make),
            })
        }
        Element::Via(Via { barrel: Barrel::Lumped { capacitance, inductance }, stub }) => Stated::Via(StatedVia {
            make: ViaMake::Lumped { capacitance: *capacitance, inductance: *inductance },
            stub: stub.map(|stub| StatedStub {
                length: stub.length,
                permittivity: Some(stub.permittivity),
                side: stub.side,
            }),
        }),
        Element::Protector(protector) => Stated::Protector(StatedProtector {
            capacitance: protector.fitted,
            pad: protector.pad,
            inductance: protector.inductance,
            resistance: protector.resistance,
            stub: protector.stub,
            ..StatedProtector::default()
        }),
        _ => Stated::AsIs,
    };
    PathElement { element, stated, number: 0, span: Span::default() }
}

/// As [`stated_line`], of a lane that can be stated.
pub(crate) fn lane_line(lane: Lane) -> Line {
    stated_line(lane).unwrap()
}

/// The line a sheet would state that has these elements: a part's own inductance and resistance are left out. None where no
/// sheet may state it.
pub(crate) fn stated_line(mut lane: Lane) -> Option<Line> {
    let elements = std::mem::take(&mut lane.path).elements;
    let elements: Vec<PathElement> = elements.into_iter().map(|place| stated(place.element)).collect();
    lane.path = Path {
        elements: elements.into_iter().enumerate().map(|(i, place)| PathElement { number: i + 1, ..place }).collect(),
    };
    let line = Line { head: Head::new("gauge link"), kind: Kind::Lane(lane) };
    line.with_values([]).ok()
}

/// The range of a value by what it is.
fn range(value: ValueName) -> Range {
    use ValueName as V;
    match value {
        V::Impedance => figures::IMPEDANCE,
        V::Length | V::Stub => figures::LENGTH,
        V::Permittivity => figures::PERMITTIVITY,
        V::LossTangent => figures::LOSS_TANGENT,
        V::Loss => figures::LOSS_PER_LENGTH,
        V::Inductance => figures::INDUCTANCE,
        V::Resistance => figures::RESISTANCE,
        V::PullUp | V::Source => figures::RESISTANCE,
        _ => figures::CAPACITANCE,
    }
}

/// A value between two bounds.
pub(crate) fn between(address: &str, nominal: f64, low: f64, high: f64, together: Option<&str>) -> AddressedValue {
    let address: Address = address.parse().unwrap();
    let together = together.map(str::to_owned);
    AddressedValue {
        range: range(address.value),
        address,
        nominal: Some(nominal),
        tolerance: Some(Box::new(Tolerance {
            low,
            high,
            together,
            relative: true,
            stated: true,
            span: Span::default(),
        })),
        span: Span::default(),
    }
}

/// A value with ± a share of itself.
pub(crate) fn around(address: &str, nominal: f64, share: f64) -> AddressedValue {
    between(address, nominal, nominal * (1.0 - share), nominal * (1.0 + share), None)
}

/// The line with these tolerances.
pub(crate) fn with_tolerances(mut line: Line, values: Vec<AddressedValue>) -> Line {
    line.head.values = values.into();
    line
}

/// Every value of the path that may vary here, with what is stated of it.
fn variable(line: &Line) -> Vec<(String, f64)> {
    use ValueName as V;
    let mut found = Vec::new();
    for place in &line.path().unwrap().elements {
        let mut place = place.clone();
        let may =
            [V::Impedance, V::Length, V::Permittivity, V::Capacitance, V::Inductance, V::Pad, V::Stub, V::Resistance];
        for name in may {
            if matches!(place.element, Element::Protector(_)) && name == V::Capacitance {
                continue;
            }
            if let Some(value) = place.value_mut(name).filter(|value| **value > 0.0) {
                let value = *value;
                found.push((format!("{}.{}", place.number, name.word()), value));
            }
        }
    }
    found
}

/// The line with `count` of its values varying at random by 2 to 20 % of themselves; fewer where it has fewer.
pub(crate) fn randomly_toleranced(line: Line, r: &mut Random, count: usize) -> Line {
    let mut may = variable(&line);
    let mut values = Vec::new();
    while values.len() < count && !may.is_empty() {
        let at = r.index(may.len());
        let (address, nominal) = may.swap_remove(at);
        let share = r.between(0.02, 0.2);
        // A permittivity stays above 1.
        let share = if address.ends_with("permittivity") { share.min(1.0 - 1.0 / nominal) } else { share };
        values.push(around(&address, nominal, share));
    }
    with_tolerances(line, values)
}
