//! The chain of a lane at one frequency, as functions of the protector's capacitance.

use std::sync::Arc;

use num_complex::Complex64;

use super::elements::Dc;
use super::waves::{Linear, Waves};
use super::{Branch, Mobius, ReferencePlane, Section, TwoPort};
use crate::units::{Hertz, Ohm, Second};

/// The frozen half circuit of a lane, made by [`Chain::new`].
#[derive(Debug, Clone)]
pub struct Chain {
    pub(super) sections: Arc<[Section]>,
    /// Index of the section just inward of the protector.
    pub(super) protector_at: usize,
    /// Index of the section just inward of the reference plane.
    pub(super) plane_at: usize,
    /// Whether the protector lies inward of the reference plane, so that S11 depends on C.
    pub(super) plane_sees_protector: bool,
    pub(super) reference_plane: ReferencePlane,
    pub(super) branch: Branch,
    pub(super) bare: Branch,
    pub(super) reference: f64,
    pub(super) source: f64,
    /// Conductance of the receiver; 0 for an open one.
    pub(super) load: f64,
    pub(super) driver_is_outer: bool,
}

/// What a chain does to a wave at one frequency.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Scattering {
    /// Reflection at the reference plane, looking in.
    pub s11: Complex64,
    /// Transmission between the two ends.
    pub s21: Complex64,
    /// Reflection seen from the inner end.
    pub s22: Complex64,
    /// H = V_receiver/V_source · (Z_source + Z_receiver)/Z_receiver.
    pub transfer: Complex64,
}

impl Scattering {
    /// Whether all four are finite numbers.
    pub fn is_finite(&self) -> bool {
        self.s11.is_finite() && self.s21.is_finite() && self.s22.is_finite() && self.transfer.is_finite()
    }
}

/// A chain at one frequency.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ChainPoint {
    /// The frequency.
    pub frequency: Hertz,
    /// Without the protector, its pad and its stub.
    pub absent: Scattering,
    /// Reflection at the reference plane.
    pub s11: Mobius,
    /// Transmission between the two ends.
    pub s21: Mobius,
    /// Reflection seen from the inner end.
    pub s22: Mobius,
    /// The voltage transfer H.
    pub transfer: Mobius,
}

impl ChainPoint {
    /// With `c` farad fitted; 0 leaves the pad and the stub.
    pub fn at(&self, c: f64) -> Scattering {
        Scattering { s11: self.s11.at(c), s21: self.s21.at(c), s22: self.s22.at(c), transfer: self.transfer.at(c) }
    }

    /// Whether every coefficient is a finite number.
    pub fn is_finite(&self) -> bool {
        self.absent.is_finite() && [self.s11, self.s21, self.s22, self.transfer].iter().all(Mobius::is_finite)
    }
}

/// A function of the capacitance that limits bound.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Function {
    /// The reflection at the port plane, of a feed the one its radio sees.
    S11,
    /// What passes, in waves.
    S21,
    /// The reflection at the inner end.
    S22,
    /// What passes, in voltages.
    Transfer,
}

/// A chain at one frequency before its branch is put in.
pub(super) struct OpenChain<'a> {
    pub(super) chain: &'a Chain,
    pub(super) frequency: Hertz,
    /// From the reference plane, or from the outer end, to the protector.
    pub(super) between: TwoPort,
    pub(super) outer: TwoPort,
    pub(super) inner: TwoPort,
    pub(super) whole: TwoPort,
    /// From the reference plane to the inner end, where the plane sees nothing of the protector.
    pub(super) inward: Option<TwoPort>,
}

