//! Quantities that are linear in the matrix of a chain, and the waves they make.

use num_complex::Complex64;

use super::{Mobius, TwoPort};

/// A quantity of the chain that is linear in its matrix: its value without the protector, and per siemens there.
#[derive(Clone, Copy)]
pub(super) struct Linear(pub(super) Complex64, pub(super) Complex64);

impl Linear {
    /// This over `denominator`, with the branch admittance Y = (p + qC)/(r + sC) put in.
    pub(super) fn over(self, denominator: Linear, y: &Mobius) -> Mobius {
        Mobius {
            p: self.0 * y.r + self.1 * y.p,
            q: self.0 * y.s + self.1 * y.q,
            r: denominator.0 * y.r + denominator.1 * y.p,
            s: denominator.0 * y.s + denominator.1 * y.q,
        }
    }
}

/// What goes in and comes out of `outer`, protector, `inner` in the reference Z, `whole` their product.
pub(super) struct Waves<'a> {
    whole: &'a TwoPort,
    b: Complex64,
    c: Complex64,
    /// Second column of `outer` and first row of `inner`, as voltages.
    u: Complex64,
    w: Complex64,
    v: Complex64,
    x: Complex64,
}

impl<'a> Waves<'a> {
    pub(super) fn new(outer: &TwoPort, inner: &TwoPort, whole: &'a TwoPort, z: f64) -> Self {
        let (b, c) = (whole.b / z, whole.c * z);
        Waves { whole, b, c, u: outer.b, w: outer.d * z, v: inner.a, x: inner.b / z }
    }

    /// A + B/Z + CZ + D.
    pub(super) fn sum(&self) -> Linear {
        Linear(self.whole.a + self.b + self.c + self.whole.d, (self.u + self.w) * (self.v + self.x))
    }

    /// A + B/Z − CZ − D.
    pub(super) fn inward(&self) -> Linear {
        Linear(self.whole.a + self.b - self.c - self.whole.d, (self.u - self.w) * (self.v + self.x))
    }

    /// −A + B/Z − CZ + D.
    pub(super) fn outward(&self) -> Linear {
        Linear(self.whole.d + self.b - self.c - self.whole.a, (self.u + self.w) * (self.x - self.v))
    }
}
