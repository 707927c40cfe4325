//! A lane whose limits all stand at one frequency, at setting after setting.

use crate::budget::{Bound, Inequality, Interval, Modulus, intersect};
use crate::model::{
    Attenuation, Element, Kind, Lane, LaneLimit, Line, LineMake, Medium, Over, Owner, PathElement, Stated,
    StatedLength, StatedLine, ValueName,
};
use crate::network::{Branch, Rebuilt};
use crate::resolve::{self, Surroundings};
use crate::units::{Farad, Metre, Ohm};

use super::values::Varying;

/// Relative difference of two ways to the same capacitance that is round-off.
const ROUND_OFF: f64 = 1e-13;

/// A lane whose limits all stand at the Nyquist frequency: elements without a tolerance are multiplied once, the others are
/// resolved again at each setting, and each limit is one quadratic. It agrees with [`Line::with_values`] to round-off.
#[derive(Debug, Clone)]
pub struct Fast {
    rebuilt: Rebuilt,
    surroundings: Surroundings,
    changing: Vec<Changing>,
    bounds: Vec<Bound>,
    fitted: Fitted,
    limits: Vec<Inequality>,
    left: Vec<Interval>,
    spare: Vec<Interval>,
}

/// An element with values that vary.
#[derive(Debug, Clone)]
struct Changing {
    place: PathElement,
    /// Which of its values, and where each stands among the values of a setting.
    values: Vec<(ValueName, usize)>,
    /// Whether it is a line of which these are impedance and length alone, and all else is per length: the line has them as
    /// they are stated.
    plain: bool,
}

impl Changing {
    fn is_plain(&self) -> bool {
        let Stated::Line(StatedLine { length: StatedLength::Length(_), make: LineMake::Impedance(make), .. }) =
            &self.place.stated
        else {
            return false;
        };
        let per_length = make.losses.iter().all(|loss| matches!(loss.loss, Attenuation::PerMetre(_)));
        let plain = |(name, _): &(ValueName, usize)| matches!(name, ValueName::Impedance | ValueName::Length);
        per_length && self.values.iter().all(plain)
    }
}

/// The capacitance that is fitted.
#[derive(Debug, Clone, Copy)]
enum Fitted {
    /// It does not change.
    Same(Option<Farad>),
    /// It is the protector's own, of that place among the values.
    Own(usize),
    /// It follows the capacitance of a part: that of the part times this.
    Part(usize, f64),
}

impl Fast {
    /// The fast way for a line; `None` where it must go the long one: a kind, a limit or a value that needs more.
    pub fn of(line: &Line, varying: &Varying) -> Option<Fast> {
        let Kind::Lane(lane) = &line.kind else { return None };
        let bounds = lane.limits.iter().map(|limit| at_nyquist(&limit.of)).collect::<Option<Vec<_>>>()?;
        let elements = &lane.path.elements;
        let mut fitted = Fitted::Same(line.fitted());
        let mut indices: Vec<usize> = Vec::new();
        let mut changing: Vec<Changing> = Vec::new();
        for (at, place) in varying.places.iter().enumerate() {
            let address = &place.of.address;
            match (&address.owner, address.value) {
                (Owner::Element(number), value) => {
                    let index = elements.iter().position(|element| element.number == *number)?;
                    if value == ValueName::Capacitance && matches!(elements[index].element, Element::Protector(_)) {
                        fitted = Fitted::Own(at);
                        continue;
                    }
                    match indices.iter().position(|known| *known == index) {
                        Some(slot) => changing[slot].values.push((value, at)),
                        None => {
                            indices.push(index);
                            let place = elements[index].clone();
                            changing.push(Changing { place, values: vec![(value, at)], plain: false });
                        }
                    }
                }
                (Owner::Part(_), ValueName::Capacitance) => fitted = of_part(line, varying, at)?,
                _ => return None,
            }
        }
        // The neck of a protector is cut from the traces beside it.
        let cut = (0..elements.len()).any(|index| lane.path.cut(index).is_some());
        let neck = |(name, _): &(ValueName, usize)| matches!(name, ValueName::NeckImpedance | ValueName::NeckLength);
        let necked = cut || changing.iter().any(|changing| changing.values.iter().any(neck));
        if necked || stubs_follow(lane, &changing) {
            return None;
        }
        changing.iter_mut().for_each(|changing| changing.plain = changing.is_plain());
        let rebuilt = Rebuilt::new(lane, lane.nyquist(), &indices);
        let limits = Vec::with_capacity(bounds.len());
        let surroundings = Surroundings::of(line)?;
        Some(Fast { rebuilt, surroundings, changing, bounds, fitted, limits, left: Vec::new(), spare: Vec::new() })
    }