impl OpenChain<'_> {
    /// Numerator and denominator of a function.
    fn of(&self, function: Function) -> (Linear, Linear) {
        let chain = self.chain;
        let waves = Waves::new(&self.outer, &self.inner, &self.whole, chain.reference);
        let nothing = Complex64::new(0.0, 0.0);
        match function {
            Function::S11 if !chain.plane_sees_protector => {
                let value = self.inward.unwrap_or(self.inner).scattering(chain.reference)[0];
                (Linear(value, nothing), Linear(Complex64::new(1.0, 0.0), nothing))
            }
            Function::S11 if chain.plane_at == 0 => (waves.inward(), waves.sum()),
            Function::S11 => {
                let from_plane = self.between.then(&self.inner);
                let waves = Waves::new(&self.between, &self.inner, &from_plane, chain.reference);
                (waves.inward(), waves.sum())
            }
            Function::S21 => (Linear(Complex64::new(2.0, 0.0), nothing), waves.sum()),
            Function::S22 => (waves.outward(), waves.sum()),
            Function::Transfer => chain.transfer(&self.outer, &self.inner, &self.whole),
        }
    }

    /// A function without the protector and with its branch.
    pub(super) fn closed_one(&self, function: Function, y: &Mobius) -> (Complex64, Mobius) {
        let (over, under) = self.of(function);
        let absent = over.0 / under.0;
        // A reference plane inward of the protector sees nothing of it.
        let fixed = function == Function::S11 && over.1.norm_sqr() == 0.0 && under.1.norm_sqr() == 0.0;
        (absent, if fixed { Mobius::constant(absent) } else { over.over(under, y) })
    }

    fn closed(&self, y: &Mobius) -> ChainPoint {
        let [s11, s21, s22, transfer] = [Function::S11, Function::S21, Function::S22, Function::Transfer]
            .map(|function| self.closed_one(function, y));
        ChainPoint {
            frequency: self.frequency,
            absent: Scattering { s11: s11.0, s21: s21.0, s22: s22.0, transfer: transfer.0 },
            s11: s11.1,
            s21: s21.1,
            s22: s22.1,
            transfer: transfer.1,
        }
    }
}

impl Chain {
    /// The same lane with a footprint of nothing: no pad, no stub, no ground inductance. The sheet's `resistance`, a neck
    /// and the part's own inductance and resistance stay.
    pub fn without_footprint(&self) -> Chain {
        Chain { branch: self.bare, ..self.clone() }
    }

    /// Delay of the lines of `sections` at f_ref.
    pub fn line_delay(sections: &[Section]) -> Second {
        let own = |section: &Section| match section {
            Section::Line(line) => line.delay().0,
            _ => 0.0,
        };
        Second(sections.iter().map(own).sum())
    }

    /// Whether pad, stub and ground inductance are all zero.
    pub fn has_no_footprint(&self) -> bool {
        self.branch == self.bare
    }

    /// Where S11 is seen.
    pub fn reference_plane(&self) -> ReferencePlane {
        self.reference_plane
    }

    /// The elements from the outer end to the inner end, end pads included, the protector left out.
    pub fn sections(&self) -> &[Section] {
        &self.sections
    }

    /// The elements inward of the reference plane.
    pub fn sections_inward(&self) -> &[Section] {
        &self.sections[self.plane_at..]
    }

    /// Index in [`Chain::sections`] of the element just inward of the protector.
    pub fn protector_at(&self) -> usize {
        self.protector_at
    }

    /// The protector's branch.
    pub fn branch(&self) -> &Branch {
        &self.branch
    }

    /// Z_ref of the half circuit.
    pub fn reference(&self) -> Ohm {
        Ohm(self.reference)
    }

    /// The chain from the outer end to the protector and from there to the inner end, at a frequency above 0.
    pub fn halves(&self, frequency: Hertz) -> [TwoPort; 2] {
        let (split, end) = (self.protector_at, self.sections.len());
        [self.product(0..split, frequency), self.product(split..end, frequency)]
    }

    /// Impedance of the source and of the receiver in the half circuit; `None` for an open one.
    pub fn ends(&self) -> (Ohm, Option<Ohm>) {
        (Ohm(self.source), (self.load > 0.0).then(|| Ohm(1.0 / self.load)))
    }

    /// An estimate of the longest delay between the two ends: lines at f_ref, stubs, and L/Z_ref and C·Z_ref of what is
    /// lumped. It tells how fine a grid of frequencies has to be.
    pub fn delay_estimate(&self) -> Second {
        let own = |section: &Section| match section {
            Section::Line(line) => line.delay().0,
            Section::OpenStub { delay, .. } => delay.0,
            Section::Guard { branch, capacitance } => {
                let stored = (*capacitance + branch.pad).0 * self.reference + branch.inductance.0 / self.reference;
                branch.stub_delay.0 + stored
            }
            Section::SeriesCapacitance(_) | Section::ShuntInductance(_) => 0.0,
            other => {
                other.inductance().map_or(0.0, |l| l.0 / self.reference)
                    + other.capacitance().map_or(0.0, |c| c.0 * self.reference)
            }
        };
        let branch = self.branch.stub_delay.0 + self.branch.pad.0 * self.reference;
        Second(self.sections.iter().map(own).sum::<f64>() + branch)
    }

    /// The chain at one frequency, 0 included.
    ///
    /// M(C) = M_outer M_inner + Y(C) · (second column of M_outer)(first row of M_inner): the protector adds a matrix of
    /// rank one, so each Möbius form takes a few multiplications.
    pub fn at(&self, frequency: Hertz) -> ChainPoint {
        if frequency.0 == 0.0 {
            return self.dc();
        }
        self.open_at(frequency).closed(&self.branch.admittance(frequency))
    }

