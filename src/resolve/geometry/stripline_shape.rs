//! What a single stripline and a coupled one share: the strip between two planes.

use std::f64::consts::{FRAC_PI_2, PI};

use super::{CrossSection, ETA_0};

/// Width and thickness in units of the plane spacing.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Strip {
    pub(crate) w: f64,
    pub(crate) t: f64,
}

impl Strip {
    pub(crate) fn of(section: CrossSection) -> Self {
        Self {
            w: (section.width / section.height).clamp(0.01, 100.0),
            t: (section.thickness / section.height).min(0.5),
        }
    }

    /// The strip without thickness.
    pub(crate) fn thin(self) -> Self {
        Self { t: 0.0, ..self }
    }

    pub(crate) fn air_impedance(self) -> f64 {
        let Self { w, t: x } = self;
        let ratio = if x > 0.0 {
            let m = 2.0 / (1.0 + 2.0 / 3.0 * x / (1.0 - x));
            let inner = (x / (2.0 - x)).powi(2) + (0.0796 * x / (w + 1.1 * x)).powf(m);
            w / (1.0 - x) + x / (PI * (1.0 - x)) * (1.0 - 0.5 * inner.ln())
        } else {
            w
        };
        let a = FRAC_PI_2 * ratio;
        ETA_0 / 4.0 * elliptic_ratio(1.0 / a.cosh(), a.tanh())
    }
}

/// K(k)/K(k') for moduli with k² + k'² = 1, by the arithmetic–geometric mean: K(k) = π/(2 agm(1, k')).
pub(crate) fn elliptic_ratio(k: f64, k_prime: f64) -> f64 {
    agm(k) / agm(k_prime)
}

/// Arithmetic–geometric mean of 1 and `b` > 0.
fn agm(b: f64) -> f64 {
    let (mut a, mut b) = (1.0, b);
    // Quadratic convergence: from the smallest b that occurs (1e-200) a dozen steps reach rounding.
    for _ in 0..40 {
        if (a - b).abs() <= 1e-16 * a {
            break;
        }
        (a, b) = (0.5 * (a + b), (a * b).sqrt());
    }
    a
}
