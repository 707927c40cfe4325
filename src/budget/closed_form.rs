//! |S(C)| ≤ k and |S(C)| ≥ k, solved for C.

use super::Interval;
use crate::network::Mobius;

/// The unit the quadratic is solved in, so that its coefficients are of like size: 1 pF.
const UNIT: f64 = 1e-12;
/// Share of a sum's terms below which the sum counts as zero: the round-off of a cascade of some ten two-ports.
const ROUND_OFF: f64 = 64.0 * f64::EPSILON;

/// Adding 0 turns a root of −0 into 0.
fn farad(root: f64) -> f64 {
    root * UNIT + 0.0
}

/// At most two intervals: what a quadratic inequality allows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Allowed {
    parts: [Interval; 2],
    count: usize,
}

impl Allowed {
    /// Nothing.
    pub const NONE: Allowed = Allowed { parts: [Interval::ALL; 2], count: 0 };
    /// Every capacitance.
    pub const ALL: Allowed = Allowed { parts: [Interval::ALL; 2], count: 1 };

    fn one(low: f64, high: f64) -> Self {
        let part = Interval { low: farad(low.max(0.0)), high: farad(high) };
        if high < 0.0 { Allowed::NONE } else { Allowed { parts: [part; 2], count: 1 } }
    }

    /// Everything but what lies between two roots.
    fn around(low: f64, high: f64) -> Self {
        if low < 0.0 {
            return Allowed::one(high, f64::INFINITY);
        }
        let parts = [Interval { low: 0.0, high: farad(low) }, Interval { low: farad(high), high: f64::INFINITY }];
        Allowed { parts, count: 2 }
    }

    /// The intervals, rising.
    pub fn intervals(&self) -> &[Interval] {
        &self.parts[..self.count]
    }
}

/// The C ≥ 0 with |S(C)| ≤ `bound`.
pub fn at_most(function: &Mobius, bound: f64) -> Allowed {
    if bound < 0.0 {
        return Allowed::NONE;
    }
    solve(quadratic(function, bound))
}

/// The C ≥ 0 with |S(C)| ≥ `bound`.
pub fn at_least(function: &Mobius, bound: f64) -> Allowed {
    if bound <= 0.0 {
        return Allowed::ALL;
    }
    solve(quadratic(function, bound).map(|c| -c))
}

/// Coefficients of |p + qC|² − k²|r + sC|² in rising powers of C/pF, over the largest of |p|², |q|², k²|r|² and k²|s|².
/// A coefficient that is the difference of two equal sizes but for round-off is 0.
pub fn quadratic(function: &Mobius, bound: f64) -> [f64; 3] {
    let (p, q) = (function.p, function.q * UNIT);
    let (r, s) = (function.r * bound, function.s * (UNIT * bound));
    let size = [p, q, r, s].iter().fold(0.0f64, |size, x| size.max(x.re.abs()).max(x.im.abs()));
    if size == 0.0 {
        return [0.0; 3];
    }
    let [p, q, r, s] = [p / size, q / size, r / size, s / size];
    let [np, nq, nr, ns] = [p, q, r, s].map(|x| x.norm_sqr().sqrt());
    let snap = |value: f64, terms: f64| if value.abs() <= ROUND_OFF * terms { 0.0 } else { value };
    [
        snap((np - nr) * (np + nr), np * np + nr * nr),
        snap(2.0 * ((p * q.conj()).re - (r * s.conj()).re), 2.0 * (np * nq + nr * ns)),
        snap((nq - ns) * (nq + ns), nq * nq + ns * ns),
    ]
}

/// The x ≥ 0 with c0 + c1 x + c2 x² ≤ 0, times the unit.
fn solve([c0, c1, c2]: [f64; 3]) -> Allowed {
    if c2 == 0.0 {
        return match c1 {
            0.0 if c0 <= 0.0 => Allowed::ALL,
            0.0 => Allowed::NONE,
            _ if c1 > 0.0 => Allowed::one(0.0, -c0 / c1),
            _ => Allowed::one(-c0 / c1, f64::INFINITY),
        };
    }
    let discriminant = c1 * c1 - 4.0 * c2 * c0;
    let touches = discriminant >= -ROUND_OFF * (c1 * c1 + 4.0 * (c2 * c0).abs());
    if !touches {
        return if c2 > 0.0 { Allowed::NONE } else { Allowed::ALL };
    }
    // Both roots without cancellation (Press et al., *Numerical Recipes*, 3rd ed., section 5.6).
    let sum = -0.5 * (c1 + discriminant.max(0.0).sqrt().copysign(c1));
    let (one, other) = (sum / c2, if sum == 0.0 { 0.0 } else { c0 / sum });
    let (low, high) = (one.min(other), one.max(other));
    if c2 > 0.0 {
        Allowed::one(low, high)
    } else if low == high || high < 0.0 {
        Allowed::ALL
    } else {
        Allowed::around(low, high)
    }
}
