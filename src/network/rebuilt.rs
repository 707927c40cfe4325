//! A lane at one frequency, put together again and again with some of its elements changed.

use num_complex::Complex64;

use super::build::{push, push_element};
use super::chain::OpenChain;
use super::{Branch, CausalLine, Chain, Function, Mobius, Section, TwoPort};
use crate::model::{Element, Lane};
use crate::resolve::wideband;
use crate::units::{Hertz, Ohm};

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
    /// The reference frequency of a line, and the law of its dielectric there.
    law: Option<(Hertz, Complex64)>,
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

    /// Puts another element, which no neck is cut from, in the place of the one that is `slot` among those that change; one of the same word.
    pub fn change(&mut self, slot: usize, element: &Element) {
        let reference = self.chain.reference();
        let Some(Changing { sections, law }) = self.changing.get_mut(slot) else { return };
        sections.clear();
        if let Element::Line(line) = element {
            let at = line.loss.reference;
            let known = law.filter(|(known, _)| *known == at).unwrap_or_else(|| (at, wideband(at)));
            *law = Some(known);
            sections.push(Section::Line(CausalLine::of_law(line, self.across, || known.1)));
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
                    for section in &self.changing[*slot].sections {
                        match section {
                            Section::Line(line) => {
                                let own = line.two_port_of(self.frequency, || self.law);
                                path = if begun { path.then(&own) } else { own };
                            }
                            other => other.append_to(&mut path, self.frequency),
                        }
                        begun = true;
                    }
                }
            }
        }
        path
    }
}
