//! A lane at one frequency, put together again and again with some of its elements changed.

use num_complex::Complex64;

use super::build::{push, push_element};
use super::chain::OpenChain;
use super::{Branch, CausalLine, Chain, Function, Mobius, Section, TwoPort};
use crate::model::{Element, Lane, LineLoss, TransmissionLine};
use crate::resolve::wideband;
use crate::units::{Hertz, Metre, Ohm};

/// A lane at one frequency above 0: what does not change is multiplied once. No neck is cut from what changes.
#[derive(Debug, Clone)]
pub struct Rebuilt {
    /// Its ends, its branch and its reference; its sections are not looked at.
    chain: Chain,
    frequency: Hertz,
    across: f64,
    /// Outside protector and reference plane, between the two, and inside both.
    stretches: [Vec<Piece>; 3],
    /// What the elements that change are made of.
    changing: Vec<Changing>,
    /// The law of dielectrics at that frequency.
    law: Complex64,
}

/// What an element that changes is made of.
#[derive(Debug, Clone, Default)]
struct Changing {
    sections: Vec<Section>,
    /// What is known of it where it is a line; no section stands for it then.
    line: Option<KnownLine>,
}

/// A line of the impedance 1 at one frequency: the propagation constant and the two-port of another line of its kind follow
/// from it without a root, since γ does not depend on Z0, and Zc is proportional to it.
#[derive(Debug, Clone, Copy)]
struct KnownLine {
    permittivity: f64,
    loss: LineLoss,
    length: f64,
    /// γ, and Zc over Z0; not there for a line without loss, which needs neither.
    constants: Option<(Complex64, Complex64)>,
    unit: TwoPort,
    /// Z0 in the circuit.
    impedance: f64,
}

impl KnownLine {
    /// A line at a frequency; `law` is that of dielectrics there.
    fn of(
        line: &TransmissionLine,
        across: f64,
        (frequency, law): (Hertz, Complex64),
        known: Option<KnownLine>,
    ) -> Self {
        let TransmissionLine { permittivity, loss, length: Metre(length), impedance: Ohm(impedance), .. } = *line;
        let impedance = impedance * across;
        let alike = known.filter(|known| known.permittivity == permittivity && known.loss == loss);
        if let Some(same) = alike.filter(|known| known.length == length) {
            return KnownLine { impedance, ..same };
        }
        if let (Some(known), true) = (alike, length > 0.0)
            && let Some((gamma, unit)) = known.constants
        {
            return KnownLine { length, impedance, unit: TwoPort::line(gamma * length, unit), ..known };
        }
        let unit = CausalLine::new(&TransmissionLine { impedance: Ohm(1.0), ..line.clone() }, 1.0);
        let lossless = loss.conductor == 0.0 && loss.loss_tangent == 0.0;
        let constants = (!lossless).then(|| unit.constants_of(frequency, || law));
        let unit = unit.two_port_of(frequency, || law);
        KnownLine { permittivity, loss, length, constants, unit, impedance }
    }

    fn two_port(&self) -> TwoPort {
        let TwoPort { a, b, c, d } = self.unit;
        TwoPort { a, b: b * self.impedance, c: c / self.impedance, d }
    }
}

/// Some elements in a row.
#[derive(Debug, Clone, Copy)]
enum Piece {
    /// What they are together.
    Fixed(TwoPort),
    /// An element that changes, by its place among those.
    Changing(usize),
}

impl Rebuilt {
    /// A lane at a frequency; `changing` are the indices of the elements that change.
    pub fn new(lane: &Lane, frequency: Hertz, changing: &[usize]) -> Self {
        let (elements, chain) = (&lane.path.elements, Chain::new(lane));
        let (plane, protector) = (lane.path.port_plane_index(), lane.path.protector_index());
        let (first, second) = (plane.min(protector), plane.max(protector));
        let mut rebuilt = Rebuilt {
            frequency,
            across: lane.across_factor(),
            stretches: Default::default(),
            changing: vec![Changing::default(); changing.len()],
            law: wideband(frequency),
            chain,
        };
        let mut sections = Vec::new();
        for (index, place) in elements.iter().enumerate() {
            let stretch = &mut rebuilt.stretches[usize::from(index >= first) + usize::from(index >= second)];
            if let Some(slot) = changing.iter().position(|changing| *changing == index) {
                stretch.push(Piece::Changing(slot));
                rebuilt.change(slot, &place.element);
                continue;
            }
            sections.clear();
            push(&mut sections, &lane.path, index, rebuilt.across, rebuilt.chain.reference());
            for section in &sections {
                if !matches!(stretch.last(), Some(Piece::Fixed(_))) {
                    stretch.push(Piece::Fixed(TwoPort::IDENTITY));
                }
                if let Some(Piece::Fixed(run)) = stretch.last_mut() {
                    section.append_to(run, frequency);
                }
            }
        }
        rebuilt
    }

    /// Puts another element of the same word, which no neck is cut from, in the place of the one that is `slot` among those
    /// that change.
    pub fn change(&mut self, slot: usize, element: &Element) {
        let reference = self.chain.reference();
        let Some(Changing { sections, line: known }) = self.changing.get_mut(slot) else { return };
        sections.clear();
        if let Element::Line(line) = element {
            *known = Some(KnownLine::of(line, self.across, (self.frequency, self.law), *known));
            return;
        }
        push_element(sections, element, self.across, reference);
        match element {
            Element::Driver(driver) => self.chain.source = driver.impedance.0 * self.across,
            Element::Receiver(receiver) => {
                self.chain.load = receiver.impedance.map_or(0.0, |Ohm(z)| 1.0 / (z * self.across));
            }
            Element::Protector(protector) => self.chain.branch = Branch::new(protector, reference),
            _ => {}
        }
    }

    /// Gives `to` each of these functions: without the protector, and of its capacitance.
    pub fn functions(&self, wanted: impl Iterator<Item = Function>, mut to: impl FnMut(Complex64, Mobius)) {
        let [outside, middle, inside] = [0, 1, 2].map(|stretch| self.product(stretch));
        let chain = &self.chain;
        let (between, outer, inner, inward) = if !chain.plane_sees_protector {
            (TwoPort::IDENTITY, outside, middle.then(&inside), Some(inside))
        } else if chain.plane_at == 0 {
            (middle, middle, inside, None)
        } else {
            (middle, outside.then(&middle), inside, None)
        };
        let whole = outer.then(&inner);
        let open = OpenChain { chain, frequency: self.frequency, between, outer, inner, whole, inward };
        let branch = chain.branch.admittance(self.frequency);
        for function in wanted {
            let (absent, with) = open.closed_one(function, &branch);
            to(absent, with);
        }
    }

    fn product(&self, stretch: usize) -> TwoPort {
        let mut path = TwoPort::IDENTITY;
        let mut begun = false;
        for piece in &self.stretches[stretch] {
            match piece {
                Piece::Fixed(run) => {
                    path = if begun { path.then(run) } else { *run };
                    begun = true;
                }
                Piece::Changing(slot) => {
                    let Changing { sections, line } = &self.changing[*slot];
                    if let Some(line) = line {
                        let own = line.two_port();
                        path = if begun { path.then(&own) } else { own };
                        begun = true;
                    }
                    for section in sections {
                        section.append_to(&mut path, self.frequency);
                        begun = true;
                    }
                }
            }
        }
        path
    }
}