    /// Takes these values, in the order of [`Varying::places`]; `None` where the lane cannot be computed at them.
    pub fn set(&mut self, values: &[f64]) -> Option<()> {
        for (slot, changing) in self.changing.iter_mut().enumerate() {
            if let (true, Element::Line(line)) = (changing.plain, &mut changing.place.element) {
                for (name, at) in &changing.values {
                    let value = *values.get(*at)?;
                    if *name == ValueName::Impedance { line.impedance = Ohm(value) } else { line.length = Metre(value) }
                }
                self.rebuilt.change(slot, &changing.place.element);
                continue;
            }
            for (name, at) in &changing.values {
                *changing.place.value_mut(*name)? = *values.get(*at)?;
            }
            let made = resolve::element(&changing.place.stated, &self.surroundings).ok()?;
            let Some(mut made) = made.map(|made| made.value) else {
                self.rebuilt.change(slot, &changing.place.element);
                continue;
            };
            keep_stub(&mut made, &changing.place.element);
            self.rebuilt.change(slot, &made);
        }
        let Fast { rebuilt, bounds, limits, .. } = self;
        limits.clear();
        let mut finite = true;
        let mut bound = bounds.iter();
        rebuilt.functions(bounds.iter().map(|bound| bound.modulus().function()), |absent, with| {
            finite &= absent.is_finite() && with.is_finite();
            limits.extend(bound.next().map(|bound| bound.on(with, absent)));
        });
        finite.then_some(())
    }

    /// The limits at the values last taken.
    pub fn limits(&self) -> &[Inequality] {
        &self.limits
    }

    /// What is fitted at these values.
    pub fn fitted(&self, values: &[f64]) -> Option<Farad> {
        match self.fitted {
            Fitted::Same(fitted) => fitted,
            Fitted::Own(at) => values.get(at).copied().map(Farad),
            Fitted::Part(at, times) => values.get(at).map(|value| Farad(value * times)),
        }
    }

    /// What all limits allow at the values last taken, rising.
    pub fn left(&mut self) -> &[Interval] {
        self.left.clear();
        self.left.push(Interval::ALL);
        for limit in &self.limits {
            self.spare.clear();
            intersect(&self.left, limit.allowed().intervals(), &mut self.spare);
            std::mem::swap(&mut self.left, &mut self.spare);
        }
        &self.left
    }
}

/// The bound of a limit at the Nyquist frequency.
fn at_nyquist(limit: &LaneLimit) -> Option<Bound> {
    match limit {
        LaneLimit::Loss(loss, Over::Level(level)) => Some(Bound::new((*loss).into(), *level)),
        LaneLimit::EyePenalty(level) => Some(Bound::new(Modulus::Fundamental, *level)),
        _ => None,
    }
}

/// A part's capacitance that is fitted, where what is fitted is proportional to it and nothing else follows from it.
fn of_part(line: &Line, varying: &Varying, at: usize) -> Option<Fitted> {
    let place = &varying.places[at];
    let with = |value: f64| line.with_values([(&place.of.address, value)]).ok();
    let (low, high) = (with(place.low)?, with(place.high)?);
    let times = high.fitted()?.0 / place.high;
    let proportional = (low.fitted()?.0 - times * place.low).abs() <= ROUND_OFF * high.fitted()?.0;
    let rest = |line: &Line| Some(Branch::new(line.path()?.protector()?, Ohm(1.0)));
    let guarded = line.path()?.elements.iter().any(|place| matches!(place.element, Element::Guard(_)));
    (times.is_finite() && proportional && rest(&low) == rest(&high) && !guarded).then_some(Fitted::Part(at, times))
}

/// Whether the stub of a protector or a guard follows a trace that changes.
fn stubs_follow(lane: &Lane, changing: &[Changing]) -> bool {
    let has_stub = |place: &PathElement| match &place.element {
        Element::Protector(protector) => protector.stub.0 > 0.0,
        Element::Guard(guard) => guard.stub.0 > 0.0,
        _ => false,
    };
    let varied_stub = |changing: &Changing| {
        let of_part = matches!(changing.place.element, Element::Protector(_) | Element::Guard(_));
        of_part && changing.values.iter().any(|(name, _)| *name == ValueName::Stub)
    };
    use ValueName as V;
    let moves = |changing: &Changing| {
        let harmless = [V::Impedance, V::Length, V::Delay, V::Loss, V::SecondLoss, V::LossTangent];
        let trace = matches!(&changing.place.element, Element::Line(line) if line.medium == Medium::Trace);
        trace && changing.values.iter().any(|(name, _)| !harmless.contains(name))
    };
    let stubs = lane.path.elements.iter().any(has_stub) || changing.iter().any(varied_stub);
    stubs && changing.iter().any(moves)
}

/// Gives the stub of an element that is made anew the permittivity it had.
fn keep_stub(made: &mut Element, before: &Element) {
    match (made, before) {
        (Element::Protector(made), Element::Protector(before)) => made.stub_permittivity = before.stub_permittivity,
        (Element::Guard(made), Element::Guard(before)) => made.stub_permittivity = before.stub_permittivity,
        _ => {}
    }
}