    /// The chain at one frequency with its own branch and with the one without a footprint.
    pub fn at_both(&self, frequency: Hertz) -> [ChainPoint; 2] {
        if frequency.0 == 0.0 {
            return [self.dc(); 2];
        }
        let open = self.open_at(frequency);
        [self.branch, self.bare].map(|branch| open.closed(&branch.admittance(frequency)))
    }

    /// A function without the protector, and as a function of its capacitance, at a frequency above 0.
    pub fn function_at(&self, function: Function, frequency: Hertz) -> (Complex64, Mobius) {
        self.open_at(frequency).closed_one(function, &self.branch.admittance(frequency))
    }

    fn product(&self, range: std::ops::Range<usize>, frequency: Hertz) -> TwoPort {
        let mut path = TwoPort::IDENTITY;
        self.sections[range].iter().for_each(|section| section.append_to(&mut path, frequency));
        path
    }

    /// The chain at a frequency above 0, its branch not yet chosen.
    fn open_at(&self, frequency: Hertz) -> OpenChain<'_> {
        let split = self.plane_at.min(self.protector_at);
        let between = self.product(split..self.protector_at, frequency);
        let inner = self.product(self.protector_at..self.sections.len(), frequency);
        let outer = if split == 0 { between } else { self.product(0..split, frequency).then(&between) };
        let whole = outer.then(&inner);
        let inward = || self.product(self.plane_at..self.sections.len(), frequency);
        let inward = (!self.plane_sees_protector).then(inward);
        OpenChain { chain: self, frequency, between, outer, inner, whole, inward }
    }

    /// Numerator and denominator of H = (1 + Z_s/Z_r)/(A + B/Z_r + C Z_s + D Z_s/Z_r), A and D exchanged where the inner
    /// end drives.
    /// `whole` is their product.
    fn transfer(&self, outer: &TwoPort, inner: &TwoPort, whole: &TwoPort) -> (Linear, Linear) {
        let (source, load) = (self.source, self.load);
        let (a, d) = if self.driver_is_outer { (whole.a, whole.d) } else { (whole.d, whole.a) };
        let absent = a + whole.b * load + whole.c * source + d * (source * load);
        let per_siemens = if self.driver_is_outer {
            (outer.b + outer.d * source) * (inner.a + inner.b * load)
        } else {
            (outer.d + outer.b * load) * (inner.b + inner.a * source)
        };
        let matched = Complex64::new(1.0 + source * load, 0.0);
        (Linear(matched, Complex64::new(0.0, 0.0)), Linear(absent, per_siemens))
    }

    /// The limit at f = 0, where the protector carries no current.
    fn dc(&self) -> ChainPoint {
        let z = self.reference;
        let looking = |sections: &mut dyn Iterator<Item = &Section>| {
            let (v, i) = sections.fold((z, 1.0), |(v, i), section| match section.dc() {
                Dc::Wire => (v, i),
                Dc::Series(r) => (v + r * i, i),
                Dc::Shunt(g) => (v, i + g * v),
                Dc::Open => (1.0, 0.0),
                Dc::Short => (0.0, 1.0),
            });
            Complex64::new((v - z * i) / (v + z * i), 0.0)
        };
        let mut whole = TwoPort::IDENTITY;
        let mut blocked = false;
        for section in self.sections.iter() {
            match section.dc() {
                Dc::Wire => {}
                Dc::Series(r) => whole.append_series(Complex64::new(r, 0.0)),
                Dc::Shunt(g) => whole.append_shunt(Complex64::new(g, 0.0)),
                Dc::Open | Dc::Short => blocked = true,
            }
        }
        let pass = if blocked { 0.0 } else { 1.0 };
        let (voltage, drive) = self.transfer(&whole, &TwoPort::IDENTITY, &whole);
        let absent = Scattering {
            s11: looking(&mut self.sections_inward().iter().rev()),
            s21: whole.scattering(z)[1] * pass,
            s22: looking(&mut self.sections.iter()),
            transfer: voltage.0 / drive.0 * pass,
        };
        ChainPoint {
            frequency: Hertz(0.0),
            absent,
            s11: Mobius::constant(absent.s11),
            s21: Mobius::constant(absent.s21),
            s22: Mobius::constant(absent.s22),
            transfer: Mobius::constant(absent.transfer),
        }
    }
}
