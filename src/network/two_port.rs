//! ABCD matrices.

use num_complex::Complex64;

/// A two-port by its chain matrix: V1 = A V2 + B I2, I1 = C V2 + D I2.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TwoPort {
    /// Voltage ratio, output open.
    pub a: Complex64,
    /// Transfer impedance in ohm.
    pub b: Complex64,
    /// Transfer admittance in siemens.
    pub c: Complex64,
    /// Current ratio, output short.
    pub d: Complex64,
}

const ZERO: Complex64 = Complex64::new(0.0, 0.0);
const ONE: Complex64 = Complex64::new(1.0, 0.0);

impl TwoPort {
    /// A through connection.
    pub const IDENTITY: TwoPort = TwoPort { a: ONE, b: ZERO, c: ZERO, d: ONE };

    /// An impedance in the line: \[1, Z; 0, 1\] (Pozar, *Microwave Engineering*, table of ABCD parameters).
    pub fn series(z: Complex64) -> Self {
        TwoPort { b: z, ..Self::IDENTITY }
    }

    /// An admittance across the line: \[1, 0; Y, 1\] (same table).
    pub fn shunt(y: Complex64) -> Self {
        TwoPort { c: y, ..Self::IDENTITY }
    }

    /// A uniform line: \[cosh γℓ, Zc sinh γℓ; sinh γℓ/Zc, cosh γℓ\] (same table).
    pub fn line(gamma_length: Complex64, impedance: Complex64) -> Self {
        let (sin, cos) = gamma_length.im.sin_cos();
        // Both from one exponential, without cancellation in the small one.
        let less_one = gamma_length.re.exp_m1();
        let sinh = 0.5 * (less_one + less_one / (1.0 + less_one));
        let cosh = 1.0 + less_one - sinh;
        let cosh_line = Complex64::new(cosh * cos, sinh * sin);
        let sinh_line = Complex64::new(sinh * cos, cosh * sin);
        TwoPort { a: cosh_line, b: impedance * sinh_line, c: sinh_line / impedance, d: cosh_line }
    }

    /// This two-port followed by `next`.
    pub fn then(&self, next: &TwoPort) -> Self {
        TwoPort {
            a: self.a * next.a + self.b * next.c,
            b: self.a * next.b + self.b * next.d,
            c: self.c * next.a + self.d * next.c,
            d: self.c * next.b + self.d * next.d,
        }
    }

    /// Appends an impedance in the line.
    pub(super) fn append_series(&mut self, z: Complex64) {
        self.b += self.a * z;
        self.d += self.c * z;
    }

    /// Appends an admittance across the line.
    pub(super) fn append_shunt(&mut self, y: Complex64) {
        self.a += self.b * y;
        self.c += self.d * y;
    }

    /// S11, S21 and S22 in a real reference impedance; S12 is S21, since every element here is reciprocal
    /// (Pozar, *Microwave Engineering*, conversion table).
    pub fn scattering(&self, reference: f64) -> [Complex64; 3] {
        let (b, c) = (self.b / reference, self.c * reference);
        let sum = self.a + b + c + self.d;
        [(self.a + b - c - self.d) / sum, 2.0 / sum, (self.d + b - c - self.a) / sum]
    }
}
